using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;

namespace MicRegister.Register.Tests.Deployment;

/// <summary>
/// The figures that the phone works out offline, here by the desk's code. Expected values: vectors.py, a third implementation (python 3.11.2,
/// scipy 1.10.1); the browser tests hold the phone's code to the same file.
/// </summary>
public sealed class FieldVectorTests
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) } };

    private static readonly JsonNode Vectors = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "vectors.json")))!;

    public static TheoryData<string> Names => [.. Vectors["checks"]!.AsArray().Select(c => (string)c!["name"]!)];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_check_is_worked_out_and_judged_as_on_the_phone(string name)
    {
        var vector = Vectors["checks"]!.AsArray().Single(c => (string)c!["name"]! == name)!;
        var expected = vector["expected"]!;
        var register = RegisterOf(vector["register"]!);
        var entry = vector["entry"].Deserialize<CheckEntry>(Web)!;

        var worked = CheckWork.Out(register, entry);

        if ((bool?)expected["isRefused"] == true)
        {
            Assert.Contains((string)expected["says"]!, Assert.IsType<Result<ChainChecked>.Rejected>(worked).Why.Text, StringComparison.Ordinal);
            return;
        }
        var check = Assert.IsType<Result<ChainChecked>.Accepted>(worked).Value;
        Assert.Equal((string)expected["calibratorCertificate"]!, check.CalibratorCertificate);
        Assert.Equal((bool)expected["pressureIsEstimated"]!, check.PressureIsEstimated);
        Same(expected["calibratorDb"], check.CalibratorDb);
        Same(expected["sensitivityDb"], check.SensitivityDb);
        Same(expected["indicatedDb"], check.IndicatedDb);
        Same(expected["deviationDb"], check.DeviationDb);
        Same(expected["rangeV"], check.RangeV);
        Assert.Equal((string?)expected["sensitivityUnit"], check.SensitivityUnit);
        Close(expected["standardDb"], check.StandardDb);
        Close(expected["coverageFactor"], check.CoverageFactor);
        Close(expected["expandedDb"], check.ExpandedDb);
        Terms(expected["terms"]!, check.CalibratorTerms);
        Terms(expected["expectedTerms"]!, check.ExpectedTerms);
        Judged(vector, register, entry, check, expected);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_phone_is_told_of_devices_what_the_vectors_say(string name)
    {
        var vector = Vectors["checks"]!.AsArray().Single(c => (string)c!["name"]! == name)!;
        var register = RegisterOf(vector["register"]!);
        foreach (var device in vector["kit"]!["devices"]!.AsArray())
        {
            var state = register.Device((string)device!["id"]!)!;
            if (device["microphone"] is { } microphone)
            {
                var kit = MicrophoneKit.Of(state);
                Assert.Equal((string)microphone["modelKey"]!, kit.ModelKey);
                Close(microphone["sensitivity"]?["atReferenceDb"], kit.Sensitivity?.AtReferenceDb);
                Close(microphone["sensitivity"]?["standardDb"], kit.Sensitivity?.StandardDb);
                Assert.Equal((string?)microphone["sensitivity"]?["certificate"], kit.Sensitivity?.Certificate);
                Assert.Equal((bool?)microphone["sensitivity"]?["isLoaded"], kit.Sensitivity?.IsLoaded);
                Assert.Equal((bool?)microphone["sensitivity"]?["isPressureField"], kit.Sensitivity?.IsPressureField);
            }
            if (device["gain"] is { } gain) Terms(new JsonArray(gain.DeepClone()), [GainKit.Of(state)!]);
            if (device["calibrator"] is { } calibrator)
            {
                var kit = CalibratorKit.Of(state);
                Assert.Equal((string)calibrator["law"]!, kit.Law);
                Assert.Equal((bool)calibrator["lawIsStated"]!, kit.LawIsStated);
                Assert.Equal(calibrator["levels"]!.AsArray().Select(l => (string)l!["certificate"]!), kit.Levels.Select(l => l.Certificate));
                Assert.Equal(calibrator["levels"]!.AsArray().Select(l => (double)l!["levelDb"]!), kit.Levels.Select(l => l.LevelDb));
                Assert.Equal(calibrator["couplings"]!.AsArray().Select(c => (string)c!["modelKey"]!), kit.Couplings.Select(c => c.ModelKey));
            }
        }
    }

    [Fact]
    public void Label_codes_are_read_as_on_the_phone()
    {
        foreach (var label in Vectors["labels"]!.AsArray())
        {
            var isCode = LabelCode.TryRead((string)label!["text"]!, out var code, out _);
            Assert.Equal((bool?)label["isBad"] != true, isCode);
            if (isCode) Assert.Equal(((string)label["code"]!, (string)label["spoken"]!), (code.Text, code.Spoken));
        }
    }

    [Fact]
    public void Facts_are_written_as_on_the_phone()
    {
        foreach (var fact in Vectors["facts"]!.AsArray())
        {
            var canonical = (string)fact!["canonical"]!;
            using var document = JsonDocument.Parse(fact["fact"]!.ToJsonString());
            Assert.Equal(canonical, Encoding.UTF8.GetString(CanonicalJson.Write(document.RootElement)));
            Assert.Equal(canonical, Encoding.UTF8.GetString(FactText.ReadCanonical(Encoding.UTF8.GetBytes(canonical)).Bytes.Span));
        }
    }

    private static void Judged(JsonNode vector, Register register, CheckEntry entry, ChainChecked check, JsonNode expected)
    {
        var fact = FactText.Write(FactId.Parse((string)vector["fact"]!), new(At(entry.At!), "P1", "phone-1.ABCD", 900), check, [Subject.Campaign(entry.Campaign!), .. check.Devices.Select(Subject.Device), Subject.Device(check.Calibrator)]);
        var all = CheckBook.OfCampaign(register.WhatIf([fact]), entry.Campaign!);
        var judged = CheckJudge.Judge(register.Profile("vectors"), all.Single(c => c.Fact == fact.Id), all);

        Assert.Equal((string)expected["word"]!, judged.Word);
        Same(expected["spreadDb"], judged.SpreadDb);
        Assert.Equal((string?)expected["verdict"], judged.Verdict is { } v ? JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()) : null);
        var comparisons = expected["comparisons"]!.AsArray();
        Assert.Equal(comparisons.Select(c => (string)c!["what"]!), judged.Comparisons.Select(c => c.What));
        foreach (var (want, is_) in comparisons.Zip(judged.Comparisons))
        {
            Same(want!["differenceDb"], is_.DifferenceDb);
            Close(want["standardDb"], is_.StandardDb);
            Close(want["expandedDb"], is_.ExpandedDb);
            Same(want["probability"], is_.Probability);
        }
    }

    private static Register RegisterOf(JsonNode said)
    {
        var campaign = said["campaign"]!;
        var id = (string)campaign["id"]!;
        DateOnly Day(string name) => Make.Day((string)campaign[name]!);
        var counter = 0;
        List<Fact> facts =
        [
            Stated(new ProfileWritten("Vectors", "", [.. said["limits"]!.AsObject().Select(l => l.Value!.GetValueKind() == JsonValueKind.String ? new ProfileLimit(l.Key, null, (string)l.Value!, "made", "made") : new ProfileLimit(l.Key, (double)l.Value!, null, "made", "made"))]), Subject.Profile("vectors")),
            Stated(new CampaignPlanned((string)campaign["name"]!, Day("firstDay"), Day("lastDay"), (string)campaign["zone"]!, [.. campaign["offsets"]!.AsArray().Select(o => new ZoneOffset((string)o!["fromUtc"]!, (int)o["minutes"]!))], (string)campaign["site"]!, (double)campaign["altitudeM"]!, SourceClass.Other, 20, 10_000, null, null, "vectors", 0, null), Subject.Campaign(id)),
        ];
        foreach (var station in campaign["stations"]!.AsArray())
        {
            facts.Add(Stated(new StationPlanned((string)station!["name"]!, 53, 1, Mount.FlushPlate, null), Subject.Campaign(id)));
            facts.Add(Stated(new ChainPlanned((string)station["name"]!, [.. station["devices"]!.AsArray().Select(d => (string)d!)]), Subject.Campaign(id)));
        }
        foreach (var device in said["devices"]!.AsArray())
        {
            var subject = Subject.Device((string)device!["id"]!);
            var details = device["details"]!.AsObject().Select(d => (d.Key, d.Value!.GetValueKind() == JsonValueKind.String ? (object)(string)d.Value! : (double)d.Value!)).ToArray();
            facts.Add(Stated(new DeviceRegistered((string)device["kind"]!, "Maker", (string?)device["model"], (string)device["id"]!, Make.Details(details)), subject));
            foreach (var c in device["certificates"]!.AsArray()) facts.Add(Certificate(c!, subject));
            foreach (var c in device["couplings"]!.AsArray()) facts.Add(Stated(c.Deserialize<CouplingStated>(Web)!, subject));
        }
        var register = FactList.RegisterOf(facts);
        foreach (var earlier in said["earlier"]!.AsArray())
        {
            var entry = earlier!["entry"].Deserialize<CheckEntry>(Web)!;
            var check = Assert.IsType<Result<ChainChecked>.Accepted>(CheckWork.Out(register, entry)).Value;
            facts.Add(FactText.Write(FactId.Parse((string)earlier["fact"]!), new(At(entry.At!), "P1", "phone-1.ABCD", counter++), check, [Subject.Campaign(entry.Campaign!), .. check.Devices.Select(Subject.Device), Subject.Device(check.Calibrator)]));
            register = FactList.RegisterOf(facts);
        }
        return register;

        Fact Stated(FactBody body, params string[] subjects) => FactText.WriteDerived(new(Make.On("2026-01-01"), "P1", "desk", counter++), body, subjects);
    }

    private static Fact Certificate(JsonNode c, string subject)
    {
        var frequency = (double?)c["frequencyHz"];
        var issued = new CertificateIssued(
            (string)c["quantity"]!, null, "House", null, (string?)c["field"], null, (string?)c["loading"], frequency, [new(AdjustmentState.AsFoundAndLeft, (double)c["value"]!, (string)c["unit"]!, (double?)c["expandedUncertainty"], (string?)c["uncertaintyUnit"], (double?)c["coverageFactor"])],
            c["air"].Deserialize<StatedAir>(Web), null, null, null, null, null, null)
        { StatedForKPa = (double?)c["statedForKPa"] };
        return FactText.Write(FactId.Parse((string)c["id"]!), new(Make.On((string)c["day"]!), "P1", "desk", 0), issued, [subject]);
    }

    private static void Terms(JsonNode expected, IReadOnlyList<CheckTerm> terms)
    {
        Assert.Equal(expected.AsArray().Select(t => (string)t!["name"]!), terms.Select(t => t.Name));
        foreach (var (want, term) in expected.AsArray().Zip(terms))
        {
            Same(want!["valueDb"], term.ValueDb);
            Close(want["standardDb"], term.StandardDb);
            Assert.Equal((string)want["source"]!, term.Source);
            Assert.Equal((string?)want["remark"], term.Remark);
        }
    }

    private static Occurred At(string text) => Make.On(text);

    // Levels are rounded to 1e-6 dB by both; 1e-9 leaves room for the last bits of a logarithm alone.
    private static void Same(JsonNode? expected, double? actual)
    {
        Assert.Equal(expected is null, actual is null);
        if (expected is not null) Assert.Equal((double)expected, actual!.Value, 1e-9);
    }

    // The quantile of Student's t of the library here is good to 1e-8.
    private static void Close(JsonNode? expected, double? actual)
    {
        Assert.Equal(expected is null, actual is null);
        if (expected is not null) Assert.True(Math.Abs((double)expected - actual!.Value) <= 1e-8 * Math.Max(1, Math.Abs((double)expected)), string.Create(CultureInfo.InvariantCulture, $"{expected} and {actual}"));
    }
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;

namespace MicRegister.Browser.Tests.Field;

/// <summary>An invented campaign of a few stations on a heath, with a label on everything.</summary>
internal static class HeathCampaign
{
    public const string Id = "HEATH-26";
    private const string Campaign = "campaign:" + Id;
    private static readonly string[] Kinds = ["ground-plate", "microphone", "preamplifier", "recorder-channel"];

    /// <summary>Code of the label on a station or device, always the same.</summary>
    public static LabelCode Label(string thing)
    {
        var random = new Random(thing.Aggregate(17, (h, c) => unchecked((h * 31) + c)));
        return LabelCode.Draw(n =>
        {
            var bytes = new byte[n];
            random.NextBytes(bytes);
            return bytes;
        });
    }

    /// <summary>Ids of the devices planned for a station, in the order in which they are laid out.</summary>
    public static string[] Chain(int station) => [$"PLATE{station}", $"MIC{station}", $"PRE{station}", $"CHAN{station}"];

    public static string Station(int number) => $"S{number:00}";

    /// <summary>All facts.</summary>
    /// <param name="stations">How many stations.</param>
    public static IReadOnlyList<Fact> Facts(int stations)
    {
        var counter = 0;
        var facts = new List<Fact>();
        void Say(FactBody body, params string[] subjects) => facts.Add(FactText.WriteDerived(new(Occurred.On(new(2026, 7, 1)), "P1", "desk", counter++), body, subjects));
        void Bind(string code, string? station, string subject) => Say(new LabelBound(code, station), Subject.Label(code), subject);
        Say(new RegisterFounded("HEATH", "Heath", "UTC", [new("2026-01-01T00:00:00.000Z", 0)]), Subject.TheRegister);
        // So long that the real clock of a browser always lies in it.
        Say(new CampaignPlanned("Heath 26", new(2026, 8, 1), new(2099, 12, 31), "UTC", [new("2026-01-01T00:00:00.000Z", 0)], "Heath", 100, SourceClass.Propeller, 50, 10_000, null, null, "heath", 0, 0), Campaign);
        Say(new ProfileWritten("Heath", "", [new(LimitKey.CheckDeviationDb, 0.5, null, "made", "made"), new(LimitKey.CheckDifferenceDb, 0.3, null, "made", "made")]), "profile:heath");
        for (var i = 1; i <= stations; i++)
        {
            Say(new StationPlanned(Station(i), 53.501 + ((i - 1) % 6 * 0.001), 1.2 + ((i - 1) / 6 * 0.002), Mount.FlushPlate, null), Campaign);
            Bind(Label(Station(i)).Text, Station(i), Campaign);
            foreach (var (id, kind) in Chain(i).Zip(Kinds))
            {
                Say(new DeviceRegistered(kind, "House", "Model " + kind, (kind switch { "ground-plate" => 70000, "microphone" => 41000, "preamplifier" => 52000, _ => 63000 } + i).ToString(System.Globalization.CultureInfo.InvariantCulture), kind switch
                {
                    "microphone" => new(StringComparer.Ordinal) { ["response-type"] = FieldValue.Of("pressure"), ["size-mm"] = FieldValue.Of(12.7), ["highest-hz"] = FieldValue.Of(20_000) },
                    "ground-plate" => new(StringComparer.Ordinal) { ["plate-style"] = FieldValue.Of("flush"), ["fits-mm"] = FieldValue.Of(12.7) },
                    "recorder-channel" => new(StringComparer.Ordinal) { ["range-v"] = FieldValue.Of(10) },
                    _ => new(StringComparer.Ordinal),
                }), "device:" + id);
                Bind(Label(id).Text, null, "device:" + id);
            }
            Say(Issued("sensitivity", -38 + (0.01 * i), "dB re 1 V/Pa", 250), "device:" + Chain(i)[1]);
            Say(Issued("gain", -0.1, "dB", null), "device:" + Chain(i)[2]);
            Say(new ChainPlanned(Station(i), Chain(i)), [Campaign, .. Chain(i).Select(Subject.Device)]);
        }
        Say(new DeviceRegistered("sound-calibrator", "House", "Tone 250", "K1", new(StringComparer.Ordinal) { ["pressure-law"] = FieldValue.Of("adiabatic") }), "device:CAL1");
        Say(Issued("level", 124, "dB", 250), "device:CAL1");
        Bind(Label("CAL1").Text, null, "device:CAL1");
        Say(new KitPlanned(KitPurpose.Check, ["CAL1"]), Campaign, "device:CAL1");
        return facts;
    }

    /// <summary>A microphone with a label and a certificate that nobody planned.</summary>
    public static IEnumerable<Fact> Stranger(string id)
    {
        FactStamp At(int counter) => new(Occurred.On(new(2026, 7, 1)), "P1", "desk", counter);
        var details = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal) { ["response-type"] = FieldValue.Of("pressure") };
        var registered = new DeviceRegistered("microphone", "House", "Model microphone", "49001", details);
        yield return FactText.WriteDerived(At(90_001), registered, [Subject.Device(id)]);
        yield return FactText.WriteDerived(
            At(90_002), new LabelBound(Label(id).Text, null), [Subject.Label(Label(id).Text), Subject.Device(id)]);
        yield return FactText.WriteDerived(At(90_003), Issued("sensitivity", -38, "dB re 1 V/Pa", 250), [Subject.Device(id)]);
    }

    /// <summary>A certificate of a station's recorder channel, whose gain is as it should be.</summary>
    public static Fact ChannelCertificate(int station) => FactText.WriteDerived(
        new(Occurred.On(new(2026, 7, 1)), "P1", "desk", 91_000 + station), Issued("gain", 0, "dB", null),
        [Subject.Device(Chain(station)[3])]);

    private static CertificateIssued Issued(string quantity, double value, string unit, double? hz) => new(
        quantity, null, "House", null, null, null, null, hz, [new(AdjustmentState.AsFoundAndLeft, value, unit, 0.1, "dB", 2)], null, null, null, new DateOnly(2199, 1, 1), null, null, null);
}

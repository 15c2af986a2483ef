using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests;

/// <summary>
/// An invented array in plates, each chain checked in the morning and in the evening of 2 June, with events of a minute each hour
/// from 10:00 UTC on.
/// </summary>
internal static class LargeArray
{
    public const string C = "FEN-26";

    public static string Station(int i, string prefix = "S") => FormattableString.Invariant($"{prefix}{i:000}");

    public static string Event(int i) => $"{C}.RUN-{i}";

    /// <summary>The facts.</summary>
    /// <param name="stations">How many stations are planned.</param>
    /// <param name="events">How many events there are.</param>
    /// <param name="unchecked">Numbers of stations that nobody checked: doubtful.</param>
    /// <param name="empty">Numbers of stations where nothing was placed: not valid.</param>
    /// <param name="swapped">Numbers of stations where the microphone is swapped within the first event, the new one not checked.</param>
    /// <param name="prefix">What names of stations begin with.</param>
    public static IEnumerable<Fact> Facts(
        int stations, int events, int[]? @unchecked = null, int[]? empty = null, int[]? swapped = null, string prefix = "S")
    {
        yield return Of(
            new CampaignPlanned(
                "Fen", new(2026, 6, 1), new(2026, 6, 10), "UTC", [], "Fen", 20, SourceClass.Propeller, 20, 10_000, null, null,
                BuiltInProfiles.Usual, 0, null),
            "2026-05-01", "campaign:" + C);
        yield return Entered("K1", "501", "sound-calibrator", ("calibrator-class", "1"));
        yield return CertificateOfK1;
        for (var i = 1; i <= stations; i++)
        {
            yield return Of(new StationPlanned(Station(i, prefix), 53 + (0.0001 * i), 1, Mount.FlushPlate, null), "2026-05-01", "campaign:" + C);
            foreach (var n in swapped?.Contains(i) == true ? new[] { i, i + 1000 } : [i])
            {
                yield return Entered($"M{n}", $"{4000 + n}", "microphone", ("response-type", "pressure"));
                yield return Of(Issued(-38.16, 0.06, "sensitivity", "dB re 1 V/Pa"), "2026-03-01", $"device:M{n}");
            }
            yield return Entered($"R{i}", $"{7000 + i}", "recorder-channel");
            yield return Of(Issued(0.003, 0.04, "gain", "dB"), "2026-02-01", $"device:R{i}");
            if (empty?.Contains(i) == true) continue;
            yield return Placed(i, prefix, "06:00:00", $"M{i}", null);
            if (swapped?.Contains(i) == true) yield return Placed(i, prefix, "10:00:30", $"M{i + 1000}", new($"M{i}", $"M{i + 1000}", "it crackled"));
            if (@unchecked?.Contains(i) == true) continue;
            yield return Checked(i, prefix, "07:00:00", CheckMoment.Before);
            yield return Checked(i, prefix, "20:00:00", CheckMoment.After);
        }
        for (var i = 0; i < events; i++)
        {
            var start = FormattableString.Invariant($"2026-06-02T{10 + (i / 60):00}:{i % 60:00}:00.000Z");
            yield return At(
                start, new EventHappened($"Run {i}", start, start.Replace(":00.000Z", ":50.000Z", StringComparison.Ordinal), EventKind.FlyOver, null, [], null),
                "event:" + Event(i), "campaign:" + C);
        }
    }

    public static Fact Of(FactBody body, string day, params string[] subjects) =>
        FactText.WriteDerived(new(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), "P1", "desk", 0), body, subjects);

    public static Fact At(string at, FactBody body, params string[] subjects) => FactText.WriteDerived(
        new(Occurred.TryParse(at, out var occurred) ? occurred : throw new ArgumentException(at, nameof(at)), "P1", "phone-1.ABCD", 1), body, subjects);

    private static Fact Entered(string id, string serial, string kind, params (string Key, string Value)[] details)
    {
        var all = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal);
        foreach (var (key, value) in details) all[key] = FieldValue.Of(value);
        return Of(new DeviceRegistered(kind, "Maker", "Model", serial, all), "2020-01-01", "device:" + id);
    }

    private static Fact CertificateOfK1 => Of(Issued(94, 0.1, "level", "dB"), "2026-01-05", "device:K1");

    private static CertificateIssued Issued(double value, double expanded, string quantity, string unit) => new(
        quantity, null, "House", null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, value, unit, expanded, "dB", 2)],
        null, null, null, null, null, null, null);

    private static Fact Placed(int i, string prefix, string time, string microphone, PartSwap? swap) => At(
        $"2026-06-02T{time}.000Z",
        new ChainPlaced(Station(i, prefix), [microphone, $"R{i}"], [], null, true, null, null, swap, [], null),
        "campaign:" + C, "device:" + microphone, $"device:R{i}");

    private static Fact Checked(int i, string prefix, string time, CheckMoment moment) => At(
        $"2026-06-02T{time}.000Z",
        new ChainChecked(
            Station(i, prefix), moment, [$"M{i}", $"R{i}"], "K1", CertificateOfK1.Id.ToString(), null, null, false, CheckMethod.Voltage,
            [20e-6 * Math.Pow(10, (94 - 38.16) / 20)], null, 10, 94, [new("certificate", 94, 0.05, "certificate of K1", null)], -38.16, "V/Pa", null,
            [new("microphone's certificate", -38.16, 0.03, "certificate of the microphone", null)], 0,
            [
                new("certificate", "certificate of K1", 0.05, "dB", -1, null, UncertaintyDistribution.Normal),
                new("one insertion, assumed", BudgetLine.Own + "insertions", 0.03, "dB", 1, 4, UncertaintyDistribution.Normal),
            ],
            0.0583, 2, 0.1166, null, null),
        "campaign:" + C, "device:K1", $"device:M{i}", $"device:R{i}");
}

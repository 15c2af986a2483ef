using System.Globalization;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Benchmarks;

/// <summary>Facts of a large invented fleet.</summary>
internal static class Fleet
{
    private static readonly DateOnly Begin = new(2016, 1, 1);

    public static Fact Device(int i, string kind) => FactText.WriteDerived(
        FactStamp.Imported(Occurred.Unknown, 0),
        new DeviceRegistered(kind, "Maker A", "A-12", i.ToString(CultureInfo.InvariantCulture), Details(kind)), [Subject.Device(Id(i))]);

    public static string Id(int i) => "D" + i.ToString("00000", CultureInfo.InvariantCulture);

    public static Fact Result(int device, int n, string quantity = "sensitivity") => FactText.WriteDerived(
        FactStamp.Imported(Occurred.On(Begin.AddDays((n * 250) + (device % 200))), 5),
        new CertificateIssued(quantity, $"C{device}-{n}", "House laboratory", null, null, null, null, 250,
            [new(AdjustmentState.AsFoundAndLeft, (quantity == "sensitivity" ? -38.06 : 0) + (0.004 * ((device + n) % 5)), quantity == "sensitivity" ? "dB re 1 V/Pa" : "dB", 0.06, "dB", 2)],
            new(100.9, 23, 45), null, null, null, null, null, null), [Subject.Device(Id(device))]);

    public static IEnumerable<Fact> Campaign(string id, int stations, int firstDevice)
    {
        string[] kinds = ["microphone", "preamplifier", "ground-plate", "recorder-channel"];
        yield return Of(new CampaignPlanned(id, new(2026, 9, 1), new(2026, 9, 12), "Zone/Site", [], "Field", 140, SourceClass.SmallMultirotor, 50, 16000, 35, 125, "small-unmanned-flush", 3, 0), id, []);
        for (var s = 0; s < stations; s++)
        {
            List<string> chain = [.. Enumerable.Range(0, kinds.Length).Select(k => Id(firstDevice + (s * kinds.Length) + k))];
            yield return Of(new StationPlanned($"S{s:000}", 38.2 + (0.001 * (s / 20)), -30.5 + (0.001 * (s % 20)), Mount.FlushPlate, null), id, []);
            yield return Of(new ChainPlanned($"S{s:000}", chain), id, chain);
        }
    }

    public static string Kind(int i) => (i % 4) switch { 0 => "microphone", 1 => "preamplifier", 2 => "ground-plate", _ => "recorder-channel" };

    /// <summary>A million facts: 10,000 devices, 150,000 results, 700,000 placements and checks, 50,000 events, the rest moves and plans.</summary>
    public static IEnumerable<Fact> Million()
    {
        const int Devices = 10_000;
        for (var i = 0; i < Devices; i++) yield return Device(i, Kind(i));
        for (var n = 0; n < 15; n++)
        {
            for (var i = 0; i < Devices; i++) yield return Result(i, n, Kind(i) == "microphone" ? "sensitivity" : "gain");
        }
        var count = Devices * 16;
        var campaigns = 40;
        for (var c = 0; c < campaigns; c++)
        {
            foreach (var fact in Campaign($"C{c:00}", 200, c * 250 % 9000))
            {
                count++;
                yield return fact;
            }
        }
        for (var i = 0; i < 700_000; i++, count++)
        {
            var (campaign, station) = ($"C{i % campaigns:00}", i / campaigns % 200);
            var device = ((i % campaigns * 250 % 9000) + (station * 4)) % Devices;
            var at = new FactStamp(At(i * 400L), "P" + (i % 7), "phone-" + (i % 5), i);
            string[] subjects = [Subject.Campaign(campaign), Subject.Device(Id(device))];
            yield return i % 3 == 0
                ? FactText.WriteDerived(at, new ChainPlacedBriefly($"S{station:000}", [Id(device)], 7.0), subjects)
                : FactText.WriteDerived(at, new ChainCheckedBriefly($"S{station:000}", Id(9999), 0.001 * (i % 100)), subjects);
        }
        for (var i = 0; i < 50_000; i++, count++)
        {
            yield return FactText.WriteDerived(new(At(i * 5600L), "P1", "desk", i), new EventRecorded($"Run {i}", At(i * 5600L).ToString(), At((i * 5600L) + 90).ToString()),
                [Subject.Event("E" + i), Subject.Campaign($"C{i % campaigns:00}")]);
        }
        for (var i = 0; count < 1_000_000; i++, count++)
            yield return FactText.WriteDerived(new(At(i * 3000L), "P2", "desk", i), new DeviceMoved("place " + (i % 50)), [Subject.Device(Id(i % Devices))]);
    }

    private static Occurred At(long seconds) => Occurred.At(new DateTimeOffset(2018, 1, 1, 0, 0, 0, TimeSpan.Zero).AddSeconds(seconds));

    private static Fact Of(FactBody body, string campaign, IReadOnlyList<string> devices) =>
        FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 6), body, [Subject.Campaign(campaign), .. devices.Select(Subject.Device)]);

    private static SortedDictionary<string, FieldValue> Details(string kind) => kind switch
    {
        "microphone" => Of(("size-mm", 12.7), ("response-type", "pressure"), ("polarisation-v", 0), ("lowest-hz", 10), ("highest-hz", 20000), ("highest-level-db", 140), ("noise-floor-db", 18)),
        "preamplifier" => Of(("size-mm", 12.7), ("powering", "constant-current"), ("polarisation-v", 0), ("connector", "round")),
        "ground-plate" => Of(("diameter-mm", 400), ("thickness-mm", 5), ("material", "aluminium"), ("plate-style", "flush"), ("fits-mm", 12.7)),
        _ => Of(("powering", "constant-current"), ("connector", "round")),
    };

    private static SortedDictionary<string, FieldValue> Of(params (string Key, object Value)[] details) => new(
        details.ToDictionary(d => d.Key, d => d.Value is string s ? FieldValue.Of(s) : FieldValue.Of(Convert.ToDouble(d.Value, CultureInfo.InvariantCulture))), StringComparer.Ordinal);
}

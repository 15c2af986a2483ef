using System.Globalization;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A small invented fleet, random but sensible: what a list is written of and held against.</summary>
internal static class Fleet
{
    private static readonly (string Maker, string Model, double Nominal, double SizeMm)[] Microphones =
    [
        ("Orlevik", "MK-50", 50, 12.7), ("Orlevik", "MK-12", 12.5, 12.7), ("Tannsee Akustik", "TS 4", 4, 6.35),
            ("Velmora", "V1/50", 50, 12.7),
    ];

    private static readonly string[] Places = ["Room 204", "Cabinet B", "Prüfraum 3", "Hall 2, rack 4", "Étagère 7", "Van 1"];
    private static readonly string[] Laboratories = ["Calcroft Metrology", "Akkulab Nordheim", "Laboratoire du Vallon", "House lab"];

    // In service is by far the most frequent.
    private static readonly DeviceStatus[] Statuses =
    [
        DeviceStatus.InService, DeviceStatus.InService, DeviceStatus.InService, DeviceStatus.InService, DeviceStatus.Away,
        DeviceStatus.OutOfService, DeviceStatus.Lost, DeviceStatus.Retired,
    ];

    /// <summary>The fleet of a seed: nine microphones, two preamplifiers, two calibrators and a pistonphone, two plates, two
    /// channels.</summary>
    public static IReadOnlyList<Instrument> Of(Dice dice)
    {
        var fleet = new List<Instrument>();
        var serials = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < 9; i++)
        {
            var (maker, model, nominal, size) = Microphones[i % 3 == 2 ? 2 + dice.Below(2) : i % 3];
            Add(Sort.Microphone, maker, model, size, nominal, d => Sensitivities(dice, d, nominal));
        }
        // A preamplifier of another maker may have the number of a microphone.
        for (var i = 0; i < 2; i++) Add(Sort.Preamplifier, "Velmora", "VP-2", 12.7, null, d => Levels(dice, d, -0.12, 0.04, 1000), i == 0
            ? fleet[0].Serial : null);
        Add(Sort.Calibrator, "Orlevik", "CAL-94", null, 94, d => Levels(dice, d, 94, 0.09, 1000));
        Add(Sort.Calibrator, "Orlevik", "CAL-114", null, 114, d => Levels(dice, d, 114, 0.09, 1000));
        Add(Sort.Pistonphone, "Tannsee Akustik", "PF 250", null, 124, d => Levels(dice, d, 124, 0.08, 250));
        for (var i = 0; i < 2; i++) Add(Sort.Plate, "Own workshop", "GP400", null, null, _ => []);
        for (var i = 0; i < 2; i++) Add(Sort.Channel, "Velmora", "REC-8", null, null, _ => []);
        return fleet;

        void Add(Sort sort, string maker, string model, double? size, double? nominal, Func<string, IReadOnlyList<Calibrated>> results,
            string? serial = null)
        {
            while (serial is null || (sort != Sort.Preamplifier && !serials.Add(serial))) serial = Serial(dice, sort);
            var id = "d" + (fleet.Count + 1).ToString(CultureInfo.InvariantCulture);
            var code = "INV-" + (2000 + dice.Below(7) + 10 * fleet.Count).ToString(CultureInfo.InvariantCulture);
            fleet.Add(new(id, sort, maker, model, serial, code, dice.One(Statuses), dice.One(Places), size, nominal, results(id)));
        }
    }

    // Plain numbers, leading zeros, letters, and one that a spreadsheet would take for a power of ten.
    private static string Serial(Dice dice, Sort sort) => (sort, dice.Below(8)) switch
    {
        (Sort.Plate, _) => $"GP{dice.From(100, 999)}",
        (Sort.Channel, _) => $"R{dice.From(10, 99)}-{dice.From(1, 8)}",
        (_, 0) => $"00{dice.From(1000, 9999)}",
        (_, 1) => $"{dice.From(10, 99)}E{dice.From(10, 99)}",
        (_, 2) => $"A-{dice.From(1000, 9999)}",
        _ => $"{dice.From(100_000, 3_999_999)}",
    };

    private static List<Calibrated> Sensitivities(Dice dice, string device, double nominal)
    {
        var level = 20 * Math.Log10(nominal) + dice.Between(-0.6, 0.6, 3);
        return Each(dice, device, () =>
        {
            level += dice.Between(-0.04, 0.03, 3);
            return (Math.Round(Math.Pow(10, level / 20), nominal < 10 ? 3 : 2), "mV/Pa");
        }, dice.One([250.0, 1000.0]));
    }

    private static List<Calibrated> Levels(Dice dice, string device, double nominal, double spread, double hz) =>
        Each(dice, device, () => (Math.Round(nominal + dice.Between(-spread, spread, 3), 2), "dB"), hz);

    private static List<Calibrated> Each(Dice dice, string device, Func<(double Value, string Unit)> next, double hz)
    {
        var results = new List<Calibrated>();
        var count = dice.From(2, 4);
        var laboratory = dice.One(Laboratories);
        for (var year = 2026 - count; year < 2026; year++)
        {
            var day = new DateOnly(year, dice.From(1, 12), dice.From(1, 28));
            var (value, unit) = next();
            var number = $"{(laboratory[0] == 'H' ? "H" : "K")}{year % 100:00}-{dice.From(1000, 9999)}";
            results.Add(new(
                $"{device}-{year}", day, value, unit, dice.Between(0.05, 0.15, 2), laboratory, number, hz, dice.Between(97, 103, 2),
                dice.Between(21, 25, 1), dice.Between(35, 60, 0)));
        }
        return results;
    }
}

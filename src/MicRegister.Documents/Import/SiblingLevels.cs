using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What microphones of one model have in common: the median of their sensitivity levels.</summary>
internal sealed class SiblingLevels
{
    // Own practice: makers hold a model within about 3 dB of its nominal sensitivity; of few siblings nobody knows which one is right.
    private const int Several = 3;
    private const double MostBesideSeveralDb = 4.5;
    private const double MostBesideFewDb = 10;

    private readonly Dictionary<string, double[]> _levels;

    private SiblingLevels(Dictionary<string, double[]> levels) => _levels = levels;

    public static SiblingLevels None { get; } = new([]);

    /// <summary>
    /// How far a level lies from the median of the others of its model, dB, where that is too far; null where it is not, or none is known.
    /// </summary>
    public double? TooFarOff(string? model, double level)
    {
        if (model is null || !_levels.TryGetValue(Key(model), out var all)) return null;
        // Its own place among them is taken out, so that a slip does not vouch for itself.
        var own = Array.BinarySearch(all, level);
        if (own < 0 && ~own < all.Length && Math.Abs(all[~own] - level) < 1e-6) own = ~own;
        else if (own < 0 && ~own > 0 && Math.Abs(all[~own - 1] - level) < 1e-6) own = ~own - 1;
        var count = own < 0 ? all.Length : all.Length - 1;
        if (count == 0) return null;
        double Other(int i) => all[own >= 0 && i >= own ? i + 1 : i];
        // Of few, one that agrees is enough: the slip is then another's.
        var off = count >= Several
            ? level - (count % 2 == 1 ? Other(count / 2) : (Other((count / 2) - 1) + Other(count / 2)) / 2)
            : Enumerable.Range(0, count).Select(i => level - Other(i)).MinBy(Math.Abs);
        return Math.Abs(off) > (count >= Several ? MostBesideSeveralDb : MostBesideFewDb) ? off : null;
    }

    /// <summary>Levels of a table and of a register.</summary>
    public static SiblingLevels Of(TableReading table, Register.Register register)
    {
        var header = table.Header;
        if (!header.Has(Column.Model) && !header.HasModelBesideKind && header.Described is null) return None;
        // Where the model is a cell of its own, nothing else of the row need be read.
        var plain = header.Places.TryGetValue(Column.Model, out var place) && !header.Divided.ContainsKey(place) ? place : (int?)null;
        var levels = new Dictionary<string, List<double>>(StringComparer.Ordinal);
        var values = header.Groups.Select(g => g.Places.GetValueOrDefault(Column.Value, -1)).Where(v => v >= 0).ToList();
        if (header.Places.TryGetValue(Column.Value, out var first)) values.Add(first);
        foreach (var row in table.Rows)
        {
            foreach (var part in header.Devices)
            {
                if (part.Places.TryGetValue(Column.Model, out var own) && part.Places.TryGetValue(Column.Value, out var result)
                    && row.At(own).Shown is { Length: > 0 } of && Level(row, result, header) is { } level) Add(levels, of, level);
            }
            if ((plain is { } at ? row.At(at).Shown : ModelOf(table, row)) is not { Length: > 0 } model) continue;
            foreach (var value in values)
            {
                if (Level(row, value, header) is { } level) Add(levels, model, level);
            }
        }
        if (values.Count > 0)
        {
            foreach (var device in register.DeviceIds.Select(id => register.Device(id)).OfType<DeviceState>()
                .Where(d => d.Kind == DeviceKind.Microphone.Key && d.Model is not null))
            {
                if (PlannedDevice.Of(device).Certificates.LastOrDefault(c => c.Issued.Quantity == "sensitivity")?.LevelDb is { } level)
                    Add(levels, device.Model!, level);
            }
        }
        return new(levels.ToDictionary(l => l.Key, l => l.Value.Order().ToArray(), StringComparer.Ordinal));
    }

    private static string? ModelOf(TableReading table, SheetRow row)
    {
        try
        {
            return row.Fault is null ? table.Reader(row).Text(Column.Model) : null;
        }
        catch (RowProblem)
        {
            return null;
        }
    }

    private static double? Level(SheetRow row, int place, TableHeader header)
    {
        var text = row.At(place).Shown;
        if (header.Divided.TryGetValue(place, out var how) && how.Separator == TableHeader.InBrackets)
            text = text.Split(TableHeader.InBrackets)[0];
        if (!MeasuredText.TryRead(text, out var value, out var stated)) return null;
        var unit = stated ?? (header.Places.TryGetValue(Column.Unit, out var column) ? MeasuredText.Unit(row.At(column).Shown) : null)
            ?? header.Units.GetValueOrDefault(place);
        return unit switch
        {
            "mV/Pa" or "mV" when value > 0 => Sensitivity.FromMillivoltsPerPascal(value).Level.Decibels,
            "V/Pa" when value > 0 => Sensitivity.FromMillivoltsPerPascal(value * 1000).Level.Decibels,
            "dB re 1 V/Pa" => value,
            _ when value < 0 => value,
            _ => null,
        };
    }

    private static void Add(Dictionary<string, List<double>> levels, string model, double level)
    {
        if (!levels.TryGetValue(Key(model), out var list)) levels[Key(model)] = list = [];
        list.Add(level);
    }

    private static string Key(string model) => DeviceIdentity.Normal(model);
}

using MathNet.Numerics.Statistics;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What microphones of one model have in common: the median of their sensitivity levels.</summary>
internal sealed class SiblingLevels
{
    // Fewer say nothing of a model.
    private const int Fewest = 4;

    private readonly Dictionary<string, double> _medians;

    private SiblingLevels(Dictionary<string, double> medians) => _medians = medians;

    public static SiblingLevels None { get; } = new([]);

    /// <summary>Median level of a model, dB re 1 V/Pa; null where too few are known.</summary>
    public double? Median(string? model) => model is not null && _medians.TryGetValue(Key(model), out var median) ? median : null;

    /// <summary>Levels of a table and of a register.</summary>
    public static SiblingLevels Of(TableReading table, Register.Register register)
    {
        var header = table.Header;
        if (!header.Places.TryGetValue(Column.Model, out var model)) return None;
        var levels = new Dictionary<string, List<double>>(StringComparer.Ordinal);
        var values = header.Groups.Select(g => g.Places.GetValueOrDefault(Column.Value, -1)).Where(v => v >= 0).ToList();
        if (header.Places.TryGetValue(Column.Value, out var first)) values.Add(first);
        foreach (var row in table.Rows)
        {
            if (row.At(model).IsBlank) continue;
            foreach (var value in values)
            {
                if (Level(row, value, header) is { } level) Add(levels, row.At(model).Shown, level);
            }
        }
        if (values.Count > 0)
        {
            foreach (var device in register.DeviceIds.Select(id => register.Device(id)).OfType<DeviceState>().Where(d => d.Kind == DeviceKind.Microphone.Key && d.Model is not null))
            {
                if (PlannedDevice.Of(device).Certificates.LastOrDefault(c => c.Issued.Quantity == "sensitivity")?.LevelDb is { } level)
                    Add(levels, device.Model!, level);
            }
        }
        return new(levels.Where(l => l.Value.Count >= Fewest).ToDictionary(l => l.Key, l => l.Value.Median(), StringComparer.Ordinal));
    }

    private static double? Level(SheetRow row, int place, TableHeader header)
    {
        if (!MeasuredText.TryRead(row.At(place).Shown, out var value, out var stated)) return null;
        var unit = stated ?? (header.Places.TryGetValue(Column.Unit, out var column) ? MeasuredText.Unit(row.At(column).Shown) : null) ?? header.Units.GetValueOrDefault(place);
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

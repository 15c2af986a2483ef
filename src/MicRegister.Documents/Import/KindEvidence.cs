using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What the results of a table say of the kinds of its devices, whatever anybody says of all of them.</summary>
/// <param name="Sensitivities">Whether it holds results that only microphones have.</param>
/// <param name="Levels">Whether it holds levels as sound calibrators have them.</param>
internal sealed record KindEvidence(bool Sensitivities, bool Levels)
{
    private const double LeastLevel = 70;
    private const double GreatestLevel = 140;

    public static KindEvidence None { get; } = new(false, false);

    public static KindEvidence Of(TableReading table)
    {
        if (!table.Header.Places.TryGetValue(Column.Value, out var place) || table.Header.Divided.ContainsKey(place)) return None;
        var (all, sensitivities, levels) = (0, 0, 0);
        foreach (var row in table.Rows.Where(r => r.Fault is null))
        {
            if (!MeasuredText.TryRead(row.At(place).Shown, out var value, out var unit)) continue;
            all++;
            unit ??= table.Header.Places.TryGetValue(Column.Unit, out var own) ? MeasuredText.Unit(row.At(own).Shown) : null;
            unit ??= table.Header.Units.GetValueOrDefault(place);
            if (MeasuredText.IsOfSensitivity(unit)) sensitivities++;
            else if (unit == "dB" && value is > LeastLevel and < GreatestLevel) levels++;
        }
        // One unit alone may be a slip.
        return new(sensitivities > 1 || (sensitivities == 1 && all == 1), levels > 1 || (levels == 1 && all == 1));
    }

    /// <summary>What is asked where nothing says a kind; null where one kind for all cannot be right.</summary>
    public ImportQuestion? QuestionOfKind(string sheet) => DeviceKind.All.Where(Allows).ToList() is { Count: > 0 } kinds
        ? new("kind", sheet, "Of which kind are these devices? No column, heading or sheet says it.",
            [.. kinds.Select(k => new ImportChoice(k.Label, "kind := " + k.Key))]) : null;

    public static RowProblem Refused(DeviceKind kind, RowReader row) => new(RowSort.Refused,
        $"Not all of these devices can be of the kind '{kind.Label}': the results say otherwise.", row.HeaderOf(Column.Kind), kind.Label);

    /// <summary>Whether all devices of the table can be of a kind.</summary>
    public bool Allows(DeviceKind kind) => (!Sensitivities || kind.Calibrated == "sensitivity")
        && (!Levels || kind.Calibrated is null or "level");
}

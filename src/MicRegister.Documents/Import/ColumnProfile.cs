using System.Globalization;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What stands below a header, by counts over the first rows.</summary>
internal sealed class ColumnProfile
{
    private const int MostDistinct = 400;
    private const int DigitsOfResult = 3;

    private readonly HashSet<string> _distinct = new(StringComparer.Ordinal);
    private readonly HashSet<DeviceStatus> _statuses = [];
    private double? _last;
    private int _fine;
    private int _steps;
    private int _marks;

    /// <summary>How many cells hold something.</summary>
    public int Filled { get; private set; }

    public int Days { get; private set; }

    public int Numbers { get; private set; }

    /// <summary>Cells that name a kind of device.</summary>
    public int Kinds { get; private set; }

    /// <summary>Cells that name a state of use.</summary>
    public int Statuses { get; private set; }

    public int DistinctStatuses => _statuses.Count;

    /// <summary>Numbers with a unit that only sensitivities have.</summary>
    public int Sensitivities { get; private set; }

    /// <summary>Whether all that stands there are crosses and the like.</summary>
    public bool IsOfMarks => Filled > 0 && _marks == Filled;

    public int WithDigits { get; private set; }

    /// <summary>
    /// Whether numbers are written as finely as results are, and differ as results do: nominal values are round, and the same for a model.
    /// </summary>
    public bool LooksMeasured => _fine * 2 > Numbers && (Distinct > 20 || Distinct * 2 > Filled);

    /// <summary>
    /// Whether the numbers count the rows: nearly each one more than the one before, whatever stands between and below them.
    /// </summary>
    public bool CountsRows => Numbers >= 2 && _steps * 10 >= (Numbers - 1) * 8 && Numbers * 10 >= Filled * 8;

    public double Least { get; private set; } = double.PositiveInfinity;

    public double Greatest { get; private set; } = double.NegativeInfinity;

    public int Distinct => _distinct.Count;

    /// <summary>The first values that differ.</summary>
    public List<string> First { get; } = [];

    public bool AllDiffer => Distinct >= Math.Min(MostDistinct, Filled);

    public static ColumnProfile Of(IEnumerable<SheetRow> rows, int column)
    {
        var profile = new ColumnProfile();
        foreach (var row in rows) profile.Take(row.At(column));
        return profile;
    }

    private void Take(Cell cell)
    {
        var text = cell.Shown;
        if (RowReader.IsAbsent(text)) return;
        Filled++;
        if (_distinct.Count < MostDistinct && _distinct.Add(text) && First.Count < 3) First.Add(text);
        if (text.Any(char.IsAsciiDigit)) WithDigits++;
        if (text is "x" or "X" or "✓" or "✔" or "✗" or "●" or "•" or "*") _marks++;
        if (Words.Kind(text) is not null) Kinds++;
        if (Words.Status(text) is { } status)
        {
            Statuses++;
            _statuses.Add(status);
        }
        if (MeasuredText.TryRead(text, out var number, out var unit))
        {
            if (MeasuredText.IsOfSensitivity(unit)) Sensitivities++;
            Numbers++;
            if (text.Count(char.IsAsciiDigit) >= DigitsOfResult && text.AsSpan().IndexOfAny('.', ',') >= 0) _fine++;
            (Least, Greatest) = (Math.Min(Least, number), Math.Max(Greatest, number));
            if (_last is { } before && number == before + 1) _steps++;
            _last = number;
        }
        if (cell.Day is not null || (text.Length <= 40 && IsDay(cell))) Days++;
    }

    // Which of two days a text with slashes means does not matter here.
    private static bool IsDay(Cell cell) => !cell.Text!.All(char.IsAsciiDigit)
        && (DateText.TryRead(cell, DateOrder.DayFirst, false, out _) is null
            || DateText.TryRead(cell, DateOrder.MonthFirst, false, out _) is null);

    /// <summary>First values in a sentence.</summary>
    public string Shown => string.Join(", ", First.Select(f => f.Length > 24 ? f[..24] + "…" : f));

    /// <summary>Nine of ten filled cells.</summary>
    public bool NearlyAll(int count) => Filled > 0 && count * 10 >= Filled * 9;

    /// <summary>A share of the filled cells.</summary>
    public bool Mostly(int count) => Filled > 0 && count * 2 > Filled;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Filled} cells, {Shown}");
}

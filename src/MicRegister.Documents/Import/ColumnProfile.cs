using System.Globalization;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What stands below a header, by counts over the first rows.</summary>
internal sealed class ColumnProfile
{
    private const int MostDistinct = 400;
    private const int DigitsOfResult = 3;
    private const int LongestNumber = 8;

    private readonly HashSet<string> _distinct = new(StringComparer.Ordinal);
    private readonly HashSet<DeviceStatus> _statuses = [];
    private double? _last;
    private int _fine;
    private int _steps;
    private int _stepsDown;
    private int _marks;
    private int _ordered;
    private int _dotted;
    private int[] _before = [];

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

    /// <summary>Numbers with a unit that results have.</summary>
    public int Results { get; private set; }

    public int WithDigits { get; private set; }

    /// <summary>Whether a letter stands in any cell.</summary>
    public bool HasLetters { get; private set; }

    /// <summary>
    /// Whether numbers are written as finely as results are, and differ as results do: nominal values are round, and the same for a model.
    /// </summary>
    public bool LooksMeasured => _fine * 2 > Numbers && (Distinct > 20 || Distinct * 2 > Filled);

    /// <summary>
    /// Whether the numbers count the rows: nearly each one more than the one before, or one less, whatever stands between and below them.
    /// </summary>
    public bool CountsRows => Numbers >= 2 && Math.Max(_steps, _stepsDown) * 10 >= (Numbers - 1) * 8 && Numbers * 10 >= Filled * 8;

    /// <summary>Whether it numbers the rows in two steps: 1, 1.1, 1.2, 2, 2.1.</summary>
    public bool IsNumbering => Filled > 2 && _ordered == Filled && _dotted > 0;

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
        HasLetters |= text.Any(char.IsLetter);
        TakeNumber(text);
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
            if (unit == "dB" || MeasuredText.IsOfSensitivity(unit)) Results++;
            Numbers++;
            if (text.Count(char.IsAsciiDigit) >= DigitsOfResult && text.AsSpan().IndexOfAny('.', ',') >= 0) _fine++;
            (Least, Greatest) = (Math.Min(Least, number), Math.Max(Greatest, number));
            if (_last is { } before && number == before + 1) _steps++;
            else if (_last is { } above && number == above - 1) _stepsDown++;
            _last = number;
        }
        if (cell.Day is not null || (text.Length <= 40 && IsDay(cell))) Days++;
    }

    // Each more than the one before, by its first number and then by its second.
    private void TakeNumber(string text)
    {
        if (text.Length > LongestNumber || !text.All(c => char.IsAsciiDigit(c) || c == '.')) return;
        var parts = text.Split('.', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length is 0 or > 2 || !Array.TrueForAll(parts, p => p.Length <= 3)) return;
        int[] now = [.. parts.Select(p => int.Parse(p, CultureInfo.InvariantCulture))];
        var first = now.Zip(_before).FirstOrDefault(p => p.First != p.Second);
        if (_before.Length > 0 && (first == default ? now.Length < _before.Length : first.First < first.Second)) return;
        _before = now;
        _ordered++;
        if (now.Length > 1) _dotted++;
    }

    // Which of two days a text with slashes means does not matter here.
    private static bool IsDay(Cell cell) => cell.Text!.All(char.IsAsciiDigit)
        ? IsBareDay(cell.Text!)
        : DateText.TryRead(cell, DateOrder.DayFirst, false, out _) is null
            || DateText.TryRead(cell, DateOrder.MonthFirst, false, out _) is null;

    // 20250320: year, month and day without a mark between them.
    private static bool IsBareDay(string text) => text.Length == 8
        && DateOnly.TryParseExact(text, "yyyyMMdd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
        && day.Year is >= 1950 and <= 2200;

    /// <summary>First values in a sentence.</summary>
    public string Shown => string.Join(", ", First.Select(f => f.Length > 24 ? f[..24] + "…" : f));

    /// <summary>Nine of ten filled cells.</summary>
    public bool NearlyAll(int count) => Filled > 0 && count * 10 >= Filled * 9;

    /// <summary>A share of the filled cells.</summary>
    public bool Mostly(int count) => Filled > 0 && count * 2 > Filled;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Filled} cells, {Shown}");
}

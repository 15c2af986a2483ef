using System.Globalization;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>What stands below a header, by counts over the first rows.</summary>
internal sealed class ColumnProfile
{
    private const int MostDistinct = 400;

    private readonly HashSet<string> _distinct = new(StringComparer.Ordinal);
    private double? _last;

    /// <summary>How many cells hold something.</summary>
    public int Filled { get; private set; }

    public int Days { get; private set; }

    public int Numbers { get; private set; }

    /// <summary>Cells that name a kind of device.</summary>
    public int Kinds { get; private set; }

    public int WithDigits { get; private set; }

    /// <summary>Whether the numbers count the rows: each one more than the one before.</summary>
    public bool CountsRows { get; private set; } = true;

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
        if (profile.Numbers < profile.Filled || profile.Filled < 2) profile.CountsRows = false;
        return profile;
    }

    private void Take(Cell cell)
    {
        var text = cell.Shown;
        if (RowReader.IsAbsent(text)) return;
        Filled++;
        if (_distinct.Count < MostDistinct && _distinct.Add(text) && First.Count < 3) First.Add(text);
        if (text.Any(char.IsAsciiDigit)) WithDigits++;
        if (Words.Kind(text) is not null) Kinds++;
        if (MeasuredText.TryRead(text, out var number, out _))
        {
            Numbers++;
            (Least, Greatest) = (Math.Min(Least, number), Math.Max(Greatest, number));
            if (_last is { } before && number != before + 1) CountsRows = false;
            _last = number;
        }
        if (cell.Day is not null || (text.Length <= 40 && IsDay(cell))) Days++;
    }

    // Which of two days a text with slashes means does not matter here.
    private static bool IsDay(Cell cell) => !cell.Text!.All(char.IsAsciiDigit)
        && (DateText.TryRead(cell, DateOrder.DayFirst, false, out _) is null || DateText.TryRead(cell, DateOrder.MonthFirst, false, out _) is null);

    /// <summary>First values in a sentence.</summary>
    public string Shown => string.Join(", ", First.Select(f => f.Length > 24 ? f[..24] + "…" : f));

    /// <summary>A share of the filled cells.</summary>
    public bool Mostly(int count) => Filled > 0 && count * 2 > Filled;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Filled} cells, {Shown}");
}

using System.Globalization;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>The day as of which a list speaks: what stands in it may have been overtaken since.</summary>
/// <param name="Day">The day.</param>
/// <param name="IsStated">Whether a person said so; otherwise it is the newest date of a calibration or inspection in the list.</param>
public sealed record AsOfDay(DateOnly Day, bool IsStated)
{
    /// <summary>Whether a line above its table says so.</summary>
    public bool IsOfLine { get; init; }

    /// <summary>What is asked where nobody stated the day and the list holds no date.</summary>
    public const string Question =
        "As of which day does this list speak? It holds no date of a calibration or inspection, and says other than the register";

    /// <summary>The day and where it is from, for people.</summary>
    public string InWords =>
        FormattableString.Invariant($"as of {Day:yyyy-MM-dd}, ") + (IsStated ? "as stated" : IsOfLine ? "as a line above its table says"
        : "its newest date");

    /// <summary>Reads a day as it is stated for a file; null where it is none.</summary>
    public static DateOnly? Read(string text) =>
        DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    /// <summary>What a person stated; null where nobody did.</summary>
    /// <exception cref="SheetException">The day is still to come.</exception>
    internal static AsOfDay? Stated(string file, ImportMapping mapping, DateOnly today) => mapping.AsOf is not { } day ? null
        : day <= today ? new(day, true)
        : throw new SheetException(FormattableString.Invariant(
            $"{file} cannot speak as of {day:yyyy-MM-dd}: that is after today, {today:yyyy-MM-dd}."));

    /// <summary>The newest day of a calibration or inspection among rows; null where there is none.</summary>
    /// <remarks>Due days lie ahead of the list, and a day to come is a mistake. A year without a day tells none.</remarks>
    internal static AsOfDay? Newest(IEnumerable<RowReader> rows, DateOnly today, CancellationToken cancel)
    {
        DateOnly? newest = null;
        foreach (var row in rows)
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var column in (ReadOnlySpan<Column>)[Column.Day, Column.Inspected])
            {
                if (DayOf(row, column) is { } day && day <= today && !(day <= newest)) newest = day;
            }
        }
        return newest is { } found ? new(found, false) : null;
    }

    // What cannot be read is said when its row is taken.
    private static DateOnly? DayOf(RowReader row, Column column)
    {
        try
        {
            return row.Day(column);
        }
        catch (RowProblem)
        {
            return null;
        }
    }
}

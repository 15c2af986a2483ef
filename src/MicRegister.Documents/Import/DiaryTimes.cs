using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Times of a table as the readers of times want them: a day as people and spreadsheets write it, and a time of day.</summary>
internal static partial class DiaryTimes
{
    /// <summary>Columns that may hold days.</summary>
    public static IReadOnlySet<Column> Columns { get; } = new HashSet<Column>
    {
        DiaryColumns.Time, DiaryColumns.Date, DiaryColumns.TakenIn, DiaryColumns.TimeBefore, DiaryColumns.TimeAfter, DiaryColumns.Start,
        DiaryColumns.Stop, DiaryColumns.Shown, DiaryColumns.True,
    };

    /// <summary>A time under a column; a day beside it stands for one that it lacks.</summary>
    /// <param name="row">The row.</param>
    /// <param name="column">The column of the time.</param>
    /// <param name="clock">Column of the time of day, where it stands by itself.</param>
    /// <returns>Null where neither time nor day is stated.</returns>
    /// <exception cref="RowProblem">It cannot be read, or its day can be two days.</exception>
    public static DiaryTime? Of(RowReader row, Column column, Column? clock = null) =>
        WithoutDate(row, column, clock) is { } own ? own with { Day = own.Day ?? DateOf(row) }
        : DateOf(row) is { } day ? new(DiaryColumns.Date, day, null, false)
        : null;

    /// <summary>The same with the day alone that the time itself states.</summary>
    public static DiaryTime? WithoutDate(RowReader row, Column column, Column? clock = null)
    {
        var (day, time) = Parts(row, column);
        if (time is null && clock is not null && row.Text(clock) is not null)
        {
            var own = Parts(row, clock);
            (day, time, column) = (day ?? own.Day, own.Time, clock);
        }
        return day is null && time is null ? null : new(column, day, time, IsUtc(row, column));
    }

    private static DateOnly? DateOf(RowReader row) => row.Text(DiaryColumns.Date) is not null ? Parts(row, DiaryColumns.Date).Day : null;

    /// <summary>Whether times under a column are UTC: as its header, or the legend, says; otherwise they are the site's.</summary>
    public static bool IsUtc(RowReader row, Column column)
    {
        var (name, unit) = FieldTable.Parts(row.HeaderOf(column));
        return unit switch
        {
            "utc" or "z" or "gmt" or "tu" => true,
            "site" or "local" or "ortszeit" or "lokal" or "locale" => false,
            _ => name is "utc" or "timeutc" or "zeitutc" || row.Mapping.Of("times") == "utc",
        };
    }

    private static (DateOnly? Day, string? Time) Parts(RowReader row, Column column)
    {
        if (row.Text(column) is not { } text) return default;
        var cell = row.PlaceOf(column) is { } place && !RowReader.IsAbsent(row.Row.At(place).Shown) ? row.Row.At(place) : new Cell(text);
        // A workbook counts days and parts of them.
        if (cell.Day is { } counted) return (counted, FractionOf(cell.Text) is { } part and > 0 ? Clock(part) : null);
        if (cell.Text is { } number && FractionOf(number) is { } share && share == Number(number)) return (null, Clock(share));
        text = FoldedText.Usual(text);
        if (OnlyClock().Match(text) is { Success: true } alone) return (null, Usual(alone));
        if (WithDay().Match(text) is { Success: true } both)
            return (row.Day(column, new Cell(both.Groups["day"].Value.Trim(' ', ','))), Usual(both));
        return (row.Day(column, cell), null);
    }

    private static double? Number(string? text) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;

    private static double? FractionOf(string? text) => Number(text) is { } number && text!.Contains('.', StringComparison.Ordinal)
        ? number - Math.Floor(number) : null;

    private static string Clock(double part) =>
        TimeSpan.FromMilliseconds(Math.Round(part * 86_400_000)).ToString(@"hh\:mm\:ss\.fff", CultureInfo.InvariantCulture);

    // 9h10, 9.10 Uhr and 9:10 pm become 9:10, 9:10 and 21:10; a Z or an offset stays.
    private static string Usual(Match match)
    {
        var hour = int.Parse(match.Groups["h"].ValueSpan, CultureInfo.InvariantCulture);
        var (minute, rest) = (match.Groups["m"].Value, match.Groups["s"].Value);
        var half = match.Groups["half"].Value.ToLowerInvariant();
        if (half.Length > 0 && hour is >= 1 and <= 12) hour = (hour % 12) + (half[0] == 'p' ? 12 : 0);
        return FormattableString.Invariant($"{hour:00}:{minute}{rest}{match.Groups["zone"].Value}");
    }

    private const string ClockPart =
        @"(?<h>[0-9]{1,2})(?:[:h]|\.(?=[0-9]{2}\s*(?:Uhr|h)))(?<m>[0-9]{2})(?<s>:[0-9]{2}(?:[.,][0-9]+)?)?"
        + @"\s*(?:(?<half>[ap])\.?m\.?|Uhr|h)?\s*(?<zone>Z|[+-][0-9]{2}:?[0-9]{2})?$";

    [GeneratedRegex("^" + ClockPart, RegexOptions.IgnoreCase)]
    private static partial Regex OnlyClock();

    [GeneratedRegex("^(?<day>.*?[0-9])(?:[ ,]+|T)" + ClockPart, RegexOptions.IgnoreCase)]
    private static partial Regex WithDay();
}

/// <summary>A time as a row states it.</summary>
/// <param name="Column">Its column.</param>
/// <param name="Day">The day; null where none was stated.</param>
/// <param name="Clock">The time of day; null where none was stated.</param>
/// <param name="IsUtc">Whether its column is of UTC.</param>
internal sealed record DiaryTime(Column Column, DateOnly? Day, string? Clock, bool IsUtc)
{
    /// <summary>As the readers of times want it.</summary>
    public string Text => Day is { } day ? FormattableString.Invariant($"{day:yyyy-MM-dd} {Clock}").TrimEnd() : Clock ?? "";

    /// <summary>The same with a Z where its column is of UTC and it does not say so itself.</summary>
    public string Stated => Clock is not null && IsUtc && TypedTime.Of(Text) is { EndsInZ: false } ? Text + "Z" : Text;

    /// <summary>Local day at a site: of UTC it may be another one than the one that is written.</summary>
    public DateOnly? DayAt(IReadOnlyList<ZoneOffset> offsets) => Day is null ? null
        : Clock is not null && (IsUtc || TypedTime.Of(Text) is { EndsInZ: true }) && EventTable.Time(Text, true, offsets, out _) is { } at
            && Occurred.TryParse(at, out var instant)
            ? ZoneOffsets.LocalDay(instant.UnixMilliseconds, offsets)
            : Day;

    /// <summary>The instant at a site.</summary>
    /// <exception cref="RowProblem">A day or a time of day is missing, or the site's clocks did not show it once.</exception>
    public Occurred At(RowReader row, IReadOnlyList<ZoneOffset> offsets)
    {
        if (Day is null) throw Wrong(row, "its day is missing; write it before the time, or in a column of its own");
        if (Clock is null) throw Wrong(row, "a time of day is missing");
        return EventTable.Time(Text, IsUtc, offsets, out var allowed) is { } text && Occurred.TryParse(text, out var at)
            ? at
            : throw Wrong(row, "allowed is " + allowed);
    }

    private RowProblem Wrong(RowReader row, string why) =>
        new(RowSort.Refused, $"{row.HeaderOf(Column)} '{Text}': {why}", row.HeaderOf(Column), Text);
}

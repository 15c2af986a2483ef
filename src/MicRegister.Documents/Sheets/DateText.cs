using System.Globalization;
using System.Text.RegularExpressions;

namespace MicRegister.Documents.Sheets;

/// <summary>Reads a day as people and spreadsheets write it.</summary>
public static partial class DateText
{
    /// <summary>Reads a day.</summary>
    /// <param name="cell">ISO (2026-05-04), day-first with dots (4.5.2026), with slashes where it can be told or was told, a month by name, or a serial number.</param>
    /// <param name="order">What slashes mean; null when nobody said.</param>
    /// <param name="uses1904">Whether serial numbers count from 1904.</param>
    /// <param name="day">The day.</param>
    /// <returns>Null when read; otherwise why not, and what is allowed.</returns>
    public static string? TryRead(Cell cell, DateOrder? order, bool uses1904, out DateOnly day)
    {
        day = default;
        if (cell.Day is { } known)
        {
            day = known;
            return InRange(day, cell.Shown);
        }
        var text = FoldedText.Usual(cell.Text ?? "");
        // Nearly all days of large lists are written so, and need no search for others.
        if (IsIso(text) && DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None,
            out day)) return InRange(day, text);
        var date = Weekday().Replace(TimeOfDay().Replace(text, ""), "");
        if (DateOnly.TryParseExact(date, ["yyyy-MM-dd", "yyyy/MM/dd", "yyyyMMdd"], CultureInfo.InvariantCulture, DateTimeStyles.None,
            out day)) return InRange(day, text);
        if (MonthNames.Read(date) is { } named)
        {
            day = named;
            return InRange(day, text);
        }
        if (Parts().Match(date) is { Success: true } m)
        {
            var (a, b, year) = (Int(m, 1), Int(m, 3), Int(m, 4));
            var dots = m.Groups[2].Value == ".";
            if (m.Groups[4].Length == 2)
            {
                // 24-03-12 can begin with the year as well.
                if (m.Groups[2].Value == "-") return $"'{text}' can begin or end with the year; write the year with four digits";
                year = FullYear(year);
            }
            if (!dots && order is null && a <= 12 && b <= 12 && a != b)
                return $"'{text}' can be {year:0000}-{b:00}-{a:00} or {year:0000}-{a:00}-{b:00}; say which with the option for dates, day-first or month-first";
            var dayFirst = dots || (order is { } told ? told == DateOrder.DayFirst : a > 12 || a == b);
            var (d, mo) = dayFirst ? (a, b) : (b, a);
            if (mo is < 1 or > 12 || d < 1 || d > DateTime.DaysInMonth(Math.Clamp(year, 1, 9999), mo)) return $"'{text}' is no day of a calendar";
            day = new(year, mo, d);
            return InRange(day, text);
        }
        if (FromSerial(text, uses1904) is { } serial && Serial().IsMatch(text))
        {
            day = serial;
            return InRange(day, text);
        }
        return $"'{text}' is not read as a date; write 2026-05-04, 4.5.2026, 4 May 2026, or a serial number";
    }

    /// <summary>The day of a spreadsheet's serial number.</summary>
    /// <returns>Null where it is none. Day 60 of the epoch 1900, a 29 February that never was, gives 28 February.</returns>
    public static DateOnly? FromSerial(string text, bool uses1904)
    {
        if (!double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var serial) || serial < 1
            || serial >= 2_900_000) return null;
        var days = (int)Math.Floor(serial);
        if (uses1904) return new DateOnly(1904, 1, 1).AddDays(days);
        // The epoch 1900 counts a leap day that never was.
        return days >= 60 ? new DateOnly(1899, 12, 30).AddDays(days) : new DateOnly(1899, 12, 31).AddDays(days);
    }

    /// <summary>Whether a text has the form 2026-05-04.</summary>
    internal static bool IsIso(string text) => text.Length == 10 && text[4] == '-' && text[7] == '-';

    /// <summary>The order that a day with slashes proves: 14/3 can only begin with the day, 3/14 only with the month.</summary>
    /// <returns>Null where it proves none.</returns>
    public static DateOrder? Proven(string text)
    {
        if (Parts().Match(TimeOfDay().Replace(text.Trim(), "")) is not { Success: true } m || m.Groups[2].Value == ".") return null;
        var (a, b) = (Int(m, 1), Int(m, 3));
        return (a, b) switch
        {
            ( > 12 and <= 31, >= 1 and <= 12) => DateOrder.DayFirst,
            ( >= 1 and <= 12, > 12 and <= 31) => DateOrder.MonthFirst,
            _ => null,
        };
    }

    /// <summary>The two days that a text with slashes can be; null where it can be one only.</summary>
    public static (DateOnly DayFirst, DateOnly MonthFirst)? Both(string text)
    {
        var cell = new Cell(text);
        return Parts().Match(TimeOfDay().Replace(text.Trim(), "")).Groups[2].Value is "/" or "-"
            && TryRead(cell, DateOrder.DayFirst, false, out var a) is null
            && TryRead(cell, DateOrder.MonthFirst, false, out var b) is null && a != b ? (a, b) : null;
    }

    /// <summary>Whether a text is nothing but a number that can count days from an epoch.</summary>
    public static bool IsDayNumber(string text) => text.Length is >= 4 and <= 20 && char.IsAsciiDigit(text[0]) && Serial().IsMatch(text)
        && FromSerial(text, false) is { Year: >= 1950 and <= 2200 };

    /// <summary>The year of two digits: 50 to 99 stand for 1950 to 1999.</summary>
    internal static int FullYear(int twoDigits) => twoDigits < 50 ? 2000 + twoDigits : 1900 + twoDigits;

    private static string? InRange(DateOnly day, string text) => day.Year is >= 1950 and <= 2200 ? null
        : $"'{text}' lies outside the years 1950 to 2200";

    private static int Int(Match m, int group) => int.Parse(m.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"[T ][0-9]{1,2}:[0-9]{2}(:[0-9]{2}(\.[0-9]+)?)?Z?$")]
    private static partial Regex TimeOfDay();

    [GeneratedRegex(@"^\p{L}{2,10}[.,]{0,2} (?=[0-9]{1,4}[./-])")]
    private static partial Regex Weekday();

    [GeneratedRegex(@"^([0-9]{1,2})([./-])\s?([0-9]{1,2})\2\s?([0-9]{4}|[0-9]{2})$")]
    private static partial Regex Parts();

    [GeneratedRegex(@"^[0-9]{4,6}(\.[0-9]+)?$")]
    private static partial Regex Serial();
}

/// <summary>What 03/04/2026 means.</summary>
public enum DateOrder
{
    DayFirst,
    MonthFirst,
}

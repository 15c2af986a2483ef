using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>How a list writes days.</summary>
internal enum DayStyle
{
    /// <summary>2025-02-03.</summary>
    Iso,

    /// <summary>03.02.2025.</summary>
    Dots,

    /// <summary>03.02.25.</summary>
    ShortDots,

    /// <summary>03/02/2025, the day first.</summary>
    Slashes,

    /// <summary>2/3/25, the month first.</summary>
    MonthFirst,

    /// <summary>03-02-2025.</summary>
    Dashes,

    /// <summary>3-Feb-25.</summary>
    ShortMonth,

    /// <summary>3. Februar 2025.</summary>
    LongMonth,

    /// <summary>A day of a workbook.</summary>
    Typed,

    /// <summary>A number of days whose format was lost.</summary>
    Bare,
}

/// <summary>Writes days.</summary>
internal static class DayText
{
    private static readonly DateOnly Epoch1900 = new(1899, 12, 30);
    private static readonly DateOnly Epoch1904 = new(1904, 1, 1);

    public static IReadOnlyList<DayStyle> Usual(Tongue tongue) => tongue switch
    {
        Tongue.English => [DayStyle.Iso, DayStyle.ShortMonth],
        Tongue.German => [DayStyle.Dots, DayStyle.ShortDots],
        Tongue.Dutch => [DayStyle.Dashes, DayStyle.Iso],
        _ => [DayStyle.Slashes, DayStyle.Iso],
    };

    public static string Of(DateOnly day, DayStyle style, Vocabulary words)
    {
        var month = words.Months[day.Month - 1];
        return style switch
        {
            DayStyle.Dots => Text("dd.MM.yyyy"),
            DayStyle.ShortDots => Text("dd.MM.yy"),
            DayStyle.Slashes => Text("dd'/'MM'/'yyyy"),
            DayStyle.MonthFirst => Text("M'/'d'/'yy"),
            DayStyle.Dashes => Text("dd-MM-yyyy"),
            DayStyle.ShortMonth => $"{day.Day}-{month[..Math.Min(3, month.Length)]}-{day.Year % 100:00}",
            DayStyle.LongMonth => words.Tongue switch
            {
                Tongue.German => $"{day.Day}. {month} {day.Year}",
                Tongue.Spanish => $"{day.Day} de {month} de {day.Year}",
                _ => $"{day.Day} {month} {day.Year}",
            },
            DayStyle.Bare => Number(day, false).ToString(CultureInfo.InvariantCulture),
            _ => Text("yyyy-MM-dd"),
        };

        string Text(string format) => day.ToString(format, CultureInfo.InvariantCulture);
    }

    /// <summary>The number that a workbook holds for a day.</summary>
    public static int Number(DateOnly day, bool uses1904) => day.DayNumber - (uses1904 ? Epoch1904 : Epoch1900).DayNumber;
}

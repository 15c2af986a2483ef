using System.Globalization;
using System.Text.RegularExpressions;

namespace MicRegister.Documents.Sheets;

/// <summary>Days whose month is a word, in English, German, French, Spanish, Italian or Dutch.</summary>
internal static partial class MonthNames
{
    // Names and their short forms; a short form that two months share is in none.
    private static readonly string[] Names =
    [
        "january jan januar janner january janvier janv enero ene gennaio gen januari",
        "february feb februar feber fevrier fevr fev febrero febbraio februari",
        "march mar marz mrz maerz mars marzo maart mrt maa",
        "april apr avril avr abril abr aprile",
        "may mai mayo maggio mag mei",
        "june jun juni juin junio giugno giu",
        "july jul juli juillet juil julio luglio lug",
        "august aug aout aou agosto ago augustus",
        "september sep sept septembre septiembre settembre set",
        "october oct oktober okt octobre octubre ottobre ott",
        "november nov novembre noviembre",
        "december dec dezember dez decembre diciembre dic dicembre",
    ];

    private static readonly Dictionary<string, int> ByName = Names
        .SelectMany((line, i) => line.Split(' ').Select(name => (name, Month: i + 1))).DistinctBy(p => p.name)
            .ToDictionary(p => p.name, p => p.Month);

    /// <summary>3. Februar 2025, 12-Mar-24, 3 de marzo de 2025, March 3, 2025.</summary>
    /// <returns>Null where a text is no such day.</returns>
    public static DateOnly? Read(string text)
    {
        if (!text.Any(char.IsLetter)) return null;
        var plain = FoldedText.Of(text).Replace("1er", "1", StringComparison.Ordinal);
        if (DayFirst().Match(plain) is { Success: true } d) return Of(d.Groups[1], d.Groups[2], d.Groups[3]);
        return MonthFirst().Match(plain) is { Success: true } m ? Of(m.Groups[2], m.Groups[1], m.Groups[3]) : null;
    }

    /// <summary>mars-23, Jul 2025: the first day of a month.</summary>
    /// <returns>Null where a text is no such month.</returns>
    public static DateOnly? ReadMonth(string text) =>
        MonthOfYear().Match(FoldedText.Of(text)) is { Success: true } m && ByName.TryGetValue(m.Groups[1].Value, out var month)
            && int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) is var year
            ? new(m.Groups[2].Length == 2 ? DateText.FullYear(year) : year, month, 1) : null;

    private static DateOnly? Of(Group day, Group month, Group year)
    {
        if (!ByName.TryGetValue(month.Value, out var number)) return null;
        var (d, y) = (int.Parse(day.ValueSpan, CultureInfo.InvariantCulture), int.Parse(year.ValueSpan, CultureInfo.InvariantCulture));
        if (year.Length == 2) y = DateText.FullYear(y);
        return y is >= 1 and <= 9999 && d >= 1 && d <= DateTime.DaysInMonth(y, number) ? new(y, number, d) : null;
    }

    [GeneratedRegex(@"^(?:[a-z]{2,10}\.?,? )?([0-9]{1,2})(?:st|nd|rd|th)?[. \-/]{0,2}(?:de )?([a-z]{3,10})[. ,\-/]{0,2}(?:de )?([0-9]{4}|[0-9]{2})$")]
    private static partial Regex DayFirst();

    [GeneratedRegex(@"^([a-z]{3,10})\.?[ \-/'’]{1,2}((?:19|20)[0-9]{2}|[0-9]{2})$")]
    private static partial Regex MonthOfYear();

    [GeneratedRegex(@"^([a-z]{3,10})[. \-]{1,2}([0-9]{1,2})(?:st|nd|rd|th)?,?[ \-]([0-9]{4})$")]
    private static partial Regex MonthFirst();
}

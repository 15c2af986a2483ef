using System.Globalization;
using System.Text.RegularExpressions;

namespace MicRegister.Metrology.Classes;

/// <summary>Reads classes as people write them: 1L, 1/L, 1 L (1997), class 1, IEC 60942:2017.</summary>
public static partial class ClassText
{
    private const int MostCharacters = 200;

    /// <summary>Reads a class with what it says of its edition.</summary>
    /// <param name="sort">The sort of instrument.</param>
    /// <param name="text">Class, letter, standard, year or number of the edition, in any order; capitals do not matter.</param>
    /// <param name="wrong">What is wrong and what is allowed; null where it was read.</param>
    /// <returns>
    /// The class; where no edition is named, of every edition that has such a class, so that a letter decides it and nothing is guessed.
    /// Null where it cannot be: no class, two years, an edition that is not known, a letter of another edition.
    /// </returns>
    public static StatedClass? Read(InstrumentSort sort, string text, out string? wrong)
    {
        var (rest, named) = Parts(sort, text);
        wrong = named.Wrong;
        if (wrong is not null) return null;
        if (Class().Match(Fill().Replace(rest, " ").Trim()) is not { Success: true } match)
        {
            wrong = $"'{text}' names no class of a {sort.Words}; allowed is such as {sort.Example}: {sort.Allowed}";
            return null;
        }
        var (name, letter) = (match.Groups[1].Value, match.Groups[2].Value is [var l] ? (char?)l : null);
        List<ClassEdition> of = [.. named.Editions.Where(e => e.Classes.Contains(name) && (letter is null || e.Letter == letter))];
        if (of.Count > 0) return new(sort, name, letter, of);
        var stated = new StatedClass(sort, name, letter, named.Editions);
        wrong = named.Editions.Count == 1
            ? $"'{text}': {named.Editions[0].Text} has no {named.Editions[0].Word} {stated.Designation}; allowed are {sort.Allowed}"
            : $"'{text}': no edition has a class {stated.Designation}; allowed are {sort.Allowed}";
        return null;
    }

    /// <summary>Reads a class beside what was said of its edition elsewhere.</summary>
    /// <param name="sort">The sort of instrument.</param>
    /// <param name="text">The class; it may name an edition too.</param>
    /// <param name="edition">The edition; null or empty where nothing was said.</param>
    /// <param name="wrong">What is wrong, also where both contradict each other.</param>
    public static StatedClass? Read(InstrumentSort sort, string text, string? edition, out string? wrong)
    {
        if (Read(sort, text, out wrong) is not { } stated) return null;
        if (string.IsNullOrWhiteSpace(edition)) return stated;
        if (Edition(sort, edition, out wrong) is not { } said) return null;
        List<ClassEdition> both = [.. stated.Editions.Intersect(said)];
        if (both.Count > 0) return stated with { Editions = both };
        wrong = $"{stated.Text} is not of the edition '{edition}'; allowed are {sort.Allowed}";
        return null;
    }

    /// <summary>Reads an edition alone: 2017, IEC 60942:2017, 4th edition.</summary>
    /// <param name="sort">The sort of instrument.</param>
    /// <param name="text">Standard, year or number of the edition.</param>
    /// <param name="wrong">What is wrong and what is allowed.</param>
    /// <returns>The editions that it can mean, one where a year is named; null where it names none.</returns>
    public static IReadOnlyList<ClassEdition>? Edition(InstrumentSort sort, string text, out string? wrong)
    {
        var (rest, named) = Parts(sort, text);
        wrong = named.Wrong;
        if (wrong is null && (Fill().Replace(rest, " ").Trim().Length > 0 || named.Editions.Count == sort.Editions.Count))
            wrong = $"'{text}' is no edition; allowed are {string.Join(", ", sort.Editions.Select(e => e.Text))}";
        return wrong is null ? named.Editions : null;
    }

    private static (string Left, Named Named) Parts(InstrumentSort sort, string text)
    {
        var rest = text.Length <= MostCharacters ? Amendments().Replace(NotStated().Replace(text.ToUpperInvariant(), " "), " ") : "";
        IEnumerable<ClassEdition> editions = sort.Editions;
        foreach (Match number in Numbers().Matches(rest))
        {
            var digits = number.Groups[1].Value;
            editions = editions.Where(e => e.Number == digits || e.OtherNumbers.Contains(digits));
        }
        rest = Numbers().Replace(rest, " ");
        foreach (Match year in Years().Matches(rest))
            editions = editions.Where(e => e.Year.ToString(CultureInfo.InvariantCulture) == year.Value);
        rest = Years().Replace(rest, " ");
        foreach (Match ordinal in Ordinals().Matches(rest))
        {
            var n = (ordinal.Groups[1].Success ? ordinal.Groups[1] : ordinal.Groups[2]).Value;
            editions = editions.Where(e => e.Ordinal?.ToString(CultureInfo.InvariantCulture) == n);
        }
        List<ClassEdition> known = [.. editions];
        var wrong = known.Count > 0 ? null
            : $"'{text}' names no edition that is known; allowed are {sort.Allowed}; "
                + "the year is that of the IEC, not of a national edition";
        return (Ordinals().Replace(rest, " "), new(known, wrong));
    }

    private sealed record Named(IReadOnlyList<ClassEdition> Editions, string? Wrong);

    // Both numbers of a standard, with whatever national bodies put before it; -1 is its first part, -2017 a year.
    [GeneratedRegex(@"(?:\b(?:DIN|BS|NF|EN|IEC|CEI)\b[\s-]*)*\b(\d{5}(?:-\d(?!\d))?|1260|\d{3})\b", RegexOptions.CultureInvariant)]
    private static partial Regex Numbers();

    [GeneratedRegex(@"(?<!\d)(?:19|20)\d{2}(?!\d)", RegexOptions.CultureInvariant)]
    private static partial Regex Years();

    [GeneratedRegex(@"\bED(?:ITION)?\b\.?\s*(\d)\b|\b(\d)\s*(?:ST|ND|RD|TH)\s*ED(?:ITION)?\b", RegexOptions.CultureInvariant)]
    private static partial Regex Ordinals();

    [GeneratedRegex(@"\+?\s*\b(?:AMD|A)\s*\d\s*:\s*\d{4}", RegexOptions.CultureInvariant)]
    private static partial Regex Amendments();

    [GeneratedRegex(@"\bEDITION NOT STATED\b", RegexOptions.CultureInvariant)]
    private static partial Regex NotStated();

    [GeneratedRegex(
        @"\b(?:CLASS|CL|TYPE|TYP|KLASSE|OF|EDITION|ED)\b|[.,;:()\[\]\s]+|^[\s/-]+|(?<=\s)-(?=\s|$)", RegexOptions.CultureInvariant)]
    private static partial Regex Fill();

    [GeneratedRegex(@"^(LS|[0-3])[\s/-]*([LCM])?$", RegexOptions.CultureInvariant)]
    private static partial Regex Class();
}

namespace MicRegister.Metrology.Classes;

/// <summary>An edition of a standard that sorts instruments into classes.</summary>
/// <param name="Standard">The standard's name when it came out, such as IEC 942.</param>
/// <param name="Year">Year of the edition; what amends it counts as this edition.</param>
/// <param name="Line">
/// The standard whose editions follow each other; of another line nothing is compared. IEC 942 and IEC 60942 are one line: only the number
/// changed.
/// </param>
/// <param name="Classes">Names of its classes, best first.</param>
public sealed record ClassEdition(string Standard, int Year, string Line, IReadOnlyList<string> Classes)
{
    /// <summary>Letter that this edition alone puts behind some of its classes; null where it has none.</summary>
    public char? Letter { get; init; }

    /// <summary>Which edition of its line it is, where people count them; null where they do not.</summary>
    public int? Ordinal { get; init; }

    /// <summary>Numbers by which people name it beside its own, such as 60651 for IEC 651.</summary>
    public IReadOnlyList<string> OtherNumbers { get; init; } = [];

    /// <summary>What it calls a class.</summary>
    public string Word { get; init; } = "class";

    /// <summary>Its own number, such as 60942 or 61672-1.</summary>
    public string Number => Standard[(Standard.IndexOf(' ', StringComparison.Ordinal) + 1)..];

    /// <summary>Name and year, such as IEC 60942:2003.</summary>
    public string Text => FormattableString.Invariant($"{Standard}:{Year}");

    /// <summary>What it allows, in words: IEC 60942:1997 (LS, 1, 2, also with the letter L).</summary>
    public string Allowed => $"{Text} ({string.Join(", ", Classes)}{(Letter is { } l ? $", also with the letter {l}" : "")})";
}

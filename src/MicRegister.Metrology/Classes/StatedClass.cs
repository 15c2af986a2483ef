namespace MicRegister.Metrology.Classes;

/// <summary>A class as somebody stated it, with the editions that it can be of.</summary>
/// <param name="Sort">The sort of instrument.</param>
/// <param name="Name">LS, 0, 1, 2 or 3.</param>
/// <param name="Letter">L, C or M behind it; null where none stands there.</param>
/// <param name="Editions">
/// Every edition that it can be of, oldest first, at least one: those that were named, and of them those that have such a class. More than
/// one means that the edition was not stated.
/// </param>
public sealed record StatedClass(InstrumentSort Sort, string Name, char? Letter, IReadOnlyList<ClassEdition> Editions)
{
    /// <summary>The one edition that it is of; null where none was stated and neither class nor letter decides.</summary>
    public ClassEdition? Edition => Editions.Count == 1 ? Editions[0] : null;

    /// <summary>Place in the order of all classes: 0 is the tightest.</summary>
    public int Rank => InstrumentSort.Rank(Name);

    /// <summary>Class and letter as they are written: LS, 1, 1L, 1/C, LS/M.</summary>
    public string Designation => Letter switch
    {
        null => Name,
        'L' when Name != "LS" => Name + "L",
        var letter => $"{Name}/{letter}",
    };

    /// <summary>In words: class 1L of IEC 60942:1997, or class 1, edition not stated.</summary>
    public string Text => Edition is { } e
        ? $"{e.Word} {Designation} of {e.Text}"
        : $"{Editions[0].Word} {Designation}, edition not stated";
}

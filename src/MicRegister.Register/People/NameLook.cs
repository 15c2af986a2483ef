using System.Text;

namespace MicRegister.Register.People;

/// <summary>
/// How a name looks to a person: without capitals, marks, repeated blanks and what is not seen at all, and with one letter for those that
/// look alike in other scripts. The default has no look.
/// </summary>
/// <param name="Small">Look of the name in small letters.</param>
/// <param name="Written">Look of the name as it is written: a capital can look like another letter than its small one.</param>
/// <remarks>
/// Letters by <see cref="LookAlikes.Skeleton"/>, after full-width and mathematical ones were taken for plain ones (NFKD). Names of one
/// person are told by <see cref="PersonState.IdOf"/>, which this does not touch.
/// </remarks>
public readonly record struct NameLook(string Small, string Written)
{
    /// <summary>The look of a name.</summary>
    /// <param name="name">Any text.</param>
    public static NameLook Of(string name)
    {
        var plain = Unmarked(LookAlikes.Decompose(name, isCompatible: true));
        return new(Bare(LookAlikes.Skeleton(Fold(plain))), Bare(LookAlikes.Skeleton(plain)));
    }

    /// <summary>Whether nothing of the name can be seen.</summary>
    public bool IsBlank => string.IsNullOrEmpty(Small);

    /// <summary>Whether a person could take one name for the other; the same name looks like itself.</summary>
    public bool IsLike(NameLook other) => Small == other.Small || Written == other.Written;

    /// <summary>The first of some people who is somebody else and has a name that looks like this one.</summary>
    /// <param name="name">Name of a person who is known by name alone.</param>
    /// <param name="people">Those who are known already.</param>
    /// <returns>Null where nobody has. A name that differs in capitals or outer blanks alone is the same person's.</returns>
    public static PersonState? Other(string name, IEnumerable<PersonState> people)
    {
        var (look, id) = (Of(name), PersonState.IdOf(name));
        return people.FirstOrDefault(p => p.Id != id && Of(p.Name).IsLike(look));
    }

    // A letter with a stroke has a mark only once it is taken for the letter below.
    private static string Bare(string skeleton) => Fold(Unmarked(skeleton));

    private static string Fold(string text) => text.ToUpperInvariant().ToLowerInvariant();

    // Without the marks that are put on letters of any script and characters of control, and with single blanks.
    private static string Unmarked(string text)
    {
        var kept = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (!IsMark(rune.Value) && (!Rune.IsControl(rune) || Rune.IsWhiteSpace(rune))) kept.Append(rune.ToString());
        }
        return string.Join(' ', kept.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    // The blocks of combining diacritical marks; vowel signs of other scripts are letters of a name.
    private static bool IsMark(int c) =>
        c is (>= 0x300 and <= 0x36F) or (>= 0x1AB0 and <= 0x1AFF) or (>= 0x1DC0 and <= 0x1DFF) or (>= 0x20D0 and <= 0x20FF)
            or (>= 0xFE20 and <= 0xFE2F);
}

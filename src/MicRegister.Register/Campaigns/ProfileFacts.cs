using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>A requirement profile was written or changed; the last version counts as a whole. Subject: the profile.</summary>
/// <param name="Name">Name for lists.</param>
/// <param name="Statement">What it follows, in words, and where to look for the current text.</param>
/// <param name="Limits">Its limits.</param>
public sealed record ProfileWritten(string Name, string Statement, IReadOnlyList<ProfileLimit> Limits) : FactBody;

/// <summary>One limit of a profile, with where it comes from.</summary>
/// <param name="Key">A key of <see cref="LimitKey"/>.</param>
/// <param name="Value">The number, in the key's unit; null where the limit is a text.</param>
/// <param name="Text">The text, where it is no number.</param>
/// <param name="Source">Document, edition and clause, or "common practice, no source".</param>
/// <param name="Certainty">How sure it is that the figure is the document's: seen, from memory, common practice, own.</param>
public sealed record ProfileLimit(string Key, double? Value, string? Text, string Source, string Certainty)
{
    /// <summary>Name of the document alone, such as 14 CFR 36; null where there is none, or nobody said.</summary>
    public string? Document { get; init; }

    /// <summary>Edition of it, by its year.</summary>
    public string? Edition { get; init; }

    /// <summary>Its clause.</summary>
    public string? Clause { get; init; }
}

/// <summary>A person compared a profile with the current text of its source. Subject: the profile.</summary>
/// <param name="Edition">Edition that it was compared with.</param>
/// <param name="Remark">What was found.</param>
public sealed record ProfileConfirmed(string Edition, string? Remark) : FactBody
{
    /// <summary>Day from which that text is; null where nobody said it.</summary>
    public DateOnly? EditionDay { get; init; }

    /// <summary>
    /// What the profile asked then (<see cref="ProfileEdition.DigestOf"/>): it confirms no other figures. Null in facts from before it was
    /// written down, which confirm the version before them.
    /// </summary>
    public string? Digest { get; init; }
}

using MicRegister.Metrology.Quantities;
using MicRegister.Register.People;

namespace MicRegister.Register.Campaigns;

/// <summary>How people read of requirement profiles.</summary>
public static class ProfileWords
{
    extension(ClauseChange change)
    {
        /// <summary>In words that stand within a sentence.</summary>
        public string InWords => change switch
        {
            ClauseChange.Stricter => "stricter",
            ClauseChange.Looser => "looser",
            ClauseChange.OnlyHere => "only here",
            ClauseChange.OnlyThere => "only there",
            ClauseChange.OtherSource => "same by another source",
            _ => "other",
        };
    }

    extension(ProfileLimit limit)
    {
        /// <summary>Number with its unit, or words; both where an interval is counted to the first day.</summary>
        public string InWords
        {
            get
            {
                var unit = LimitKey.Find(limit.Key)?.Unit is { Length: > 0 } u ? " " + u : "";
                var number = limit.Value is { } v ? QuantityText.UpTo(v, 6) + unit : null;
                return string.Join(", ", new[] { number, limit.Text }.Where(t => !string.IsNullOrWhiteSpace(t)));
            }
        }
    }

    /// <summary>Who compared a profile with which text and when, or loudly that nobody did; it stands within a sentence.</summary>
    /// <param name="register">Names the person.</param>
    /// <param name="profile">The profile as it counts.</param>
    public static string Checked(Register register, ProfileState profile) =>
        Checked(register, profile.Confirmed, profile.ConfirmedBy, profile.ConfirmedOn);

    /// <summary>The same of one edition.</summary>
    /// <param name="register">Names the person.</param>
    /// <param name="edition">The edition.</param>
    public static string Checked(Register register, ProfileEdition edition) =>
        Checked(register, edition.Confirmed?.What, edition.Confirmed?.Author, edition.Confirmed?.Day);

    private static string Checked(Register register, ProfileConfirmed? said, string? author, DateOnly? on)
    {
        if (said is null) return ProfileState.Unchecked;
        var day = said.EditionDay is { } d ? $", text of {d:yyyy-MM-dd}" : ", day of the text not stated";
        var by = author is null ? "somebody" : register.Person(author)?.Name ?? author;
        var figures = said.Digest is null ? "; which figures stood there then was not written down" : "";
        return $"compared with {said.Edition}{day}, by {by} on {on:yyyy-MM-dd}{figures}";
    }
}

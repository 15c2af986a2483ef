using MicRegister.Register.Campaigns;
using MicRegister.Register.Comparison;
using MicRegister.Register.People;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Api;

/// <summary>A version of a profile as it was written once.</summary>
/// <param name="Edition">Its key: the id of the fact that wrote it, or built-in.</param>
/// <param name="By">Who wrote it; left out of the built-in one.</param>
/// <param name="Counts">Whether the fact that wrote it counts still.</param>
/// <param name="Checked">Who compared it with which text and when, or that nobody did.</param>
/// <param name="Digest">What its limits ask, in 26 characters.</param>
public sealed record EditionView(
    string Edition, string Name, string Statement, DateOnly? Day, string? By, bool Counts, bool IsInForce, bool IsConfirmed, string Checked,
    string Digest, IReadOnlyList<ProfileLimit> Limits)
{
    public static EditionView Of(Register.Register register, ProfileEdition e) => new(
        e.Key, e.Written.Name, e.Written.Statement, e.Day,
        e.Author is { } author ? register.Person(author)?.Name ?? author : null, e.Counts, e.IsInForce, e.Confirmed is not null, ProfileWords.Checked(register, e), e.Digest, e.Written.Limits);
}

/// <summary>Two versions of requirements side by side.</summary>
/// <param name="Here">The one that is looked at: it is what is stricter or looser.</param>
/// <param name="There">The one that it is compared with.</param>
/// <param name="Clauses">Limits in which both differ.</param>
/// <param name="Same">How many limits are the same.</param>
/// <param name="Text">How many clauses are what.</param>
public sealed record ComparedProfiles(
    ComparedProfiles.Side Here, ComparedProfiles.Side There, IReadOnlyList<ProfileClause> Clauses, int Same, bool IsNameOther,
    bool IsStatementOther, string Text)
{
    /// <summary>One of both.</summary>
    public sealed record Side(string Profile, string Edition, string Name, DateOnly? Day, bool IsConfirmed, string Checked);

    /// <summary>Compares a profile as it counts with another one, or with an edition.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="here">Id of the profile that is looked at.</param>
    /// <param name="there">Id of the one that it is compared with; null is the same.</param>
    /// <param name="edition">Edition of that one; null is the one that counts, or of the same profile the one before it.</param>
    /// <param name="wrong">What is not there, and what is allowed.</param>
    public static ComparedProfiles? Of(Register.Register register, string here, string? there, string? edition, out string? wrong)
    {
        wrong = null;
        if (InForce(register, here) is not { } a)
        {
            wrong = $"There is no profile {here}.";
            return null;
        }
        var other = there ?? here;
        var editions = register.ProfileEditions(other);
        if (editions.Count == 0)
        {
            wrong = $"There is no profile {other}.";
            return null;
        }
        var b = edition is not null ? editions.FirstOrDefault(e => e.Key == edition)
            : other != here ? InForce(register, other)
            : editions.TakeWhile(e => !e.IsInForce).LastOrDefault(e => e.Counts) ?? a;
        if (b is null)
        {
            wrong = $"Edition '{edition}': allowed are {string.Join(", ", editions.Select(e => e.Key))}.";
            return null;
        }
        var compared = ProfileComparison.Of(b.Written, a.Written);
        return new(
            SideOf(register, here, a), SideOf(register, other, b), compared.Clauses, compared.Same, compared.IsNameOther,
            compared.IsStatementOther, compared.InWords);
    }

    private static ProfileEdition? InForce(Register.Register register, string id) =>
        register.ProfileEditions(id).FirstOrDefault(e => e.IsInForce);

    private static Side SideOf(Register.Register register, string id, ProfileEdition e) =>
        new(id, e.Key, e.Written.Name, e.Day, e.Confirmed is not null, ProfileWords.Checked(register, e));
}

/// <summary>What a proposed profile would change.</summary>
/// <param name="IsWhole">Whether all was worked out; otherwise what is left is counted beside it.</param>
/// <param name="CampaignsLeft">How many campaigns were not worked out.</param>
/// <param name="EventsLeft">How many events were not.</param>
/// <param name="Clauses">In which clauses it differs from what counts.</param>
public sealed record EffectView(
    bool IsWhole, int CampaignsLeft, int Events, int EventsLeft, IReadOnlyList<ProfileClause> Clauses,
    IReadOnlyList<EffectView.Campaign> Campaigns)
{
    public static EffectView Of(ProfileEffect e)
    {
        var campaigns = e.Campaigns;
        return new(
            e.IsWhole, e.CampaignCount - campaigns.Count, e.Events, e.EventsLeft, e.Clauses.Clauses, [.. campaigns.Select(Campaign.Of)]);
    }

    /// <summary>One campaign that is judged by it.</summary>
    /// <param name="Profile">The profile that it names; usual practice stands behind all.</param>
    /// <param name="Before">As things are; left out where no plan is known.</param>
    /// <param name="After">As they would be.</param>
    /// <param name="Changed">Events in which the verdict of a station changes.</param>
    /// <param name="Arising">Doubts about its devices that it would raise.</param>
    /// <param name="Vanishing">Doubts about its devices that it would raise no more.</param>
    public sealed record Campaign(
        string Id, string Name, string? Profile, bool IsChanged, ReadinessCount? Before, ReadinessCount? After, int Events, int EventsLeft,
        EventCount EventsBefore, EventCount EventsAfter, IReadOnlyList<Event> Changed, IReadOnlyList<DoubtView> Arising,
        IReadOnlyList<DoubtView> Vanishing)
    {
        public static Campaign Of(CampaignEffect c) => new(
            c.Campaign, c.Name, c.Profile, c.IsChanged, c.Before, c.After, c.Events, c.EventsLeft, c.EventsBefore, c.EventsAfter,
            [.. c.Changed.Select(e => new Event(
                e.Id, e.Name, DateTimeOffset.FromUnixTimeMilliseconds(e.StartMs), e.Before.Verdict, e.After.Verdict, e.Before.InWords,
                e.After.InWords))],
            [.. c.Arising.Select(DoubtView.Of)], [.. c.Vanishing.Select(DoubtView.Of)]);
    }

    /// <summary>An event of it.</summary>
    public sealed record Event(
        string Id, string Name, DateTimeOffset Start, TraceVerdict Before, TraceVerdict After, string StationsBefore, string StationsAfter);
}

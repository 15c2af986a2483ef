using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>A check as programs and pages see it.</summary>
/// <param name="Fact">Id of its fact; null where it is not stored.</param>
/// <param name="At">When.</param>
/// <param name="Day">Local day at the site.</param>
/// <param name="Campaign">Id of the campaign; null at a bench.</param>
/// <param name="Verdict">accept, reject, undecidable or not judged, by the profile's decision rule.</param>
/// <param name="Rule">The decision rule.</param>
/// <param name="Check">What was read and worked out, with its budget.</param>
/// <param name="Comparisons">What it was held against.</param>
/// <param name="SpreadDb">Greatest minus least of its insertions.</param>
/// <param name="CommonDb">What all chains of that day, moment and calibrator have in common; null where too few were checked.</param>
/// <param name="OwnDb">The rest of its deviation.</param>
/// <param name="StandsOut">Whether it stands out from the others.</param>
/// <param name="AppliedDb">Mean of before and after; null where one of them is missing.</param>
/// <param name="AppliedExpandedDb">Its expanded uncertainty.</param>
public sealed record CheckView(
    string? Fact, string At, DateOnly Day, string? Campaign, string Verdict, string Rule, ChainChecked Check,
    IReadOnlyList<CheckComparison> Comparisons, double? SpreadDb, double? CommonDb, double? OwnDb, bool StandsOut, double? AppliedDb,
    double? AppliedExpandedDb)
{
    /// <summary>What must be known of what it was held against; null where nothing.</summary>
    public string? Caution { get; init; }

    public static CheckView Of(Register.Register register, JudgedCheck judged, CheckDay? day, ProfileState? profile) => new(
        judged.Record.Author.Length == 0 ? null : judged.Record.Fact.ToString(), judged.Record.Occurred.ToString(), judged.Record.Day,
        judged.Record.Campaign, judged.Word,
        DecisionRule.Of(profile?.Limit(LimitKey.DecisionRule)?.Text, null).Kind.ToString().ToLowerInvariant(), judged.Record.Check,
        judged.Comparisons, judged.SpreadDb, day?.Shift?.CommonDb, day?.OwnDb(judged.Record), day?.StandsOut(judged.Record) == true,
        judged.AppliedDb, judged.AppliedExpandedDb)
    {
        Caution = Joined(
            UnreadAir.Of(register, judged.Record.Check), CheckAir.Of(register, profile, judged.Record.Check),
            CheckFrequency.Remark(judged.Record.Check, id => register.Device(id))),
    };

    private static string? Joined(params string?[] cautions) =>
        cautions.OfType<string>().ToList() is { Count: > 0 } said ? string.Join(" ", said) : null;

    /// <summary>The profile that checks of a campaign are judged by; the usual one at a bench.</summary>
    public static ProfileState? ProfileOf(Register.Register register, string? campaign) =>
        register.Profile((campaign is null ? null : register.Campaign(campaign)?.Plan?.Profile) ?? BuiltInProfiles.Usual);

    /// <summary>Checks that are not stored yet, as they would stand among those that are.</summary>
    public static (IReadOnlyList<CheckDay> Days, ProfileState? Profile) Tried(
        Register.Register register, string? campaign, IReadOnlyList<(CheckEntry Entry, ChainChecked Check)> tried, Occurred now,
        IReadOnlyList<CheckRecord>? known = null)
    {
        var profile = ProfileOf(register, campaign);
        List<CheckRecord> fresh = [.. tried.Select((t, i) => CheckBook.Unstored(
            register, campaign, t.Entry.At is { } text && Occurred.TryParse(text, out var at) ? at : now, t.Check, i))];
        known ??= campaign is not null ? CheckBook.OfCampaign(register, campaign)
            : [.. fresh.SelectMany(f => CheckBook.OfDevice(register, f.Check.Devices[0])).DistinctBy(c => c.Fact)];
        var all = known.Concat(fresh).ToList();
        var wanted = fresh.Select(f => (f.Test, f.Check.Moment, f.Check.Calibrator)).ToHashSet();
        return ([.. CheckDay.Of(all, profile).Where(d => wanted.Contains((d.Test, d.Moment, d.Calibrator)))], profile);
    }
}

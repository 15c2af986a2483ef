using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Mounting;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Comparison;

/// <summary>How one campaign was set up, in figures.</summary>
/// <param name="Id">Id of the campaign.</param>
/// <param name="Plan">Its plan, with source and band of interest.</param>
/// <param name="Mounts">Mounts of the stations where something was placed, of all planned ones where nothing was; by their order of kinds.</param>
/// <param name="Unplanned">Stations where something was placed that the plan does not know, so that their mount is not known.</param>
/// <param name="Rule">Which sensitivity is applied.</param>
/// <param name="ResponseTypes">Response types of the microphones with how many there are of each, in order of their names.</param>
/// <param name="CheckedShare">
/// Share of its stations, from 0 to 1, that were checked after on every day on which they were checked
/// before, and at least once; null without stations.
/// </param>
/// <param name="GreatestDifferenceDb">
/// Greatest difference of a check after from the one before, without its sign, in dB; null where none compares.
/// </param>
/// <param name="MedianExpandedDb">
/// Median of the expanded uncertainties of the sensitivities in V/Pa that were applied at all stations of the sampled events, in dB;
/// null where none is.
/// </param>
/// <param name="SampledEvents">How many events were traced for it, at most <see cref="MostEvents"/>, evenly from first to last.</param>
/// <param name="Profile">Name of its requirement profile.</param>
/// <param name="Calibrators">Names of the calibrators of its checks.</param>
/// <param name="Checks">How many checks there are.</param>
/// <param name="IsNormalisationMissing">Whether a traced station has another normalisation than its mount's, or no sensitivity at all.</param>
public sealed record SetupSide(
    string Id, CampaignPlanned Plan, IReadOnlyList<SetupMount> Mounts, IReadOnlyList<string> Unplanned, SensitivityRule Rule,
    IReadOnlyList<(string Type, int Microphones)> ResponseTypes,
    double? CheckedShare, double? GreatestDifferenceDb, double? MedianExpandedDb,
    int SampledEvents, string Profile, IReadOnlyList<string> Calibrators, int Checks, bool IsNormalisationMissing)
{
    /// <summary>More events are not traced.</summary>
    public const int MostEvents = 20;

    private const double SameDb = 0.005;

    public string Name => Plan.Name;

    /// <summary>How much higher its levels are than in the free field, in dB; null where its mount is not known or mixed.</summary>
    public double? RaisesDb => Mounts.Count == 1 && Unplanned.Count == 0 ? Mounts[0].RaisesDb : null;

    internal static SetupSide? Of(Register register, string id)
    {
        if (register.Campaign(id) is not { Plan: { } plan } campaign) return null;
        var profile = register.Profile(plan.Profile);
        var placements = ArrayDeployment.Of(register, id).Placements;
        List<string> used = [.. (placements.Count > 0 ? placements.Select(p => p.Station) : campaign.Stations.Keys)
            .Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        var devices = placements.Count > 0
            ? placements.SelectMany(p => p.Devices)
            : campaign.Chains.Values.SelectMany(c => c).Select(d => register.EntriesOf(d)[0]);
        var types = devices.Distinct(StringComparer.Ordinal).Select(d => register.Device(d)).OfType<DeviceState>()
            .Where(d => d.Kind == DeviceKind.Microphone.Key)
            .GroupBy(d => d.Text(DeviceField.ResponseType) ?? "not known", StringComparer.Ordinal)
            .OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => (g.Key, g.Count()));
        var checks = CheckBook.OfCampaign(register, id);
        var pairs = Pairs(profile, checks);
        var (median, sampled, isMissing) = Traced(register, campaign);
        var calibrators = checks.Select(k => k.Check.Calibrator).Distinct(StringComparer.Ordinal);
        return new(
            id, plan, MountsOf(campaign, profile, placements, used), [.. used.Where(s => !campaign.Stations.ContainsKey(s))],
            campaign.Rule, [.. types],
            used.Count == 0 ? null : used.Count(s => IsChecked(s, checks, pairs)) / (double)used.Count,
            pairs.Count == 0 ? null : pairs.Max(p => Math.Abs(p.DifferenceDb)), median, sampled, profile?.Written.Name ?? plan.Profile,
            [.. calibrators.Select(d => register.Device(d)?.Name ?? d).Order(StringComparer.Ordinal)], checks.Count, isMissing);
    }

    private static List<SetupMount> MountsOf(CampaignState campaign, ProfileState? profile, IReadOnlyList<Placement> placements, List<string> used)
    {
        var toleranceDb = profile?.Value(LimitKey.MountToleranceDb) is { } t and > 0 ? t : MountUse.UsualToleranceDb;
        var gaps = placements.Where(p => p.Said.GapMm is not null).ToLookup(p => p.Station, p => p.Said.GapMm, StringComparer.Ordinal);
        var chains = used.Select(s => campaign.Stations.GetValueOrDefault(s)).OfType<StationPlanned>().SelectMany(s => Chains(s));
        List<SetupMount> mounts = [];
        foreach (var group in chains.GroupBy(c => c.Plan.Mount).OrderBy(g => g.Key))
        {
            var bands = group.Select(c => MountUse.Band(c.Plan.Mount, c.HeightM, toleranceDb)).ToList();
            var stations = group.Select(c => c.Station).Distinct(StringComparer.Ordinal).Count();
            List<double> heights = [.. group.Select(c => c.HeightM).Distinct().Order()];
            mounts.Add(new(group.Key, stations, heights, bands.Max(b => b.FromHz), bands.Min(b => b.ToHz)));
        }
        return mounts;

        // A gap that was measured comes before the planned one.
        IEnumerable<PlannedChain> Chains(StationPlanned s)
        {
            var measured = s.Mount == Mount.InvertedPlate ? gaps[s.Station].OfType<double>().ToList() : [];
            return measured.Count == 0
                ? [new(s.Station, s, [])]
                : measured.Select(gap => new PlannedChain(s.Station, MountUse.AsMeasured(s, gap), []));
        }
    }

    // Each check after with the one before that it is held against; only checks of the same parts compare.
    private static List<(CheckRecord Before, CheckRecord After, double DifferenceDb)> Pairs(ProfileState? profile, IReadOnlyList<CheckRecord> checks)
    {
        var pairs = new List<(CheckRecord, CheckRecord, double)>();
        foreach (var chain in checks.GroupBy(k => string.Join(' ', k.Check.Devices.Order(StringComparer.Ordinal)), StringComparer.Ordinal))
        {
            CheckRecord[] own = [.. chain];
            foreach (var after in own.Where(k => k.Check.Moment == CheckMoment.After))
            {
                if (CheckJudge.Judge(profile, after, own).Before is { } before && after.Since(before) is { } difference)
                    pairs.Add((before, after, difference));
            }
        }
        return pairs;
    }

    private static bool IsChecked(
        string station, IReadOnlyList<CheckRecord> checks, List<(CheckRecord Before, CheckRecord After, double DifferenceDb)> pairs)
    {
        var paired = pairs.Where(p => p.After.Check.Station == station).Select(p => p.Before.Day).ToHashSet();
        return paired.Count > 0
            && checks.Where(k => k.Check.Station == station && k.Check.Moment == CheckMoment.Before).All(k => paired.Contains(k.Day));
    }

    private static (double? MedianDb, int Events, bool IsMissing) Traced(Register register, CampaignState campaign)
    {
        var events = EventBook.OfCampaign(register, campaign.Id);
        var count = Math.Min(events.Count, MostEvents);
        var isMissing = false;
        var expanded = new List<double>();
        for (var i = 0; i < count; i++)
        {
            // The first, the last, and evenly between.
            var at = count == 1 ? 0 : (int)((long)i * (events.Count - 1) / (count - 1));
            foreach (var station in Tracer.Of(register, events[at].Id)?.Stations.Where(s => s.Placement is not null) ?? [])
            {
                if (station.Applied is { } applied) expanded.Add(applied.ExpandedDb);
                if (station.Plan is null || station.Applied is null
                    || Math.Abs(station.Applied.NormalisationDb + station.Plan.Mount.RaisesDb) > SameDb)
                {
                    isMissing = true;
                }
            }
        }
        expanded.Sort();
        double? median = expanded.Count == 0 ? null : (expanded[(expanded.Count - 1) / 2] + expanded[expanded.Count / 2]) / 2;
        return (median, count, isMissing);
    }
}

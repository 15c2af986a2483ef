using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;

namespace MicRegister.Register.Mounting;

/// <summary>How the stations of a campaign stand, and whether that suits its source and band. A pure function of the register.</summary>
/// <param name="Campaign">Id of the campaign.</param>
/// <param name="Plan">Its plan.</param>
/// <param name="Groups">Stations of one mount and height together, by mount, then height.</param>
/// <param name="ColdC">Lowest temperature in °C that was looked at.</param>
/// <param name="WarmC">Highest.</param>
/// <param name="AirFrom">Where these come from: noted, profile or assumed.</param>
/// <param name="Profile">The profile that the campaign is judged by; null where it is not known.</param>
public sealed record CampaignMounts(
    string Campaign, CampaignPlanned Plan, IReadOnlyList<MountGroup> Groups, double ColdC, double WarmC, string AirFrom,
    ProfileState? Profile)
{
    /// <summary>Mounts that the profile allows, by their keys; empty where it does not limit them.</summary>
    public IReadOnlyList<string> Allowed => Profile?.Words(LimitKey.Mounts) ?? [];

    /// <summary>The tolerance in dB, of the profile or the usual one.</summary>
    public double ToleranceDb => Profile?.Value(LimitKey.MountToleranceDb) is { } t and > 0 ? t : MountUse.UsualToleranceDb;

    /// <summary>What the profile says of mounts, sentence by sentence, each with its source.</summary>
    public IReadOnlyList<string> ProfileSays => [.. Said()];

    /// <summary>The mounts of a campaign.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="id">Id of the campaign.</param>
    /// <param name="elevationDeg">Elevation of the source in °; overhead as in plans and traces.</param>
    /// <param name="temperatureC">Temperature of the answer in °C; 15 as in plans and traces.</param>
    /// <param name="reflection">What the ground returns of the sound pressure; rigid as in plans and traces.</param>
    /// <returns>Null where its plan is not known.</returns>
    public static CampaignMounts? Of(
        Register register, string id, double elevationDeg = 90, double temperatureC = 15, double reflection = 1)
    {
        if (register.Campaign(id) is not { Plan: { } plan } campaign) return null;
        var profile = register.Profile(plan.Profile);
        var (cold, warm, from) = Air(register, id, profile);
        var mounts = new CampaignMounts(id, plan, [], cold, warm, from, profile);
        var gaps = ArrayDeployment.Of(register, id).Placements
            .Where(p => p.Said.GapMm is not null).ToLookup(p => p.Station, p => p.Said.GapMm!.Value, StringComparer.Ordinal);
        var stands = campaign.Stations.Keys.Select(s => campaign.PlaceOf(s)!).SelectMany(p => Stands(p, gaps[p.Plan.Station]));
        return mounts with
        {
            Groups =
            [
                .. stands.GroupBy(s => (s.Mount, s.HeightM)).OrderBy(g => g.Key).Select(g => new MountGroup(
                    new(g.Key.Mount, g.Key.HeightM, plan.Source, plan.LowestHz, plan.HighestHz)
                    {
                        ElevationDeg = elevationDeg,
                        TemperatureC = temperatureC,
                        Reflection = reflection,
                        ToleranceDb = mounts.ToleranceDb,
                        ColdC = cold,
                        WarmC = warm,
                        HeightOffMm = OffMm(g.Key.Mount, profile),
                    },
                    [.. g.Select(s => s.Station).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                    [.. g.Select(s => s.By).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                    mounts.Allowed.Count == 0 || mounts.Allowed.Contains(g.Key.Mount.Key))),
            ],
        };
    }

    // A measured gap stands before what was surveyed or planned, as in traces; a station placed twice can have two.
    private static IEnumerable<(string Station, Mount Mount, double HeightM, string By)> Stands(
        StationPlace place, IEnumerable<double> gapsMm)
    {
        var (station, mount) = (place.Plan.Station, place.Plan.Mount);
        var gaps = mount == Mount.InvertedPlate ? gapsMm.Distinct().ToList() : [];
        if (gaps.Count == 0) yield return (station, mount, place.HeightM ?? mount.UsualHeightM, place.HeightBy);
        foreach (var gap in gaps) yield return (station, mount, MountUse.AsMeasured(place.AsBuilt, gap).HeightM!.Value, "measured");
    }

    private static (double ColdC, double WarmC, string From) Air(Register register, string id, ProfileState? profile)
    {
        List<double> read = [.. WeatherLog.Of(register, id).Samples.Select(s => s.Said.TemperatureC).OfType<double>()];
        if (read.Count > 0) return (read.Min(), read.Max(), "noted");
        return profile?.Value(LimitKey.TemperatureLeastC) is { } least && profile.Value(LimitKey.TemperatureMostC) is { } most
            ? (least, most, "profile")
            : (-10, 35, "assumed");
    }

    private static double OffMm(Mount mount, ProfileState? profile) => mount switch
    {
        Mount.FlushPlate => profile?.Value(LimitKey.FlushStepMm),
        Mount.InvertedPlate => profile?.Value(LimitKey.GapToleranceMm),
        _ => null,
    }
    ?? MountQuestion.UsualOffMm(mount);

    private IEnumerable<string> Said()
    {
        if (Profile is null)
        {
            yield return $"The profile {Plan.Profile} is not known.";
            yield break;
        }
        yield return Profile.Limit(LimitKey.Mounts) is { } mounts
            ? $"Allowed: {string.Join(", ", Allowed)} ({Basis(mounts)})."
            : "It limits no mounts.";
        yield return Profile.Limit(LimitKey.MountToleranceDb) is { Value: > 0 } tolerance
            ? FormattableString.Invariant($"Greatest loss over the band: {tolerance.Value} dB ({Basis(tolerance)}).")
            : FormattableString.Invariant($"It sets no greatest loss: {MountUse.UsualToleranceDb} dB is taken ")
                + $"({MountPractice.Certainty}).";
        foreach (var key in new[] { LimitKey.GapMm, LimitKey.GapToleranceMm, LimitKey.FlushStepMm })
        {
            if (Profile.Limit(key) is { Value: { } value } limit)
                yield return FormattableString.Invariant($"{LimitKey.Find(key)!.Label}: {value} mm ({Basis(limit)}).");
        }
    }

    private static string Basis(ProfileLimit limit) =>
        limit.Source == limit.Certainty ? limit.Source : $"{limit.Source}; {limit.Certainty}";
}

/// <summary>Stations that stand alike.</summary>
/// <param name="Question">What is asked of them.</param>
/// <param name="Stations">Their names, in order.</param>
/// <param name="HeightBy">Where the height is from: measured, surveyed, planned or usual.</param>
/// <param name="IsAllowed">Whether the profile allows the mount, or limits none.</param>
public sealed record MountGroup(MountQuestion Question, IReadOnlyList<string> Stations, IReadOnlyList<string> HeightBy, bool IsAllowed);

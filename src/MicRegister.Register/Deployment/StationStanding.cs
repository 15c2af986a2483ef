using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Deployment;

/// <summary>How far a station is.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="State">How far it is.</param>
/// <param name="Placement">What stands there; null where nothing does.</param>
/// <param name="Check">The newest check of this chain since it was placed; null where there is none.</param>
/// <param name="Reasons">Why it fails, or what is otherwise than planned, in sentences.</param>
/// <param name="OffsetM">Distance from the plan by the phone, in m; null where it was not taken.</param>
/// <param name="LastSeen">When anything was said of it, in milliseconds since 1970; null where nothing was.</param>
public sealed record StationStanding(string Station, StationState State, Placement? Placement, JudgedCheck? Check, IReadOnlyList<string> Reasons, double? OffsetM, long? LastSeen)
{
    // So many are told of one placement; all stand among the findings.
    private const int MostFindings = 100;

    /// <summary>How many of the reasons, from the first on, make it fail; the others are worth knowing.</summary>
    public int Grave { get; init; }

    /// <summary>
    /// When its chain is to be checked again at the latest, in milliseconds since 1970, where the profile asks for checks by the clock;
    /// null where it asks for none, or testing ended with a check after.
    /// </summary>
    public long? NextCheckMs { get; init; }

    /// <summary>Whether that time is past.</summary>
    /// <param name="nowMs">The instant, in milliseconds since 1970; at the time itself the check is still in time.</param>
    public bool IsOverdue(long nowMs) => NextCheckMs < nowMs;

    /// <summary>All stations of a campaign, planned ones and those where something was placed all the same, in order of their names.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">The campaign.</param>
    /// <param name="deployment">What stands where.</param>
    /// <param name="checks">Its checks.</param>
    public static IReadOnlyList<StationStanding> Of(Register register, CampaignState campaign, ArrayDeployment deployment, IReadOnlyList<CheckRecord> checks)
    {
        var profile = campaign.Plan is { } plan ? register.Profile(plan.Profile) : null;
        var findings = DeploymentFindings.Of(register, campaign.Id).SelectMany(f => f.Facts.Select(fact => (Fact: fact, f.Text)))
            .ToLookup(f => f.Fact, f => f.Text, StringComparer.Ordinal);
        var placements = deployment.Placements.ToLookup(p => p.Station, StringComparer.Ordinal);
        var byStation = checks.Where(c => c.Check.Station is not null).ToLookup(c => c.Check.Station!);
        var stations = campaign.Stations.Keys.Concat(deployment.Placements.Select(p => p.Station)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
        return [.. stations.Select(s => One(register, campaign, placements[s], profile, findings, s, [.. byStation[s]]))];
    }

    private static StationStanding One(Register register, CampaignState campaign, IEnumerable<Placement> placements, ProfileState? profile,
        ILookup<string, string> findings, string station, List<CheckRecord> checks)
    {
        var placement = placements.LastOrDefault(p => p.Stands);
        var last = placements.LastOrDefault();
        long? seen = new[] { last?.From, last?.Until, checks.Count > 0 ? checks[^1].Instant : null }.Max();
        if (placement is null) return new(station, last is null ? StationState.Planned : StationState.TakenIn, null, null, [], null, seen);

        HashSet<string> stands = [.. placement.Devices];
        var own = checks.Where(c => c.Instant >= placement.From && IsOf(register, c, stands)).ToList();
        var check = own.Count == 0 ? null : CheckJudge.Judge(profile, own[^1], checks);
        var failing = new List<string>();
        if (check?.Verdict is ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided)
        {
            var became = check.Verdict == ConformityVerdict.Undecided ? "cannot be decided" : "fails";
            failing.AddRange(check.Comparisons
                .Where(c => c.Verdict is ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided)
                .Select(c => $"Its check {became}: {QuantityText.Change(c.DifferenceDb, "dB", 2)} {c.What}, "
                    + $"{QuantityText.UpTo(c.LimitDb, 2)} dB allowed."));
        }
        foreach (var device in placement.Devices.Select(d => register.Device(d)).OfType<DeviceState>())
        {
            if (device.Status is DeviceStatus.OutOfService or DeviceStatus.Lost or DeviceStatus.Retired)
            {
                var reason = device.Statuses[^1].What.Reason is { Length: > 0 } why ? ": " + why : "";
                failing.Add($"{device.Name} is {device.Status.InWords}{reason}.");
            }
            else if (device.Services.LastOrDefault(s => s.What.What is ServiceKind.Damage or ServiceKind.Malfunction
                && IsSince(register, s, placement)) is { } harm)
            {
                failing.Add($"{device.Name}: {harm.What.Text}.");
            }
        }
        failing.AddRange(findings[placement.Fact.ToString()].Take(MostFindings));
        List<string> reasons = [.. failing, .. OtherThanPlanned(register, campaign, station, placement, stands),
            .. placement.Said.Concerns.Select(c => "Said when it was placed: " + c)];
        double? offset = placement.Said.Position is { } at && campaign.Stations.GetValueOrDefault(station) is { } planned ? at.MetresTo(planned.LatitudeDeg, planned.LongitudeDeg) : null;
        var state = failing.Count > 0 ? StationState.Failing : check is null ? StationState.Placed : StationState.Checked;
        return new(station, state, placement, check, reasons, offset, seen)
        {
            Grave = failing.Count,
            NextCheckMs = CheckClock.Of(profile).NextDue(own.LastOrDefault()),
        };
    }

    // By when it was, not by when it came: a phone may speak days later.
    private static bool IsSince(Register register, Dated<DeviceServiced> service, Placement placement) =>
        register.Find(service.Fact) is var sequence and > 0 && register.Source.Read(sequence) is { Occurred.IsInstant: true } fact ? register.Instant(fact) >= placement.From : service.Day >= placement.Occurred.Day;

    // The chain that was checked is the one that stands: its sound-carrying parts are the same; a plate makes no sound.
    private static bool IsOf(Register register, CheckRecord check, HashSet<string> stands) =>
        check.Check.Devices.All(stands.Contains) || check.Check.Devices.Where(d => register.Device(d)?.Kind == DeviceKind.Microphone.Key)
            .All(stands.Contains);

    private static IEnumerable<string> OtherThanPlanned(Register register, CampaignState campaign, string station, Placement placement,
        HashSet<string> stands)
    {
        HashSet<string> planned = [.. campaign.Chains.GetValueOrDefault(station, []).Select(d => register.EntriesOf(d)[0])];
        var extra = placement.Devices.Where(d => !planned.Contains(d)).Select(d => register.Device(d)?.Name ?? d).ToList();
        var missing = planned.Where(d => !stands.Contains(d)).Select(d => register.Device(d)?.Name ?? d)
            .Order(StringComparer.Ordinal).ToList();
        if (extra.Count > 0) yield return $"Not planned here: {string.Join(", ", extra)}.";
        if (missing.Count > 0) yield return $"Planned and not placed: {string.Join(", ", missing)}.";
    }
}

/// <summary>How far a station is.</summary>
public enum StationState
{
    /// <summary>Nothing stands there yet.</summary>
    Planned,

    /// <summary>A chain stands there, unchecked.</summary>
    Placed,

    /// <summary>Its newest check stands.</summary>
    Checked,

    /// <summary>Something stands against what is there.</summary>
    Failing,

    /// <summary>Nothing stands there any more.</summary>
    TakenIn,
}

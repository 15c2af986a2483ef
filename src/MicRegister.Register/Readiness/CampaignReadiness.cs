using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Judges a campaign by all rules.</summary>
public static class CampaignReadiness
{
    /// <summary>Key of the finding about the array as a whole, which follows from all others.</summary>
    public const string ArrayRule = "array";

    /// <summary>The verdict on a campaign, with all that stands against it.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">Id of a campaign.</param>
    /// <param name="today">Day as of which it is judged: what was stated of later days is not used.</param>
    /// <returns>Null where no plan of that campaign is known on that day.</returns>
    public static ReadinessReport? Judge(Register register, string campaign, DateOnly today)
    {
        if (register.Campaign(campaign, today) is not { Plan: { } plan } state) return null;
        var context = new ReadinessContext(register, state, plan, today);
        var undecided = context.InUse.Where(d => !d.WrittenByNewer.IsEmpty).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        var findings = ReadinessRules.All.SelectMany(r => r.Judge(context))
            .Where(f => f.Device is null || f.Rule == "newer-facts" || !undecided.Contains(f.Device))
            .ToList();

        var stations = context.Chains.Select(c => Station(context, c, findings)).ToList();
        var usable = UsableSpares(context, findings);
        double[] holding = [.. stations.Select(s => s.Probability)];
        var all = LossCount.ProbabilityAtMost(holding, 0);
        var withLosses = LossCount.ProbabilityAtMost(holding, plan.PermittedLosses);
        var withSpares = LossCount.ProbabilityAtMost(holding, plan.PermittedLosses + usable);
        var common = CommonShift.Of(context, stations);
        if (context.Profile.Value(LimitKey.ArrayProbability) is { } least && !DecisionLimit.AtLeast(withLosses, least))
        {
            findings.Add(context.About(ArrayRule, Gravity.Risks, Clearing.Swap,
                FormattableString.Invariant($"The array holds through {plan.LastDay:yyyy-MM-dd} with probability {withLosses:0.000} ({withSpares:0.000} with the {usable} fit spares); at least {least} is asked with {plan.PermittedLosses} losses permitted. With a shift common to microphones of one laboratory and day the array holds with probability {common.AtMost(plan.PermittedLosses):0.000}."),
                new("probability", withLosses, ""), new("probability with spares", withSpares, ""), new("limit", least, "")));
        }

        findings.Sort(InOrder);
        return new(campaign, plan.Name, today, plan.FirstDay, plan.LastDay, plan.Profile, Verdict(findings, !state.WrittenByNewer.IsEmpty || undecided.Count > 0 || context.Profile.WrittenByNewer),
            stations, findings, all, withLosses, withSpares, usable, ArrayOutlook.Of(common, holding, plan.PermittedLosses, usable));
    }

    private static StationReadiness Station(ReadinessContext context, PlannedChain chain, List<Finding> findings)
    {
        var own = findings.Where(f => f.Station == chain.Station).ToList();
        var verdict = Verdict(own, chain.Devices.Any(d => !d.WrittenByNewer.IsEmpty));
        double probability = verdict is ReadinessVerdict.NotReady or ReadinessVerdict.Undecided ? 0 : 1;
        if (probability > 0)
        {
            foreach (var device in chain.Devices)
                probability *= CalibrationRules.Probability(context, device)?.Probability ?? 1;
        }
        return new(chain.Station, verdict, probability, [.. chain.Devices.Select(d => d.Id)]);
    }

    // A spare counts when it is fit, free, and could stand where most of the array's microphones stand.
    private static int UsableSpares(ReadinessContext context, List<Finding> findings)
    {
        var marred = findings.Where(f => f.Device is not null && f.Gravity >= Gravity.Risks).Select(f => f.Device!).ToHashSet(StringComparer.Ordinal);
        var usual = context.Chains.Select(c => c.Microphone).OfType<DeviceState>().GroupBy(Look).OrderByDescending(g => g.Count()).ThenBy(g => g.Key.Response, StringComparer.Ordinal).FirstOrDefault()?.Key;
        return context.Spares.DistinctBy(s => s.Id).Count(s => s.Kind == DeviceKind.Microphone.Key && context.IsSpareOnly(s) && s.WrittenByNewer.IsEmpty && !marred.Contains(s.Id)
            && (usual is null || Look(s) == usual) && (s.Number(DeviceField.HighestHz) is not { } high || DecisionLimit.AtMost(context.Plan.HighestHz, high)));
    }

    private static (string? Response, double? SizeMm) Look(DeviceState microphone) => (microphone.Text(DeviceField.ResponseType), microphone.Number(DeviceField.SizeMm));

    private static ReadinessVerdict Verdict(List<Finding> findings, bool isUndecided) =>
        findings.Any(f => f.Gravity == Gravity.Stops) ? ReadinessVerdict.NotReady
        : isUndecided ? ReadinessVerdict.Undecided
        : findings.Any(f => f.Gravity == Gravity.Risks) ? ReadinessVerdict.AtRisk
        : ReadinessVerdict.Ready;

    private static int InOrder(Finding a, Finding b)
    {
        var order = b.Gravity.CompareTo(a.Gravity);
        if (order == 0) order = a.BitesOn.CompareTo(b.BitesOn);
        if (order == 0) order = string.CompareOrdinal(a.Rule, b.Rule);
        if (order == 0) order = string.CompareOrdinal(a.Station, b.Station);
        if (order == 0) order = string.CompareOrdinal(a.Device, b.Device);
        return order == 0 ? string.CompareOrdinal(a.Text, b.Text) : order;
    }
}

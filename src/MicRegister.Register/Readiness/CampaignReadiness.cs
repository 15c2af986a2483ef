using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Drift;

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
    /// <param name="siteDay">Day at the site, by which the campaign is over or not; null takes the day as of which it is judged.</param>
    /// <returns>Null where no plan of that campaign is known on that day.</returns>
    public static ReadinessReport? Judge(Register register, string campaign, DateOnly today, DateOnly? siteDay = null)
    {
        if (register.Campaign(campaign, today) is not { Plan: { } plan } state) return null;
        var context = new ReadinessContext(register, state, plan, today);
        var (isConfirmed, by) = (context.Profile.Confirmed is not null, ProfileWords.Checked(register, context.Profile));
        var report = plan.LastDay < (siteDay ?? today) ? Over(context) : ThroughItsLastDay(context);
        return report with { IsProfileConfirmed = isConfirmed, ProfileChecked = by };
    }

    private static ReadinessReport ThroughItsLastDay(ReadinessContext context)
    {
        var (state, plan) = (context.Campaign, context.Plan);
        List<Finding> findings = [.. context.Found, .. PlanRules.Spares(context)];

        var stations = context.Chains.Select(c => Station(context, c, findings)).ToList();
        double[] holding = [.. stations.Select(s => s.Probability)];
        var all = LossCount.ProbabilityAtMost(holding, 0);
        var withLosses = LossCount.ProbabilityAtMost(holding, plan.PermittedLosses);
        var withSpares = context.SpareBook.Probability(plan.PermittedLosses);
        var (common, commonWithSpares) = CommonShift.Of(context, stations, context.SpareBook);
        if (context.Profile.Value(LimitKey.ArrayProbability) is { } least && !DecisionLimit.AtLeast(withLosses, least))
        {
            var atLeast = withSpares is { IsAtLeast: true, Probability: <= 0.9995 } ? "at least " : "";
            findings.Add(context.About(ArrayRule, Gravity.Risks, Clearing.Swap,
                FormattableString.Invariant($"The array holds through {plan.LastDay:yyyy-MM-dd} with probability ")
                    + $"{DriftWords.Probability(withLosses)} ({atLeast}{DriftWords.Probability(withSpares.Probability)} "
                    + $"with {ReadinessWords.FitSpares(context.SpareBook.All)}); "
                    + FormattableString.Invariant($"at least {least} is asked with {plan.PermittedLosses} losses permitted. ")
                    + "With a shift common to microphones of one laboratory and day the array holds with probability "
                    + $"{DriftWords.Probability(common.AtMost(plan.PermittedLosses))}.",
                new("probability", withLosses, ""), new("probability with spares", withSpares.Probability, ""), new("limit", least, "")));
        }

        findings.Sort(InOrder);
        var isUndecided = !state.WrittenByNewer.IsEmpty || context.Undecided.Count > 0 || context.Profile.WrittenByNewer;
        return new(
            state.Id, plan.Name, context.Today, plan.FirstDay, plan.LastDay, plan.Profile, Verdict(findings, isUndecided), stations, findings, all,
            withLosses, withSpares.Probability, context.SpareBook.Microphones,
            ArrayOutlook.Of(common, commonWithSpares.Probability, holding, plan.PermittedLosses))
        {
            Spares = context.SpareBook.All,
            IsWithSparesAtLeast = withSpares.IsAtLeast || commonWithSpares.IsAtLeast,
        };
    }

    /// <summary>Local day at a campaign's site.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="now">The instant.</param>
    public static DateOnly SiteDay(Register register, string campaign, DateTimeOffset now) =>
        Facts.ZoneOffsets.LocalDay(now.ToUnixTimeMilliseconds(), register.OffsetsOf(campaign));

    // Nothing can be cleared before it any more; what is open in its evidence is for a person to weigh.
    private static ReadinessReport Over(ReadinessContext c)
    {
        List<Finding> open = [.. ReadinessRules.OfEvidence.SelectMany(r => r.Judge(c))
            .Select(f => f with { LatestStart = null, IsTooLate = false })];
        open.Sort(InOrder);
        return new(
            c.Campaign.Id, c.Plan.Name, c.Today, c.Plan.FirstDay, c.Plan.LastDay, c.Plan.Profile, ReadinessVerdict.Over,
            [.. c.Chains.Select(s => new StationReadiness(s.Station, ReadinessVerdict.Over, 0, [.. s.Devices.Select(d => d.Id)]))], open,
            0, 0, 0, 0, new(0, 0, 0, 0, 0, 0));
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

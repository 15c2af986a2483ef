using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>A station as it is to be.</summary>
/// <param name="Plan">Its place and mount.</param>
/// <param name="Chain">Ids of its devices, capsule first; null leaves its chain as it is.</param>
public sealed record StationRow(StationPlanned Plan, IReadOnlyList<string>? Chain);

/// <summary>Many stations planned as one act: nobody ever sees half of it, nor a station without the chain that was said with it.</summary>
public static class StationPlans
{
    /// <summary>Says what differs from the plan, and nothing else.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="id">Id of the campaign.</param>
    /// <param name="rows">Stations that are added or changed, each once.</param>
    /// <param name="fallen">Names of stations that fall away.</param>
    /// <param name="reason">Why they do; of no matter where none does.</param>
    /// <returns>The facts, or which station cannot be so and what is allowed.</returns>
    public static Result<IReadOnlyList<Fact>> Plan(
        Register register, Saying saying, string id, IReadOnlyList<StationRow> rows, IReadOnlyList<string> fallen, string reason)
    {
        if (register.Campaign(id) is not { } campaign) return new Rejection(RejectionSort.NotFound, $"There is no campaign {id}.");
        var names = rows.Select(r => r.Plan.Station).Concat(fallen);
        if (names.GroupBy(n => n, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { Key: var twice })
            return Saying.Invalid($"Station '{twice}' stands twice; each has a name of its own.");
        var facts = new List<Fact>();
        foreach (var plan in rows.Select(r => r.Plan).Where(p => campaign.Stations.GetValueOrDefault(p.Station ?? "") != p))
        {
            if (Take(CampaignDecisions.PlanStation(register, saying, id, plan), plan.Station, facts) is { } wrong) return wrong;
        }
        // What follows speaks of stations that are only now there; whoever saw the plan as it was saw enough.
        var placed = facts.Count == 0 ? register : register.WhatIf(facts);
        var then = facts.Count == 0 ? saying : saying with { SawVersion = null };
        foreach (var (plan, chain) in rows)
        {
            if (chain is null || chain.SequenceEqual(campaign.Chains.GetValueOrDefault(plan.Station, []))) continue;
            if (Take(CampaignDecisions.PlanChain(placed, then, id, plan.Station, chain), plan.Station, facts) is { } wrong) return wrong;
        }
        foreach (var station in fallen)
        {
            if (Take(CampaignDecisions.DropStation(register, saying, id, station, reason), station, facts) is { } wrong) return wrong;
        }
        return new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }

    private static Rejection? Take(Result<IReadOnlyList<Fact>> said, string? station, List<Fact> facts)
    {
        if (said is Result<IReadOnlyList<Fact>>.Rejected { Why: var why })
            return why.Sort == RejectionSort.Conflict ? why : why with { Text = $"Station {station}: {why.Text}" };
        facts.AddRange(((Result<IReadOnlyList<Fact>>.Accepted)said).Value);
        return null;
    }
}

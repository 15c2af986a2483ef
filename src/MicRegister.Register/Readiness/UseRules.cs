using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether the devices are there and free.</summary>
internal static class UseRules
{
    public static IEnumerable<Finding> WrittenByNewer(ReadinessContext c)
    {
        foreach (var device in c.InUse.Where(d => !d.WrittenByNewer.IsEmpty))
        {
            yield return c.About("newer-facts", Gravity.Risks, device, c.Plan.FirstDay, Clearing.Decide,
                $"{device.WrittenByNewer.Length} facts about it cannot be used (newer version, or beyond bounds): "
                    + "its verdict is undecided here.");
        }
        if (!c.Campaign.WrittenByNewer.IsEmpty)
        {
            yield return c.About("newer-facts", Gravity.Risks, Clearing.Decide,
                $"{c.Campaign.WrittenByNewer.Length} facts about the campaign cannot be used (newer version, or beyond bounds).");
        }
    }

    public static IEnumerable<Finding> NotRegistered(ReadinessContext c) => c.InUse
        .Where(d => d.Kind is null)
        .Select(d => c.About("not-registered", Gravity.Stops, d, c.Plan.FirstDay, Clearing.Enter, $"The plan names {d.Id}, which the register does not know."));

    public static IEnumerable<Fault> Contradicted(StandingDevice s) =>
        s.Device.Contradictions.Select(text => new Fault(Gravity.Risks, s.Device, Clearing.Decide, text));

    public static IEnumerable<Fault> Unfit(StandingDevice s)
    {
        var device = s.Device;
        if (device.Status == DeviceStatus.InService) yield break;
        var isAway = device.Status == DeviceStatus.Away;
        var place = isAway && device.Place is { } at ? $" ({at})" : "";
        var reason = device.Statuses[^1].What.Reason is { Length: > 0 } why ? $": {why}" : "";
        yield return new(isAway ? Gravity.Risks : Gravity.Stops, device, Clearing.Swap,
            $"{device.Name} is {device.Status.InWords}{place}{reason}.")
        {
            Basis = $"fact {device.Statuses[^1].Fact}",
        };
    }

    public static IEnumerable<Finding> DoubleBooked(ReadinessContext c)
    {
        foreach (var chain in c.Chains)
        {
            foreach (var device in chain.Devices)
            {
                if (c.StationsOf[device.Id] is { Count: > 1 } stations)
                    yield return c.About("double-booked", Gravity.Stops, chain, device, Clearing.Plan, $"{device.Name} is planned at {string.Join(" and ", stations)}.");
            }
        }

        foreach (var spare in c.Spares.Where(s => c.StationOf(s) is not null))
            yield return c.About("double-booked", Gravity.Risks, spare, c.Plan.FirstDay, Clearing.Plan, $"{spare.Name} is planned at {c.StationOf(spare)} and goes along as a spare.");

        foreach (var other in c.Register.CampaignIds.Where(o => o != c.Campaign.Id))
        {
            if (c.Register.Campaign(other, c.Today) is not { Plan: { } plan } state || plan.LastDay < c.Plan.FirstDay || plan.FirstDay > c.Plan.LastDay) continue;
            var mine = c.InUse.Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
            foreach (var id in state.Devices.Select(d => c.Register.Device(d, c.Today)?.Id ?? d).Distinct(StringComparer.Ordinal).Where(mine.Contains))
            {
                var from = plan.FirstDay > c.Plan.FirstDay ? plan.FirstDay : c.Plan.FirstDay;
                yield return c.About("double-booked", Gravity.Stops, c.Device(id), from, Clearing.Plan,
                    $"{c.Device(id).Name} is planned for {plan.Name} as well, {plan.FirstDay:yyyy-MM-dd} to {plan.LastDay:yyyy-MM-dd}.");
            }
        }
    }
}

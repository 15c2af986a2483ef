using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether the plan as a whole is sound.</summary>
internal static class PlanRules
{
    public const string SparesRule = "spares";

    public static IEnumerable<Finding> Spares(ReadinessContext c)
    {
        var wanted = c.Plan.SparesWanted ?? (int)Math.Ceiling((c.Profile.Value(LimitKey.SpareShare) ?? 0) * c.Chains.Count);
        var spares = c.SpareBook.Microphones;
        if (spares >= wanted) yield break;
        var not = c.SpareBook.All.Where(s => s.Why is not null && s.Kind == DeviceKind.Microphone.Key).Select(s => $"{s.Name} {s.Why}").ToList();
        var rest = not.Count > MostNamed ? $", and {not.Count - MostNamed} more" : "";
        yield return c.About(SparesRule, Gravity.Risks, Clearing.Plan,
            $"{spares} spare microphones go along; {wanted} are wanted for {c.Chains.Count} stations."
                + (not.Count == 0 ? "" : $" Not counted: {string.Join(", ", not.Take(MostNamed))}{rest}."),
            new("spares", spares, ""), new("wanted", wanted, ""));
    }

    private const int MostNamed = 5;

    public static IEnumerable<Finding> ProfileChecked(ReadinessContext c)
    {
        if (!c.HasProfile)
            yield return c.About("profile", Gravity.Stops, Clearing.Plan, $"The requirement profile {c.Plan.Profile} is not known; nothing can be judged by it.");
        else if (c.Profile.Confirmed is null)
            yield return c.About("profile", Gravity.Note, Clearing.Decide, $"The profile {c.Profile.Written.Name} is {ProfileState.Unchecked}; follow the authority's current text.");
        if (c.Chains.Count == 0) yield return c.About("chain-incomplete", Gravity.Stops, Clearing.Plan, "The campaign has no station.");
        foreach (var station in c.Campaign.Chains.Keys.Where(s => !c.Campaign.Stations.ContainsKey(s)))
            yield return c.About("chain-incomplete", Gravity.Risks, Clearing.Enter, $"Devices are allocated to {station}, which has no position and no mount.");
    }
}

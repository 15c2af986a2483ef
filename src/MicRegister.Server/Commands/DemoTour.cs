using System.Text.Json.Nodes;
using MicRegister.Documents.Drawings;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Commands;

/// <summary>What the demo shows beside its verdict: what was flown, what stands outdoors, and where to look.</summary>
internal static class DemoTour
{
    /// <summary>Five pages with what one sees there.</summary>
    public static IReadOnlyList<string> Pages { get; } =
    [
        "/campaigns/QUILLMERE-26  what stops the coming campaign, device by device, and what must happen by when",
        "/drift                   how the fleet drifts: 41007 on its way out, a step of 41015 that nobody has looked at",
        "/events/LAPWING-FEN-26   40 events of the campaign that was flown, each with its verdict; Fly-by C1 gives every figure",
        "/doubts                  calibrator K504 failed afterwards: 11 events in doubt, 6 of them weighed with a reason, 5 not",
        "/board/QUILLMERE-26      how far each station is; demo --day field shows the first morning of laying out",
    ];

    /// <summary>Events by verdict of each campaign that is over.</summary>
    public static IReadOnlyList<FlownCampaign> Flown(Register.Register register, DateOnly today) =>
        [.. register.CampaignIds.Select(id => register.Campaign(id)!).Where(c => c.Plan?.LastDay < today)
            .Select(c => new FlownCampaign(c, [.. EventBook.OfCampaign(register, c.Id)
                .Select(e => EventVerdict.Of(register, e.Id)!.Verdict)]))];

    /// <summary>How many stations are how far, of each campaign of which something was placed and that is not over.</summary>
    public static IReadOnlyList<CampaignOutdoors> Outdoors(Register.Register register, DateOnly today) =>
        [.. register.CampaignIds.Select(id => register.Campaign(id)!).Where(c => c.Plan?.LastDay >= today)
            .Select(c => (Campaign: c, Deployment: ArrayDeployment.Of(register, c.Id))).Where(c => c.Deployment.Placements.Count > 0)
            .Select(c => new CampaignOutdoors(c.Campaign, [.. StationStanding.Of(
                register, c.Campaign, c.Deployment, CheckBook.OfCampaign(register, c.Campaign.Id)).Select(s => s.State)]))];
}

/// <summary>A campaign that is over.</summary>
internal sealed record FlownCampaign(CampaignState Campaign, IReadOnlyList<TraceVerdict> Events)
{
    public string InWords =>
        $"{Campaign.Name} was flown, {Campaign.Plan!.FirstDay:yyyy-MM-dd} to {Campaign.Plan.LastDay:yyyy-MM-dd}: {Events.Count} events: "
        + string.Join(", ", Events.GroupBy(v => v).OrderBy(g => g.Key).Select(g => $"{g.Count()} {g.Key.InWords}")) + ".";

    public JsonObject Json => new()
    {
        ["campaign"] = Campaign.Id,
        ["events"] = new JsonObject(Events.GroupBy(v => v).OrderBy(g => g.Key)
            .Select(g => KeyValuePair.Create(g.Key.InWords, (JsonNode?)g.Count()))),
    };
}

/// <summary>A campaign that is being laid out.</summary>
internal sealed record CampaignOutdoors(CampaignState Campaign, IReadOnlyList<StationState> Stations)
{
    public string InWords => $"{Campaign.Name} in the field, {Stations.Count} stations: "
        + string.Join(", ", Stations.GroupBy(s => s).OrderBy(g => g.Key).Select(g => $"{g.Count()} {ArrayMap.Look(g.Key).Word}")) + ".";

    public JsonObject Json => new()
    {
        ["campaign"] = Campaign.Id,
        ["stations"] = new JsonObject(Stations.GroupBy(s => s).OrderBy(g => g.Key)
            .Select(g => KeyValuePair.Create(ArrayMap.Look(g.Key).Word, (JsonNode?)g.Count()))),
    };
}

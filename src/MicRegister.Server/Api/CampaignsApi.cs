using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Campaigns with their stations, chains and kit.</summary>
internal static class CampaignsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var campaigns = app.MapGroup("/api/campaigns").WithTags("campaigns");
        campaigns.MapGet("/", (Desk desk, int? offset, int? limit) => Answers.Paged(
            [.. desk.Now.CampaignIds], offset, limit, id => CampaignRow.Of(desk.Now.Campaign(id)!))).Produces<Page<CampaignRow>>();
        campaigns.MapGet("/{id}", (HttpContext c, Desk desk, string id) => Read(c, desk, id, Results.Ok)).Produces<CampaignState>();
        campaigns.MapPut("/{id}", (HttpContext c, Desk desk, string id, CampaignPlanned plan) => Answers.Submit(
            c, desk, (r, s) => CampaignDecisions.Plan(r, s, id, plan), r => r.Campaign(id)));
        campaigns.MapGet("/{id}/stations", (HttpContext c, Desk desk, string id, int? offset, int? limit) =>
            Read(c, desk, id, campaign => Answers.Paged(
                [.. campaign.Stations.Values], offset, limit,
                s => new StationView(s, campaign.Chains.GetValueOrDefault(s.Station, []))))).Produces<Page<StationView>>();
        campaigns.MapDelete("/{id}/stations/{station}", (HttpContext c, Desk desk, string id, string station, string? reason) =>
            Answers.Submit(c, desk, (r, s) => CampaignDecisions.DropStation(r, s, id, station, reason ?? ""), r => r.Campaign(id)));
        campaigns.MapPut("/{id}/stations/{station}", (HttpContext c, Desk desk, string id, string station, StationPlanned plan) =>
            plan.Station == station
                ? Answers.Submit(c, desk, (r, s) => CampaignDecisions.PlanStation(r, s, id, plan), r => r.Campaign(id))
                : Task.FromResult(Answers.Invalid($"The address names station {station}, the body {plan.Station}.")));
        campaigns.MapPut("/{id}/stations/{station}/chain", (HttpContext c, Desk desk, string id, string station, string[] devices) =>
            Answers.Submit(c, desk, (r, s) => CampaignDecisions.PlanChain(r, s, id, station, devices), r => r.Campaign(id)));
        campaigns.MapPut("/{id}/kit/{purpose}", (HttpContext c, Desk desk, string id, Word<KitPurpose> purpose, string[] devices) =>
            Answers.Submit(c, desk, (r, s) => CampaignDecisions.PlanKit(r, s, id, purpose.Value, devices), r => r.Campaign(id)));
    }

    private static IResult Read(HttpContext context, Desk desk, string id, Func<CampaignState, IResult> body) =>
        desk.Now.Campaign(id) is { } campaign
            ? Answers.Read(context, Desk.Tag(desk.Now.Version(Subject.Campaign(id))), () => body(campaign))
            : Answers.NotFound($"There is no campaign {id}.");

    internal sealed record CampaignRow(string Id, string Name, DateOnly? FirstDay, DateOnly? LastDay, int Stations)
    {
        public static CampaignRow Of(CampaignState c) => new(c.Id, c.Name, c.Plan?.FirstDay, c.Plan?.LastDay, c.Stations.Count);
    }

    internal sealed record StationView(StationPlanned Plan, IReadOnlyList<string> Devices);
}

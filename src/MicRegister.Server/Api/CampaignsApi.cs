using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>Campaigns with their stations, chains and kit.</summary>
internal static class CampaignsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var campaigns = app.MapGroup("/api/campaigns").WithTags("campaigns");
        campaigns.MapGet("/", (Desk desk, int? offset, int? limit) => Answers.Page([.. desk.Now.CampaignIds.Select(id => desk.Now.Campaign(id)!).Select(c => new CampaignRow(c.Id, c.Name, c.Plan?.FirstDay, c.Plan?.LastDay, c.Stations.Count))], offset, limit));
        campaigns.MapGet("/{id}", Read);
        campaigns.MapPut("/{id}", (HttpContext c, Desk desk, string id, CampaignPlanned plan) => Answers.Submit(c, desk, (r, s) => CampaignDecisions.Plan(r, s, id, plan), r => r.Campaign(id)));
        campaigns.MapGet("/{id}/stations", (Desk desk, string id) => desk.Now.Campaign(id) is { } campaign ? Results.Ok(campaign.Stations.Values) : Answers.NotFound($"There is no campaign {id}."));
        campaigns.MapPut("/{id}/stations/{station}", (HttpContext c, Desk desk, string id, string station, StationPlanned plan) =>
            plan.Station == station ? Answers.Submit(c, desk, (r, s) => CampaignDecisions.PlanStation(r, s, id, plan), r => r.Campaign(id)) : Task.FromResult(Answers.Invalid($"The address names station {station}, the body {plan.Station}.")));
        campaigns.MapPut("/{id}/stations/{station}/chain", (HttpContext c, Desk desk, string id, string station, string[] devices) => Answers.Submit(c, desk, (r, s) => CampaignDecisions.PlanChain(r, s, id, station, devices), r => r.Campaign(id)));
        campaigns.MapPut("/{id}/kit/{purpose}", (HttpContext c, Desk desk, string id, KitPurpose purpose, string[] devices) => Answers.Submit(c, desk, (r, s) => CampaignDecisions.PlanKit(r, s, id, purpose, devices), r => r.Campaign(id)));
    }

    private static IResult Read(HttpContext context, Desk desk, string id)
    {
        if (desk.Now.Campaign(id) is not { } campaign) return Answers.NotFound($"There is no campaign {id}.");
        var tag = Desk.Tag(desk.Now.Version(Subject.Campaign(id)));
        context.Response.Headers.ETag = tag;
        return context.Request.Headers.IfNoneMatch == tag ? Results.StatusCode(StatusCodes.Status304NotModified) : Results.Ok(campaign);
    }

    internal sealed record CampaignRow(string Id, string Name, DateOnly? FirstDay, DateOnly? LastDay, int Stations);
}

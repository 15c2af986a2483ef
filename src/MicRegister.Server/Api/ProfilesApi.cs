using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>Requirement profiles.</summary>
internal static class ProfilesApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var profiles = app.MapGroup("/api/profiles").WithTags("profiles");
        profiles.MapGet("/", (Desk desk) => desk.Now.ProfileIds.Select(id => desk.Now.Profile(id)!));
        profiles.MapGet("/{id}", (HttpContext c, Desk desk, string id) =>
        {
            if (desk.Now.Profile(id) is not { } profile) return Answers.NotFound($"There is no profile {id}.");
            c.Response.Headers.ETag = Desk.Tag(desk.Now.Version(Subject.Profile(id)));
            return Results.Ok(profile);
        });
        profiles.MapPut("/{id}", (HttpContext c, Desk desk, string id, ProfileWritten body) => Answers.Submit(c, desk, (r, s) => CampaignDecisions.Write(r, s, id, body), r => r.Profile(id)));
        profiles.MapPost("/{id}/confirmations", (HttpContext c, Desk desk, string id, ProfileConfirmed body) => Answers.Submit(c, desk, (r, s) => CampaignDecisions.Confirm(r, s, id, body.Edition, body.Remark), r => r.Profile(id)));
    }
}

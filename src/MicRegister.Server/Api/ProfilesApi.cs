using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Requirement profiles.</summary>
internal static class ProfilesApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var profiles = app.MapGroup("/api/profiles").WithTags("profiles");
        profiles.MapGet("/", (Desk desk, int? offset, int? limit) => Answers.Paged(
            [.. desk.Now.ProfileIds], offset, limit, id => desk.Now.Profile(id)!)).Produces<Page<ProfileState>>();
        profiles.MapGet("/{id}", (HttpContext c, Desk desk, string id) => desk.Now.Profile(id) is { } profile
            ? Answers.Read(c, Desk.Tag(desk.Now.Version(Subject.Profile(id))), () => Results.Ok(profile))
            : Answers.NotFound($"There is no profile {id}.")).Produces<ProfileState>();
        profiles.MapPut("/{id}", (HttpContext c, Desk desk, string id, ProfileWritten body) => Answers.Submit(
            c, desk, (r, s) => CampaignDecisions.Write(r, s, id, body), r => r.Profile(id)));
        profiles.MapPost("/{id}/confirmations", (HttpContext c, Desk desk, string id, ProfileConfirmed body) => Answers.Submit(
            c, desk, (r, s) => CampaignDecisions.Confirm(r, s, id, body), r => r.Profile(id)));
    }
}

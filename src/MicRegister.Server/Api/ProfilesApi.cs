using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Comparison;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Requirement profiles: as they count, as they were, side by side, and what another version would change.</summary>
internal static class ProfilesApi
{
    private const int UsualSeconds = 10;
    private const int MostSeconds = 60;

    public static void Map(IEndpointRouteBuilder app)
    {
        var profiles = app.MapGroup("/api/profiles").WithTags("profiles");
        profiles.MapGet("/", (Desk desk, int? offset, int? limit) => Answers.Paged(
            [.. desk.Now.ProfileIds], offset, limit, id => desk.Now.Profile(id)!)).Produces<Page<ProfileState>>();
        profiles.MapGet("/{id}", (HttpContext c, Desk desk, string id) => desk.Now.Profile(id) is { } profile
            ? Answers.Read(c, Desk.Tag(desk.Now.Version(Subject.Profile(id))), () => Results.Ok(profile))
            : Missing(id)).Produces<ProfileState>();
        profiles.MapGet("/{id}/editions", (Desk desk, string id, int? offset, int? limit) =>
            desk.Now.ProfileEditions(id) is { Count: > 0 } all
                ? Answers.Paged(all, offset, limit, e => EditionView.Of(desk.Now, e))
                : Missing(id)).Produces<Page<EditionView>>();
        profiles.MapGet("/{id}/compare", Compare).Produces<ComparedProfiles>();
        profiles.MapPost("/{id}/preview", Preview).Produces<EffectView>();
        profiles.MapPut("/{id}", (HttpContext c, Desk desk, string id, ProfileWritten body) => Answers.Submit(
            c, desk, (r, s) => CampaignDecisions.Write(r, s, id, body), r => r.Profile(id)));
        profiles.MapPost("/{id}/confirmations", (HttpContext c, Desk desk, string id, ProfileConfirmed body) => Answers.Submit(
            c, desk, (r, s) => CampaignDecisions.Confirm(r, s, id, body), r => r.Profile(id)));
    }

    // Here is the profile as it counts; with names the other one, edition which of its versions.
    private static IResult Compare(Desk desk, string id, string? with, string? edition) =>
        ComparedProfiles.Of(desk.Now, id, with, edition, out var wrong) is { } compared ? Results.Ok(compared) : Answers.NotFound(wrong!);

    private static async Task<IResult> Preview(
        HttpContext context, Desk desk, TimeProvider time, string id, ProfileWritten body, int? seconds)
    {
        if (seconds is < 1 or > MostSeconds)
            return Answers.Invalid($"Seconds '{seconds}': allowed is a whole number from 1 to {MostSeconds}.");
        try
        {
            switch (ProfileTrial.Begin(desk, desk.Now, Desk.Speaker(context).Person, id, body))
            {
                case Result<ProfileEffect>.Accepted { Value: var effect }:
                    await ProfileTrial.WorkOn(effect, time, TimeSpan.FromSeconds(seconds ?? UsualSeconds), null, context.RequestAborted);
                    return Results.Ok(EffectView.Of(effect));
                case Result<ProfileEffect>.Rejected { Why: var why }:
                    return Answers.Of(why);
                default:
                    throw new InvalidOperationException("A result is one of two.");
            }
        }
        catch (BeyondBoundException e)
        {
            return Answers.Invalid(e.Breach);
        }
        catch (FormatException e)
        {
            return Answers.Invalid(e.Message);
        }
    }

    private static IResult Missing(string id) => Answers.NotFound($"There is no profile {id}.");
}

using MicRegister.Register.Drift;
using MicRegister.Register.Readiness;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>The verdict on a campaign, also with a spare tried and nothing stored.</summary>
internal static class ReadinessApi
{
    public static void Map(IEndpointRouteBuilder app) =>
        app.MapGet("/api/campaigns/{id}/readiness", Judge).Produces<ReadinessReport>().WithTags("readiness");

    private static IResult Judge(HttpContext context, Desk desk, string id, DateOnly? today, string? station, string? spare)
    {
        var register = desk.Now;
        // A verdict can follow from any fact, and from the day.
        var days = FormattableString.Invariant($"{today ?? desk.Today:yyyyMMdd}-{today ?? desk.SiteDay(register, id):yyyyMMdd}");
        var tag = FormattableString.Invariant($"\"{register.Count}-{register.DriftMemory.Version}-{days}\"");
        if (station is null != spare is null) return Answers.Invalid("To try a spare, name both the station and the spare.");
        if (station is not null)
        {
            if (Trial.Of(register, desk.Say("trial"), id, station, spare!) is not { } tried)
                return Answers.NotFound($"There is no station {station} in campaign {id}, or no device {spare}.");
            register = tried;
        }
        return (today is { } day ? CampaignReadiness.Judge(register, id, day) : desk.Judge(register, id)) is { } report
            ? Answers.Read(context, tag, () => Results.Ok(report))
            : Answers.NotFound($"There is no plan of a campaign {id} on that day.");
    }
}

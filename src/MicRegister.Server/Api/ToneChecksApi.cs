using MicRegister.Register;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Checks of a campaign's chains from recorded tones that were measured elsewhere; recordings never come here.</summary>
internal static class ToneChecksApi
{
    /// <summary>Where they are stored.</summary>
    public const string StorePath = "/api/checks/recordings";

    /// <summary>Where they are shown only.</summary>
    public const string ShowPath = "/api/checks/recordings/work-out";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost(ShowPath, Show).Produces<ToneChecksView>().WithTags("checks");
        app.MapPost(StorePath, Store).Produces<ToneChecksView>().WithTags("checks");
    }

    private static async Task<IResult> Store(HttpContext context, Desk desk, NewToneChecks body)
    {
        var speaker = Desk.Speaker(context);
        var saying = desk.Say(speaker.Person, client: "api");
        ToneChecks? worked = null;
        Result<IReadOnlyList<AppendOutcome>> answer;
        try
        {
            // What is answered is what is stored: both are of the state that the writer decides on.
            answer = await desk.Submit(speaker, "api", register =>
            {
                worked = ToneChecks.Out(register, body, saying.Stamp.Occurred);
                return CheckDecisions.Record(register, saying, worked.Entries, body.Today ?? desk.Today);
            }, context.RequestAborted);
        }
        catch (Exception e) when (e is BadUseException or FormatException)
        {
            return Answers.Invalid(e.Message);
        }
        catch (StoreException e)
        {
            return Results.Problem(e.Message, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
        return answer is Result<IReadOnlyList<AppendOutcome>>.Rejected { Why: var why }
            ? Answers.Of(why with { Text = why.Text + " Nothing was stored." })
            : Results.Ok(worked!.View with { Stored = worked.Entries.Count });
    }

    private static IResult Show(Desk desk, NewToneChecks body)
    {
        try
        {
            return Results.Ok(ToneChecks.Out(desk.Now, body, desk.Say("Desk").Stamp.Occurred).View);
        }
        catch (Exception e) when (e is BadUseException or FormatException)
        {
            return Answers.Invalid(e.Message);
        }
    }
}

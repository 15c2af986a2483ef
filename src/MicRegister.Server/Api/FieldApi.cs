using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Server.Outdoors;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>What phones in the field ask for and send: a campaign's kit, and facts one a line, each answered by itself.</summary>
internal static class FieldApi
{
    /// <summary>Most facts of one sending.</summary>
    private const int MostLines = 200;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/campaigns/{id}/field-kit", (HttpContext context, Desk desk, TimeProvider time, string id) =>
            Desk.Speaker(context) is var speaker && FieldKit.Of(desk, id, speaker, time.GetUtcNow()) is { } kit
                ? Answers.Read(context, kit.Tag, () => Results.Bytes(kit.Bytes, "application/json"))
                : Answers.NotFound($"There is no campaign {id} with a plan.")).Produces<FieldKit>().WithTags("field")
            .AsOfNowAlone("A phone works with what holds now.");
        app.MapPost("/api/field/facts", Take).Produces<FieldAnswer>().WithTags("field");
    }

    private static async Task<IResult> Take(HttpContext context, Desk desk, TimeProvider time)
    {
        var speaker = Desk.Speaker(context);
        // Whoever may not speak at all any more is told so at once; the phone then keeps what it holds for handing over.
        if (Doorkeeper.Refusal(desk.Access, desk.Now, speaker, [], isFromOutside: true) is { } over) return Answers.Of(over);
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        var lines = FieldIntake.Split(content.GetBuffer().AsMemory(0, (int)content.Length));
        if (lines.Count is 0 or > MostLines) return Answers.Invalid($"Lines: 1 to {MostLines} are taken at once, not {lines.Count}.");
        var taken = await new FieldIntake(desk, time, speaker).Take(
            lines, speaker.Door("field"), fact => ClockOffset.Noticed(context.Request, time, desk.Now, fact, speaker),
            context.RequestAborted);
        return taken switch
        {
            Result<FieldAnswer>.Accepted answer => Results.Ok(answer.Value),
            var rejected => Answers.Of(((Result<FieldAnswer>.Rejected)rejected).Why),
        };
    }
}

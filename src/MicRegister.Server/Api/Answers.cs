using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>The one place that turns a rejection into an HTTP status.</summary>
internal static class Answers
{
    public static IResult Of(Rejection why) => Results.Problem(why.Text, statusCode: why.Sort switch
    {
        RejectionSort.NotFound => StatusCodes.Status404NotFound,
        RejectionSort.Conflict => StatusCodes.Status409Conflict,
        RejectionSort.Forbidden => StatusCodes.Status403Forbidden,
        _ => StatusCodes.Status422UnprocessableEntity,
    }, title: why.Sort switch
    {
        RejectionSort.NotFound => "Not found",
        RejectionSort.Conflict => "Changed meanwhile, or there already",
        RejectionSort.Forbidden => "Not allowed",
        _ => "Not accepted",
    });

    public static IResult NotFound(string what) => Of(new(RejectionSort.NotFound, what));

    public static IResult Invalid(string what) => Of(new(RejectionSort.Invalid, what));

    /// <summary>Something is beyond its bound: the answer names the field beside the sentence.</summary>
    public static IResult Invalid(BoundBreach breach) => Results.Problem(
        breach.Text, statusCode: StatusCodes.Status422UnprocessableEntity, title: "Not accepted", extensions: new Dictionary<string,
            object?>
        { ["field"] = breach.Field });

    /// <summary>Decides, stores, and answers with what was stored or with the conflict and the value that stands now.</summary>
    public static async Task<IResult> Submit(
        HttpContext context, Desk desk, Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide,
        Func<Register.Register, object?>? now = null)
    {
        if (!Desk.TrySaw(context.Request, out var saw))
            return Results.Problem(
                $"If-Match '{context.Request.Headers.IfMatch}': allowed is the ETag of a read, such as \"3\", or *.",
                statusCode: StatusCodes.Status400BadRequest);
        var speaker = Desk.Speaker(context);
        var saying = desk.Say(speaker.Person, saw, "api");
        Result<IReadOnlyList<AppendOutcome>> answer;
        try
        {
            answer = await desk.Submit(speaker, "api", register => decide(register, saying), context.RequestAborted);
        }
        catch (BeyondBoundException e)
        {
            return Invalid(e.Breach);
        }
        catch (FormatException e)
        {
            return Invalid(e.Message);
        }
        catch (StoreException e)
        {
            return Results.Problem(e.Message, statusCode: StatusCodes.Status503ServiceUnavailable);
        }
        return answer switch
        {
            Result<IReadOnlyList<AppendOutcome>>.Accepted stored =>
                Results.Ok(stored.Value.Select(o => new StoredFact(o.Id.ToString(), o.Result, o.Sequence))),
            Result<IReadOnlyList<AppendOutcome>>.Rejected { Why: { Sort: RejectionSort.Conflict } why } when now is not null =>
                Results.Problem(
                    why.Text, statusCode: StatusCodes.Status409Conflict, title: "Changed meanwhile, or there already",
                    extensions: new Dictionary<string, object?> { ["now"] = now(desk.Now) }),
            _ => Of(((Result<IReadOnlyList<AppendOutcome>>.Rejected)answer).Why),
        };
    }

    private const int MostItems = 1000;

    /// <summary>A page of a list, or why the page asked for is none.</summary>
    public static IResult Paged<T>(IReadOnlyList<T> all, int? offset, int? limit) => Paged(all, offset, limit, item => item);

    /// <summary>The same, with only the page's own items worked out.</summary>
    public static IResult Paged<T, TItem>(IReadOnlyList<T> all, int? offset, int? limit, Func<T, TItem> item)
    {
        if (offset is < 0) return Invalid($"Offset '{offset}': allowed is a whole number from 0.");
        if (limit is < 1 or > MostItems) return Invalid($"Limit '{limit}': allowed is a whole number from 1 to {MostItems}.");
        var from = offset ?? 0;
        return Results.Ok(new Page<TItem>(all.Count, from, [.. all.Skip(from).Take(limit ?? 100).Select(item)]));
    }

    /// <summary>A read with its version: unchanged where the reader holds that version already.</summary>
    public static IResult Read(HttpContext context, string tag, Func<IResult> body)
    {
        context.Response.Headers.ETag = tag;
        return context.Request.Headers.IfNoneMatch == tag ? Results.StatusCode(StatusCodes.Status304NotModified) : body();
    }
}

/// <summary>A fact that was stored.</summary>
public sealed record StoredFact(string Id, AppendResult Result, int Sequence);

/// <param name="Total">How many there are in all.</param>
/// <param name="Offset">Where this page begins.</param>
/// <param name="Items">The page.</param>
public sealed record Page<T>(int Total, int Offset, IReadOnlyList<T> Items);

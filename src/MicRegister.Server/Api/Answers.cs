using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>The one place that turns a rejection into an HTTP status.</summary>
internal static class Answers
{
    public static IResult Of(Rejection why) => Results.Problem(why.Text, statusCode: why.Sort switch
    {
        RejectionSort.NotFound => StatusCodes.Status404NotFound,
        RejectionSort.Conflict => StatusCodes.Status409Conflict,
        _ => StatusCodes.Status422UnprocessableEntity,
    }, title: why.Sort switch
    {
        RejectionSort.NotFound => "Not found",
        RejectionSort.Conflict => "Changed meanwhile, or there already",
        _ => "Not accepted",
    });

    public static IResult NotFound(string what) => Of(new(RejectionSort.NotFound, what));

    public static IResult Invalid(string what) => Of(new(RejectionSort.Invalid, what));

    /// <summary>Decides, stores, and answers with what was stored or with the conflict and the value that stands now.</summary>
    public static async Task<IResult> Submit(HttpContext context, Desk desk, Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide, Func<Register.Register, object?>? now = null)
    {
        if (!Desk.TrySaw(context.Request, out var saw))
            return Results.Problem($"If-Match '{context.Request.Headers.IfMatch}': allowed is the ETag of a read, such as \"3\", or *.", statusCode: StatusCodes.Status400BadRequest);
        var person = Desk.Person(context.Request);
        var saying = desk.Say(person, saw, "api");
        Result<IReadOnlyList<AppendOutcome>> answer;
        try
        {
            answer = await desk.Submit(person, register => decide(register, saying), context.RequestAborted);
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
            Result<IReadOnlyList<AppendOutcome>>.Accepted stored => Results.Ok(stored.Value.Select(o => new StoredFact(o.Id.ToString(), o.Result, o.Sequence))),
            Result<IReadOnlyList<AppendOutcome>>.Rejected { Why: { Sort: RejectionSort.Conflict } why } when now is not null => Results.Problem(
                why.Text, statusCode: StatusCodes.Status409Conflict, title: "Changed meanwhile, or there already", extensions: new Dictionary<string, object?> { ["now"] = now(desk.Now) }),
            _ => Of(((Result<IReadOnlyList<AppendOutcome>>.Rejected)answer).Why),
        };
    }

    /// <summary>A page of a list.</summary>
    public static Page<T> Page<T>(IReadOnlyList<T> all, int? offset, int? limit)
    {
        var (from, size) = (Math.Max(0, offset ?? 0), Math.Clamp(limit ?? 100, 1, 1000));
        return new(all.Count, from, [.. all.Skip(from).Take(size)]);
    }
}

/// <summary>A fact that was stored.</summary>
public sealed record StoredFact(string Id, AppendResult Result, int Sequence);

/// <param name="Total">How many there are in all.</param>
/// <param name="Offset">Where this page begins.</param>
/// <param name="Items">The page.</param>
public sealed record Page<T>(int Total, int Offset, IReadOnlyList<T> Items);

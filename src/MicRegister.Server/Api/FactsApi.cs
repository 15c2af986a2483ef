using System.Text;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>The log itself: read, streamed as lines, sent in, annulled.</summary>
internal static class FactsApi
{
    private const int MaxLines = 10_000;

    public static void Map(IEndpointRouteBuilder app)
    {
        var facts = app.MapGroup("/api/facts").WithTags("facts");
        facts.MapGet("/", List).Produces<Page<FactRow>>();
        facts.MapGet("/head", (Desk desk) => new { log = Head(desk, desk.Now).ToString(), digest = desk.Now.Digest.ToString() });
        facts.MapGet("/lines", Lines);
        facts.MapGet("/{id}", (Desk desk, string id) => FactId.TryParse(id, out var fact) && desk.Now.Find(fact) is var sequence and > 0
            ? Results.Bytes(desk.Live.Log.Read(sequence).Bytes, "application/json")
            : Answers.NotFound($"There is no fact {id}."));
        facts.MapPost("/", Take);
        facts.MapPost("/handed-over", TakeHandedOver);
        facts.MapPost("/{id}/annulments", (HttpContext c, Desk desk, string id, NewAnnulment body) => Answers.Submit(
            c, desk, (r, s) => body.WholeAct == true
                ? ActBook.TakeBack(r, s, id, body.Reason) : CorrectionDecisions.Annul(r, s, id, body.Reason), r => About(r, id)));
    }

    /// <summary>The fact itself and all that was said about its first subject since, newest first, for a conflict to show.</summary>
    public static object? About(Register.Register register, string fact) =>
        FactId.TryParse(fact, out var id) && register.Find(id) is var sequence and > 0
            ? register.Facts(register.Source.Read(sequence).Subjects[0]).Where(s => s >= sequence).Reverse().Take(20)
                .Select(s => FactRow.Of(register, s)).ToList()
            : null;

    private static IResult List(
        Desk desk, string? subject, string? author, string? kind, DateOnly? from, DateOnly? to, string? door, int? offset, int? limit)
    {
        var register = desk.Now;
        // One of a newer version may be there all the same.
        if (kind is not null && FactKinds.Find(kind) is null && !desk.Live.Log.Find(new(null, null, kind, null, null)).Any())
            return Answers.Invalid($"Kind '{kind}': allowed are {string.Join(", ", FactKinds.All.Select(k => k.Name).Distinct().Order())}.");
        var found = subject is not null && author is null && kind is null && from is null && to is null
            ? register.Facts(subject)
            : [.. desk.Live.Log.Find(new(subject, author, kind, from, to)).Where(s => s <= register.Count)];
        // Doors stand in the receipts, which no index holds: each is read.
        if (door is not null)
            found = [.. found.Where(s => desk.Live.Log.ReadFrom(s).First().Door.Contains(door, StringComparison.OrdinalIgnoreCase))];
        return Answers.Paged(found, offset, limit, s => FactRow.Of(register, s) with { Receipt = Receipt.Of(desk, s) });
    }

    /// <summary>Where the log stood in a state.</summary>
    public static LogHead Head(Desk desk, Register.Register register)
    {
        var (sequence, newest) = (register.Count, desk.Live.Log.Head);
        return sequence == newest.Sequence ? newest
            : sequence == 0 ? LogHead.Start
            : new(sequence, desk.Live.Log.ReadFrom(sequence).First().Chain);
    }

    // Canonical JSON, one fact a line, straight from the log.
    private static async Task Lines(HttpContext context, Desk desk, int? after)
    {
        context.Response.ContentType = "application/x-ndjson";
        var upTo = desk.Now.Count;
        for (var sequence = Math.Max(0, after ?? 0) + 1; sequence <= upTo; sequence++)
        {
            await context.Response.Body.WriteAsync(desk.Live.Log.Read(sequence).Bytes, context.RequestAborted);
            await context.Response.Body.WriteAsync("\n"u8.ToArray(), context.RequestAborted);
        }
    }

    private static async Task<IResult> Take(HttpContext context, Desk desk, TimeProvider time)
    {
        if (await Read(context) is not { } facts) return Answers.Invalid($"Line {context.Items["line"]}: {context.Items["problem"]}");
        var speaker = Desk.Speaker(context);
        var noticed = facts.Count > 0 ? ClockOffset.Noticed(context.Request, time, desk.Now, facts[0], speaker) : null;
        var answer = await desk.Live.Submit(
            r => Doorkeeper.Refusal(desk.Access, r, speaker, facts, isFromOutside: true) is { } refusal
                ? refusal
                : new Result<IReadOnlyList<Fact>>.Accepted(noticed is null ? facts : [.. facts, noticed]),
            speaker.Door("api"), context.RequestAborted);
        return answer.Match(
            outcomes =>
            {
                desk.Tell();
                return Results.Ok(outcomes.Take(facts.Count).Select(o => new StoredFact(o.Id.ToString(), o.Result, o.Sequence)));
            },
            Answers.Of);
    }

    // What a phone or account that may not speak any more still holds: an owner says that it counts, and the door says whose it was.
    private static async Task<IResult> TakeHandedOver(HttpContext context, Desk desk, string? from)
    {
        if (string.IsNullOrWhiteSpace(from) || from.Length > 60 || from.Any(char.IsControl))
            return Answers.Invalid($"From '{from}': 1 to 60 characters that say whose facts these are.");
        if (await Read(context) is not { } facts) return Answers.Invalid($"Line {context.Items["line"]}: {context.Items["problem"]}");
        var answer = await desk.Live.Submit(facts, Desk.Speaker(context).Door("handed over from " + from.Trim()), context.RequestAborted);
        desk.Tell();
        var outcomes = ((Result<IReadOnlyList<AppendOutcome>>.Accepted)answer).Value;
        return Results.Ok(outcomes.Select(o => new StoredFact(o.Id.ToString(), o.Result, o.Sequence)));
    }

    // Facts, one a line; null where one is none: then the line and the problem stand in the request's items.
    private static async Task<List<Fact>?> Read(HttpContext context)
    {
        using var reader = new StreamReader(context.Request.Body, new UTF8Encoding(false, throwOnInvalidBytes: true));
        var facts = new List<Fact>();
        try
        {
            while (await reader.ReadLineAsync(context.RequestAborted) is { } line)
            {
                if (line.Length == 0) continue;
                if (facts.Count == MaxLines) throw new FormatException($"at most {MaxLines} facts are taken at once.");
                facts.Add(SoundFact.Of(FactText.ReadCanonical(Encoding.UTF8.GetBytes(line))));
            }
            return facts;
        }
        catch (Exception e) when (e is FormatException or DecoderFallbackException)
        {
            (context.Items["line"], context.Items["problem"]) = (facts.Count + 1, e.Message);
            return null;
        }
    }

    /// <param name="Reason">Why it does not count.</param>
    /// <param name="WholeAct">Whether all that the same act said is taken back; otherwise the fact alone.</param>
    internal sealed record NewAnnulment(string Reason, bool? WholeAct = null);
}

/// <summary>A fact in a list, with its receipt's sequence and whether it counts.</summary>
public sealed record FactRow(
    int Sequence, string Id, string At, string Kind, string Author, IReadOnlyList<string> Subjects, bool Counts, string? Said)
{
    /// <summary>When and through which door it came; null where it was not asked for.</summary>
    public Receipt? Receipt { get; init; }

    public static FactRow Of(Register.Register register, int sequence)
    {
        var fact = register.Source.Read(sequence);
        return new(
            sequence, fact.Id.ToString(), fact.Occurred.ToString(), fact.Kind, register.Person(fact.Author)?.Name ?? fact.Author,
            fact.Subjects, register.Counts(sequence), FactKinds.Words(fact.Body));
    }
}

/// <summary>What this log noted when a fact came.</summary>
/// <param name="Recorded">When it was recorded, by this machine's clock.</param>
/// <param name="Door">Through which door, and by which account, token or phone.</param>
/// <param name="ClockOffsetMs">Milliseconds that its client's clock was found to lag behind; null where nobody noticed.</param>
public sealed record Receipt(DateTimeOffset Recorded, string Door, long? ClockOffsetMs)
{
    public static Receipt Of(Desk desk, int sequence)
    {
        var logged = desk.Live.Log.ReadFrom(sequence).First();
        return new(logged.Recorded, logged.Door, desk.Now.ClockOffset(logged.Fact.Client, logged.Fact.Counter));
    }
}

using System.Text;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>The log itself: read, streamed as lines, sent in, annulled.</summary>
internal static class FactsApi
{
    private const int MaxLines = 10_000;

    public static void Map(IEndpointRouteBuilder app)
    {
        var facts = app.MapGroup("/api/facts").WithTags("facts");
        facts.MapGet("/", List).Produces<Page<FactRow>>();
        facts.MapGet("/head", (Desk desk) => new { log = desk.Live.Log.Head.ToString(), digest = desk.Now.Digest.ToString() });
        facts.MapGet("/lines", Lines);
        facts.MapGet("/{id}", (Desk desk, string id) => FactId.TryParse(id, out var fact) && desk.Now.Find(fact) is var sequence and > 0
            ? Results.Bytes(desk.Live.Log.Read(sequence).Bytes, "application/json")
            : Answers.NotFound($"There is no fact {id}."));
        facts.MapPost("/", Take);
        facts.MapPost("/{id}/annulments", (HttpContext c, Desk desk, string id, NewAnnulment body) => Answers.Submit(c, desk, (r, s) => CorrectionDecisions.Annul(r, s, id, body.Reason), r => About(r, id)));
    }

    /// <summary>The fact itself and all that was said about its first subject since, newest first, for a conflict to show.</summary>
    public static object? About(Register.Register register, string fact) => FactId.TryParse(fact, out var id) && register.Find(id) is var sequence and > 0
        ? register.Facts(register.Source.Read(sequence).Subjects[0]).Where(s => s >= sequence).Reverse().Take(20).Select(s => FactRow.Of(register, s)).ToList()
        : null;

    private static IResult List(Desk desk, string? subject, string? author, string? kind, DateOnly? from, DateOnly? to, int? offset, int? limit)
    {
        var register = desk.Now;
        var found = subject is not null && author is null && kind is null && from is null && to is null ? register.Facts(subject) : desk.Live.Log.Find(new(subject, author, kind, from, to));
        return Answers.Paged(found, offset, limit, s => FactRow.Of(register, s));
    }

    // Canonical JSON, one fact a line, straight from the log.
    private static async Task Lines(HttpContext context, Desk desk, int? after)
    {
        context.Response.ContentType = "application/x-ndjson";
        var upTo = desk.Live.Log.Head.Sequence;
        for (var sequence = Math.Max(0, after ?? 0) + 1; sequence <= upTo; sequence++)
        {
            await context.Response.Body.WriteAsync(desk.Live.Log.Read(sequence).Bytes, context.RequestAborted);
            await context.Response.Body.WriteAsync("\n"u8.ToArray(), context.RequestAborted);
        }
    }

    private static async Task<IResult> Take(HttpContext context, Desk desk)
    {
        using var reader = new StreamReader(context.Request.Body, new UTF8Encoding(false, throwOnInvalidBytes: true));
        var facts = new List<Fact>();
        try
        {
            while (await reader.ReadLineAsync(context.RequestAborted) is { } line)
            {
                if (line.Length == 0) continue;
                if (facts.Count == MaxLines) return Answers.Invalid($"At most {MaxLines} facts are taken at once.");
                facts.Add(FactText.ReadCanonical(Encoding.UTF8.GetBytes(line)));
            }
        }
        catch (Exception e) when (e is FormatException or DecoderFallbackException)
        {
            return Answers.Invalid($"Line {facts.Count + 1}: {e.Message}");
        }
        var answer = await desk.Live.Submit(facts, "api", context.RequestAborted);
        desk.Tell();
        return Results.Ok(((Result<IReadOnlyList<AppendOutcome>>.Accepted)answer).Value.Select(o => new StoredFact(o.Id.ToString(), o.Result, o.Sequence)));
    }

    internal sealed record NewAnnulment(string Reason);
}

/// <summary>A fact in a list, with its receipt's sequence and whether it counts.</summary>
public sealed record FactRow(int Sequence, string Id, string At, string Kind, string Author, IReadOnlyList<string> Subjects, bool Counts, string? Said)
{
    public static FactRow Of(Register.Register register, int sequence)
    {
        var fact = register.Source.Read(sequence);
        return new(sequence, fact.Id.ToString(), fact.Occurred.ToString(), fact.Kind, register.Person(fact.Author)?.Name ?? fact.Author, fact.Subjects, register.Counts(sequence), InWords(fact.Body));
    }

    // What a fact says, short enough for a line.
    private static string? InWords(FactBody body) => body switch
    {
        DeviceMoved f => f.Place,
        DeviceStatusChanged f => Words.Status(f.Status) + (f.Reason is { } why ? ", " + why : ""),
        DeviceDescribed f => string.Join(", ", f.Set.Select(s => $"{s.Key} {s.Value}").Concat(f.Clear.Select(c => $"{c} not known"))),
        DeviceNoted f => f.Text,
        DeviceServiced f => f.Text,
        DeviceInspected f => f.Passed ? "passed" : "failed",
        CertificateIssued f => f.Results.Count > 0 ? FormattableString.Invariant($"{f.Quantity} {f.Results[^1].Value} {f.Results[^1].Unit}") : f.Quantity,
        AlarmReviewed f => f.Reason,
        ChainPlanned f => f.Station,
        StationPlanned f => f.Station,
        CampaignPlanned f => f.Name,
        ProfileWritten f => f.Name,
        FactAnnulled f => f.Reason,
        ImportAccepted f => $"{f.File}, {f.Facts} facts",
        _ => null,
    };
}

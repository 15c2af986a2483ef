using MicRegister.Documents.Labels;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>What stands where in a campaign, and labels read in photos.</summary>
internal static class DeploymentApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/campaigns/{id}/deployment", Show).Produces<DeploymentView>().WithTags("field");
        app.MapPost("/api/labels/photo", (HttpContext context, Desk _, TimeProvider time) => Read(context, time)).Produces<PhotoView>()
            .WithTags("labels").WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(PhotoOfLabel.MostBytes + 1024));
    }

    private static IResult Show(Desk desk, string id)
    {
        var register = desk.Now;
        if (register.Campaign(id) is not { } campaign) return Answers.NotFound($"There is no campaign {id}.");
        var deployment = ArrayDeployment.Of(register, id);
        var stations = StationStanding.Of(register, campaign, deployment, desk.Checks(register, id))
            .Select(s => new DeploymentView.Station(
                s.Station, s.State, s.Placement?.Devices ?? [], s.Placement?.Occurred.ToString(),
                s.Placement is { } p ? register.Person(p.Author)?.Name ?? p.Author : null, s.OffsetM, s.Check?.Word,
                s.Check?.Record.Occurred.ToString(), s.Reasons)
            {
                NextCheckAt = s.NextCheckMs is { } due ? DateTimeOffset.FromUnixTimeMilliseconds(due) : null,
            });
        var crews = deployment.Seen.Select(s => new DeploymentView.Crew(
            register.Person(s.Author)?.Name ?? s.Author, s.Client, DateTimeOffset.FromUnixTimeMilliseconds(s.Instant), s.Placed,
            s.TakenIn));
        return Results.Ok(new DeploymentView([.. stations], DeploymentFindings.Of(register, id), [.. crews]));
    }

    // Bounded in bytes, pixels and time, and given up when nobody waits; one at a time, since a photo takes a core and some megabytes.
    private static readonly SemaphoreSlim OneAtATime = new(1);

    private const int MostWaiting = 8;
    private static int _waiting;

    internal static async Task<IResult> Read(HttpContext context, TimeProvider time)
    {
        if (Interlocked.Increment(ref _waiting) > MostWaiting)
        {
            Interlocked.Decrement(ref _waiting);
            return Results.Problem(
                "Too many photos wait to be read; try again in a little while.",
                statusCode: StatusCodes.Status429TooManyRequests, title: "Too many requests");
        }
        try
        {
            return await ReadInTurn(context, time);
        }
        finally
        {
            Interlocked.Decrement(ref _waiting);
        }
    }

    private static async Task<IResult> ReadInTurn(HttpContext context, TimeProvider time)
    {
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        await OneAtATime.WaitAsync(context.RequestAborted);
        try
        {
            var effort = new PhotoEffort(time, PhotoEffort.Usual, context.RequestAborted);
            var texts = PhotoOfLabel.Read(content.GetBuffer().AsMemory(0, (int)content.Length), effort, out var why);
            if (why is not null) return Answers.Invalid(why);
            var found = new List<PhotoView.Label>();
            var others = new List<string>();
            foreach (var text in texts)
            {
                if (LabelCode.TryRead(text, out var code, out var problem)) found.Add(new(code.Text, code.Spoken));
                else others.Add(problem!);
            }
            return Results.Ok(new PhotoView(found, others, NoneSeen(texts.Count, effort)));
        }
        finally
        {
            OneAtATime.Release();
        }
    }

    private static string? NoneSeen(int found, PhotoEffort effort)
    {
        if (found > 0) return null;
        var seconds = PhotoEffort.Usual.TotalSeconds;
        var part = effort.IsCutShort
            ? FormattableString.Invariant($", of which a part was not looked at closely: {seconds:0} s were over")
            : "";
        return $"No code is seen in this photo{part}. Go nearer, hold still, or type the code.";
    }

    /// <summary>What a photo shows.</summary>
    internal sealed record PhotoView(IReadOnlyList<PhotoView.Label> Found, IReadOnlyList<string> Others, string? Why)
    {
        internal sealed record Label(string Code, string Spoken);
    }
}

/// <summary>What stands where.</summary>
/// <param name="Stations">All stations in order of their names.</param>
/// <param name="Findings">What cannot all be true.</param>
/// <param name="Crews">Who spoke, the last first.</param>
public sealed record DeploymentView(
    IReadOnlyList<DeploymentView.Station> Stations, IReadOnlyList<RegisterFinding> Findings, IReadOnlyList<DeploymentView.Crew> Crews)
{
    /// <summary>A station.</summary>
    public sealed record Station(
        string Name, StationState State, IReadOnlyList<string> Devices, string? PlacedAt, string? PlacedBy, double? OffsetM,
        string? Check, string? CheckedAt, IReadOnlyList<string> Reasons)
    {
        /// <summary>
        /// When its chain is to be checked again at the latest; null where the profile asks for no checks by the clock, or none is due.
        /// </summary>
        public DateTimeOffset? NextCheckAt { get; init; }
    }

    /// <summary>A crew's phone.</summary>
    public sealed record Crew(string Name, string Client, DateTimeOffset LastSeen, int Placed, int TakenIn);
}

using System.Security.Cryptography;
using System.Text;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Outdoors;

/// <summary>Takes what phones hold, line by line: one bad item never holds up the others.</summary>
internal sealed class FieldIntake(Desk desk, TimeProvider time, Speaker speaker)
{
    /// <summary>Takes facts, one a line.</summary>
    /// <param name="lines">At least one.</param>
    /// <param name="door">Through which door they come.</param>
    /// <param name="noticed">What the first fact tells of its client's clock; null where that is not known.</param>
    /// <param name="cancel">Gives up before anything is stored.</param>
    public async Task<Result<FieldAnswer>> Take(
        IReadOnlyList<ReadOnlyMemory<byte>> lines, string door, Func<Fact, Fact?> noticed, CancellationToken cancel)
    {
        var results = new FieldResult?[lines.Count];
        var facts = new List<(int Line, Fact Fact)>();
        for (var i = 0; i < lines.Count; i++)
        {
            try
            {
                facts.Add((i, SoundFact.Of(FactText.ReadCanonical(lines[i]))));
            }
            catch (Exception e) when (e is FormatException or DecoderFallbackException)
            {
                await PutAside(lines[i], e.Message, door, cancel);
                results[i] = new(i + 1, null, "unreadable", null, e.Message, null);
            }
        }
        var clock = facts.Count > 0 ? noticed(facts[0].Fact) : null;
        var taken = new List<int>();
        Rejection?[] refused = [];
        var answer = await desk.Live.Submit(register =>
        {
            taken.Clear();
            refused = [.. Doorkeeper.Refusals(desk.Access, register, speaker, [.. facts.Select(f => f.Fact)], isFromOutside: true)];
            var accepted = new List<Fact>();
            for (var i = 0; i < facts.Count; i++)
            {
                if (refused[i] is not null) continue;
                taken.Add(i);
                accepted.Add(facts[i].Fact);
            }
            if (accepted.Count > 0 && clock is not null) accepted.Add(clock);
            if (accepted.Count > 0 && register.Person(PersonState.IdOf(speaker.Person)) is null) accepted.Add(Desk.Named(speaker.Person));
            return new Result<IReadOnlyList<Fact>>.Accepted(accepted);
        }, door, cancel);
        if (answer is Result<IReadOnlyList<AppendOutcome>>.Rejected rejected) return rejected.Why;
        var outcomes = ((Result<IReadOnlyList<AppendOutcome>>.Accepted)answer).Value;
        desk.Tell();
        for (var i = 0; i < taken.Count; i++)
        {
            var (line, fact) = facts[taken[i]];
            var outcome = outcomes[i];
            var other = outcome.Result == AppendResult.Conflict
                ? Encoding.UTF8.GetString(desk.Now.Source.Read(outcome.Sequence).Bytes.Span)
                : null;
            results[line] = new(
                line + 1, fact.Id.ToString(), outcome.Result.ToString().ToLowerInvariant(), outcome.Sequence, null, other);
        }
        for (var i = 0; i < facts.Count; i++)
        {
            if (refused[i] is { } why)
                results[facts[i].Line] = new(facts[i].Line + 1, facts[i].Fact.Id.ToString(), "refused", null, why.Text, null);
        }
        return new Result<FieldAnswer>.Accepted(new(desk.Now.Count, [.. results.OfType<FieldResult>()]));
    }

    /// <summary>Lines of a text, empty ones left out.</summary>
    public static List<ReadOnlyMemory<byte>> Split(ReadOnlyMemory<byte> content)
    {
        var lines = new List<ReadOnlyMemory<byte>>();
        while (content.Length > 0)
        {
            var end = content.Span.IndexOf((byte)'\n');
            var line = end < 0 ? content : content[..end];
            content = end < 0 ? default : content[(end + 1)..];
            if (line.Length > 0 && line.Span[^1] == (byte)'\r') line = line[..^1];
            if (line.Length > 0) lines.Add(line);
        }
        return lines;
    }

    // Kept byte for byte as an attachment, with a fact that says so: a person finds out what was meant.
    private async Task PutAside(ReadOnlyMemory<byte> item, string why, string door, CancellationToken cancel)
    {
        var sha = Convert.ToHexStringLower(SHA256.HashData(item.Span));
        if (item.Length > IFactLog.MaxAttachmentBytes || desk.Now.Facts(Subject.Aside(sha)).Count > 0) return;
        using var content = new MemoryStream(item.ToArray());
        desk.Live.Log.KeepAttachment(content);
        var from = speaker.Kind == Speaker.Open ? speaker.Person : $"{speaker.Person} ({speaker.Kind} {speaker.Id})";
        var body = new ItemPutAside(sha, item.Length, from, why.Length > 300 ? why[..300] : why);
        await desk.Live.Submit(
            register => new Result<IReadOnlyList<Fact>>.Accepted(register.Facts(Subject.Aside(sha)).Count > 0
                ? []
                : [FactText.WriteDerived(
                    new(Occurred.At(time.GetUtcNow()), PersonState.IdOf(speaker.Person), "server", register.Count), body,
                    [Subject.Aside(sha)])]),
            door, cancel);
    }
}

/// <summary>What became of what was sent.</summary>
/// <param name="Sequence">The newest fact of this log: a kit from here on knows what was stored.</param>
/// <param name="Results">One a line, in order.</param>
internal sealed record FieldAnswer(int Sequence, IReadOnlyList<FieldResult> Results);

/// <summary>What became of one line.</summary>
/// <param name="Line">From 1.</param>
/// <param name="Id">Id of the fact; null where it is none.</param>
/// <param name="Result">stored, duplicate, conflict, unreadable or refused.</param>
/// <param name="Sequence">Where it stands in this log.</param>
/// <param name="Why">Why it was not stored.</param>
/// <param name="Now">The fact that stands under that id, where it is another.</param>
internal sealed record FieldResult(int Line, string? Id, string Result, int? Sequence, string? Why, string? Now);

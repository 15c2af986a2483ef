using System.Threading.Channels;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>
/// The register while a program runs: one writer, many readers. Each decision runs inside the writer on the newest state, those
/// decided just before it included; what is decided at the same time shares one flush to the disk, and an answer comes when
/// flush and state are done.
/// </summary>
public sealed class LiveRegister : IAsyncDisposable
{
    private const int MaxTogether = 512;

    private readonly IFactLog _log;
    private readonly PendingSource _source;
    private readonly Channel<Request> _requests = Channel.CreateBounded<Request>(10_000);
    private readonly Task _writer;
    private volatile Register _now;
    private Task _settling = Task.CompletedTask;
    private Exception? _stopped;

    public LiveRegister(IFactLog log)
    {
        _log = log;
        _source = new(log);
        _now = log.Load().ReadFrom(_source);
        _writer = Task.Run(Write);
    }

    /// <summary>The newest state; a snapshot that never changes.</summary>
    public Register Now => _now;

    public IFactLog Log => _log;

    /// <summary>Who reads response curves for every state of the register; null until somebody does. Said once, before anybody asks.</summary>
    public CurveReader? CurveReader
    {
        get => _source.CurveReader;
        set => _source.CurveReader = value;
    }

    /// <summary>Decides on the newest state and stores what was decided.</summary>
    /// <param name="decide">A pure decision.</param>
    /// <param name="door">Through which door it came.</param>
    /// <param name="cancel">Gives up before it is in the queue; what is in the queue is decided and stored.</param>
    /// <returns>What became of each fact, or why nothing was decided.</returns>
    /// <exception cref="StoreException">The log has stopped.</exception>
    public async Task<Result<IReadOnlyList<AppendOutcome>>> Submit(
        Func<Register, Result<IReadOnlyList<Fact>>> decide, string door, CancellationToken cancel = default)
    {
        if (door.Length is 0 or > 200 || door.Any(char.IsControl)) throw new ArgumentException("A door is a text of 1 to 200 characters without control characters.", nameof(door));
        var request = new Request(decide, door, new(TaskCreationOptions.RunContinuationsAsynchronously));
        await _requests.Writer.WriteAsync(request, cancel).ConfigureAwait(false);
        return await request.Answer.Task.ConfigureAwait(false);
    }

    /// <summary>Stores facts as they are, for example from a file or another register.</summary>
    public Task<Result<IReadOnlyList<AppendOutcome>>> Submit(IReadOnlyList<Fact> facts, string door, CancellationToken cancel = default) =>
        Submit(_ => new Result<IReadOnlyList<Fact>>.Accepted(facts), door, cancel);

    public async ValueTask DisposeAsync()
    {
        _requests.Writer.TryComplete();
        await _writer.ConfigureAwait(false);
        await _settling.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _log.Dispose();
    }

    private async Task Write()
    {
        var waiting = new List<Request>();
        while (await _requests.Reader.WaitToReadAsync().ConfigureAwait(false))
        {
            waiting.Clear();
            while (waiting.Count < MaxTogether && _requests.Reader.TryRead(out var request)) waiting.Add(request);
            if (_stopped is null) Decide(waiting);
            if (_stopped is not null) waiting.ForEach(r => r.Answer.TrySetException(new StoreException("The register has stopped writing: " + _stopped.Message, _stopped)));
        }
    }

    private void Decide(List<Request> waiting)
    {
        var state = _now;
        var incoming = new List<IncomingFact>();
        var answers = new List<(Request Request, IReadOnlyList<AppendOutcome> Outcomes)>();
        foreach (var request in waiting)
        {
            Result<IReadOnlyList<Fact>> decision;
            try
            {
                decision = request.Decide(state);
            }
            catch (Exception e)
            {
                // A decision that fails is its caller's trouble; the writer goes on for all others.
                request.Answer.SetException(e);
                continue;
            }
            if (decision is Result<IReadOnlyList<Fact>>.Accepted accepted)
            {
                try
                {
                    var (outcomes, next) = Take(state, accepted.Value, request.Door, incoming);
                    state = next;
                    answers.Add((request, outcomes));
                }
                catch (Exception e)
                {
                    Stop(e, answers.Select(a => a.Request).Append(request));
                    return;
                }
            }
            else
            {
                request.Answer.SetResult(((Result<IReadOnlyList<Fact>>.Rejected)decision).Why);
            }
        }
        try
        {
            if (incoming.Count > 0) _log.Append(incoming);
            _source.Settle();
            _now = state;
            foreach (var (request, outcomes) in answers) request.Answer.SetResult(new Result<IReadOnlyList<AppendOutcome>>.Accepted(outcomes));
            if (_settling.IsCompleted) _settling = Task.Run(() => _log.Settle(state));
        }
        catch (Exception e)
        {
            Stop(e, answers.Select(a => a.Request));
        }
    }

    // Keys may be there whose facts are not: nothing more is decided until the log is opened again. Whoever waits is told.
    private void Stop(Exception why, IEnumerable<Request> waiting)
    {
        _stopped = why;
        foreach (var request in waiting) request.Answer.TrySetException(why is StoreException ? why : new StoreException("The register has stopped writing: " + why.Message, why));
    }

    private (IReadOnlyList<AppendOutcome> Outcomes, Register Next) Take(Register state, IReadOnlyList<Fact> facts, string door, List<IncomingFact> incoming)
    {
        var outcomes = new AppendOutcome[facts.Count];
        var fresh = new List<Fact>(facts.Count);
        var here = new Dictionary<FactId, (Fact Fact, int Sequence)>();
        for (var i = 0; i < facts.Count; i++)
        {
            var fact = facts[i];
            var known = state.Find(fact.Id);
            var (same, sequence) = here.TryGetValue(fact.Id, out var twin) ? (twin.Fact.Equals(fact), twin.Sequence)
                : known != 0 ? (_source.Read(known).Equals(fact), known)
                : (false, 0);
            if (sequence == 0)
            {
                sequence = state.Count + fresh.Count + 1;
                here.Add(fact.Id, (fact, sequence));
                fresh.Add(fact);
                outcomes[i] = new(fact.Id, AppendResult.Stored, sequence);
            }
            else
            {
                outcomes[i] = new(fact.Id, same ? AppendResult.Duplicate : AppendResult.Conflict, sequence);
            }
        }
        incoming.AddRange(fresh.Select(f => new IncomingFact(f, door)));
        _source.Add(state.Count, fresh);
        return (outcomes, state.With(fresh));
    }

    private sealed record Request(
        Func<Register, Result<IReadOnlyList<Fact>>> Decide, string Door, TaskCompletionSource<Result<IReadOnlyList<AppendOutcome>>> Answer);

    /// <summary>Reads facts that are decided but not yet on the disk from memory, all others from the log.</summary>
    private sealed class PendingSource(IFactLog log) : IFactSource
    {
        private volatile Pending? _pending;

        public Fact Read(int sequence) => _pending is { } p && sequence > p.After && sequence <= p.After + p.Facts.Count
            ? p.Facts[sequence - p.After - 1]
            : log.Read(sequence);

        public CurveReader? CurveReader { get; set; }

        public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Curves(string sha256) => CurveReader?.Invoke(sha256);

        public void Add(int after, List<Fact> facts) => _pending = _pending is { } p ? new(p.After, [.. p.Facts, .. facts]) : new(after, facts);

        public void Settle() => _pending = null;

        private sealed record Pending(int After, IReadOnlyList<Fact> Facts);
    }
}

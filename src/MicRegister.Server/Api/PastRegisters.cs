namespace MicRegister.Server.Api;

/// <summary>
/// The register as the log stood at earlier sequences. A large log takes seconds and memory, and whoever may look may ask: each sequence is
/// worked out once for all who ask, a few are kept, and few are worked out at the same time.
/// </summary>
/// <param name="now">The newest register.</param>
/// <param name="time">By whose clock askers are patient.</param>
public sealed class PastRegisters(Func<Register.Register> now, TimeProvider time)
{
    /// <summary>Registers kept, those asked for last.</summary>
    public const int MostKept = 3;

    /// <summary>Registers worked out at the same time.</summary>
    public const int MostAtOnce = 2;

    /// <summary>How long an asker waits for theirs to be begun.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly Lock _lock = new();
    private readonly List<Register.Register> _kept = []; // the one asked for last stands last
    private readonly Dictionary<int, Work> _open = [];
    private readonly LinkedList<Work> _waiting = [];
    private int _running;

    /// <summary>The register as the log stood at a sequence.</summary>
    /// <param name="sequence">From 0 to that of the newest fact.</param>
    /// <param name="cancel">Stops asking; what nobody asks for any more is given up.</param>
    /// <returns>Null where others are worked out and none of them was done in time.</returns>
    public async Task<Register.Register?> At(int sequence, CancellationToken cancel)
    {
        var newest = now();
        if (sequence == newest.Count) return newest;
        Work? work;
        lock (_lock)
        {
            if (Kept(sequence) is { } known) return known;
            if (!_open.TryGetValue(sequence, out work))
            {
                _open[sequence] = work = new(sequence);
                _waiting.AddLast(work);
                BeginNext();
            }
            work.Askers++;
        }
        try
        {
            await work.Begun.Task.WaitAsync(Patience, time, cancel);
            return await work.Answer.Task.WaitAsync(cancel);
        }
        catch (TimeoutException)
        {
            return null;
        }
        finally
        {
            lock (_lock)
            {
                if (--work.Askers == 0) GiveUp(work);
            }
        }
    }

    private Register.Register? Kept(int sequence)
    {
        if (_kept.Find(r => r.Count == sequence) is not { } known) return null;
        _kept.Remove(known);
        _kept.Add(known);
        return known;
    }

    private void BeginNext()
    {
        while (_running < MostAtOnce && _waiting.First is { Value: var next })
        {
            _waiting.RemoveFirst();
            _running++;
            next.Begun.SetResult();
            _ = Task.Run(() => Run(next));
        }
    }

    private void Run(Work work)
    {
        Register.Register? past = null;
        Exception? why = null;
        try
        {
            past = now().AsOfSequence(work.Sequence, work.Cancel.Token);
        }
        catch (Exception e)
        {
            why = e; // those who asked are told
        }
        lock (_lock)
        {
            _running--;
            if (_open.GetValueOrDefault(work.Sequence) == work) _open.Remove(work.Sequence);
            if (past is not null) Keep(past);
            BeginNext();
        }
        if (past is not null) work.Answer.SetResult(past);
        else work.Answer.SetException(why!);
        _ = work.Answer.Task.Exception; // perhaps nobody is left to be told
    }

    private void Keep(Register.Register past)
    {
        _kept.RemoveAll(r => r.Count == past.Count);
        _kept.Add(past);
        if (_kept.Count > MostKept) _kept.RemoveAt(0);
    }

    // It keeps its turn until it has stopped: another one may not begin beside it.
    private void GiveUp(Work work)
    {
        if (_open.GetValueOrDefault(work.Sequence) == work) _open.Remove(work.Sequence);
        _waiting.Remove(work);
        work.Cancel.Cancel();
    }

    private sealed class Work(int sequence)
    {
        public int Sequence => sequence;

        public int Askers { get; set; }

        public CancellationTokenSource Cancel { get; } = new();

        public TaskCompletionSource Begun { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public TaskCompletionSource<Register.Register> Answer { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}

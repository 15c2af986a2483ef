using System.Collections.Concurrent;
using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Tests;

/// <summary>A log whose facts from some sequence on cannot be read while a gate is shut.</summary>
internal sealed class GatedFacts(IFactSource within, int from = 1) : IFactLog
{
    private readonly ManualResetEventSlim _gate = new(true);

    /// <summary>How many readers stood before the gate since it was shut.</summary>
    public SemaphoreSlim Stopped { get; } = new(0);

    /// <summary>How often each fact was read.</summary>
    public ConcurrentDictionary<int, int> Reads { get; } = new();

    public void Shut() => _gate.Reset();

    public void Open() => _gate.Set();

    public Fact Read(int sequence)
    {
        Reads.AddOrUpdate(sequence, 1, (_, n) => n + 1);
        if (sequence >= from && !_gate.IsSet)
        {
            Stopped.Release();
            _gate.Wait();
        }
        return within.Read(sequence);
    }

    private IFactLog Log => (IFactLog)within;

    public LogHead Head => Log.Head;

    public Register.Register Load() => Log.Load();

    public void Append(IReadOnlyList<IncomingFact> facts) => Log.Append(facts);

    public void Settle(Register.Register register, bool always = false) => Log.Settle(register, always);

    public IEnumerable<LoggedFact> ReadFrom(int sequence) => Log.ReadFrom(sequence);

    public IReadOnlyList<int> Find(FactQuery query) => Log.Find(query);

    public string KeepAttachment(Stream content) => Log.KeepAttachment(content);

    public Stream? OpenAttachment(string sha256) => Log.OpenAttachment(sha256);

    public void Dispose()
    {
        _gate.Set();
        if (within is IFactLog log) log.Dispose();
    }
}

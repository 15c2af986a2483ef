using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>Facts by sequence from a journal whose offsets are known.</summary>
internal sealed class JournalReader(IStoreFile file) : IFactSource
{
    private long[] _offsets = new long[1024];
    private int _count;

    public int Count => _count;

    public ReadOnlySpan<long> Offsets => Volatile.Read(ref _offsets).AsSpan(0, _count);

    /// <summary>The place just after a fact.</summary>
    public JournalPlace PlaceAfter(int sequence) => sequence == 0
        ? JournalPlace.Start
        : new(sequence, Volatile.Read(ref _offsets)[sequence], Convert.FromHexString(ReadLogged(sequence).Chain));

    /// <summary>Begins with facts whose offsets are known.</summary>
    public void Begin(long[] offsets, long end) => (_offsets, _count) = ([.. offsets, end], offsets.Length);

    /// <summary>One more fact; the offset behind it is written first, so that a reader who sees the fact sees where it ends.</summary>
    public void Add(long offset, long end)
    {
        if (_count + 1 >= _offsets.Length)
        {
            var grown = new long[Math.Max(1024, _offsets.Length * 2)];
            _offsets.CopyTo(grown, 0);
            Volatile.Write(ref _offsets, grown);
        }
        _offsets[_count] = offset;
        _offsets[_count + 1] = end;
        Volatile.Write(ref _count, _count + 1);
    }

    public Fact Read(int sequence) => ReadLogged(sequence).Fact;

    public LoggedFact ReadLogged(int sequence)
    {
        if (sequence < 1 || sequence > Volatile.Read(ref _count)) throw new ArgumentOutOfRangeException(nameof(sequence), sequence, $"The log has sequences from 1 to {_count}.");
        var offsets = Volatile.Read(ref _offsets);
        var offset = offsets[sequence - 1];
        var length = (int)(offsets[sequence] - offset - 1);
        var bytes = new byte[length];
        for (var at = 0; at < length;)
        {
            var got = file.Read(offset + at, bytes.AsSpan(at));
            if (got == 0) throw new StoreException($"The journal ends within fact {sequence}; it was cut while it was open.");
            at += got;
        }
        if (!JournalLine.TryRead(bytes, out var line) || line.Sequence != sequence)
            throw new StoreException($"Fact {sequence} at offset {offset} of the journal is damaged: its checksum does not fit.");
        return Logged(line);
    }

    public static LoggedFact Logged(JournalLine line) => new(
        line.Sequence, DateTimeOffset.FromUnixTimeMilliseconds(line.RecordedMs), line.Door, Convert.ToHexStringLower(line.Chain), FactText.Read(line.Fact));
}

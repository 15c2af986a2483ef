namespace MicRegister.Storage.LiteDb;

/// <summary>Reads a journal line by line and says how far it is whole.</summary>
internal static class JournalScan
{
    private const int Block = 1 << 20;

    /// <summary>A whole line and where it stands.</summary>
    public readonly record struct Placed(JournalLine Line, long Offset, int Length);

    /// <summary>Lines from an offset on, whole or not; a last line without a line feed is not given.</summary>
    public static IEnumerable<(ReadOnlyMemory<byte> Bytes, long Offset)> Lines(IStoreFile file, long offset, long upTo)
    {
        var buffer = new byte[Block];
        int filled = 0;
        var start = offset;
        while (true)
        {
            if (filled == buffer.Length) Array.Resize(ref buffer, buffer.Length * 2);
            var want = (int)Math.Min(buffer.Length - filled, upTo - (start + filled));
            var got = want > 0 ? file.Read(start + filled, buffer.AsSpan(filled, want)) : 0;
            if (got == 0) yield break;
            filled += got;

            // Lines keep their bytes, so each block is handed out and a new one taken.
            var last = buffer.AsSpan(0, filled).LastIndexOf((byte)'\n');
            if (last < 0) continue;
            var at = 0;
            while (at <= last)
            {
                var length = buffer.AsSpan(at, filled - at).IndexOf((byte)'\n');
                yield return (buffer.AsMemory(at, length), start + at);
                at += length + 1;
            }
            var next = new byte[Math.Max(Block, filled - at)];
            buffer.AsSpan(at, filled - at).CopyTo(next);
            start += at;
            filled -= at;
            buffer = next;
        }
    }

    /// <summary>Whole batches from a place on, each batch given at once.</summary>
    /// <param name="file">The journal.</param>
    /// <param name="from">Where to begin and what stood before.</param>
    /// <param name="upTo">Length to read.</param>
    /// <param name="end">Where the last whole batch ends.</param>
    public static IEnumerable<List<Placed>> Batches(IStoreFile file, JournalPlace from, long upTo, Action<JournalPlace> end)
    {
        var place = from;
        var chain = from.Chain;
        var batch = new List<Placed>();
        foreach (var (bytes, offset) in Lines(file, from.Offset, upTo))
        {
            if (!JournalLine.TryRead(bytes, out var line)) break;
            var expected = place.Sequence + batch.Count + 1;
            if (line.Sequence != expected || line.End < expected || (batch.Count > 0 && line.End != batch[0].Line.End)) break;
            var computed = JournalLine.ChainOf(chain, line.Sequence, line.RecordedMs, line.Door, line.Fact.Span);
            if (!computed.AsSpan().SequenceEqual(line.Chain)) break;
            chain = computed;
            batch.Add(new(line, offset, bytes.Length));
            if (line.Sequence != line.End) continue;
            place = new(line.Sequence, offset + bytes.Length + 1, chain);
            end(place);
            yield return batch;
            batch = [];
        }
    }

    /// <summary>Greatest sequence that any whole line behind a place says was on the disk, or that it has itself been followed.</summary>
    public static int DurableBehind(IStoreFile file, long offset, long upTo)
    {
        var durable = 0;
        foreach (var (bytes, _) in Lines(file, offset, upTo))
        {
            if (JournalLine.TryRead(bytes, out var line)) durable = Math.Max(durable, line.Durable);
        }
        return durable;
    }
}

/// <summary>A place between two batches.</summary>
/// <param name="Sequence">Sequence of the last fact before it.</param>
/// <param name="Offset">Offset in the journal.</param>
/// <param name="Chain">Chain hash there.</param>
internal sealed record JournalPlace(int Sequence, long Offset, byte[] Chain)
{
    public static JournalPlace Start { get; } = new(0, 0, new byte[JournalLine.ChainSize]);
}

using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>Finds out, at a start, what a folder holds.</summary>
internal static class Recovery
{
    private const int FoldBatch = 50_000;

    /// <summary>The register of all whole batches: from the checkpoint and the tail, or from the beginning.</summary>
    /// <returns>The register, where the whole batches end, where reading began, and the sequence of the checkpoint.</returns>
    public static (Register.Register Register, JournalPlace End, JournalPlace From, int Checkpointed) Load(IStoreFiles files, IStoreFile journal, JournalReader reader, long upTo)
    {
        if (Checkpoint.Read(files, reader, (place, offsets) => StandsInJournal(journal, place, offsets)) is { } kept)
        {
            var (register, end) = Fold(kept.Register, journal, reader, kept.Place, upTo);
            return (register, end, kept.Place, kept.Place.Sequence);
        }
        var (whole, wholeEnd) = Fold(Register.Register.Empty(reader), journal, reader, JournalPlace.Start, upTo);
        return (whole, wholeEnd, JournalPlace.Start, 0);
    }

    /// <summary>Holds the head of the last flush against the journal.</summary>
    /// <exception cref="StoreException">The journal ends before it, or is another one.</exception>
    public static void CheckHead(LogHead? head, JournalReader reader, JournalPlace end)
    {
        if (head is null or { Sequence: 0 }) return;
        if (head.Sequence > end.Sequence)
            throw new StoreException($"The journal ends with fact {end.Sequence}, but {head.Sequence} facts were acknowledged: the journal was cut or damaged. Put back the whole journal from a backup.");
        if (reader.ReadLogged(head.Sequence).Chain != head.Chain)
            throw new StoreException($"At fact {head.Sequence} the head file holds another chain hash than the journal: they are not of one register. Put back the journal that belongs to it.");
    }

    /// <summary>Moves what lies behind the whole batches into a file of its own, so that nothing is thrown away.</summary>
    /// <exception cref="StoreException">Some of it was acknowledged: that is damage, not a torn tail.</exception>
    public static void PutAsideTornTail(IStoreFiles files, IStoreFile journal, JournalPlace place)
    {
        var rest = journal.Length - place.Offset;
        if (rest == 0) return;
        var durable = JournalScan.DurableBehind(journal, place.Offset, journal.Length);
        if (durable > place.Sequence)
            throw new StoreException($"The journal is damaged behind fact {place.Sequence} (offset {place.Offset}); facts up to {durable} were acknowledged. Put back the whole journal from a backup. Nothing was changed.");

        var torn = new byte[rest];
        for (var at = 0; at < torn.Length;)
        {
            var got = journal.Read(place.Offset + at, torn.AsSpan(at));
            if (got == 0) break;
            at += got;
        }
        var number = 1;
        while (files.Exists(TornName(place, number))) number++;
        files.Replace(TornName(place, number), s => s.Write(torn));
        journal.SetLength(place.Offset);
        journal.Flush();
    }

    public static LogHead HeadOf(JournalPlace place) => new(place.Sequence, Convert.ToHexStringLower(place.Chain));

    private static string TornName(JournalPlace place, int number) => FormattableString.Invariant($"torn-after-{place.Sequence}-{number}");

    // The last line before the checkpoint's place must be the one that it was made at.
    private static bool StandsInJournal(IStoreFile journal, JournalPlace place, long[] offsets)
    {
        if (place.Sequence == 0) return true;
        if (journal.Length < place.Offset)
            throw new StoreException($"The checkpoint was made at fact {place.Sequence}, but the journal ends before it: the journal was cut. Put back the whole journal from a backup.");
        var bytes = new byte[place.Offset - offsets[^1] - 1];
        return journal.Read(offsets[^1], bytes) == bytes.Length && JournalLine.TryRead(bytes, out var line)
            && line.Sequence == place.Sequence && line.Chain.AsSpan().SequenceEqual(place.Chain);
    }

    private static (Register.Register Register, JournalPlace End) Fold(Register.Register register, IStoreFile journal, JournalReader reader, JournalPlace from, long upTo)
    {
        var end = from;
        var waiting = new List<Fact>();
        foreach (var batch in JournalScan.Batches(journal, from, upTo, p => end = p))
        {
            foreach (var placed in batch)
            {
                reader.Add(placed.Offset, placed.Offset + placed.Length + 1);
                waiting.Add(FactText.Read(placed.Line.Fact));
            }
            if (waiting.Count < FoldBatch) continue;
            register = register.With(waiting);
            waiting = [];
        }
        return (register.With(waiting), end);
    }
}

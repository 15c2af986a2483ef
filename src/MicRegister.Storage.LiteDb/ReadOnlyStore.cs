using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>A folder read without its lock, as it stands at this moment: to the last whole batch that is on the disk.</summary>
public sealed class ReadOnlyStore : IDisposable
{
    private readonly IStoreFile _journal;
    private readonly JournalReader _reader;

    private readonly AttachmentFolder _attachments;

    private ReadOnlyStore(IStoreFiles files, IStoreFile journal, JournalReader reader, Register.Register register, LogHead head)
    {
        _attachments = new(files);
        (_journal, _reader, Register, Head) = (journal, reader, register, head);
    }

    public Register.Register Register { get; }

    public LogHead Head { get; }

    /// <summary>Opens a folder that may be in use.</summary>
    /// <returns>Null where it holds no journal.</returns>
    public static ReadOnlyStore? Open(IStoreFiles files)
    {
        if (!files.Exists(JournalStore.JournalName)) return null;
        var acknowledged = HeadFile.Read(files);
        var journal = files.OpenRead(JournalStore.JournalName);
        try
        {
            var reader = new JournalReader(journal);
            var (register, end, _, _) = Recovery.Load(files, journal, reader, journal.Length);
            Recovery.CheckHead(acknowledged, reader, end);
            // What lies behind the head was not acknowledged: it may not be on the disk yet. The next start decides.
            return acknowledged is null || acknowledged.Sequence == end.Sequence
                ? new(files, journal, reader, register, Recovery.HeadOf(end))
                : new(files, journal, reader, register.AsOfSequence(acknowledged.Sequence), acknowledged);
        }
        catch
        {
            journal.Dispose();
            throw;
        }
    }

    /// <summary>An attachment by its SHA-256; null where it is not here.</summary>
    public Stream? OpenAttachment(string sha256) => _attachments.Open(sha256);

    public LoggedFact ReadLogged(int sequence) => _reader.ReadLogged(sequence);

    /// <summary>Reads the whole journal and says whether it is whole and in order.</summary>
    public static Verification Verify(IStoreFiles files, CancellationToken cancel = default)
    {
        if (!files.Exists(JournalStore.JournalName)) return new(0, LogHead.Start, default, "There is no journal.", 0);
        var acknowledged = HeadFile.Read(files);
        using var journal = files.OpenRead(JournalStore.JournalName);
        var end = JournalPlace.Start;
        var digest = default(SetDigest);
        string? chainAtHead = null;
        var length = journal.Length;
        foreach (var batch in JournalScan.Batches(journal, JournalPlace.Start, length, p => end = p))
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var placed in batch)
            {
                digest = digest.With(placed.Line.Fact.Span);
                if (placed.Line.Sequence == acknowledged?.Sequence) chainAtHead = Convert.ToHexStringLower(placed.Line.Chain);
            }
        }
        var head = Recovery.HeadOf(end);
        var durable = Math.Max(JournalScan.DurableBehind(journal, end.Offset, length), acknowledged?.Sequence ?? 0);
        var fault = durable > end.Sequence
            ? $"The journal is damaged behind fact {end.Sequence} (offset {end.Offset}); {durable} facts were acknowledged."
            : acknowledged is { Sequence: > 0 } && acknowledged.Chain != chainAtHead
                ? $"At fact {acknowledged.Sequence} the head file holds another chain hash than the journal: they are not of one register."
                : null;
        return new(end.Sequence, head, digest, fault, length - end.Offset);
    }

    /// <summary>The chain hash after a sequence, to be held against an old print.</summary>
    /// <returns>Null where the journal has no such sequence.</returns>
    public string? ChainAt(int sequence) => sequence == 0 ? LogHead.Start.Chain : sequence <= _reader.Count ? _reader.ReadLogged(sequence).Chain : null;

    public void Dispose() => _journal.Dispose();
}

/// <summary>What a full reading of a journal found.</summary>
/// <param name="Facts">Whole facts.</param>
/// <param name="Head">Where they end.</param>
/// <param name="Digest">Which they are.</param>
/// <param name="Fault">What is wrong; null when it is whole.</param>
/// <param name="TornBytes">Bytes behind the last whole batch that nobody was told of.</param>
public sealed record Verification(int Facts, LogHead Head, SetDigest Digest, string? Fault, long TornBytes);

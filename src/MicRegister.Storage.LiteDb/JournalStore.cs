using System.Buffers;
using MicRegister.Register;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>
/// The embedded store of one folder. The journal is the truth; head, checkpoint and index can be made again from it.
/// </summary>
public sealed class JournalStore : IFactLog
{
    public const string JournalName = "journal";
    public const string LockName = "store.lock";
    public const string AddressName = "server.address";

    private readonly IStoreFiles _files;
    private readonly TimeProvider _time;
    private readonly IDisposable _lock;
    private readonly IStoreFile _journal;
    private readonly HeadFile _head;
    private readonly JournalReader _reader;
    private readonly FactIndex? _index;
    private readonly AttachmentFolder _attachments;
    private readonly StoreOptions _options;
    private readonly Lock _settling = new();
    private Register.Register? _loaded;
    private JournalPlace _place;
    private JournalPlace _checked = JournalPlace.Start;
    private int _lastCheckpoint;
    private bool _stopped;

    private JournalStore(
        IStoreFiles files, TimeProvider time, StoreOptions options, IDisposable held, IStoreFile journal, HeadFile head, JournalReader reader, FactIndex? index)
    {
        (_files, _time, _options, _lock, _journal, _head, _reader, _index) = (files, time, options, held, journal, head, reader, index);
        _attachments = new(files);
        _place = JournalPlace.Start;
    }

    /// <summary>Opens a folder as its one writer.</summary>
    /// <param name="files">The folder.</param>
    /// <param name="time">Clock for receipts.</param>
    /// <param name="options">Sizes; null takes the usual ones.</param>
    /// <exception cref="StoreInUseException">Another program holds it.</exception>
    /// <exception cref="StoreException">The journal is damaged or was cut; nothing is changed then.</exception>
    public static JournalStore Open(IStoreFiles files, TimeProvider time, StoreOptions? options = null)
    {
        var held = files.TryLock(LockName) ?? throw InUse(files);
        IStoreFile? journal = null;
        HeadFile? head = null;
        try
        {
            var headBefore = HeadFile.Read(files);
            journal = files.OpenWrite(JournalName);
            var reader = new JournalReader(journal);
            var (register, place, from, last) = Recovery.Load(files, journal, reader, journal.Length);
            Recovery.CheckHead(headBefore, reader, place);
            Recovery.PutAsideTornTail(files, journal, place);
            var index = files.Folder is { } folder ? FactIndex.Open(folder, reader) : null;
            head = new HeadFile(files.OpenWrite(HeadFile.Name));
            var store = new JournalStore(files, time, options ?? new(), held, journal, head, reader, index)
            {
                _loaded = register,
                _place = place,
                _checked = from,
                _lastCheckpoint = last,
            };
            head.Write(store.Head);
            return store;
        }
        catch
        {
            head?.Dispose();
            journal?.Dispose();
            held.Dispose();
            throw;
        }
    }

    public LogHead Head => Recovery.HeadOf(_place);

    /// <summary>Where the start began to read; what lies before was taken from the checkpoint and is checked by <see cref="VerifyBeginning"/>.</summary>
    public int TakenFromCheckpoint => _checked.Sequence;

    public Register.Register Load()
    {
        var register = _loaded ?? throw new InvalidOperationException("The register was loaded already.");
        _loaded = null;
        return register;
    }

    public Fact Read(int sequence) => _reader.Read(sequence);

    public void Append(IReadOnlyList<IncomingFact> facts)
    {
        if (_stopped) throw new StoreException("The journal stopped after a write error; open it again.");
        if (facts.Count == 0) return;
        var to = new ArrayBufferWriter<byte>(facts.Sum(f => f.Fact.Bytes.Length + 200));
        var recorded = _time.GetUtcNow().ToUnixTimeMilliseconds();
        var (sequence, chain, end) = (_place.Sequence, _place.Chain, _place.Sequence + facts.Count);
        var offsets = new long[facts.Count];
        for (var i = 0; i < facts.Count; i++)
        {
            sequence++;
            var door = JournalLine.CleanDoor(facts[i].Door);
            chain = JournalLine.ChainOf(chain, sequence, recorded, door, facts[i].Fact.Bytes.Span);
            offsets[i] = _place.Offset + to.WrittenCount;
            new JournalLine(sequence, end, _place.Sequence, recorded, door, chain, facts[i].Fact.Bytes).Write(to);
        }
        try
        {
            _journal.Write(_place.Offset, to.WrittenSpan);
            _journal.Flush();
            _place = new(sequence, _place.Offset + to.WrittenCount, chain);
            _head.Write(Head);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // After a failed write or flush nobody knows what the disk holds; the next start finds out.
            _stopped = true;
            throw new StoreException("The journal could not be written: " + e.Message, e);
        }
        for (var i = 0; i < offsets.Length; i++)
            _reader.Add(offsets[i], i + 1 < offsets.Length ? offsets[i + 1] : _place.Offset);
        _index?.Nudge();
    }

    public IEnumerable<LoggedFact> ReadFrom(int sequence)
    {
        for (var s = Math.Max(1, sequence); s <= _reader.Count; s++) yield return _reader.ReadLogged(s);
    }

    public IReadOnlyList<int> Find(FactQuery query)
    {
        var (found, upTo) = _index?.Find(query) ?? ([], 0);
        for (var s = upTo + 1; s <= _reader.Count; s++)
        {
            if (Fits(_reader.Read(s), query)) found.Add(s);
        }
        return found;
    }

    public string KeepAttachment(Stream content) => _attachments.Keep(content);

    public Stream? OpenAttachment(string sha256) => _attachments.Open(sha256);

    public void Settle(Register.Register register, bool always = false)
    {
        lock (_settling)
        {
            if (_stopped || register.Count <= _lastCheckpoint || register.Count > _place.Sequence) return;
            if (!always && register.Count - _lastCheckpoint < _options.FactsPerCheckpoint) return;
            Checkpoint.Write(_files, register, _reader.PlaceAfter(register.Count), _reader.Offsets);
            _lastCheckpoint = register.Count;
        }
    }

    /// <summary>Checks the part of the journal that the start took on trust from the checkpoint.</summary>
    /// <returns>Null when it is whole; otherwise what is wrong.</returns>
    public string? VerifyBeginning(CancellationToken cancel = default)
    {
        var place = JournalPlace.Start;
        foreach (var _ in JournalScan.Batches(_journal, JournalPlace.Start, _checked.Offset, p => place = p)) cancel.ThrowIfCancellationRequested();
        return place.Sequence == _checked.Sequence && place.Chain.AsSpan().SequenceEqual(_checked.Chain)
            ? null
            : $"The journal is damaged behind fact {place.Sequence} (offset {place.Offset}).";
    }

    /// <summary>Says where a server listens, for commands that find the folder held.</summary>
    public void Announce(string address) => _files.Replace(AddressName, s => s.Write(System.Text.Encoding.UTF8.GetBytes(address)));

    public void Dispose()
    {
        _index?.Dispose();
        _head.Dispose();
        _journal.Dispose();
        _files.Delete(AddressName);
        _lock.Dispose();
    }

    internal Task IndexCaughtUp() => _index?.CaughtUp() ?? Task.CompletedTask;

    private static bool Fits(Fact fact, FactQuery q) =>
        (q.Subject is null || fact.Subjects.Contains(q.Subject)) && (q.Author is null || fact.Author == q.Author) && (q.Kind is null || fact.Kind == q.Kind)
        && (q.From is null || fact.Occurred.Day >= q.From) && (q.To is null || fact.Occurred.Day <= q.To);

    private static StoreInUseException InUse(IStoreFiles files)
    {
        var address = files.Exists(AddressName) ? ReadText(files, AddressName) : null;
        return new(address is null ? "Another program holds this register's folder." : $"A server holds this register's folder; it listens at {address}.", address);
    }

    private static string ReadText(IStoreFiles files, string name)
    {
        using var file = files.OpenRead(name);
        var bytes = new byte[Math.Min(1000, file.Length)];
        return System.Text.Encoding.UTF8.GetString(bytes.AsSpan(0, file.Read(0, bytes)));
    }
}

/// <param name="FactsPerCheckpoint">Facts after which a checkpoint is worth its time.</param>
public sealed record StoreOptions(int FactsPerCheckpoint = 20_000);

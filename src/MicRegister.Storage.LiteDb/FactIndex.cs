using System.Threading.Channels;
using LiteDB;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb;

/// <summary>
/// Keys of the facts in a LiteDB file, for questions by person, kind and time and for cards of attachments. It is written behind
/// the journal by one thread; whatever is wrong with it, it is thrown away and made again, except when it knows more than the
/// journal: then the journal was cut.
/// </summary>
internal sealed class FactIndex : IDisposable
{
    private const string Name = "index.db";
    private const int BatchSize = 2000;

    private readonly Channel<bool> _nudges = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly Lock _gate = new();
    private readonly string _path;
    private readonly JournalReader _journal;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _work;
    private LiteDatabase _database;
    private int _last;

    private FactIndex(string path, LiteDatabase database, int last, JournalReader journal)
    {
        (_path, _database, _last, _journal) = (path, database, last, journal);
        _work = Task.Factory.StartNew(Work, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
    }

    /// <summary>Opens the index beside a journal.</summary>
    /// <exception cref="StoreException">The index holds facts that the journal does not: the journal was cut.</exception>
    public static FactIndex Open(string folder, JournalReader journal)
    {
        var path = Path.Combine(folder, Name);
        var (database, last) = OpenOrMakeAnew(path);
        if (last <= journal.Count) return new(path, database, last, journal);
        database.Dispose();
        throw new StoreException($"The index knows {last} facts, the journal holds {journal.Count}: the journal was cut. Put back the whole journal from a backup; the index would be made anew only if its file {Name} were deleted.");
    }

    /// <summary>Sequence up to which questions are answered from the index.</summary>
    public int Last => Volatile.Read(ref _last);

    /// <summary>Says that the journal has more; the facts themselves are read from it, in sequence.</summary>
    public void Nudge() => _nudges.Writer.TryWrite(true);

    /// <summary>Sequences of indexed facts that fit a question, and up to where the index reaches.</summary>
    public (List<int> Found, int UpTo) Find(FactQuery query)
    {
        lock (_gate)
        {
            try
            {
                return (Ask(query), _last);
            }
            catch (Exception e) when (IsDamage(e))
            {
                MakeAnew();
                return ([], 0);
            }
        }
    }

    private List<int> Ask(FactQuery query)
    {
        var parts = new List<BsonExpression>();
        if (query.Subject is { } subject) parts.Add(Query.Any().EQ("subjects", subject));
        if (query.Author is { } author) parts.Add(Query.EQ("author", author));
        if (query.Kind is { } kind) parts.Add(Query.EQ("kind", kind));
        if (query.From is { } from) parts.Add(Query.GTE("day", from.DayNumber));
        if (query.To is { } to) parts.Add(Query.LTE("day", to.DayNumber));
        var facts = _database.GetCollection("facts");
        var found = parts.Count == 0 ? facts.FindAll() : facts.Find(parts.Count == 1 ? parts[0] : Query.And([.. parts]));
        var sequences = found.Select(d => d["_id"].AsInt32).ToList();
        sequences.Sort();
        return sequences;
    }

    /// <summary>Waits until every fact that was added is indexed.</summary>
    internal async Task CaughtUp()
    {
        while (Last < _journal.Count && !_work.IsCompleted) await Task.Yield();
    }

    public void Dispose()
    {
        _nudges.Writer.TryComplete();
        _stop.Cancel();
        _work.Wait();
        _database.Dispose();
        _stop.Dispose();
    }

    private void Work()
    {
        var batch = new List<LoggedFact>(BatchSize);
        try
        {
            CheckHolding();
            while (true)
            {
                batch.Clear();
                _nudges.Reader.TryRead(out _);
                for (var next = _last + 1; next <= _journal.Count && batch.Count < BatchSize; next++) batch.Add(_journal.ReadLogged(next));
                if (batch.Count > 0) Store(batch);
                else if (!_nudges.Reader.WaitToReadAsync(_stop.Token).AsTask().GetAwaiter().GetResult()) return;
                _stop.Token.ThrowIfCancellationRequested();
            }
        }
        catch (OperationCanceledException)
        {
            // Closing: what is not indexed yet will be at the next start.
        }
        catch (Exception e) when (IsDamage(e))
        {
            // The journal is damaged, or the disk takes no index: questions read the journal and say so where it is damaged.
        }
    }

    // Counting reads the whole index, so it is done behind the start.
    private void CheckHolding()
    {
        lock (_gate)
        {
            try
            {
                if (_database.GetCollection("facts").LongCount() != _last) MakeAnew();
            }
            catch (Exception e) when (IsDamage(e))
            {
                MakeAnew();
            }
        }
    }

    private void Store(List<LoggedFact> batch)
    {
        lock (_gate)
        {
            // A question may have made the index anew meanwhile.
            if (batch[0].Sequence != _last + 1) return;
            try
            {
                Insert(batch);
            }
            catch (Exception e) when (IsDamage(e))
            {
                MakeAnew();
                return;
            }
            Volatile.Write(ref _last, batch[^1].Sequence);
        }
    }

    private void Insert(List<LoggedFact> batch)
    {
        _database.BeginTrans();
        _database.GetCollection("facts").InsertBulk(batch.Select(f => new BsonDocument
        {
            ["_id"] = f.Sequence,
            ["kind"] = f.Fact.Kind,
            ["author"] = f.Fact.Author,
            ["day"] = f.Fact.Occurred.Day.DayNumber,
            ["subjects"] = new BsonArray(f.Fact.Subjects.Select(s => new BsonValue(s))),
        }));
        _database.GetCollection("state").Upsert(new BsonDocument { ["_id"] = 1, ["last"] = batch[^1].Sequence });
        _database.Commit();
    }

    // Measured: a damaged file shows as one of these, at any call. The index is only a copy, so it is made anew.
    private static bool IsDamage(Exception e) => e is LiteException or IOException or NullReferenceException or InvalidCastException or ArgumentException
        or InvalidOperationException or IndexOutOfRangeException or KeyNotFoundException or OverflowException or FormatException or NotSupportedException;

    private void MakeAnew()
    {
        try
        {
            _database.Dispose();
        }
        catch (Exception e) when (IsDamage(e))
        {
            // Closing writes once more; what cannot be written is deleted next.
        }
        Delete(_path);
        (_database, _) = OpenOrMakeAnew(_path);
        Volatile.Write(ref _last, 0);
        Nudge();
    }

    private static (LiteDatabase Database, int Last) OpenOrMakeAnew(string path)
    {
        try
        {
            return Opened(path);
        }
        catch (Exception e) when (IsDamage(e))
        {
            Delete(path);
            return Opened(path);
        }
    }

    private static (LiteDatabase Database, int Last) Opened(string path)
    {
        // A log left beside a missing file would be replayed into a new one of that name.
        if (!File.Exists(path)) Delete(path);
        var database = new LiteDatabase(new ConnectionString { Filename = path, Connection = ConnectionType.Direct });
        try
        {
            var facts = database.GetCollection("facts");
            facts.EnsureIndex("kind");
            facts.EnsureIndex("author");
            facts.EnsureIndex("day");
            facts.EnsureIndex("subjects", "$.subjects[*]");
            var last = database.GetCollection("state").FindById(1)?["last"].AsInt32 ?? 0;
            return (database, last);
        }
        catch
        {
            database.Dispose();
            throw;
        }
    }

    private static void Delete(string path)
    {
        File.Delete(path);
        File.Delete(Path.ChangeExtension(path, null) + "-log.db");
    }
}

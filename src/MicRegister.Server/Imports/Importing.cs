using System.Security.Cryptography;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Register.People;
using MicRegister.Register.Settings;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Imports;

/// <summary>Files on their way into a register: read, worked out, and stored when asked to.</summary>
/// <param name="register">What is known already.</param>
/// <param name="today">The day of the import.</param>
/// <param name="recorded">On which day a fact was recorded, by its sequence; null where nobody can tell.</param>
internal sealed class Importing(Register.Register register, DateOnly today, Func<int, DateOnly?>? recorded = null)
{
    private readonly ImportSession _session = new(register, today, recorded: recorded);
    private readonly List<TakenFile> _files = [];
    private readonly Dictionary<FileReport, ImportLegend?> _kept = [];
    private string? _digest;

    public IReadOnlyList<FileReport> Reports => [.. Files.Select(f => f.Report)];

    public IReadOnlyList<Fact> Facts => [.. Files.SelectMany(f => f.Report.Stated)];

    /// <summary>What would be stored and what is told of each row, as one hash: two workings out with one hash do the same.</summary>
    public string Digest => _digest ??= PlanDigest.Of(Facts, Reports);

    /// <summary>Files that could not be read at all, with the reason.</summary>
    public List<(string Name, string Why)> Unreadable { get; } = [];

    public bool IsGood => Unreadable.Count == 0 && Files.All(f => f.Report.IsGood);

    /// <summary>What has to be answered before anything can be stored; null where nothing.</summary>
    public string? StopsAll => Files.Find(f => f.Report.AsksOfColumns)?.Report is { } asking
        ? $"{asking.Name}: columns are not understood yet, so that its rows would lack what they hold. Answer its questions first."
        : null;

    // Whoever asks what became of the files asks of all of them.
    private List<TakenFile> Files
    {
        get
        {
            Finish(null, default);
            // A report is known by itself; its tables are all there now.
            foreach (var (report, _, _, legend) in _files.Where(f => !_kept.ContainsKey(f.Report))) _kept[report] = Kept(report, legend);
            return _files;
        }
    }

    /// <summary>Works out what waited until all files are here: devices and campaigns may come in any of them.</summary>
    public void Finish(IProgress<ImportProgress>? progress, CancellationToken cancel) => _session.Finish(progress, cancel);

    /// <summary>Works out what files would do, as they were asked for.</summary>
    /// <param name="register">What is known already.</param>
    /// <param name="today">The day of the import, where nobody asked for another.</param>
    /// <param name="recorded">On which day a fact was recorded, by its sequence; null where nobody can tell.</param>
    /// <param name="ask">The files, and what was said of them.</param>
    /// <param name="open">Opens one of those that can be read, by its place.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <exception cref="BadUseException">Answers of that name are not kept.</exception>
    public static Importing Worked(
        Register.Register register, DateOnly today, Func<int, DateOnly?>? recorded, ImportAsk ask, Func<int, Stream> open,
        CancellationToken cancel)
    {
        var kept = ask.Legend is null ? null : KeptLegend.Named(register, ask.Legend).Legend;
        var importing = new Importing(register, ask.Today ?? today, recorded);
        for (var i = 0; i < ask.Files.Count; i++)
        {
            try
            {
                importing.Take(ask, ask.Files[i], i, kept, open, cancel);
            }
            catch (Exception e) when (e is SheetException or IOException or UnauthorizedAccessException)
            {
                // One file that cannot be read takes none of the others with it.
                importing.Unreadable.Add((ask.Files[i].Name, e.Message));
            }
        }
        importing.Finish(null, cancel);
        return importing;
    }

    private void Take(ImportAsk ask, AskedFile file, int place, ImportLegend? kept, Func<int, Stream> open, CancellationToken cancel)
    {
        if (file.Unreadable is { } why) throw new SheetException(why);
        var legend = LegendLines.ForNext(kept?.Text);
        foreach (var more in new[] { file.Mapping, file.Answers }) legend = LegendLines.Joined(legend, more);
        if (ask.Dates is { } order) legend = LegendLines.With(legend, "dates := " + order);
        var rules = ImportMapping.Read(new StringReader(legend), file.MappingName ?? "the answers");
        using var content = open(place);
        Take(content, file.Name, rules with { AsOf = ask.AsOf ?? rules.AsOf }, null, cancel, place, (kept?.Name ?? file.Name, legend));
    }

    /// <summary>Takes a file that was handed over.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name.</param>
    /// <param name="mapping">What its headers do not say.</param>
    /// <param name="progress">Told from time to time how many rows are done.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <param name="place">Which of the files that were asked for it is.</param>
    /// <param name="legend">Name and text of the legend that is kept with the import; null keeps none.</param>
    public void Take(
        Stream content, string name, ImportMapping mapping, IProgress<ImportProgress>? progress, CancellationToken cancel,
        int place = 0, (string Name, string Text)? legend = null)
    {
        content.Position = 0;
        var sha = Convert.ToHexStringLower(SHA256.HashData(content));
        var report = _session.Read(content, name, mapping, progress, cancel);
        _files.Add(new(report, sha, place, legend));
        _digest = null;
    }

    // A legend longer than a text of a fact may be is not cut: half of it would say something else.
    private static ImportLegend? Kept(FileReport report, (string Name, string Text)? legend)
    {
        if (legend is not var (name, written) || LegendLines.Rules(written).Count == 0) return null;
        var text = written.ReplaceLineEndings("\n").TrimEnd();
        if (text.Length <= Bound.MostLetters && report.Shape.Count is > 0 and <= MostTables)
            return new(name.Length <= MostName ? name : name[..MostName], text, [.. report.Shape]);
        report.Notices.Add($"{report.Name}: its answers have {text.Length} characters for {report.Shape.Count} tables; at most "
            + $"{Bound.MostLetters} characters for {MostTables} tables are kept with the import. The list is taken over all the same.");
        return null;
    }

    private const int MostTables = 1000;
    private const int MostName = 200;

    private sealed record TakenFile(FileReport Report, string Sha256, int Place, (string Name, string Text)? Legend);

    /// <summary>Tells from a log on which day a fact was recorded.</summary>
    public static Func<int, DateOnly?> RecordedIn(IFactLog log) => sequence => DayOf(log.ReadFrom(sequence).First());

    /// <summary>The day on which a fact was recorded, in UTC.</summary>
    public static DateOnly? DayOf(LoggedFact logged) => DateOnly.FromDateTime(logged.Recorded.UtcDateTime);

    /// <summary>Stores all facts as one batch, with a fact of its own for each file, by its person.</summary>
    /// <returns>How many facts are new; none adds nothing at all.</returns>
    public Task<int> Store(LiveRegister live, string by, TimeProvider time, CancellationToken cancel) =>
        Store(live, Access.OpenHere, Speaker.Here(by), time, cancel);

    /// <summary>The same, by whoever speaks.</summary>
    public async Task<int> Store(LiveRegister live, Access access, Speaker speaker, TimeProvider time, CancellationToken cancel) =>
        (await Store(live, access, speaker, time, onlyAsWorkedOut: false, cancel))!.Value;

    /// <summary>The same, unless the register holds something else than this was worked out against.</summary>
    /// <returns>How many facts are new; null where it does: then nothing was stored.</returns>
    public Task<int?> StoreAsWorkedOut(LiveRegister live, Access access, Speaker speaker, TimeProvider time, CancellationToken cancel) =>
        Store(live, access, speaker, time, onlyAsWorkedOut: true, cancel);

    // What comes by the hundred thousand is counted by the fold and not read: it changes nothing that rows are held against.
    private bool IsAsWorkedOut(Register.Register now) =>
        Enumerable.Range(register.Count + 1, now.Count - register.Count).All(s => FactKinds.IsTrafficKind(now.Source.Read(s).Kind));

    private async Task<int?> Store(
        LiveRegister live, Access access, Speaker speaker, TimeProvider time, bool onlyAsWorkedOut, CancellationToken cancel)
    {
        if (StopsAll is { } why) throw new BadUseException(why);
        var rows = Facts;
        if (rows.Count == 0) return 0;
        var (by, person) = (speaker.Person, PersonState.IdOf(speaker.Person));
        var facts = new List<Fact>();
        if (live.Now.State.Founded is null) facts.Add(Founding(time, person));
        if (live.Now.Person(person) is null)
            facts.Add(FactText.WriteDerived(new(Occurred.Unknown, person, "command", 0), new PersonNamed(by), [Subject.Person(person)]));
        facts.AddRange(rows);
        var counter = live.Now.State.Imports.Count;
        foreach (var (report, sha, _, _) in Files.Where(f => f.Report.Stated.Count > 0))
        {
            var digest = report.Stated.Aggregate(default(SetDigest), (sum, f) => sum.With(f.Bytes.Span));
            facts.Add(FactText.WriteDerived(
                new(Occurred.At(time.GetUtcNow()), person, "command", ++counter),
                new ImportAccepted(report.Name, sha, report.Rows, report.Stated.Count, digest.ToString())
                {
                    AsOf = report.AsOf?.Day,
                    Legend = _kept[report],
                },
                [Subject.TheRegister]));
        }
        var isChanged = false;
        var answer = await live.Submit(
            r => onlyAsWorkedOut && (isChanged = !IsAsWorkedOut(r))
                ? new Rejection(RejectionSort.Conflict, "The register changed meanwhile.")
                : Doorkeeper.Refusal(access, r, speaker, facts) is { } refusal ? refusal : new Result<IReadOnlyList<Fact>>.Accepted(facts),
            speaker.Kind == Speaker.Open ? "import by " + person : speaker.Door("import"),
            cancel);
        if (isChanged) return null;
        return answer is Result<IReadOnlyList<AppendOutcome>>.Accepted accepted
            ? accepted.Value.Count(o => o.Result == AppendResult.Stored)
            : throw new BadUseException(((Result<IReadOnlyList<AppendOutcome>>.Rejected)answer).Why.Text);
    }

    /// <summary>The rows that were put aside, one table for each that has some.</summary>
    public IReadOnlyList<MendTable> Aside()
    {
        var aside = new List<MendTable>();
        foreach (var (report, _, place, _) in Files)
        {
            for (var table = 0; table < report.Tables; table++)
            {
                using var text = new StringWriter();
                if (MendFile.Write(report, table, text) > 0) aside.Add(new(place, table, text.ToString()));
            }
        }
        return aside;
    }

    private static Fact Founding(TimeProvider time, string person)
    {
        var now = time.GetUtcNow();
        var id = FactId.Create(now.ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10));
        return FactText.WriteDerived(
            new(Occurred.At(now), person, "command", 0),
            new RegisterFounded(id.ToString(), "Register", "UTC", []),
            [Subject.TheRegister]);
    }
}

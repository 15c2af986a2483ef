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

    /// <summary>Takes a file, with the mapping beside it where no other is given.</summary>
    /// <param name="path">The file.</param>
    /// <param name="mapping">File with its legend; null takes that beside it.</param>
    /// <param name="dates">What 03/04/2026 means.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <param name="answers">Rules of a legend beside those of the file.</param>
    /// <param name="asOf">Day as of which it speaks.</param>
    /// <param name="kept">A legend that the register keeps, before both.</param>
    public void Take(
        string path, string? mapping, DateOrder? dates, CancellationToken cancel, string answers = "", DateOnly? asOf = null,
        ImportLegend? kept = null)
    {
        try
        {
            if (!File.Exists(path)) throw new SheetException($"There is no file {path}.");
            mapping ??= File.Exists(path + ".mapping") ? path + ".mapping" : null;
            if (mapping is not null && !File.Exists(mapping)) throw new SheetException($"There is no file {mapping}.");
            var legend = LegendLines.ForNext(kept?.Text);
            foreach (var more in new[] { mapping is null ? "" : File.ReadAllText(mapping), answers })
                legend = LegendLines.Joined(legend, more);
            if (dates is { } order)
                legend = LegendLines.With(legend, "dates := " + (order == DateOrder.DayFirst ? "day-first" : "month-first"));
            var rules = ImportMapping.Read(new StringReader(legend), mapping is null ? "the answers" : Path.GetFileName(mapping));
            using var content = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            Take(content, Path.GetFileName(path), rules with { AsOf = asOf ?? rules.AsOf }, null, cancel, mapping,
                (kept?.Name ?? Path.GetFileName(path), legend));
        }
        catch (Exception e) when (e is SheetException or IOException or UnauthorizedAccessException)
        {
            // One file that cannot be read takes none of the others with it.
            Unreadable.Add((Path.GetFileName(path), e.Message));
        }
    }

    /// <summary>Takes a file that was handed over.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name.</param>
    /// <param name="mapping">What its headers do not say.</param>
    /// <param name="progress">Told from time to time how many rows are done.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <param name="mappingFile">Path of the file that the mapping is from.</param>
    /// <param name="legend">Name and text of the legend that is kept with the import; null keeps none.</param>
    public void Take(
        Stream content, string name, ImportMapping mapping, IProgress<ImportProgress>? progress, CancellationToken cancel,
        string? mappingFile = null, (string Name, string Text)? legend = null)
    {
        content.Position = 0;
        var sha = Convert.ToHexStringLower(SHA256.HashData(content));
        var report = _session.Read(content, name, mapping, progress, cancel);
        _files.Add(new(report, sha, mappingFile, legend));
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

    private sealed record TakenFile(FileReport Report, string Sha256, string? MappingFile, (string Name, string Text)? Legend);

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

    /// <summary>Writes the rows that were put aside, one file a table, each with the mapping that it was read by.</summary>
    /// <param name="folder">Where to.</param>
    /// <param name="over">Whether files of an earlier run are written over; otherwise a number is added.</param>
    public IReadOnlyList<string> WriteAside(string folder, bool over = false)
    {
        var written = new List<string>();
        foreach (var (report, _, mapping, _) in Files)
        {
            for (var table = 0; table < report.Tables; table++)
            {
                using var text = new StringWriter();
                if (MendFile.Write(report, table, text) == 0) continue;
                Directory.CreateDirectory(folder);
                var path = Free(folder, report.Name + (table > 0 ? FormattableString.Invariant($".{table + 1}") : ""), over);
                File.WriteAllText(path, text.ToString(), new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
                if (mapping is not null) File.Copy(mapping, path + ".mapping", overwrite: true);
                written.Add(path);
            }
        }
        return written;
    }

    private static string Free(string folder, string name, bool over)
    {
        var path = Path.Combine(folder, name + ".mend.csv");
        for (var n = 2; !over && File.Exists(path); n++) path = Path.Combine(folder, FormattableString.Invariant($"{name}.mend-{n}.csv"));
        return path;
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

using System.Security.Cryptography;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>
/// Takes files in and works out, against a register, which facts their rows stand for. Nothing is stored: the facts are there
/// for whoever decides to. The same rows always stand for the same facts.
/// </summary>
public sealed partial class ImportSession
{
    /// <summary>Least number of a change that the import itself makes; facts of rows have the numbers below it.</summary>
    internal const int FirstChange = 100;
    private const int FirstOfDiaries = 3;

    private readonly SheetLimits _limits;
    private readonly StatedFacts _stated;
    private readonly DeviceRows _devices;
    private readonly CampaignRows _campaigns;
    private readonly RuleRows _rules;
    private readonly DiaryRows _diary;
    private readonly List<Waiting> _waiting = [];

    /// <param name="register">What is known already.</param>
    /// <param name="today">The day of the import: what is changed by it happens on that day.</param>
    /// <param name="limits">How much a file may hold; null takes the usual.</param>
    /// <param name="recorded">On which day a fact was recorded, by its sequence; null where nobody can tell.</param>
    public ImportSession(Register.Register register, DateOnly today, SheetLimits? limits = null, Func<int, DateOnly?>? recorded = null)
    {
        Register = register;
        Today = today;
        _limits = limits ?? SheetLimits.Usual;
        Lookup = new(register);
        Standing = new(this, recorded);
        _stated = new(register);
        _devices = new(this);
        _campaigns = new(this);
        _rules = new(this);
        _diary = new(this);
    }

    /// <summary>Facts of all rows that are good, in order.</summary>
    public IReadOnlyList<Fact> Facts => _stated.All;

    internal Register.Register Register { get; }

    /// <summary>The register as it will be when the rows so far are taken.</summary>
    internal Register.Register Ahead => _stated.Ahead;

    internal DateOnly Today { get; }

    internal DeviceLookup Lookup { get; }

    /// <summary>Levels of the models in the table at hand and in the register.</summary>
    internal SiblingLevels Siblings { get; private set; } = SiblingLevels.None;

    /// <summary>Whether the table at hand holds results that only microphones have.</summary>
    internal bool IsOfSensitivities { get; private set; }

    /// <summary>What results of the table at hand say of the kinds of its devices.</summary>
    internal KindEvidence Evidence { get; private set; } = KindEvidence.None;

    internal StandingValues Standing { get; }

    /// <summary>As of which day the file speaks whose rows are taken.</summary>
    internal AsOfDay? AsOf => _stated.Report?.AsOf;

    /// <summary>Requirement profiles of the rows so far.</summary>
    internal HashSet<string> Profiles { get; } = new(StringComparer.Ordinal);

    /// <summary>Ids of devices that the table at hand names.</summary>
    internal IReadOnlySet<string> NamedIds { get; private set; } = new HashSet<string>();

    internal HashSet<string> Campaigns { get; } = new(StringComparer.Ordinal);

    /// <summary>Takes a file by itself.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="mapping">What its headers do not say.</param>
    /// <param name="progress">Told from time to time how many rows are done.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <exception cref="SheetException">The file as a whole cannot be read, or holds no table that is understood.</exception>
    public FileReport Take(Stream content, string name, ImportMapping mapping, IProgress<ImportProgress>? progress = null,
        CancellationToken cancel = default)
    {
        var report = Read(content, name, mapping, progress, cancel);
        Finish(progress, cancel);
        return report;
    }

    /// <summary>
    /// Takes a file of several. What speaks of stations and of what was done outdoors waits for <see cref="Finish"/>: devices and campaigns
    /// may come in a later file.
    /// </summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="mapping">What its headers do not say.</param>
    /// <param name="progress">Told the number of rows from time to time.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <returns>What became of its rows so far; whole once all files are finished.</returns>
    /// <exception cref="SheetException">The file as a whole cannot be read, or holds no table that is understood.</exception>
    public FileReport Read(
        Stream content, string name, ImportMapping mapping, IProgress<ImportProgress>? progress = null, CancellationToken cancel = default)
    {
        var report = _stated.Report = new FileReport(name);
        var tables = new List<(TableReading Table, Sheet Sheet, ImportMapping Rules)>();
        var diaries = new List<Waiting>();
        content.Position = 0;
        var sha = Convert.ToHexStringLower(SHA256.HashData(content));
        content.Position = 0;
        foreach (var sheet in SheetFile.Open(content, name, _limits, keepsFaults: true))
        {
            var rules = mapping.For(sheet.Name);
            if (!new SheetQuestions(sheet, rules).MayRead(report)) continue;
            var rows = new List<SheetRow>();
            foreach (var row in sheet.Rows)
            {
                cancel.ThrowIfCancellationRequested();
                if (!row.IsBlank || row.Fault is not null) rows.Add(row);
            }
            report.Notices.AddRange(sheet.Remarks);
            if (!new SheetQuestions(sheet, rules).MayTake(rows, report)) continue;
            if (BesideTables.Holds(sheet.Name, rows))
            {
                report.Notices.Add($"{Where(name, sheet)}: it says what the other sheets hold; passed over.");
                continue;
            }
            if (DiaryTable.Find(rows, sheet, rules) is { } diary)
            {
                diaries.Add(new(report, FirstOfDiaries + diary.Sort.Order, () => _diary.Take(diary, rules, sha, report, cancel)));
                continue;
            }
            var found = TableReading.Find(rows, sheet, rules, [.. tables.Select(t => t.Table)]);
            tables.AddRange(found.Select(table => (table, sheet, rules)));
            if (found.Count == 0 && rows.Count > 0)
                report.Notices.Add($"{Where(name, sheet)}: no header was understood in its first rows; the sheet was passed over.");
        }
        TableReading.SettleDates([.. tables.Select(t => t.Table)]);
        report.AsOf = AsOfDay.Stated(name, mapping, Today)
            ?? AsOfLine.Settle([.. tables.SelectMany(t => t.Table.AsOfLines)],
                AsOfDay.Newest(tables.SelectMany(t => t.Table.Readers), Today, cancel), Today, report);
        var total = tables.Sum(t => t.Table.Before.Count + t.Table.Rows.Count);
        progress?.Report(new(0, total));
        void Tell() => progress?.Report(new(report.Rows, total));
        diaries.AddRange(TakeUntorn([.. tables.Select(t => (t.Table, t.Sheet, t.Rules))], report, Tell, cancel));
        if (report.Tables == 0 && diaries.Count == 0 && report.Questions.Count == 0)
            throw new SheetException($"{name} holds no table that is understood: a header needs a serial number, inventory code, station, campaign, limit or setting, and one column more. Other headers can be named in a mapping file.");
        _rules.Finish();
        _waiting.AddRange(diaries);
        report.Facts = report.Own.Count;
        return report;
    }

    /// <summary>Takes what waited for other files: stations, what goes along, then what was done outdoors.</summary>
    /// <param name="progress">Told the number of rows from time to time.</param>
    /// <param name="cancel">Stops between two tables.</param>
    public void Finish(IProgress<ImportProgress>? progress = null, CancellationToken cancel = default)
    {
        foreach (var waiting in _waiting.OrderBy(w => w.Order).ToList())
        {
            cancel.ThrowIfCancellationRequested();
            _stated.Report = waiting.Report;
            Torn.Begin();
            waiting.Take();
            _campaigns.Finish();
            waiting.Report.Facts = waiting.Report.Own.Count;
            progress?.Report(new(waiting.Report.Rows, waiting.Report.Rows));
        }
        _waiting.Clear();
    }

    /// <summary>Says that rows wait to be told as of which day their file speaks.</summary>
    internal void AsksAsOf() => _stated.Report!.AsksAsOf |= _stated.Report.Questions.All(q => q.Key != AsOfLine.Key);

    /// <summary>States a fact about a device, unless it is known.</summary>
    /// <returns>Whether it is new.</returns>
    /// <param name="body">What is stated.</param>
    /// <param name="occurred">The day that the row gives; null for a change that the import itself makes.</param>
    /// <param name="rank">Order among the facts of one day: a registration comes before a move.</param>
    /// <param name="device">Id of the device.</param>
    /// <param name="changedOn">The day of a change; null takes today.</param>
    internal bool State(FactBody body, Occurred? occurred, int rank, string device, DateOnly? changedOn = null) =>
        _stated.Add(FactText.WriteDerived(Stamp(occurred, rank, changedOn), body, [Subject.Device(device)]));

    internal bool StateCampaign(FactBody body, Occurred? occurred, int rank, string campaign, IReadOnlyList<string> devices) =>
        _stated.Add(FactText.WriteDerived(Stamp(occurred, rank), body,
            [Subject.Campaign(campaign), .. devices.Distinct(StringComparer.Ordinal).Select(Subject.Device)]));

    /// <summary>States a fact about a requirement profile or the register itself.</summary>
    internal bool StateRule(FactBody body, Occurred? occurred, int rank, string subject) =>
        _stated.Add(FactText.WriteDerived(Stamp(occurred, rank), body, [subject]));

    /// <summary>States what was decided.</summary>
    /// <returns>Whether any of it is new.</returns>
    internal bool StateAll(IReadOnlyList<Fact> facts)
    {
        var isNew = false;
        foreach (var fact in facts) isNew |= _stated.Add(fact);
        return isNew;
    }

    /// <summary>What was noticed of facts of the rows so far, and has not been said; null where nothing.</summary>
    internal string? TakeRemarks() => _stated.TakeRemarks();

    /// <summary>How a row says something: without a person, so that the same row is one fact whoever takes it over.</summary>
    internal static Saying Saying(Occurred occurred, int rank) => new(FactStamp.Imported(occurred, rank));

    /// <summary>How the import itself changes what the register holds.</summary>
    internal Saying SayingOfChange() => new(Stamp(null, 0));

    internal bool StateCertificate(PlannedDevice device, DateOnly day, CertificateIssued issued, FactId? replaces)
    {
        var fact = FactText.WriteDerived(FactStamp.Imported(Occurred.On(day), 5), issued, [Subject.Device(device.Id)], replaces);
        device.Certificates.RemoveAll(c => c.Fact == replaces);
        device.Certificates.Add(new(fact.Id, day, issued));
        if (replaces is not { } id || _stated.Find(id) is not { } target) return _stated.Add(fact);
        var isNew = false;
        foreach (var stated in CorrectionDecisions.InPlaceOf(target, fact, FactStamp.Imported(Occurred.On(day), 6)))
            isNew |= _stated.Add(stated);
        return isNew;
    }

    // Two changes of one day must stand in the order in which they were made, so a change counts on from what the register holds.
    private FactStamp Stamp(Occurred? occurred, int rank, DateOnly? changedOn = null) =>
        occurred is { } when ? FactStamp.Imported(when, rank)
            : FactStamp.Imported(Occurred.On(changedOn ?? Today), Register.Count + FirstChange + _stated.All.Count);

    private static string Where(string name, Sheet sheet) => sheet.Name.Length == 0 ? name : $"{name}, sheet {sheet.Name}";

    private sealed record Waiting(FileReport Report, int Order, Action Take);
}

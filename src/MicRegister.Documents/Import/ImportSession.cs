using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Documents.Import;

/// <summary>
/// Takes files in and works out, against a register, which facts their rows stand for. Nothing is stored: the facts are there
/// for whoever decides to. The same rows always stand for the same facts.
/// </summary>
public sealed partial class ImportSession
{
    /// <summary>Least number of a change that the import itself makes; facts of rows have the numbers below it.</summary>
    internal const int FirstChange = 100;

    private readonly SheetLimits _limits;
    private readonly List<Fact> _facts = [];
    private readonly HashSet<FactId> _ids = [];
    private readonly DeviceRows _devices;
    private readonly CampaignRows _campaigns;
    private readonly RuleRows _rules;
    private readonly TakenBackFacts _takenBack;
    private readonly List<string> _remarks = [];
    private FileReport? _report;

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
        _takenBack = new(register);
        _devices = new(this);
        _campaigns = new(this);
        _rules = new(this);
    }

    /// <summary>Facts of all rows that are good, in order.</summary>
    public IReadOnlyList<Fact> Facts => _facts;

    internal Register.Register Register { get; }

    internal DateOnly Today { get; }

    internal DeviceLookup Lookup { get; }

    /// <summary>Levels of the models in the table at hand and in the register.</summary>
    internal SiblingLevels Siblings { get; private set; } = SiblingLevels.None;

    /// <summary>Whether the table at hand holds results that only microphones have.</summary>
    internal bool IsOfSensitivities { get; private set; }

    internal StandingValues Standing { get; }

    /// <summary>As of which day the file speaks whose rows are taken.</summary>
    internal AsOfDay? AsOf => _report?.AsOf;

    /// <summary>Requirement profiles of the rows so far.</summary>
    internal HashSet<string> Profiles { get; } = new(StringComparer.Ordinal);

    /// <summary>Ids of devices that the table at hand names.</summary>
    internal IReadOnlySet<string> NamedIds { get; private set; } = new HashSet<string>();

    internal HashSet<string> Campaigns { get; } = new(StringComparer.Ordinal);

    /// <summary>Takes a file.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="mapping">What its headers do not say.</param>
    /// <param name="progress">Told from time to time how many rows are done.</param>
    /// <param name="cancel">Stops between two rows.</param>
    /// <exception cref="SheetException">The file as a whole cannot be read, or holds no table that is understood.</exception>
    public FileReport Take(Stream content, string name, ImportMapping mapping, IProgress<ImportProgress>? progress = null,
        CancellationToken cancel = default)
    {
        var report = _report = new FileReport(name);
        var before = _facts.Count;
        var tables = new List<(TableReading Table, Sheet Sheet, ImportMapping Rules)>();
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
            if (BesideTables.Holds(sheet.Name, rows))
            {
                report.Notices.Add($"{Where(name, sheet)}: it says what the other sheets hold; passed over.");
                continue;
            }
            var found = TableReading.Find(rows, sheet, rules);
            tables.AddRange(found.Select(table => (table, sheet, rules)));
            if (found.Count == 0 && rows.Count > 0) report.Notices.Add($"{Where(name, sheet)}: no header was understood in its first rows; the sheet was passed over.");
        }
        TableReading.SettleDates([.. tables.Select(t => t.Table)]);
        report.AsOf = AsOfDay.Stated(name, mapping, Today) ?? AsOfDay.Newest(tables.SelectMany(t => t.Table.Readers), Today, cancel);
        var total = tables.Sum(t => t.Table.Before.Count + t.Table.Rows.Count);
        progress?.Report(new(0, total));
        void Tell() => progress?.Report(new(report.Rows, total));
        foreach (var (table, sheet, rules) in tables) Take(table, sheet, rules, report, Tell, cancel);
        if (report.Tables == 0 && report.Questions.Count == 0)
            throw new SheetException($"{name} holds no table that is understood: a header needs a serial number, inventory code, station, campaign, limit or setting, and one column more. Other headers can be named in a mapping file.");
        _campaigns.Finish();
        _rules.Finish();
        report.Facts = _facts.Count - before;
        return report;
    }

    /// <summary>Says that rows wait to be told as of which day their file speaks.</summary>
    internal void AsksAsOf() => _report!.AsksAsOf = true;

    /// <summary>States a fact about a device, unless it is known.</summary>
    /// <returns>Whether it is new.</returns>
    /// <param name="body">What is stated.</param>
    /// <param name="occurred">The day that the row gives; null for a change that the import itself makes.</param>
    /// <param name="rank">Order among the facts of one day: a registration comes before a move.</param>
    /// <param name="device">Id of the device.</param>
    /// <param name="changedOn">The day of a change; null takes today.</param>
    internal bool State(FactBody body, Occurred? occurred, int rank, string device, DateOnly? changedOn = null) =>
        Add(FactText.WriteDerived(Stamp(occurred, rank, changedOn), body, [Subject.Device(device)]));

    internal bool StateCampaign(FactBody body, Occurred? occurred, int rank, string campaign, IReadOnlyList<string> devices) =>
        Add(FactText.WriteDerived(Stamp(occurred, rank), body,
            [Subject.Campaign(campaign), .. devices.Distinct(StringComparer.Ordinal).Select(Subject.Device)]));

    /// <summary>States a fact about a requirement profile or the register itself.</summary>
    internal bool StateRule(FactBody body, Occurred? occurred, int rank, string subject) =>
        Add(FactText.WriteDerived(Stamp(occurred, rank), body, [subject]));

    internal bool StateCertificate(PlannedDevice device, DateOnly day, CertificateIssued issued, FactId? replaces)
    {
        var fact = FactText.WriteDerived(FactStamp.Imported(Occurred.On(day), 5), issued, [Subject.Device(device.Id)], replaces);
        device.Certificates.RemoveAll(c => c.Fact == replaces);
        device.Certificates.Add(new(fact.Id, day, issued));
        if (replaces is not { } id || Find(id) is not { } target) return Add(fact);
        var isNew = false;
        foreach (var stated in CorrectionDecisions.InPlaceOf(target, fact, FactStamp.Imported(Occurred.On(day), 6))) isNew |= Add(stated);
        return isNew;
    }

    private Fact? Find(FactId id) =>
        Register.Find(id) is var at and > 0 ? Register.Source.Read(at) : _ids.Contains(id) ? _facts.Find(f => f.Id == id) : null;

    // Two changes of one day must stand in the order in which they were made, so a change counts on from what the register holds.
    private FactStamp Stamp(Occurred? occurred, int rank, DateOnly? changedOn = null) =>
        occurred is { } when ? FactStamp.Imported(when, rank)
            : FactStamp.Imported(Occurred.On(changedOn ?? Today), Register.Count + FirstChange + _facts.Count);

    private bool Add(Fact fact)
    {
        if (Register.Knows(fact.Id)) return AddAgain(fact);
        if (!_ids.Add(fact.Id)) return false;
        _facts.Add(fact);
        return true;
    }

    // What was taken back with its list comes back with it; what a person annulled by itself stays so.
    private bool AddAgain(Fact fact)
    {
        if (Register.Counts(Register.Find(fact.Id))) return false;
        var again = _takenBack.Again(fact.Id);
        if (again.Count > 0) Remark("was taken back before");
        else if (Register.TakenOutBy(fact.Id) is { } by && Find(by) is { Body: FactAnnulled })
            Remark("was annulled by somebody and stays so");
        var isNew = false;
        foreach (var counted in again.Where(a => _ids.Add(a.Id)))
        {
            _facts.Add(counted);
            isNew = true;
        }
        return isNew;
    }

    private void Remark(string text)
    {
        if (!_remarks.Contains(text)) _remarks.Add(text);
    }

    private RowOutcome Remarked(RowOutcome outcome)
    {
        if (_remarks.Count == 0) return outcome;
        var remarked = outcome with { Text = $"{outcome.Text} ({string.Join("; ", _remarks)})" };
        _remarks.Clear();
        return remarked;
    }

    private void Take(TableReading table, Sheet sheet, ImportMapping rules, FileReport report, Action tell, CancellationToken cancel)
    {
        report.Begin(sheet.Name, table.Header, table.Rows);
        foreach (var question in table.Questions) report.Ask(question);
        foreach (var row in table.Before) report.Add(new(sheet.Name, row.Number, RowSort.PassedOver, "before the header"), row);
        var (beside, into) = LongRows.Join(table);
        NamedIds = table.Header.Places.TryGetValue(Column.DeviceId, out var ids)
            ? table.Rows.Select(r => r.At(ids).Shown).ToHashSet(StringComparer.Ordinal) : new HashSet<string>();
        Siblings = SiblingLevels.Of(table, Register);
        IsOfSensitivities = table.IsOfSensitivities;
        var isFirst = true;
        // Where nobody knows which of two columns holds the results, no row can be taken.
        var waits = table.Header.Twice.Count > 0 || table.Questions.Any(q => q.Key.StartsWith("second ", StringComparison.Ordinal));
        foreach (var row in table.Rows)
        {
            cancel.ThrowIfCancellationRequested();
            if (isFirst && table.Header.TakeUnits(row)) continue;
            isFirst = false;
            if (into.TryGetValue(row.Number, out var result)) report.Add(new(sheet.Name, row.Number, RowSort.PassedOver,
                FormattableString.Invariant($"read with row {result}")), row);
            else if (waits) report.Add(new(sheet.Name, row.Number, RowSort.Questioned,
                "two columns may hold the same; the row waits until that is settled"), row);
            else if (row.IsHidden && rules.Of("hidden-rows") != "read") TakeHidden(row, sheet.Name, rules, report);
            else Report(Remarked(Take(table, row, beside.GetValueOrDefault(row.Number), sheet.Name, out var question)), row, question, report);
            if (report.Rows % 1000 == 0) tell();
        }
    }

    private static void TakeHidden(SheetRow row, string sheet, ImportMapping rules, FileReport report)
    {
        if (rules.Of("hidden-rows") == "leave-out") report.Add(new(sheet, row.Number, RowSort.PassedOver, "hidden; left out"), row);
        else Report(new(sheet, row.Number, RowSort.Questioned, "the row is hidden"), row, SheetQuestions.HiddenRows(sheet), report);
    }

    private static void Report(RowOutcome outcome, SheetRow row, ImportQuestion? question, FileReport report)
    {
        if (question is not null) report.Ask(question, outcome.Value);
        report.Add(question is null ? outcome : outcome with { Question = question.Key }, row);
    }

    private RowOutcome Take(TableReading table, SheetRow row, IReadOnlyDictionary<Column, string>? beside, string sheet, out ImportQuestion? question)
    {
        question = null;
        if (row.Fault is { } fault) return new(sheet, row.Number, RowSort.Refused, fault, null, row.At(0).Shown);
        if (table.TakeHeading(row) is { } heading) return new(sheet, row.Number, RowSort.PassedOver, heading);
        return Take(table.Reader(row, beside), sheet, out question);
    }

    private RowOutcome Take(RowReader row, string sheet, out ImportQuestion? question)
    {
        question = null;
        if (row.Header.IsRepeatedBy(row.Row)) return Passed(row, sheet, "the header again");
        if (IsNoRow(row) is { } why) return Passed(row, sheet, why);
        try
        {
            var beyond = row.Row.Cells.Skip(row.Header.Row.Cells.Length).FirstOrDefault(c => !c.IsBlank);
            if (!beyond.IsBlank) throw new RowProblem(RowSort.Refused,
                $"The row has more cells than the header ('{beyond.Shown}'); is a decimal comma taken for a separator?", null,
                beyond.Shown);
            var outcome = RowSubject.SortOf(row) switch
            {
                RowSubject.Limit => _rules.TakeLimit(row, sheet),
                RowSubject.Setting => _rules.TakeSetting(row, sheet),
                RowSubject.Station => _campaigns.TakeStation(row, sheet),
                RowSubject.Campaign => _campaigns.TakeCampaign(row, sheet),
                RowSubject.Kit => _campaigns.TakeKit(row, sheet),
                _ => _devices.TakeAll(row, sheet),
            };
            return outcome with { About = outcome.About ?? RowSubject.Of(row) };
        }
        catch (RowProblem problem)
        {
            question = problem.Question;
            var sort = question is null ? problem.Sort : RowSort.Questioned;
            return new(sheet, row.Row.Number, sort, problem.Message, problem.Header, problem.Value) { About = RowSubject.Of(row) };
        }
        catch (FormatException e)
        {
            return new(sheet, row.Row.Number, RowSort.Refused, e.Message) { About = RowSubject.Of(row) };
        }
    }

    // Totals and footnotes name no device and hold little else.
    private static string? IsNoRow(RowReader row)
    {
        var first = row.Row.Cells.FirstOrDefault(c => !c.IsBlank).Shown;
        if (IsSumWord(first)) return "a total";
        if (TableHeader.Naming.Any(c => row.Header.Places.ContainsKey(c) && row.Text(c) is not null)
            || row.Header.Devices.Any(d => row.Of(d).Text(Column.Serial) is not null)) return null;
        if (IsSum(first)) return "a total";
        if (PageWords().IsMatch(FoldedText.Of(first)) && row.Row.Cells.Count(c => !c.IsBlank) <= 3) return "a footer";
        return row.Row.Cells.Select(c => c.Shown).Where(s => s.Length > 0).Distinct().Count() == 1 ? "a title or a footnote" : null;
    }

    private static bool IsSumWord(string text) => Column.Plain(text) is "total" or "sum" or "totals" or "summe" or "gesamt" or "count" or "anzahl"
        or "totale" or "totaal" or "suma" or "somme" or "somma" or "som" or "totaux" or "nombre" or "aantal" or "numero" or "subtotal";

    /// <summary>Whether a lone text is a total or a footer, and no heading.</summary>
    internal static bool IsNoHeading(string text) => IsSum(text) || PageWords().IsMatch(FoldedText.Of(text));

    private static bool IsSum(string text) => IsSumWord(text)
        || (Column.Plain(text).IndexOf(' ', StringComparison.Ordinal) is var blank and > 0 && IsSumWord(Column.Plain(text)[..blank]));

    [GeneratedRegex(@"^(?:page|seite|pagina|pag\.?|blad|bladzijde|printed|gedruckt|imprime|impreso|stampato|afgedrukt|stand|version|rev)(?![a-z])")]
    private static partial Regex PageWords();

    private static RowOutcome Passed(RowReader row, string sheet, string why) => new(sheet, row.Row.Number, RowSort.PassedOver, why);

    private static string Where(string name, Sheet sheet) => sheet.Name.Length == 0 ? name : $"{name}, sheet {sheet.Name}";
}

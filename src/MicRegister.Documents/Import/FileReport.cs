using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>What became of a file, row by row.</summary>
public sealed class FileReport(string name)
{
    private readonly List<RowOutcome> _outcomes = [];
    private readonly List<AsideTable> _aside = [];
    private readonly List<ImportQuestion> _questions = [];
    private readonly int[] _counts = new int[Enum.GetValues<RowSort>().Length];

    public string Name { get; } = name;

    /// <summary>One outcome a row, in order.</summary>
    public IReadOnlyList<RowOutcome> Outcomes => _outcomes;

    /// <summary>What people should know beside the rows: sheets passed over, columns not understood.</summary>
    public List<string> Notices { get; } = [];

    /// <summary>How many new facts its rows stand for.</summary>
    public int Facts { get; internal set; }

    public int Rows => _outcomes.Count;

    /// <summary>Tables that were understood.</summary>
    public int Tables => _aside.Count;

    /// <summary>Whether every row is good.</summary>
    public bool IsGood => _questions.Count == 0 && Count(RowSort.Questioned) == 0 && Count(RowSort.Refused) == 0 && Problems.Count == 0;

    /// <summary>
    /// What only a person can say, each asked once; those of the table before those of rows. Columns that are not understood are one
    /// question, and so are words that are not known (<see cref="ImportQuestion.Parts"/>).
    /// </summary>
    public IReadOnlyList<ImportQuestion> Questions => QuestionForms.Of(_questions);

    /// <summary>Whether a question concerns whole columns, so that rows taken before its answer would lack what they say.</summary>
    public bool AsksOfColumns => _questions.Any(q => q.Key.StartsWith("column ", StringComparison.Ordinal) || q.Key.StartsWith("second ",
        StringComparison.Ordinal) || q.Key == "serial");

    /// <summary>Whether a column that nobody understands yet may hold what devices are known by.</summary>
    internal bool MayMissNames => _questions.Any(q => q.MayName);

    /// <summary>What would be lost of the table as a whole: columns whose header stands twice.</summary>
    public List<string> Problems { get; } = [];

    /// <summary>As of which day it speaks; null where nobody stated it and it holds no date.</summary>
    public AsOfDay? AsOf { get; internal set; }

    /// <summary>Whether rows wait to be told as of which day it speaks (<see cref="AsOfDay.Question"/>).</summary>
    public bool AsksAsOf { get; internal set; }

    /// <summary>How many rows say otherwise than what the register holds of a later day; that was left as it stands.</summary>
    public int Newer { get; private set; }

    /// <summary>Rows put aside, with their headers, to be mended.</summary>
    internal IReadOnlyList<AsideTable> Aside => _aside;

    /// <summary>How many rows of a table were put aside.</summary>
    public int PutAside(int table) => _aside[table].Rows.Count;

    public int Count(RowSort sort) => _counts[(int)sort];

    /// <summary>What each column was taken for, table by table.</summary>
    public IEnumerable<UnderstoodColumn> Understood => Read.SelectMany(t => t.Columns);

    /// <summary>The tables that were read, each with its first rows.</summary>
    public List<ReadTable> Read { get; } = [];

    /// <summary>By what its tables are known again (<see cref="TableShape"/>).</summary>
    public List<string> Shape { get; } = [];

    /// <summary>As much as it holds now, to come back to before rows are taken again.</summary>
    internal Action Mark()
    {
        var (rows, aside, asked, notices, problems, read, shape, own, asksAsOf) = (_outcomes.Count, _aside.Count, _questions.Count,
            Notices.Count, Problems.Count, Read.Count, Shape.Count, Own.Count, AsksAsOf);
        return () =>
        {
            foreach (var gone in _outcomes.Skip(rows))
            {
                _counts[(int)gone.Sort]--;
                if (gone.NewerStands) Newer--;
            }
            Cut(_outcomes, rows);
            Cut(_aside, aside);
            Cut(_questions, asked);
            Cut(Notices, notices);
            Cut(Problems, problems);
            Cut(Read, read);
            Cut(Shape, shape);
            Cut(Own, own);
            AsksAsOf = asksAsOf;
        };

        static void Cut<T>(List<T> list, int count) => list.RemoveRange(count, list.Count - count);
    }

    internal void Begin(string sheet, TableHeader header, IReadOnlyList<Sheets.SheetRow> rows)
    {
        _aside.Add(new(header));
        Read.Add(ReadTable.Of(sheet, header, rows));
        Shape.Add(TableShape.Of(sheet, header.Row));
        var where = Name + (sheet.Length > 0 ? ", sheet " + sheet : "");
        if (header.LeftOut.Count > 0) Notices.Add($"{where}: left out, of no use here: {string.Join(", ", header.LeftOut.Select(i => header.Row.At(i).Shown))}.");
        if (header.Noted.Count > 0) Notices.Add($"{where}: kept as notes of the devices: {string.Join(", ", header.Noted.Select(i => header.Row.At(i).Shown))}.");
        if (header.Guessed.Count > 0) Notices.Add($"{where}: taken by likeness: {string.Join(", ", header.Guessed.Select(g => $"{header.Row.At(g.Column).Shown} = {g.Meaning}"))}.");
        if (header.Twice.Count > 0) Problems.Add($"{Name}{(sheet.Length > 0 ? ", sheet " + sheet : "")}: these headers stand twice, so that their second columns would be lost: {string.Join(", ", header.Twice)}. Give each result a row of its own, or name the columns apart.");
    }

    internal void Begin(DiaryTable table)
    {
        _aside.Add(new(table.Header));
        Read.Add(ReadTable.Of(table.Sheet, [.. table.Understood()], table.Rows));
        Shape.Add(TableShape.Of(table.Sheet, table.Header.Row));
        var where = Name + (table.Sheet.Length > 0 ? ", sheet " + table.Sheet : "");
        string Named(IEnumerable<int> places) => string.Join(", ", places.Select(i => table.Header.Row.At(i).Shown));
        Notices.Add($"{where}: a table of {table.Sort.Name}.");
        if (table.Header.LeftOut.Count > 0) Notices.Add($"{where}: left out, of no use here: {Named(table.Header.LeftOut)}.");
        if (table.Header.Noted.Count > 0) Notices.Add($"{where}: kept in the remarks: {Named(table.Header.Noted)}.");
        if (table.Sort.PassesOver && table.Unknown.Count > 0) Notices.Add($"{where}: passed over, not known: {Named(table.Unknown)}.");
        foreach (var question in table.Questions()) Ask(question);
        if (table.RemarkOfDays is { } days) Notices.Add($"{where}: {days}");
    }

    /// <summary>The new facts that its rows stand for, as far as no other file states them.</summary>
    public IReadOnlyList<Register.Facts.Fact> Stated => Own;

    internal List<Register.Facts.Fact> Own { get; } = [];

    internal void Ask(ImportQuestion question)
    {
        if (Known(question) is null) _questions.Add(question);
    }

    internal void Ask(ImportQuestion question, string? example)
    {
        var known = Known(question);
        if (known is null) _questions.Add(known = question);
        known.Seen(example);
    }

    // What is asked alike of two sheets is asked once of the file.
    private ImportQuestion? Known(ImportQuestion question)
    {
        var at = _questions.FindIndex(q => q.Key == question.Key && (q.Sheet == question.Sheet || question.IsOfAllSheets));
        if (at < 0) return null;
        if (_questions[at].Sheet == question.Sheet || _questions[at].Sheet.Length == 0) return _questions[at];
        return _questions[at] = _questions[at] with { Sheet = "" };
    }

    internal void Add(RowOutcome outcome, SheetRow row)
    {
        _outcomes.Add(outcome);
        _counts[(int)outcome.Sort]++;
        if (outcome.NewerStands) Newer++;
        if (outcome.Sort is RowSort.Questioned or RowSort.Refused) _aside[^1].Rows.Add((row, outcome));
    }
}

internal sealed record AsideTable(TableHeader Header)
{
    public List<(SheetRow Row, RowOutcome Outcome)> Rows { get; } = [];
}

using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>What became of a file, row by row.</summary>
public sealed class FileReport(string name)
{
    private readonly List<RowOutcome> _outcomes = [];
    private readonly List<AsideTable> _aside = [];
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
    public bool IsGood => Count(RowSort.Questioned) == 0 && Count(RowSort.Refused) == 0 && Problems.Count == 0;

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

    internal void Begin(string sheet, TableHeader header)
    {
        _aside.Add(new(header));
        var unread = header.Row.Cells.Where((c, i) => !c.IsBlank && !header.Places.Values.Contains(i) && header.Years.All(y => y.Column != i) && !header.Twice.Contains(c.Shown)).Select(c => c.Shown).ToList();
        if (unread.Count > 0) Notices.Add($"{Name}{(sheet.Length > 0 ? ", sheet " + sheet : "")}: not read, since their headers are not understood: {string.Join(", ", unread)}.");
        if (header.Twice.Count > 0) Problems.Add($"{Name}{(sheet.Length > 0 ? ", sheet " + sheet : "")}: these headers stand twice, so that their second columns would be lost: {string.Join(", ", header.Twice)}. Give each result a row of its own, or name the columns apart.");
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

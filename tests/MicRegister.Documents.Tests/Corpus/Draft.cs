namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A file before it is written: sheets, and how a text file is written.</summary>
internal sealed class Draft(string shape, Tongue tongue, IReadOnlyList<Grid> grids)
{
    public string Shape { get; } = shape;

    public Tongue Tongue { get; } = tongue;

    public IReadOnlyList<Grid> Grids { get; } = grids;

    /// <summary>Whether it becomes a workbook.</summary>
    public bool IsWorkbook { get; init; }

    public bool Uses1904 { get; init; }

    /// <summary>Whether it needs a person as a whole, as a table with one column a device.</summary>
    public bool NeedsPerson { get; init; }

    public char Separator { get; set; } = tongue == Tongue.English ? ',' : ';';

    public TextCode Code { get; set; } = TextCode.Utf8;

    /// <summary>Whether its first line tells the separator.</summary>
    public bool HasHint { get; set; }

    /// <summary>Whether quotes inside a cell stay as they are.</summary>
    public bool LeavesQuotes { get; set; }

    /// <summary>What was done to it; null for nothing.</summary>
    public string? Damage { get; set; }

    /// <summary>The lines that the damage changed.</summary>
    public IReadOnlyList<string> Touched { get; set; } = [];

    public IEnumerable<string> Written =>
        Grids.SelectMany(g => g.Lines).Select(l => string.Join(" | ", l.Cells.Select(c => c.IsUnworked ? "=formula" : c.Text)));

    /// <summary>Whether the damage is a thing that only a person can settle.</summary>
    public bool IsForPerson { get; set; }

    public IEnumerable<Line> Data => Grids.Where(g => !g.IsDoubtful).SelectMany(g => g.Lines).Where(l => l.Sort == LineSort.Data);
}

/// <summary>How a text file is coded.</summary>
internal enum TextCode
{
    Utf8,
    Utf8WithMark,
    Utf16,
    Windows1252,

    /// <summary>UTF-8, but for one line that came from elsewhere.</summary>
    Mixed,
}

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What a cell can say, and what a column is headed for.</summary>
internal enum Said
{
    Kind, Maker, Model, Serial, Code, Status, Place, Size,
    Day, Year, Value, U, K, Lab, Number, Hz, Pressure, Temperature, Humidity, Due,

    /// <summary>The value once more, in another unit: either may be stored.</summary>
    Again,

    // Headers of what is no truth of its own.
    Unit, Quantity, Result, Level, Nominal, Remark, Price, Key, Bought, Initials,
}

/// <summary>A value as a file says it: a text, or a number with its unit.</summary>
internal readonly record struct Stated(string? Text, double? Number = null, string? Unit = null)
{
    /// <summary>What a damaged cell says: whatever is made of it is no one's fault.</summary>
    public static Stated Anything { get; } = new("anything");

    public override string ToString() => Number is { } n ? FormattableString.Invariant($"{n} {Unit}").TrimEnd() : Text ?? "nothing";
}

/// <summary>One truth that a cell tells.</summary>
internal sealed record Meaning(Said What, Instrument Owner, Calibrated? Of, Stated Value);

/// <summary>How a workbook shows a number.</summary>
internal enum Shown
{
    Plain,
    Day,
}

/// <summary>A cell: what stands there, and what it means.</summary>
internal sealed record Cell(string Text, params Meaning[] Means)
{
    public static Cell Blank { get; } = new("");

    /// <summary>The number that a workbook holds; null where it holds a text.</summary>
    public double? Typed { get; init; }

    public Shown Shown { get; init; }

    /// <summary>A formula that no program has worked out.</summary>
    public bool IsUnworked { get; init; }

    /// <summary>Whether what it says can only be settled by a person.</summary>
    public bool IsDoubtful { get; init; }

    public bool Says(Said what) => Means.Any(m => m.What == what);
}

/// <summary>What a line of a table is.</summary>
internal enum LineSort
{
    Other,
    Header,
    Data,
}

/// <summary>A line of a sheet.</summary>
internal sealed class Line(LineSort sort, IEnumerable<Cell> cells)
{
    public LineSort Sort { get; } = sort;

    public List<Cell> Cells { get; } = [.. cells];

    public bool IsHidden { get; init; }

    /// <summary>What its place says without a cell of its own: a kind by the heading above, a unit by the title.</summary>
    public List<Meaning> Implied { get; } = [];

    public static Line Of(params string[] texts) => new(LineSort.Other, texts.Select(t => new Cell(t)));

    public Line Implying(IEnumerable<Meaning> meanings)
    {
        Implied.AddRange(meanings);
        return this;
    }

    public Line Copy()
    {
        var copy = new Line(Sort, Cells) { IsHidden = IsHidden };
        copy.Implied.AddRange(Implied);
        return copy;
    }
}

/// <summary>A sheet as it is laid out.</summary>
internal sealed class Grid(string name)
{
    public string Name { get; } = name;

    public bool IsHidden { get; init; }

    /// <summary>Whether only a person can say that it counts; what it says otherwise must not be taken over.</summary>
    public bool IsDoubtful { get; init; }

    public List<Line> Lines { get; } = [];

    /// <summary>Ranges that are merged, such as A1:F1.</summary>
    public List<string> Merges { get; } = [];

    public void Add(params string[] texts) => Lines.Add(Line.Of(texts));

    public void Blank() => Lines.Add(Line.Of());
}

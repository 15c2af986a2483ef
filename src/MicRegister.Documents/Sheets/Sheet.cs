namespace MicRegister.Documents.Sheets;

/// <summary>One table of a file: its name and its rows, which are read as they are asked for and only once.</summary>
/// <param name="Name">Name of the sheet; empty for a text file.</param>
/// <param name="Rows">Rows in order; blank ones may be left out.</param>
public sealed record Sheet(string Name, IEnumerable<SheetRow> Rows)
{
    /// <summary>Whether the workbook hides it.</summary>
    public bool IsHidden { get; init; }

    /// <summary>Whether its days are counted from 1904.</summary>
    public bool Uses1904 { get; init; }

    /// <summary>What was put right while reading, such as a second encoding; whole once the rows are read.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];
}

/// <param name="Number">Row number from 1, as a spreadsheet shows it; in a text file the line on which the row begins.</param>
/// <param name="Cells">Cells from the first column on.</param>
/// <param name="IsHidden">Whether the workbook hides it.</param>
/// <param name="Fault">Why its cells cannot be told apart; null for a good row.</param>
public readonly record struct SheetRow(int Number, Cell[] Cells, bool IsHidden = false, string? Fault = null)
{
    /// <summary>Whether most of its texts are struck through.</summary>
    public bool IsStruck { get; init; }

    public bool IsBlank => Cells.All(c => c.IsBlank);

    public Cell At(int column) => column < Cells.Length ? Cells[column] : default;
}

/// <summary>A cell as it is stored: no type is guessed. The default is a blank one.</summary>
/// <param name="Text">The stored text, without outer blanks; of a number its digits.</param>
/// <param name="Day">The day, where a spreadsheet formats the number as a date.</param>
/// <param name="IsOfToday">Whether a formula gave it that gives another day tomorrow.</param>
public readonly record struct Cell(string? Text, DateOnly? Day = null, bool IsOfToday = false)
{
    /// <summary>What stands in a cell whose formula was saved without its value.</summary>
    public const string NoStoredValue = "#formula without a stored value";

    /// <summary>Whether the file stores it as a number, so that its decimal mark can be no mark of thousands.</summary>
    public bool IsNumber { get; init; }

    public bool IsBlank => string.IsNullOrEmpty(Text);

    /// <summary>As people would write it: a date as a date.</summary>
    public string Shown => Day?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture) ?? Text ?? "";
}

/// <summary>A file cannot be read; the message names the file, and the sheet and row where there are any.</summary>
public sealed class SheetException : Exception
{
    public SheetException(string message)
        : base(message)
    {
    }

    public SheetException(string message, Exception inner)
        : base(message, inner)
    {
    }

    public SheetException()
    {
    }
}

/// <summary>How much a file may hold, so that none can take all memory or time.</summary>
/// <param name="FileBytes">Size of the file.</param>
/// <param name="UnpackedBytes">Size of what a packed file unpacks to, all parts together.</param>
/// <param name="Rows">Rows of a sheet.</param>
/// <param name="Columns">Columns of a row.</param>
/// <param name="CellCharacters">Characters of a cell.</param>
/// <param name="TextCharacters">Characters of all shared texts of a workbook.</param>
public sealed record SheetLimits(
    long FileBytes = 256L << 20, long UnpackedBytes = 400L << 20, int Rows = 1_100_000, int Columns = 500, int CellCharacters = 10_000,
        long TextCharacters = 64L << 20)
{
    public static SheetLimits Usual { get; } = new();
}

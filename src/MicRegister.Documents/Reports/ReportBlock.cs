using MicRegister.Documents.Drawings;

namespace MicRegister.Documents.Reports;

/// <summary>A part of a report, in the order in which it is read; <see cref="ReportPages"/> gives it its place.</summary>
public abstract record ReportBlock;

/// <summary>A heading; it stands on the page of what follows it.</summary>
/// <param name="Level">1 for a section; 2 and more for what is below.</param>
/// <param name="Text">Its words.</param>
public sealed record ReportHeading(int Level, string Text) : ReportBlock;

/// <summary>A paragraph; a line feed in it begins a line.</summary>
public sealed record ReportText(string Text) : ReportBlock;

/// <summary>A table.</summary>
/// <param name="Caption">What it shows; empty for none.</param>
/// <param name="Head">Names of the columns, with their units: 1 to <see cref="MostColumns"/>.</param>
/// <param name="Rows">Cells by row; a row that is shorter than the head ends with empty cells.</param>
public sealed record ReportTable(string Caption, IReadOnlyList<string> Head, IReadOnlyList<IReadOnlyList<string>> Rows) : ReportBlock
{
    /// <summary>More columns leave none wide enough to be read on a page.</summary>
    public const int MostColumns = 16;
}

/// <summary>A drawing, made as wide as the text at most.</summary>
/// <param name="Drawing">The drawing.</param>
/// <param name="Caption">What it shows; empty for none.</param>
public sealed record ReportFigure(Drawing Drawing, string Caption) : ReportBlock;

/// <summary>What follows begins a page of its own.</summary>
public sealed record ReportTurn : ReportBlock;

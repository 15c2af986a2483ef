using MicRegister.Documents.Drawings;

namespace MicRegister.Documents.Reports;

/// <summary>What is never parted between two pages, such as a line or a row.</summary>
/// <param name="BeforeMm">Room above it, which it does not need at the top of a page.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="KeepsNext">Whether it stands on the page of the next one.</param>
/// <param name="Draw">Draws it from a height on a page downward.</param>
/// <param name="Head">What is drawn above it again where it begins a page.</param>
internal sealed record ReportPiece(double BeforeMm, double HeightMm, bool KeepsNext, Action<List<Shape>, double> Draw, ReportPiece? Head = null)
{
    /// <summary>Whether what follows begins a page; it has no height itself.</summary>
    public bool Turns { get; init; }

    /// <summary>Height of a line in the size of its type.</summary>
    public const double LineHeight = 1.35;

    /// <summary>Lines over the whole width of the text; the first two and the last two of a paragraph stay together.</summary>
    public static IEnumerable<ReportPiece> Lines(Role role, string text, double sizeMm, double beforeMm, bool keepsNext)
    {
        var lines = TextWidth.Lines(text, sizeMm, ReportPages.TextWidthMm);
        for (var i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            var keeps = keepsNext || (lines.Count > 1 && (i == 0 || i == lines.Count - 2));
            yield return new(i == 0 ? beforeMm : 0, sizeMm * LineHeight, keeps, (shapes, y) => shapes.Add(new Label(role, ReportPages.MarginMm, y + sizeMm, line, -1, sizeMm)));
        }
    }
}

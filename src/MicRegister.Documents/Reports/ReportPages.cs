using System.Globalization;
using MicRegister.Documents.Drawings;

namespace MicRegister.Documents.Reports;

/// <summary>Puts the blocks of a report on pages: A4 upright, plain drawings in millimetres that any painter paints.</summary>
public static class ReportPages
{
    /// <summary>Width of a page.</summary>
    public const double PageWidthMm = 210;

    /// <summary>Height of a page.</summary>
    public const double PageHeightMm = 297;

    /// <summary>What stays white on all four sides.</summary>
    public const double MarginMm = 18;

    /// <summary>Most lines of the foot.</summary>
    public const int MostFootLines = 6;

    internal const double TextWidthMm = PageWidthMm - (2 * MarginMm);

    private const double TitleMm = 6.4;
    private const double TextMm = 3.4;
    private const double CaptionMm = 2.8;
    private const double FootMm = 2.6;
    private const double NumberMm = 36;

    /// <summary>Greatest share of a page's height that a row or a figure takes, so that what leads to it has room above it.</summary>
    private const double MostShare = 0.6;

    /// <summary>Draws the pages.</summary>
    /// <param name="title">Stands above the first page, and is the title of the document.</param>
    /// <param name="foot">Stands at the foot of each page beside its number; at most <see cref="MostFootLines"/> lines.</param>
    /// <param name="blocks">What is to be read, in order; none makes a page with the title alone.</param>
    /// <returns>At least one page.</returns>
    /// <exception cref="ArgumentException">The foot is too long, or a table has too many columns or a row with more cells than its head.</exception>
    public static IReadOnlyList<Drawing> Of(string title, string foot, IReadOnlyList<ReportBlock> blocks)
    {
        var footLines = TextWidth.Lines(foot, FootMm, TextWidthMm - NumberMm);
        if (footLines.Count > MostFootLines) throw new ArgumentException($"The foot takes {footLines.Count} lines: allowed are at most {MostFootLines}.", nameof(foot));
        var bottom = PageHeightMm - MarginMm - (Math.Max(1, footLines.Count) * FootMm * ReportPiece.LineHeight) - 4;
        var mostMm = (bottom - MarginMm) * MostShare;
        List<ReportPiece> pieces = [.. ReportPiece.Lines(Role.Ink, title, TitleMm, 0, keepsNext: blocks.Count > 0), .. blocks.SelectMany(b => Pieces(b, mostMm))];
        var pages = Filled(pieces, bottom);
        for (var i = 0; i < pages.Count; i++) AddFoot(pages[i], footLines, $"page {i + 1} of {pages.Count}");
        return [.. pages.Select((shapes, i) => new Drawing(PageWidthMm, PageHeightMm, i == 0 ? title : string.Create(CultureInfo.InvariantCulture, $"{title}, page {i + 1}"), shapes))];
    }

    private static IEnumerable<ReportPiece> Pieces(ReportBlock block, double mostMm) => block switch
    {
        ReportHeading { Level: <= 1 } h => ReportPiece.Lines(Role.Ink, h.Text, 5, 7, keepsNext: true),
        ReportHeading h => ReportPiece.Lines(Role.Ink, h.Text, h.Level == 2 ? 4.2 : 3.8, 5, keepsNext: true),
        ReportText t => ReportPiece.Lines(Role.Ink, t.Text, TextMm, 2.5, keepsNext: false),
        ReportTable t => ReportPiece.Lines(Role.Quiet, t.Caption, CaptionMm, 4, keepsNext: true).Concat(ReportGrid.Pieces(t, mostMm * 0.6)),
        ReportFigure f => Figure(f, mostMm),
        ReportTurn => [new(0, 0, false, (_, _) => { }) { Turns = true }],
        _ => throw new ArgumentException($"{block.GetType().Name} is no block that can be drawn.", nameof(block)),
    };

    private static IEnumerable<ReportPiece> Figure(ReportFigure figure, double mostMm)
    {
        var drawing = figure.Drawing;
        var scale = Math.Min(1, Math.Min(TextWidthMm / drawing.WidthMm, mostMm / drawing.HeightMm));
        var left = MarginMm + ((TextWidthMm - (drawing.WidthMm * scale)) / 2);
        List<ReportPiece> caption = [.. ReportPiece.Lines(Role.Quiet, figure.Caption, CaptionMm, 1.5, keepsNext: false)];
        yield return new(4, drawing.HeightMm * scale, caption.Count > 0, (shapes, y) => shapes.AddRange(drawing.Shapes.Select(s => Moved(s, left, y, scale))));
        foreach (var line in caption) yield return line;
    }

    private static Shape Moved(Shape shape, double left, double top, double scale) => shape switch
    {
        Line line => line with { Points = [.. line.Points.Select(p => (left + (p.X * scale), top + (p.Y * scale)))] },
        Label label => Within(label with { X = left + (label.X * scale), Y = top + (label.Y * scale), SizeMm = label.SizeMm * scale }),
        Mark mark => mark with { X = left + (mark.X * scale), Y = top + (mark.Y * scale), SizeMm = mark.SizeMm * scale },
        _ => shape,
    };

    // A long name at the edge of a figure would run over the margin: it moves inward, and shrinks where it is wider than the page.
    private static Label Within(Label label)
    {
        var width = TextWidth.Mm(label.Text, label.SizeMm);
        if (width > TextWidthMm) (label, width) = (label with { SizeMm = label.SizeMm * TextWidthMm / width }, TextWidthMm);
        var begin = label.X - (width * (label.Align + 1) / 2);
        return label with { X = label.X + Math.Clamp(begin, MarginMm, MarginMm + TextWidthMm - width) - begin };
    }

    private static List<List<Shape>> Filled(List<ReportPiece> pieces, double bottom)
    {
        const double Rounding = 1e-6;
        List<List<Shape>> pages = [[]];
        var y = MarginMm;
        for (var i = 0; i < pieces.Count;)
        {
            if (pieces[i].Turns)
            {
                if (++i < pieces.Count && y > MarginMm) Turn(pieces[i]);
                continue;
            }
            var end = i;
            while (pieces[end].KeepsNext && end + 1 < pieces.Count) end++;
            // What belongs together goes over as a whole; only what is more than a page is parted.
            if (y > MarginMm && y + pieces.Skip(i).Take(end - i + 1).Sum(p => p.BeforeMm + p.HeightMm) > bottom + Rounding) Turn(pieces[i]);
            for (; i <= end; i++)
            {
                if (y > MarginMm && y + pieces[i].BeforeMm + pieces[i].HeightMm > bottom + Rounding) Turn(pieces[i]);
                if (y > MarginMm) y += pieces[i].BeforeMm;
                pieces[i].Draw(pages[^1], y);
                y += pieces[i].HeightMm;
            }
        }
        return pages;

        void Turn(ReportPiece next)
        {
            pages.Add([]);
            y = MarginMm;
            if (next.Head is not { } head) return;
            head.Draw(pages[^1], y);
            y += head.HeightMm;
        }
    }

    private static void AddFoot(List<Shape> shapes, List<string> lines, string number)
    {
        var count = Math.Max(1, lines.Count);
        var last = PageHeightMm - MarginMm - (FootMm * (ReportPiece.LineHeight - 1));
        var top = PageHeightMm - MarginMm - (count * FootMm * ReportPiece.LineHeight) - 1;
        shapes.Add(new Line(Role.Grid, [(MarginMm, top), (PageWidthMm - MarginMm, top)]));
        for (var i = 0; i < lines.Count; i++)
            shapes.Add(new Label(Role.Quiet, MarginMm, last - ((lines.Count - 1 - i) * FootMm * ReportPiece.LineHeight), lines[i], -1, FootMm));
        shapes.Add(new Label(Role.Quiet, PageWidthMm - MarginMm, last, number, 1, FootMm));
    }
}

using System.Text;
using MicRegister.Documents.Drawings;

namespace MicRegister.Documents.Labels;

/// <summary>Label sheets as files.</summary>
public static class LabelFile
{
    /// <summary>Writes pages.</summary>
    /// <param name="pages">At least one.</param>
    /// <param name="ending">.pdf, .svg or .png.</param>
    /// <param name="dotsPerInch">Resolution of a picture.</param>
    /// <param name="to">Stream that can be written; it stays open.</param>
    /// <exception cref="ArgumentException">Several pages in a format that holds one, or a format that is none of these.</exception>
    public static void Write(IReadOnlyList<Drawing> pages, string ending, int dotsPerInch, Stream to)
    {
        if (ending != ".pdf" && pages.Count > 1) throw new ArgumentException($"The labels fill {pages.Count} pages; a file {ending} holds one. Take PDF.", nameof(pages));
        switch (ending)
        {
            case ".pdf":
                PdfPainter.Paint(pages, to);
                break;
            case ".svg":
                to.Write(Encoding.UTF8.GetBytes(SvgPainter.Paint(pages[0])));
                break;
            case ".png":
                PngPainter.Paint(pages[0], dotsPerInch, to);
                break;
            default:
                throw new ArgumentException($"Format '{ending}': allowed are .pdf, .svg and .png.", nameof(ending));
        }
    }
}

using MicRegister.Documents.Fonts;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace MicRegister.Documents.Drawings;

/// <summary>Paints a drawing as a PDF of its own size, in black and colours that keep their meaning in black and white.</summary>
public static class PdfPainter
{
    private static readonly XColor Ink = XColor.FromArgb(0x16, 0x20, 0x2a);
    private static readonly XColor Quiet = XColor.FromArgb(0x55, 0x62, 0x6f);
    private static readonly XColor Faint = XColor.FromArgb(0xd5, 0xdb, 0xe1);

    static PdfPainter() => GlobalFontSettings.FontResolver ??= new OwnFonts();

    /// <summary>Paints.</summary>
    /// <param name="drawing">The drawing, in millimetres.</param>
    /// <param name="to">Stream that can be written; it stays open.</param>
    public static void Paint(Drawing drawing, Stream to)
    {
        Paint([drawing], to);
    }

    /// <summary>Paints several drawings, a page each.</summary>
    /// <param name="drawings">At least one; the first one's title is the document's.</param>
    /// <param name="to">Stream that can be written; it stays open.</param>
    public static void Paint(IReadOnlyList<Drawing> drawings, Stream to)
    {
        using var document = new PdfDocument();
        document.Info.Title = drawings[0].Title;
        foreach (var drawing in drawings)
        {
            var page = document.AddPage();
            page.Width = XUnit.FromMillimeter(drawing.WidthMm);
            page.Height = XUnit.FromMillimeter(drawing.HeightMm);
            using var canvas = XGraphics.FromPdfPage(page);
            foreach (var shape in drawing.Shapes) Paint(canvas, shape);
        }
        document.Save(to, closeStream: false);
    }

    private static void Paint(XGraphics canvas, Shape shape)
    {
        switch (shape)
        {
            case Line line:
                XPoint[] points = [.. line.Points.Select(p => At(p.X, p.Y))];
                if (points.Length < 2) break;
                if (line.IsArea) canvas.DrawPolygon(new XSolidBrush(Fill(line.Role)), points, XFillMode.Winding);
                else canvas.DrawLines(Pen(line.Role), points);
                break;
            case Label label:
                var font = new XFont(OwnFonts.Family, Mm(label.SizeMm), XFontStyleEx.Regular);
                var format = label.Align switch { < 0 => XStringFormats.BaseLineLeft, 0 => XStringFormats.BaseLineCenter, _ => XStringFormats.BaseLineRight };
                canvas.DrawString(label.Text, font, new XSolidBrush(label.Role == Role.Quiet ? Quiet : Ink), At(label.X, label.Y), format);
                break;
            case Mark mark:
                Paint(canvas, mark);
                break;
        }
    }

    private static void Paint(XGraphics canvas, Mark mark)
    {
        var h = mark.SizeMm / 2;
        XPoint P(double dx, double dy) => At(mark.X + (dx * h), mark.Y + (dy * h));
        var isHollow = mark.Role is Role.Check or Role.Annulled or Role.Undecided;
        var pen = new XPen(Color(mark.Role), Mm(0.4));
        var brush = isHollow ? null : new XSolidBrush(Color(mark.Role));
        switch (mark.Form)
        {
            case MarkForm.Disc when brush is null: canvas.DrawEllipse(pen, new XRect(P(-1, -1), P(1, 1))); break;
            case MarkForm.Disc: canvas.DrawEllipse(brush!, new XRect(P(-1, -1), P(1, 1))); break;
            case MarkForm.Cross:
                canvas.DrawLine(pen, P(-1, -1), P(1, 1));
                canvas.DrawLine(pen, P(1, -1), P(-1, 1));
                break;
            case MarkForm.Plus:
                canvas.DrawLine(pen, P(-1, 0), P(1, 0));
                canvas.DrawLine(pen, P(0, -1), P(0, 1));
                break;
            default:
                XPoint[] corners = mark.Form switch
                {
                    MarkForm.Triangle => [P(0, -1), P(1, 1), P(-1, 1)],
                    MarkForm.Square => [P(-1, -1), P(1, -1), P(1, 1), P(-1, 1)],
                    _ => [P(0, -1), P(1, 0), P(0, 1), P(-1, 0)],
                };
                if (brush is null) canvas.DrawPolygon(pen, corners);
                else canvas.DrawPolygon(brush, corners, XFillMode.Winding);
                break;
        }
    }

    private static XPen Pen(Role role)
    {
        var pen = new XPen(Color(role), Mm(role is Role.Grid or Role.Value ? 0.2 : 0.3));
        if (role is Role.Limit or Role.Forecast or Role.Change) pen.DashPattern = role == Role.Change ? [2, 2] : [5, 3];
        return pen;
    }

    private static XColor Color(Role role) => role switch
    {
        Role.Grid => Faint,
        Role.Quiet or Role.Annulled or Role.Check or Role.Span => Quiet,
        Role.Limit or Role.Stop => XColor.FromArgb(0xa3, 0x18, 0x2a),
        Role.Band or Role.Forecast or Role.Undecided => XColor.FromArgb(0x2a, 0x4d, 0x8f),
        Role.Ready => XColor.FromArgb(0x0a, 0x6b, 0x3d),
        Role.Risk or Role.Change => XColor.FromArgb(0x8a, 0x5a, 0x00),
        _ => Ink,
    };

    private static XColor Fill(Role role) => role == Role.Band ? XColor.FromArgb(0xdf, 0xe4, 0xee) : role == Role.Code ? XColors.Black : role == Role.Span ? XColor.FromArgb(0xd4, 0xd8, 0xdb) : Color(role);

    private static XPoint At(double xMm, double yMm) => new(Mm(xMm), Mm(yMm));

    private static double Mm(double mm) => mm * 72 / 25.4;
}

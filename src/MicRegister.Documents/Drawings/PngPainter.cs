using MicRegister.Documents.Fonts;
using SkiaSharp;

namespace MicRegister.Documents.Drawings;

/// <summary>Paints a drawing as a PNG picture, black on white, for printers that take pictures alone.</summary>
public static class PngPainter
{
    /// <summary>Most dots of one picture.</summary>
    public const long MostDots = 200_000_000;

    private static readonly Lazy<SKTypeface> Typeface = new(() => SKTypeface.FromData(SKData.CreateCopy(OwnFonts.Regular)));

    /// <summary>Paints.</summary>
    /// <param name="drawing">The drawing, in millimetres: plain lines, areas and texts.</param>
    /// <param name="dotsPerInch">Resolution, written into the file so that a printer keeps the size.</param>
    /// <param name="to">Stream that can be written; it stays open.</param>
    /// <exception cref="ArgumentException">The picture would have more than <see cref="MostDots"/>.</exception>
    public static void Paint(Drawing drawing, int dotsPerInch, Stream to)
    {
        if (dotsPerInch is < 50 or > 2400) throw new ArgumentException($"Resolution {dotsPerInch}: allowed is a whole number from 50 to 2400 dots per inch.", nameof(dotsPerInch));
        var perMm = dotsPerInch / 25.4;
        int width = (int)Math.Round(drawing.WidthMm * perMm), height = (int)Math.Round(drawing.HeightMm * perMm);
        if ((long)width * height > MostDots) throw new ArgumentException($"{drawing.WidthMm} × {drawing.HeightMm} mm at {dotsPerInch} dots per inch are too many dots for one picture.", nameof(dotsPerInch));
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Gray8, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.White);
            foreach (var shape in drawing.Shapes) Paint(canvas, shape, perMm);
        }
        using var content = new MemoryStream();
        using (var encoded = bitmap.Encode(SKEncodedImageFormat.Png, 100)) encoded.SaveTo(content);
        PngResolution.Write(content.GetBuffer().AsSpan(0, (int)content.Length), dotsPerInch, to);
    }

    private static void Paint(SKCanvas canvas, Shape shape, double perMm)
    {
        switch (shape)
        {
            case Line { Role: Role.Code, IsArea: true } code:
                // A module's edge lies on a dot: what is half a dot would be grey.
                using (var black = new SKPaint { Color = SKColors.Black, IsAntialias = false })
                {
                    canvas.DrawRect(SKRect.Create(Dot(code.Points.Min(p => p.X)), Dot(code.Points.Min(p => p.Y)), Dot(code.Points.Max(p => p.X)) - Dot(code.Points.Min(p => p.X)), Dot(code.Points.Max(p => p.Y)) - Dot(code.Points.Min(p => p.Y))), black);
                }
                break;
            case Line line when line.Points.Count > 1:
                using (var paint = new SKPaint { Color = SKColors.Black, IsAntialias = true, Style = line.IsArea ? SKPaintStyle.Fill : SKPaintStyle.Stroke, StrokeWidth = (float)(0.3 * perMm) })
                using (var builder = new SKPathBuilder())
                {
                    builder.MoveTo(At(line.Points[0]));
                    foreach (var point in line.Points.Skip(1)) builder.LineTo(At(point));
                    if (line.IsArea) builder.Close();
                    using var path = builder.Detach();
                    canvas.DrawPath(path, paint);
                }
                break;
            case Label label:
                using (var paint = new SKPaint { Color = SKColors.Black, IsAntialias = true })
                using (var font = new SKFont(Typeface.Value, (float)(label.SizeMm * perMm)))
                {
                    canvas.DrawText(label.Text, At((label.X, label.Y)), label.Align switch { < 0 => SKTextAlign.Left, 0 => SKTextAlign.Center, _ => SKTextAlign.Right }, font, paint);
                }
                break;
        }

        float Dot(double mm) => (float)Math.Round(mm * perMm);
        SKPoint At((double X, double Y) p) => new((float)(p.X * perMm), (float)(p.Y * perMm));
    }
}

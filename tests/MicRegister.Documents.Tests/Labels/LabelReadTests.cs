using System.Diagnostics;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register.Labels;
using SkiaSharp;

namespace MicRegister.Documents.Tests.Labels;

/// <summary>Labels as they are printed, seen by two independent decoders: blurred, turned, partly covered.</summary>
public sealed class LabelReadTests
{
    private const string Address = "HTTPS://REGISTER.LAN/L/";
    private const double CameraDots = 10;

    private static readonly int[] Angles = [0, 45, 133, 251];

    public static TheoryData<string, int> Prints =>
        [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "labels"), "*.layout").Order(StringComparer.Ordinal).Select(f => Layout(Path.GetFileNameWithoutExtension(f))).SelectMany(l => l.DotsPerInch.Select(d => (l.Name, d)))];

    [Theory]
    [MemberData(nameof(Prints))]
    public async Task Both_decoders_read_it_turned_and_blurred_by_a_third_of_a_module(string name, int dpi)
    {
        var layout = Layout(name);
        using var label = Print(layout, dpi, Code(11), out var module);
        Assert.Equal(Math.Round(module), module, 1e-6); // modules are a whole number of dots
        var folder = Directory.CreateTempSubdirectory("read-").FullName;
        try
        {
            var files = new List<string>();
            foreach (var angle in Angles)
            {
                foreach (var blur in new[] { 0, 1.0 / 3 })
                {
                    // Clean and straight as it is printed; otherwise as a camera from near: at least ten dots a module.
                    var scale = angle == 0 && blur == 0 ? 1 : (int)Math.Ceiling(CameraDots / module);
                    var file = Path.Combine(folder, FormattableString.Invariant($"{angle:000}-{blur:0.0}.png"));
                    await File.WriteAllBytesAsync(file, Seen(label, angle, blur * module * scale, scale), TestContext.Current.CancellationToken);
                    files.Add(file);
                }
            }
            var wanted = (layout.IsAddress ? Address : "") + Code(11);
            var byZbar = await Zbar(files);
            foreach (var file in files)
            {
                Assert.True(byZbar[file] == wanted, $"{name} at {dpi}, {Path.GetFileName(file)}: zbar read '{byZbar[file]}'");
                var photo = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
                var byZxing = PhotoOfLabel.Read(photo, PhotoBoundTests.Unhurried(), out var why);
                Assert.True(why is null && byZxing.Contains(wanted), $"{name} at {dpi}, {Path.GetFileName(file)}: ZXing read '{string.Join(", ", byZxing)}' {why}");
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task With_a_tenth_of_its_data_covered_at_least_one_decoder_reads_a_label_of_level_Q_or_H()
    {
        var folder = Directory.CreateTempSubdirectory("covered-").FullName;
        try
        {
            var strong = Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "labels"), "*.layout").Select(f => Layout(Path.GetFileNameWithoutExtension(f))).Where(l => l.Level is 'Q' or 'H').ToList();
            Assert.True(strong.Count >= 2);
            var files = new Dictionary<string, string>();
            var random = new Random(10);
            foreach (var layout in strong)
            {
                for (var n = 0; n < 12; n++)
                {
                    using var label = Print(layout, layout.DotsPerInch[0], Code(n), out var module);
                    Cover(label, layout, module, random, n % 2 == 0 ? SKColors.White : new SKColor(90, 90, 90));
                    var file = Path.Combine(folder, $"{layout.Name}-{n}.png");
                    await File.WriteAllBytesAsync(file, Seen(label, 0, 0, 1), TestContext.Current.CancellationToken);
                    files[file] = (layout.IsAddress ? Address : "") + Code(n);
                }
            }
            var byZbar = await Zbar([.. files.Keys]);
            bool IsReadByZxing(string file, string text) =>
                PhotoOfLabel.Read(File.ReadAllBytes(file), PhotoBoundTests.Unhurried(), out _).Contains(text);
            var unread = files.Where(f => byZbar[f.Key] != f.Value && !IsReadByZxing(f.Key, f.Value))
                .Select(f => Path.GetFileName(f.Key)).ToList();
            Assert.True(unread.Count == 0, string.Join(", ", unread));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void What_shows_no_code_or_is_no_photo_gives_nothing_and_says_why()
    {
        using var blank = new SKBitmap(200, 200);
        Assert.Empty(PhotoOfLabel.Read(Png(blank), PhotoBoundTests.Unhurried(), out var none));
        Assert.Null(none);
        Assert.Empty(PhotoOfLabel.Read("GIF89a nothing"u8.ToArray(), PhotoBoundTests.Unhurried(), out var broken));
        Assert.NotNull(broken);
        Assert.Empty(PhotoOfLabel.Read(new byte[PhotoOfLabel.MostBytes + 1], PhotoBoundTests.Unhurried(), out var large));
        Assert.Contains("16 MB", large, StringComparison.Ordinal);
    }

    // One blot of a tenth of the code's area, where no finder or timing pattern is.
    private static void Cover(SKBitmap label, LabelLayout layout, double module, Random random, SKColor colour)
    {
        var (left, top, size) = Bounds(label, layout);
        var modules = size / module;
        // Version 1 holds 208 modules of data and correction, version 2 holds 359 (ISO/IEC 18004, table 1, from memory).
        var side = Math.Sqrt(0.1 * (modules < 23 ? 208 : 359));
        // Right of the left finders, below the upper ones; the lower right is free of finders in these versions.
        double x = 9 + (random.NextDouble() * (modules - 9 - side)), y = 9 + (random.NextDouble() * (modules - 9 - side));
        using var canvas = new SKCanvas(label);
        using var paint = new SKPaint { Color = colour };
        canvas.DrawRect((float)(left + (x * module)), (float)(top + (y * module)), (float)(side * module), (float)(side * module), paint);
    }

    // Where the first code stands: from its drawing, in dots.
    private static (double Left, double Top, double Size) Bounds(SKBitmap label, LabelLayout layout)
    {
        var dpi = layout.DotsPerInch[0];
        var points = LabelSheet.Pages(Single(layout), [new(Code(0), Values)], Address, 1, dpi)[0].Shapes.OfType<Line>().Where(l => l.Role == Role.Code).SelectMany(l => l.Points).Where(p => p.X < layout.WidthMm / layout.Codes).ToList();
        double Dots(double mm) => mm * dpi / 25.4;
        Assert.True(Dots(points.Max(p => p.X)) <= label.Width);
        return (Dots(points.Min(p => p.X)), Dots(points.Min(p => p.Y)), Dots(points.Max(p => p.X) - points.Min(p => p.X)));
    }

    private static readonly Dictionary<string, string> Values = new() { ["kind"] = "Microphone", ["serial"] = "41001", ["station"] = "S01", ["campaign"] = "Quillmere 26" };

    private static LabelLayout Single(LabelLayout layout) => layout with { PageWidthMm = layout.WidthMm, PageHeightMm = layout.HeightMm, Columns = 1, Rows = 1, LeftMm = 0, TopMm = 0 };

    private static SKBitmap Print(LabelLayout layout, int dpi, LabelCode code, out double module)
    {
        var page = LabelSheet.Pages(Single(layout), [new(code, Values)], Address, 1, dpi)[0];
        var narrowest = page.Shapes.OfType<Line>().Where(l => l.Role == Role.Code).Min(l => l.Points.Max(p => p.Y) - l.Points.Min(p => p.Y));
        module = narrowest * dpi / 25.4;
        using var content = new MemoryStream();
        PngPainter.Paint(page, dpi, content);
        var whole = SKBitmap.Decode(content.ToArray());
        if (layout.Codes == 1) return whole;
        // A flag is folded in the middle: a camera sees one side.
        var half = new SKBitmap(whole.Width / layout.Codes, whole.Height);
        using (var canvas = new SKCanvas(half)) canvas.DrawBitmap(whole, 0, 0, SKSamplingOptions.Default);
        whole.Dispose();
        return half;
    }

    private static byte[] Seen(SKBitmap label, int angle, double blur, int scale)
    {
        // The label as it lies, with a tenth of white around it: more white would only take longer to look through.
        var (sin, cos) = Math.SinCos(angle * Math.PI / 180);
        int Side(int along, int across) => (int)(1.1 * scale * ((along * Math.Abs(cos)) + (across * Math.Abs(sin))));
        var (width, height) = (Side(label.Width, label.Height), Side(label.Height, label.Width));
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Gray8, SKAlphaType.Opaque));
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.White);
        canvas.Translate(width / 2f, height / 2f);
        canvas.RotateDegrees(angle);
        using var filter = blur > 0 ? SKImageFilter.CreateBlur((float)blur, (float)blur) : null;
        using var paint = new SKPaint { ImageFilter = filter };
        canvas.DrawBitmap(label, SKRect.Create(-label.Width * scale / 2f, -label.Height * scale / 2f, label.Width * scale, label.Height * scale), new SKSamplingOptions(scale > 1 ? SKFilterMode.Nearest : SKFilterMode.Linear), paint);
        canvas.Flush();
        return Png(bitmap);
    }

    private static byte[] Png(SKBitmap bitmap)
    {
        // Large, but quickly written: it is read once.
        using var pixels = bitmap.PeekPixels();
        using var data = pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.NoFilters, 1))
            ?? throw new InvalidOperationException("The picture could not be written.");
        return data.ToArray();
    }

    // All pictures in one call: what was read in each, empty where nothing was.
    private static async Task<Dictionary<string, string>> Zbar(IReadOnlyList<string> files)
    {
        var read = files.ToDictionary(f => f, _ => "");
        foreach (var file in files)
        {
            var info = new ProcessStartInfo("zbarimg") { RedirectStandardOutput = true, RedirectStandardError = true };
            foreach (var arg in new[] { "-q", "--raw", "-Sdisable", "-Sqrcode.enable", file }) info.ArgumentList.Add(arg);
            using var process = Process.Start(info)!;
            var errors = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            read[file] = (await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken)).Trim();
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
            await errors;
        }
        return read;
    }

    private static LabelLayout Layout(string name) => LabelLayout.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "labels", name + ".layout")), name);

    private static LabelCode Code(int seed)
    {
        var random = new Random(seed);
        return LabelCode.Draw(n =>
        {
            var bytes = new byte[n];
            random.NextBytes(bytes);
            return bytes;
        });
    }
}

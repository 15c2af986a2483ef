using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register.Labels;
using SkiaSharp;

namespace MicRegister.Documents.Tests.Labels;

/// <summary>Photos as phones take them are read, and pictures that claim to be huge cost no more than the bounds say.</summary>
public sealed class PhotoBoundTests
{
    private const string Code = "2AYS641TS";

    [Theory]
    [InlineData(4000, 3000, 800, SKEncodedImageFormat.Jpeg)] // twelve megapixels, a label in a fifth of the width
    [InlineData(4000, 3000, 230, SKEncodedImageFormat.Jpeg)] // from afar: seen only as closely as it was taken
    [InlineData(3000, 4000, 230, SKEncodedImageFormat.Png)]
    [InlineData(4000, 3000, 230, SKEncodedImageFormat.Webp)]
    [InlineData(8000, 6000, 800, SKEncodedImageFormat.Jpeg)]
    public void A_label_in_a_photo_is_read_wherever_it_is(int width, int height, int labelWidth, SKEncodedImageFormat format)
    {
        foreach (var (x, y) in new[] { (0.1, 0.1), (0.45, 0.47), (0.75, 0.8) })
        {
            var effort = Unhurried();
            var read = PhotoOfLabel.Read(Photo(width, height, labelWidth, x, y, format), effort, out var why);

            Assert.Null(why);
            Assert.True(read.Any(t => t.EndsWith(Code, StringComparison.Ordinal)), $"at {x}, {y}: read '{string.Join(", ", read)}'");
            Bounded(effort);
        }
    }

    [Fact]
    public void A_picture_of_64_megapixels_in_few_bytes_is_unpacked_smaller_or_not_at_all()
    {
        foreach (var format in new[] { SKEncodedImageFormat.Png, SKEncodedImageFormat.Webp, SKEncodedImageFormat.Jpeg })
        {
            var picture = OneColour(8000, 8000, format);
            Assert.True(picture.Length < 2_000_000, $"{format}: {picture.Length} bytes");
            var effort = Unhurried();

            Assert.Empty(PhotoOfLabel.Read(picture, effort, out var why));

            Bounded(effort);
            if (format == SKEncodedImageFormat.Jpeg)
            {
                Assert.Null(why);
                Assert.InRange(effort.Unpacked, 1, 24_000_000); // an eighth of the sides for the whole, half of them in strips
                continue;
            }
            Assert.Contains("16 million as PNG, WebP", why, StringComparison.Ordinal);
            Assert.Contains("8000 × 8000", why, StringComparison.Ordinal);
            Assert.Equal(0, effort.Unpacked);
        }
    }

    // A few hundred bytes that show nothing but corners of codes: worked out in full, each three of them would be tried as a code.
    [Theory]
    [InlineData(320, 240)]
    [InlineData(640, 480)]
    [InlineData(3000, 3000)]
    public void A_picture_full_of_corners_of_codes_is_given_up_soon(int width, int height)
    {
        const string Corner = "1111111100000110111011011101101110110000011111111";
        using var picture = new SKBitmap(new SKImageInfo(width, height, SKColorType.Gray8, SKAlphaType.Opaque));
        var pixels = picture.GetPixelSpan();
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var (row, column) = (y % 56 / 2 % 9, x / 2 % 9);
                pixels[(y * picture.RowBytes) + x] = row < 7 && column < 7 && Corner[(row * 7) + column] == '1' ? (byte)0 : (byte)255;
            }
        }
        var effort = Unhurried();

        Assert.Empty(PhotoOfLabel.Read(picture.Encode(SKEncodedImageFormat.Png, 100).ToArray(), effort, out var why));

        Assert.Null(why);
        Assert.InRange(effort.Crowds, 1, 200);
    }

    [Theory]
    [InlineData(20_000, 800)]
    [InlineData(800, 20_000)]
    [InlineData(4000, 4000)]
    public void The_largest_of_each_shape_stays_within_the_bounds(int width, int height)
    {
        foreach (var format in new[] { SKEncodedImageFormat.Png, SKEncodedImageFormat.Jpeg })
        {
            var effort = Unhurried();
            Assert.Empty(PhotoOfLabel.Read(OneColour(width, height, format), effort, out var why));
            Assert.Null(why);
            Bounded(effort);
        }
        Assert.Empty(PhotoOfLabel.Read(OneColour(20_001, 10, SKEncodedImageFormat.Png), Unhurried(), out var wide));
        Assert.Contains("20001 × 10", wide, StringComparison.Ordinal);
    }

    [Fact]
    public void A_progressive_picture_counts_as_one_that_is_held_as_a_whole()
    {
        var line = OneColour(4800, 4000, SKEncodedImageFormat.Jpeg);
        Assert.False(JpegHeader.IsHeldWhole(line));
        Assert.Empty(PhotoOfLabel.Read(line, Unhurried(), out var taken));
        Assert.Null(taken);
        // The same frame said to be progressive (SOF2 for SOF0): refused by its header, before anything is unpacked.
        var at = line.AsSpan().IndexOf([(byte)0xFF, (byte)0xC0]);
        line[at + 1] = 0xC2;
        var effort = Unhurried();

        Assert.True(JpegHeader.IsHeldWhole(line));
        Assert.Empty(PhotoOfLabel.Read(line, effort, out var why));

        Assert.Contains("JPEG in several passes", why, StringComparison.Ordinal);
        Assert.Equal(0, effort.Unpacked);
        Assert.True(JpegHeader.IsHeldWhole([0xFF, 0xD8, 0xFF]));
    }

    [Fact]
    public void Work_ends_when_nobody_waits_for_it()
    {
        var photo = OneColour(4000, 3000, SKEncodedImageFormat.Jpeg);
        using var left = new CancellationTokenSource();
        // The clock is asked before each strip: the client leaves when it is asked for the first one.
        var clock = new Clock(asked => { if (asked == 2) left.Cancel(); });
        var effort = new PhotoEffort(clock, TimeSpan.FromSeconds(2), left.Token);

        Assert.Throws<OperationCanceledException>(() => PhotoOfLabel.Read(photo, effort, out _));

        Assert.InRange(effort.Unpacked, 1, 4_000_000); // the smaller whole, no strip
        var all = Unhurried();
        PhotoOfLabel.Read(photo, all, out _);
        Assert.True(all.Unpacked > effort.Unpacked + 10_000_000);
        using var gone = new CancellationTokenSource();
        gone.Cancel();
        var none = new PhotoEffort(TimeProvider.System, TimeSpan.FromSeconds(2), gone.Token);
        Assert.Throws<OperationCanceledException>(() => PhotoOfLabel.Read(photo, none, out _));
        Assert.Equal(0, none.Searched);
    }

    [Fact]
    public void When_the_time_is_over_no_further_strip_is_looked_at_and_that_is_said()
    {
        var photo = OneColour(4000, 3000, SKEncodedImageFormat.Jpeg);
        var clock = new Clock(_ => { });
        var effort = new PhotoEffort(clock, TimeSpan.FromSeconds(2), default);
        clock.Step = TimeSpan.FromSeconds(1.5); // each time that it is asked

        Assert.Empty(PhotoOfLabel.Read(photo, effort, out var why));

        Assert.Null(why);
        Assert.True(effort.IsCutShort);
        var all = Unhurried();
        PhotoOfLabel.Read(photo, all, out _);
        Assert.False(all.IsCutShort);
        Assert.True(effort.Unpacked < all.Unpacked);
    }

    internal static PhotoEffort Unhurried() => new(TimeProvider.System, TimeSpan.MaxValue, default);

    private static void Bounded(PhotoEffort effort)
    {
        Assert.InRange(effort.MostHeld, 0, PhotoOfLabel.MostHeld);
        Assert.InRange(effort.Unpacked, 0, PhotoOfLabel.MostUnpacked);
        Assert.InRange(effort.Searched, 0, PhotoOfLabel.MostSearched);
    }

    private static byte[] OneColour(int width, int height, SKEncodedImageFormat format)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Gray8, SKAlphaType.Opaque));
        bitmap.Erase(new SKColor(120, 120, 120));
        return Encoded(bitmap, format);
    }

    // A label on a grainy floor, as wide as said, with its left upper corner at a part of the sides.
    private static byte[] Photo(int width, int height, int labelWidth, double x, double y, SKEncodedImageFormat format)
    {
        Assert.True(LabelCode.TryRead(Code, out var code, out _));
        var layout = LabelLayout.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "labels", "sheet-3x8.layout")), "sheet-3x8");
        using var content = new MemoryStream();
        var single = layout with { PageWidthMm = layout.WidthMm, PageHeightMm = layout.HeightMm, Columns = 1, Rows = 1, LeftMm = 0, TopMm = 0 };
        PngPainter.Paint(LabelSheet.Pages(single, [new(code, new Dictionary<string, string> { ["serial"] = "41001" })], "HTTPS://REGISTER.LAN/L/", 1,
            600)[0], 600, content);
        using var label = SKBitmap.Decode(content.ToArray());
        using var bitmap = new SKBitmap(new SKImageInfo(width, height, SKColorType.Bgra8888, SKAlphaType.Opaque));
        var random = new Random(7);
        using (var canvas = new SKCanvas(bitmap))
        using (var paint = new SKPaint())
        {
            canvas.Clear(new SKColor(150, 140, 120));
            for (var n = 0; n < 3000; n++)
            {
                var shade = (byte)random.Next(60, 200);
                paint.Color = new SKColor(shade, shade, (byte)(shade / 2));
                canvas.DrawRect(random.Next(width), random.Next(height), random.Next(4, 60), random.Next(4, 60), paint);
            }
            canvas.DrawBitmap(label, SKRect.Create((float)(width * x), (float)(height * y), labelWidth,
                labelWidth * label.Height / (float)label.Width), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        }
        return Encoded(bitmap, format);
    }

    private static byte[] Encoded(SKBitmap bitmap, SKEncodedImageFormat format)
    {
        using var data = bitmap.Encode(format, 85);
        return data.ToArray();
    }

    private sealed class Clock(Action<int> asked) : TimeProvider
    {
        private long _now;
        private int _asked;

        public TimeSpan Step { get; set; }

        public override long GetTimestamp()
        {
            asked(++_asked);
            return _now += Step.Ticks;
        }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;
    }
}

using SkiaSharp;
using ZXing;
using ZXing.Common;

namespace MicRegister.Documents.Labels;

/// <summary>Reads codes in a photo, for phones whose browser shows no camera to a page.</summary>
public static class PhotoOfLabel
{
    /// <summary>Greatest file that is looked at.</summary>
    public const int MostBytes = 16 << 20;

    /// <summary>Most pixels that are unpacked: a phone's camera has fewer.</summary>
    public const int MostPixels = 64_000_000;

    // A code may be small in a large photo, or a large one may be blurred: smaller pictures sharpen it.
    private static readonly int[] Sides = [1600, 900, 600, 3200];

    private static readonly DecodingOptions Options = new() { TryHarder = true, TryInverted = true, PossibleFormats = [BarcodeFormat.QR_CODE] };

    /// <summary>Reads what a photo shows.</summary>
    /// <param name="photo">JPEG, PNG or WebP.</param>
    /// <param name="why">Why nothing can be read; null where it was looked at.</param>
    /// <returns>Texts of the codes, each once; empty where none is seen.</returns>
    public static IReadOnlyList<string> Read(ReadOnlyMemory<byte> photo, out string? why)
    {
        why = null;
        if (photo.Length is 0 or > MostBytes)
        {
            why = $"A photo has 1 byte to {MostBytes >> 20} MB; this one has {photo.Length} bytes.";
            return [];
        }
        using var data = SKData.CreateCopy(photo.Span);
        using var codec = SKCodec.Create(data);
        if (codec is null)
        {
            why = "This is no photo that can be read: JPEG, PNG and WebP are.";
            return [];
        }
        var (width, height) = (codec.Info.Width, codec.Info.Height);
        if (width < 1 || height < 1 || (long)width * height > MostPixels)
        {
            why = $"A photo has at most {MostPixels / 1_000_000} million pixels; this one has {width} × {height}.";
            return [];
        }
        using var whole = new SKBitmap(new SKImageInfo(width, height, SKColorType.Gray8, SKAlphaType.Opaque));
        if (codec.GetPixels(whole.Info, whole.GetPixels()) is not (SKCodecResult.Success or SKCodecResult.IncompleteInput))
        {
            using var colours = SKBitmap.Decode(data);
            if (colours is null)
            {
                why = "This photo is damaged.";
                return [];
            }
            using var canvas = new SKCanvas(whole);
            canvas.DrawBitmap(colours, 0, 0, SKSamplingOptions.Default);
        }
        var longest = Math.Max(width, height);
        foreach (var side in Sides.Where(s => s < longest).Append(longest).Distinct().OrderBy(s => Array.IndexOf(Sides, s) is var i and >= 0 ? i : 1))
        {
            if (Codes(whole, Math.Min(1.0, side / (double)longest)) is { Count: > 0 } found) return found;
        }
        return [];
    }

    private static List<string> Codes(SKBitmap whole, double scale)
    {
        SKBitmap? made = null;
        if (scale < 1) made = whole.Resize(new SKImageInfo(Math.Max(1, (int)(whole.Width * scale)), Math.Max(1, (int)(whole.Height * scale)), SKColorType.Gray8, SKAlphaType.Opaque), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        try
        {
            var bitmap = made ?? whole;
            var grey = new byte[bitmap.Width * bitmap.Height];
            for (var y = 0; y < bitmap.Height; y++) bitmap.GetPixelSpan().Slice(y * bitmap.RowBytes, bitmap.Width).CopyTo(grey.AsSpan(y * bitmap.Width));
            var source = new RGBLuminanceSource(grey, bitmap.Width, bitmap.Height, RGBLuminanceSource.BitmapFormat.Gray8);
            var reader = new BarcodeReaderGeneric { AutoRotate = true, Options = Options };
            var several = reader.DecodeMultiple(source) ?? [];
            if (several.Length > 0) return [.. several.Select(r => r.Text).Distinct(StringComparer.Ordinal)];
            // One threshold for all where thresholds by place fail: a blurred code in even light.
            var even = new BarcodeReaderGeneric(null, s => new GlobalHistogramBinarizer(s), null) { AutoRotate = true, Options = Options };
            return (reader.Decode(source) ?? even.Decode(source)) is { } one ? [one.Text] : [];
        }
        finally
        {
            made?.Dispose();
        }
    }
}

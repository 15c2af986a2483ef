using SkiaSharp;
using ZXing;
using ZXing.Common;

namespace MicRegister.Documents.Labels;

/// <summary>
/// Reads codes in a photo, for phones whose browser shows no camera to a page. First the whole is looked at in smaller pictures, then
/// strip by strip as it is, so that a small code in a large photo is seen too; never more than a few megapixels are held, whatever the
/// photo claims to have.
/// </summary>
public static class PhotoOfLabel
{
    /// <summary>Greatest file that is looked at.</summary>
    public const int MostBytes = 16 << 20;

    /// <summary>Most pixels of a photo in JPEG line by line, as cameras write it: it is unpacked smaller, or in strips.</summary>
    public const int MostPixels = 64_000_000;

    /// <summary>Most pixels of any other photo: PNG and WebP cannot be unpacked smaller, and progressive JPEG is held as a whole.</summary>
    public const int MostOfOthers = 16_000_000;

    /// <summary>Most pixels that are held at once; a strip has at least <see cref="LeastRows"/> rows.</summary>
    public const int MostHeld = 6_000_000;

    /// <summary>Most pixels that one photo costs in unpacking, smaller pictures included.</summary>
    public const long MostUnpacked = 50_000_000;

    /// <summary>Most pixels that are searched of one photo, each strip with what it shares with the one before.</summary>
    public const long MostSearched = 50_000_000;

    /// <summary>Longest side of a photo.</summary>
    public const int MostSide = 20_000;

    private const int LeastRows = 300;
    private const int Side = 1600;
    private const int ClosestSide = 4096;
    private const int StripPixels = 4_000_000;

    // A code may be small in a large photo, or a large one may be blurred: smaller pictures sharpen it.
    private static readonly int[] SmallerSides = [900, 600];

    // What is tried grows with the third power of the corners of codes that a picture seems to hold; a made one can hold thousands.
    private const int MostCornersOfSeveral = 60;
    private const int MostCornersOfOne = 300;

    /// <summary>Reads what a photo shows.</summary>
    /// <param name="photo">JPEG, PNG or WebP.</param>
    /// <param name="effort">How much work it may be.</param>
    /// <param name="why">Why nothing can be read; null where it was looked at.</param>
    /// <returns>Texts of the codes, each once; empty where none is seen.</returns>
    /// <exception cref="OperationCanceledException">Nobody waits for it any more.</exception>
    public static IReadOnlyList<string> Read(ReadOnlyMemory<byte> photo, PhotoEffort effort, out string? why)
    {
        if (photo.Length is 0 or > MostBytes)
        {
            why = $"A photo has 1 byte to {MostBytes >> 20} MB; this one has {photo.Length} bytes.";
            return [];
        }
        using var data = SKData.CreateCopy(photo.Span);
        using var codec = SKCodec.Create(data);
        if (codec is not { EncodedFormat: SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp })
        {
            why = "This is no photo that can be read: JPEG, PNG and WebP are.";
            return [];
        }
        why = TooLarge(codec.Info.Width, codec.Info.Height, codec.EncodedFormat == SKEncodedImageFormat.Jpeg
            && !JpegHeader.IsHeldWhole(photo.Span));
        if (why is not null) return [];
        var strips = new PhotoStrips(data, codec.EncodedFormat, effort);
        using (var whole = strips.Whole(Side))
        {
            if (whole is null)
            {
                why = "This photo is damaged.";
                return [];
            }
            if (Codes(whole, effort) is { Count: > 0 } found) return found;
            foreach (var side in SmallerSides.Where(s => s < Math.Max(whole.Width, whole.Height)))
            {
                using var smaller = whole.Resize(Fitted(whole.Width, whole.Height, side),
                    new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
                if (Codes(smaller, effort) is { Count: > 0 } sharper) return sharper;
            }
        }
        if (Math.Max(codec.Info.Width, codec.Info.Height) <= Side) return [];
        var texts = new List<string>();
        foreach (var strip in strips.All(ClosestSide, StripPixels, LeastRows))
        {
            using (strip) texts.AddRange(Several(strip, Luminance(strip), effort));
        }
        return [.. texts.Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Grey pictures of a size whose longest side is no longer than wanted.</summary>
    internal static SKImageInfo Fitted(int width, int height, int side)
    {
        var scale = Math.Min(1.0, side / (double)Math.Max(width, height));
        return new(Math.Max(1, (int)(width * scale)), Math.Max(1, (int)(height * scale)), SKColorType.Gray8, SKAlphaType.Opaque);
    }

    private static string? TooLarge(int width, int height, bool isByLine)
    {
        var most = isByLine ? MostPixels : MostOfOthers;
        if (width is >= 1 and <= MostSide && height is >= 1 and <= MostSide && (long)width * height <= most) return null;
        return $"A photo has at most {MostPixels / 1_000_000} million pixels as JPEG, "
            + $"{MostOfOthers / 1_000_000} million as PNG, WebP or JPEG in several passes, "
            + FormattableString.Invariant($"and sides of 1 to {MostSide}; this one has {width} × {height}. Send a smaller one.");
    }

    private static List<string> Codes(SKBitmap picture, PhotoEffort effort)
    {
        var source = Luminance(picture);
        if (Several(picture, source, effort) is { Count: > 0 } several) return several;
        var byPlace = new BarcodeReaderGeneric { AutoRotate = true };
        if (Found(effort, picture, MostCornersOfOne, byPlace, r => r.Decode(source)) is { } one) return [one.Text];
        // One threshold for all where thresholds by place fail: a blurred code in even light.
        var byOneThreshold = new BarcodeReaderGeneric(null, s => new GlobalHistogramBinarizer(s), null) { AutoRotate = true };
        return Found(effort, picture, MostCornersOfOne, byOneThreshold, r => r.Decode(source)) is { } even ? [even.Text] : [];
    }

    private static List<string> Several(SKBitmap picture, RGBLuminanceSource source, PhotoEffort effort) =>
        [.. (Found(effort, picture, MostCornersOfSeveral, new BarcodeReaderGeneric(), r => r.DecodeMultiple(source)) ?? [])
            .Select(r => r.Text).Distinct(StringComparer.Ordinal)];

    // The library calls back for each corner that it takes for one of a code: there it can be stopped.
    private static T? Found<T>(
        PhotoEffort effort, SKBitmap picture, int mostCorners, BarcodeReaderGeneric reader, Func<BarcodeReaderGeneric, T?> read)
        where T : class
    {
        effort.Search(picture.Width, picture.Height);
        reader.Options = new() { TryHarder = true, TryInverted = true, PossibleFormats = [BarcodeFormat.QR_CODE] };
        var corners = 0;
        reader.ResultPointFound += _ =>
        {
            effort.ThrowIfGivenUp();
            if (++corners > mostCorners) throw new CrowdedPictureException();
        };
        try
        {
            return read(reader);
        }
        catch (CrowdedPictureException)
        {
            effort.SawCrowd();
            return null;
        }
    }

    private static RGBLuminanceSource Luminance(SKBitmap picture)
    {
        var grey = new byte[picture.Width * picture.Height];
        for (var y = 0; y < picture.Height; y++) picture.GetPixelSpan().Slice(y * picture.RowBytes, picture.Width)
            .CopyTo(grey.AsSpan(y * picture.Width));
        return new(grey, picture.Width, picture.Height, RGBLuminanceSource.BitmapFormat.Gray8);
    }

    private sealed class CrowdedPictureException : Exception;
}

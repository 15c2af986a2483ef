using SkiaSharp;

namespace MicRegister.Documents.Labels;

/// <summary>
/// Unpacks a photo smaller or strip by strip: grey, on white. What a damaged file still holds is taken, the rest stays white.
/// </summary>
internal sealed class PhotoStrips(SKData data, SKEncodedImageFormat format, PhotoEffort effort)
{
    // Rows that a strip shares with the one before: a code that lies across the border and is not seen in the smaller picture
    // fits into them.
    private const int Shared = 400;

    /// <summary>The whole with its longest side at most as long as wanted; null where nothing can be unpacked.</summary>
    public SKBitmap? Whole(int side)
    {
        using var codec = SKCodec.Create(data);
        var (width, height) = (codec.Info.Width, codec.Info.Height);
        var grey = White(PhotoOfLabel.Fitted(width, height, side));
        using var canvas = new SKCanvas(grey);
        var any = false;
        if (format == SKEncodedImageFormat.Png)
        {
            var rows = Math.Clamp(PhotoOfLabel.MostHeld / width, 1, height);
            for (var y = 0; y < height; y += rows)
            {
                using var strip = Png(y, Math.Min(rows, height - y));
                any |= strip is not null;
                if (strip is not null) Draw(strip, y * (double)grey.Height / height, grey.Height / (double)height);
            }
        }
        else
        {
            var size = NotBelow(codec, side);
            effort.Unpack(size.Width, size.Height);
            using var picture = new SKBitmap(Colours(size.Width, size.Height));
            any = codec.GetPixels(picture.Info, picture.GetPixels())
                is SKCodecResult.Success or SKCodecResult.IncompleteInput or SKCodecResult.ErrorInInput;
            if (any) Draw(picture, 0, grey.Height / (double)size.Height);
        }
        canvas.Flush();
        if (any) return grey;
        grey.Dispose();
        return null;

        void Draw(SKBitmap from, double y, double scale)
        {
            var place = SKRect.Create(0, (float)y, grey.Width, (float)(from.Height * scale));
            canvas.DrawBitmap(from, place, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        }
    }

    /// <summary>Strips from top to bottom while there is time, each sharing some rows with the one before.</summary>
    /// <param name="side">Longest side; what a JPEG has beyond is unpacked smaller.</param>
    /// <param name="pixels">About so many in a strip.</param>
    /// <param name="leastRows">It has at least so many rows.</param>
    public IEnumerable<SKBitmap> All(int side, int pixels, int leastRows)
    {
        using var codec = SKCodec.Create(data);
        var size = format == SKEncodedImageFormat.Jpeg ? Within(codec, side) : codec.Info.Size;
        var rows = Math.Clamp(pixels / size.Width, Math.Min(leastRows, size.Height), size.Height);
        var shared = Math.Min(Shared, rows / 2);
        if (format == SKEncodedImageFormat.Jpeg
            && codec.StartScanlineDecode(Colours(size.Width, size.Height)) != SKCodecResult.Success)
        {
            yield break;
        }
        SKBitmap? before = null;
        try
        {
            for (var y = 0; y < size.Height && (y == 0 || y + shared < size.Height) && effort.GoesOn(); y += rows - shared)
            {
                var kept = before is null || format != SKEncodedImageFormat.Jpeg ? 0 : shared;
                using var fresh = Strip(codec, size.Width, y + kept, Math.Min(rows, size.Height - y) - kept);
                if (fresh is null) yield break;
                var strip = White(new(size.Width, kept + fresh.Height, SKColorType.Gray8, SKAlphaType.Opaque));
                using (var canvas = new SKCanvas(strip))
                {
                    if (kept > 0) canvas.DrawBitmap(before, 0, kept - before!.Height, SKSamplingOptions.Default);
                    canvas.DrawBitmap(fresh, 0, kept, SKSamplingOptions.Default);
                }
                before?.Dispose();
                before = strip.Copy();
                yield return strip;
            }
        }
        finally
        {
            before?.Dispose();
        }
    }

    private SKBitmap? Strip(SKCodec codec, int width, int y, int rows)
    {
        if (format == SKEncodedImageFormat.Png) return Png(y, rows);
        effort.Unpack(width, rows);
        var strip = new SKBitmap(Colours(width, rows));
        strip.Erase(SKColors.White);
        var any = format == SKEncodedImageFormat.Jpeg
            ? codec.GetScanlines(strip.GetPixels(), rows, strip.RowBytes) > 0
            : codec.GetPixels(strip.Info, strip.GetPixels(), strip.RowBytes, new SKCodecOptions(SKRectI.Create(0, y, width, rows)))
                is SKCodecResult.Success or SKCodecResult.IncompleteInput;
        if (any) return strip;
        strip.Dispose();
        return null;
    }

    // A PNG is unpacked from its begin for each strip; rows above it cost time and no memory.
    private SKBitmap? Png(int y, int rows)
    {
        using var codec = SKCodec.Create(data);
        effort.Unpack(codec.Info.Width, rows);
        var strip = new SKBitmap(Colours(codec.Info.Width, rows));
        strip.Erase(SKColors.White);
        var (whole, part) = (Colours(codec.Info.Width, codec.Info.Height), SKRectI.Create(0, y, codec.Info.Width, rows));
        var begun = codec.StartIncrementalDecode(whole, strip.GetPixels(), strip.RowBytes, new SKCodecOptions(part));
        if (begun == SKCodecResult.Success
            && codec.IncrementalDecode(out _) is SKCodecResult.Success or SKCodecResult.IncompleteInput)
        {
            return strip;
        }
        strip.Dispose();
        return null;
    }

    // The smallest size that the format gives and that is not smaller than wanted.
    private static SKSizeI NotBelow(SKCodec codec, int side)
    {
        var (size, longest) = (codec.Info.Size, Math.Max(codec.Info.Width, codec.Info.Height));
        for (var eighths = 7; eighths >= 1 && longest * eighths / 8 >= side; eighths--) size = codec.GetScaledDimensions(eighths / 8f);
        return size;
    }

    // The greatest size that the format gives and that is not greater than wanted.
    private static SKSizeI Within(SKCodec codec, int side)
    {
        var size = codec.Info.Size;
        for (var eighths = 7; eighths >= 1 && Math.Max(size.Width, size.Height) > side; eighths--)
            size = codec.GetScaledDimensions(eighths / 8f);
        return size;
    }

    private static SKImageInfo Colours(int width, int height) => new(width, height, SKColorType.Bgra8888, SKAlphaType.Premul);

    private static SKBitmap White(SKImageInfo info)
    {
        var bitmap = new SKBitmap(info);
        bitmap.Erase(SKColors.White);
        return bitmap;
    }
}

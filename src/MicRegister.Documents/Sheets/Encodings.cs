using System.Text;

namespace MicRegister.Documents.Sheets;

/// <summary>Finds out how a text is stored.</summary>
internal static class Encodings
{
    /// <summary>The encoding of a text, and the text itself where parts of it are stored otherwise: then all of it in one.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="remarks">What was put right.</param>
    public static (Encoding Encoding, Stream Text) Settle(Stream content, string name, List<string> remarks)
    {
        var encoding = Of(content, name);
        if (encoding.CodePage != 1252) return (encoding, content);
        content.Position = 0;
        return MixedLines.Mend(content, encoding) is not var (mended, lines) ? (encoding, content) : Told(mended, lines);

        (Encoding, Stream) Told(Stream mended, int lines)
        {
            remarks.Add($"{name} is written in two encodings: {lines} lines are no UTF-8 and were read as Windows-1252, the others as UTF-8.");
            return (Encoding.UTF8, mended);
        }
    }

    public static Encoding Of(Stream content, string name)
    {
        Span<byte> start = stackalloc byte[4096];
        content.Position = 0;
        var got = start[..content.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)];
        if (got.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE])) return Encoding.Unicode;
        if (got.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF])) return Encoding.BigEndianUnicode;

        int even = 0, odd = 0;
        for (var i = 0; i < got.Length; i++)
        {
            if (got[i] != 0) continue;
            if (i % 2 == 0) even++;
            else odd++;
        }
        // Plain text in UTF-16 has a zero in most pairs, on one side only.
        if (odd > got.Length / 4 && even == 0) return Encoding.Unicode;
        if (even > got.Length / 4 && odd == 0) return Encoding.BigEndianUnicode;

        content.Position = 0;
        return IsUtf8(content, name) ? Encoding.UTF8 : Windows1252();
    }

    private static bool IsUtf8(Stream content, string name)
    {
        var decoder = new UTF8Encoding(false, throwOnInvalidBytes: true).GetDecoder();
        var bytes = new byte[1 << 16];
        var characters = new char[(1 << 16) + 16];
        var isUtf8 = true;
        long offset = 0;
        int count;
        while ((count = content.Read(bytes)) > 0)
        {
            var zero = bytes.AsSpan(0, count).IndexOf((byte)0);
            if (zero >= 0) throw new SheetException($"{name} holds a NUL byte at {offset + zero}; it is no text table.");
            offset += count;
            if (!isUtf8) continue;
            try
            {
                decoder.GetChars(bytes.AsSpan(0, count), characters, flush: false);
            }
            catch (DecoderFallbackException)
            {
                isUtf8 = false;
            }
        }
        return isUtf8;
    }

    private static Encoding Windows1252()
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        return Encoding.GetEncoding(1252);
    }
}

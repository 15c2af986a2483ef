using System.Text;

namespace MicRegister.Documents.Sheets;

/// <summary>Mends a text some lines of which are UTF-8 and others not, as happens when lists are pasted together.</summary>
internal static class MixedLines
{
    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    /// <summary>All lines in UTF-8, and how many were not.</summary>
    /// <returns>Null where no line holds UTF-8 beyond ASCII: then the text is all in the other encoding.</returns>
    public static (Stream Mended, int Lines)? Mend(Stream content, Encoding other)
    {
        var all = new byte[content.Length];
        content.ReadExactly(all);
        var mended = new MemoryStream(all.Length + 1024);
        var (utf8, others) = (0, 0);
        for (var start = 0; start < all.Length;)
        {
            var end = Array.IndexOf(all, (byte)'\n', start);
            var line = all.AsSpan(start..(end < 0 ? all.Length : end + 1));
            if (!line.ContainsAnyExceptInRange((byte)0, (byte)0x7F)) mended.Write(line);
            else if (IsUtf8(line))
            {
                utf8++;
                mended.Write(line);
            }
            else
            {
                others++;
                mended.Write(Encoding.UTF8.GetBytes(other.GetString(line)));
            }
            start += line.Length;
        }
        return utf8 > 0 ? (mended, others) : null;
    }

    private static bool IsUtf8(ReadOnlySpan<byte> line)
    {
        try
        {
            return Strict.GetCharCount(line) > 0;
        }
        catch (DecoderFallbackException)
        {
            return false;
        }
    }
}

using System.Text;

namespace MicRegister.Documents.Sheets;

/// <summary>Texts in UTF-8 that somebody read as Windows-1252 and wrote down again: <i>GrÃ¶ÃŸe</i> for <i>Größe</i>.</summary>
internal static class Mojibake
{
    // Such a text may be read wrongly more than once.
    private const int MostRounds = 3;

    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);
    private static readonly Encoding Western = Windows1252();

    /// <summary>The text that was meant; null where none of it looks so.</summary>
    public static string? Mended(string text)
    {
        var mended = (string?)null;
        for (var round = 0; round < MostRounds && Once(mended ?? text) is { } better; round++) mended = better;
        return mended;
    }

    // Each run of signs beyond ASCII as a whole, so that the mend is exact: read wrongly again it would be the same text.
    private static string? Once(string text)
    {
        if (!text.Any(c => c > '\x7F')) return null;
        var mended = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length;)
        {
            var end = i;
            while (end < text.Length && text[end] > '\x7F' == text[i] > '\x7F') end++;
            if (text[i] <= '\x7F') mended.Append(text, i, end - i);
            else mended.Append(Run(text[i..end]) ?? text[i..end]);
            i = end;
        }
        return mended.ToString() is var whole && whole != text ? whole : null;
    }

    private static string? Run(string run)
    {
        try
        {
            var bytes = Western.GetBytes(run);
            var meant = Strict.GetString(bytes);
            return meant.All(c => IsUsual(c) || (c is >= '\u0100' and <= '\u017F' && !run.Any(IsMark)))
                && Western.GetString(Strict.GetBytes(meant)) == run ? meant : null;
        }
        catch (EncoderFallbackException)
        {
            return null;
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    // Accents, Greek, dashes and quotes, signs of units. What else two signs may come to is chance: É” is no ɔ.
    private static bool IsUsual(char c) => c is (>= '\u00A0' and <= '\u00FF') or (>= '\u0370' and <= '\u03FF')
        or (>= '\u2000' and <= '\u22FF') or '\uFEFF';

    // Ä before a dash is no Ė.
    private static bool IsMark(char c) => c is >= '\u2013' and <= '\u201E';

    private static Encoding Windows1252()
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        return Encoding.GetEncoding(1252, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback);
    }
}

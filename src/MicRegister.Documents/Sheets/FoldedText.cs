using System.Globalization;
using System.Text;

namespace MicRegister.Documents.Sheets;

/// <summary>Texts as they are compared where capitals and accents do not matter.</summary>
internal static class FoldedText
{
    // The framework folds nothing beyond ASCII while it runs without a culture's data.
    private static readonly Dictionary<char, string> Folds = new[]
    {
        "aàáâãäåāăą", "cçćč", "dđď", "eèéêëēęě", "iìíîïī", "lł", "nñńň", "oòóôõöøō", "rř", "sśšş", "tţť", "uùúûüūů", "yýÿ", "zźżž",
    }.SelectMany(line => line[1..].Select(c => (c, To: line[..1])))
        .Concat([('ß', "ss"), ('æ', "ae"), ('œ', "oe"), ('½', "1/2"), ('¼', "1/4"), ('⅛', "1/8"), ('⁄', "/"), ('№', "no"), ('º', "°"),
        ('’', "'")])
        .ToDictionary(f => f.Item1, f => f.Item2);

    /// <summary>A text in small letters, without accents and invisible signs; ß is ss, ½ is 1/2.</summary>
    public static string Of(string text)
    {
        if (Ascii.IsValid(text)) return text.ToLowerInvariant();
        var folded = new StringBuilder(text.Length);
        foreach (var c in text.ToLowerInvariant())
        {
            if (Folds.TryGetValue(c, out var plain)) folded.Append(plain);
            else if (char.IsWhiteSpace(c)) folded.Append(' ');
            else if (CharUnicodeInfo.GetUnicodeCategory(c) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.Format)) folded.Append(FullWidth(c));
        }
        return folded.ToString();
    }

    /// <summary>A sign of the width of an ideograph as its usual self.</summary>
    public static char FullWidth(char c) => c is >= '\uFF01' and <= '\uFF5E' ? (char)(c - '\uFF01' + '!') : c;

    /// <summary>A text with the usual digits, blanks and minus.</summary>
    public static string Usual(string text)
    {
        var usual = text.Trim();
        if (!Ascii.IsValid(usual))
        {
            usual = usual.Replace('\u2212', '-').Replace('\u2010', '-').Replace('\u2011', '-').Replace('\u2013', '-').Replace('\u00A0', ' ')
                .Replace('\u202F', ' ').Replace('\u2009', ' ');
            usual = string.Concat(usual.Select(c => c is >= '\uFF10' and <= '\uFF19' ? (char)(c - '\uFF10' + '0') : c));
        }
        return usual;
    }
}

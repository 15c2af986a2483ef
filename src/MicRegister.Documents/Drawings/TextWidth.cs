namespace MicRegister.Documents.Drawings;

/// <summary>How wide a text is in the project's typeface, on the safe side, and where its lines end.</summary>
internal static class TextWidth
{
    // What a sum of many widths may lose in its last digits.
    private const double RoundingMm = 1e-6;

    /// <summary>Width of a text in mm: never less than it is printed.</summary>
    public static double Mm(string text, double sizeMm)
    {
        var share = 0.0;
        foreach (var c in text) share += Share(c);
        return share * sizeMm;
    }

    /// <summary>The lines of a text: broken between words, and within a word that is wider than a line.</summary>
    /// <param name="text">A line feed begins a line; other blanks count as one.</param>
    /// <param name="sizeMm">Size of the type.</param>
    /// <param name="widthMm">Greatest width of a line; a character that is wider stands alone.</param>
    /// <returns>Empty where there is no word.</returns>
    public static List<string> Lines(string text, double sizeMm, double widthMm)
    {
        var lines = new List<string>();
        foreach (var part in text.ReplaceLineEndings("\n").Split('\n'))
        {
            var line = "";
            foreach (var word in part.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
            {
                if (line.Length > 0 && Fits(line + " " + word, sizeMm, widthMm))
                {
                    line += " " + word;
                    continue;
                }
                if (line.Length > 0) lines.Add(line);
                line = word;
                while (!Fits(line, sizeMm, widthMm))
                {
                    var most = Most(line, sizeMm, widthMm);
                    lines.Add(line[..most]);
                    line = line[most..];
                }
            }
            if (line.Length > 0) lines.Add(line);
        }
        return lines;
    }

    private static bool Fits(string text, double sizeMm, double widthMm) => Mm(text, sizeMm) <= widthMm + RoundingMm;

    private static int Most(string word, double sizeMm, double widthMm)
    {
        var (most, width) = (0, 0.0);
        while (most < word.Length && (width += Share(word[most]) * sizeMm) <= widthMm + RoundingMm) most++;
        // The two halves of one character stay together.
        if (most > 0 && most < word.Length && char.IsHighSurrogate(word[most - 1])) most--;
        return most > 0 ? most : word.Length > 1 && char.IsHighSurrogate(word[0]) ? 2 : 1;
    }

    // Advance widths of the regular face in parts of its size, the widest of each group (read from its hmtx table).
    private static double Share(char c) => c switch
    {
        ' ' or '.' or ',' or ':' or ';' or '!' or '\'' or '|' or '(' or ')' or '[' or ']' or '{' or '}' or '-' or '/' or '\\' or 'i' or 'j' or 'l' or 'I' or 'f' or 't' or 'r' => 0.36,
        'm' or 'M' or 'w' or 'W' or '%' or '@' => 0.86,
        (>= 'A' and <= 'Z') or '&' => 0.67,
        (>= ' ' and < '\u007f') or '°' or '±' or '–' or '−' or '×' or '²' or '³' or '·' or 'µ' => 0.57,
        >= '\u00a0' and < '\u0250' => 0.86,
        _ => 1.06,
    };
}

namespace MicRegister.Register.Labels;

/// <summary>Check characters of ISO 7064, hybrid system MOD 37,36: letters and digits, the check character among them.</summary>
public static class Iso7064
{
    private const string Alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    private const int M = 36;

    /// <summary>The check character of a text.</summary>
    /// <param name="text">At least one capital letter or digit.</param>
    /// <exception cref="ArgumentException">A character is neither.</exception>
    /// <remarks>
    /// p = 36; for each character s = (p + v) mod 36, 0 taken as 36, p = 2 s mod 37; the check character c makes (p + c) mod 36 = 1.
    /// ISO 7064:2003, hybrid systems: rule and figures of the tests seen in public help pages and test suites, the text of its clauses not.
    /// </remarks>
    public static char Check(ReadOnlySpan<char> text)
    {
        if (text.IsEmpty) throw new ArgumentException("A check character needs a text.", nameof(text));
        var p = M;
        foreach (var c in text)
        {
            var v = Alphabet.IndexOf(c, StringComparison.Ordinal);
            if (v < 0) throw new ArgumentException($"'{c}' is no capital letter or digit.", nameof(text));
            var s = (p + v) % M;
            p = 2 * (s == 0 ? M : s) % (M + 1);
        }
        return Alphabet[(M + 1 - p) % M];
    }
}

namespace MicRegister.Register.Labels;

/// <summary>
/// The code on a label: eight characters of Crockford's alphabet, which has no I, L, O and U, and a check character that is none of them
/// either. Unique for ever: a code that was once bound is never given to anything else. The default is no code.
/// </summary>
public readonly record struct LabelCode
{
    /// <summary>Characters of a code, the check character included.</summary>
    public const int Length = 9;

    private const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const string Confused = "ILOU";

    private LabelCode(string text) => Text = text;

    /// <summary>Nine capital letters and digits.</summary>
    public string Text { get; }

    /// <summary>In groups, to be read aloud: 4XK3 Q7MP R.</summary>
    public string Spoken => $"{Text[..4]} {Text[4..8]} {Text[8..]}";

    /// <summary>A new code.</summary>
    /// <param name="random">Gives random bytes; asked again while the check character could be misread.</param>
    public static LabelCode Draw(Func<int, byte[]> random)
    {
        while (true)
        {
            var body = string.Concat(random(Length - 1).Select(b => Alphabet[b % Alphabet.Length]));
            var check = Iso7064.Check(body);
            if (!Confused.Contains(check, StringComparison.Ordinal)) return new(body + check);
        }
    }

    /// <summary>
    /// Reads what was scanned or typed: a bare code or an address that ends with one, in any case,
    /// with blanks and dashes where people put them.
    /// </summary>
    /// <param name="text">What came in.</param>
    /// <param name="code">The code.</param>
    /// <param name="why">Why it is none, for people; null where it is one.</param>
    public static bool TryRead(string? text, out LabelCode code, out string? why)
    {
        (code, why) = (default, null);
        var whole = (text ?? "").Trim();
        if (whole.Length is 0 or > 300)
        {
            why = whole.Length == 0 ? "Nothing was scanned or typed." : "This is no label of this register: it holds far more than a code.";
            return false;
        }
        // An address: what stands behind its last slash or mark, without a query.
        var isAddress = whole.Contains("://", StringComparison.Ordinal);
        var last = isAddress ? whole.Split('?')[0].TrimEnd('/').Split('/', '#')[^1] : whole;
        var plain = new string([.. last.ToUpperInvariant().Where(c => c is not (' ' or '-' or '\u00A0'))]);
        // What people confuse is put right, as the alphabet was made for.
        plain = plain.Replace('O', '0').Replace('I', '1').Replace('L', '1');
        if (plain.Length != Length || !plain.All(c => Alphabet.Contains(c, StringComparison.Ordinal)))
        {
            why = isAddress
                ? $"'{Short(whole)}' is an address of something else, not a label of this register."
                : $"'{Short(whole)}' is no label code: it has {Length} letters and digits, none of them U.";
            return false;
        }
        if (Iso7064.Check(plain.AsSpan(0, Length - 1)) != plain[^1])
        {
            why = $"'{Short(last)}' was misread or mistyped: its last character does not fit the others. "
                + "Scan it again, or type it in groups of four.";
            return false;
        }
        code = new(plain);
        return true;
    }

    public override string ToString() => Text ?? "";

    private static string Short(string text) => text.Length > 60 ? text[..60] + "…" : text;
}

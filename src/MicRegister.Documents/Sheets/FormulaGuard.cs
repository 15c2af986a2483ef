using System.Globalization;

namespace MicRegister.Documents.Sheets;

/// <summary>Keeps a spreadsheet from running a text as a formula, by an apostrophe in front, and takes that off again.</summary>
/// <remarks>
/// CWE-1236; OWASP ASVS 5.0, 1.2.10 (read in a copy); the full-width signs and the skipping of leading blanks and quotes from OWASP, CSV
/// Injection (from memory). A text that has an apostrophe before such a beginning gets a second one, so that <see cref="Plain"/> undoes
/// <see cref="Guarded"/> for every text.
/// </remarks>
internal static class FormulaGuard
{
    private const char Apostrophe = '\'';

    public static string Guarded(string text) => IsFormula(text) ? Apostrophe + text : text;

    public static string Plain(string text) => text.Length > 1 && text[0] == Apostrophe && IsFormula(text.AsSpan(1)) ? text[1..] : text;

    /// <summary>
    /// Whether a spreadsheet could take a text as a formula, after the blanks, marks and quotes that one or another passes over.
    /// </summary>
    private static bool IsFormula(ReadOnlySpan<char> text)
    {
        foreach (var c in text)
        {
            // Of the control characters tab, CR, LF and NUL are named as dangerous; no other is a text's beginning either.
            if (char.IsControl(c) || c is '=' or '+' or '-' or '@' or '\uFF1D' or '\uFF0B' or '\uFF0D' or '\uFF20') return true;
            if (!IsPassedOver(c)) return false;
        }
        return false;
    }

    // Format characters such as U+200B and U+FEFF are not seen, so that a cell with one looks as if it began with what follows.
    private static bool IsPassedOver(char c) => char.IsWhiteSpace(c) || c is '"' or Apostrophe || char.GetUnicodeCategory(c) is
        UnicodeCategory.Format or UnicodeCategory.InitialQuotePunctuation or UnicodeCategory.FinalQuotePunctuation;
}

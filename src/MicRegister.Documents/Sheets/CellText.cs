namespace MicRegister.Documents.Sheets;

/// <summary>What becomes of a text in a cell of a table that comes back.</summary>
internal static class CellText
{
    /// <summary>Most characters of a text that an import takes.</summary>
    public const int Most = 2000;

    private static readonly char[] Outer = [' ', '\u00A0', '\r', '\n'];

    /// <summary>A text without the outer blanks that a cell loses.</summary>
    public static string Trimmed(string text) => text.Trim(Outer);

    /// <summary>Whether two texts are one in a cell; null where there is none.</summary>
    public static bool Same(string? a, string? b) => a == b || Trimmed(a ?? "") == Trimmed(b ?? "");
}

using MicRegister.Documents.Exports;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>Invented tables to export.</summary>
internal static class Tables
{
    private static readonly ExportColumn[] Columns =
    [
        new("serial", "Serial number", "", "What its maker wrote on it."),
        new("sensitivity-v-per-pa", "Sensitivity", "V/Pa", "Open-circuit sensitivity at 250 Hz."),
        new("calibrated-on", "Calibrated", "", "Day of the last calibration."),
    ];

    /// <summary>Texts that one spreadsheet or another runs, or that hide one that does.</summary>
    public static IReadOnlyList<string> Injections { get; } =
    [
        "=1+1", "+1", "-1", "@SUM(A1)", "=HYPERLINK(\"https://example.org/?\"&A1,\"see\")", "=cmd|' /C calc'!A0", "\t=1", "\r=1", "\n=1", "\r\n=1", "\0=1",
        "＝1", "＋1", "－1", "＠a", "  =1", "\u00A0=1", "\u3000=1", "\u200B=1", "\uFEFF=1", "\"=1", "\"\"=1", "'=1", "''=1", "' =1", "“=1", " ' \" -1", "-", "\ttab",
    ];

    /// <summary>Texts that look alike and are not run; they stay as they are.</summary>
    public static IReadOnlyList<string> Harmless { get; } =
        ["41001", "a=1", "1-2", "'", "''", "'90s", "\"quoted\"", "it's", " blank ", "x,y;z", "two\r\nlines", "two\nlines", "½-inch 🎤", "a\"b", "−3 dB", "(=1)", "0041"];

    public static ExportTable Of(params ExportCell[][] rows) => new("Microphones of Quillmere", Columns, rows, [("register", "quillmere"), ("sequence", "4711"), ("note", "=1")]);

    /// <summary>A table of one text in each row.</summary>
    public static ExportTable OfTexts(IEnumerable<string> texts) => Of([.. texts.Select(t => new[] { ExportCell.Of(t), ExportCell.Of(-3.5), ExportCell.Nothing })]);
}

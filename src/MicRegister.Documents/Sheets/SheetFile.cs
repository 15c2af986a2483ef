namespace MicRegister.Documents.Sheets;

/// <summary>Opens a table file by what it holds, not by its name.</summary>
public static class SheetFile
{
    /// <summary>The sheets of a file.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="limits">How much it may hold.</param>
    /// <param name="keepsFaults">Whether a row with a stray quote is given with its fault; otherwise the file is refused.</param>
    /// <exception cref="SheetException">It is no table, damaged, or too large.</exception>
    public static IEnumerable<Sheet> Open(Stream content, string name, SheetLimits limits, bool keepsFaults = false)
    {
        if (content.Length > limits.FileBytes) throw new SheetException($"{name} has {content.Length} bytes; at most {limits.FileBytes} are allowed.");
        if (content.Length == 0) throw new SheetException($"{name} is empty.");
        Span<byte> start = stackalloc byte[8];
        content.Position = 0;
        var got = content.ReadAtLeast(start, 8, throwOnEndOfStream: false);
        content.Position = 0;
        if (start[..got].StartsWith("PK"u8)) return XlsxSheets.Read(content, name, limits);
        if (start[..got].StartsWith((ReadOnlySpan<byte>)[0xD0, 0xCF, 0x11, 0xE0]))
            throw new SheetException($"{name} is an old binary or an encrypted workbook; save it as .xlsx or .csv without a password.");
        if (start[..got].StartsWith("%PDF"u8)) throw new SheetException($"{name} is a PDF; a table is needed, as .xlsx or .csv.");
        return [CsvSheet.Read(content, name, limits, keepsFaults)];
    }
}

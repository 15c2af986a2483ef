using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace MicRegister.Documents.Import;

/// <summary>Serial numbers as lists damage them: invisible signs, signs of another alphabet's width, numbers that a spreadsheet made.</summary>
internal static partial class SerialText
{
    /// <summary>The serial of a row.</summary>
    /// <exception cref="RowProblem">It has to be asked about.</exception>
    public static string? Of(RowReader row, string? serial, bool isChecked)
    {
        if (serial is null || isChecked) return serial;
        if (Damaged().IsMatch(serial))
            throw row.Questioned(Column.Serial,
                "a spreadsheet made a number of it, so that digits may be lost; if it is right, write yes under 'checked'");
        if (Ascii.IsValid(serial) || Usual(serial) is var usual && usual == serial) return serial;
        if (row.Mapping.Of("odd-signs") == "usual") return usual;
        var signs = string.Join(", ", serial.Where(c => !usual.Contains(c, StringComparison.Ordinal)).Distinct()
            .Select(c => FormattableString.Invariant($"U+{(int)c:X4}")));
        throw new RowProblem(RowSort.Questioned,
            $"{row.HeaderOf(Column.Serial)} '{serial}': it holds signs that look like others or like nothing ({signs})",
            row.HeaderOf(Column.Serial), serial)
        {
            Question = new("odd-signs", "",
                $"Serial numbers hold signs that look like others or like nothing, such as {signs}. Read '{serial}' as '{usual}'?",
                [new($"Yes, as '{usual}', and the others alike", "odd-signs := usual")]),
        };
    }

    /// <summary>Asks whether two serials that differ in capitals alone are one.</summary>
    public static void AskAboutCapitals(RowReader row, string serial, PlannedDevice known)
    {
        if (row.Mapping.Of("capitals") == "same" || serial == known.Serial
            || !string.Equals(serial, known.Serial, StringComparison.OrdinalIgnoreCase)) return;
        throw new RowProblem(RowSort.Questioned,
            $"{row.HeaderOf(Column.Serial)} '{serial}': {known.Name} differs from it in capitals alone", row.HeaderOf(Column.Serial),
            serial)
        {
            Question = new("capitals", "",
                $"Serial numbers differ in capitals alone, such as {serial} and {known.Serial}. Are they the same devices?",
                [new("Yes, the same", "capitals := same")]),
        };
    }

    /// <summary>A serial with the usual signs: no invisible ones, one sort of dash, digits and letters of usual width.</summary>
    public static string Usual(string serial)
    {
        var usual = new StringBuilder(serial.Length);
        foreach (var c in serial.Select(Sheets.FoldedText.FullWidth))
        {
            if (CharUnicodeInfo.GetUnicodeCategory(c) is UnicodeCategory.Format or UnicodeCategory.Control) continue;
            usual.Append(Look.TryGetValue(c, out var same) ? same
                : CharUnicodeInfo.GetUnicodeCategory(c) == UnicodeCategory.DashPunctuation || c == '\u2212' ? '-' : c);
        }
        return usual.ToString().Trim();
    }

    // Cyrillic and Greek capitals that cannot be told from Latin ones (Unicode Technical Standard 39, confusables; a part, from memory).
    private static readonly Dictionary<char,
        char> Look = "АA ВB ЕE КK МM НH ОO РP СC ТT ХX ΑA ΒB ΕE ΖZ ΗH ΙI ΚK ΜM ΝN ΟO ΡP ΤT ΥY ΧX".Split(' ')
        .ToDictionary(p => p[0], p => p[1]);

    [GeneratedRegex(@"^[0-9](?:[.,][0-9]+)?E\+[0-9]+$|^[0-9]{3,}[.,]0+$", RegexOptions.IgnoreCase)]
    private static partial Regex Damaged();
}

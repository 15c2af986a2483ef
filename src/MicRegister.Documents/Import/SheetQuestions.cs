using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Whether a sheet is meant to be read: one that is hidden, or named as an old one, is asked about.</summary>
internal sealed partial class SheetQuestions(Sheet sheet, ImportMapping rules)
{
    public bool MayRead(FileReport report)
    {
        if (rules.Of("sheet") is { } said)
        {
            if (said == "leave-out") report.Notices.Add($"{report.Name}, sheet {sheet.Name}: left out.");
            return said == "read";
        }
        var isOld = OldWords().IsMatch(FoldedText.Of(sheet.Name));
        if (!sheet.IsHidden && !isOld) return true;
        report.Ask(new("sheet", sheet.Name, $"The sheet '{sheet.Name}' is {(sheet.IsHidden ? "hidden" : "named as an old one")}. Read it?",
            [new("Leave it out", "sheet := leave-out"), new("Read it", "sheet := read")]), sheet.Name);
        return false;
    }

    /// <summary>Mends signs that were read in the wrong encoding, or asks whether to.</summary>
    /// <returns>Whether its rows can be taken.</returns>
    public bool MayTake(List<SheetRow> rows, FileReport report)
    {
        if (rules.Of("mojibake") == "keep" || (rows.Count > 0 && TableFinder.LeftARegister(rows[0]))) return true;
        var mended = 0;
        for (var i = 0; i < rows.Count; i++)
        {
            if (!rows[i].Cells.Any(c => c.Text is { } text && Mojibake.Mended(text) is not null)) continue;
            mended++;
            if (rules.Of("mojibake") == "mend") rows[i] = rows[i] with { Cells = [.. rows[i].Cells.Select(Mended)] };
            else report.Ask(Wrong(), Example(rows[i]));
        }
        if (mended == 0) return true;
        if (rules.Of("mojibake") != "mend") return false;
        report.Notices.Add(FormattableString.Invariant($"{report.Name}: signs of {mended} rows stood in a wrong encoding and were mended."));
        return true;
    }

    private static Cell Mended(Cell cell) => cell.Text is { } text && Mojibake.Mended(text) is { } mended ? cell with { Text = mended }
        : cell;

    private static string Example(SheetRow row) => row.Cells.Select(c => c.Text).OfType<string>()
        .Where(t => Mojibake.Mended(t) is not null).Select(t => $"'{t}' for '{Mojibake.Mended(t)}'").First();

    private static ImportQuestion Wrong() =>
        new("mojibake", "", "Some texts were read in a wrong encoding when the file was written. Mend them?",
        [new("Mend them", "mojibake := mend"), new("Take them as they stand", "mojibake := keep")]);

    /// <summary>Whether a row that is hidden or struck through is meant to be taken.</summary>
    /// <returns>Why it is left out, or what is open; null where it is taken.</returns>
    public static (string? LeftOut, RowProblem? Open)? OfRow(SheetRow row, ImportMapping rules, string sheet)
    {
        if (row.IsHidden && rules.Of("hidden-rows") != "read")
        {
            return rules.Of("hidden-rows") == "leave-out" ? ("hidden; left out", null) : (null, new(RowSort.Questioned, "the row is hidden")
            {
                Question = new("hidden-rows", sheet, "Some rows are hidden. Read them?",
                    [new("Leave them out", "hidden-rows := leave-out"), new("Read them", "hidden-rows := read")]),
            });
        }
        if (!row.IsStruck || rules.Of("struck-rows") == "take") return null;
        return rules.Of("struck-rows") == "leave-out" ? ("struck through; left out", null)
            : (null, new(RowSort.Questioned, "the row is struck through", null, row.Cells.First(c => !c.IsBlank).Shown)
            {
                Question = new("struck-rows", sheet, "Some rows are struck through. Take them?",
                    [new("Leave them out", "struck-rows := leave-out"), new("Take them", "struck-rows := take")]),
            });
    }

    [GeneratedRegex(@"(?<![a-z])(?:old|obsolete|outdated|archive[ds]?|archiv|backup|copy|kopie|alt|veraltet|ancien(?:ne)?|perime|antiguo|viejo|vecchio|oud|do not use|not valid|draft|test)(?![a-z])")]
    private static partial Regex OldWords();
}

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

    public static ImportQuestion HiddenRows(string sheet) => new("hidden-rows", sheet, "Some rows are hidden. Read them?",
        [new("Leave them out", "hidden-rows := leave-out"), new("Read them", "hidden-rows := read")]);

    [GeneratedRegex(@"(?<![a-z])(?:old|obsolete|outdated|archive[ds]?|archiv|backup|copy|kopie|alt|veraltet|ancien(?:ne)?|perime|antiguo|viejo|vecchio|oud|do not use|not valid|draft|test)(?![a-z])")]
    private static partial Regex OldWords();
}

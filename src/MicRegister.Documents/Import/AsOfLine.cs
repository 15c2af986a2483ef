using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>A line above a table that says as of which day it speaks, such as <i>Stand: 1.3.2025</i>.</summary>
/// <param name="Text">The line.</param>
/// <param name="Days">Days that it can mean: one, or two where nothing tells day from month.</param>
internal sealed partial record AsOfLine(string Text, IReadOnlyList<DateOnly> Days)
{
    /// <summary>Key of the question that is asked where lines leave the day open.</summary>
    public const string Key = "as-of";

    private const int LongestLine = 120;
    private const int MostCells = 3;

    /// <summary>Whether a row is such a line.</summary>
    public static bool Is(SheetRow row) => Of(row, null) is not null;

    /// <summary>Reads a row; null where it is no such line.</summary>
    /// <param name="row">The row.</param>
    /// <param name="order">What slashes mean; null where nobody said.</param>
    public static AsOfLine? Of(SheetRow row, DateOrder? order)
    {
        if (row.Fault is not null) return null;
        var cells = row.Cells.Where(c => !c.IsBlank).Select(c => c.Shown).Distinct().Take(MostCells + 1).ToList();
        if (cells.Count is 0 or > MostCells) return null;
        var text = string.Join(' ', cells);
        if (text.Length > LongestLine || Line().Match(FoldedText.Of(text)) is not { Success: true } m) return null;
        var date = m.Groups[1].Value.Trim();
        if (DateText.TryRead(new(date), order, false, out var day) is null) return new(text, [day]);
        if (DateText.Both(date) is var (dayFirst, monthFirst)) return new(text, [dayFirst, monthFirst]);
        return MonthNames.ReadMonth(date) is { } month ? new(text, [month, month.AddMonths(1).AddDays(-1)]) : null;
    }

    /// <summary>The day as of which a file speaks, by such lines and its newest date; asked where they contradict each other.</summary>
    public static AsOfDay? Settle(IReadOnlyList<AsOfLine> lines, AsOfDay? newest, DateOnly today, FileReport report)
    {
        if (lines.Count == 0) return newest;
        var days = lines.SelectMany(l => l.Days).Distinct().Order().ToList();
        if (days is [var day] && day <= today && !(newest?.Day > day)) return new(day, false) { IsOfLine = true };
        if (newest is not null && !days.Contains(newest.Day)) days.Add(newest.Day);
        var choices = days.Where(d => d <= today).Select(d => new ImportChoice(
            FormattableString.Invariant($"{d:yyyy-MM-dd}{(d == newest?.Day ? ", its newest date of a calibration or inspection" : "")}"),
            FormattableString.Invariant($"as-of := {d:yyyy-MM-dd}"))).ToList();
        if (choices.Count == 0) return newest;
        report.Ask(new(Key, "", $"As of which day does the file speak? It says '{lines[0].Text}'"
            + (newest is null ? "." : FormattableString.Invariant($", and its newest date is {newest.Day:yyyy-MM-dd}.")), choices));
        return newest;
    }

    [GeneratedRegex(
        @"(?:^|[\s,;:(|/–-])(?:as\s+(?:of|at|per)|(?:status|state)\s+(?:on|at|of)|stand(?:\s+(?:vom|am|per))?|etat\s+(?:au|du)|situation\s+au|estado\s+(?:a|al|del?)|situacion\s+(?:a|al|del?)|stato\s+(?:al|del)|situazione\s+(?:al|del)|(?:stand|toestand|situatie)\s+(?:per|op|van))(?:\s*:\s*|\s+)((?=.*[0-9]{2})[^:()]{6,30}?)\s*[).]?\s*$")]
    private static partial Regex Line();
}

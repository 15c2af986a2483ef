using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Rows that are none of the table: totals, footnotes and titles.</summary>
internal static partial class NoRow
{
    /// <summary>Why a row is none; null where it is one. Totals and footnotes name no device and hold little else.</summary>
    public static string? Why(RowReader row)
    {
        var first = row.Row.Cells.FirstOrDefault(c => !c.IsBlank).Shown;
        if (IsSumWord(first)) return "a total";
        if (IsSentence(row)) return "a footnote";
        // "Page 1/2" in the column of the serial numbers, and nothing beside it.
        if (row.Header.Row.Cells.Count(c => !c.IsBlank) > 2 && RowHeading.Lone(row.Row) is { } lone && IsFooter(lone)) return "a footer";
        if (TableHeader.Naming.Any(c => row.Header.Places.ContainsKey(c) && row.Text(c) is not null)
            || row.Header.Devices.Any(d => row.Of(d).Text(Column.Serial) is not null)) return null;
        if (IsSum(first)) return "a total";
        if (IsFooter(first) && row.Row.Cells.Count(c => !c.IsBlank) <= 3) return "a footer";
        return row.Row.Cells.Select(c => c.Shown).Where(s => s.Length > 0).Distinct().Count() == 1 ? "a title or a footnote" : null;
    }

    // "* re-calibrated after repair" in the column of the serial numbers, and nothing beside it.
    private static bool IsSentence(RowReader row) => row.Header.Row.Cells.Count(c => !c.IsBlank) > 2 && RowHeading.Lone(row.Row) is { } text
        && (text[0] == '*' || text.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length > 3);

    private static bool IsSumWord(string text) => Column.Plain(text) is "total" or "sum" or "totals" or "summe" or "gesamt" or "count"
        or "anzahl" or "totale" or "totaal" or "suma" or "somme" or "somma" or "som" or "totaux" or "nombre" or "aantal" or "numero"
            or "subtotal" or "grand total" or "zwischensumme" or "gesamtsumme" or "gesamtanzahl" or "sous total" or "total general"
            or "totale generale" or "eindtotaal" or "subtotaal" or "subtotale" or "insgesamt";

    /// <summary>Whether a lone text is a total or a footer, and no heading.</summary>
    public static bool IsNoHeading(string text) => IsSum(text) || IsFooter(text);

    private static bool IsFooter(string text) => PageWords().IsMatch(FoldedText.Of(text));

    private static bool IsSum(string text) => IsSumWord(text)
        || (Column.Plain(text).IndexOf(' ', StringComparison.Ordinal) is var blank and > 0 && IsSumWord(Column.Plain(text)[..blank]));

    [GeneratedRegex(
        @"^(?:page|seite|pagina|pag\.?|blad|bladzijde|printed|gedruckt|imprime|impreso|stampato|afgedrukt|stand|version|rev|ausgedruckt|erstellt|created by|prepared by|edite le|etabli (?:par|le)|elaborado|redatto|compilato|opgesteld|unterschrift|signature|firma|handtekening|visa|geprueft|freigegeben von|legend|legende|leyenda|legenda|last update|mise a jour|aggiornato al|actualizado|bijgewerkt|letzte aktualisierung|as of|situation au|number of|nombre d[e']|numero d[ei]|cantidad de|stuckzahl|gesamtzahl|abbreviations?|abkurzungen|abreviations?|abreviaturas|abbreviazioni|afkortingen|verteiler|distribution list|end of (?:list|report|table)|ende der (?:liste|tabelle)|fin de (?:la )?list[ea]|fine (?:dell[ao] )?(?:elenco|lista)|einde (?:van de )?lijst)(?![a-z])")]
    private static partial Regex PageWords();
}

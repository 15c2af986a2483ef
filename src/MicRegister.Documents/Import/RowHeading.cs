using System.Collections.ObjectModel;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>A row that is nothing but a heading: it says of the rows below which kind they are, which size, or which device.</summary>
/// <param name="Kind">Kind of the rows below; null where it is not understood.</param>
/// <param name="Text">The heading.</param>
/// <param name="Says">What else it says of them.</param>
internal sealed partial record RowHeading(DeviceKind? Kind, string Text, IReadOnlyDictionary<Column, string> Says)
{
    private const int Longest = 80;

    /// <summary>The text of a row that holds one only, however often; null where it holds several or none.</summary>
    public static string? Lone(SheetRow row)
    {
        string? lone = null;
        foreach (var cell in row.Cells)
        {
            if (cell.IsBlank) continue;
            if (lone is not null && lone != cell.Shown) return null;
            lone = cell.Shown;
        }
        return lone is { Length: > 1 and <= Longest } ? lone : null;
    }

    /// <summary>Reads a heading; null where it names no kind and no device.</summary>
    public static RowHeading? Of(string text)
    {
        var device = Device().Match(text);
        var before = device.Success ? text[..device.Index] : text;
        var kind = Words.Kind(before.Trim(' ', ',', ':', ';', '(', '-', '–'));
        if (device.Success)
        {
            var says = new Dictionary<Column, string> { [Column.Serial] = device.Groups[1].Value };
            // What is left of "Microphone MK-50" without the words of a kind is the model.
            var words = before.Split([' ', ',', ':', ';', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
            var model = string.Join(' ', words.Where(w => w.Any(char.IsAsciiDigit) || (HeaderConcepts.Of(w) is { Concepts.Count: 0 }
                && words.Length > 1)));
            if (model.Length > 0) says[Column.Model] = model;
            return new(kind, text, says);
        }
        // "Lost microphones": the kind, and the state of those below.
        if (kind is null && Words.Status(HeaderReading.OtherWords(text)) is not null && text.Split(' ').Length <= 6
            && string.Join(' ', text.Split([' ', ',', ':', ';', '(', ')'], StringSplitOptions.RemoveEmptyEntries)
                .Except(HeaderReading.OtherWords(text).Split(' '))) is { Length: > 0 } only && Words.Kind(only) is { } told)
            return new(told, text, new Dictionary<Column, string> { [Column.Status] = HeaderReading.OtherWords(text) });
        // A sentence about microphones is a footnote.
        if (kind is null || text.Count(char.IsAsciiDigit) > 4 || text.EndsWith('.') || text.Split(' ').Length > 6) return null;
        var size = Size().Match(text);
        return new(kind, text, size.Success && kind.Has(DeviceField.SizeMm)
            ? new Dictionary<Column, string> { [Column.Fields[DeviceField.SizeMm]] = size.Value }
            : ReadOnlyDictionary<Column, string>.Empty);
    }

    /// <summary>
    /// The model that stands beside the words of a kind, and the maker in brackets behind it, as in <i>Microphone MK-50 (Orlevik)</i>; null
    /// where no model stands there, or the kind is not known.
    /// </summary>
    public static (string Model, string? Maker)? ModelIn(string text)
    {
        var maker = BehindModel().Match(text);
        var said = maker.Success ? text[..maker.Index] : text;
        if (said.Contains('(', StringComparison.Ordinal) || Words.Kind(said) is null || Device().IsMatch(text)) return null;
        var words = said.Split([' ', ',', ':', ';'], StringSplitOptions.RemoveEmptyEntries);
        var from = Array.FindIndex(words, w => w.Any(char.IsAsciiDigit) && MeasuredText.InchFraction(w) is null);
        if (from < 0) return null;
        // "V1/50" and "TS 4": a short word of capitals before the digits belongs to them.
        if (from > 0 && words[from - 1].Length <= 3 && words[from - 1].All(char.IsUpper)) from--;
        var isFirst = from == 0 && words.Length > 1 && Words.Kind(string.Join(' ', words[1..])) is not null;
        return (isFirst ? words[0] : string.Join(' ', words[from..]), maker.Success ? maker.Groups[1].Value : null);
    }

    /// <summary>
    /// A maker and a model in one cell without a mark between them, as in <i>Orlevik MK-50</i>: names hold no digits, and a model begins
    /// with the first word that does, or with a short one of capitals before it. Null where it is not so.
    /// </summary>
    public static (string Maker, string Model)? MakerAndModel(string text)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var from = Array.FindIndex(words, w => w.Any(char.IsAsciiDigit));
        if (from > 1 && words[from - 1].Length <= 3 && words[from - 1].All(char.IsUpper)) from--;
        return from < 1 || !words[..from].All(w => char.IsLetter(w[0])) ? null
            : (string.Join(' ', words[..from]), string.Join(' ', words[from..]));
    }

    /// <summary>Whether a text can be a heading at all: words, not a number, a date or a sentence.</summary>
    public static bool MayBeOne(string text) => text.Length <= 40 && text.Any(char.IsLetter) && text.Count(char.IsAsciiDigit) <= 3
        && !text.EndsWith('.') && !text.Contains(':', StringComparison.Ordinal);

    [GeneratedRegex(@"(?:serial(?:\s*(?:number|no\.?|nr\.?|#))?|s\s*/\s*n|sn|ser\.?\s*-?\s*(?:no\.?|nr\.?)|serien\s*-?\s*(?:nummer|nr\.?)|seriennummer|(?:n[°ºo]\.?|num[eé]ro|n[uú]mero)\s*(?:de|di)\s*s[eé]rie|matricola|serienummer|serienr\.?)\s*[:=]?\s*([A-Za-z]{0,4}[-/]?[0-9][A-Za-z0-9./-]*)", RegexOptions.IgnoreCase)]
    private static partial Regex Device();

    [GeneratedRegex(@"\s*\(([\p{L}][^()0-9]*)\)\s*$")]
    private static partial Regex BehindModel();

    [GeneratedRegex(@"[0-9]/[0-9]+\s*(?:""|''|″|”|in\b|inch|zoll|pouce|pulgada|pollic|duim)?|[½¼⅛]\s*(?:""|''|″|”)?|(?<![0-9])1\s*(?:""|''|″|”|inch|zoll)", RegexOptions.IgnoreCase)]
    private static partial Regex Size();
}

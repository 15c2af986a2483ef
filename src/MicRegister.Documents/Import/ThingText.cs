namespace MicRegister.Documents.Import;

/// <summary>What a text says of a device: its kind, its maker and its model, as in <i>Sound calibrator Orlevik CAL-94</i>.</summary>
internal static class ThingText
{
    private static readonly char[] Between = [' ', ',', ';', ':', '-', '–', '/'];

    /// <summary>Reads it; null where it names no kind first or behind a comma, or no model, or where what stands between may be no name.</summary>
    public static RowHeading? Of(string text)
    {
        // "Orlevik MK-50, Measuring microphone": what it is stands behind its name.
        if (text.LastIndexOf(',') is var comma and > 0 && Words.Kind(text[(comma + 1)..].Trim(Between)) is { } behind
            && RowHeading.MakerAndModel(text[..comma].Trim(Between)) is var (of, called) && char.IsUpper(of[0]) && Words.Kind(of) is null)
            return new(behind, text, new Dictionary<Column, string> { [Column.Maker] = of, [Column.Model] = called });
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var n = 1; n < words.Length; n++)
        {
            // "Mic preamplifier" and "micrófono de condensador" go on in small letters; a name does not begin with one.
            if (Words.Kind(string.Join(' ', words[..n]).Trim(Between)) is not { } kind
                || Named(string.Join(' ', words[n..]).Trim(Between)) is not var (maker, model)) continue;
            return new(kind, text, new Dictionary<Column, string> { [Column.Maker] = maker, [Column.Model] = model });
        }
        return null;
    }

    private static (string Maker, string Model)? Named(string text) =>
        RowHeading.MakerAndModel(text) is var (maker, model) && maker.Trim(Between) is { Length: > 1 } name && char.IsUpper(name[0])
            && Words.Kind(name) is null && Words.Status(name) is null && HeaderConcepts.Of(name) is { HasSlip: false } concepts
            && (concepts.Concepts.Count == 0 || concepts.Unknown > 0) && model.Count(c => c == ' ') <= 1 ? (name, model) : null;
}

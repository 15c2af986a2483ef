using System.Globalization;

namespace MicRegister.Documents.Labels;

/// <summary>Where labels stand on a sheet or a tape, and what stands on each, in millimetres. Data, not code: one file a layout in <c>labels</c>.</summary>
/// <param name="Name">Name of the layout: that of its file.</param>
/// <param name="Title">What it is for.</param>
/// <param name="PageWidthMm">Width of the sheet; of a tape that of the tape.</param>
/// <param name="PageHeightMm">Height of the sheet; of a tape the length of a label.</param>
/// <param name="Columns">Labels beside one another.</param>
/// <param name="Rows">Labels below one another.</param>
/// <param name="LeftMm">Left edge of the first label.</param>
/// <param name="TopMm">Top edge of the first label.</param>
/// <param name="StepXMm">From one label to the next beside it.</param>
/// <param name="StepYMm">From one label to the next below it.</param>
/// <param name="WidthMm">Width of a label.</param>
/// <param name="HeightMm">Height of a label.</param>
/// <param name="CodeMm">Side of the code without its quiet zone.</param>
/// <param name="Level">Error correction: L, M, Q or H.</param>
/// <param name="IsAddress">Whether the code holds an address that a phone opens, or the bare code.</param>
/// <param name="IsBeside">Whether texts stand beside the code, or below it.</param>
/// <param name="TextMm">Height of the texts; the code's own is larger by a quarter.</param>
/// <param name="Fields">What stands on it beside the code: kind, model, serial, response, owner, campaign, station.</param>
/// <param name="DotsPerInch">Printers that it is made for.</param>
/// <param name="Codes">How often the code stands on it: a flag has one on either side.</param>
public sealed record LabelLayout(
    string Name, string Title, double PageWidthMm, double PageHeightMm, int Columns, int Rows, double LeftMm, double TopMm, double StepXMm, double StepYMm, double WidthMm, double HeightMm,
    double CodeMm, char Level, bool IsAddress, bool IsBeside, double TextMm, IReadOnlyList<string> Fields, IReadOnlyList<int> DotsPerInch, int Codes)
{
    /// <summary>What can stand on a label.</summary>
    public static IReadOnlyList<string> KnownFields { get; } = ["kind", "model", "serial", "response", "owner", "campaign", "station"];

    public int PerPage => Columns * Rows;

    /// <summary>Reads a layout.</summary>
    /// <param name="text">Lines of key = value; what follows a # is a remark.</param>
    /// <param name="name">Name of the file without its ending.</param>
    /// <exception cref="FormatException">A line is out of shape, or the labels do not fit the page; the message names file, line and value.</exception>
    public static LabelLayout Read(string text, string name)
    {
        var values = new Dictionary<string, (string Value, int Line)>(StringComparer.OrdinalIgnoreCase);
        var line = 0;
        foreach (var raw in text.Split('\n'))
        {
            line++;
            var plain = raw.Split('#')[0].Trim();
            if (plain.Length == 0) continue;
            var cut = plain.IndexOf('=', StringComparison.Ordinal);
            if (cut < 1) throw new FormatException($"{name}, line {line}: '{plain}' is no 'key = value'.");
            values[plain[..cut].Trim()] = (plain[(cut + 1)..].Trim(), line);
        }
        double Mm(string key, double? otherwise = null, double least = 0.1, double greatest = 2000)
        {
            if (!values.Remove(key, out var v)) return otherwise ?? throw new FormatException($"{name}: '{key}' is missing.");
            return double.TryParse(v.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var n) && n >= least && n <= greatest ? n
                : throw new FormatException($"{name}, line {v.Line}: {key} '{v.Value}': allowed is a number from {least} to {greatest}.");
        }
        string Word(string key, string otherwise, params string[] allowed)
        {
            if (!values.Remove(key, out var v)) return otherwise;
            return allowed.Length == 0 || allowed.Contains(v.Value) ? v.Value : throw new FormatException($"{name}, line {v.Line}: {key} '{v.Value}': allowed are {string.Join(", ", allowed)}.");
        }
        var title = Word("title", name);
        double pageWidth = Mm("page-width"), pageHeight = Mm("page-height"), width = Mm("width"), height = Mm("height");
        int columns = (int)Mm("columns", 1, 1, 50), rows = (int)Mm("rows", 1, 1, 100);
        double left = Mm("left", 0, 0), top = Mm("top", 0, 0), stepX = Mm("step-x", width), stepY = Mm("step-y", height);
        var layout = new LabelLayout(
            name, title, pageWidth, pageHeight, columns, rows, left, top, stepX, stepY, width, height, Mm("code"), Word("level", "M", "L", "M", "Q", "H")[0], Word("content", "address", "address", "code") == "address",
            Word("texts", "beside", "beside", "below") == "beside", Mm("text", 2.2, 0.8, 30), [.. Word("fields", "kind, serial").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)],
            [.. Word("dpi", "300").Split(',', StringSplitOptions.TrimEntries).Select(d => int.TryParse(d, NumberStyles.None, CultureInfo.InvariantCulture, out var n) && n is >= 100 and <= 2400 ? n : throw new FormatException($"{name}: dpi '{d}': allowed is a whole number from 100 to 2400."))],
            (int)Mm("codes", 1, 1, 2));
        if (values.Count > 0) throw new FormatException($"{name}, line {values.First().Value.Line}: '{values.First().Key}' is not known.");
        if (layout.Fields.FirstOrDefault(f => !KnownFields.Contains(f)) is { } unknown) throw new FormatException($"{name}: field '{unknown}': allowed are {string.Join(", ", KnownFields)}.");
        const double Slack = 0.01;
        if (left + ((columns - 1) * stepX) + width > pageWidth + Slack || top + ((rows - 1) * stepY) + height > pageHeight + Slack) throw new FormatException($"{name}: {columns} × {rows} labels of {width} × {height} mm do not fit a page of {pageWidth} × {pageHeight} mm.");
        if (layout.CodeMm > Math.Min(width, height) + Slack) throw new FormatException($"{name}: a code of {layout.CodeMm} mm does not fit a label of {width} × {height} mm.");
        return layout;
    }
}

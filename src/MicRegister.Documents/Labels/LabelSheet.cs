using System.Globalization;
using MicRegister.Documents.Drawings;
using MicRegister.Register.Labels;
using QRCoder;

namespace MicRegister.Documents.Labels;

/// <summary>One label to be printed.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Values">What stands on it, by field; a field that is missing is left out.</param>
public sealed record LabelContent(LabelCode Code, IReadOnlyDictionary<string, string> Values);

/// <summary>Labels on sheets: plain drawings in millimetres, a page each.</summary>
public static class LabelSheet
{
    /// <summary>Quiet zone around a code, in modules (ISO/IEC 18004; seen in the documentation of several toolkits).</summary>
    public const int QuietModules = 4;

    /// <summary>Smaller modules than this a phone hardly reads outdoors, in mm (common guidance, no source).</summary>
    public const double LeastModuleMm = 0.29;

    /// <summary>Begin of the address where nobody chose one.</summary>
    public const string UsualAddress = "HTTPS://REGISTER.LAN/L/";

    private const double Padding = 1;

    /// <summary>Draws the pages.</summary>
    /// <param name="layout">Where labels stand.</param>
    /// <param name="labels">What is printed, in order.</param>
    /// <param name="address">Begin of the address that a code holds, for example HTTPS://REGISTER.LAN/L/; used where the layout asks for one.</param>
    /// <param name="first">Position of the first label on a used sheet, from 1.</param>
    /// <param name="dotsPerInch">Resolution of the printer: modules become a whole number of its dots, so that the code shrinks a little; null prints it in its full size.</param>
    /// <exception cref="ArgumentException">The position is not on the sheet, or the address has characters that a compact code cannot hold.</exception>
    public static IReadOnlyList<Drawing> Pages(LabelLayout layout, IReadOnlyList<LabelContent> labels, string address, int first = 1, int? dotsPerInch = null)
    {
        if (first < 1 || first > layout.PerPage) throw new ArgumentException($"Position {first}: allowed is a whole number from 1 to {layout.PerPage}.", nameof(first));
        if (layout.IsAddress && !address.All(c => char.IsAsciiDigit(c) || char.IsAsciiLetterUpper(c) || " $%*+-./:".Contains(c, StringComparison.Ordinal))) throw new ArgumentException($"Address '{address}': allowed are capital letters, digits and $%*+-./: so that the code stays small.", nameof(address));
        var pages = new List<Drawing>();
        for (var at = 0; at < labels.Count || pages.Count == 0;)
        {
            var shapes = new List<Shape>();
            for (var place = pages.Count == 0 ? first - 1 : 0; place < layout.PerPage && at < labels.Count; place++, at++)
                Label(shapes, layout, labels[at], address, dotsPerInch, layout.LeftMm + (place % layout.Columns * layout.StepXMm), layout.TopMm + (place / layout.Columns * layout.StepYMm));
            pages.Add(new(layout.PageWidthMm, layout.PageHeightMm, $"{layout.Title}, page {pages.Count + 1}", shapes));
            if (labels.Count == 0) break;
        }
        return pages;
    }

    /// <summary>Side of a module as printed, in mm.</summary>
    public static double ModuleMm(LabelLayout layout, string address) => layout.CodeMm / Matrix(layout, default, address).Count;

    /// <summary>Version of the code: 1 and 2 are small enough for what labels have room for.</summary>
    public static int Version(LabelLayout layout, string address) => (Matrix(layout, default, address).Count - 17) / 4;

    /// <summary>What a person should know before printing; null where nothing.</summary>
    public static string? Warning(LabelLayout layout, string address) => Version(layout, address) > 2 ? $"This address makes a code of version {Version(layout, address)}; shorten it, so that version 2 holds it." : ModuleMm(layout, address) is var module && module < LeastModuleMm
        ? string.Create(CultureInfo.InvariantCulture, $"A module of this code is {module:0.00} mm wide; under {LeastModuleMm} mm a phone hardly reads it outdoors. Shorten the address, or take the bare code.") : null;

    private static void Label(List<Shape> shapes, LabelLayout layout, LabelContent label, string address, int? dotsPerInch, double x, double y)
    {
        var matrix = Matrix(layout, label.Code, address);
        // A module that is no whole number of dots is now wider, now narrower; where the printer is known, it is one.
        var dot = dotsPerInch is { } dpi ? 25.4 / dpi : 0;
        var module = dot > 0 ? Math.Max(1, Math.Floor((layout.CodeMm / matrix.Count / dot) + 1e-6)) * dot : layout.CodeMm / matrix.Count;
        var codeMm = module * matrix.Count;
        var quiet = Math.Min(QuietModules * module, Math.Max(0, (Math.Min(layout.WidthMm, layout.HeightMm) - layout.CodeMm) / 2));
        var part = layout.WidthMm / layout.Codes;
        for (var side = 0; side < layout.Codes; side++)
        {
            double left = x + (side * part) + Math.Max(quiet, Padding), top = layout.IsBeside ? y + ((layout.HeightMm - layout.CodeMm) / 2) : y + Math.Max(quiet, Padding);
            if (!layout.IsBeside) left = x + (side * part) + ((part - layout.CodeMm) / 2);
            (left, top) = (left + ((layout.CodeMm - codeMm) / 2), top + ((layout.CodeMm - codeMm) / 2));
            if (dot > 0) (left, top) = (Math.Round(left / dot) * dot, Math.Round(top / dot) * dot);
            Code(shapes, matrix, left, top, module);
            List<(string Text, double Size)> lines = [(label.Code.Spoken, layout.TextMm * 1.25), .. layout.Fields.Where(label.Values.ContainsKey).Select(f => (label.Values[f], layout.TextMm))];
            double textX = layout.IsBeside ? left + layout.CodeMm + quiet + Padding : x + (side * part) + (part / 2);
            var textY = layout.IsBeside ? y + ((layout.HeightMm - lines.Sum(l => l.Size * 1.3)) / 2) : top + layout.CodeMm + Math.Max(quiet, Padding);
            foreach (var (text, size) in lines)
            {
                textY += size * 1.3;
                // What does not fit is not printed over its neighbour.
                if (textY > y + layout.HeightMm) break;
                shapes.Add(new Label(Role.Ink, textX, textY - (size * 0.3), Fitted(text, size, layout.IsBeside ? x + ((side + 1) * part) - textX - Padding : part - (2 * Padding)), layout.IsBeside ? -1 : 0, size));
            }
        }
    }

    // Dark modules of a row that touch are one rectangle: no hairlines between them.
    private static void Code(List<Shape> shapes, List<System.Collections.BitArray> matrix, double left, double top, double module)
    {
        for (var row = 0; row < matrix.Count; row++)
        {
            for (var column = 0; column < matrix.Count; column++)
            {
                if (!matrix[row][column]) continue;
                var begin = column;
                while (column < matrix.Count && matrix[row][column]) column++;
                double x1 = left + (begin * module), x2 = left + (column * module), y1 = top + (row * module), y2 = y1 + module;
                shapes.Add(new Line(Role.Code, [(x1, y1), (x2, y1), (x2, y2), (x1, y2)], IsArea: true));
            }
        }
    }

    /// <summary>How many modules of a code are dark, its quiet zone left out.</summary>
    /// <param name="text">What it holds.</param>
    /// <param name="level">L, M, Q or H.</param>
    public static int DarkModules(string text, char level)
    {
        var dark = 0;
        foreach (var row in Matrix(text, level))
        {
            for (var column = 0; column < row.Count; column++) dark += row[column] ? 1 : 0;
        }
        return dark;
    }

    private static List<System.Collections.BitArray> Matrix(LabelLayout layout, LabelCode code, string address) => Matrix((layout.IsAddress ? address : "") + (code.Text ?? "000000000"), layout.Level);

    private static List<System.Collections.BitArray> Matrix(string text, char level)
    {
        using var data = QRCodeGenerator.GenerateQrCode(text, level switch { 'L' => QRCodeGenerator.ECCLevel.L, 'Q' => QRCodeGenerator.ECCLevel.Q, 'H' => QRCodeGenerator.ECCLevel.H, _ => QRCodeGenerator.ECCLevel.M });
        // The generator brings its own quiet zone; ours is part of the layout.
        var all = data.ModuleMatrix;
        var size = all.Count - (2 * QuietModules);
        var matrix = new List<System.Collections.BitArray>(size);
        for (var row = 0; row < size; row++)
        {
            var (from, to) = (all[row + QuietModules], new System.Collections.BitArray(size));
            for (var column = 0; column < size; column++) to[column] = from[column + QuietModules];
            matrix.Add(to);
        }
        return matrix;
    }

    private static string Fitted(string text, double sizeMm, double widthMm)
    {
        const double CharacterShare = 0.52; // mean width of a character of the typeface in its height, on the safe side
        var most = Math.Max(1, (int)(widthMm / (sizeMm * CharacterShare)));
        return text.Length <= most ? text : most > 2 ? text[..(most - 1)] + "…" : text[..most];
    }
}

using System.Globalization;
using System.Net;
using System.Text;

namespace MicRegister.Documents.Drawings;

/// <summary>Paints a drawing as an SVG file of its own, with its colours inside.</summary>
public static class SvgPainter
{
    /// <summary>Path of a mark's form around its place.</summary>
    public static string Form(Mark m)
    {
        var h = m.SizeMm / 2;
        return m.Form switch
        {
            MarkForm.Disc => $"M{N(m.X - h)} {N(m.Y)}a{N(h)} {N(h)} 0 1 0 {N(2 * h)} 0a{N(h)} {N(h)} 0 1 0 {N(-2 * h)} 0z",
            MarkForm.Triangle => $"M{N(m.X)} {N(m.Y - h)}L{N(m.X + h)} {N(m.Y + h)}H{N(m.X - h)}z",
            MarkForm.Square => $"M{N(m.X - h)} {N(m.Y - h)}h{N(2 * h)}v{N(2 * h)}h{N(-2 * h)}z",
            MarkForm.Diamond => $"M{N(m.X)} {N(m.Y - h)}L{N(m.X + h)} {N(m.Y)}L{N(m.X)} {N(m.Y + h)}L{N(m.X - h)} {N(m.Y)}z",
            MarkForm.Plus => $"M{N(m.X - h)} {N(m.Y)}h{N(2 * h)}M{N(m.X)} {N(m.Y - h)}v{N(2 * h)}",
            _ => $"M{N(m.X - h)} {N(m.Y - h)}L{N(m.X + h)} {N(m.Y + h)}M{N(m.X + h)} {N(m.Y - h)}L{N(m.X - h)} {N(m.Y + h)}",
        };
    }

    /// <summary>Whether a mark's form is lines that enclose nothing, so that it is drawn and not filled.</summary>
    public static bool IsOpen(Mark mark) => mark.Form is MarkForm.Cross or MarkForm.Plus;

    /// <summary>Path of a line.</summary>
    public static string Path(Line line) => string.Concat(line.Points.Select((p, i) => $"{(i == 0 ? 'M' : 'L')}{N(p.X)} {N(p.Y)}")) + (line.IsArea ? "z" : "");

    /// <summary>A number as SVG takes it.</summary>
    public static string N(double value) => Math.Round(value, 3).ToString(CultureInfo.InvariantCulture);

    /// <summary>Name of a role for style sheets.</summary>
    public static string Class(Role role) => "d-" + role.ToString().ToLowerInvariant();

    public static string Paint(Drawing drawing)
    {
        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{N(drawing.WidthMm)}mm\" height=\"{N(drawing.HeightMm)}mm\" viewBox=\"0 0 {N(drawing.WidthMm)} {N(drawing.HeightMm)}\" role=\"img\"><title>{Text(drawing.Title)}</title><style>{Style}</style>");
        foreach (var shape in drawing.Shapes)
        {
            svg.Append(shape switch
            {
                Line line => $"<path class=\"{Class(line.Role)}{(line.IsArea ? " area" : "")}\" d=\"{Path(line)}\"/>",
                Label label => $"<text class=\"{Class(label.Role)}\" x=\"{N(label.X)}\" y=\"{N(label.Y)}\" font-size=\"{N(label.SizeMm)}\" text-anchor=\"{Anchor(label)}\">{Text(label.Text)}</text>",
                Mark mark => $"<path class=\"mark {Class(mark.Role)}{(IsOpen(mark) ? " open" : "")}\" d=\"{Form(mark)}\"><title>{Text(mark.Tip)}</title></path>",
                _ => "",
            });
        }
        return svg.Append("</svg>").ToString();
    }

    public static string Anchor(Label label) => label.Align switch
    {
        < 0 => "start",
        0 => "middle",
        _ => "end",
    };

    private const string Style =
        "path{fill:none;stroke:#16202a;stroke-width:.3}text{font-family:sans-serif;fill:#16202a;stroke:none}.d-grid{stroke:#d5dbe1;stroke-width:.2}.d-quiet{fill:#55626f;stroke:#55626f}.d-limit{stroke:#a3182a;stroke-dasharray:1.5 1}.d-band.area{fill:#2a4d8f;fill-opacity:.15;stroke:none}.d-forecast{stroke:#2a4d8f;stroke-dasharray:2 1}.mark{fill:#16202a;stroke:none}.mark.open{fill:none;stroke:#16202a;stroke-width:.5}.mark.d-ready{fill:#0a6b3d}.mark.d-risk{fill:#8a5a00}.mark.d-stop{fill:#a3182a}.mark.d-undecided{fill:none;stroke:#2a4d8f}.mark.d-annulled{fill:none;stroke:#55626f}.mark.d-check{fill:none;stroke:#55626f}.d-change{stroke:#8a5a00;stroke-dasharray:.8 .8}.d-span.area{fill:#55626f;fill-opacity:.25;stroke:none}.d-value{stroke-width:.2}.d-code.area{fill:#000;stroke:none;shape-rendering:crispEdges}";

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}

using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Drawings;

/// <summary>
/// One thing in the middle, what it rests on at its left, what rests on it at its right: each a box that can be gone to, joined to
/// the middle by a line from edge to edge. What is not valid comes first, then what is doubtful.
/// </summary>
public static class GraphPicture
{
    /// <summary>So many of a column are drawn where nothing stands against them; what is doubtful or not valid is drawn beyond.</summary>
    public const int Most = 24;

    /// <summary>More are drawn on no account: what is left out is counted.</summary>
    public const int MostGrave = 300;

    private const double Width = 200, RowMm = 7, BoxMm = 5.8, Top = 4;
    private const double LeftX = 1, SideMm = 62, MiddleX = 76, MiddleMm = 48, RightX = 137;
    private const double MarkMm = 3.2, TextMm = 2.7, HereMm = 3.2;
    private const int MostLines = 4;
    private const double MostHereMm = 60;

    /// <summary>Draws the neighbourhood.</summary>
    public static Drawing Of(TraceGraph graph)
    {
        var (below, above) = (Drawn(graph.RestsOn), Drawn(graph.Bears));
        string left = LeftOut(graph.RestsOn, below, 0), more = LeftOut(graph.Bears, above, graph.Left);
        var lines = TextWidth.Lines(graph.Here.Label, HereMm, MiddleMm - 8).Take(MostLines).ToList();
        var hereMm = Math.Max(BoxMm, 3 + (lines.Count * HereMm * 1.35));
        var rows = Math.Max(1, Math.Max(below.Count + (left.Length > 0 ? 1 : 0), above.Count + (more.Length > 0 ? 1 : 0)));
        var height = Math.Max(rows * RowMm, hereMm) + (2 * Top);
        var shapes = new List<Shape>();
        // In sight where one begins to read, however long a column is.
        var here = Math.Min(height / 2, MostHereMm);
        var hereTop = here - (hereMm / 2);
        AddColumn(shapes, below, left, LeftX, here, i => ((MiddleX, Entry(i, below.Count)), LeftX + SideMm));
        AddColumn(shapes, above, more, RightX, here, i => ((MiddleX + MiddleMm, Entry(i, above.Count)), RightX));
        AddBox(shapes, MiddleX, hereTop, MiddleMm, hereMm);
        var (role, form) = Look(graph.Here);
        shapes.Add(new Mark(role, MiddleX + 3.4, here, 4.4, form, "", Words(graph.Here)));
        for (var i = 0; i < lines.Count; i++)
        {
            var y = here + 1.1 + ((i - ((lines.Count - 1) / 2.0)) * HereMm * 1.35);
            shapes.Add(new Label(Role.Ink, MiddleX + 6.6, y, lines[i], -1, HereMm));
        }
        return new(
            Width, height,
            $"{graph.Here.Label}: rests on {graph.RestsOn.Count}{(left.Length > 0 ? $" ({left})" : "")}, "
            + $"bears {graph.Bears.Count + graph.Left}{(more.Length > 0 ? $" ({more})" : "")}",
            shapes);

        // Lines come in all along the side of the middle, so that they can be told apart.
        double Entry(int i, int count) => hereTop + (hereMm * (i + 1) / (count + 1));
    }

    /// <summary>What is drawn of a column: the gravest first, all that is doubtful or not valid before anything is left out.</summary>
    public static IReadOnlyList<GraphNode> Drawn(IReadOnlyList<GraphNode> nodes)
    {
        var grave = nodes.Count(n => n.Verdict is not (null or TraceVerdict.Valid));
        return [.. nodes.OrderByDescending(n => n.Verdict ?? TraceVerdict.Valid).Take(Math.Min(Math.Max(Most, grave), MostGrave))];
    }

    /// <summary>How many are not drawn and what they are; empty where all are drawn.</summary>
    /// <param name="nodes">The column.</param>
    /// <param name="drawn">What is drawn of it.</param>
    /// <param name="further">How many more there are that the graph itself left out.</param>
    public static string LeftOut(IReadOnlyList<GraphNode> nodes, IReadOnlyList<GraphNode> drawn, int further)
    {
        List<GraphNode> rest = [.. nodes.Except(drawn, ReferenceEqualityComparer.Instance).Cast<GraphNode>()];
        var count = rest.Count + further;
        if (count == 0) return "";
        if (rest.Count == 0 || rest.Exists(n => n.Verdict is null)) return $"and {count} more";
        var sorts = rest.GroupBy(n => n.Verdict!.Value).OrderByDescending(g => g.Key).ToList();
        return sorts.Count == 1
            ? $"and {count} more, {(count == 1 ? "" : "all ")}{sorts[0].Key.InWords}"
            : $"and {count} more: {string.Join(", ", sorts.Select(g => $"{g.Count()} {g.Key.InWords}"))}";
    }

    /// <summary>Colour and form of a node; a verdict has the one that it has on every page.</summary>
    private static (Role Role, MarkForm Form) Look(GraphNode node)
    {
        if (node.Verdict is { } verdict)
        {
            var (role, form, _) = ArrayMap.Look(verdict);
            return (role, form);
        }
        return node.Kind switch
        {
            // Discs, triangles, squares and hollow rhombi beside stations are verdicts.
            "event" or "campaign" => (Role.Ink, MarkForm.Plus),
            "check" => (Role.Check, MarkForm.Disc),
            "certificate" => (Role.Forecast, MarkForm.Diamond),
            "person" => (Role.Quiet, MarkForm.Diamond),
            "placement" when node.IsSwapped => SwapLook,
            _ => (Role.Ink, MarkForm.Disc),
        };
    }

    /// <summary>A swap is a cross, here and on the chart of a day.</summary>
    internal static (Role Role, MarkForm Form) SwapLook => (Role.Ink, MarkForm.Cross);

    private static void AddColumn(
        List<Shape> shapes, IReadOnlyList<GraphNode> nodes, string leftOut, double x, double here,
        Func<int, ((double X, double Y) Middle, double Edge)> join)
    {
        var rows = nodes.Count + (leftOut.Length > 0 ? 1 : 0);
        var y = Math.Max(Top, here - (rows * RowMm / 2)) + (RowMm / 2);
        for (var i = 0; i < nodes.Count; i++, y += RowMm)
        {
            var (middle, edge) = join(i);
            shapes.Add(new Line(Role.Quiet, [(edge, y), middle]));
            AddBox(shapes, x, y - (BoxMm / 2), SideMm, BoxMm);
            Add(shapes, nodes[i], x, y);
        }
        if (leftOut.Length > 0) shapes.Add(new Label(Role.Quiet, x + 6, y + 1, leftOut, -1, TextMm));
    }

    private static void Add(List<Shape> shapes, GraphNode node, double x, double y)
    {
        var (role, form) = Look(node);
        var key = $"{node.Kind}/{node.Id}";
        shapes.Add(new Mark(role, x + 3, y, MarkMm, form, key, Words(node)));
        var room = SideMm - 7;
        if (node.Verdict is not null)
        {
            // Shape and word beside each other: no colour is needed.
            shapes.Add(new Label(Role.Ink, x + 5.8, y + 1, Short(Words(node), TextMm, room), -1, TextMm));
            if (node.IsSwapped)
                shapes.Add(new Mark(SwapLook.Role, x + SideMm - 3, y, MarkMm, SwapLook.Form, key, $"{node.Label}: a part was swapped"));
            return;
        }
        shapes.Add(new Label(Role.Ink, x + 5.8, node.Detail.Length > 0 ? y + 0.2 : y + 1, Short(node.Label, TextMm, room), -1, TextMm));
        if (node.Detail.Length > 0) shapes.Add(new Label(Role.Quiet, x + 5.8, y + 2.3, Short(node.Detail, 2, room), -1, 2));
    }

    private static string Words(GraphNode node) => node.Detail.Length > 0 ? $"{node.Label}, {node.Detail}" : node.Label;

    // What is too long loses its middle: a certificate's day stands at the end of its words.
    private static string Short(string text, double sizeMm, double widthMm)
    {
        if (TextWidth.Mm(text, sizeMm) <= widthMm) return text;
        var (first, last) = (text.Length / 2, text.Length / 2);
        while (first > 1 && TextWidth.Mm(text[..first] + "…" + text[last..], sizeMm) > widthMm)
        {
            first--;
            last++;
        }
        return text[..first] + "…" + text[last..];
    }

    private static void AddBox(List<Shape> shapes, double x, double y, double width, double height) => shapes.Add(new Line(
        Role.Axis, [(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)]));
}

using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Drawings;

/// <summary>One thing in the middle, what it rests on at its left, what rests on it at its right: each can be gone to.</summary>
public static class GraphPicture
{
    private const double Width = 200, RowMm = 7, Top = 6;
    private const double LeftX = 6, MiddleX = 100, RightX = 146;
    private const int Most = 24;
    private const int Letters = 38; // a certificate's day stands at the end of its words

    /// <summary>Draws the neighbourhood.</summary>
    public static Drawing Of(TraceGraph graph)
    {
        var (below, above) = (graph.RestsOn.Take(Most).ToList(), graph.Bears.Take(Most).ToList());
        var rows = Math.Max(1, Math.Max(below.Count, above.Count));
        double height = Top + (rows * RowMm) + 4, middle = Top + (rows * RowMm / 2) - (RowMm / 2) + 2;
        var shapes = new List<Shape>();
        foreach (var (_, y) in Column(below, rows)) shapes.Add(new Line(Role.Quiet, [(LeftX + 52, y), (MiddleX - 30, middle)]));
        foreach (var (_, y) in Column(above, rows)) shapes.Add(new Line(Role.Quiet, [(MiddleX + 36, middle), (RightX - 3, y)]));
        Add(shapes, graph.Here, MiddleX - 26, middle, isHere: true);
        foreach (var (node, y) in Column(below, rows)) Add(shapes, node, LeftX, y, isHere: false);
        foreach (var (node, y) in Column(above, rows)) Add(shapes, node, RightX, y, isHere: false);
        return new(Width, height, $"{graph.Here.Label}: rests on {graph.RestsOn.Count}, bears {graph.Bears.Count + graph.Left}", shapes);
    }

    private static IEnumerable<(GraphNode Node, double Y)> Column(List<GraphNode> nodes, int rows)
    {
        var first = Top + ((rows - nodes.Count) * RowMm / 2) + 2;
        return nodes.Select((n, i) => (n, first + (i * RowMm)));
    }

    private static void Add(List<Shape> shapes, GraphNode node, double x, double y, bool isHere)
    {
        var (role, form) = node.Kind switch
        {
            "event" => (Role.Value, MarkForm.Square),
            "check" => (Role.Check, MarkForm.Disc),
            "certificate" => (Role.Forecast, MarkForm.Diamond),
            "person" => (Role.Quiet, MarkForm.Diamond),
            "station" => node.Detail switch
            {
                "valid" => (Role.Ready, MarkForm.Disc),
                "doubtful" => (Role.Risk, MarkForm.Triangle),
                "undecided" => (Role.Undecided, MarkForm.Diamond),
                _ => (Role.Stop, MarkForm.Square),
            },
            _ => (Role.Ink, MarkForm.Disc),
        };
        var text = node.Label.Length > Letters ? node.Label[..(Letters - 1)] + "…" : node.Label;
        shapes.Add(new Mark(role, x, y, isHere ? 4.4 : 3.2, form, isHere ? "" : $"{node.Kind}/{node.Id}", $"{node.Label}{(node.Detail.Length > 0 ? ", " + node.Detail : "")}"));
        shapes.Add(new Label(Role.Ink, x + 3.4, y + 1, text, -1, isHere ? 3.2 : 2.7));
        if (node.Detail.Length > 0) shapes.Add(new Label(Role.Quiet, x + 3.4, y + 3.4, node.Detail, -1, 2));
    }
}

using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using MicRegister.Documents.Drawings;
using MicRegister.Register;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Tests;

/// <summary>What is grave stands first and is never left out, and lines end where the boxes are.</summary>
public sealed partial class GraphPictureTests
{
    private const double Mm = 2e-3; // the file holds thousandths

    [Fact]
    public void Of_72_stations_those_against_which_something_stands_come_first_and_the_rest_is_counted()
    {
        var register = FactList.RegisterOf([.. LargeArray.Facts(72, 1, @unchecked: [70, 71], empty: [72], swapped: [69])]);
        var graph = TraceGraph.Around(register, "event", LargeArray.Event(0))!;

        var drawn = GraphPicture.Drawn(graph.RestsOn);
        Assert.Equal(72, graph.RestsOn.Count);
        Assert.Equal(["S072", "S069", "S070", "S071", "S001"], drawn.Take(5).Select(n => n.Label));
        var picture = GraphPicture.Of(graph);
        var left = Assert.Single(picture.Shapes.OfType<Label>(), l => l.Text.StartsWith("and ", StringComparison.Ordinal));
        Assert.Equal("and 48 more, all valid", left.Text); // 72 without the 24 that are drawn
        Assert.Contains("and 48 more, all valid", picture.Title, StringComparison.Ordinal);

        // Shape and word, so that no colour is needed; a swap has a mark of its own.
        Mark Of(string station) => picture.Shapes.OfType<Mark>().First(m => m.Tip.StartsWith(station, StringComparison.Ordinal));
        Assert.Equal((MarkForm.Square, "S072, not valid"), (Of("S072").Form, Of("S072").Tip));
        Assert.Equal((MarkForm.Triangle, "S070, doubtful"), (Of("S070").Form, Of("S070").Tip));
        Assert.Equal((MarkForm.Disc, "S001, valid"), (Of("S001").Form, Of("S001").Tip));
        Assert.Contains(picture.Shapes.OfType<Label>(), l => l.Text == "S070, doubtful");
        Assert.Equal("S069: a part was swapped", Assert.Single(picture.Shapes.OfType<Mark>(), m => m.Form == MarkForm.Cross).Tip);
    }

    [Theory]
    [InlineData(72, 60, 60)] // all that are not valid are drawn, however many they are
    [InlineData(72, 10, 24)]
    [InlineData(20, 0, 20)]
    [InlineData(1000, 900, 300)]
    public void All_that_is_grave_is_drawn_as_far_as_a_picture_holds_it(int stations, int grave, int drawn)
    {
        List<GraphNode> nodes = [.. Enumerable.Range(0, stations).Select(i => Node(i, i >= stations - grave ? TraceVerdict.NotValid : TraceVerdict.Valid))];

        var shown = GraphPicture.Drawn(nodes);
        Assert.Equal(drawn, shown.Count);
        Assert.Equal(Math.Min(grave, drawn), shown.Count(n => n.Verdict == TraceVerdict.NotValid));
        Assert.Equal(
            stations switch { 1000 => "and 700 more: 600 not valid, 100 valid", 20 => "", _ => $"and {stations - drawn} more, all valid" },
            GraphPicture.LeftOut(nodes, shown, 0));
    }

    [Fact]
    public void What_has_no_verdict_is_counted_only_with_what_the_graph_left_out()
    {
        List<GraphNode> nodes = [.. Enumerable.Range(0, 30).Select(i => new GraphNode("check", $"{i}", $"Check {i}", "today"))];

        Assert.Equal("and 18 more", GraphPicture.LeftOut(nodes, GraphPicture.Drawn(nodes), 12)); // 30 - 24 + 12
        Assert.Equal("and 12 more", GraphPicture.LeftOut(nodes[..3], GraphPicture.Drawn(nodes[..3]), 12));
        Assert.Equal("and 1 more, valid", GraphPicture.LeftOut([Node(1, TraceVerdict.Valid)], [], 0));
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 0)]
    [InlineData(3, 40)]
    [InlineData(24, 5)]
    [InlineData(80, 1)]
    public void Each_line_runs_from_the_edge_of_a_box_to_the_edge_of_the_box_in_the_middle(int below, int above)
    {
        var graph = new TraceGraph(
            new("event", "E", "An event with a name that takes more than one line of the box in the middle", "today"),
            [.. Enumerable.Range(0, below).Select(i => Node(i, (TraceVerdict)(i % 4)))],
            [.. Enumerable.Range(0, above).Select(i => new GraphNode("check", $"{i}", $"Check {i}", "today"))], 0);

        var (boxes, lines, size) = Read(SvgPainter.Paint(GraphPicture.Of(graph)));

        Assert.Equal(lines.Count + 1, boxes.Count);
        Assert.Equal(GraphPicture.Drawn(graph.RestsOn).Count + GraphPicture.Drawn(graph.Bears).Count, lines.Count);
        var middle = Assert.Single(boxes, b => b.Left < size.Width / 2 && b.Right > size.Width / 2);
        var met = new List<Box>();
        foreach (var (from, to) in lines)
        {
            Assert.True(middle.HasOnEdge(to), $"A line ends at {to}, off the edge of the middle {middle}.");
            met.Add(Assert.Single(boxes, b => b != middle && b.HasOnEdge(from)));
        }
        Assert.Equal(met.Count, met.Distinct().Count()); // each box has its own line
        Assert.Equal(lines.Count, lines.Select(l => l.To).Distinct().Count()); // and its own end
        Assert.All(boxes, b => Assert.True(b.Left >= 0 && b.Top >= 0 && b.Right <= size.Width && b.Bottom <= size.Height, $"{b} lies outside."));
        Assert.All(boxes.Where(b => b != middle), b => Assert.True(b.Right < middle.Left || b.Left > middle.Right));
        Assert.All(boxes, a => Assert.All(boxes, b => Assert.True(a == b || a.Right < b.Left || b.Right < a.Left || a.Bottom < b.Top || b.Bottom < a.Top)));
    }

    [Fact]
    public void No_text_runs_out_of_its_box()
    {
        var name = string.Concat(Enumerable.Repeat("Wide Word ", 12));
        var picture = GraphPicture.Of(new(
            new("device", "D", name, ""), [new("device", "A", name, name), Node(1, TraceVerdict.Doubtful) with { Label = name }],
            [new("event", "E", name, name)], 0));

        foreach (var label in picture.Shapes.OfType<Label>())
        {
            var box = Assert.Single(Boxes(picture), b => b.Left < label.X && label.X < b.Right && b.Top < label.Y && label.Y < b.Bottom);
            Assert.True(label.X + TextWidth.Mm(label.Text, label.SizeMm) <= box.Right, $"'{label.Text}' runs out of {box}.");
        }
    }

    private static GraphNode Node(int i, TraceVerdict verdict) =>
        new("station", $"E|S{i}", $"S{i}", verdict.InWords) { Verdict = verdict };

    private static IEnumerable<Box> Boxes(Drawing picture) => picture.Shapes.OfType<Line>().Where(l => l.Points.Count == 5)
        .Select(l => new Box(l.Points.Min(p => p.X), l.Points.Min(p => p.Y), l.Points.Max(p => p.X), l.Points.Max(p => p.Y)));

    // Paths without a mark's class: those of five points are boxes, those of two are lines.
    private static (List<Box> Boxes, List<((double X, double Y) From, (double X, double Y) To)> Lines, (double Width, double Height) Size) Read(string svg)
    {
        var root = XDocument.Parse(svg).Root!;
        var size = ((string)root.Attribute("viewBox")!).Split(' ').Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray();
        List<Box> boxes = [];
        List<((double, double), (double, double))> lines = [];
        foreach (var path in root.Elements().Where(e => e.Name.LocalName == "path" && !((string)e.Attribute("class")!).Contains("mark", StringComparison.Ordinal)))
        {
            var at = Point().Matches((string)path.Attribute("d")!)
                .Select(m => (X: double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture), Y: double.Parse(m.Groups[2].Value, CultureInfo.InvariantCulture))).ToList();
            if (at.Count == 2) lines.Add((at[0], at[1]));
            else
            {
                Assert.Equal(5, at.Count);
                boxes.Add(new(at.Min(p => p.X), at.Min(p => p.Y), at.Max(p => p.X), at.Max(p => p.Y)));
            }
        }
        return (boxes, lines, (size[2], size[3]));
    }

    [GeneratedRegex("[ML](-?[0-9.]+) (-?[0-9.]+)")]
    private static partial Regex Point();

    private sealed record Box(double Left, double Top, double Right, double Bottom)
    {
        public bool HasOnEdge((double X, double Y) p) =>
            p.X >= Left - Mm && p.X <= Right + Mm && p.Y >= Top - Mm && p.Y <= Bottom + Mm
            && (Math.Abs(p.X - Left) <= Mm || Math.Abs(p.X - Right) <= Mm || Math.Abs(p.Y - Top) <= Mm || Math.Abs(p.Y - Bottom) <= Mm);
    }
}

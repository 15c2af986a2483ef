using MicRegister.Documents.Drawings;
using MicRegister.Documents.Fonts;
using MicRegister.Documents.Reports;
using SkiaSharp;

namespace MicRegister.Documents.Tests.Reports;

public sealed class ReportPagesTests
{
    // Positions are sums of many figures; a thousandth of a millimetre is not seen.
    private const double Mm = 1e-3;
    private const string Foot = "Made from an invented log at sequence 123; ask the house for the current one.";
    private static readonly string Hash = string.Concat(Enumerable.Repeat("0123456789abcdef", 16));

    [Fact]
    public void Nothing_runs_over_the_margins() => AssertWithinMargins(ReportPages.Of("A report of an invented campaign", Foot, Blocks()));

    [Fact]
    public void Every_word_is_there()
    {
        var printed = Squeezed(ReportPages.Of("A report", Foot, Blocks()));
        Assert.All(Blocks().SelectMany(Words), w => Assert.Contains(w, printed, StringComparison.Ordinal));
    }

    [Fact]
    public void The_head_of_a_table_stands_on_each_of_its_pages()
    {
        var pages = ReportPages.Of("A report", Foot, [new ReportTable("Many rows", ["Zeroth", "First"], [.. Enumerable.Range(0, 200).Select(i => (IReadOnlyList<string>)[$"row{i}", "cell"])])]);

        Assert.True(pages.Count > 2);
        Assert.All(pages, p => Assert.Single(Texts(p), l => l.Text == "Zeroth"));
        Assert.All(pages, p => Assert.Contains(p.Shapes.OfType<Line>(), l => l.Role == Role.Grid));
        Assert.Equal(200, pages.Sum(p => Texts(p).Count(l => l.Text.StartsWith("row", StringComparison.Ordinal))));
        Assert.All(pages, p => Assert.True(Texts(p).First(l => l.Text == "Zeroth").Y < Texts(p).First(l => l.Text.StartsWith("row", StringComparison.Ordinal)).Y));
    }

    // However much stands above it: what follows a heading is on its page.
    [Theory]
    [InlineData("text")]
    [InlineData("table")]
    [InlineData("figure")]
    public void A_heading_is_never_alone(string next)
    {
        ReportBlock following = next switch
        {
            "text" => new ReportText("follows at once"),
            "table" => new ReportTable("follows", ["Head"], [["cell"]]),
            _ => new ReportFigure(new(100, 60, "A figure", [new Label(Role.Ink, 1, 5, "follows inside")]), "below it"),
        };
        for (var lines = 0; lines < 60; lines++)
        {
            var pages = ReportPages.Of("A report", Foot, [.. Enumerable.Range(0, lines).Select(i => new ReportText($"line {i}")), new ReportHeading(1, "Heading"), new ReportHeading(2, "Below"), following]);
            var page = Assert.Single(pages, p => Texts(p).Any(l => l.Text == "Heading"));
            Assert.Contains(Texts(page), l => l.Text == "Below");
            Assert.Contains(Texts(page), l => l.Text.StartsWith("follows", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Each_page_has_its_number_and_the_foot_and_the_first_has_the_title()
    {
        var pages = ReportPages.Of("A report", Foot, [.. Enumerable.Range(0, 120).Select(i => new ReportText($"line {i}"))]);

        for (var i = 0; i < pages.Count; i++)
        {
            Assert.Equal((210.0, 297.0), (pages[i].WidthMm, pages[i].HeightMm));
            Assert.Contains(Texts(pages[i]), l => l.Text == $"page {i + 1} of {pages.Count}");
            Assert.Contains("invented log at sequence 123", string.Join(' ', Texts(pages[i]).Select(l => l.Text)), StringComparison.Ordinal);
        }
        Assert.Equal("A report", pages[0].Title);
        Assert.Contains(Texts(pages[0]), l => l.Text == "A report");
        Assert.Single(ReportPages.Of("Nothing", "", []));
    }

    // 348 mm wide onto 174 mm: half of everything, moved by the margin.
    [Fact]
    public void A_figure_shrinks_to_the_width_with_its_texts()
    {
        var page = Assert.Single(ReportPages.Of("A report", "", [new ReportFigure(new(348, 100, "Wide", [new Line(Role.Value, [(0, 0), (348, 100)]), new Label(Role.Ink, 10, 50, "in it", -1, 6), new Mark(Role.Ready, 348, 0, 4, MarkForm.Disc, "k", "tip")]), "")]));

        var line = Assert.Single(page.Shapes.OfType<Line>(), l => l.Role == Role.Value);
        Assert.Equal(18, line.Points[0].X, Mm);
        Assert.Equal(192, line.Points[1].X, Mm);
        Assert.Equal(50, line.Points[1].Y - line.Points[0].Y, Mm);
        var label = Assert.Single(Texts(page), l => l.Text == "in it");
        Assert.Equal(23, label.X, Mm);
        Assert.Equal(25, label.Y - line.Points[0].Y, Mm);
        Assert.Equal(3, label.SizeMm, Mm);
        Assert.Equal(2, Assert.Single(page.Shapes.OfType<Mark>()).SizeMm, Mm);
    }

    [Fact]
    public void A_small_figure_keeps_its_size_in_the_middle()
    {
        var page = Assert.Single(ReportPages.Of("A report", "", [new ReportFigure(new(74, 20, "Small", [new Line(Role.Value, [(0, 0), (74, 0)])]), "")]));
        Assert.Equal([68.0, 142.0], Assert.Single(page.Shapes.OfType<Line>(), l => l.Role == Role.Value).Points.Select(p => Math.Round(p.X, 6))); // 18 + (174 - 74) / 2
    }

    [Fact]
    public void A_word_that_is_wider_than_the_page_is_cut_and_stays_whole_when_joined()
    {
        var pages = ReportPages.Of("A report", "", [new ReportText(Hash)]);
        Assert.Contains(Hash, Squeezed(pages), StringComparison.Ordinal);
        AssertWithinMargins(pages);
    }

    [Fact]
    public void A_row_that_is_higher_than_a_page_goes_on_in_the_next()
    {
        var cell = string.Join(' ', Enumerable.Range(0, 1500).Select(i => $"w{i}."));
        var pages = ReportPages.Of("A report", Foot, [new ReportTable("High", ["One", "Two"], [[cell, "short"]])]);

        AssertWithinMargins(pages);
        Assert.True(pages.Count > 1);
        Assert.All(pages, p => Assert.Contains(Texts(p), l => l.Text == "One"));
        Assert.Contains("w0.", Squeezed(pages), StringComparison.Ordinal);
        Assert.Contains("w1499.", Squeezed(pages), StringComparison.Ordinal);
    }

    // The estimate against the typeface itself.
    [Fact]
    public void No_text_is_wider_than_it_is_taken_for()
    {
        using var data = SKData.CreateCopy(OwnFonts.Regular);
        using var face = SKTypeface.FromData(data);
        using var font = new SKFont(face, 100);
        foreach (var text in new[] { "MMMM WWWW", "The quick brown fox jumps over 1234567890 lazy dogs", "illicit; fit, rift", "ABCDEFGHIJKLMNOPQRSTUVWXYZ", "±0.30 dB re 20 µPa at 1 000 Hz – 90°", "Grüße über Öl, ŒÆ½", "@%&_=+<>?#$~^`\"*", "… —" })
            Assert.True(font.MeasureText(text) <= TextWidth.Mm(text, 100) + 0.01, text);
    }

    [Fact]
    public void A_table_without_columns_or_with_too_many_or_with_a_longer_row_is_refused()
    {
        Assert.Throws<ArgumentException>(() => ReportPages.Of("A report", "", [new ReportTable("", [], [])]));
        Assert.Throws<ArgumentException>(() => ReportPages.Of("A report", "", [new ReportTable("", [.. Enumerable.Repeat("c", ReportTable.MostColumns + 1)], [])]));
        Assert.Throws<ArgumentException>(() => ReportPages.Of("A report", "", [new ReportTable("", ["one"], [["a", "b"]])]));
        Assert.Throws<ArgumentException>(() => ReportPages.Of("A report", Hash + Hash + Hash + Hash, []));
    }

    internal static void AssertWithinMargins(IReadOnlyList<Drawing> pages)
    {
        foreach (var page in pages)
        {
            foreach (var l in Texts(page))
            {
                var width = TextWidth.Mm(l.Text, l.SizeMm);
                var begin = l.X - (width * (l.Align + 1) / 2);
                Assert.True(begin >= 18 - Mm && begin + width <= 192 + Mm && l.Y - (0.75 * l.SizeMm) >= 18 - Mm && l.Y + (0.3 * l.SizeMm) <= 279 + Mm, $"{page.Title}: '{l.Text}' at {l.X}, {l.Y}");
            }
            Assert.All(page.Shapes.OfType<Line>().SelectMany(l => l.Points), p => Assert.True(p.X >= 18 - Mm && p.X <= 192 + Mm && p.Y >= 18 - Mm && p.Y <= 279 + Mm, $"{page.Title}: {p}"));
        }
    }

    internal static string Squeezed(IReadOnlyList<Drawing> pages) => string.Concat(pages.SelectMany(p => Texts(p)).Select(l => Bare(l.Text)));

    internal static string Bare(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    private static IEnumerable<Label> Texts(Drawing page) => page.Shapes.OfType<Label>();

    private static IEnumerable<string> Words(ReportBlock block) => block switch
    {
        ReportHeading h => h.Text.Split(' '),
        ReportText t => t.Text.Split(' ', '\n'),
        ReportTable t => [.. t.Caption.Split(' '), .. t.Rows.Prepend(t.Head).SelectMany(r => r).Select(Bare)],
        ReportFigure f => f.Caption.Split(' '),
        _ => [],
    };

    private static List<ReportBlock> Blocks() =>
    [
        new ReportHeading(1, "A heading that is rather long so that it does not fit on one line of the page but takes a second one"),
        new ReportText("First line.\nSecond line, " + string.Join(' ', Enumerable.Range(0, 300).Select(i => $"word{i}"))),
        new ReportTable("Files and what their hashes are", ["File", "SHA-256", "Remark", "A head of many words that wraps"],
            [.. Enumerable.Range(0, 12).Select(i => (IReadOnlyList<string>)[$"recording-{i}.wav", Hash[..64], $"remark {i} of some length, so that cells wrap where there is no room", "WWWWMMMM"])]),
        new ReportHeading(2, "Figures"),
        new ReportFigure(new(220, 96, "Chart", [new Line(Role.Axis, [(0, 0), (220, 96)]), new Label(Role.Ink, 219, 50, "A long name at the right edge", -1, 3), new Label(Role.Ink, 0, 60, "A long name at the left edge", 0, 3), new Label(Role.Ink, 1, 70, Hash, 1, 3)]), "A chart with names at its edges"),
        new ReportTable("", ["One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve", "Thirteen", "Fourteen", "Fifteen", "Sixteen"], [[.. Enumerable.Range(0, 16).Select(i => $"Incomprehensibilities{i}")], ["short"]]),
    ];
}

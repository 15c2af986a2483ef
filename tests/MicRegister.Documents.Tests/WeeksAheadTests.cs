using MicRegister.Documents.Drawings;

namespace MicRegister.Documents.Tests;

/// <summary>The strip of the coming twelve weeks: what lies on a day lies at its place, and no name leaves the strip.</summary>
public sealed class WeeksAheadTests
{
    // Twelve weeks are 84 days. With 4 mm left free on both sides, 92 mm leave 84 mm: a day is a millimetre, and day n lies at 4 + n.
    private const double Width = 92;
    private static readonly DateOnly From = new(2026, 8, 3);

    [Fact]
    public void A_span_reaches_from_the_begin_of_its_first_day_to_the_end_of_its_last()
    {
        var strip = Of([("C", "Heath", From.AddDays(10), From.AddDays(19))]);

        var area = Assert.Single(strip.Shapes.OfType<Line>(), l => l.Role == Role.Span);
        Assert.Equal((14.0, 24.0), (area.Points.Min(p => p.X), area.Points.Max(p => p.X)), Near);
        var mark = Assert.Single(strip.Shapes.OfType<Mark>());
        Assert.Equal(("C", "Heath, 2026-08-13 to 2026-08-22"), (mark.Key, mark.Tip));
        Assert.Equal(19.0, mark.X, 9);
    }

    [Fact]
    public void What_began_before_or_ends_after_it_is_cut_at_its_ends_and_what_lies_outside_is_left_out()
    {
        var strip = Of(
        [
            ("A", "Before", From.AddDays(-20), From.AddDays(-1)), ("B", "Runs", From.AddDays(-20), From.AddDays(4)),
            ("C", "Late", From.AddDays(80), From.AddDays(200)), ("D", "After", From.AddDays(84), From.AddDays(90)),
        ]);

        Assert.Equal(["B", "C"], strip.Shapes.OfType<Mark>().Select(m => m.Key));
        Assert.Equal(
            [(4.0, 9.0), (84.0, 88.0)],
            strip.Shapes.OfType<Line>().Where(l => l.Role == Role.Span).Select(l => (l.Points.Min(p => p.X), l.Points.Max(p => p.X))),
                Near);
        Assert.Contains("2 campaigns", strip.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void A_single_day_can_still_be_seen_and_two_campaigns_stand_below_each_other()
    {
        var strip = Of([("B", "Second", From.AddDays(5), From.AddDays(30)), ("A", "First", From, From)]);

        var areas = strip.Shapes.OfType<Line>().Where(l => l.Role == Role.Span).ToList();
        Assert.Equal((4.0, 6.0), (areas[0].Points.Min(p => p.X), areas[0].Points.Max(p => p.X)), Near); // 1 mm would be too little
        Assert.True(areas[1].Points.Min(p => p.Y) >= areas[0].Points.Max(p => p.Y));
        Assert.Equal(["A", "B"], strip.Shapes.OfType<Mark>().Select(m => m.Key));
    }

    [Fact]
    public void What_falls_on_a_day_lies_within_it_above_each_other_and_its_form_says_its_gravity()
    {
        var day = From.AddDays(21);
        var strip = Of([], [(day, Role.Stop, "x", "is due"), (day, Role.Risk, "y", "has to start"),
            (From.AddDays(84), Role.Stop, "z", "later"), (From.AddDays(-1), Role.Stop, "w", "over")]);

        var marks = strip.Shapes.OfType<Mark>().ToList();
        Assert.Equal([("x", MarkForm.Square), ("y", MarkForm.Triangle)], marks.Select(m => (m.Key, m.Form)));
        Assert.All(marks, m => Assert.InRange(m.X, 25.0, 26.0)); // day 21 reaches from 25 to 26 mm
        Assert.Equal(3.0, marks[0].Y - marks[1].Y, 9);
        Assert.Equal("2026-08-24: is due", marks[0].Tip);
        Assert.Equal("Twelve weeks from 2026-08-03: 0 campaigns, 2 days that matter", strip.Title);
    }

    [Fact]
    public void More_than_five_of_a_day_are_counted()
    {
        var strip = Of([], [.. Enumerable.Range(0, 8).Select(i => (From.AddDays(7), Role.Risk, "k" + i, "is due"))]);

        Assert.Equal(5, strip.Shapes.OfType<Mark>().Count());
        Assert.Contains(strip.Shapes.OfType<Label>(), l => l.Text == "+3");
        Assert.All(strip.Shapes.OfType<Mark>(), m => Assert.InRange(m.Y, 0, strip.HeightMm));
    }

    [Fact]
    public void Weeks_are_seven_days_apart_and_a_new_month_is_named()
    {
        var strip = Of([]);

        Assert.Equal(Enumerable.Range(0, 13).Select(w => 4.0 + (7 * w)), strip.Shapes.OfType<Line>().Where(l => l.Role == Role.Grid)
            .Select(l => l.Points[0].X), Within);
        Assert.Equal(
            ["3 Aug", "10", "17", "24", "31", "7 Sep", "14", "21", "28", "5 Oct", "12", "19"],
            strip.Shapes.OfType<Label>().Where(l => l.Role == Role.Quiet).Select(l => l.Text));
    }

    // 30 letters of 2.8 mm are at most 72.3 mm wide (a capital takes 0.86 of its size at most): they fit on one side of each span below.
    [Theory]
    [InlineData(0, 5)]
    [InlineData(78, 83)]
    [InlineData(79, 200)]
    [InlineData(0, 83)]
    [InlineData(-30, 200)]
    [InlineData(30, 50)]
    public void No_name_leaves_the_strip(int first, int last)
    {
        foreach (var name in new[] { "Heath", "Flights over the heath, part 2", "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWW", new string('m', 200) })
        {
            var strip = Of([("C", name, From.AddDays(first), From.AddDays(last))]);

            var label = Assert.Single(strip.Shapes.OfType<Label>(), l => l.Role == Role.Ink);
            var width = TextWidth.Mm(label.Text, label.SizeMm);
            var left = label.Align < 0 ? label.X : label.Align > 0 ? label.X - width : label.X - (width / 2);
            Assert.True(left >= 0 && left + width <= Width, $"'{label.Text}' reaches from {left} to {left + width} mm of {Width} mm.");
            Assert.StartsWith(label.Text.TrimEnd('…'), name, StringComparison.Ordinal);
            Assert.Contains(name, Assert.Single(strip.Shapes.OfType<Mark>()).Tip,
                StringComparison.Ordinal); // whole, where it is pointed at
        }
    }

    private static bool Near((double, double) a, (double, double) b) => Within(a.Item1, b.Item1) && Within(a.Item2, b.Item2);

    private static bool Within(double a, double b) => Math.Abs(a - b) < 1e-9;

    private static Drawing Of(
        IReadOnlyList<(string Key, string Name, DateOnly First, DateOnly Last)> spans,
            IReadOnlyList<(DateOnly Day, Role Role, string Key, string Words)>? days = null) =>
        WeeksAhead.Of(From, spans, days ?? [], Width);
}

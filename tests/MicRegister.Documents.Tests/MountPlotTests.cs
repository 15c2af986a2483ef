using MicRegister.Documents.Drawings;
using MicRegister.Documents.Exports;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Documents.Tests;

/// <summary>The plot and the table of mounts show what the answers say.</summary>
public sealed class MountPlotTests
{
    private static MountAnswer Of(Mount mount, double heightM, double to = 10_000) =>
        MountAnswer.Of(new(mount, heightM, SourceClass.Jet, 50, to));

    [Fact]
    public void Each_band_is_a_mark_that_says_its_level_and_stays_in_the_frame()
    {
        var drawing = MountPlot.Of([Of(Mount.GroundStand, 1.2), Of(Mount.FlushPlate, 0)], "Two mounts");
        var marks = drawing.Shapes.OfType<Mark>().ToList();

        Assert.Equal(24 + 24 + 2, marks.Count);
        // The tenth band of the flush one, 400 Hz: 20 lg 2.
        Assert.Contains(marks, m => m.Tip == "flush in a ground plate, 400 Hz: +6.02 dB");
        Assert.Contains(marks, m => m.Role == Role.Risk && m.Tip.StartsWith("on a stand, 1.2 m, 63 Hz: −", StringComparison.Ordinal));
        foreach (var (x, y) in drawing.Shapes.OfType<Line>().SelectMany(l => l.Points).Concat(marks.Select(m => (m.X, m.Y))))
        {
            Assert.InRange(x, 0, drawing.WidthMm);
            Assert.InRange(y, 0, drawing.HeightMm);
        }
    }

    [Fact]
    public void One_mount_alone_shows_its_tones_and_its_tolerance()
    {
        static int Tones(Drawing d) => d.Shapes.OfType<Line>().Count(l => l.Role == Role.Quiet);

        var alone = MountPlot.Of([Of(Mount.InvertedPlate, 0.007, 20_000)], "7 mm");
        Assert.Equal(2, Tones(alone)); // cut once, at the dip of 12.15 kHz
        Assert.Contains(alone.Shapes.OfType<Line>(), l => l.IsArea && l.Role == Role.Band);
        Assert.Equal(0, Tones(MountPlot.Of([Of(Mount.InvertedPlate, 0.007), Of(Mount.Pole, 10)], "both")));
        Assert.Throws<ArgumentException>(() => MountPlot.Of([], "none"));
    }

    [Fact]
    public void No_more_are_drawn_than_can_be_told_apart()
    {
        var many = Enumerable.Range(1, 9).Select(i => Of(Mount.GroundStand, i)).ToList();

        Assert.Equal(6 * 25, MountPlot.Of(many, "many").Shapes.OfType<Mark>().Count());
    }

    [Fact]
    public void The_table_has_a_row_a_band_and_says_what_lies_beyond_the_model()
    {
        var table = MountTable.Of("Mounts", [(Of(Mount.FlushPlate, 0), ["S1", "S2"]), (Of(Mount.Pole, 10), [])], [("software", "1")]);
        string Text(int row, string key) => table.Rows[row][table.Columns.ToList().FindIndex(c => c.Key == key)] is var cell
            ? cell.Text ?? cell.Number?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? ""
            : "";

        Assert.Equal(48, table.Rows.Count);
        Assert.Equal(("flush-plate", "S1 S2", "6.0206", "0", "yes"), (Text(0, "mount"), Text(0, "stations"), Text(0, "level-db"), Text(0, "off-db"), Text(0, "within")));
        Assert.Equal(("pole", "", "no"), (Text(47, "mount"), Text(47, "stations"), Text(47, "within")));
        Assert.Equal(("50", "50.1187", "44.6684", "56.2341"), (Text(0, "band-hz"), Text(0, "middle-hz"), Text(0, "low-hz"), Text(0, "high-hz")));
        Assert.All(MountCaveats.All, sentence => Assert.Contains(sentence, table.Notes));
        Assert.Contains(table.Notes, n => n.StartsWith("on a pole, 10 m: they part: practice alone takes it.", StringComparison.Ordinal));
    }
}

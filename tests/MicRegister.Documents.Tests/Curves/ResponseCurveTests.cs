using System.Text;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Tests.Curves;

public sealed class ResponseCurveTests
{
    [Theory]
    [InlineData("frequency,level,uncertainty\n250,0.1,0.05\n1000,0.2,\n")]
    [InlineData("f [kHz];L [dB];U\n0,25;0,1;0,05\n1;0,2;\n")]
    [InlineData("1000\t0.2\n250\t0.1\t0.05\n")] // without headers, as earlier releases stored it
    public void Rows_of_frequency_level_and_uncertainty_are_read(string text) =>
        Assert.Equal([new(250, 0.1, 0.05), new(1000, 0.2, null)], Read(text).Points);

    [Theory]
    [InlineData("Hz,dB\n250,0.1\nabc,1\n", "row 3, column 1: 'abc': allowed is a number")]
    [InlineData("Hz,dB,U\n250,0.1,-1\n", "row 2, column 3 (uncertainty): '-1': allowed is a number from 0 to 50")]
    [InlineData("Hz,dB,U\n250,0.1,51\n", "row 2, column 3 (uncertainty): '51': allowed is a number from 0 to 50")]
    [InlineData("Hz,dB\n250,201\n", "row 2, column 2 (level): '201': allowed is a number from -200 to 200 dB")]
    [InlineData("Hz,dB\n0,1\n", "row 2, column 1 (frequency): '0': allowed is a number from 0.1")]
    [InlineData("Hz,dB\n,1\n", "holds no point")]
    [InlineData("Hz,dB\n250,0.1\n,1\n", "row 3, column 1 (frequency): '': allowed is a number from 0.1")]
    [InlineData("Hz,dB\n250,0.1\n250,0.2\n", "states 250 Hz twice, in rows 2 and 3")]
    [InlineData("Hz,dB\n250,0.1\n1000,0.1\n500,0.2\n", "row 4, column 1 (frequency): '500': allowed is frequencies that rise or fall")]
    [InlineData("Hz,dB\n250,0.1\nPhase\n500,0.2\n", "row 3: 'Phase' stands between rows of figures")]
    [InlineData("Hz;dB\n250;0,1\n500;0.2\n", "row 2, column 2 (level): '0,1': allowed is one decimal mark")]
    [InlineData("Hz,dB\n250,0,1\n500,0,2\n", "a comma seems to part the columns and to be the decimal mark")]
    [InlineData("250 0.1\n500\n", "row 2: '500' is one figure alone")]
    [InlineData("Hz dB U\n250 0.1 0.1\n500 0.1\n", "row 3: 2 figures where other rows have 3")]
    [InlineData("Hz,0,30,60\n250,0.1,0.2,0.3\n", "What is column 2 (0.1)?")]
    [InlineData("Hz,dB\n", "holds no point")]
    [InlineData("", "is empty")]
    [InlineData("%PDF-1.4\n1 2\n", "is a PDF")]
    public void What_cannot_be_read_is_named_by_row_and_value(string text, string says) =>
        Assert.Contains(says, Assert.Throws<SheetException>(() => Read(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void A_table_by_angle_gives_a_curve_for_each_and_its_last_column_holds_for_all()
    {
        var curves = ByAngle("f [kHz];60°;0 deg;U\n0,25;0,1;0;0,05\n1;-0,4;;0,1\n");

        Assert.Equal([0.0, 60.0], curves.Select(c => c.AngleDeg!.Value));
        Assert.Equal([new(250, 0, 0.05)], curves[0].Curve.Points); // what was not measured at an angle is left out there
        Assert.Equal([new(250, 0.1, 0.05), new(1000, -0.4, 0.1)], curves[1].Curve.Points);
        Assert.Null(Assert.Single(ByAngle("250,0.1\n")).AngleDeg);
    }

    [Theory]
    [InlineData("Hz,0°,side,60°\n250,0,0,0\n", "header 'side' holds words that are not known")]
    [InlineData("Hz,0°,0 deg\n250,0,0\n", "Which of columns 2, 3 is the curve?")]
    [InlineData("Hz,190°\n250,0\n", "header '190°'")]
    [InlineData("Hz,0°,30°\n250,1,x\n", "row 2, column 3: 'x': allowed is a number")]
    [InlineData("Hz,0°,30°,U\n250,1,2,-1\n", "row 2, column 4 (uncertainty): '-1': allowed is a number from 0")]
    [InlineData("Hz,0°,dB\n250,1,2\n", "some hold for an angle of incidence and others do not say")]
    public void A_table_by_angle_that_cannot_be_read_is_named_by_row_and_value(string text, string says) =>
        Assert.Contains(says, Assert.Throws<SheetException>(() => ByAngle(text)).Message, StringComparison.Ordinal);

    [Fact]
    public void Levels_between_points_lie_on_the_line_over_the_logarithm_of_frequency()
    {
        var curve = Read("100,0\n10000,2\n");

        Assert.Equal(1, curve.At(1000)!.Value, 1e-12); // half way in decades
        Assert.Equal(0, curve.At(100));
        Assert.Null(curve.At(99));
        Assert.Null(curve.At(10001));
        Assert.Equal([-1.0, 1.0], curve.RelativeTo(1000).Points.Select(p => Math.Round(p.LevelDb, 12)));
    }

    [Fact]
    public void Limits_are_drawn_as_steps_and_what_lies_beyond_or_open_is_marked()
    {
        var curve = new ResponseCurve([new(250, 0, 0), new(1000, 0.7, 0), new(2000, 1.01, 0), new(8000, -2.5, null)]);
        var judged = ResponseJudge.OverFrequency(curve, 250, ResponseTable.Class1Of2013);
        var shapes = CurvePlot.Of(curve, curve, ResponseTable.Class1Of2013, judged, "t").Shapes;

        Assert.Contains("2000 Hz", Assert.IsType<Mark>(Assert.Single(shapes, s => s is Mark { Role: Role.Stop })).Tip, StringComparison.Ordinal);
        Assert.Contains("8000 Hz", Assert.IsType<Mark>(Assert.Single(shapes, s => s is Mark { Role: Role.Undecided })).Tip, StringComparison.Ordinal);
        var lines = shapes.OfType<Line>().Where(l => l.Role == Role.Limit).ToList();
        Assert.Equal(2, lines.Count);
        // Every piece is level or upright, so that nothing lies on a slope between two bands.
        Assert.All(lines.SelectMany(l => l.Points.Zip(l.Points.Skip(1))), p => Assert.True(p.First.X == p.Second.X || p.First.Y == p.Second.Y));
    }

    [Fact]
    public void A_side_without_a_limit_and_bands_without_a_step_are_not_drawn()
    {
        var curve = new ResponseCurve([new(10, 0, 0), new(250, 0, 0), new(40_000, 0, 0)]);
        var lines = CurvePlot.Of(curve, null, ResponseTable.Class2Of2013, [], "t").Shapes.OfType<Line>().Where(l => l.Role == Role.Limit).ToList();

        // Class 2 has no lower limit from 10 to 16 Hz and from 10 kHz on, and none at all above 20 kHz (IEC 61672-1:2013, table 3); what lies
        // more than 2.2 dB away is outside of this frame.
        var (upper, lower) = (lines.MinBy(l => l.Points.Min(p => p.Y))!, lines.MaxBy(l => l.Points.Max(p => p.Y))!);
        Assert.Equal(upper.Points.Select(p => p.X), lower.Points.Select(p => p.X));
        Assert.Equal(2, lines.Count);
    }

    private static IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> ByAngle(string text) =>
        CurveFile.ReadByAngle(new MemoryStream(Encoding.UTF8.GetBytes(text)), "curve.csv");

    private static ResponseCurve Read(string text) => CurveFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "curve.csv");
}

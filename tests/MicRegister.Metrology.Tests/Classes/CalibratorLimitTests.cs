using MicRegister.Metrology.Classes;

namespace MicRegister.Metrology.Tests.Classes;

/// <summary>
/// Limits of sound calibrators. 2017: IEC 60942:2017, tables 2, 4, 7 and A.1 to A.3, typed here once more from a public copy of them; 2003
/// from memory, unchecked.
/// </summary>
public sealed class CalibratorLimitTests
{
    // The last figure is the greatest U; 0 stands for none.
    [Theory]
    [InlineData(2017, "level", "1", 31.5, 0.30, 0.20)]
    [InlineData(2017, "level", "1", 63, 0.30, 0.20)]
    [InlineData(2017, "level", "1", 63.1, 0.30, 0.20)]
    [InlineData(2017, "level", "LS", 160, 0.10, 0.10)]
    [InlineData(2017, "level", "LS", 1250, 0.10, 0.10)]
    [InlineData(2017, "level", "1", 160, 0.25, 0.15)]
    [InlineData(2017, "level", "1", 1250, 0.25, 0.15)]
    [InlineData(2017, "level", "1", 1251, 0.35, 0.25)]
    [InlineData(2017, "level", "1", 4000, 0.35, 0.25)]
    [InlineData(2017, "level", "1", 8000, 0.45, 0.35)]
    [InlineData(2017, "level", "1", 8001, 0.50, 0.50)]
    [InlineData(2017, "level", "1", 16000, 0.50, 0.50)]
    [InlineData(2017, "level", "2", 1000, 0.40, 0.35)]
    [InlineData(2017, "fluctuation", "1", 63, 0.20, 0)]
    [InlineData(2017, "fluctuation", "1", 125, 0.10, 0)]
    [InlineData(2017, "fluctuation", "LS", 250, 0.03, 0)]
    [InlineData(2017, "fluctuation", "1", 250, 0.07, 0)]
    [InlineData(2017, "fluctuation", "2", 250, 0.15, 0)]
    [InlineData(2017, "frequency", "LS", 250, 0.7, 0.2)]
    [InlineData(2017, "frequency", "1", 1000, 0.7, 0.2)]
    [InlineData(2017, "frequency", "2", 1000, 1.7, 0.2)]
    [InlineData(2017, "distortion", "LS", 1000, 2.0, 0.5)]
    [InlineData(2017, "distortion", "1", 1000, 2.5, 0.5)]
    [InlineData(2017, "distortion", "2", 1000, 3.0, 1.0)]
    [InlineData(2017, "distortion", "1", 125, 3.0, 0)]
    [InlineData(2017, "distortion", "1", 2000, 3.0, 0)]
    [InlineData(2003, "level", "LS", 1000, 0.20, 0)]
    [InlineData(2003, "level", "1", 1000, 0.40, 0)]
    [InlineData(2003, "level", "2", 1000, 0.75, 0)]
    public void The_table_gives_limit_and_greatest_uncertainty(int edition, string quantity, string name, double hz, double limit, double u)
    {
        var found = CalibratorLimit.Find(edition, quantity, name, hz)!;

        Assert.Equal((limit, u == 0 ? (double?)null : u), (found.Limit, found.GreatestExpanded));
        var mark = edition == 2017 ? "not compared with the printed standard" : "from memory, unchecked";
        Assert.Contains(mark, found.Mark, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2017, "level", "LS", 159)]
    [InlineData(2017, "level", "2", 4000)]
    [InlineData(2017, "level", "1", 31.4)]
    [InlineData(2017, "level", "1", 16001)]
    [InlineData(2017, "frequency", "1", 125)]
    [InlineData(2017, "level", "0", 1000)]
    [InlineData(2017, "supply", "1", 1000)]
    [InlineData(2003, "level", "1", 125)]
    [InlineData(1997, "level", "1", 1000)]
    [InlineData(1988, "level", "1", 1000)]
    public void What_the_table_does_not_cover_has_no_limit(int edition, string quantity, string name, double hz) =>
        Assert.Null(CalibratorLimit.Find(edition, quantity, name, hz));

    // 2017, class 1 at 1 kHz: at most 0.25 dB with U at most 0.15 dB.
    [Theory]
    [InlineData(0.10, 0.10, LimitVerdict.Conforms)]
    [InlineData(0.25, 0.15, LimitVerdict.Conforms)]
    [InlineData(-0.25, 0.15, LimitVerdict.Conforms)]
    [InlineData(0.2500014, 0.15, LimitVerdict.Exceeds)]
    [InlineData(-0.26, 0.01, LimitVerdict.Exceeds)]
    [InlineData(0.25, 0.1500014, LimitVerdict.NotShown)]
    [InlineData(0.00, 0.16, LimitVerdict.NotShown)]
    public void In_2017_deviation_and_uncertainty_are_judged_each_by_itself(double deviation, double u, LimitVerdict verdict) =>
        Assert.Equal(verdict, CalibratorLimit.Find(2017, "level", "1", 1000)!.Judge(deviation, u));

    // 2003, class 1: 0.40 dB with the uncertainty in it.
    [Theory]
    [InlineData(0.25, 0.15, LimitVerdict.Conforms)]
    [InlineData(0.25, 0.16, LimitVerdict.NotShown)]
    [InlineData(0.40, 0, LimitVerdict.Conforms)]
    [InlineData(0.41, 0, LimitVerdict.Exceeds)]
    public void In_2003_the_uncertainty_counts_against_the_limit(double deviation, double u, LimitVerdict verdict) =>
        Assert.Equal(verdict, CalibratorLimit.Find(2003, "level", "1", 1000)!.Judge(deviation, u));

    [Fact]
    public void Without_an_uncertainty_nothing_is_shown_where_one_is_asked()
    {
        Assert.Equal(LimitVerdict.NotShown, CalibratorLimit.Find(2017, "level", "1", 1000)!.Judge(0, null));
        Assert.Equal(LimitVerdict.NotShown, CalibratorLimit.Find(2003, "level", "1", 1000)!.Judge(0, null));
        Assert.Equal(LimitVerdict.Exceeds, CalibratorLimit.Find(2017, "level", "1", 1000)!.Judge(0.3, null));
        Assert.Equal(LimitVerdict.Conforms, CalibratorLimit.Find(2017, "fluctuation", "1", 1000)!.Judge(0.07, null));
        Assert.Equal(LimitVerdict.NotShown, CalibratorLimit.Find(2017, "level", "1", 1000)!.Judge(double.NaN, null));
    }

    // The tolerance of 2003 is the acceptance limit of 2017 with the greatest uncertainty (IEC 60942:2017, annex D), for each class.
    [Theory]
    [InlineData("level")]
    [InlineData("distortion")]
    public void Limit_and_greatest_uncertainty_of_2017_add_up_to_the_tolerance_of_2003(string quantity) =>
        Assert.All(new[] { "LS", "1", "2" }, name =>
        {
            var now = CalibratorLimit.Find(2017, quantity, name, 1000)!;
            Assert.Equal(CalibratorLimit.Find(2003, quantity, name, 1000)!.Limit, now.Limit + now.GreatestExpanded!.Value, 1e-12);
        });

    [Fact]
    public void Only_two_editions_have_limits_here() => Assert.Equal([2003, 2017], CalibratorLimit.Known);
}

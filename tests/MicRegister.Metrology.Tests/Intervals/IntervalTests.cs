using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;

namespace MicRegister.Metrology.Tests.Intervals;

public sealed class IntervalTests
{
    // Own figures made for this test; recomputed with scipy 1.10.1 to the digits given.
    private static readonly CalibrationGroup[] Groups = [new(3, 20, 20), new(6, 40, 38), new(9, 30, 28), new(12, 60, 53), new(18, 25, 20), new(24, 10, 7)];

    [Fact]
    public void The_exponential_rate_is_that_of_maximum_likelihood()
    {
        var found = Reliability.Of(Groups);
        AssertClose.Relative(0.010337049540680522, found.Rate, 1e-11);
        AssertClose.Relative(0.002366046997519756, found.StandardError, 1e-9);
        AssertClose.Relative(4.962082670, found.TimeTo(0.95), 1e-9);
        AssertClose.Relative(10.192513370, found.TimeTo(0.90), 1e-9);
        AssertClose.Relative(0.883340448, found.At(12), 1e-8);
        AssertClose.Relative(2.01886147, found.Deviance, 1e-7);
        Assert.Equal((185, 19), (found.Count, found.Failed));
        Assert.True(found.ProvenTimeTo(0.95) < found.TimeTo(0.95));
        // Two-sided 95 % of the normal approximation: 3.4254 months at its short end.
        AssertClose.Absolute(3.4254, Reliability.Of(Groups, 0.975).ProvenTimeTo(0.95), 5e-5);
    }

    // One group is hand algebra: R = 0.9 at 12 months gives 12 ln 0.95 / ln 0.90 = 5.842032 months.
    [Fact]
    public void One_group_is_hand_algebra()
    {
        var found = Reliability.Of([new(12, 100, 90)]);
        AssertClose.Relative(0.00878004297, found.Rate, 1e-9);
        AssertClose.Relative(5.842032, found.TimeTo(0.95), 1e-6);
    }

    // 59 of 59 within prove 0.95 with 95 % confidence, 58 do not: 0.05^(1/59) = 0.95049, 0.05^(1/58) = 0.94966.
    [Fact]
    public void Where_nothing_ever_failed_only_the_bound_is_finite()
    {
        var found = Reliability.Of([new(12, 59, 59)]);
        Assert.Equal((0.0, double.PositiveInfinity), (found.Rate, found.TimeTo(0.95)));
        Assert.True(found.ProvenTimeTo(0.95) > 12);
        AssertClose.Absolute(0.95049, Math.Exp(-found.UpperRate * 12), 5e-6);
        Assert.True(Reliability.Of([new(12, 58, 58)]).ProvenTimeTo(0.95) < 12);
        Assert.Equal(0, Reliability.Of([new(12, 5, 0)]).TimeTo(0.95));
        Assert.Throws<ArgumentException>(() => Reliability.Of([]));
        Assert.Throws<ArgumentException>(() => Reliability.Of([new(0, 5, 5)]));
        Assert.Throws<ArgumentException>(() => Reliability.Of([new(12, 5, 6)]));
    }

    // (1 + a)^R (1 - b)^(1 - R) = 1: recomputed.
    [Theory]
    [InlineData(0.1, 0.95, 0.8364920)]
    [InlineData(0.1, 0.90, 0.5759024)]
    [InlineData(0.25, 0.90, 0.8657823)]
    public void The_staircase_balances_at_its_target(double lengthening, double target, double shortening)
    {
        AssertClose.Absolute(shortening, Staircase.Shortening(lengthening, target), 5e-8);
        AssertClose.Absolute(1, Math.Pow(1 + lengthening, target) * Math.Pow(1 - shortening, 1 - target), 1e-6);
    }

    [Fact]
    public void The_staircase_lengthens_well_within_keeps_near_and_shortens_outside()
    {
        AssertClose.Relative(401.5, Staircase.Next(365, 0.16, 0.2, 0.9, 30, 730), 1e-12);
        Assert.Equal(365, Staircase.Next(365, -0.2, 0.2, 0.9, 30, 730));
        AssertClose.Relative(365 * (1 - 0.5759024), Staircase.Next(365, -0.21, 0.2, 0.9, 30, 730), 1e-6);
        Assert.Equal(730, Staircase.Next(700, 0, 0.2, 0.9, 30, 730));
        Assert.Throws<ArgumentException>(() => Staircase.Next(0, 0, 0.2, 0.9, 30, 730));
    }

    [Fact]
    public void An_interval_says_why_it_is_what_it_is()
    {
        static ForecastInterval Of(double limit, params (double Day, double Level, double U)[] results) => Many(limit, results, 1);
        static ForecastInterval Many(double limit, (double Day, double Level, double U)[] results, int devices)
        {
            var history = new ResultHistory([.. results.Select(r => r.Day)], [.. results.Select(r => r.Level)], [.. results.Select(r => r.U)]);
            var device = FleetDrift.Estimate([.. Enumerable.Repeat(history, devices)]).Forecast(0);
            return ForecastInterval.Of(device, device.ReferenceDb, limit, 0.95);
        }

        Assert.Equal(new ForecastInterval(0, IntervalReason.CoarseCertificate), Of(0.2, (0, -26, 0.1)));
        Assert.Equal(new ForecastInterval(0, IntervalReason.OpenNewest), Of(0.2, (0, -26, 0.03), (400, -25, 0.03)));
        Assert.Equal(IntervalReason.Forecast, Of(0.2, (0, -26, 0.05)).Why);
        Assert.Equal(new ForecastInterval(730, IntervalReason.Cap), Many(0.3, [(0, -26, 0.03), (365, -26, 0.03), (730, -26.01, 0.03), (1095, -26, 0.03), (1460, -26, 0.03)], 30));
    }
}

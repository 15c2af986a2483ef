using MicRegister.Metrology.Charts;

namespace MicRegister.Metrology.Tests.Charts;

public sealed class ChartTests
{
    // NIST/SEMATECH e-Handbook, 6.3.2.2: ten flow rates; prints 55.8041 and 45.8159 (seen in a public log of a validation, recomputed) with
    // d2 = 1.128.
    [Fact]
    public void Individuals_and_moving_range_are_those_of_the_handbook()
    {
        var flow = ReferenceTable.Column("individuals.csv", "flowrate");
        var chart = IndividualsChart.Of(flow);
        AssertClose.Absolute(50.81, chart.Mean, 1e-10);
        AssertClose.Absolute(16.9 / 9, chart.MeanRange, 1e-10);
        AssertClose.Absolute(55.8041, chart.Upper, 5e-5);
        AssertClose.Absolute(45.8159, chart.Lower, 5e-5);
        AssertClose.Absolute(6.1347, chart.UpperRange, 5e-5);
        Assert.All(flow, v => Assert.True(chart.Holds(v)));
        Assert.True(chart.Holds(chart.Upper));
        Assert.False(chart.Holds(chart.Upper + 1e-5));
        Assert.Throws<ArgumentException>(() => IndividualsChart.Of([1]));
    }

    // NIST/SEMATECH e-Handbook, 6.3.2.4: twenty values, λ 0.3, start 50, s 2.0539; all averages seen to two decimals, limits 52.5884 and 47.4115.
    [Fact]
    public void The_weighted_average_is_that_of_the_handbook_and_its_limits_widen_to_it()
    {
        double[] printed = [50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99];
        var chart = EwmaChart.Of(ReferenceTable.Column("ewma.csv", "y"), 50, 2.0539, 0.3);
        Assert.Equal(printed, chart.Points.Select(p => Math.Round(p.Average, 2)));
        AssertClose.Absolute(51.988243258644616, chart.Points[^1].Average, 1e-10);
        // Time-varying limits: recomputed.
        AssertClose.Absolute(51.84851, chart.Points[0].Upper, 5e-6);
        AssertClose.Absolute(52.25639, chart.Points[1].Upper, 5e-6);
        AssertClose.Absolute(47.56859, chart.Points[2].Lower, 5e-6);
        AssertClose.Absolute(52.58740, chart.Points[9].Upper, 5e-6);
        AssertClose.Absolute(52.5884317381, EwmaChart.Of([.. Enumerable.Repeat(50.0, 200)], 50, 2.0539, 0.3).Points[^1].Upper, 1e-8);
        Assert.All(chart.Points, p => Assert.True(p.Holds));
        Assert.False(EwmaChart.Of([60], 50, 1, 0.3).Points[0].Holds);
        Assert.Throws<ArgumentException>(() => EwmaChart.Of([1], 0, 0));
    }

    // The steady state of the local level filter with the Nile's variances has the gain 0.26704801257 (recomputed).
    [Fact]
    public void With_the_filters_steady_gain_the_average_is_the_filter()
    {
        double[] nile = ReferenceTable.Column("nile.csv", "volume");
        var rows = MicRegister.Metrology.Drift.LocalLevel.Filter(nile, 15099, 1469.1);
        var chart = EwmaChart.Of([.. nile.Skip(51)], rows[49].Level, 100, 0.26704801257);
        AssertClose.Relative(rows[^1].Level, chart.Points[^1].Average, 1e-8);
    }

    // Hand algebra: 1 - (1 - 0.0026998)^50 = 12.64 %; Šidák for 5 % over 50 channels 3.2835 (recomputed).
    [Fact]
    public void Many_healthy_channels_alarm_together()
    {
        AssertClose.Absolute(0.1264, ManyAtOnce.FalseAlarm(50, 3), 5e-5);
        AssertClose.Absolute(0.903, ManyAtOnce.FalseAlarm(50, 2), 5e-4);
        AssertClose.Absolute(3.2835, ManyAtOnce.Multiple(50, 0.05), 5e-5);
        AssertClose.Absolute(0.05, ManyAtOnce.FalseAlarm(50, ManyAtOnce.Multiple(50, 0.05)), 1e-12);
        Assert.Throws<ArgumentException>(() => ManyAtOnce.Multiple(0, 0.05));
    }
}

using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Tests.Arrays;

/// <summary>Small arrays by hand algebra.</summary>
public sealed class ArrayEdgeTests
{
    private static ArrayMember Holding(double p) => new(LevelForecast.Normal(0, 1e-9), 0, p);

    // 0.9 and 0.8: none lost 0.72, one 0.1 · 0.8 + 0.9 · 0.2 = 0.26, both 0.02; mean 0.3, variance 0.09 + 0.16.
    [Fact]
    public void Two_members_are_worked_out_by_hand()
    {
        var array = ArrayForecast.Of([Holding(0.9), Holding(0.8)], 1, 0);

        Assert.Equal([0.72, 0.26, 0.02], array.Outside.Select(p => Math.Round(p, 12)));
        Assert.Equal([0.72, 0.26, 0.02], LossCount.Distribution([0.9, 0.8]).Select(p => Math.Round(p, 12)));
        AssertClose.Absolute(0.72, array.AllWithin, 1e-12);
        AssertClose.Absolute(0.72, array.ProductOfSingle, 1e-12);
        AssertClose.Absolute(0.3, array.MeanOutside, 1e-12);
        AssertClose.Absolute(0.5, array.StandardDeviationOutside, 1e-12);
        Assert.Equal([0.72, 0.98, 1, 1], Enumerable.Range(0, 4).Select(k => Math.Round(array.AtMost(k), 12)));
        Assert.Equal([0, 1, 2, 2], new[] { 0.72 - 1e-9, 0.98 - 1e-9, 0.99, 1.1 }.Select(array.Spares));
    }

    [Fact]
    public void Arrays_side_by_side_keep_the_greater_shift_and_nothing_makes_an_empty_one_fail()
    {
        var (one, other) = (ArrayForecast.Of([Holding(0.9)], 1, 0.03), ArrayForecast.Of([Holding(0.8)], 1, 0.02));

        Assert.Equal((0.03, 0.03), (one.And(other).CommonUncertaintyDb, other.And(one).CommonUncertaintyDb));
        AssertClose.Absolute(0.72, one.And(other).ProductOfSingle, 1e-12);
        AssertClose.Absolute(0.26, one.And(other).Outside[1], 1e-6);
        var empty = ArrayForecast.Of([], 1, 0);
        Assert.Equal((1.0, 0.0, 0), (empty.AllWithin, empty.MeanOutside, empty.Spares(0.95)));
    }

    // A member with 0.1 dB of its own and a limit of 0.1 dB holds with Phi(1) - Phi(-1) = 0.682689, however much of it is shared.
    [Theory]
    [InlineData(0)]
    [InlineData(0.05)]
    [InlineData(0.08)]
    [InlineData(5)]
    public void A_single_member_holds_as_surely_whatever_it_shares(double commonDb) =>
        AssertClose.Absolute(0.682689, ArrayForecast.Of([new(LevelForecast.Normal(0, 0.1), 0)], 0.1, commonDb).AllWithin, 1e-6);

    [Theory]
    [InlineData(-0.01)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_shift_that_cannot_be_is_refused(double commonDb) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => ArrayForecast.Of([], 1, commonDb));

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void A_probability_that_is_none_is_refused(double p) => Assert.Throws<ArgumentException>(() => LossCount.Distribution([0.5, p]));
}

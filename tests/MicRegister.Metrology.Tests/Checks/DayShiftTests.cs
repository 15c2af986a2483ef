using MicRegister.Metrology.Charts;
using MicRegister.Metrology.Checks;

namespace MicRegister.Metrology.Tests.Checks;

/// <summary>The common shift of a day by hand algebra.</summary>
public sealed class DayShiftTests
{
    // Sorted: -0.3, 0.1, 0.2, 0.4, 0.5, 0.9: the mean of the middle two is 0.3, the upper one 0.4, the lower one 0.2.
    // Off by 0.6, 0.2, 0.1, 0.1, 0.2, 0.6: the median is 0.2, and 1.4826 times it 0.29652.
    [Fact]
    public void Of_an_even_number_of_channels_the_middle_two_share_the_median()
    {
        var shift = DayShift.Of([0.9, 0.1, -0.3, 0.4, 0.2, 0.5])!;

        AssertClose.Absolute(0.3, shift.CommonDb, 1e-12);
        AssertClose.Absolute(0.29652, shift.ScatterDb, 1e-12);
        AssertClose.Absolute(0.6, shift.OwnDb[0], 1e-12);
        AssertClose.Absolute(-0.6, shift.OwnDb[2], 1e-12);
    }

    // Sorted: 0, 0.1, 0.2, 0.7, 0.9; off by 0.2, 0.1, 0, 0.5, 0.7: the median is 0.2.
    [Fact]
    public void Of_an_odd_number_the_middle_one_is_the_median()
    {
        var shift = DayShift.Of([0.7, 0, 0.9, 0.2, 0.1])!;

        AssertClose.Absolute(0.2, shift.CommonDb, 1e-12);
        AssertClose.Absolute(1.4826 * 0.2, shift.ScatterDb, 1e-12);
    }

    // Four quiet channels of six at 0: the scatter is its floor of 0.02 dB, so that the multiple alone decides who stands out.
    [Fact]
    public void A_channel_stands_out_beyond_the_multiple_of_the_scatter_and_not_at_it()
    {
        var limitDb = ManyAtOnce.Multiple(6, 0.05) * DayShift.LeastScatterDb;

        var shift = DayShift.Of([0, 0, limitDb * 1.001, 0, limitDb * 0.999, 0])!;

        Assert.Equal([2], Enumerable.Range(0, 6).Where(shift.StandsOut));
        Assert.Equal([3], Enumerable.Range(0, 6).Where(DayShift.Of([0, 0, 0, -limitDb * 1.001, 0, 0])!.StandsOut));
    }
}

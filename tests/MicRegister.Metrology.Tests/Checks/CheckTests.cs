using MicRegister.Metrology.Checks;

namespace MicRegister.Metrology.Tests.Checks;

public sealed class CheckTests
{
    // 94 dB is 1.0023744673 Pa; a tone of 0.0500 full scale is 20.047489 Pa for 1 full scale; 12.529681 mV at 94 dB are 12.5 mV/Pa, -38.0618 dB (recomputed with Python 3.11).
    [Fact]
    public void A_level_of_94_dB_is_not_one_pascal()
    {
        AssertClose.Relative(1.0023744673, ChainSensitivity.PressurePa(94), 1e-10);
        AssertClose.Relative(1 / 20.047489, Math.Pow(10, ChainSensitivity.LevelDb(0.05, 94) / 20), 1e-7);
        AssertClose.Absolute(-38.0618, ChainSensitivity.LevelDb(0.012529681, 94), 5e-5);
        AssertClose.Absolute(0.3, ChainSensitivity.DeviationDb(94.3, 94), 1e-12);
        AssertClose.Absolute(-58.2, ChainSensitivity.ExpectedDb(-38, -0.2, -20), 1e-12);
        Assert.Throws<ArgumentException>(() => ChainSensitivity.LevelDb(0, 94));
    }

    // Fifty channels, all 0.2 dB low since the pressure was entered wrongly, one of them another 0.3 dB: hand algebra.
    [Fact]
    public void What_all_channels_share_is_told_from_what_one_does()
    {
        double[] deviations = [.. Enumerable.Range(0, 50).Select(i => -0.2 + (0.01 * ((i % 5) - 2)))];
        deviations[7] -= 0.3;

        var shift = DayShift.Of(deviations)!;

        AssertClose.Absolute(-0.2, shift.CommonDb, 1e-12);
        Assert.Equal([7], Enumerable.Range(0, 50).Where(shift.StandsOut));
        Assert.Null(DayShift.Of([0, 0, 0, 0]));
        Assert.Equal(DayShift.LeastScatterDb, DayShift.Of([0.1, 0.1, 0.1, 0.1, 0.1])!.ScatterDb);
    }

    [Fact]
    public void Before_and_after_agree_up_to_the_limit_and_their_mean_applies()
    {
        var checks = new BeforeAndAfter(-38.0, -38.4);
        AssertClose.Absolute(-38.2, checks.AppliedDb, 1e-12);
        Assert.True(checks.Agrees(0.4));
        Assert.False(checks.Agrees(0.39999));
        Assert.True(new BeforeAndAfter(0, 0.1 + 0.2).Agrees(0.3)); // the last bit of a sum decides nothing
        AssertClose.Absolute(0.5, checks.ProbabilityWithin(0.4, 0.05), 1e-6); // half of it lies beyond; the other end is 16 standard deviations off
    }
}

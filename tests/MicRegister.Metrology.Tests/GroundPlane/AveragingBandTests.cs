using MicRegister.Metrology.GroundPlane;

namespace MicRegister.Metrology.Tests.GroundPlane;

/// <summary>From where on a third-octave band averages the dips of a stand, by hand algebra.</summary>
public sealed class AveragingBandTests
{
    // 1 - 10^-0.1 = 0.205672 of ripple, k = 2 pi 2.4 m / 340.294 m/s = 0.0443137 s, a width of 10^0.05 - 10^-0.05 = 0.230768:
    // 2 / (0.205672 · 0.0443137 · 0.230768) = 950.9 Hz. Half the height doubles it; 60° from the normal halves the path and doubles it too.
    [Theory]
    [InlineData(1.2, 0, 1, 950.9)]
    [InlineData(0.6, 0, 1, 1901.8)]
    [InlineData(1.2, 60, 1, 1901.8)]
    [InlineData(1.2, 0, 3.0103, 391.1)] // one half of ripple: 950.9 · 0.205672 / 0.5
    public void The_band_begins_where_the_ripple_is_within_the_tolerance(double heightM, double angleDeg, double toleranceDb, double hz) =>
        AssertClose.Relative(hz, RigidPlane.AverageFromHz(heightM, angleDeg, toleranceDb), 5e-4);

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public void A_tolerance_is_above_nought(double toleranceDb)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.AverageFromHz(1.2, 0, toleranceDb));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.DoublingUpToHz(1.2, 0, toleranceDb));
    }
}

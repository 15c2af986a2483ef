using MicRegister.Metrology.GroundPlane;

namespace MicRegister.Metrology.Tests.GroundPlane;

// Expected values: image source in closed form, recomputed with Python 3.11 at c = 340.294 m/s; printed to the digits given.
public sealed class RigidPlaneTests
{
    [Theory]
    [InlineData(1.2, 0, 70.8945833)]
    [InlineData(1.2, 30, 81.86)]
    [InlineData(1.2, 60, 141.79)]
    [InlineData(1.2192, 0, 69.78)]
    [InlineData(0.007, 0, 12153.35714)]
    [InlineData(0.007, 30, 14033)]
    [InlineData(0.007, 60, 24307)]
    [InlineData(0.010, 0, 8507)]
    public void First_dip_stands_where_the_paths_differ_by_half_a_wave(double heightM, double angle, double hz) =>
        AssertClose.Relative(hz, RigidPlane.FirstDipHz(heightM, angle), 1e-4);

    [Theory]
    [InlineData(1000, 0, 5.948)]
    [InlineData(1000, 60, 6.002)]
    [InlineData(2000, 30, 5.801)]
    [InlineData(4000, 0, 4.804)]
    [InlineData(5000, 60, 5.559)]
    [InlineData(8000, 0, 0.196)]
    [InlineData(8000, 30, 1.940)]
    [InlineData(10000, 0, -5.201)]
    [InlineData(10000, 30, -1.184)]
    [InlineData(10000, 60, 4.065)]
    public void Seven_millimetres_give_their_levels(double hz, double angle, double levelDb) =>
        AssertClose.Absolute(levelDb, RigidPlane.LevelDb(hz, 0.007, angle), 5e-4);

    [Theory]
    [InlineData(50, -0.98)]
    [InlineData(63, -9.17)]
    [InlineData(80, -7.94)]
    [InlineData(100, 1.60)]
    [InlineData(125, 5.41)]
    [InlineData(250, 3.36)]
    public void A_stand_of_1200_millimetres_gives_its_levels(double hz, double levelDb) =>
        AssertClose.Absolute(levelDb, RigidPlane.LevelDb(hz, 1.2, 0), 5e-3);

    [Theory]
    [InlineData(0.1, 1172)]
    [InlineData(0.5, 2600)]
    [InlineData(1, 3642)]
    [InlineData(3, 6067)]
    public void The_usable_band_ends_where_the_loss_reaches_the_tolerance(double toleranceDb, double hz)
    {
        var upTo = RigidPlane.DoublingUpToHz(0.007, 0, toleranceDb);

        AssertClose.Relative(hz, upTo, 3e-4);
        AssertClose.Absolute(RigidPlane.PressureDoublingDb - toleranceDb, RigidPlane.LevelDb(upTo, 0.007, 0), 1e-9);
    }

    [Fact]
    public void Flush_doubles_the_pressure_at_every_frequency()
    {
        AssertClose.Absolute(6.0206, RigidPlane.LevelDb(20000, 0, 45), 1e-4);
        Assert.Equal(double.PositiveInfinity, RigidPlane.FirstDipHz(0, 0));
        Assert.Equal(double.PositiveInfinity, RigidPlane.DoublingUpToHz(0, 0, 0.5));
        AssertClose.Absolute(6.0206, RigidPlane.BandLevelDb(100, 200, 0, 0), 1e-4);
    }

    // The closed form of a band against a plain sum of 20 001 tones.
    [Theory]
    [InlineData(89.1, 112.2, 1.2)]
    [InlineData(891, 1122, 1.2)]
    [InlineData(8913, 11220, 0.007)]
    public void A_bands_level_is_the_mean_of_its_tones(double lowHz, double highHz, double heightM)
    {
        double sum = 0;
        for (var i = 0; i <= 20000; i++)
            sum += Math.Pow(10, RigidPlane.LevelDb(lowHz + ((highHz - lowHz) * i / 20000), heightM, 0) / 10);

        AssertClose.Absolute(10 * Math.Log10(sum / 20001), RigidPlane.BandLevelDb(lowHz, highHz, heightM, 0), 1e-3);
    }

    [Fact]
    public void From_its_averaging_band_on_a_stand_stays_within_the_tolerance_of_three_decibels()
    {
        var from = RigidPlane.AverageFromHz(1.2, 0, 1);

        for (var centre = from; centre < 20000; centre *= 1.01)
        {
            var level = RigidPlane.BandLevelDb(centre * Math.Pow(10, -0.05), centre * Math.Pow(10, 0.05), 1.2, 0);
            AssertClose.Absolute(RigidPlane.EnergyDoublingDb, level, 1.000001);
        }
    }

    [Fact]
    public void Impossible_geometry_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.LevelDb(1000, -0.1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.LevelDb(1000, 1, 90));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.LevelDb(1000, 1, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.LevelDb(-1, 1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.FirstDipHz(1, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.DoublingUpToHz(1, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => RigidPlane.BandLevelDb(100, 100, 1, 0));
    }
}

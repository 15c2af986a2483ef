using FsCheck;
using FsCheck.Fluent;
using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.GroundPlane;
using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.GroundPlane;

/// <summary>Receivers over a plane: first dips by hand, c / (4 h sin ε), and what holds for all of them.</summary>
public sealed class PlaneReceiverTests
{
    private static readonly Config Few = Config.QuickThrowOnFailure.WithMaxTest(400);

    [Theory]
    [InlineData(1.2, 90, 70.89)]
    [InlineData(1.2, 60, 81.86)]
    [InlineData(1.2, 30, 141.79)]
    [InlineData(1.2192, 90, 69.78)]
    [InlineData(0.007, 90, 12_153)]
    [InlineData(0.006, 90, 14_179)]
    [InlineData(0.008, 90, 10_634)]
    public void First_dip_by_elevation(double heightM, double elevationDeg, double hz)
    {
        var receiver = new PlaneReceiver(heightM, elevationDeg);

        AssertClose.Relative(hz, receiver.FirstDipHz, 1e-4);
        AssertClose.Relative(1 / (2 * hz), receiver.DelayS, 1e-4);
    }

    // 71.5 Hz at 20 °C; the speed of sound is 340.294 m/s at 15 °C (ISO 2533:1975).
    [Fact]
    public void Warmer_air_moves_the_dip_up()
    {
        AssertClose.Absolute(340.294, StandardAtmosphere.SpeedOfSound(15), 5e-4);
        AssertClose.Absolute(71.5, new PlaneReceiver(1.2, 90, StandardAtmosphere.SpeedOfSound(20)).FirstDipHz, 0.05);
    }

    // Recomputed by hand: 4 kHz over 6, 7 and 8 mm differ by +0.334 and -0.397 dB.
    [Fact]
    public void A_gap_changes_the_level_of_a_tone()
    {
        double At(double heightM) => new PlaneReceiver(heightM).ToneDb(4000);

        AssertClose.Absolute(0.334, At(0.006) - At(0.007), 5e-4);
        AssertClose.Absolute(-0.397, At(0.008) - At(0.007), 5e-4);
    }

    [Fact]
    public void Flush_keeps_doubling_everywhere_and_no_dip_comes()
    {
        var flush = new PlaneReceiver(0, 5);

        Assert.Equal((0, double.PositiveInfinity), flush.Keeps(PlaneAim.PressureDoubling, 1e-12));
        Assert.Equal((double.PositiveInfinity, 0), (flush.FirstDipHz, flush.DelayS));
        AssertClose.Absolute(6.0206, flush.BandDb(new(13)), 5e-5);
    }

    // 10 lg(1 + Q²) = 1 dB: Q = sqrt(10^0.1 - 1) = 0.50885; over rigid ground it is 3.01 dB, for no tolerance under that.
    [Fact]
    public void Over_rigid_ground_no_height_hears_the_free_field()
    {
        AssertClose.Absolute(0.50885, PlaneReceiver.FreeFieldReflection(1), 5e-6);
        Assert.Equal(1, PlaneReceiver.FreeFieldReflection(3.02));
        Assert.Equal(double.PositiveInfinity, new PlaneReceiver(10).Keeps(PlaneAim.FreeField, 1).FromHz);
        Assert.Equal(0, new PlaneReceiver(10, 90, 340, 0).Keeps(PlaneAim.FreeField, 1).FromHz);
        Assert.True(double.IsFinite(new PlaneReceiver(10, 90, 340, 0.5).Keeps(PlaneAim.FreeField, 1).FromHz));
    }

    // What returns a tenth less loses 20 lg 1.9 = 0.446 dB at the lowest tone already.
    [Theory]
    [InlineData(0.9, 0.4, 0)]
    [InlineData(0.9, 0.5, 1)]
    [InlineData(0, 5, 0)]
    [InlineData(0, 6.1, 1)]
    public void Weak_ground_doubles_nowhere_where_the_tolerance_is_used_up(double reflection, double toleranceDb, int sign) =>
        Assert.Equal(sign, Math.Sign(new PlaneReceiver(0.007, 90, 340, reflection).Keeps(PlaneAim.PressureDoubling, toleranceDb).ToHz));

    [Fact]
    public void A_greater_gap_loses_more_and_earlier() => Prop.ForAll(
        Gen.Choose(1, 300).Two().ToArbitrary(), Gen.Choose(1, 90).ToArbitrary(), (gaps, elevation) =>
        {
            var (small, great) = (Math.Min(gaps.Item1, gaps.Item2) / 1e4, Math.Max(gaps.Item1, gaps.Item2) / 1e4);
            PlaneReceiver near = new(small, elevation), far = new(great, elevation);
            var hz = far.FirstDipHz * 0.9;
            return near.Keeps(PlaneAim.PressureDoubling, 1).ToHz >= far.Keeps(PlaneAim.PressureDoubling, 1).ToHz
                && near.ToneDb(hz) >= far.ToneDb(hz) - 1e-9 && near.FirstDipHz >= far.FirstDipHz;
        }).Check(Few);

    [Fact]
    public void Within_its_band_a_mount_keeps_its_level_and_a_wider_tolerance_keeps_it_longer() => Prop.ForAll(
        Gen.Choose(1, 12_000).Zip(Gen.Choose(1, 90)).ToArbitrary(), Gen.Choose(2, 60).Zip(Gen.Choose(0, 100)).ToArbitrary(), (where, what) =>
        {
            var receiver = new PlaneReceiver(where.Item1 / 1e3, where.Item2, 340, what.Item2 / 100.0);
            var tolerance = what.Item1 / 20.0;
            foreach (var aim in Enum.GetValues<PlaneAim>())
            {
                var (from, to) = receiver.Keeps(aim, tolerance);
                var (wideFrom, wideTo) = receiver.Keeps(aim, tolerance * 1.5);
                if (wideFrom > from || wideTo < to) return false;
                var meant = PlaneReceiver.LevelDbOf(aim);
                if (aim == PlaneAim.PressureDoubling)
                {
                    foreach (var share in new[] { 0.01, 0.3, 0.7, 1 })
                        if (to > 0 && double.IsFinite(to) && receiver.ToneDb(to * share) < meant - tolerance - 1e-6) return false;
                    continue;
                }
                for (var i = -16; i <= 13; i++)
                {
                    var band = new ThirdOctave(i);
                    if (band.MiddleHz >= from && Math.Abs(receiver.BandDb(band) - meant) > tolerance + 1e-6) return false;
                }
            }
            return true;
        }).Check(Few);

    [Theory]
    [InlineData(-0.001, 90, 340, 1)]
    [InlineData(double.NaN, 90, 340, 1)]
    [InlineData(double.PositiveInfinity, 90, 340, 1)]
    [InlineData(1, 0, 340, 1)]
    [InlineData(1, 90.1, 340, 1)]
    [InlineData(1, double.NaN, 340, 1)]
    [InlineData(1, 90, 0, 1)]
    [InlineData(1, 90, 340, 1.01)]
    [InlineData(1, 90, 340, double.NaN)]
    public void What_cannot_be_is_refused(double heightM, double elevationDeg, double speed, double reflection) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PlaneReceiver(heightM, elevationDeg, speed, reflection));

    [Theory]
    [InlineData(-50.1)]
    [InlineData(70.1)]
    [InlineData(double.NaN)]
    public void Air_beyond_its_range_is_refused(double temperatureC) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.SpeedOfSound(temperatureC));
}

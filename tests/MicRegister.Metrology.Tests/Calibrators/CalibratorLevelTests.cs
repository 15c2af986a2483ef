using MicRegister.Metrology.Calibrators;

namespace MicRegister.Metrology.Tests.Calibrators;

public sealed class CalibratorLevelTests
{
    // 124.00 dB at 97.5 kPa is 123.6658 dB: 20 lg(97.5 / 101.325), recomputed. The pressure's 0.1 kPa is 8.6859 · 0.1 / 97.5 = 0.0089 dB (hand algebra).
    [Fact]
    public void A_pistonphone_follows_static_pressure_and_every_term_is_shown()
    {
        var level = CalibratorLevel.Of(124, 0.05, "C 1", null, PressureLaw.Adiabatic, 0, new(97.5, 0.1), new("load volume", 0.02, 0.01), new("pressure to free field", -0.12, 0.03));

        AssertClose.Absolute(123.6658 + 0.02 - 0.12, level.LevelDb, 5e-5);
        Assert.Equal(["certificate", "static pressure", "load volume", "pressure to free field"], level.Terms.Select(t => t.Name));
        AssertClose.Absolute(0.0089, level.Terms[1].StandardUncertaintyDb, 5e-5);
        Assert.Contains("101.325 kPa is taken", level.Terms[1].Remark, StringComparison.Ordinal);
        AssertClose.Relative(Math.Sqrt((0.05 * 0.05) + Math.Pow(8.685889638 * 0.1 / 97.5, 2) + (0.01 * 0.01) + (0.03 * 0.03)), level.Budget.Standard, 1e-9);
    }

    [Fact]
    public void Each_law_is_its_own()
    {
        var coefficient = CalibratorLevel.Of(94, 0.05, "C 1", 100, PressureLaw.Coefficient, 0.002, new(95, 0.1));
        AssertClose.Absolute(94 - 0.01, coefficient.LevelDb, 1e-12);
        Assert.Equal("", coefficient.Terms[1].Remark);
        Assert.Equal(94, CalibratorLevel.Of(94, 0.05, "C 1", null, PressureLaw.None, 0, null).LevelDb);
        Assert.Throws<ArgumentException>(() => CalibratorLevel.Of(124, 0.05, "C 1", null, PressureLaw.Adiabatic, 0, null));
        Assert.Throws<ArgumentException>(() => CalibratorLevel.Of(double.NaN, 0.05, "C 1", null, PressureLaw.None, 0, null));
    }

    // ISO 2533: 95.46 kPa at 500 m, seen in public tables; at sea level 101.3 kPa. A weather report of 101.8 kPa at 500 m is wrong by 0.56 dB.
    [Fact]
    public void A_pressure_reduced_to_sea_level_is_caught_and_one_from_the_altitude_is_marked()
    {
        Assert.Contains("reduced to sea level", new StationPressure(101.8, 0.1).Doubt(500), StringComparison.Ordinal);
        Assert.Null(new StationPressure(95.9, 0.1).Doubt(500));
        Assert.Null(new StationPressure(103.5, 0.1).Doubt(10));
        Assert.Contains("too low", new StationPressure(85, 0.1).Doubt(500), StringComparison.Ordinal);
        var estimated = StationPressure.FromAltitude(500);
        AssertClose.Absolute(95.46084, estimated.KPa, 1e-4);
        Assert.Contains("no barometer was read", CalibratorLevel.Of(124, 0.05, "C 1", 101.325, PressureLaw.Adiabatic, 0, estimated).Terms[1].Remark, StringComparison.Ordinal);
    }
}

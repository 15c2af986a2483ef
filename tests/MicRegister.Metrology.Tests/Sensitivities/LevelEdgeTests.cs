using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.Calibrators;
using MicRegister.Metrology.Checks;
using MicRegister.Metrology.Sensitivities;

namespace MicRegister.Metrology.Tests.Sensitivities;

/// <summary>Signs and edges of levels, pressures and corrections, by hand algebra where nothing else is named.</summary>
public sealed class LevelEdgeTests
{
    [Fact]
    public void Changes_add_up_and_turn_round()
    {
        LevelChange one = new(0.3), other = new(0.1);

        Assert.Equal(0.4, (one + other).Decibels, 1e-12);
        Assert.Equal(0.2, (one - other).Decibels, 1e-12);
        Assert.Equal(-0.3, (-one).Decibels);
        Assert.Equal(-26.3, (new SensitivityLevel(-26) - one).Decibels, 1e-12);
        Assert.Equal(-25.7, (new SensitivityLevel(-26) + one).Decibels, 1e-12);
        Assert.Equal(12.5, new Sensitivity(0.0125).MillivoltsPerPascal, 1e-12);
    }

    // ISO 2533:1975 (from memory, unchecked): 113.929 kPa at -1000 m and 22.632 kPa at 11000 m, both still in the layer.
    [Fact]
    public void The_layer_of_the_atmosphere_includes_its_ends()
    {
        AssertClose.Absolute(113.929, StandardAtmosphere.PressureKPa(-1000), 1e-3);
        AssertClose.Absolute(22.632, StandardAtmosphere.PressureKPa(11000), 1e-3);
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.PressureKPa(-1000.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.PressureKPa(11000.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Pistonphone.PressureCorrection(double.PositiveInfinity));
    }

    // At sea level 101.325 kPa: up to 4 kPa more and down to 7 kPa less is weather.
    [Theory]
    [InlineData(105.32, null)]
    [InlineData(105.33, "too high")]
    [InlineData(94.33, null)]
    [InlineData(94.32, "too low")]
    public void A_pressure_is_doubted_beyond_what_weather_does(double kPa, string? says)
    {
        var doubt = new StationPressure(kPa, 0.1).Doubt(0);

        Assert.Equal(says is null, doubt is null);
        if (says is not null) Assert.Contains(says, doubt, StringComparison.Ordinal);
    }

    // -0.002 dB/kPa at 95 kPa from 100 kPa: +0.01 dB; u = 0.002 · 0.1. The slope keeps its sign in the budget, the shown figure does not.
    [Fact]
    public void A_falling_coefficient_raises_the_level_where_pressure_is_low()
    {
        var level = CalibratorLevel.Of(94, 0.05, "C 1", 100, PressureLaw.Coefficient, -0.002, new(95, 0.1));

        AssertClose.Absolute(94.01, level.LevelDb, 1e-12);
        AssertClose.Absolute(0.0002, level.Terms[1].StandardUncertaintyDb, 1e-12);
        Assert.Equal(-0.002, level.Budget.Components[1].Sensitivity);
        AssertClose.Relative(Math.Sqrt((0.05 * 0.05) + (0.0002 * 0.0002)), level.Budget.Standard, 1e-12);
        Assert.Equal("barometer", level.Budget.Components[1].Source);
        // Without the certificate's own pressure 101.325 kPa are taken: 0.002 · 6.325.
        var standard = CalibratorLevel.Of(94, 0.05, "C 1", null, PressureLaw.Coefficient, -0.002, new(95, 0.1));
        AssertClose.Absolute(94 + 0.01265, standard.LevelDb, 1e-12);
    }

    [Fact]
    public void Two_remarks_stand_side_by_side_and_an_estimate_is_a_source_of_its_own()
    {
        var level = CalibratorLevel.Of(124, 0.05, "C 1", null, PressureLaw.Adiabatic, 0, StationPressure.FromAltitude(500));

        Assert.Contains("101.325 kPa is taken; estimated from the altitude", level.Terms[1].Remark, StringComparison.Ordinal);
        Assert.Equal(["C 1", "altitude"], level.Budget.Components.Select(c => c.Source));
        Assert.Throws<ArgumentException>(() => CalibratorLevel.Of(94, 0.05, "C 1", 100, PressureLaw.Coefficient, 0.002, null));
    }

    [Fact]
    public void After_less_before_is_the_difference_and_nothing_but_figures_make_a_sensitivity()
    {
        Assert.Equal(-0.4, new BeforeAndAfter(-38.0, -38.4).DifferenceDb, 1e-12);
        foreach (var rms in new[] { 0, -1, double.NaN, double.PositiveInfinity })
            Assert.Throws<ArgumentException>(() => ChainSensitivity.LevelDb(rms, 94));
        foreach (var level in new[] { double.NaN, double.PositiveInfinity })
            Assert.Throws<ArgumentException>(() => ChainSensitivity.LevelDb(1, level));
    }
}

using MicRegister.Metrology.Sensitivities;

namespace MicRegister.Metrology.Tests.Sensitivities;

public sealed class SensitivityTests
{
    // 20 lg of the sensitivity in V/Pa, recomputed with Python 3.11.
    [Theory]
    [InlineData(0.05, -26.020599913279625)]
    [InlineData(0.0125, -38.06179973983887)]
    [InlineData(0.004, -47.958800173440754)]
    [InlineData(0.0011, -59.17214629683549)]
    public void A_sensitivity_and_its_level_are_one_thing(double voltsPerPascal, double levelDb)
    {
        AssertClose.Relative(levelDb, new Sensitivity(voltsPerPascal).Level.Decibels, 1e-14);
        AssertClose.Relative(voltsPerPascal, Sensitivity.FromLevel(new(levelDb)).VoltsPerPascal, 1e-13);
        AssertClose.Relative(voltsPerPascal, Sensitivity.FromMillivoltsPerPascal(voltsPerPascal * 1000).VoltsPerPascal, 1e-15);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.05)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_sensitivity_has_no_level(double voltsPerPascal) =>
        Assert.Throws<InvalidOperationException>(() => new Sensitivity(voltsPerPascal).Level);

    [Fact]
    public void A_deviation_is_the_later_level_less_the_earlier()
    {
        var change = new SensitivityLevel(-26.10) - new SensitivityLevel(-26.02);

        AssertClose.Absolute(-0.08, change.Decibels, 1e-12);
        AssertClose.Absolute(-26.10, (new SensitivityLevel(-26.02) + change).Decibels, 1e-12);
        AssertClose.Absolute(0, (change - change).Decibels, 0);
    }

    // 20/ln 10 (Python 3.11): 1 % is 0.0868589 dB to first order.
    [Fact]
    public void A_relative_uncertainty_becomes_decibels() =>
        AssertClose.Relative(0.08685889638065036, LevelChange.UncertaintyFromRelative(0.01), 1e-14);

    // Hand algebra: -0.01 dB/kPa over 11.45 kPa less is +0.1145 dB at the site; 0.003 dB/K over 10 K and 0.001 dB/% over 20 % on top.
    [Fact]
    public void The_air_shifts_a_level_by_the_devices_own_coefficients()
    {
        var own = new EnvironmentCoefficients(-0.01, 0.003, 0.001);
        var site = new AirConditions(101.325 - 11.45, 33, 70);

        AssertClose.Absolute(0.1145 + 0.03 + 0.02, own.Between(AirConditions.Reference, site).Decibels, 1e-12);
        AssertClose.Absolute(-26 - 0.1645, own.ToReference(new(-26), site).Decibels, 1e-12);
        Assert.Equal(0, default(EnvironmentCoefficients).Between(AirConditions.Reference, site).Decibels);
    }
}

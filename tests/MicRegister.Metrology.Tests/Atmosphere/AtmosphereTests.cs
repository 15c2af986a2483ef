using MicRegister.Metrology.Atmosphere;

namespace MicRegister.Metrology.Tests.Atmosphere;

public sealed class AtmosphereTests
{
    // ISO 2533:1975 / US Standard Atmosphere 1976 tables, seen for 1000, 2000, 3000 m; the rest recomputed with Python 3.11.
    [Theory]
    [InlineData(-500, 107477.51)]
    [InlineData(0, 101325.00)]
    [InlineData(500, 95460.84)]
    [InlineData(1000, 89874.56)]
    [InlineData(2000, 79495.20)]
    [InlineData(3000, 70108.53)]
    [InlineData(5000, 54019.89)]
    public void Pressure_follows_the_standard_atmosphere(double heightM, double pascal) =>
        AssertClose.Absolute(pascal / 1000, StandardAtmosphere.PressureKPa(heightM), 1e-5);

    [Theory]
    [InlineData(-1001)]
    [InlineData(11001)]
    [InlineData(double.NaN)]
    public void Heights_outside_the_layer_are_refused(double heightM) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.PressureKPa(heightM));

    // 20 lg(p/p0), recomputed with Python 3.11; the height pairs are the standard atmosphere's.
    [Theory]
    [InlineData(97.5, -0.33423993430388)]
    [InlineData(101.325, 0)]
    [InlineData(95.46084, -0.5178)]
    [InlineData(65, -3.8561)]
    public void A_pistonphone_loses_level_with_pressure(double kPa, double correctionDb) =>
        AssertClose.Absolute(correctionDb, Pistonphone.PressureCorrection(kPa).Decibels, 5e-5);

    [Fact]
    public void A_pistonphone_is_corrected_from_its_certificates_own_pressure() =>
        AssertClose.Absolute(0, Pistonphone.PressureCorrection(97.5, 97.5).Decibels, 1e-15);

    [Theory]
    [InlineData(0, 101.325)]
    [InlineData(-1, 101.325)]
    [InlineData(100, 0)]
    [InlineData(double.NaN, 100)]
    public void Impossible_pressures_are_refused(double kPa, double certificate) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Pistonphone.PressureCorrection(kPa, certificate));
}

using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Metrology.Tests.Uncertainty;

public sealed class CoverageProbabilityTests
{
    // JCGM 100:2008, table G.1 (normal: 1 at 68.27 %, 1.645 at 90 %, 1.96 at 95 %, 2 at 95.45 %, 2.576 at 99 %, 3 at 99.73 %), G.1.3
    // (rectangular: 1.65 at 95 %) and table G.2 (t of two degrees of freedom: 4.30 at 95 %, 9.92 at 99 %).
    [Theory]
    [InlineData(1, 0.6827, true)]
    [InlineData(1.645, 0.90, true)]
    [InlineData(1.96, 0.95, true)]
    [InlineData(2, 0.9545, true)]
    [InlineData(2.576, 0.99, true)]
    [InlineData(3, 0.9973, true)]
    [InlineData(1.65, 0.95, true)]
    [InlineData(4.30, 0.95, true)]
    [InlineData(9.92, 0.99, true)]
    [InlineData(2, 0.99, false)]
    [InlineData(2, 0.6827, false)]
    [InlineData(1, 0.95, false)]
    [InlineData(4.5, 0.95, false)]
    [InlineData(2, 0, false)]
    [InlineData(2, 1, false)]
    [InlineData(2, 95, false)]
    [InlineData(2, double.NaN, false)]
    [InlineData(double.NaN, 0.95, false)]
    public void A_factor_fits_a_probability_between_rectangular_and_t_of_two_degrees(double k, double p, bool fits) =>
        Assert.Equal(fits, CoverageProbability.Fits(k, p));

    [Theory]
    [InlineData(0.95, true)]
    [InlineData(0.9545, true)]
    [InlineData(0.945, true)]
    [InlineData(0.96, true)]
    [InlineData(0.94, false)]
    [InlineData(0.99, false)]
    [InlineData(double.NaN, false)]
    public void About_95_percent_is_usual(double p, bool isUsual) => Assert.Equal(isUsual, CoverageProbability.IsUsual(p));
}

using MicRegister.Metrology.Tones;

namespace MicRegister.Metrology.Tests.Tones;

public sealed class SineFitTests
{
    private static double[] Made(int n, double hertz, double rate, double amplitude, double phase, double offset) =>
        [.. Enumerable.Range(0, n).Select(i => offset + (amplitude * Math.Cos((2 * Math.PI * hertz / rate * i) + phase)))];

    // What was made is what is found: hand algebra.
    [Theory]
    [InlineData(1.0)]
    [InlineData(-2.5)]
    public void Three_parameters_are_found_where_the_frequency_is_known(double phase)
    {
        var fit = SineFit.Three(Made(501, 159.2, 8000, 0.3, phase, -0.02), 159.2, 8000);
        AssertClose.Relative(0.3, fit.Amplitude, 1e-12);
        AssertClose.Relative(phase, fit.PhaseRad, 1e-11);
        AssertClose.Relative(-0.02, fit.Offset, 1e-11);
        Assert.InRange(fit.ResidualRms, 0, 1e-8); // a difference of squares: half the digits are left
        AssertClose.Relative(0.3 / Math.Sqrt(2), fit.Rms, 1e-12);
    }

    [Fact]
    public void Four_parameters_find_the_frequency_too()
    {
        var fit = SineFit.Four(Made(4800, 250.123, 48_000, 0.1, 0.4, 0.001), 250, 48_000);
        AssertClose.Relative(250.123, fit.FrequencyHz, 1e-12);
        AssertClose.Relative(0.1, fit.Amplitude, 1e-11);
    }

    [Fact]
    public void Harmonics_are_fitted_together_and_those_out_of_reach_are_left_out()
    {
        var samples = Made(800, 1000, 8000, 0.2, 0.1, 0).Zip(Made(800, 2000, 8000, 0.01, 1, 0), (a, b) => a + b).ToArray();
        var fit = SineFit.WithHarmonics(samples, 1000, 10, 8000, out var amplitudes);
        AssertClose.Relative(0.2, amplitudes[0], 1e-10);
        AssertClose.Relative(0.01, amplitudes[1], 1e-9);
        Assert.Equal(10, amplitudes.Length);
        Assert.All(amplitudes.Skip(3), a => Assert.Equal(0, a));
        Assert.InRange(fit.ResidualRms, 0, 1e-8);
        Assert.Throws<ArgumentException>(() => SineFit.Three([1, 2], 1000, 8000));
    }

    [Theory]
    [InlineData(249.6, 51_200)]
    [InlineData(1003.3, 8_000)]
    [InlineData(159.155, 192_000)]
    public void A_tone_is_found_by_itself(double hertz, double rate) =>
        Assert.InRange(ToneFinder.Find(Made(ToneFinder.Length(rate), hertz, rate, 0.1, 0.3, 0.05), rate) - hertz, -0.5, 0.5);

    [Fact]
    public void Nothing_is_found_in_nothing() => Assert.Equal(0, ToneFinder.Find(new double[1024], 8000));
}

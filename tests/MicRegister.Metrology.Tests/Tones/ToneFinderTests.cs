using MicRegister.Metrology.Tones;

namespace MicRegister.Metrology.Tests.Tones;

/// <summary>Where the strongest tone is looked for: lines from 20 Hz to 0.45 of the sampling rate.</summary>
public sealed class ToneFinderTests
{
    // 4096 samples at 8 kHz: lines 1.953 Hz apart. 19.53 Hz is line 10 and not looked at, so that what leaks into line 11 is the best there
    // is.
    [Fact]
    public void A_tone_under_twenty_hertz_is_not_taken_for_one() => Assert.True(ToneFinder.Find(Tone(19.53125), 8000) >= 20);

    [Theory]
    [InlineData(31.25)] // on a line
    [InlineData(250)]
    [InlineData(1000.9765625)] // between two
    [InlineData(3500)]
    public void A_clear_tone_is_found_to_a_few_tenths_of_a_hertz(double hz) =>
        AssertClose.Absolute(hz, ToneFinder.Find(Tone(hz), 8000), 0.3);

    [Fact]
    public void Silence_has_no_tone_and_an_offset_is_none()
    {
        Assert.Equal(0, ToneFinder.Find(new double[4096], 8000));
        AssertClose.Absolute(250, ToneFinder.Find([.. Tone(250).Select(x => x + 5)], 8000), 0.3);
    }

    private static double[] Tone(double hz) => [.. Enumerable.Range(0, 4096).Select(i => Math.Sin(2 * Math.PI * hz * i / 8000))];
}

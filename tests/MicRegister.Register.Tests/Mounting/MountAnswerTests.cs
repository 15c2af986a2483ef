using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Register.Tests.Mounting;

/// <summary>What is asked of a mount, what is refused, and what a change of gap or air makes.</summary>
public sealed class MountAnswerTests
{
    private static readonly MountQuestion Inverted = new(Mount.InvertedPlate, 0.007, SourceClass.Propeller, 50, 10_000);

    [Theory]
    [InlineData(Mount.InvertedPlate, 0, "height", "a height of 0 is flush in a plate")]
    [InlineData(Mount.Pole, -1, "height", "above 0 up to 100 m")]
    [InlineData(Mount.GroundStand, double.NaN, "height", "above 0 up to 100 m")]
    [InlineData(Mount.Pole, 100.1, "height", "above 0 up to 100 m")]
    [InlineData(Mount.FlushPlate, 0.051, "height", "a step of up to 0.05 m")]
    public void Heights_that_cannot_be_are_named(Mount mount, double heightM, string field, string allowed)
    {
        var question = Inverted with { Mount = mount, HeightM = heightM };

        var fault = Assert.Single(question.Faults());
        Assert.Equal(field, fault.Field);
        Assert.Contains(allowed, fault.Text, StringComparison.Ordinal);
        Assert.Contains(fault.Value, Assert.Throws<ArgumentException>(() => MountAnswer.Of(question)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Everything_else_that_cannot_be_is_named()
    {
        var question = Inverted with
        {
            ElevationDeg = 90.5,
            FromHz = 9,
            ToHz = 40_001,
            ToleranceDb = 0,
            TemperatureC = -51,
            ColdC = double.NaN,
            WarmC = 71,
            Reflection = 1.1,
            HeightOffMm = -1,
        };

        Assert.Equal(
            ["elevation", "from", "to", "tolerance", "temperature", "cold", "warm", "reflection", "off"],
            question.Faults().Select(f => f.Field));
        Assert.Equal("to", Assert.Single((Inverted with { FromHz = 500, ToHz = 500 }).Faults()).Field);
        Assert.Equal("warm", Assert.Single((Inverted with { ColdC = 20, WarmC = 10 }).Faults()).Field);
        Assert.Empty((Inverted with { HeightM = 100, ElevationDeg = 0.001, Reflection = 0, HeightOffMm = 0 }).Faults());
    }

    // acos(10^-0.05) · 340.294 / (π · 2 h): 4248.8 Hz over 6 mm, 3641.8 over 7, 3186.6 over 8.
    [Fact]
    public void A_gap_that_is_off_moves_the_end_of_the_band()
    {
        var answer = MountAnswer.Of(Inverted);

        Assert.Equal(3641.84, answer.ToHz, 0.1);
        Assert.Equal(["1 mm lower", "1 mm higher", "at −10 °C", "at 35 °C"], answer.Effects.Select(e => e.What));
        Assert.Equal(4248.81, answer.Effects[0].ToHz, 0.1);
        Assert.Equal(3186.61, answer.Effects[1].ToHz, 0.1);
        // c goes with the root of the temperature in K: 263.15 and 308.15 against 288.15.
        Assert.Equal(3641.84 * Math.Sqrt(263.15 / 288.15), answer.Effects[2].ToHz, 0.1);
        Assert.Equal(3641.84 * Math.Sqrt(308.15 / 288.15), answer.Effects[3].ToHz, 0.1);
    }

    [Fact]
    public void A_flush_step_can_only_stand_proud_in_the_model()
    {
        var effects = MountAnswer.Of(new(Mount.FlushPlate, 0, SourceClass.Jet, 50, 10_000) { HeightOffMm = 0.2 }).Effects;

        Assert.Equal("0.2 mm higher", effects[0].What);
        Assert.DoesNotContain(effects, e => e.What.Contains("lower", StringComparison.Ordinal));
        Assert.True(double.IsFinite(effects[0].Receiver.FirstDipHz));
    }

    [Theory]
    [InlineData(50, 10_000, 24, 50, 10_000)] // the two dozen bands of 50 Hz to 10 kHz
    [InlineData(1100, 1150, 1, 1250, 1250)] // no nominal middle lies between them: the band of the upper end, 1122 to 1413 Hz
    public void Bands_are_those_of_the_band_that_is_asked_for(double from, double to, int count, double first, double last)
    {
        var bands = MountAnswer.Of(Inverted with { FromHz = from, ToHz = to }).Bands;

        Assert.Equal((count, first, last), (bands.Count, bands[0].Band.NominalHz, bands[^1].Band.NominalHz));
        Assert.All(bands, b => Assert.Equal(b.IsWithin, Math.Abs(b.LevelDb - 6.020599913279624) <= 1));
    }

    [Fact]
    public void Practice_without_a_band_has_a_usual_one() =>
        Assert.All(Enum.GetValues<SourceClass>(), s => Assert.Empty((Inverted with
        {
            Source = s,
            FromHz = MountPractice.UsualBand(s).FromHz,
            ToHz = MountPractice.UsualBand(s).ToHz,
        }).Faults()));
}

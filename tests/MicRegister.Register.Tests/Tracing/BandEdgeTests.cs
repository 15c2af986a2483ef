using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Corrections by band where something is not stated or does not count.</summary>
public sealed class BandEdgeTests
{
    private static readonly Fact Response =
        Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = new string('a', 64), Field = "pressure" }, "2026-03-05", "device:M1");

    [Fact]
    public void Without_a_plan_or_with_one_that_cannot_be_bands_go_from_50_hz_to_10_khz()
    {
        var register = Heath.With(Heath.Flight());
        var plan = register.Campaign(Heath.C)!.Plan!;

        foreach (var stated in new[] { null, plan with { LowestHz = 200, HighestHz = 100 }, plan with { LowestHz = 0.5 } })
        {
            var bands = BandCorrections.Of(Heath.One(register), stated, _ => null)!.Bands;
            Assert.Equal((50.0, 10_000.0), (Math.Round(bands[0].Band.NominalHz, 6), Math.Round(bands[^1].Band.NominalHz, 6)));
        }
    }

    [Fact]
    public void An_angle_that_is_asked_for_is_known_exactly()
    {
        Fact[] facts = [.. Heath.Flight(), Heath.Incidence(30, halfWidthDeg: 15)];

        var stated = Of(facts);
        var asked = Of(facts, 60);

        Assert.Equal((30, 15), (stated.AngleDeg, stated.HalfWidthDeg));
        Assert.Equal((60, 0, "asked for"), (asked.AngleDeg, asked.HalfWidthDeg, asked.AngleSource));
    }

    [Fact]
    public void A_response_that_was_found_to_be_bad_is_none_on_record_and_none_of_a_set_that_was_parted()
    {
        var bad = Make.Of(new AlarmReviewed(Response.Id.ToString(), AlarmDecision.BadResult, "leak"), "2026-03-06", "device:M1");

        var cautions = Of([.. Heath.Flight(), Response, bad]).Cautions;
        Assert.Contains("No response of Microphone Model 101 is on record: it is taken as flat.", cautions);
    }

    [Fact]
    public void Which_frequency_the_sensitivity_holds_at_matters_where_a_response_is_relative_to_it_alone()
    {
        Fact[] unknown =
        [
            .. Heath.Flight(), Heath.Chosen(SensitivityRule.Certificate),
            Make.Of(Make.Issued(-38.06) with { FrequencyHz = null }, "2026-03-02", "device:M1"),
        ];
        bool IsTold(params Fact[] more) =>
            Of([.. unknown, .. more]).Cautions.Any(c => c.StartsWith("Nothing states the frequency", StringComparison.Ordinal));

        Assert.False(IsTold());
        Assert.True(IsTold(Response));
    }

    private static BandCorrections Of(Fact[] facts, double? angleDeg = null)
    {
        var register = Heath.With(facts);
        return BandCorrections.Of(Heath.One(register), register.Campaign(Heath.C)!.Plan, _ => null, angleDeg)!;
    }
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using static MicRegister.Register.Campaigns.CertificateLimits;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>Limits on what certificates state: of which devices they are, and which ones cannot be.</summary>
public sealed class CertificateLimitTests
{
    // A kind whose name begins as another's does is another kind.
    [Theory]
    [InlineData("error/attenuator/attenuation", "attenuation")]
    [InlineData("error/attenuator-2/attenuation", null)]
    [InlineData("error/attenuators/attenuation", null)]
    [InlineData("error/attenuator", null)]
    [InlineData("error/pre/attenuator/gain", null)]
    [InlineData("change-band/attenuator/attenuation", null)]
    public void A_limit_is_of_the_kind_that_its_key_names(string key, string? quantity)
    {
        var profile = new ProfileState("own", new("Own", "Invented.", [Limit(key, 0.1, null)]), null, false);

        Assert.Equal(quantity, CertificateLimits.Of(profile, GreatestError, "attenuator").Select(l => l.Quantity).SingleOrDefault());
    }

    [Theory]
    [InlineData("makers-data/windscreen/insertion-loss", null, "until damaged", null)]
    [InlineData("makers-data/windscreen/insertion-loss", 12.0, null, null)]
    [InlineData(
        "makers-data/windscreen/insertion-loss", null, "for ever", "'for ever': allowed is a number of months, or 'until damaged'.")]
    [InlineData("makers-data/windscreen/insertion-loss", null, null, "'': allowed is a number of months, or 'until damaged'.")]
    [InlineData("change-band/windscreen/insertion-loss", 0.4, null, null)]
    [InlineData("change-band/windscreen/insertion-loss", null, "little", "'little': allowed is a number of dB.")]
    [InlineData("error/attenuator/attenuation", null, "little", "'little': allowed is a number of dB.")]
    [InlineData("mounts", null, "pole", null)]
    public void Words_that_say_no_limit_are_told(string key, double? value, string? text, string? wrong)
    {
        var limit = Limit(key, value, text);

        Assert.Equal(wrong, Wrong(limit));
        if (LimitKey.Find(key)!.Unit.Length == 0) return;
        var answer = CampaignDecisions.Write(
            FactList.RegisterOf([]), new(new(Make.On("2026-06-01"), "P1", "desk", 1)), "own-rules", new("Own", "Own.", [limit]));
        Assert.Equal(wrong is null, answer is Result<IReadOnlyList<Fact>>.Accepted);
    }

    // An error is held against a nominal figure, which a microphone's sensitivity has none of.
    [Theory]
    [InlineData("error/attenuator/attenuation", true)]
    [InlineData("error/sound-calibrator/level", true)]
    [InlineData("error/microphone/sensitivity", false)]
    [InlineData("error/no-such-kind/level", false)]
    [InlineData("change-band/windscreen/", false)]
    [InlineData("change-band/windscreen/insertion-loss/more", false)]
    public void Errors_are_of_quantities_with_a_nominal_figure(string key, bool isKnown) =>
        Assert.Equal(isKnown, LimitKey.Find(key) is not null);

    private static ProfileLimit Limit(string key, double? value, string? text) => new(key, value, text, "invented", "own");
}

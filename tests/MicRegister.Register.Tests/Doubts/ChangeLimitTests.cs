using MicRegister.Register.Campaigns;
using MicRegister.Register.Doubts;

namespace MicRegister.Register.Tests.Doubts;

/// <summary>By how much a device may differ from its calibration before: whose limit counts, and which where nobody states any.</summary>
public sealed class ChangeLimitTests
{
    private static readonly LimitedChange Microphone = new("microphone", "sensitivity"), Calibrator = new("sound-calibrator", "level"),
        Barometer = new("barometer", "static-pressure"), InBands = new("windscreen", "insertion-loss", IsInBands: true);

    // Common practice, no source: 0.3 dB, 0.2 dB of a calibrator, 0.2 kPa of a barometer; in bands none.
    [Fact]
    public void Where_nobody_states_a_limit_what_is_usual_of_the_kind_counts() => Assert.Equal(
        [0.3, 0.2, 0.2, double.PositiveInfinity],
        new[] { Microphone, Calibrator, Barometer, InBands }.Select(c => ChangeLimit.Of(Nothing, null, c)));

    [Fact]
    public void A_limit_of_drift_is_none_of_a_calibrator_and_none_of_a_pressure()
    {
        var profile = Of((LimitKey.DriftDb, 0.11), (LimitKey.CalibratorStepDb, 0.12));

        Assert.Equal([0.11, 0.12, 0.2], new[] { Microphone, Calibrator, Barometer }.Select(c => ChangeLimit.Of(profile, null, c)));
        Assert.Equal(0.2, ChangeLimit.Of(Of((LimitKey.DriftDb, 0.11)), null, Calibrator));
    }

    [Fact]
    public void A_limit_of_the_kind_and_quantity_counts_before_and_the_profile_before_what_is_usual()
    {
        var (own, usual) = (Of((LimitKey.Change + "microphone/sensitivity", 0.4)), Of((LimitKey.DriftDb, 0.25)));

        Assert.Equal(0.4, ChangeLimit.Of(own, usual, Microphone));
        Assert.Equal(0.25, ChangeLimit.Of(Of(), usual, Microphone));
        Assert.Equal(0.25, ChangeLimit.Of(own, usual, new("preamplifier", "gain")));
    }

    [Fact]
    public void A_limit_in_bands_is_the_profiles_alone()
    {
        var limit = Of((CertificateLimits.ChangeInBands + "windscreen/insertion-loss", 0.4));

        Assert.Equal(0.4, ChangeLimit.Of(limit, null, InBands));
        Assert.Equal(double.PositiveInfinity, ChangeLimit.Of(Of(), limit, InBands));
        Assert.Equal(0.3, ChangeLimit.Of(limit, null, InBands with { IsInBands = false }));
    }

    private const ProfileState? Nothing = null;

    private static ProfileState Of(params (string Key, double Value)[] limits) => new(
        "own", new("Own", "Invented.", [.. limits.Select(l => new ProfileLimit(l.Key, l.Value, null, "invented", "own"))]), null, false);
}

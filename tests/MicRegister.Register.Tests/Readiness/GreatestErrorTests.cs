using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;
using static MicRegister.Register.Campaigns.CertificateLimits;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>Attenuators within 0.1 dB of their nominal figure: 14 CFR 36, A36.3.9.6, seen, 2021 edition.</summary>
public sealed class GreatestErrorTests
{
    private const string Rule = "greatest-error";

    private static Screens Attenuator(double statedDb, double? nominalDb = 20, double? expandedDb = 0.1)
    {
        var screens = new Screens(
            "attenuator", nominalDb is { } nominal ? [(DeviceField.GainDb.Key, nominal)] : []).Limit(GreatestError, 0.1);
        screens.Certified("2026-05-01", null, levelDb: statedDb, expandedDb: expandedDb);
        return screens;
    }

    [Theory]
    [InlineData(20.1, true)]
    [InlineData(20.1001, false)]
    [InlineData(19.9, true)]
    [InlineData(19.8999, false)]
    public void The_figure_is_held_against_the_nominal_one(double statedDb, bool passes)
    {
        if (passes) Attenuator(statedDb).Passes(Rule);
        else Attenuator(statedDb).Finds(Rule, Gravity.Stops, "off its nominal 20 dB", "at most 0.1 dB");
    }

    // A loss of 20 dB is a gain of -20 dB; both are written.
    [Theory]
    [InlineData(20.05, -20)]
    [InlineData(-20.05, -20)]
    [InlineData(-20.05, 20)]
    public void A_loss_is_written_with_either_sign(double statedDb, double nominalDb) => Attenuator(statedDb, nominalDb).Passes(Rule);

    [Fact]
    public void Without_a_nominal_figure_the_error_is_unread() => Attenuator(20, null).Finds(Rule, Gravity.Risks, "is unread", "no nominal figure");

    // U = 0.1 dB, k = 2 on the certificate.
    [Theory]
    [InlineData(20.0, null)]
    [InlineData(20.15, Gravity.Risks)]
    [InlineData(20.21, Gravity.Stops)]
    public void The_decision_rule_takes_its_uncertainty(double statedDb, Gravity? gravity)
    {
        var screens = Attenuator(statedDb).Limit(LimitKey.DecisionRule, null, "guarded");

        if (gravity is { } found) screens.Finds(Rule, found);
        else screens.Passes(Rule);
    }

    [Theory]
    [InlineData(20.0)]
    [InlineData(20.5)]
    public void Without_an_uncertainty_a_rule_that_asks_for_it_leaves_it_open(double statedDb) =>
        Attenuator(statedDb, expandedDb: null).Limit(LimitKey.DecisionRule, null, "guarded")
            .Finds(Rule, Gravity.Risks, "Without an uncertainty it cannot be decided");
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// What a plan says of a microphone whose response is not shown to keep the limits that the profile names: nothing of it is passed over.
/// </summary>
public sealed class ResponseRuleTests
{
    private const string OverFrequency = "response-limits";
    private const string ByAngle = "response-by-angle";
    private const string Angles = "IEC 61265:1995";
    private const string Certification = "14 CFR 36 A36.3.5.3";

    [Fact]
    public void What_is_not_decided_is_a_risk()
    {
        var finding = Assert.Single(Found(LimitKey.ResponseClass, Curved.Class1, Curved.Certified("M1", Curved.Bare)));

        Assert.Equal(Gravity.Risks, finding.Gravity);
        // 24 bands from 50 Hz to 10 kHz.
        Assert.Contains(
            "class 1 (invented) at 50 Hz: no uncertainty is stated (and in 23 more bands).", finding.Text, StringComparison.Ordinal);
    }

    // Also where all other bands keep the limits.
    [Fact]
    public void A_band_without_a_point_is_a_risk()
    {
        var register = Planned(LimitKey.ResponseClass, Curved.Class1, 50, 10_000, Curved.Certified("M1", Curved.Flat))
            .WithCurves(_ => [(null, new([.. Curved.Curve().Points.Where(p => p.Hz != 1000)]))]);

        var finding = Assert.Single(Found(register, OverFrequency));

        Assert.Equal(Gravity.Risks, finding.Gravity);
        Assert.EndsWith("at 1 kHz: the curve has no point in this band.", finding.Text, StringComparison.Ordinal);
    }

    // The curve leaves the limit at 1 kHz alone, and has points from 10 Hz to 20 kHz.
    [Theory]
    [InlineData(50, 10_000, Gravity.Stops)]
    [InlineData(1000, 2000, Gravity.Stops)]
    [InlineData(1250, 10_000, null)]
    [InlineData(50, 800, null)]
    [InlineData(2000, 500, Gravity.Stops)] // cannot be: what is usual is asked
    [InlineData(0.5, 40, Gravity.Stops)]
    public void The_band_of_the_plan_decides_which_bands_count(double fromHz, double toHz, Gravity? gravity)
    {
        var found = Found(Planned(LimitKey.ResponseClass, Curved.Class1, fromHz, toHz, Curved.Certified("M1", Curved.High)), OverFrequency);

        Assert.Equal(gravity, found.Count == 0 ? null : Assert.Single(found).Gravity);
    }

    [Fact]
    public void Where_the_table_has_no_limit_it_is_said()
    {
        var certificate = Curved.Certified("M1", Curved.Flat, "free-field", angleDeg: 90);

        Assert.Empty(Found(Planned(LimitKey.ResponseClass, Certification, 50, 10_000, certificate), OverFrequency));
        var finding = Assert.Single(Found(Planned(LimitKey.ResponseClass, Certification, 40, 12_500, certificate), OverFrequency));
        Assert.Equal(Gravity.Note, finding.Gravity);
        Assert.Contains($"{Certification} has no limit 40 Hz, 12.5 kHz for ", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_taken_without_being_stated_is_said()
    {
        var finding = Assert.Single(Found(LimitKey.ResponseClass, Curved.Class1, Curved.Certified("M1", Curved.Flat, null)));

        Assert.Equal(Gravity.Note, finding.Gravity);
        Assert.Contains("does not name its sound field; it is taken for pressure", finding.Text, StringComparison.Ordinal);
    }

    // Another edition's figures stand in for no missing ones.
    [Theory]
    [InlineData(LimitKey.ResponseClass, "IEC 61672-1:2002 class 1")]
    [InlineData(LimitKey.ResponseByAngle, "IEC 61265:2018")]
    public void A_table_that_is_not_here_is_a_risk(string key, string table)
    {
        var finding = Assert.Single(Found(key, table, Curved.Certified("M1", Curved.Even, "free-field")));

        Assert.Equal(Gravity.Risks, finding.Gravity);
        Assert.StartsWith($"The profile asks for limits of '{table}' on responses, of which this version has no table", finding.Text,
            StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_tables_each_is_asked()
    {
        var found = Found(
            LimitKey.ResponseClass, Curved.Class1 + ", IEC 61672-1:2013 class 2, another", Curved.Certified("M1", Curved.High));

        // 1.25 dB at 1 kHz; class 1 allows 0.7 dB, class 2 1.0 dB (IEC 61672-1:2013, table 3).
        Assert.Equal(
            [(Gravity.Stops, true, false), (Gravity.Stops, false, true), (Gravity.Risks, false, false)],
            found.OrderBy(f => f.Gravity == Gravity.Risks).ThenByDescending(f => f.Text.Contains("by 0.55 dB", StringComparison.Ordinal))
                .Select(f => (f.Gravity, f.Text.Contains("by 0.55 dB", StringComparison.Ordinal),
                    f.Text.Contains("by 0.25 dB", StringComparison.Ordinal))));
    }

    [Fact]
    public void A_curve_ahead_alone_is_a_risk_where_none_at_all_is_a_note()
    {
        Assert.Equal(Gravity.Note, Assert.Single(Found(LimitKey.ResponseByAngle, Angles)).Gravity);
        var ahead = Curved.Certified("M1", Curved.Flat, "free-field", angleDeg: 0);
        Assert.Equal(Gravity.Risks, Assert.Single(Found(LimitKey.ResponseByAngle, Angles, ahead)).Gravity);
    }

    private static IReadOnlyList<Finding> Found(string key, string tables, params Fact[] certificates) => Found(
        Planned(key, tables, 50, 10_000, certificates), key == LimitKey.ResponseClass ? OverFrequency : ByAngle);

    private static IReadOnlyList<Finding> Found(Register register, string rule) =>
        [.. CampaignReadiness.Judge(register, Heath.C, Make.Day("2026-05-20"))!.Findings.Where(f => f.Rule == rule)];

    private static Register Planned(string key, string tables, double fromHz, double toHz, params Fact[] certificates)
    {
        var chain = Heath.Chain("S1");
        var plan = (CampaignPlanned)Heath.Planned().Body with { LowestHz = fromHz, HighestHz = toHz };
        return Heath.With(
        [
            Heath.WrittenWords(key, tables), Make.Of(plan, "2026-05-03", 1, Subject.Campaign(Heath.C)),
            Make.Of(new ChainPlanned("S1", chain), "2026-05-03", 2, [Subject.Campaign(Heath.C), .. chain.Select(Subject.Device)]),
            .. certificates,
        ]);
    }
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>A campaign whose last day is past is not made ready any more: what is open in its evidence is all that is asked.</summary>
public sealed class OverTests
{
    // A lost microphone, no calibrator, no spares, and a check with none after it; the last day is 10 July.
    private static readonly Fact[] Wrong =
    [
        Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", "device:M1"),
        Make.Of(new KitPlanned(KitPurpose.Check, ["B1"]), "2026-05-05", "campaign:C1", "device:B1"),
        Make.Of(new KitPlanned(KitPurpose.Spare, []), "2026-05-05", "campaign:C1"),
        Make.Of(Make.Check("S1", CheckMoment.Before, 0, "M1"), "2026-07-09", "campaign:C1", "device:M1"),
    ];

    [Fact]
    public void From_the_day_after_its_last_one_only_what_its_evidence_lacks_is_found()
    {
        var register = FactList.RegisterOf([.. ReadinessTests.Sound(), .. Wrong]);

        var during = CampaignReadiness.Judge(register, "C1", new(2026, 7, 10))!;
        var over = CampaignReadiness.Judge(register, "C1", new(2026, 7, 12))!;

        Assert.Equal((ReadinessVerdict.NotReady, false), (during.Verdict, during.IsOver));
        Assert.Superset(new HashSet<string> { "unfit", "no-calibrator", "spares", "check-missing" }, during.Findings.Select(f => f.Rule).ToHashSet());
        Assert.Equal((ReadinessVerdict.Over, true), (over.Verdict, over.IsOver));
        var finding = Assert.Single(over.Findings);
        Assert.Equal(("check-missing", (DateOnly?)null, false), (finding.Rule, finding.LatestStart, finding.IsTooLate));
        Assert.All(over.Stations, s => Assert.Equal(ReadinessVerdict.Over, s.Verdict));
        Assert.Empty(over.Spares);
        Assert.Equal("It is over since 2026-07-11; its evidence counts. 1 finding is open in it.", ReadinessWords.Over(over));
        Assert.Equal("over", over.Verdict.InWords);
    }

    [Fact]
    public void A_campaign_without_open_checks_is_over_and_nothing_is_found()
    {
        var over = CampaignReadiness.Judge(FactList.RegisterOf([.. ReadinessTests.Sound(), Wrong[0]]), "C1", new(2026, 7, 11))!;

        Assert.Empty(over.Findings);
        Assert.Equal("It is over since 2026-07-11; its evidence counts. No check of it is open.", ReadinessWords.Over(over));
    }

    // The site lies ten hours behind UTC: 11 July, 09:59 UTC is its 10 July still.
    [Fact]
    public void The_day_at_the_site_decides()
    {
        var plan = Make.Of(
            new CampaignPlanned(
                "Trial", new(2026, 7, 1), new(2026, 7, 10), "Zone/Far", [new("2020-01-01T00:00:00.000Z", -600)], "Field", 120,
                SourceClass.SmallMultirotor, 50, 10_000, 40, 120, "small-unmanned-flush", 1, null),
            "2026-05-05", "campaign:C1");
        var register = FactList.RegisterOf([.. ReadinessTests.Sound(), plan]);
        bool IsOver(string now)
        {
            var day = CampaignReadiness.SiteDay(register, "C1", DateTimeOffset.Parse(now, System.Globalization.CultureInfo.InvariantCulture));
            return CampaignReadiness.Judge(register, "C1", new(2026, 7, 11), day)!.IsOver;
        }

        Assert.False(IsOver("2026-07-11T09:59:59Z"));
        Assert.True(IsOver("2026-07-11T10:00:00Z"));
    }
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Mounting;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Mounting;

/// <summary>The mounts of the heath: S1 flush, S2 on a stand, S3 on a pole, and S4 inverted over 7 mm.</summary>
public sealed class CampaignMountsTests
{
    // The page's air gives 340.2941 m/s at 15 °C, plans and traces take the printed 340.294.
    private const double Relative = 1e-5;

    private static readonly Fact S4 =
        Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, null), "2026-05-01", 4, Subject.Campaign(Heath.C));

    [Fact]
    public void Stations_that_stand_alike_are_asked_about_together()
    {
        var mounts = CampaignMounts.Of(Heath.With(S4, Heath.Written((LimitKey.MountToleranceDb, 0.5))), Heath.C)!;

        Assert.Equal(["S1", "S4", "S2", "S3"], mounts.Groups.Select(g => Assert.Single(g.Stations)));
        Assert.Equal([0, 0.007, 1.2, 10], mounts.Groups.Select(g => g.Question.HeightM));
        Assert.All(mounts.Groups, g => Assert.Equal(
            (SourceClass.Propeller, 20.0, 10_000.0, 0.5), (g.Question.Source, g.Question.FromHz, g.Question.ToHz, g.Question.ToleranceDb)));
        Assert.Equal(1, mounts.Groups[1].Question.HeightOffMm); // the profile's tolerance of the gap
        Assert.Null(CampaignMounts.Of(Heath.With(), "NOWHERE"));
    }

    // One function: what a trace applies, what readiness finds and what this page says are the same figures.
    [Theory]
    [InlineData("S1", null, null)]
    [InlineData("S2", null, null)]
    [InlineData("S3", null, null)]
    [InlineData("S4", null, null)]
    [InlineData("S4", 8.0, null)]
    [InlineData("S1", null, 0.4)]
    [InlineData("S2", null, 2.5)]
    public void Trace_readiness_and_page_say_the_same(string station, double? gapMm, double? tolerance)
    {
        Fact[] written = tolerance is { } t ? [Heath.Written((LimitKey.MountToleranceDb, t))] : [];
        var register = Heath.With([
            S4, .. written, Heath.Placed(station, "06-02 06:00", Heath.Chain("S1"), gapMm: gapMm), Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
        ]);
        var applied = Heath.One(register, station: station).Applied!;
        var group = CampaignMounts.Of(register, Heath.C)!.Groups.Single(g => g.Stations.Contains(station));
        var answer = MountAnswer.Of(group.Question);
        var (from, to) = MountUse.Band(group.Question.Mount, group.Question.HeightM, group.Question.ToleranceDb);

        Assert.Equal(-applied.NormalisationDb, answer.RaisesDb);
        Assert.Equal(from, applied.UsableFromHz, 1e-9);
        // The capsule of the heath reaches to 40 kHz, and a trace's band ends there at the latest.
        Assert.Equal(Math.Min(to, 40_000), applied.UsableToHz, 1e-9);
        if (group.Question.Mount == Mount.Pole) return; // taken as free field by practice, which the model is held against
        Assert.Equal(from, answer.FromHz, from * Relative);
        if (double.IsFinite(to)) Assert.Equal(to, answer.ToHz, to * Relative);
        else Assert.Equal(to, answer.ToHz);
    }

    [Fact]
    public void Readiness_finds_what_the_page_says()
    {
        var register = Heath.With(S4, Heath.Written((LimitKey.MountToleranceDb, 1)));
        var groups = CampaignMounts.Of(register, Heath.C)!.Groups;
        var found = CampaignReadiness.Judge(register, Heath.C, new(2026, 5, 5), new(2026, 5, 5))!.Findings.Where(f => f.Rule == "mount").ToList();

        Assert.Equal(["S2", "S4"], found.Select(f => f.Station!).Order(StringComparer.Ordinal));
        foreach (var finding in found)
        {
            var answer = MountAnswer.Of(groups.Single(g => g.Stations.Contains(finding.Station!)).Question);
            Assert.False(answer.ModelHolds);
            double Of(string name) => finding.Figures.Single(f => f.Name == name).Value;
            Assert.Equal(answer.FromHz, Of("usable from"), answer.FromHz * Relative);
            Assert.Equal(Of("usable to"), double.IsFinite(answer.ToHz) ? Math.Min(answer.ToHz, Of("usable to")) : answer.ToHz, 0.1);
        }
    }

    [Fact]
    public void Its_air_is_what_was_noted_or_the_profiles_or_assumed()
    {
        var noted = CampaignMounts.Of(Heath.With(Heath.Weather("06-02 08:00", 12.5), Heath.Weather("06-02 09:00", 19)), Heath.C)!;
        Assert.Equal((12.5, 19.0, "noted"), (noted.ColdC, noted.WarmC, noted.AirFrom));
        var rules = Heath.Written((LimitKey.TemperatureLeastC, 2), (LimitKey.TemperatureMostC, 30));
        var limited = CampaignMounts.Of(Heath.With(rules), Heath.C)!;
        Assert.Equal((2.0, 30.0, "profile"), (limited.ColdC, limited.WarmC, limited.AirFrom));
        Assert.Equal("assumed", CampaignMounts.Of(Heath.With(), Heath.C)!.AirFrom);
    }

    [Fact]
    public void A_station_that_stood_over_two_gaps_is_asked_about_at_each()
    {
        var register = Heath.With(
            S4, Heath.Placed("S4", "06-02 06:00", Heath.Chain("S1"), gapMm: 7.5),
            Heath.Placed("S4", "06-03 06:00", Heath.Chain("S1"), gapMm: 8.5));

        var groups = CampaignMounts.Of(register, Heath.C)!.Groups.Where(g => g.Stations.Contains("S4")).ToList();

        Assert.Equal([(0.0075, "measured"), (0.0085, "measured")], groups.Select(g => (g.Question.HeightM, Assert.Single(g.HeightBy))));
    }

    // From elsewhere a profile may state a tolerance that is none.
    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public void A_tolerance_that_is_none_leaves_the_usual_one(double tolerance)
    {
        var mounts = CampaignMounts.Of(Heath.With(Heath.Written((LimitKey.MountToleranceDb, tolerance))), Heath.C)!;

        Assert.Equal(MountUse.UsualToleranceDb, mounts.ToleranceDb);
        Assert.All(mounts.Groups, g => Assert.Empty(g.Question.Faults()));
    }

    [Fact]
    public void What_the_profile_says_stands_with_its_source()
    {
        var mounts = CampaignMounts.Of(Heath.With(Heath.WrittenWords(LimitKey.Mounts, "flush-plate, pole")), Heath.C)!;

        Assert.Equal([true, false, true], mounts.Groups.Select(g => g.IsAllowed));
        Assert.Contains("Allowed: flush-plate, pole (invented; own).", mounts.ProfileSays);
        Assert.Contains(mounts.ProfileSays, s => s.Contains("sets no greatest loss: 1 dB is taken (common practice, no source)", StringComparison.Ordinal));
        Assert.Contains("It limits no mounts.", CampaignMounts.Of(Heath.With(), Heath.C)!.ProfileSays);
    }

    // Bounds let such a height in from elsewhere; a plan at the desk does not.
    [Fact]
    public void A_height_under_the_ground_stops_nobody_from_judging()
    {
        var register = Heath.With(
            Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, -2), "2026-05-01", 4, Subject.Campaign(Heath.C)),
            Heath.Written((LimitKey.MountToleranceDb, 1)));
        var group = CampaignMounts.Of(register, Heath.C)!.Groups.Single(g => g.Stations.Contains("S4"));

        Assert.Equal("height", Assert.Single(group.Question.Faults()).Field);
        Assert.Equal((0, 0), MountUse.Band(Mount.InvertedPlate, -2, 1));
        var found = CampaignReadiness.Judge(register, Heath.C, new(2026, 5, 5), new(2026, 5, 5))!.Findings;
        Assert.Contains(found, f => f.Rule == "mount" && f.Station == "S4");
    }
}

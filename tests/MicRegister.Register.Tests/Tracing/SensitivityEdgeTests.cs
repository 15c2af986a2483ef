using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Parts of a sensitivity by hand algebra from the invented certificates of <see cref="Heath"/>.</summary>
public sealed class SensitivityEdgeTests
{
    [Fact]
    public void What_the_checks_tell_has_its_uncertainty_in_the_budget_and_none_beside_it() =>
        Assert.Equal(0.0, Assert.Single(Heath.One(Heath.With(Heath.Flight())).Applied!.Terms).StandardDb);

    [Fact]
    public void The_tolerance_of_the_profile_sets_the_band_of_the_mount()
    {
        var register = Heath.With(
            Heath.Written((LimitKey.MountToleranceDb, 0.5)),
            Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, null), "2026-05-01", 4, Subject.Campaign(Heath.C)),
            Heath.Placed("S4", "06-02 06:00", Heath.Chain("S1")), Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        // 7 mm, 0.5 dB: arccos(10^-0.025) · 340.294 / (π · 2 · 0.007).
        Assert.Equal(2600.13, Heath.One(register, station: "S4").Applied!.UsableToHz, 0.01);
    }

    [Theory]
    [InlineData(1.0, 2.0, 5.0, 0.003)]
    [InlineData(null, 2.0, 5.0, -6.0176)] // 0.003 - 20 lg 2
    [InlineData(null, null, 5.0, -13.9764)] // 0.003 - 20 lg 5
    [InlineData(null, null, null, -19.997)] // 0.003 - 20 lg 10
    public void The_range_is_that_of_the_placement_else_of_the_check_before_the_check_after_or_the_channels_entry(
        double? placed, double? before, double? after, double differenceDb)
    {
        var facts = Heath.Flight();
        facts[0] = Heath.Placed("S1", "06-02 06:00", rangeV: placed);
        facts[1] = AtRange(facts[1], "06-02 06:30", before);
        facts[3] = AtRange(facts[3], "06-02 16:00", after);

        var applied = Heath.One(Heath.With(facts)).Applied!;

        Assert.Equal(differenceDb, applied.FullScaleDb!.Value - applied.VoltsDb, 1e-4);
    }

    [Fact]
    public void Between_two_certificates_the_term_states_the_uncertainty_of_the_one_before()
    {
        var applied = Heath.One(Heath.With([.. Between(), Make.Certificate("M1", "2026-09-01", -38.02, 0.10)])).Applied!;

        Assert.Equal(0.03, applied.Terms[0].StandardDb, 1e-9); // 0.06 / 2; the one after states 0.10 / 2
    }

    [Fact]
    public void Of_two_certificates_of_one_day_the_last_by_id_ends_the_line_whichever_was_stated_first()
    {
        List<Fact> all = [.. Enumerable.Range(1, 9).Select(i => Make.Of(Make.Issued(-38 - (0.01 * i)), "2026-09-01", i, "device:M1"))];
        // By the counter of its client the one with the highest id has to come earlier.
        while (all[^1].Id == all.Max(f => f.Id)) all.RemoveAt(all.Count - 1);
        Assert.True(all.Count > 1);

        var term = Heath.One(Heath.With([.. Between(), .. all])).Applied!.Terms[0];

        Assert.Equal($"certificates {Heath.FirstMicrophone.Id}, {all.Max(f => f.Id)}", term.Source);
        // A person's choice comes first.
        var chosen = Make.Of(new CertificateChosen(all.Min(f => f.Id).ToString(), "the others were trials"), "2026-09-02", "device:M1");
        term = Heath.One(Heath.With([.. Between(), .. all, chosen])).Applied!.Terms[0];
        Assert.Equal($"certificates {Heath.FirstMicrophone.Id}, {all.Min(f => f.Id)}", term.Source);
    }

    private static Fact[] Between() =>
        [Heath.Chosen(SensitivityRule.LinearBetween), Heath.Placed("S1", "06-02 06:00"), Heath.Event("E1", "06-02 10:00", "06-02 10:01")];

    private static Fact AtRange(Fact check, string at, double? rangeV) =>
        Heath.Said(at, 3, ((ChainChecked)check.Body) with { RangeV = rangeV }, check.Subjects);
}

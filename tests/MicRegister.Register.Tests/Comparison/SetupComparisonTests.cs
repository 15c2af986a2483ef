using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Comparison;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Comparison;

/// <summary>
/// Two invented campaigns, A on 2 June 2026 and B on 3 June, one station each. Expected figures by hand algebra: 20 lg 2 = 6.0206 dB,
/// 10 lg 2 = 3.0103 dB; bands for a tolerance of 1 dB and c = 340.294 m/s at 15 °C.
/// </summary>
public sealed class SetupComparisonTests
{
    // Printed figures have four decimals.
    private const double Db = 5e-5;

    [Theory]
    [InlineData(Mount.GroundStand, Mount.Pole, 3.0103)]
    [InlineData(Mount.InvertedPlate, Mount.GroundStand, 3.0103)]
    [InlineData(Mount.FlushPlate, Mount.Pole, 6.0206)]
    [InlineData(Mount.InvertedPlate, Mount.Pole, 6.0206)]
    [InlineData(Mount.FlushPlate, Mount.InvertedPlate, 0)]
    [InlineData(Mount.Pole, Mount.FlushPlate, -6.0206)]
    public void The_mounts_alone_make_a_difference(Mount a, Mount b, double expectedDb) =>
        Assert.Equal(expectedDb, Compared(Campaign("A", a), Campaign("B", b)).DifferenceDb!.Value, Db);

    [Fact]
    public void A_plate_and_a_pole_hold_once_both_are_brought_to_the_free_field()
    {
        var compared = Compared(Campaign("A", Mount.FlushPlate), Campaign("B", Mount.Pole));

        Assert.Equal((ComparisonVerdict.Holds, 0.0, 20_000.0), (compared.Verdict, compared.CommonFromHz, compared.CommonToHz));
        Assert.Empty(compared.Reasons);
        Assert.Contains(
            "add −6.02 dB to levels of Trial A and 0.00 dB to levels of Trial B", Assert.Single(compared.ToDo), StringComparison.Ordinal);
    }

    // Stand at 1.2 m: from 2 / (k r w) with k = 2π · 2.4 / 340.294 = 0.0443137 1/Hz, r = 1 - 10^-0.1 = 0.2056718, w = 10^0.05 - 10^-0.05 = 0.2307675: 950.92 Hz.
    // 7 mm over a plate: acos(10^-0.05) = 0.4707002 rad, · 340.294 / (π · 0.014) = 3641.84 Hz.
    [Fact]
    public void A_stand_against_an_inverted_capsule_holds_as_an_average_in_the_common_band()
    {
        var compared = Compared(Campaign("A", Mount.GroundStand), Campaign("B", Mount.InvertedPlate));

        Assert.Equal(ComparisonVerdict.HoldsAsBandAverage, compared.Verdict);
        Assert.Equal(950.92, compared.CommonFromHz, 0.01);
        Assert.Equal(3641.84, compared.CommonToHz, 0.01);
        Assert.True(compared.HasCommonBand);
        Assert.Contains("never for a tone", Assert.Single(compared.Reasons), StringComparison.Ordinal);
    }

    // 6 mm: 3641.84 · 7 / 6 = 4248.81 Hz.
    [Fact]
    public void A_gap_that_was_measured_comes_before_the_usual_one()
    {
        var mount = Assert.Single(Compared(Campaign("A", Mount.InvertedPlate, gapMm: 6), Campaign("B", Mount.Pole)).A.Mounts);

        Assert.Equal([0.006], mount.HeightsM);
        Assert.Equal(4248.81, mount.ToHz, 0.01);
    }

    // 30 mm over a plate: 3641.84 · 7 / 30 = 849.76 Hz, under the 950.92 Hz from which the stand holds.
    [Fact]
    public void Without_a_common_band_it_does_not_hold()
    {
        var compared = Compared(Campaign("A", Mount.GroundStand), Campaign("B", Mount.InvertedPlate, gapMm: 30));

        Assert.Equal(ComparisonVerdict.DoesNotHold, compared.Verdict);
        Assert.False(compared.HasCommonBand);
        Assert.Contains(compared.Reasons, r => r.Contains("one holds from 951 Hz on, another up to 850 Hz", StringComparison.Ordinal));
    }

    [Fact]
    public void A_common_band_outside_of_what_was_of_interest_does_not_hold() => AssertDoesNotHold(
        Compared(Campaign("A", Mount.GroundStand, highestHz: 500), Campaign("B", Mount.GroundStand)), "lies outside");

    [Fact]
    public void A_small_multirotor_over_an_inverted_plate_does_not_hold() => AssertDoesNotHold(
        Compared(Campaign("A", Mount.InvertedPlate, source: SourceClass.SmallMultirotor), Campaign("B", Mount.Pole)), "Trial A: inverted over a plate does not suit small multirotors");

    [Fact]
    public void Mixed_mounts_within_one_campaign_do_not_hold_and_have_no_difference()
    {
        var compared = Compared([.. Campaign("A", Mount.FlushPlate), Station("A", "S2", Mount.Pole), Placed("A", "S2", "06:00", null, "M2A", "R2A")], Campaign("B", Mount.Pole));

        AssertDoesNotHold(compared, "its mounts are mixed (flush in a ground plate, on a pole)");
        Assert.Null(compared.DifferenceDb);
    }

    [Fact]
    public void A_station_that_nobody_planned_has_no_known_mount()
    {
        var compared = Compared([.. Campaign("A", Mount.FlushPlate), Placed("A", "X9", "06:00", null, "M2A")], Campaign("B", Mount.Pole));

        AssertDoesNotHold(compared, "the mount at X9 is not known");
        Assert.Null(compared.DifferenceDb);
    }

    [Fact]
    public void Without_checks_it_does_not_hold()
    {
        List<Fact> noChecks = [.. Campaign("A", Mount.Pole).Where(f => f.Body is not ChainChecked)];
        var compared = Compared(noChecks, Campaign("B", Mount.Pole));

        AssertDoesNotHold(compared, "Trial A: no chain was checked");
        Assert.Equal(0.0, compared.A.CheckedShare!.Value);
        Assert.Equal(1.0, compared.B.CheckedShare!.Value);
    }

    // Without check or certificate the event of A has no sensitivity, so that no normalisation stands beside one.
    [Fact]
    public void A_difference_that_is_not_taken_off_does_not_hold()
    {
        List<Fact> bare = [.. Campaign("A", Mount.FlushPlate).Where(f => f.Body is not (ChainChecked or CertificateIssued))];

        AssertDoesNotHold(Compared(bare, Campaign("B", Mount.Pole)), "The mounts differ by 6.02 dB, and that is not taken off");
        Assert.DoesNotContain(Compared(bare, Campaign("B", Mount.FlushPlate)).Reasons, r => r.Contains("taken off", StringComparison.Ordinal));
    }

    // A moves from -38.16 to -38.26 dB: 0.1 dB. Calibrator 0.05 whole, two insertions of 0.03 / 2 each, change of half-width 0.05 over √3,
    // and 1 dB of the mount over √3: u² = 0.0025 + 0.00045 + 0.000833333 + 0.333333333 = 0.337116667, u = 0.580618 dB. Degrees of freedom are beyond a
    // million, so that k = 2.0000 and U = 1.161236 dB.
    [Fact]
    public void Figures_of_a_campaign_stand_side_by_side()
    {
        var compared = Compared(Campaign("A", Mount.FlushPlate, moveDb: -0.1), Campaign("B", Mount.Pole));

        Assert.Equal(1.0, compared.A.CheckedShare!.Value);
        Assert.Equal(0.1, compared.A.GreatestDifferenceDb!.Value, 1e-9);
        Assert.Equal(1.161236, compared.A.MedianExpandedDb!.Value, 1e-4);
        Assert.Equal(1, compared.A.SampledEvents);
        Assert.Equal(["source", "band of interest", "mounts", "normalisation to the free field", "band of use", "sensitivity applied", "response types of microphones", "stations checked before and after", "greatest difference of checks", "median expanded uncertainty of sensitivities in V/Pa", "profile", "calibrators"], compared.Rows.Select(r => r.What));
        Assert.Equal(("flush in a ground plate: 1 at 0 m", "on a pole: 1 at 10 m"), Row(compared, "mounts"));
        Assert.Equal(("flush in a ground plate: −6.02 dB", "on a pole: 0.00 dB"), Row(compared, "normalisation to the free field"));
        Assert.Equal(("flush in a ground plate: 0 Hz to 20000 Hz", "on a pole: 0 Hz and up"), Row(compared, "band of use"));
        Assert.Equal(("pressure: 1", "free-field: 1"), Row(compared, "response types of microphones"));
        Assert.Equal(("100 %", "100 %"), Row(compared, "stations checked before and after"));
        Assert.Equal(("Sound calibrator Model 5", "Sound calibrator Model 5"), Row(compared, "calibrators"));
        Assert.True(compared.Rows.Single(r => r.What == "source").IsSame);
    }

    [Fact]
    public void At_most_twenty_events_are_traced()
    {
        var events = Enumerable.Range(0, 45).Select(i => Event("A", "A" + i, $"11:{i:00}"));
        Assert.Equal(20, Compared([.. Campaign("A", Mount.Pole), .. events], Campaign("B", Mount.Pole)).A.SampledEvents);
    }

    [Fact]
    public void Both_ways_round_the_difference_changes_its_sign_and_the_verdict_stays()
    {
        Fact[] facts = [.. Base(), .. Campaign("A", Mount.GroundStand), .. Campaign("B", Mount.InvertedPlate)];
        var register = FactList.RegisterOf(facts);
        var (there, back) = (SetupComparison.Of(register, "A", "B")!, SetupComparison.Of(register, "B", "A")!);

        Assert.Equal(there.DifferenceDb!.Value, -back.DifferenceDb!.Value);
        Assert.Equal((there.Verdict, there.CommonFromHz, there.CommonToHz), (back.Verdict, back.CommonFromHz, back.CommonToHz));
        Assert.Equal(0.0, SetupComparison.Of(register, "A", "A")!.DifferenceDb!.Value);
    }

    [Fact]
    public void A_campaign_that_nobody_planned_is_not_compared() => Assert.Null(SetupComparison.Of(FactList.RegisterOf([.. Base(), .. Campaign("A", Mount.Pole)]), "A", "NOWHERE"));

    private static void AssertDoesNotHold(SetupComparison compared, string why)
    {
        Assert.Equal(ComparisonVerdict.DoesNotHold, compared.Verdict);
        Assert.Contains(compared.Reasons, r => r.Contains(why, StringComparison.Ordinal));
    }

    private static (string A, string B) Row(SetupComparison compared, string what) => compared.Rows.Where(r => r.What == what).Select(r => (r.A, r.B)).Single();

    private static SetupComparison Compared(List<Fact> a, List<Fact> b) => SetupComparison.Of(FactList.RegisterOf([.. Base(), .. a, .. b]), "A", "B")!;

    private static Fact[] Base() => [Make.Registered("K1", "5", "sound-calibrator"), Make.Certificate("K1", "2026-01-05", 94, 0.1, "level", "dB")];

    // One station with microphone and channel, checked before and after one event.
    private static List<Fact> Campaign(string id, Mount mount, double? gapMm = null, double highestHz = 10_000, SourceClass source = SourceClass.Propeller, double moveDb = 0)
    {
        var (microphone, channel) = ("M1" + id, "R1" + id);
        var type = mount is Mount.FlushPlate or Mount.InvertedPlate ? "pressure" : "free-field";
        return
        [
            Make.Of(new CampaignPlanned("Trial " + id, new(2026, 6, 1), new(2026, 6, 10), "UTC", [new("2025-01-01T00:00:00.000Z", 0)], "Heath", 20, source, 20, highestHz, null, null, BuiltInProfiles.Usual, 0, null), "2026-05-01", "campaign:" + id),
            Station(id, "S1", mount),
            Make.Registered(microphone, "1" + id, "microphone", ("response-type", type)), Make.Registered(channel, "2" + id, "recorder-channel"), Make.Registered("M2" + id, "3" + id, "microphone", ("response-type", type)), Make.Registered("R2" + id, "4" + id, "recorder-channel"),
            Make.Certificate(microphone, "2026-03-01", -38.16),
            Placed(id, "S1", "06:00", gapMm, microphone, channel),
            Checked(id, "07:00", CheckMoment.Before, 0, microphone, channel),
            Event(id, "E" + id, "10:00"),
            Checked(id, "16:00", CheckMoment.After, moveDb, microphone, channel),
        ];
    }

    private static Fact Station(string campaign, string name, Mount mount) => Make.Of(new StationPlanned(name, 53, 1, mount, null), "2026-05-01", 1, "campaign:" + campaign);

    private static Fact Placed(string campaign, string station, string time, double? gapMm, params string[] devices) => Said(campaign, time, new ChainPlaced(station, devices, [], gapMm, null, null, null, null, [], null), devices);

    private static Fact Event(string campaign, string id, string time) =>
        FactText.WriteDerived(new(At(campaign, time), "P1", "desk", 9), new EventHappened(id, At(campaign, time).ToString(), At(campaign, time).ToString(), EventKind.FlyOver, null, [], null), ["event:" + id, "campaign:" + campaign]);

    private static Fact Checked(string campaign, string time, CheckMoment moment, double deviationDb, params string[] devices) => Said(campaign, time, new ChainChecked(
        "S1", moment, devices, "K1", "01JD8XK3ZZ0000000000000000", null, null, false, CheckMethod.Voltage,
        [20e-6 * Math.Pow(10, (94 - 38.16 + deviationDb) / 20)], null, 10, 94, [new("certificate", 94, 0.05, "certificate of K1", null)],
        -38.16 + deviationDb, "V/Pa", null, [new("microphone's certificate", -38.16, 0.03, "certificate of the microphone", null)], deviationDb,
        [new("certificate", "certificate of K1", 0.05, "dB", -1, null, UncertaintyDistribution.Normal), new("one insertion, assumed", BudgetLine.Own + "insertions", 0.03, "dB", 1, 4, UncertaintyDistribution.Normal)],
        0.0583, 2, 0.1166, null, null), [.. devices, "K1"]);

    private static Fact Said(string campaign, string time, FactBody body, string[] devices) =>
        FactText.WriteDerived(new(At(campaign, time), "P1", "phone-1.ABCD", 1), body, ["campaign:" + campaign, .. devices.Select(d => "device:" + d)]);

    private static Occurred At(string campaign, string time) => Make.On($"2026-06-{(campaign == "A" ? "02" : "03")}T{time}:00.000Z");
}

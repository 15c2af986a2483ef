using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>Parts of readiness rules that one wrong thing at a time does not come by.</summary>
public sealed class RuleTests
{
    [Fact]
    public void Of_two_works_after_the_certificate_the_later_one_is_named()
    {
        Fact Work(string day, string text) => Make.Of(new DeviceServiced(ServiceKind.Repair, text, true), day, "device:M1");

        var finding = Assert.Single(Of("begun-anew", Work("2026-05-20", "second"), Work("2026-05-10", "first")));

        Assert.Contains("the work of 2026-05-20 (second)", finding.Text, StringComparison.Ordinal);
    }

    // Today the day is not over: the check after it can still come. Judged as of 1 June.
    [Theory]
    [InlineData("2026-06-01", 0)]
    [InlineData("2026-05-31", 1)]
    public void A_check_after_is_missed_from_the_next_day_on(string day, int missing)
    {
        var before = Make.Of(Make.Check("S1", CheckMoment.Before, 0, "M1"), day, "campaign:C1", "device:M1");

        Assert.Equal(missing, Of("check-missing", before).Count);
    }

    [Theory]
    [InlineData("constant-current", "high-voltage", 0)] // the module feeds it, whatever the channel gives
    [InlineData("high-voltage", "constant-current", 1)]
    public void A_power_module_stands_before_the_channel(string module, string channel, int misfits)
    {
        string[] chain = ["M1", "P1", "R1", "G1", "W1"];
        var planned = Make.Of(new ChainPlanned("S1", chain), "2026-05-05", ["campaign:C1", .. chain.Select(d => "device:" + d)]);

        var found = Of(
            "parts-fit", Make.Registered("W1", "71", "power-module", ("powering", module)),
            ReadinessTests.Described("R1", ("powering", channel)), planned);

        Assert.Equal(misfits, found.Count);
        Assert.All(found, f => Assert.Contains("the power module gives high-voltage", f.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void One_adapter_that_fits_is_enough()
    {
        Fact[] wide =
        [
            ReadinessTests.Described("K1", ("fits-mm", 25.4)), Make.Registered("A1", "81", "calibration-adapter", ("fits-mm", 12.7)),
        ];

        var taken = Make.Of(new KitPlanned(KitPurpose.Check, ["K1", "B1", "A1"]), "2026-05-06", "campaign:C1", "device:A1");

        Assert.Single(Of("calibrator-fit", wide));
        Assert.Empty(Of("calibrator-fit", [.. wide, taken]));
    }

    // A single coarse result is its own reference: no deviation is expected of it, and the limit is the profile's.
    [Fact]
    public void A_forecast_shows_the_deviation_from_the_certificate()
    {
        var old = Enumerable.Range(2022, 5)
            .Select(y => Make.Annulling(Make.Certificate("M1", $"{y}-03-01", -38.06 + (0.005 * ((y + 1) % 2)))));

        var finding = Assert.Single(Of("forecast", [.. old, Make.Certificate("M1", "2026-03-02", -38.06, 0.4)]));

        Assert.Equal(0, finding.Figures.Single(f => f.Name == "expected deviation").Value, 1e-9);
        Assert.InRange(finding.Figures.Single(f => f.Name == "probability").Value, 0.6, 0.9);
    }

    // 7 ± 0.5 mm are asked: 6.5 and 7.5 mm hold, a hundredth more does not.
    [Theory]
    [InlineData(6.49, true)]
    [InlineData(6.5, false)]
    [InlineData(7.5, false)]
    [InlineData(7.51, true)]
    [InlineData(null, false)]
    public void The_gap_of_an_inverted_capsule_lies_within_its_tolerance(double? gapMm, bool isWrong)
    {
        ProfileLimit[] limits = [new(LimitKey.GapMm, 7, null, "own", "own"), new(LimitKey.GapToleranceMm, 0.5, null, "own", "own")];
        Fact[] facts =
        [
            .. ReadinessTests.Sound(mount: Mount.InvertedPlate), Own(limits),
            Make.Of(new DeviceInspected(true, 3, gapMm, 0.2, null), "2026-05-01", "device:G1"),
        ];

        var found = ReadinessTests.Judge(facts).Findings.Where(f => f.Rule == "plate-geometry").ToList();

        Assert.Equal(isWrong ? 1 : 0, found.Count);
        Assert.All(found, f => Assert.Equal([gapMm!.Value, 7], f.Figures.Select(x => x.Value)));
    }

    [Theory]
    [InlineData(5, 0)]
    [InlineData(4.99, 1)]
    public void A_plate_is_as_thick_as_asked(double thicknessMm, int wrong)
    {
        Fact[] facts =
        [
            .. ReadinessTests.Sound(), Own(new ProfileLimit(LimitKey.PlateThicknessMm, 5, null, "own", "own")),
            .. new[] { "G1", "G2", "G3" }.Select(g => ReadinessTests.Described(g, ("thickness-mm", g == "G1" ? thicknessMm : 5.5))),
        ];

        var found = ReadinessTests.Judge(facts).Findings.Where(f => f.Rule == "plate-geometry").ToList();

        Assert.Equal(wrong, found.Count);
        Assert.All(found, f => Assert.Equal(("G1", 4.99, 5.0), (f.Device, f.Figures[0].Value, f.Figures[1].Value)));
    }

    [Fact]
    public void What_is_wrong_at_one_station_stops_that_station_alone()
    {
        var lost = Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", "device:M2");

        var report = ReadinessTests.Judge([.. ReadinessTests.Sound(), lost]);

        Assert.Equal([ReadinessVerdict.Ready, ReadinessVerdict.NotReady, ReadinessVerdict.Ready], report.Stations.Select(s => s.Verdict));
        Assert.Equal(0, report.Stations[1].Probability);
        Assert.All([report.Stations[0], report.Stations[2]], s => Assert.InRange(s.Probability, 0.9, 1));
        Assert.Equal(0, report.ArrayProbability);
        // One loss is permitted.
        Assert.Equal(report.Stations[0].Probability * report.Stations[2].Probability, report.WithLossesProbability, 1e-12);
    }

    // A rejected check stops the station while it is the newest there, also where other stations were checked that day.
    [Theory]
    [InlineData(null, Gravity.Stops)]
    [InlineData(0.0, Gravity.Risks)]
    public void A_rejected_check_stops_until_a_newer_one_was_good(double? later, Gravity gravity)
    {
        Fact Checked(string station, double deviationDb, string day, string microphone) =>
            Make.Of(Make.Check(station, CheckMoment.Other, deviationDb, microphone), day, "campaign:C1", "device:" + microphone);
        Fact[] first = [Checked("S1", -0.4, "2026-05-20", "M1"), Checked("S2", 0, "2026-05-20", "M2")];
        Fact[] second = later is { } db ? [Checked("S1", db, "2026-05-21", "M1"), Checked("S2", 0, "2026-05-21", "M2")] : [];

        Assert.Equal(gravity, Assert.Single(Of("check", [.. first, .. second])).Gravity);
    }

    [Fact]
    public void A_plan_without_a_station_and_an_altitude_that_cannot_be_stop_it()
    {
        var report = ReadinessTests.Judge([ReadinessTests.Plan()]);

        Assert.Contains(
            report.Findings, f => f is { Rule: "chain-incomplete", Gravity: Gravity.Stops, Text: "The campaign has no station." });
        Assert.Equal(ReadinessVerdict.NotReady, report.Verdict);
        foreach (var altitude in new[] { -1001.0, 11_001 })
        {
            var finding = Assert.Single(Of("altitude-range", ReadinessTests.Plan(altitude: altitude, from: "2026-05-05")));
            Assert.Contains("cannot be", finding.Text, StringComparison.Ordinal);
        }
    }

    // 1 kPa from 101.325 kPa is reached at 83.6 m (standard atmosphere: 12.0 Pa a metre near the ground).
    [Theory]
    [InlineData(80, 0)]
    [InlineData(88, 1)]
    public void How_a_calibrator_follows_pressure_matters_beyond_a_kilopascal(double altitude, int found)
    {
        var unknown = Make.Of(new DeviceDescribed([], ["pressure-law"]), "2026-05-01", "device:K1");

        Assert.Equal(found, Of("altitude", ReadinessTests.Plan(altitude: altitude, from: "2026-05-05"), unknown).Count);
    }

    [Fact]
    public void What_goes_into_every_level_is_calibrated_whatever_the_profile_asks()
    {
        var without = Make.Annulling(Make.Certificate("R1", "2026-02-01", 0, 0.04, "gain", "dB"));

        var finding = Assert.Single(Of("never-calibrated", Own(), without));

        Assert.Equal((Gravity.Risks, "R1"), (finding.Gravity, finding.Device));
        Assert.Equal(Gravity.Stops, Assert.Single(Of("never-calibrated", without)).Gravity); // here the profile asks
    }

    [Fact]
    public void What_is_out_of_date_already_bites_on_the_first_day() =>
        Assert.Equal(Make.Day("2026-07-01"), Assert.Single(Of("due", ReadinessTests.Described("M1", ("interval-months", 1)))).BitesOn);

    [Fact]
    public void Two_plates_that_are_known_can_differ()
    {
        var (one, other) = (ReadinessTests.Described("G1", ("batch", "A")), ReadinessTests.Described("G2", ("batch", "B")));

        var finding = Assert.Single(Of("plates-alike", one, other));

        Assert.Equal("G2", finding.Device);
    }

    [Fact]
    public void A_spare_of_which_a_newer_version_wrote_counts_for_nothing() =>
        Assert.Equal(0, ReadinessTests.Judge([.. ReadinessTests.Sound(), Make.Newer("M4")]).UsableSpares);

    [Fact]
    public void What_another_campaign_takes_along_besides_is_none_of_this_one()
    {
        var other = new CampaignPlanned(
            "Other", new(2026, 7, 5), new(2026, 7, 20), "Zone/Site", [], "Hill", 10, SourceClass.Jet, 50, 1000, null, null,
            "engineering-practice", 0, null);

        var found = Of(
            "double-booked", Make.Of(other, "2026-05-01", "campaign:C2"), Make.Registered("X9", "99"),
            Make.Of(new ChainPlanned("T1", ["X9", "M2"]), "2026-05-01", "campaign:C2", "device:X9", "device:M2"));

        Assert.Equal("M2", Assert.Single(found).Device);
    }

    private static Fact Own(params ProfileLimit[] limits) =>
        Make.Of(new ProfileWritten("Own", "", limits), "2026-01-01", "profile:small-unmanned-flush");

    private static List<Finding> Of(string rule, params Fact[] more) =>
        [.. ReadinessTests.Judge([.. ReadinessTests.Sound(), .. more]).Findings.Where(f => f.Rule == rule)];
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>
/// Expected figures by hand algebra from the invented certificates of <see cref="Heath"/>. Checks are stored to 1e-6 dB, hence the
/// tolerance of levels; what a level of 1e-6 dB is in V/Pa lies below 2e-9.
/// </summary>
public sealed class TraceTests
{
    private const double Db = 1e-6;

    private static readonly string Blank = LabelCode.TryRead("2AYS641TS", out var code, out _) ? code.Text : "";

    [Fact]
    public void The_mean_of_both_checks_applies_in_volts_and_in_full_scale()
    {
        var facts = Heath.Flight(-38.11, -38.19);
        var trace = Heath.One(Heath.With(facts));

        Assert.Empty(trace.Reasons);
        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        Assert.Equal((facts[0].Id, facts[1].Id, facts[3].Id), (trace.Placement!.Fact, trace.Before!.Fact, trace.After!.Fact));
        var applied = trace.Applied!;
        Assert.Equal(SensitivityRule.MeanOfChecks, applied.Rule);
        Assert.Equal(-38.15, applied.VoltsDb, Db); // (-38.11 - 38.19) / 2
        Assert.Equal(0.0123737119, applied.VoltsPerPascal, 2e-9); // 10^(-38.15 / 20)
        Assert.Equal(-58.147, applied.FullScaleDb!.Value, Db); // -38.15 + 0.003 of channel gain - 20 lg 10 V
        Assert.Equal(0.00123779864, applied.FullScalePerPascal!.Value, 2e-10); // 10^(-58.147 / 20)
    }

    [Fact]
    public void A_certificate_that_both_checks_share_stays_whole_and_insertions_are_halved()
    {
        var applied = Heath.One(Heath.With(Heath.Flight(-38.11, -38.19))).Applied!;

        // Calibrator 0.05 whole; two insertions of 0.03 / 2 each; change 0.08 dB, half-width 0.04 over √3: √(0.0025 + 0.00045 + 0.000533333).
        Assert.Equal(0.0590198, applied.StandardDb, Db);
        Assert.Equal(2.0000, applied.CoverageFactor, 1e-4);
        Assert.Equal(0.118040, applied.ExpandedDb, 1e-5);
        Assert.Equal(0.0230940, Assert.Single(applied.Budget, c => c.Name == "change between the checks").StandardUncertainty, Db);
    }

    [Fact]
    public void Certificates_of_two_calibrators_are_halved_each_but_for_the_reference_that_both_share()
    {
        var facts = Heath.Flight(-38.11, -38.19);
        facts[3] = Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, "K2");

        // REF 0.02 whole; 2 · (0.05² - 0.02²) / 4 + 2 · (0.03 / 2)² + 0.04² / 3: 0.0004 + 0.00105 + 0.00045 + 0.000533333.
        Assert.Equal(0.0493288, Heath.One(Heath.With(facts)).Applied!.StandardDb, Db);
    }

    [Fact]
    public void Recorded_tones_come_to_volts_through_range_and_channel_gain()
    {
        Fact[] facts = [Heath.Placed("S1", "06-02 06:00"), Tone("06-02 06:30", CheckMoment.Before, -58.097), Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Tone("06-02 16:00", CheckMoment.After, -58.177)];
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        Assert.Equal(-38.14, trace.Applied!.VoltsDb, Db); // (-58.097 - 58.177) / 2 - 0.003 + 20 lg 10
        Assert.Equal(-58.137, trace.Applied.FullScaleDb!.Value, Db);
        static Fact Tone(string at, CheckMoment moment, double db) => Heath.Checked("S1", at, moment, db, method: CheckMethod.Recording);
    }

    [Theory]
    [InlineData(1, -38.11, "after")]
    [InlineData(3, -38.19, "before")]
    public void With_one_check_its_level_applies_and_the_other_is_missed(int kept, double db, string missing)
    {
        var facts = Heath.Flight();
        var trace = Heath.One(Heath.With(facts[0], facts[2], facts[kept]));

        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
        Assert.Equal($"The chain was not checked {missing} it, on the same day or in the same session, with the same parts.", Assert.Single(trace.Reasons).Text);
        Assert.Equal(db, trace.Applied!.VoltsDb, Db);
        Assert.Equal(0.0583095, trace.Applied.StandardDb, Db); // √(0.05² + 0.03²)
    }

    [Fact]
    public void Without_checks_the_certificates_apply_and_it_is_doubtful()
    {
        var facts = Heath.Flight();
        var trace = Heath.One(Heath.With(facts[0], facts[2]));

        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
        Assert.Equal(SensitivityRule.Certificate, trace.Applied!.Rule);
        Assert.Equal(-38.16, trace.Applied.VoltsDb, Db); // -38.06 - 0.1
        Assert.Equal(0.0360555, trace.Applied.StandardDb, Db); // √(0.03² + 0.02²)
    }

    [Theory]
    [InlineData("S1", -6.0206, 0, 20_000)] // flush: twice the pressure, 20 lg 2; at most to 20 kHz
    [InlineData("S2", -3.0103, 950.92, 40_000)] // 10 lg 2, from 2 / ((1 - 10^-0.1) · 2π · 2.4 m / 340.294 m/s · (10^0.05 - 10^-0.05))
    [InlineData("S3", 0, 0, 40_000)] // a pole is taken as free; the capsule reaches to 40 kHz
    [InlineData("S4", -6.0206, 0, 3641.84)] // 7 mm: arccos(10^-0.05) · 340.294 / (π · 2 · 0.007)
    public void The_mount_normalises_within_its_band(string station, double db, double fromHz, double toHz)
    {
        var register = Heath.With(Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, null), "2026-05-01", 4, Subject.Campaign(Heath.C)), Heath.Placed(station, "06-02 06:00", Heath.Chain("S1")), Heath.Event("E1", "06-02 10:00", "06-02 10:01"));
        var applied = Heath.One(register, station: station).Applied!;

        Assert.Equal(db, applied.NormalisationDb, 1e-5);
        Assert.Equal(fromHz, applied.UsableFromHz, 0.01);
        Assert.Equal(toHz, applied.UsableToHz, 0.01);
        Assert.Equal(station == "S2", applied.Caution is not null);
    }

    [Theory]
    [InlineData(8.0, 3186.61, false)] // arccos(10^-0.05) · 340.294 / (π · 2 · 0.008); 7 ± 1 mm are asked, the limit passes
    [InlineData(8.2, 3108.89, true)]
    public void A_measured_gap_sets_the_band_and_stops_as_an_inspected_one_does(double gapMm, double toHz, bool stops)
    {
        var trace = Heath.One(Heath.With(Make.Of(new StationPlanned("S4", 53, 1, Mount.InvertedPlate, null), "2026-05-01", 4, Subject.Campaign(Heath.C)), Heath.Placed("S4", "06-02 06:00", Heath.Chain("S1"), gapMm: gapMm), Heath.Event("E1", "06-02 10:00", "06-02 10:01")), station: "S4");

        Assert.Equal(toHz, trace.Applied!.UsableToHz, 0.01);
        Assert.Equal(stops, trace.Reasons.Any(r => r.Weight == TraceVerdict.NotValid
            && r.Text == "Station S4 leaves a gap of 8.2 mm; 7 ± 1 mm are asked."));
    }

    [Fact]
    public void Recorder_and_channel_are_said_wherever_the_register_knows_them()
    {
        (string?, int?) Said(params Fact[] more) => Heath.One(Heath.With([.. Heath.Flight(), .. more])) is var s ? (s.Recorder, s.Channel) : default;

        Assert.Equal((null, null), Said());
        Assert.Equal(("REC-A", 7), Said(Heath.Described("R1", ("recorder", "REC-A"), ("channel-number", 7))));
        // A serial number such as C01-3 is channel 3 of C01.
        Assert.Equal(("C01", 3), Said(Heath.Described("R1", ("serial", "C01-3"))));
    }

    [Fact]
    public void The_tolerance_of_the_mount_is_part_of_the_uncertainty()
    {
        var applied = Heath.One(Heath.With([.. Heath.Flight(), Heath.Written((LimitKey.MountToleranceDb, 0.1))])).Applied!;

        Assert.Equal(0.0825631, applied.StandardDb, Db); // √(0.0590198² + 0.1² / 3)
    }

    [Fact]
    public void Between_two_certificates_the_level_lies_on_a_line_by_local_days()
    {
        // 22:30 UTC on 1 June is 2 June at the heath: 93 of 184 days from 1 March to 1 September.
        Fact[] facts = [Heath.Chosen(SensitivityRule.LinearBetween), Heath.Placed("S1", "06-01 06:00"), Heath.Event("E1", "06-01 22:30", "06-01 22:31"), Make.Certificate("M1", "2026-09-01", -38.02)];
        var applied = Heath.One(Heath.With(facts)).Applied!;

        Assert.Equal(SensitivityRule.LinearBetween, applied.Rule);
        Assert.Equal(-38.1397826, applied.VoltsDb, Db); // -38.06 + 0.04 · 93/184 - 0.1
        Assert.Equal(0.0291557, applied.StandardDb, Db); // √((91/184 · 0.03)² + (93/184 · 0.03)² + 0.02²)
    }

    [Fact]
    public void Without_a_certificate_after_it_the_one_before_applies_and_it_is_doubtful()
    {
        var trace = Heath.One(Heath.With([Heath.Chosen(SensitivityRule.LinearBetween), .. Heath.Flight()]));

        Assert.Equal(SensitivityRule.Certificate, trace.Applied!.Rule);
        Assert.Equal(-38.16, trace.Applied.VoltsDb, Db);
        Assert.StartsWith("There is no certificate after it yet", Assert.Single(trace.Reasons).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_result_that_was_found_to_be_bad_ends_no_line()
    {
        var bad = Make.Certificate("M1", "2026-09-01", -38.02);
        Fact[] facts = [Heath.Chosen(SensitivityRule.LinearBetween), .. Heath.Flight(), bad, Make.Of(new AlarmReviewed(bad.Id.ToString(), AlarmDecision.BadResult, "leak"), "2026-09-03", "device:M1")];

        Assert.Equal(SensitivityRule.Certificate, Heath.One(Heath.With(facts)).Applied!.Rule);
    }

    [Fact]
    public void By_certificates_the_gain_of_the_preamplifier_is_added_unless_it_was_measured_along()
    {
        Fact[] facts = [Heath.Chosen(SensitivityRule.Certificate), .. Heath.Flight()];
        var loaded = Make.Of(Make.Issued(-38.20) with { Loading = "loaded" }, "2026-03-02", "device:M1");

        Assert.Equal(-38.16, Heath.One(Heath.With(facts)).Applied!.VoltsDb, Db); // -38.06 - 0.1
        Assert.Equal(-38.20, Heath.One(Heath.With([.. facts, loaded])).Applied!.VoltsDb, Db);
        Assert.Equal(-58.157, Heath.One(Heath.With(facts)).Applied!.FullScaleDb!.Value, Db); // -38.16 + 0.003 - 20
    }

    [Theory]
    [InlineData("06-02 09:00", -38.26)] // -38.15 - 0.02 dB/K · (27 - 22) K + 0.01 dB/kPa · (100 - 101) kPa
    [InlineData("06-02 13:00", -38.26)] // three hours away still count
    [InlineData("06-02 06:59", -38.15)] // more do not
    public void The_air_of_the_event_moves_the_level_by_the_microphones_own_coefficients(string noted, double db)
    {
        var register = Heath.With(Follows());
        StatedAir Air(double celsius) => new(101, celsius, null);
        Fact[] facts =
        [
            Follows(), Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.11, air: Air(20), on: register), Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
            Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, air: Air(24), on: register), Heath.Weather(noted, 27, 100),
        ];

        Assert.Equal(db, Heath.One(Heath.With(facts)).Applied!.VoltsDb, Db);
        // The chain's 0.0590198 with 0.02 dB/K · 1 K and 0.01 dB/kPa · 0.05 kPa, where the air counts; where it is not known,
        // with 0.02 dB/K · 20 K / √3 and 0.01 dB/kPa · 3 kPa / √3.
        Assert.Equal(db == -38.26 ? 0.0623184 : 0.2389909, Heath.One(Heath.With(facts)).Applied!.StandardDb, Db);
        // From reference conditions by certificates: -0.02 · (27 - 23) + 0.01 · (100 - 101.325) = -0.09325.
        Assert.Equal(db == -38.26 ? -38.16 - 0.09325 : -38.16, Heath.One(Heath.With([.. facts, Heath.Chosen(SensitivityRule.Certificate)])).Applied!.VoltsDb, Db);
    }

    [Fact]
    public void Of_two_notes_of_the_weather_equally_near_the_same_one_counts_whichever_came_first()
    {
        Fact[] facts = [Follows(), .. Heath.Flight()];
        var (early, late) = (Heath.Weather("06-02 09:00", 27), Heath.Weather("06-02 11:00", 17));

        Assert.Equal(Heath.One(Heath.With([.. facts, early, late])).Applied!.VoltsDb, Heath.One(Heath.With([.. facts, late, early])).Applied!.VoltsDb, Db);
    }

    [Fact]
    public void A_later_certificate_of_the_channel_changes_nothing_of_what_was_recorded_before()
    {
        var later = Make.Certificate("R1", "2026-08-01", 0.203, 0.04, "gain", "dB");

        Assert.Equal(-58.147, Heath.One(Heath.With([.. Heath.Flight(), later])).Applied!.FullScaleDb!.Value, Db);
    }

    [Fact]
    public void Each_calibration_is_followed_down_to_a_laboratory()
    {
        var register = Heath.With(Heath.Flight());
        var links = Heath.One(register).Links;

        Assert.Equal([("M1", 0), ("P1", 0), ("R1", 0), ("K1", 0), ("REF", 1)], links.Select(l => (l.Device.Id, l.Depth)));
        Assert.Equal(["House", "House", "House", register.Device("REF")!.Name, "National laboratory"], links.Select(l => l.RestsOn));
        Assert.Equal((Heath.FirstMicrophone.Id, Heath.FirstCalibrator.Id, Heath.ReferenceCertificate.Id), (links[0].Certificate!.Fact, links[3].Certificate!.Fact, links[4].Certificate!.Fact));
    }

    [Fact]
    public void An_event_that_is_not_there_has_no_trace_and_all_stations_speak_for_one_that_is()
    {
        var register = Heath.With(Heath.Flight());

        Assert.Null(Tracer.Of(register, "E9"));
        var trace = Tracer.Of(register, "E1")!;
        Assert.Equal([("S1", TraceVerdict.Valid), ("S2", TraceVerdict.NotValid), ("S3", TraceVerdict.NotValid)], trace.Stations.Select(s => (s.Station, s.Verdict)));
        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
        Assert.Equal("Nothing stood there.", Assert.Single(trace.Stations[1].Reasons).Text);
        Assert.Null(trace.Stations[1].Placement);
    }

    [Fact]
    public void What_is_told_of_a_part_with_an_unknown_label_holds_once_it_is_bound()
    {
        var facts = Heath.Flight();
        facts[0] = Heath.Placed("S1", "06-02 06:00", ["P1", "R1"], unknown: [Blank]);

        var unknown = Heath.One(Heath.With(facts));
        Assert.Equal(TraceVerdict.NotValid, unknown.Verdict);
        Assert.Contains(unknown.Reasons, r => r.Text.Contains(Blank, StringComparison.Ordinal) && r.Source == $"fact {facts[0].Id}");
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. facts, Make.Of(new LabelBound(Blank, null), "2026-06-05", Subject.Label(Blank), "device:M1")])).Verdict);
    }

    private static Fact Follows() => Make.Of(new DeviceDescribed(Make.Details(("temperature-db-per-k", -0.02), ("pressure-db-per-kpa", 0.01)), []), "2026-05-02", "device:M1");
}

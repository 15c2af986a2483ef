using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Checks;

/// <summary>Expected figures by hand algebra: p = 20 µPa · 10^(L/20), chain = 20 lg(U/p), u by the root of squares.</summary>
public sealed class CheckTests
{
    // 20 lg(99.5 / 101.325) = -0.15787063 dB, so that 124 dB become 123.842129 dB.
    private const double PlaceDb = 124 - 0.15787063;

    private static readonly DateOnly Today = Make.Day("2026-07-10");

    [Fact]
    public void A_voltage_gives_the_chain_in_volts_a_pascal_and_its_deviation_from_the_certificates()
    {
        // Microphone -38.06, preamplifier -0.1, and 0.2 dB more than that.
        var check = Worked(Entry(CheckMethod.Voltage, Rms(-38.16 + 0.2)));

        Assert.Equal(PlaceDb, check.CalibratorDb, 1e-6);
        Assert.Equal(-37.96, check.SensitivityDb!.Value, 1e-5);
        Assert.Equal("V/Pa", check.SensitivityUnit);
        Assert.Equal(0.2, check.DeviationDb!.Value, 1e-5);
        Assert.Equal(["microphone's certificate", "preamplifier's gain"], check.ExpectedTerms.Select(t => t.Name));
        // Certificate 0.05, pressure 0.05 kPa · 8.6859 / 99.5 kPa = 0.004365, one insertion 0.03: 0.058473.
        Assert.Equal(0.0584725, check.StandardDb, 1e-5);
        Assert.Equal(2.0, check.CoverageFactor, 1e-3);
    }

    [Fact]
    public void A_recorded_tone_takes_the_channel_at_its_range_along()
    {
        // Full scale is 10 V peak: -20 dB; 0.003 of channel gain.
        var check = Worked(Entry(CheckMethod.Recording, Rms(-38.16 - 20 + 0.003 - 0.05)) with { RangeV = 10 });

        Assert.Equal("FS/Pa", check.SensitivityUnit);
        Assert.Equal(-0.05, check.DeviationDb!.Value, 1e-5);
        Assert.Equal(10, check.RangeV);
    }

    [Fact]
    public void Without_a_range_a_recorded_tone_has_a_sensitivity_and_no_deviation()
    {
        var check = Worked(Entry(CheckMethod.Recording, Rms(-58.2)));

        Assert.Equal(-58.2, check.SensitivityDb!.Value, 1e-5);
        Assert.Null(check.DeviationDb);
        Assert.Empty(check.ExpectedTerms);
    }

    [Fact]
    public void An_indicated_level_deviates_from_the_calibrators()
    {
        var check = Worked(Entry(CheckMethod.Indicated, 123.9) with { Resolution = 0.1 });

        Assert.Equal(123.9 - PlaceDb, check.IndicatedDb!.Value, 1e-6);
        Assert.Equal(check.IndicatedDb.Value, check.DeviationDb!.Value, 1e-6); // set to its certificates
        Assert.Equal(-38.16 + check.IndicatedDb.Value, check.SensitivityDb!.Value, 1e-6);
        // Half a step of 0.1 dB, rectangular: 0.05 / √3 = 0.028868.
        Assert.Equal(0.0288675, Assert.Single(check.Budget, l => l.Name == "resolution of the reading").StandardUncertainty, 1e-6);
    }

    [Fact]
    public void Several_insertions_are_averaged_in_decibels_and_give_their_repeatability()
    {
        var check = Worked(Entry(CheckMethod.Voltage, Rms(-38.17), Rms(-38.16), Rms(-38.15)));

        Assert.Equal(-38.16, check.SensitivityDb!.Value, 1e-5);
        var line = Assert.Single(check.Budget, l => l.Name == "insertions");
        Assert.Equal(0.01 / Math.Sqrt(3), line.StandardUncertainty, 1e-6); // s = 0.01 dB over √3
        Assert.Equal(2, line.DegreesOfFreedom);
        Assert.Equal(0.02, CheckJudge.SpreadDb(check)!.Value, 1e-6);
    }

    [Fact]
    public void A_coupling_adds_the_users_own_corrections_each_with_its_uncertainty()
    {
        Fact[] stated =
        [
            Make.Of(new CouplingStated("Model", null, 0.10, 0.02, -0.15, 0.04, "its papers"), "2026-05-01", "device:K1"),
            Make.Of(new CouplingStated("model ", "A1", 0.12, null, -0.15, 0.04, "its papers"), "2026-05-01", "device:K1", "device:A1"),
        ];

        var any = Worked(Entry(CheckMethod.Voltage, 0.1), stated);
        var withAdapter = Worked(Entry(CheckMethod.Voltage, 0.1) with { Adapter = "A1" }, stated);

        Assert.Equal(PlaceDb + 0.10 - 0.15, any.CalibratorDb, 1e-6);
        Assert.Equal(0.01, Assert.Single(any.CalibratorTerms, t => t.Name == "load volume").StandardDb, 1e-9);
        Assert.Equal(0.02, Assert.Single(any.CalibratorTerms, t => t.Name == "pressure to free field").StandardDb, 1e-9);
        Assert.Equal(PlaceDb + 0.12 - 0.15, withAdapter.CalibratorDb, 1e-6);
    }

    [Fact]
    public void What_was_assumed_is_said()
    {
        var check = Worked(Entry(CheckMethod.Voltage, 0.1));
        Assert.Contains(check.CalibratorTerms, t => t.Remark?.Contains("101.325 kPa is taken", StringComparison.Ordinal) == true);

        var estimated = Worked(Entry(CheckMethod.Voltage, 0.1) with { Air = null, EstimatePressure = true });
        Assert.True(estimated.PressureIsEstimated);
        // ISO 2533:1975 at 120 m: 99.8895 kPa (by its formula with L = 6.5 K/km, worked by hand).
        Assert.Equal(124 + (20 * Math.Log10(101.325 * Math.Pow(1 - (0.0065 * 120 / 288.15), 5.25588) / 101.325)), estimated.CalibratorDb, 1e-5);
    }

    [Theory]
    [InlineData("no pressure", "Static pressure is missing")]
    [InlineData("reduced to sea level", "reduced to sea level")]
    [InlineData("hectopascals", "1013 hPa are 101.3 kPa")]
    [InlineData("no reading", "Readings: 1 to 20")]
    [InlineData("negative", "Reading '-1'")]
    [InlineData("station", "has no such station")]
    [InlineData("calibrator", "is no sound calibrator")]
    [InlineData("adapter", "is no calibration adapter")]
    public void What_cannot_be_is_refused_with_the_value_and_what_is_allowed(string what, string says)
    {
        var good = Entry(CheckMethod.Voltage, 0.1);
        var facts = what == "reduced to sea level" ? Sound(1500) : Sound();
        var entry = what switch
        {
            "no pressure" => good with { Air = null },
            "reduced to sea level" => good with { Air = new(101.3, null, null) },
            "hectopascals" => good with { Air = new(995, null, null) },
            "no reading" => good with { Readings = [] },
            "negative" => good with { Readings = [-1] },
            "station" => good with { Station = "S99" },
            "calibrator" => good with { Calibrator = "M1" },
            _ => good with { Adapter = "M1" },
        };

        var why = Assert.IsType<Result<ChainChecked>.Rejected>(CheckWork.Out(FactList.RegisterOf(facts), entry)).Why;

        Assert.Contains(says, why.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.3, ConformityVerdict.Conforms)] // equality passes
    [InlineData(0.300001, ConformityVerdict.DoesNotConform)]
    [InlineData(-0.3, ConformityVerdict.Conforms)]
    public void Before_and_after_are_held_against_the_profiles_limit_and_what_both_share_cancels(double difference, ConformityVerdict verdict)
    {
        var (before, after) = Pair(difference);

        var judged = CheckJudge.Judge(BuiltInProfiles.Find("small-unmanned-flush"), after, [before, after]);

        var comparison = Assert.Single(judged.Comparisons, c => c.Key == LimitKey.CheckDifferenceDb);
        Assert.Equal(difference, comparison.DifferenceDb, 1e-6);
        Assert.Equal(verdict, comparison.Verdict);
        // Only the two insertions are not shared: √2 · 0.03 = 0.042426; the calibrator's certificate and the barometer cancel.
        Assert.Equal(0.0424264, comparison.StandardDb, 1e-6);
        Assert.Equal(before.Check.SensitivityDb!.Value + (difference / 2), judged.AppliedDb!.Value, 1e-6);
        // In the mean the certificate stays whole and the insertions halve: √(0.05² + 0.004365² + 2 · 0.015²) = 0.054490.
        Assert.Equal(2 * 0.0544899, judged.AppliedExpandedDb!.Value, 1e-4);
    }

    [Theory]
    [InlineData("simple", 0.29, ConformityVerdict.Conforms)]
    [InlineData("guarded", 0.21, ConformityVerdict.Conforms)] // 0.3 - U = 0.3 - 0.0849
    [InlineData("guarded", 0.29, ConformityVerdict.Undecided)]
    [InlineData("guarded", 0.39, ConformityVerdict.DoesNotConform)]
    [InlineData("probability", 0.22, ConformityVerdict.Conforms)] // (0.3 - 0.22) / 0.0424 = 1.886: 0.970 (normal table)
    [InlineData("probability", 0.29, ConformityVerdict.Undecided)]
    [InlineData("probability", 0.38, ConformityVerdict.DoesNotConform)]
    public void The_profile_names_the_decision_rule(string rule, double difference, ConformityVerdict verdict)
    {
        var (before, after) = Pair(difference);
        var profile = BuiltInProfiles.Find("small-unmanned-flush")!;
        profile = profile with { Written = profile.Written with { Limits = [.. profile.Written.Limits.Where(l => l.Key != LimitKey.DecisionRule), new(LimitKey.DecisionRule, null, rule, "own", "own")] } };

        var comparison = Assert.Single(CheckJudge.Judge(profile, after, [before, after]).Comparisons, c => c.Key == LimitKey.CheckDifferenceDb);

        Assert.Equal(verdict, comparison.Verdict);
        Assert.NotNull(comparison.Probability);
    }

    [Fact]
    public void A_chain_with_another_microphone_or_range_is_another_chain()
    {
        var (before, after) = Pair(0.1);

        Assert.Null((after with { Check = after.Check with { RangeV = 1 } }).Since(before));
        Assert.Null((after with { Check = after.Check with { Devices = ["M2", "P1", "R1"] } }).Since(before));
    }

    [Fact]
    public void What_all_chains_share_is_told_apart_and_the_one_that_moved_stands_out()
    {
        // Six chains 0.21 dB off together, and the fourth 0.4 dB more.
        CheckRecord[] records = [.. Enumerable.Range(1, 6).Select(i => Record($"S{i}", CheckMoment.Before, -37.95 + (i == 4 ? 0.4 : 0.005 * (i % 3)), "M" + i))];

        var day = Assert.Single(CheckDay.Of(records, BuiltInProfiles.Find("small-unmanned-flush")));

        Assert.Equal(0.215, day.Shift!.CommonDb, 0.006);
        Assert.Equal("S4", Assert.Single(day.Checks, j => day.StandsOut(j.Record)).Record.Check.Station);
    }

    [Fact]
    public void Checks_are_recorded_all_or_none_and_found_by_device_and_campaign()
    {
        var register = FactList.RegisterOf(Sound());
        var saying = new Saying(new(Make.On("2026-07-02"), "P1", "desk", 1));

        var refused = CheckDecisions.Record(register, saying, [Entry(CheckMethod.Voltage, 0.1), Entry(CheckMethod.Voltage, -1)], Today);
        Assert.StartsWith("Station S1: Reading", Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(refused).Why.Text, StringComparison.Ordinal);

        var facts = Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(CheckDecisions.Record(register, saying, [Entry(CheckMethod.Voltage, Rms(-38.1)), Entry(CheckMethod.Voltage, Rms(-38.2)) with { Station = "S2" }], Today)).Value;
        var now = register.WhatIf(facts);

        Assert.Equal(2, CheckBook.OfCampaign(now, "C1").Count);
        Assert.Equal("S2", Assert.Single(CheckBook.OfDevice(now, "M2")).Check.Station);
        Assert.Empty(CheckBook.OfDevice(now, "K1")); // it served, it was not checked
        Assert.Equal(2, CheckBook.MadeWith(now, "K1").Count);
        Assert.Equal(0.06, Assert.Single(FieldCheck.Of(now, "M1")).DeviationDb, 1e-5);
    }

    [Fact]
    public void A_channel_of_a_recording_stands_for_one_check_only()
    {
        var tone = new RecordedTone("a.wav", 100, new string('a', 64), 1, 250, 0.001, 0.01, 60, 1, 9, null);
        var entry = Entry(CheckMethod.Recording, 0.1) with { Tone = tone };
        var register = FactList.RegisterOf(Sound());
        var saying = new Saying(new(Make.On("2026-07-02"), "P1", "desk", 1));

        var once = Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(CheckDecisions.Record(register, saying, [entry], Today)).Value;

        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(CheckDecisions.Record(register.WhatIf(once), saying, [entry], Today));
        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(CheckDecisions.Record(register, saying, [entry, entry], Today));
    }

    [Fact]
    public void The_budget_survives_storing()
    {
        var check = Worked(Entry(CheckMethod.Voltage, Rms(-38.17), Rms(-38.16), Rms(-38.15)));
        var fact = Make.Of(check, "2026-07-02", "campaign:C1", "device:M1", "device:K1");

        var back = Assert.IsType<ChainChecked>(FactText.ReadCanonical(fact.Bytes).Body);

        Assert.Equal(check.Budget, back.Budget);
        Assert.Equal(check.StandardDb, CheckWork.BudgetOf(back.Budget).Standard, 1e-12);
    }

    [Fact]
    public void A_device_chart_follows_what_is_its_own()
    {
        var facts = Sound().ToList();
        for (var day = 1; day <= 8; day++)
        {
            // All chains follow the day's pressure entry; the first one moves by 0.3 dB on the last day.
            for (var i = 1; i <= 6; i++)
                facts.Add(Make.Of(Record("S" + i, CheckMoment.Before, -38.16 + (0.1 * (day % 3)) + (0.004 * ((i + day) % 2)) + (i == 1 && day == 8 ? 0.3 : 0), "M" + i).Check, $"2026-07-0{day}", "campaign:C1", "device:M" + i, "device:K1"));
        }
        var register = FactList.RegisterOf(facts);

        var quiet = CheckHistory.Of(register, "M2");
        var moved = CheckHistory.Of(register, "M1");

        Assert.Equal(8, quiet.Points.Count);
        Assert.All(quiet.Points, p => Assert.Empty(p.Alarms));
        Assert.NotEmpty(moved.Points[^1].Alarms);
        Assert.Equal(0.3, moved.Points[^1].OwnDb, 0.01);
    }

    [Fact]
    public void Readiness_names_rejected_checks_and_those_that_are_missing()
    {
        var facts = Sound().ToList();
        facts.Add(Make.Of(Record("S1", CheckMoment.Before, -38.16, "M1").Check, "2026-07-02", "campaign:C1", "device:M1"));
        facts.Add(Make.Of(Record("S1", CheckMoment.After, -37.8, "M1").Check, "2026-07-02", 1, "campaign:C1", "device:M1"));
        facts.Add(Make.Of(Record("S2", CheckMoment.Before, -38.16, "M2").Check, "2026-07-02", "campaign:C1", "device:M2"));

        var findings = CampaignReadiness.Judge(FactList.RegisterOf(facts), "C1", Today)!.Findings;

        Assert.Contains("+0.360 dB since the check before (limit 0.3 dB)", Assert.Single(findings, f => f.Rule == "check").Text, StringComparison.Ordinal);
        Assert.Equal("S2", Assert.Single(findings, f => f.Rule == "check-missing").Station);
    }

    [Fact]
    public void What_all_share_is_one_finding_about_the_calibrator()
    {
        var facts = Sound().ToList();
        for (var i = 1; i <= 6; i++) facts.Add(Make.Of(Record("S" + i, CheckMoment.Before, -37.8, "M" + i).Check, "2026-07-10", "campaign:C1", "device:M" + i));

        var finding = Assert.Single(CampaignReadiness.Judge(FactList.RegisterOf(facts), "C1", Today)!.Findings, f => f.Rule == "check");

        Assert.Contains("All 6 chains", finding.Text, StringComparison.Ordinal);
        Assert.Null(finding.Station);
    }

    [Fact]
    public void A_calibrator_of_two_levels_is_taken_at_the_one_that_was_heard()
    {
        Fact[] second = [Make.Certificate("K1", "2026-01-05", 94.00, 0.1, "level", "dB")];

        var why = Assert.IsType<Result<ChainChecked>.Rejected>(CheckWork.Out(FactList.RegisterOf([.. Sound(), .. second]), Entry(CheckMethod.Voltage, 0.1))).Why;
        Assert.Contains("124 dB at 250 Hz", why.Text, StringComparison.Ordinal);
        Assert.Contains("94 dB at 250 Hz", why.Text, StringComparison.Ordinal);
        Assert.Contains("state which", why.Text, StringComparison.Ordinal);
        Assert.Equal(94 - 0.15787063, Worked(Entry(CheckMethod.Voltage, 0.1) with { NominalDb = 94 }, second).CalibratorDb, 1e-6);
        Assert.Equal(PlaceDb, Worked(Entry(CheckMethod.Indicated, 123.9), second).CalibratorDb, 1e-6);
    }

    [Fact]
    public void A_check_of_an_earlier_day_takes_the_certificates_of_that_day()
    {
        Fact[] later = [Make.Certificate("K1", "2026-07-05", 124.30, 0.1, "level", "dB"), Make.Certificate("M1", "2026-07-05", -38.00)];

        Assert.Equal(PlaceDb, Worked(Entry(CheckMethod.Voltage, 0.1) with { At = "2026-07-02" }, later).CalibratorDb, 1e-6);
        Assert.Equal(PlaceDb + 0.30, Worked(Entry(CheckMethod.Voltage, 0.1) with { At = "2026-07-06" }, later).CalibratorDb, 1e-6);
    }

    [Fact]
    public void An_indicating_chain_is_set_to_its_certificate_whatever_the_air()
    {
        Fact[] coefficient = [Make.Of(new DeviceDescribed(Make.Details(("temperature-db-per-k", 0.01)), []), "2026-05-01", "device:M1")];
        var cold = Worked(Entry(CheckMethod.Indicated, 123.9) with { Air = new(99.5, 3, null) }, coefficient);
        var warm = Worked(Entry(CheckMethod.Indicated, 123.9) with { Air = new(99.5, 23, null) }, coefficient);

        Assert.Equal(warm.SensitivityDb!.Value, cold.SensitivityDb!.Value, 1e-9);
        // At 3 °C its certificate lets expect 20 K · 0.01 dB/K less, so that the same indication deviates by that much more.
        Assert.Equal(warm.DeviationDb!.Value + 0.2, cold.DeviationDb!.Value, 1e-6);
    }

    [Fact]
    public void The_field_is_no_matter_where_the_certificate_states_pressure()
    {
        Fact[] stated =
        [
            Make.Of(new CouplingStated("Model", null, 0, null, -0.15, null, "its papers"), "2026-05-01", "device:K1"),
            Make.Of(Make.Issued(-38.06) with { Field = "pressure" }, "2026-06-01", "device:M1"),
        ];

        Assert.Equal(PlaceDb, Worked(Entry(CheckMethod.Voltage, 0.1), stated).CalibratorDb, 1e-6);
    }

    [Fact]
    public void A_session_over_midnight_is_one_pair()
    {
        var (before, after) = Pair(0.1);
        CheckRecord At(CheckRecord r, string at) => r with { Occurred = Make.On(at), Instant = Make.On(at).UnixMilliseconds, Day = Make.Day(at) };
        var evening = At(before, "2026-07-02T22:30:00.000Z");
        var night = At(after, "2026-07-03T01:30:00.000Z");
        var late = At(after, "2026-07-03T20:30:00.000Z");

        Assert.Same(evening, CheckJudge.Judge(BuiltInProfiles.Find("small-unmanned-flush"), night, [evening, night]).Before);
        Assert.Null(CheckJudge.Judge(BuiltInProfiles.Find("small-unmanned-flush"), late, [evening, late]).Before);
    }

    [Fact]
    public void A_microphone_that_stands_there_no_more_does_not_stop_the_one_that_does()
    {
        var facts = Sound().ToList();
        facts.Add(Make.Of(Make.Check("S1", CheckMoment.Other, -0.6, "M1", "P1", "R1"), "2026-07-02", "campaign:C1", "device:M1"));
        Assert.Equal(Gravity.Stops, Assert.Single(CampaignReadiness.Judge(FactList.RegisterOf(facts), "C1", Today)!.Findings, f => f.Rule == "check").Gravity);

        facts.Add(Make.Registered("M9", "19", "microphone", ("size-mm", 12.7), ("response-type", "pressure")));
        facts.Add(Make.Certificate("M9", "2026-03-01", -38.06));
        facts.Add(Make.Of(new ChainPlanned("S1", ["M9", "P1", "R1"]), "2026-07-03", "campaign:C1", "device:M9", "device:P1", "device:R1"));

        var finding = Assert.Single(CampaignReadiness.Judge(FactList.RegisterOf(facts), "C1", Today)!.Findings, f => f.Rule == "check");
        Assert.Equal((Gravity.Risks, null), (finding.Gravity, finding.Device));
        Assert.Contains("stands there no more", finding.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Checks_of_joined_entries_are_one_history_in_the_order_of_time()
    {
        var facts = Sound().ToList();
        facts.Add(Make.Registered("M8", "011", "microphone"));
        facts.Add(Make.Of(Make.Check("S1", CheckMoment.Before, 0.01, "M1", "P1", "R1"), "2026-07-02", "campaign:C1", "device:M1"));
        facts.Add(Make.Of(Make.Check("S1", CheckMoment.Before, 0.02, "M8", "P1", "R1"), "2026-07-01", "campaign:C1", "device:M8"));
        facts.Add(Make.Of(Make.Check("S1", CheckMoment.After, 0.03, "M8", "P1", "R1"), "2026-07-02", 1, "campaign:C1", "device:M8"));
        facts.Add(Make.Of(new DevicesJoined("M1", "M8", "leading nought"), "2026-07-03", "device:M1", "device:M8"));

        var checks = CheckBook.OfDevice(FactList.RegisterOf(facts), "M1");

        Assert.Equal([0.02, 0.01, 0.03], checks.Select(c => c.Check.DeviationDb!.Value));
        Assert.Same(checks[1], CheckJudge.Judge(BuiltInProfiles.Find("small-unmanned-flush"), checks[2], checks).Before);
    }

    [Fact]
    public void A_check_from_elsewhere_without_a_budget_breaks_nothing()
    {
        var facts = Sound().ToList();
        facts.Add(Make.Of(Make.Check("S1", CheckMoment.Before, 0.01, "M1") with { Budget = [] }, "2026-07-02", "campaign:C1", "device:M1"));
        facts.Add(Make.Of(Make.Check("S1", CheckMoment.Before, 0.01) with { Devices = [], Station = null }, "2026-07-02", 1, "campaign:C1", "device:M1"));

        Assert.Empty(CheckBook.OfCampaign(FactList.RegisterOf(facts), "C1"));
        Assert.Equal(2, CampaignReadiness.Judge(FactList.RegisterOf(facts), "C1", Today)!.Findings.Count(f => f.Rule == "check-unsound"));
    }

    private static (CheckRecord Before, CheckRecord After) Pair(double difference) =>
        (Record("S1", CheckMoment.Before, -38.16, "M1"), Record("S1", CheckMoment.After, -38.16 + difference, "M1"));

    private static CheckRecord Record(string station, CheckMoment moment, double level, string microphone)
    {
        var entry = Entry(CheckMethod.Voltage, Rms(level)) with { Moment = moment, Station = station, Devices = [microphone, "P" + microphone[1..], "R" + microphone[1..]] };
        var check = Worked(entry);
        // Six decimals are stored; what a test means is meant exactly.
        return new(FactId.Derive(Make.On("2026-07-02"), System.Text.Encoding.UTF8.GetBytes(station + moment)), Make.On("2026-07-02"), Make.Day("2026-07-02"), "P1", "C1", check with { SensitivityDb = level, DeviationDb = Math.Round(level + 38.16, 6) });
    }

    // rms in V at 123.842129 dB, by hand: p = 20 µPa · 10^(L/20).
    private static double Rms(double chainDb) => 20e-6 * Math.Pow(10, PlaceDb / 20) * Math.Pow(10, chainDb / 20);

    private static CheckEntry Entry(CheckMethod method, params double[] readings) =>
        new() { Campaign = "C1", Station = "S1", Calibrator = "K1", Method = method, Readings = readings, Air = new(99.5, null, null), Moment = CheckMoment.Before };

    private static ChainChecked Worked(CheckEntry entry, params Fact[] more) =>
        Assert.IsType<Result<ChainChecked>.Accepted>(CheckWork.Out(FactList.RegisterOf([.. Sound(), .. more]), entry)).Value;

    internal static IEnumerable<Fact> Sound(double altitudeM = 120)
    {
        yield return Make.Of(new CampaignPlanned("Trial", new(2026, 7, 1), new(2026, 7, 12), "Zone/Site", [], "Field", altitudeM, SourceClass.SmallMultirotor, 50, 10000, null, null, "small-unmanned-flush", 1, 0), "2026-05-02", "campaign:C1");
        for (var i = 1; i <= 6; i++)
        {
            yield return Make.Registered("M" + i, "1" + i, "microphone", ("size-mm", 12.7), ("response-type", "pressure"));
            yield return Make.Certificate("M" + i, "2026-03-01", -38.06);
            yield return Make.Registered("P" + i, "2" + i, "preamplifier");
            yield return Make.Certificate("P" + i, "2026-02-01", -0.1, 0.04, "gain", "dB");
            yield return Make.Registered("R" + i, "3" + i, "recorder-channel");
            yield return Make.Certificate("R" + i, "2026-02-01", 0.003, 0.04, "gain", "dB");
            yield return Make.Of(new StationPlanned("S" + i, 40 + (i * 0.001), -8, Mount.FlushPlate, null), "2026-05-02", "campaign:C1");
            yield return Make.Of(new ChainPlanned("S" + i, ["M" + i, "P" + i, "R" + i]), "2026-05-03", "campaign:C1", "device:M" + i, "device:P" + i, "device:R" + i);
        }
        yield return Make.Registered("K1", "51", "sound-calibrator", ("calibrator-class", "1"), ("pressure-law", "adiabatic"));
        yield return Make.Certificate("K1", "2026-01-05", 124.00, 0.1, "level", "dB");
        yield return Make.Registered("A1", "71", "calibration-adapter");
    }
}

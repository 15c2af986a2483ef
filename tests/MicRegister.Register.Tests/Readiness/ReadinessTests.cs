using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Settings;

namespace MicRegister.Register.Tests.Readiness;

public sealed class ReadinessTests
{
    private static readonly DateOnly Today = Make.Day("2026-06-01");

    [Fact]
    public void A_sound_campaign_is_ready_and_only_notes_that_its_profile_is_unchecked()
    {
        var report = Judge(Sound());

        Assert.Equal(ReadinessVerdict.Ready, report.Verdict);
        Assert.Equal("profile", Assert.Single(report.Findings).Rule);
        Assert.All(report.Stations, s => Assert.Equal(ReadinessVerdict.Ready, s.Verdict));
        Assert.InRange(report.ArrayProbability, 0.85, 1); // one result a device: what is assumed of any drift decides
        Assert.Equal(1, report.UsableSpares);
    }

    public static TheoryData<string, string> Cases() => [.. Table().Select((c, i) => (c.Rule, i + ": " + c.What))];

    /// <summary>Each rule finds what it is for and, with one thing wrong, nothing else is found.</summary>
    [Theory]
    [MemberData(nameof(Cases))]
    public void One_thing_wrong_gives_one_finding(string rule, string what)
    {
        var wrong = Table()[int.Parse(what.Split(':')[0], System.Globalization.CultureInfo.InvariantCulture)];

        var report = Judge([.. Sound(), .. wrong.Facts]);

        // A spare that is marred is one that goes along for nothing.
        var findings = report.Findings.Where(f => f.Rule is not ("profile" or "array" or "spares") || f.Rule == rule).ToList();
        Assert.All(findings, f => Assert.Equal((rule, wrong.Gravity), (f.Rule, f.Gravity)));
        Assert.NotEmpty(findings);
        Assert.Contains(findings, f => f.Text.Contains(wrong.Says, StringComparison.Ordinal));
        if (wrong.Bites is { } day) Assert.Contains(findings, f => f.BitesOn == Make.Day(day));
        Assert.NotNull(ReadinessRules.Find(rule));
    }

    [Fact]
    public void Every_rule_has_a_case()
    {
        var covered = Table().Select(c => c.Rule).ToHashSet();
        Assert.All(ReadinessRules.All, r => Assert.Contains(r.Key, covered));
    }

    [Fact]
    public void Gravity_decides_the_verdict()
    {
        Assert.Equal(ReadinessVerdict.NotReady, Judge([.. Sound(), Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", "device:M1")]).Verdict);
        Assert.Equal(ReadinessVerdict.AtRisk, Judge([.. Sound(), Make.Of(new DeviceStatusChanged(DeviceStatus.Away, null), "2026-05-01", "device:M1")]).Verdict);
        Assert.Equal(ReadinessVerdict.Undecided, Judge([.. Sound(), Make.Newer("M1")]).Verdict);
    }

    [Fact]
    public void What_happened_after_the_day_is_not_used()
    {
        var later = Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-06-02", "device:M1");

        Assert.Equal(ReadinessVerdict.Ready, Judge([.. Sound(), later]).Verdict);
        Assert.Null(CampaignReadiness.Judge(FactList.RegisterOf(Sound()), "C1", Make.Day("2019-01-01")));
    }

    // 20 + 2·4 days before 1 July is 3 June (the settings' defaults); with 60 days in the laboratory it is 24 April, which is past.
    [Fact]
    public void Latest_start_counts_back_from_the_first_day()
    {
        Fact late = Make.Of(new DeviceDescribed(Make.Details(("interval-months", 1)), []), "2026-05-01", "device:M1");
        var found = Judge([.. Sound(), late]).Findings.Single(f => f.Rule == "due");
        Assert.Equal((Make.Day("2026-06-03"), false), (found.LatestStart!.Value, found.IsTooLate));

        var slow = Make.Of(new SettingsChosen(60, 4, 2, 1), "2026-01-01", Subject.TheRegister);
        found = Judge([.. Sound(), late, slow]).Findings.Single(f => f.Rule == "due");
        Assert.Equal((Make.Day("2026-04-24"), true), (found.LatestStart!.Value, found.IsTooLate));
    }

    // 14 CFR 36 A36.3.9.2 and .7 as paraphrased: 90 days inclusive and six calendar months, both to the first day of the series.
    [Theory]
    [InlineData("2026-04-02", "2026-01-01", 0)] // day 90 is 1 July
    [InlineData("2026-04-01", "2026-01-01", 1)]
    [InlineData("2026-04-02", "2025-12-31", 1)] // six months end on 30 June, one day short
    public void Transport_aeroplanes_count_their_intervals_to_the_first_day(string response, string calibrator, int expected)
    {
        List<Fact> facts =
        [
            .. Sound("transport-1200mm", Mount.GroundStand),
            .. Enumerable.Range(1, 4).Select(i => Make.Certificate("M" + i, response, 0, null, "response", "dB")),
            .. Enumerable.Range(1, 4).Select(i => Make.Of(new DeviceDescribed(Make.Details(("response-type", "free-field")), []), "2026-05-01", "device:M" + i)),
            Make.Annulling(Make.Certificate("K1", "2026-01-05", 114.01, 0.1, "level", "dB")),
            Make.Certificate("K1", calibrator, 114.01, 0.1, "level", "dB"),
        ];

        Assert.Equal(expected, Judge(facts).Findings.Where(f => f.Rule == "due").DistinctBy(f => (f.Device![0], f.Rule)).Count());
    }

    [Fact]
    public void A_plan_that_names_a_joined_entry_means_the_one_that_was_kept()
    {
        Fact[] more = [Make.Registered("M9", "011"), Make.Of(new DevicesJoined("M1", "M9", "leading zero"), "2026-05-01", "device:M1", "device:M9"), Chain("S1", "M9", "P1", "R1", "G1")];

        Assert.Equal(ReadinessVerdict.Ready, Judge([.. Sound(), .. more]).Verdict);
        var twice = Judge([.. Sound(), .. more, Chain("S2", "M1", "P2", "R2", "G2")]).Findings.Where(f => f.Rule == "double-booked");
        Assert.Equal(["S1", "S2"], twice.Select(f => f.Station));
    }

    [Fact]
    public void A_pressure_type_serves_on_a_stand_and_a_free_field_type_too()
    {
        foreach (var type in new[] { "pressure", "free-field" })
        {
            var facts = Sound("engineering-practice", Mount.GroundStand).Append(Described("M1", ("response-type", type)));
            Assert.DoesNotContain(Judge(facts).Findings, f => f.Rule == "response-type");
        }
    }

    [Fact]
    public void A_calibrator_of_two_levels_is_compared_level_by_level()
    {
        Fact[] more = [Make.Certificate("K1", "2026-01-06", 94.00, 0.1, "level", "dB")];

        Assert.DoesNotContain(Judge([.. Sound(), .. more]).Findings, f => f.Rule == "calibrator-step");
    }

    [Fact]
    public void A_users_own_profile_takes_the_place_of_a_built_in_one()
    {
        var own = Make.Of(new ProfileWritten("Own", "", [new(LimitKey.SpareShare, 3, null, "own", "own")]), "2026-01-01", "profile:small-unmanned-flush");
        var confirmed = Make.Of(new ProfileConfirmed("2026", null), "2026-01-02", "profile:small-unmanned-flush");

        var report = Judge([.. Sound(), own, confirmed]);

        Assert.Equal("spares", Assert.Single(report.Findings).Rule);
    }

    internal static ReadinessReport Judge(IEnumerable<Fact> facts) => CampaignReadiness.Judge(FactList.RegisterOf(facts).WithCurves(Curved.Read), "C1", Today)!;

    private static Fact Own(ProfileLimit limit) =>
        Make.Of(new ProfileWritten("Own", "", [limit]), "2026-01-01", "profile:small-unmanned-flush");

    private sealed record Wrong(string Rule, Gravity Gravity, string What, string Says, Fact[] Facts, string? Bites = null);

    internal static Fact Described(string device, params (string, object)[] details) =>
        Make.Of(new DeviceDescribed(Make.Details(details), []), "2026-05-01", "device:" + device);

    internal static Fact Plan(
        string profile = "small-unmanned-flush", double altitude = 120, SourceClass source = SourceClass.SmallMultirotor,
        double high = 10000, string from = "2026-05-02", double? loudest = 120) =>
        Make.Of(new CampaignPlanned("Trial", new(2026, 7, 1), new(2026, 7, 10), "Zone/Site", [], "Field", altitude, source, 50, high, 40, loudest, profile, 1, null), from, "campaign:C1");

    // The profile with limits in words beside its own, and without its least class of calibrators.
    private static Fact Limits(params (string Key, string Text)[] limits)
    {
        var own = BuiltInProfiles.Find("small-unmanned-flush")!.Written;
        var kept = own.Limits.Where(l => l.Key != LimitKey.CalibratorClassLeast);
        return Make.Of(
            own with { Limits = [.. kept, .. limits.Select(l => new ProfileLimit(l.Key, null, l.Text, "invented", "own"))] },
            "2026-05-01", Subject.Profile("small-unmanned-flush"));
    }

    private static Fact Chain(string station, params string[] devices) =>
        Make.Of(new ChainPlanned(station, devices), "2026-05-03", ["campaign:C1", .. devices.Select(d => "device:" + d)]);

    private static Fact Kit(KitPurpose purpose, params string[] devices) =>
        Make.Of(new KitPlanned(purpose, devices), "2026-05-03", ["campaign:C1", .. devices.Select(d => "device:" + d)]);

    // A windscreen at S1 whose certificates hold one figure each.
    private static Fact[] Screened(string plate, double levelDb) =>
    [
        Make.Registered("W1", "801", "windscreen"), Make.Certificate("W1", "2025-12-01", levelDb, 0.04, "insertion-loss", "dB"),
        Make.Certificate("W1", "2026-05-01", levelDb, 0.04, "insertion-loss", "dB"),
        Make.Of(new ChainPlanned("S1", ["M1", "P1", "R1", plate, "W1"]), "2026-05-05", ["campaign:C1", "device:W1"]),
    ];

    private static Fact AlsoAsked(string key, double value)
    {
        var usual = BuiltInProfiles.Find("small-unmanned-flush")!.Written;
        return Make.Of(usual with { Limits = [.. usual.Limits, new(key, value, null, "own", "own")] }, "2026-01-01", "profile:small-unmanned-flush");
    }

    private static Fact Station(int i, Mount mount, string day = "2026-05-02", double? height = null) =>
        Make.Of(new StationPlanned("S" + i, 40 + (i * 0.001), -8, mount, height), day, "campaign:C1");

    private static Fact Inspection(string plate, string day, bool passed = true, double step = 0.05, double? flat = 0.2) =>
        Make.Of(new DeviceInspected(passed, step, null, flat, passed ? null : "dented"), day, "device:" + plate);

    /// <summary>Three stations flush in plates, a spare, a calibrator, an adapter and a barometer; five quiet results each.</summary>
    internal static IEnumerable<Fact> Sound(string profile = "small-unmanned-flush", Mount mount = Mount.FlushPlate)
    {
        yield return Plan(profile);
        for (var i = 1; i <= 4; i++)
        {
            yield return Make.Registered("M" + i, "1" + i, "microphone",
                ("size-mm", 12.7), ("response-type", "pressure"), ("polarisation-v", 0), ("lowest-hz", 10), ("highest-hz", 20000), ("highest-level-db", 140), ("noise-floor-db", 20));
            for (var year = 2022; year <= 2026; year++) yield return Make.Certificate("M" + i, $"{year}-03-0{i}", -38.06 + (0.005 * ((year + i) % 2)));
            if (i == 4) continue;
            yield return Make.Registered("P" + i, "2" + i, "preamplifier", ("size-mm", 12.7), ("polarisation-v", 0), ("powering", "constant-current"), ("connector", "round"));
            yield return Make.Certificate("P" + i, "2026-02-01", -0.1, 0.04, "gain", "dB");
            yield return Make.Registered("R" + i, "3" + i, "recorder-channel", ("powering", "constant-current"), ("connector", "round"));
            yield return Make.Certificate("R" + i, "2026-02-01", 0, 0.04, "gain", "dB");
            yield return Make.Registered("G" + i, "4" + i, "ground-plate", ("diameter-mm", 400), ("thickness-mm", 5), ("material", "aluminium"), ("fits-mm", 12.7), ("plate-style", "flush"));
            yield return Inspection("G" + i, "2026-03-01");
            yield return Station(i, mount);
            yield return Chain("S" + i, "M" + i, "P" + i, "R" + i, "G" + i);
        }
        yield return Make.Registered("K1", "51", "sound-calibrator", ("calibrator-class", "1"), ("pressure-law", "adiabatic"), ("fits-mm", 12.7));
        yield return Make.Certificate("K1", "2025-06-20", 114.00, 0.1, "level", "dB");
        yield return Make.Certificate("K1", "2026-01-05", 114.01, 0.1, "level", "dB");
        yield return Make.Registered("B1", "61", "barometer");
        yield return Make.Certificate("B1", "2026-02-01", 101.3, 0.1, "static-pressure", "kPa");
        yield return Kit(KitPurpose.Spare, "M4");
        yield return Kit(KitPurpose.Check, "K1", "B1");
    }

    private static List<Wrong> Table() =>
    [
        new("newer-facts", Gravity.Risks, "newer kind", "newer version", [Make.Newer("M1")]),
        new("not-registered", Gravity.Stops, "unknown plate", "does not know", [Chain("S1", "M1", "P1", "R1", "G1", "ZZ")]),
        new("contradiction", Gravity.Risks, "two registrations", "disagree", [Make.Of(new DeviceRegistered("microphone", "Maker", "Model", "11", Make.Details(("size-mm", 6.35))), "2021-01-01", "device:M1")]),
        new("unfit", Gravity.Stops, "lost", "is lost: gone", [Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, "gone"), "2026-05-01", "device:M1")]),
        new("unfit", Gravity.Risks, "a lost spare", "is lost", [Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", "device:M4")]),
        new("unfit", Gravity.Risks, "away", "is away", [Make.Of(new DeviceStatusChanged(DeviceStatus.Away, null), "2026-05-01", "device:P1")]),
        new("double-booked", Gravity.Stops, "twice here", "at S1 and S2", [Chain("S2", "M1", "P2", "R2", "G2")]),
        new("double-booked", Gravity.Stops, "elsewhere as well", "Other as well", [
            Make.Of(new CampaignPlanned("Other", new(2026, 7, 5), new(2026, 7, 20), "Zone/Site", [], "Hill", 10, SourceClass.Jet, 50, 1000, null, null, "engineering-practice", 0, null), "2026-05-01", "campaign:C2"),
            Make.Of(new ChainPlanned("T1", ["M2"]), "2026-05-01", "campaign:C2", "device:M2")], "2026-07-05"),
        new("double-booked", Gravity.Risks, "at a station and among the spares", "goes along as a spare", [Make.Of(new KitPlanned(KitPurpose.Spare, ["M4", "M1"]), "2026-05-05", "campaign:C1", "device:M4", "device:M1")]),
        new("change-in-bands", Gravity.Risks, "no curve", "the certificate of 2026-05-01 holds no curve (own)", [
            .. Screened("G1", 0.2), AlsoAsked(CertificateLimits.ChangeInBands + "windscreen/insertion-loss", 0.4)]),
        new("greatest-error", Gravity.Stops, "half a decibel", "is +0.500 dB off its nominal 20 dB; at most 0.1 dB", [
            Make.Registered("A1", "901", "attenuator", ("gain-db", -20)), Make.Certificate("A1", "2026-05-01", 20.5, 0.04, "attenuation", "dB"),
            Make.Of(new KitPlanned(KitPurpose.Check, ["K1", "B1", "A1"]), "2026-05-05", "campaign:C1", "device:A1"), AlsoAsked(CertificateLimits.GreatestError + "attenuator/attenuation", 0.1)]),
        new("no-uncertainty", Gravity.Risks, "newest without", "certificate in use, of 2026-05-01", [Make.Certificate("P1", "2026-05-01", -0.1, null, "gain", "dB")]),
        new("plate-geometry", Gravity.Note, "not measured", "was not measured", [Make.Of(new DeviceInspected(true, null, null, 0.2, null), "2026-05-01", "device:G1")]),
        new("chain-incomplete", Gravity.Stops, "no plate", "no ground plate", [Chain("S1", "M1", "P1", "R1")]),
        new("never-calibrated", Gravity.Stops, "channel", "has no gain calibration", [Make.Annulling(Make.Certificate("R1", "2026-02-01", 0, 0.04, "gain", "dB"))]),
        new("due", Gravity.Stops, "own interval", "valid through 2026-07-01 (own interval: 4 months)", [Described("M1", ("interval-months", 4))], "2026-07-02"),
        new("due", Gravity.Stops, "stated on the certificate", "stated on the certificate", [Make.Of(Make.Issued(-38.06) with { DueDay = new(2026, 7, 4) }, "2026-04-01", "device:M1")], "2026-07-05"),
        new("no-uncertainty", Gravity.Risks, "channel", "states an uncertainty", [Make.Annulling(Make.Certificate("R1", "2026-02-01", 0, 0.04, "gain", "dB")), Make.Certificate("R1", "2026-02-02", 0, null, "gain", "dB")]),
        // One result with U = 0.4 dB: u = 0.2, limit 0.3: 2 Phi(1.5) - 1 = 0.866 (R 4.2) if results scatter as stated; that they may scatter more takes it to 0.79.
        new("forecast", Gravity.Risks, "coarse certificate", "with probability 0.79", [Make.Annulling(Make.Certificate("R1", "2026-02-01", 0, 0.04, "gain", "dB")), Make.Certificate("R1", "2026-02-02", 0, 0.4, "gain", "dB")], "2026-07-01"),
        new("begun-anew", Gravity.Stops, "new diaphragm after its certificate", "begin anew with the work of 2026-05-20 (new diaphragm)", [Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2026-05-20", "device:M1")]),
        new("step", Gravity.Risks, "moved 0.7 dB", "Nobody has looked at it yet", [Make.Certificate("P2", "2026-05-01", 0.6, 0.04, "gain", "dB"), Make.Certificate("P2", "2026-05-02", 0.6, 0.04, "gain", "dB"), Make.Certificate("P2", "2026-05-03", 0.6, 0.04, "gain", "dB"), Make.Certificate("P2", "2024-02-01", -0.1, 0.04, "gain", "dB"), Make.Certificate("P2", "2025-02-01", -0.1, 0.04, "gain", "dB")]),
        new("set-parted", Gravity.Stops, "with another preamplifier", "is not in the same chain", [Make.Of(Make.Issued(-38.06) with { FrequencyHz = 250 }, "2026-04-01", "device:M1", "device:P2")]),
        new("response-type", Gravity.Stops, "free field in a plate", "is a free-field type", [Described("M1", ("response-type", "free-field"))]),
        new("response-type", Gravity.Risks, "unknown", "is not known", [Make.Of(new DeviceDescribed([], ["response-type"]), "2026-05-01", "device:M1")]),
        new("frequency-range", Gravity.Stops, "narrow", "wanted from 50 Hz to 10000 Hz", [Described("M1", ("highest-hz", 9999))]),
        new("frequency-range", Gravity.Note, "unknown", "is not known", [Make.Of(new DeviceDescribed([], ["highest-hz"]), "2026-05-01", "device:M1")]),
        new("response-limits", Gravity.Risks, "none stored", "no response curve is stored, so that it cannot be held against IEC 61672-1:2013 class 1", [
            Curved.Asking("small-unmanned-flush", (LimitKey.ResponseClass, Curved.Class1))]),
        // 1.25 dB at 1 kHz; class 1 allows 0.7 dB (IEC 61672-1:2013, table 3).
        new("response-limits", Gravity.Stops, "too high at 1 kHz", "class 1 (own) by 0.55 dB at 1 kHz.", [
            Curved.Asking("small-unmanned-flush", (LimitKey.ResponseClass, Curved.Class1)),
            Curved.Certified("M1", Curved.High), Curved.Certified("M2", Curved.Flat), Curved.Certified("M3", Curved.Flat)]),
        // 0.75 dB at 30° and 1 kHz; 0.5 dB are allowed (IEC 61265:1995, table 1).
        new("response-by-angle", Gravity.Stops, "uneven", "IEC 61265:1995 (own) by 0.25 dB at 1 kHz and 30°.", [
            Curved.Asking("small-unmanned-flush", (LimitKey.ResponseByAngle, "IEC 61265:1995")), Curved.Certified("M1", Curved.Uneven, "free-field"),
            Curved.Certified("M2", Curved.Even, "free-field"), Curved.Certified("M3", Curved.Even, "free-field")]),
        new("response-by-angle", Gravity.Note, "none stored", "no curves by angle are stored", [
            Curved.Asking("small-unmanned-flush", (LimitKey.ResponseByAngle, "IEC 61265:1995"))]),
        new("mount", Gravity.Stops, "not allowed", "the profile allows flush in a ground plate",
            [Station(1, Mount.Pole, "2026-05-05"), Described("M1", ("response-type", "free-field"))]),
        // 2.5 mm above the plate: 1 dB is lost at 3642 Hz · 7 / 2.5 = 10.2 kHz; 3 mm: 8.5 kHz (image source, by hand).
        new("mount", Gravity.Risks, "raised", "usable from 0 Hz to 8498 Hz", [Station(1, Mount.FlushPlate, "2026-05-05", 0.003)]),
        new("highest-level", Gravity.Stops, "jet nearby", "takes 140 dB; 137.1 dB are expected", [Plan(loudest: 137.1, from: "2026-05-05")]),
        new("noise-floor", Gravity.Risks, "noisy", "noise floor of 30.1 dB", [Described("M1", ("noise-floor-db", 30.1))]),
        new("parts-fit", Gravity.Stops, "quarter inch", "6.35 mm preamplifier", [Described("P1", ("size-mm", 6.35))]),
        new("parts-fit", Gravity.Stops, "polarisation", "wants 200 V", [Described("M1", ("polarisation-v", 200))]),
        new("parts-fit", Gravity.Stops, "powering", "the channel gives high-voltage", [Described("R1", ("powering", "high-voltage"))]),
        new("parts-fit", Gravity.Stops, "connector", "connector round", [Described("R1", ("connector", "square"))]),
        new("parts-fit", Gravity.Stops, "bore", "holds a 6.35 mm capsule", [Described("G1", ("fits-mm", 6.35))]),
        new("parts-fit", Gravity.Stops, "style", "made for inverted mounting", [Described("G1", ("plate-style", "inverted"))]),
        new("plate-inspection", Gravity.Risks, "long ago", "valid through 2026-07-02", [Make.Annulling(Inspection("G1", "2026-03-01")), Inspection("G1", "2025-07-02")], "2026-07-03"),
        new("plate-inspection", Gravity.Risks, "never", "was never inspected", [Make.Annulling(Inspection("G1", "2026-03-01"))]),
        new("plate-inspection", Gravity.Stops, "failed", "failed its inspection of 2026-05-01: dented", [Inspection("G1", "2026-05-01", false)]),
        new("plate-geometry", Gravity.Stops, "proud", "0.3 mm proud of its surface; at most 0.2 mm", [Inspection("G1", "2026-05-01", step: 0.3)]),
        new("plate-geometry", Gravity.Stops, "bent", "1.5 mm out of flat", [Inspection("G1", "2026-05-01", flat: 1.5)]),
        new("plates-alike", Gravity.Risks, "plywood", "has material plywood; 2 of 3", [Described("G1", ("material", "plywood"))]),
        new("no-calibrator", Gravity.Stops, "left at home", "No sound calibrator", [Make.Of(new KitPlanned(KitPurpose.Check, ["B1"]), "2026-05-05", "campaign:C1", "device:B1")]),
        new("calibrator-class", Gravity.Stops, "class 2", "is of class 2", [Described("K1", ("calibrator-class", "2"))]),
        new("calibrator-class", Gravity.Risks, "unknown", "is not known", [Make.Of(new DeviceDescribed([], ["calibrator-class"]), "2026-05-01", "device:K1")]),
        new("calibrator-class", Gravity.Risks, "none that is known", "is of class 'A'; the profile asks for at least class 1 of IEC 942:1988",
            [Described("K1", ("calibrator-class", "A"))]),
        new("calibrator-class", Gravity.Stops, "a list of an earlier release", "is of class 1L; the profile allows 1, 1/C",
            [Described("K1", ("calibrator-class", "1L")), Limits((LimitKey.CalibratorClasses, "1, 1/C"))]),
        new("calibrator-class", Gravity.Note, "own reading", "tighter class, of IEC 942:1988: own reading",
            [Described("K1", ("calibrator-class", "0")), Limits((LimitKey.CalibratorClassLeast, "IEC 60942:1997 1L or later"))]),
        // 114.01 dB beside 113.75 dB: 0.26 dB, and class 1 of 2017 allows 0.25 dB.
        new("calibrator-limits", Gravity.Risks, "0.01 dB beyond", "class 1 of IEC 60942:2017 allows 0.25 dB with U of at most 0.15 dB: it does not keep",
            [Described("K1", ("calibrator-class", "1"), ("calibrator-edition", "2017"), ("nominal-level-db", 113.75), ("frequency-hz", 250))]),
        new("calibrator-limits", Gravity.Note, "U 0.16 dB", "with U = 0.16 dB", [
            Described("K1", ("calibrator-class", "1"), ("calibrator-edition", "2017"), ("nominal-level-db", 114), ("frequency-hz", 250)),
            Make.Certificate("K1", "2026-05-01", 114.01, 0.16, "level", "dB")]),
        new("instrument-class", Gravity.Stops, "type 2", "is of type 2 of IEC 651:1979; the profile asks for at least type 1 of IEC 651:1979",
            [Described("R1", ("meter-class", "type 2 of IEC 651:1979")), Limits((LimitKey.MeterClassLeast, "IEC 651:1979 1"))]),
        new("instrument-class", Gravity.Risks, "another standard", "are different standards, which are not compared here",
            [Described("R1", ("meter-class", "class 1 of IEC 61672-1:2013")), Limits((LimitKey.MeterClassLeast, "IEC 651:1979 1"))]),
        new("instrument-class", Gravity.Stops, "filters", "is of class 2 of IEC 61260:1995",
            [Described("R1", ("filter-class", "class 2 of IEC 61260:1995")), Limits((LimitKey.FilterClassLeast, "IEC 61260:1995 1"))]),
        new("calibrator-step", Gravity.Stops, "0.21 dB", "changed by +0.210 dB", [Make.Certificate("K1", "2026-05-01", 114.22, 0.1, "level", "dB")]),
        new("level-uncertainty", Gravity.Risks, "no U", "states no uncertainty", [Make.Certificate("K1", "2026-05-01", 114.01, null, "level", "dB")]),
        new("calibrator-fit", Gravity.Stops, "no adapter", "fits a 12.7 mm capsule", [Described("K1", ("fits-mm", 25.4))]),
        new("altitude-range", Gravity.Stops, "beyond the air", "An altitude of 12000 m cannot be", [Plan(altitude: 12_000, from: "2026-05-05")]),
        new("one-day-twice", Gravity.Risks, "two of a day", "has two level certificates of 2026-01-05; the one entered last is in force, the other says", [Make.Certificate("K1", "2026-01-05", 114.11, 0.1, "level", "dB")]),
        new("altitude", Gravity.Stops, "mountain", "holds from 65 kPa", [Plan(altitude: 4000, from: "2026-05-05")]),
        new("altitude", Gravity.Risks, "law unknown", "is not known; a pistonphone would change", [Make.Of(new DeviceDescribed([], ["pressure-law"]), "2026-05-01", "device:K1")]),
        new("barometer", Gravity.Risks, "left at home", "follows static pressure, and no barometer tells it", [Make.Of(new KitPlanned(KitPurpose.Check, ["K1"]), "2026-05-05", "campaign:C1", "device:K1")]),
        new("check", Gravity.Risks, "moved in a day", "+0.400 dB since the check before (limit 0.3 dB)", [
            Make.Of(Make.Check("S1", CheckMoment.Before, -0.2, "M1"), "2026-05-20", "campaign:C1", "device:M1"), Make.Of(Make.Check("S1", CheckMoment.After, 0.2, "M1"), "2026-05-20", 1, "campaign:C1", "device:M1")]),
        new("check", Gravity.Stops, "far from its certificates", "−0.400 dB from its certificates (limit 0.3 dB)", [Make.Of(Make.Check("S1",
            CheckMoment.Other, -0.4, "M1"), "2026-05-20", "campaign:C1", "device:M1")]),
        new("check-clock", Gravity.Note, "every hour", "8 h of testing take 9 checks a chain", [
            Own(new(LimitKey.CheckIntervalMinutes, 60, null, "own", "own"))]),
        new("check-air", Gravity.Note, "no coefficient", "maker's coefficient of temperature of", [
            Own(new(LimitKey.CheckAir, null, "temperature", "own", "own"))]),
        new("check-unsound", Gravity.Risks, "no budget", "cannot be worked with", [Make.Of(Make.Check("S1", CheckMoment.Other, 0, "M1") with { Budget = [] }, "2026-05-20", "campaign:C1", "device:M1")]),
        new("check-missing", Gravity.Risks, "none after", "On 2026-05-20 the chain was not checked after", [Make.Of(Make.Check("S1", CheckMoment.Before, 0, "M1"), "2026-05-20", "campaign:C1", "device:M1")]),
        new("spares", Gravity.Risks, "none", "0 spare microphones", [Make.Of(new KitPlanned(KitPurpose.Spare, []), "2026-05-05", "campaign:C1")]),
        new("profile", Gravity.Stops, "unknown", "is not known", [Plan("nowhere", from: "2026-05-05")]),
    ];
}

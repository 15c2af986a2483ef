using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>What stops a plan makes what was recorded not valid, rule by rule, where it stood as it was planned.</summary>
public sealed class PlannedAndStoodTests
{
    private const int Campaigns = 500;
    private const int LeastFired = 20;

    // Judged as of the day of the event, which is the campaign's last: all rules of an instant look at the same.
    private static readonly DateOnly Today = new(2026, 6, 10);

    [Fact]
    public void Of_random_campaigns_each_shared_rule_stops_the_plan_where_it_makes_the_result_not_valid()
    {
        var rules = ReadinessRules.All.Where(r => r.Scope == RuleScope.Instant)
            .Select(r => (r.Key, Asked: TraceQuestions.All.Single(q => q.Key == r.Key))).ToList();
        var fired = rules.ToDictionary(r => r.Key, _ => (Stops: 0, Risks: 0));
        var wrong = new List<string>();
        var said = new Dictionary<string, int>();
        for (var seed = 1; seed <= Campaigns; seed++)
        {
            var register = Heath.With(Random(new Random(seed))).WithCurves(sha => Curve(sha) ?? Curved.Read(sha));
            var findings = CampaignReadiness.Judge(register, Heath.C, Today)!.Findings;
            foreach (var chain in Tracer.Chains(Tracer.ContextOf(register, "E1")!))
            {
                var isStopped = false;
                foreach (var (key, asked) in rules)
                {
                    var planned = Planned(findings, key, chain);
                    // What is said without weight is a note of the plan.
                    var stood = asked.Ask(chain).Where(r => r.Weight != TraceVerdict.Valid).Select(r => (r.Weight, Text: key == "altitude" ? Compared(r.Text) : r.Text)).Distinct().Order().ToList();
                    if (!planned.SequenceEqual(stood))
                        wrong.Add($"seed {seed}, {chain.Station}, {key}: {string.Join(" / ", planned)} and {string.Join(" / ", stood)}");
                    var stops = stood.Count(r => r.Weight == TraceVerdict.NotValid);
                    fired[key] = (fired[key].Stops + stops, fired[key].Risks + stood.Count - stops);
                    isStopped |= stops > 0;
                    foreach (var words in Screened.Where(w => stood.Any(r => r.Text.Contains(w, StringComparison.Ordinal))))
                        said[words] = said.GetValueOrDefault(words) + 1;
                }
                var verdict = Tracer.Of(register, "E1", chain.Station)!.Stations.Single().Verdict;
                if (isStopped && verdict != TraceVerdict.NotValid) wrong.Add($"seed {seed}, {chain.Station}: stopped and {verdict}");
            }
        }

        Assert.All(Screened, w => Assert.True(said.GetValueOrDefault(w) >= LeastFired, $"'{w}' was said {said.GetValueOrDefault(w)} times only"));
        var counts = fired.Select(f => $"{f.Key}: stops {f.Value.Stops}, risks {f.Value.Risks}");
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join('\n', counts));
        Assert.True(wrong.Count == 0, $"{wrong.Count} of them\n" + string.Join('\n', wrong.Take(10)));
        Assert.All(fired, f => Assert.True(f.Value.Stops + f.Value.Risks >= LeastFired, $"{f.Key} fired {f.Value} times only"));
    }

    /// <summary>What is said of windscreens, attenuators and intervals that count both ways, each of which must come often enough.</summary>
    private static readonly string[] Screened =
    [
        "in each third-octave band (", "holds no curve", "cannot be read here", "not both curves have a value there", "it cannot be decided",
        "measured in another way", "is unread", "off its nominal", "One made afterwards, through", "would serve too, once an inspection",
        "serve no more: it was inspected", "serve no more since", "lets its maker's data serve through",
    ];

    // Curves by the last digit of their name: as before, changed at one band, without a band, without an uncertainty; none of those with 9.
    private static IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Curve(string sha) => sha[^1] switch
    {
        '9' => null,
        '1' => [(null, Screens.Flat(0.2, 0.1, (1000, 0.7)))],
        '2' => [(null, new([.. Screens.Flat().Points.Where(p => p.Hz > 60)]))],
        '3' => [(null, Screens.Flat(0.2, null))],
        '4' => [(null, Screens.Flat(0.2, 0.1, (4000, 0.55)))],
        _ => [(null, Screens.Flat())],
    };

    // Where a pressure comes from is said in other words: at the plan it is the altitude's, at a check it was read.
    private static string Compared(string text) => text.Split(';', ',')[0];

    // What the plan says of a station, or of what its chain is checked with, in the trace's words.
    private static List<(TraceVerdict Weight, string Text)> Planned(IReadOnlyList<Finding> findings, string rule, TracedChain chain)
    {
        var kit = chain.CheckKit.ToHashSet();
        return [.. findings
            .Where(f => f.Rule == rule && f.Gravity > Gravity.Note
                && (f.Station == chain.Station || (f.Station is null && (f.Device is not { } id || kit.Contains(id)))))
            .Select(f => (f.Gravity == Gravity.Stops ? TraceVerdict.NotValid : TraceVerdict.Doubtful, rule == "altitude" ? Compared(f.Text) : f.Text)).Distinct().Order()];
    }

    // A microphone that was out of service before, one that was put aside after the event, and one put right in between.
    [Theory]
    [InlineData("2026-06-01", null, true)]
    [InlineData("2026-06-01", "2026-06-02", false)]
    [InlineData("2026-06-03", null, false)]
    public void A_device_counts_as_it_was_on_the_day(string outOfService, string? backInService, bool isNotValid)
    {
        Fact Status(DeviceStatus status, string day) => Make.Of(new DeviceStatusChanged(status, null), day, "device:M1");
        List<Fact> facts = [.. Heath.Flight(), Status(DeviceStatus.OutOfService, outOfService)];
        if (backInService is { } day) facts.Add(Status(DeviceStatus.InService, day));

        var trace = Heath.One(Heath.With([.. facts]));

        Assert.Equal(isNotValid ? TraceVerdict.NotValid : TraceVerdict.Valid, trace.Verdict);
        Assert.Equal(isNotValid, trace.Reasons.Any(r => r.Text.Contains("is out of service", StringComparison.Ordinal)));
    }

    // On the day itself: said at 09:59 it was out of service at 10:00, said at 10:02 it was not.
    [Theory]
    [InlineData("06-02 09:59", true)]
    [InlineData("06-02 10:02", false)]
    public void On_the_day_itself_the_instant_counts(string at, bool isNotValid)
    {
        var lost = Heath.Said(at, 9, new DeviceStatusChanged(DeviceStatus.OutOfService, null), ["device:M1"]);

        Assert.Equal(isNotValid, Heath.One(Heath.With([.. Heath.Flight(), lost])).Verdict == TraceVerdict.NotValid);
    }

    [Fact]
    public void The_usable_band_ends_where_the_capsule_does()
    {
        var applied = Heath.One(Heath.With([.. Heath.Flight(), Heath.Described("M1", ("lowest-hz", 12), ("highest-hz", 12_500))])).Applied!;
        Assert.Equal((12, 12_500), (applied.UsableFromHz, applied.UsableToHz));
        Assert.Null(applied.Caution);

        // What is not known of it is said.
        var unknown = Make.Of(new DeviceDescribed([], ["highest-hz"]), "2026-05-02", "device:M1");
        applied = Heath.One(Heath.With([.. Heath.Flight(), unknown])).Applied!;
        Assert.Equal(20_000, applied.UsableToHz, 1e-9);
        Assert.Contains("How high the microphone reaches is not known", applied.Caution, StringComparison.Ordinal);
    }

    private static Fact[] Random(Random random)
    {
        bool Sometimes(double share = 0.25) => random.NextDouble() < share;
        T One<T>(params T[] of) => of[random.Next(of.Length)];
        var hasBarometer = Sometimes(0.5);
        // The standard pressure of the site's 320 m, as readiness takes it, was read there, or estimated without a barometer.
        StatedAir air = new(StandardAtmosphere.PressureKPa(320), null, null);
        Fact Checked(Fact f) => FactText.WriteDerived(
            new(f.Occurred, "P1", "phone-1.ABCD", 3), (ChainChecked)f.Body with { PressureIsEstimated = !hasBarometer }, f.Subjects);
        var hasAttenuators = Sometimes(0.3);
        var known = hasAttenuators ? Heath.With([.. new[] { "1", "2", "3" }.Select(n => Make.Registered("A" + n, "80" + n, "attenuator"))]) : null;
        var facts = new List<Fact>
        {
            Heath.Planned(Sometimes() ? 128 : null, Sometimes() ? 30 : null, altitudeM: 320), Rules(),
            Make.Registered("B1", "701", "barometer"),
            Make.Of(new KitPlanned(KitPurpose.Check, hasBarometer ? ["K1", "B1"] : ["K1"]), "2026-05-03", Subject.Campaign(Heath.C), "device:K1"),
            Heath.Event("E1", "06-10 10:00", "06-10 10:01"),
        };
        foreach (var n in new[] { "1", "2", "3" })
        {
            string[] sounding = ["M" + n, "P" + n, "R" + n, .. hasAttenuators ? ["A" + n] : Array.Empty<string>()];
            string[] parts = [.. sounding, "G" + n, "W" + n];
            facts.AddRange(Screen(n));
            if (hasAttenuators) facts.AddRange(Attenuator(n));
            facts.Add(Make.Registered("G" + n, "40" + n, "ground-plate", ("diameter-mm", One(400.0, 399)), ("thickness-mm", One(5.0, 4))));
            var mount = One(Mount.FlushPlate, Mount.InvertedPlate, Mount.GroundStand, Mount.Pole);
            facts.Add(Make.Of(new StationPlanned("S" + n, 53, 1, mount, null), "2026-05-03", Subject.Campaign(Heath.C)));
            string[] subjects = [Subject.Campaign(Heath.C), .. parts.Select(Subject.Device)];
            facts.Add(Make.Of(new ChainPlanned("S" + n, parts), "2026-05-03", subjects));
            facts.Add(Heath.Described("M" + n, Microphone().ToArray()));
            if (Sometimes()) facts.Add(Make.Of(new DeviceDescribed([], ["response-type"]), "2026-05-03", Subject.Device("M" + n)));
            if (Sometimes()) facts.Add(Heath.Described("P" + n, ("polarisation-v", One(0, 200)), ("size-mm", One(12.7, 6.35))));
            var seen = new DeviceInspected(!Sometimes(), One(0.1, 0.4), One(7.0, 9), One(0.2, 2), null);
            if (Sometimes(0.7)) facts.Add(Make.Of(seen, One("2026-05-01", "2025-05-01"), Subject.Device("G" + n)));
            var status = One(DeviceStatus.Away, DeviceStatus.Lost, DeviceStatus.OutOfService, DeviceStatus.InService);
            var changed = new DeviceStatusChanged(status, null);
            if (Sometimes()) facts.Add(Make.Of(changed, One("2026-06-01", "2026-06-10"), Subject.Device(One(parts))));
            var mended = new DeviceServiced(ServiceKind.Repair, "mended", Sometimes(0.5));
            if (Sometimes()) facts.Add(Make.Of(mended, One("2026-02-20", "2026-05-20"), Subject.Device(One(parts))));
            if (Sometimes(0.15)) facts.Add(Make.Certificate("M" + n, "2026-03-01", One(-38.06, -38.10)));
            if (Sometimes(0.15)) facts.Add(Make.Of(Make.Issued(-38.06), "2026-03-02", Subject.Device("M" + n), "device:P9"));
            facts.Add(Heath.Placed("S" + n, "06-10 06:00", parts));
            facts.Add(Checked(Heath.Checked("S" + n, "06-10 06:30", CheckMoment.Before, -38.11, devices: sounding, air: air, on: known)));
            facts.Add(Checked(Heath.Checked("S" + n, "06-10 16:00", CheckMoment.After, -38.12, devices: sounding, air: air, on: known)));
        }
        if (Sometimes(0.1)) facts.Add(Make.Certificate("K1", "2026-01-06", 94.5, 0.1, "level", "dB"));
        if (Sometimes(0.1)) facts.Add(Make.Certificate("K1", "2026-01-07", 94.5, null, "level", "dB"));
        if (Sometimes(0.1)) facts.Add(Make.Registered("M1", "191"));
        if (Sometimes()) facts.Add(Heath.Described("K1", ("calibrator-class", One("1", "2"))));
        if (Sometimes()) facts.Add(Heath.Described("K1", ("calibrator-class", One("1", "1/C", "LS", "0"))));
        if (Sometimes(0.5)) facts.Add(Heath.Described("K1", ("calibrator-edition", One("2017", "2003"))));
        if (Sometimes(0.7)) facts.Add(Heath.Described("K1", ("nominal-level-db", One(94.0, 93.7)), ("frequency-hz", 250)));
        if (Sometimes()) facts.Add(Heath.Described("R" + One("1", "2", "3"), ("meter-class", One("type 1, IEC 651", "2", "class 1, IEC 61672"))));
        if (Sometimes()) facts.Add(Heath.Described("K1", ("pressure-law", One("adiabatic", "coefficient"))));
        else if (Sometimes(0.15)) facts.Add(Make.Of(new DeviceDescribed([], ["pressure-law"]), "2026-05-03", Subject.Device("K1")));
        if (Sometimes(0.15)) facts.Add(Heath.Described("K1", ("lowest-kpa", 101)));
        foreach (var microphone in new[] { "M1", "M2", "M3" })
        {
            var (curve, field) = (One(Curved.Flat, Curved.High, Curved.Bare, Curved.Even, Curved.Uneven), One("pressure", "free-field", null));
            if (Sometimes(0.8)) facts.Add(Curved.Certified(microphone, curve, field, One("2026-04-01", "2026-06-20")));
        }
        return [.. facts];

        // Measured up to three times, or inspected and kept with its maker's data, or damaged since; or a few of these.
        IEnumerable<Fact> Screen(string n)
        {
            var device = Subject.Device("W" + n);
            yield return Make.Registered("W" + n, "60" + n, "windscreen");
            foreach (var day in new[] { "2025-10-01", "2026-02-01", "2026-05-01" })
            {
                var curve = Sometimes(0.15) ? null : new string('0', 63) + One("0", "0", "0", "0", "1", "2", "3", "4", "9");
                var issued = Make.Issued(0.2, 0.1, "insertion-loss", "dB") with { Curve = curve, Method = Sometimes(0.15) ? "in a duct" : null };
                if (Sometimes(0.6)) yield return Make.Of(issued, day, device);
            }
            var intact = Screens.Intact with { Uncontaminated = One(true, true, true, false) };
            if (Sometimes(0.7)) yield return Make.Of(Screens.Intact, One("2025-11-01", "2026-05-10", "2026-06-10"), 1, device);
            if (Sometimes(0.35)) yield return Make.Of(intact with { Passed = intact.Uncontaminated == true }, One("2026-05-20", "2026-06-10"), 2, device);
            var work = new DeviceServiced(One(ServiceKind.Damage, ServiceKind.Malfunction, ServiceKind.Maintenance), "torn foam", false);
            if (Sometimes()) yield return Make.Of(work, One("2026-04-01", "2026-06-01", "2026-06-10"), device);
        }

        IEnumerable<Fact> Attenuator(string n)
        {
            yield return Make.Registered("A" + n, "80" + n, "attenuator");
            if (Sometimes(0.7)) yield return Heath.Described("A" + n, ("gain-db", One(-20, 20)));
            if (Sometimes(0.9)) yield return Make.Certificate("A" + n, "2026-05-01", One(20.0, 20.05, 20.2), One<double?>(0.1, null), "attenuation", "dB");
        }

        IEnumerable<(string, object)> Microphone()
        {
            yield return ("response-type", One("pressure", "free-field"));
            if (Sometimes(0.7)) yield return ("highest-hz", One(9000.0, 20_000));
            if (Sometimes()) yield return ("lowest-hz", One(5.0, 30));
            if (Sometimes(0.5)) yield return ("polarisation-v", One(0, 200));
            if (Sometimes(0.5)) yield return ("size-mm", One(12.7, 6.35));
            if (Sometimes(0.5)) yield return ("highest-level-db", One(130.0, 150));
            if (Sometimes(0.5)) yield return ("noise-floor-db", One(25.0, 10));
        }

        Fact Rules()
        {
            var limits = new List<ProfileLimit>();
            void Limit(string key, double value) => limits.Add(new(key, value, null, "invented", "own"));
            void Words(string key, string words) => limits.Add(new(key, null, words, "invented", "own"));
            Limit(LimitKey.CheckDeviationDb, 0.3);
            Words(LimitKey.ResponseClass, Curved.Class1);
            Words(LimitKey.ResponseByAngle, "IEC 61265:1995");
            Limit(LimitKey.IntervalMonths + "microphone/sensitivity", One(2, 3, 12));
            if (Sometimes()) Limit(LimitKey.IntervalMonths + "microphone/response", 12);
            if (Sometimes(0.5)) Limit(LimitKey.LevelMarginDb, 10);
            if (Sometimes(0.5)) Limit(LimitKey.NoiseMarginDb, 10);
            if (Sometimes(0.5)) Limit(LimitKey.PlateInspectionMonths, 12);
            if (Sometimes(0.5)) Limit(LimitKey.FlushStepMm, 0.3);
            if (Sometimes(0.5)) Limit(LimitKey.FlatnessMm, 1);
            if (Sometimes(0.5)) Limit(LimitKey.PlateDiameterMm, 400);
            if (Sometimes(0.5)) Limit(LimitKey.MountToleranceDb, 1);
            (double Gap, double Tolerance) gap = (7, 1);
            if (Sometimes(0.5)) Limit(LimitKey.GapMm, gap.Gap);
            if (limits[^1].Key == LimitKey.GapMm) Limit(LimitKey.GapToleranceMm, gap.Tolerance);
            if (Sometimes(0.5)) Limit(CertificateLimits.ChangeInBands + "windscreen/insertion-loss", 0.4);
            if (Sometimes(0.5)) Limit(CertificateLimits.GreatestError + "attenuator/attenuation", 0.1);
            if (Sometimes()) Words(LimitKey.DecisionRule, "guarded");
            if (Sometimes(0.5)) limits.Add(new(LimitKey.IntervalDays + "windscreen/insertion-loss", 90, One(LimitKey.ToFirstDay, LimitKey.AroundFirstDay), "invented", "own"));
            if (Sometimes(0.35)) Limit(CertificateLimits.MakersData + "windscreen/insertion-loss", 6);
            else if (Sometimes(0.6)) Words(CertificateLimits.MakersData + "windscreen/insertion-loss", CertificateLimits.UntilDamaged);
            if (Sometimes()) Words(LimitKey.Mounts, One("flush-plate", "ground-stand, flush-plate"));
            if (Sometimes(0.5)) Words(LimitKey.CalibratorClasses, One("1", "LS, 1"));
            if (Sometimes(0.5)) Words(LimitKey.CalibratorClassLeast, One("IEC 60942:1997 1L or later", "IEC 60942:2017 1", "IEC 60942:2003 LS"));
            if (Sometimes(0.7)) Words(LimitKey.MeterClassLeast, "IEC 651:1979 1");
            return Make.Of(new ProfileWritten("Heath rules", "Invented.", limits), "2026-05-02", 5, Subject.Profile(Heath.Rules));
        }
    }
}

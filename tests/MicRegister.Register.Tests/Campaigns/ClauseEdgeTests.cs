using System.Globalization;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>
/// Each clause that a built-in profile names is met well inside its figure, just met at it, and missed just beyond. Figures by hand from
/// 14 CFR part 36, 2021 edition, and from ISO 3744:2010, 5.2 (from memory, unchecked).
/// </summary>
public sealed class ClauseEdgeTests
{
    private const double Knot = 1852 / 3600.0;
    private const double MillisecondMin = 1 / 60_000.0;

    // The clause, the limit, its figure, and what is asked: whether it holds, given the side of the figure: inside, at it, beyond.
    private static readonly Row[] Rows =
    [
        new("A36.2.2.2", LimitKey.WindMs, 12 * Knot, By(0.01, (p, v) => Weather(p, v))),
        new("A36.2.2.2", LimitKey.GustMs, 15 * Knot, By(0.01, (p, v) => Weather(p, 1, v))),
        new("A36.2.2.2", LimitKey.CrosswindMs, 7 * Knot, By(0.01, (p, v) => Weather(p, v, fromDeg: 0))),
        new("A36.2.2.2", LimitKey.CrosswindGustMs, 10 * Knot, By(0.01, (p, v) => Weather(p, 1, v, fromDeg: 0))),
        new("A36.2.2.2", LimitKey.TemperatureMostC, 35, By(0.1, (p, v) => Weather(p, 1, celsius: v))),
        new("A36.2.2.2", LimitKey.TemperatureLeastC, -10, By(-0.1, (p, v) => Weather(p, 1, celsius: v))),
        new("A36.2.2.2", LimitKey.HumidityMostPercent, 95, By(0.1, (p, v) => Weather(p, 1, humidityPercent: v))),
        new("A36.2.2.2", LimitKey.HumidityLeastPercent, 20, By(-0.1, (p, v) => Weather(p, 1, humidityPercent: v))),
        new("A36.2.2", LimitKey.WeatherMinutes, 30, By(1, (p, v) => Weather(p, 1, minutesBefore: v))),
        new("A36.3.9.2", LimitKey.IntervalDays + "microphone/response", 90, By(1, (p, v) => Lasts(p, "microphone/response", 0, (int)v))),
        Months("A36.3.9.5", "noise-source/noise-level", 6), Bands("A36.3.9.5", "noise-source/noise-level", 0.2),
        Months("A36.3.9.6", "attenuator/attenuation", 6),
        new("A36.3.9.6", CertificateLimits.GreatestError + "attenuator/attenuation", 0.1, By(0.01, Errs)),
        Months("A36.3.9.7", "sound-calibrator/level", 6),
        new("A36.3.9.7", LimitKey.CalibratorStepDb, 0.2, By(0.01, (p, v) => Steps(p, "sound-calibrator/level", v))),
        new("A36.3.9.8", LimitKey.CheckDifferenceDb, 0.5, By(0.01, Differs)),
        Months("A36.3.9.10", "windscreen/insertion-loss", 6), Bands("A36.3.9.10", "windscreen/insertion-loss", 0.4),
        new("G36.101", LimitKey.WindMs, 10 * Knot, By(0.01, (p, v) => Weather(p, v))),
        new("G36.101", LimitKey.CrosswindMs, 5 * Knot, By(0.01, (p, v) => Weather(p, v, fromDeg: 0))),
        // The tolerance of 1 mm about it is common practice.
        new("G36.107(a)", LimitKey.GapMm, 7, (p, v, side) => Plate(p, gapMm: v + (side > 0 ? 1.01 : side))),
        new("G36.107(a)", LimitKey.PlateDiameterMm, 400, By(-1, (p, v) => Plate(p, diameterMm: v, offsetMm: 0.375 * v))),
        new("G36.107(a)", LimitKey.PlateThicknessMm, 2.5, By(-0.01, (p, v) => Plate(p, thicknessMm: v))),
        // 150 mm of a radius of 200 mm; the tolerance of 10 mm about it is common practice.
        new("G36.107(a)", LimitKey.CapsuleShare, 0.75, (p, v, side) => Plate(p, offsetMm: (v * 200) + (side > 0 ? 10.1 : 10 * side))),
        new("J36.109(e)(2)(i)", LimitKey.CheckIntervalMinutes, 60, By(MillisecondMin, Apart)),
        new("J36.109(e)(2)(i)", LimitKey.CheckToEventMinutes, 60, By(MillisecondMin, Apart)),
        new("J36.109(e)(2)(ii)", LimitKey.CheckVariationDb, 0.5, By(0.01, Varies)),
        new("J36.109(e)(2)(ii)", LimitKey.CheckDifferenceDb, 0.5, By(0.01, Differs)),
        Months("J36.109(e)(2)(iii)", "sound-calibrator/level", 6), Months("J36.109(e)(2)(iii)", "reference-microphone/sensitivity", 6),
        Months("J36.109(e)(2)(iii)", "voltage-insertion/insertion-voltage", 6),
        Months("5.2", "sound-calibrator/level", 12), Months("5.2", "microphone/sensitivity", 24), Months("5.2", "preamplifier/gain", 24),
        Months("5.2", "recorder-channel/gain", 24),
        new("5.2", LimitKey.CheckDifferenceDb, 0.5, By(0.01, Differs)),
    ];

    // Clauses of words: what is allowed and what is not.
    private static readonly (string Clause, string Key, string Allows, string Refuses)[] Words =
    [
        ("G36.105(b)", LimitKey.MeterClassLeast, "IEC 651:1979 1", "IEC 651:1979 2"),
        ("A36.3.5.3", LimitKey.ResponseClass, "14 CFR 36 A36.3.5.3", "IEC 61672-1:2013 class 2"),
        ("table 1", LimitKey.ResponseByAngle, "IEC 61265:1995", "IEC 61265"),
        ("A36.3.9.10", CertificateLimits.MakersData + "windscreen/insertion-loss", "until damaged", "until lost"),
        ("A36.3.5.2", LimitKey.Mounts, "ground-stand", "flush-plate"),
        ("A36.3.8.1", LimitKey.CalibratorClassLeast, "IEC 60942:1997 1L or later", "IEC 60942:1997 2L or later"),
        ("A36.3.9.7", LimitKey.CheckAir, "temperature", "humidity"), ("A36.3.9.8", LimitKey.CheckTestDay, "site-day", "week"),
        ("G36.107(a)", LimitKey.Mounts, "inverted-plate", "flush-plate"), ("G36.107(a)", LimitKey.ResponseTypes, "pressure", "free-field"),
        ("G36.107(b)", LimitKey.CheckTestDay, "site-day", "week"), ("J36.109(e)(2)(i)", LimitKey.CheckTestDay, "site-day", "week"),
        ("J36.109(f)(1)", LimitKey.Mounts, "ground-stand", "pole"), ("J36.109(f)(1)", LimitKey.ResponseTypes, "pressure", "free-field"),
        ("5.2", LimitKey.CalibratorClassLeast, "IEC 942:1988 1 or later", "IEC 942:1988 2 or later"),
    ];

    public static TheoryData<string, string, string> Cases => [.. BuiltInProfiles.All
        .SelectMany(p => p.Written.Limits.Where(l => l is { Clause: not null, Value: not null }).Select(l => (p.Id, l.Clause!, l.Key)))];

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_clause_is_met_inside_its_figure_and_at_it_and_missed_beyond(string id, string clause, string key)
    {
        var profile = BuiltInProfiles.Find(id)!;
        var row = Assert.Single(Rows, r => (r.Clause, r.Key) == (clause, key));

        Assert.Equal(row.Figure, profile.Value(key)!.Value, 1e-12);
        Assert.True(row.Holds(profile, row.Figure, -1), "well inside");
        Assert.True(row.Holds(profile, row.Figure, 0), "just met");
        Assert.False(row.Holds(profile, row.Figure, 1), "just missed");
    }

    [Fact]
    public void Each_clause_of_words_allows_what_it_says_and_nothing_else()
    {
        var asked = BuiltInProfiles.All.SelectMany(p => p.Written.Limits.Where(l => l is { Clause: not null, Value: null })
            .Select(l => (Profile: p, Limit: l))).ToList();

        Assert.All(asked, a =>
        {
            var (_, _, allows, refuses) = Assert.Single(Words, w => (w.Clause, w.Key) == (a.Limit.Clause, a.Limit.Key));
            Assert.Contains(allows, a.Profile.Words(a.Limit.Key));
            Assert.DoesNotContain(refuses, a.Profile.Words(a.Limit.Key));
        });
        Assert.All(Words, w => Assert.Contains(asked, a => (w.Clause, w.Key) == (a.Limit.Clause, a.Limit.Key)));
        Assert.All(Rows, r => Assert.Contains(
            BuiltInProfiles.All, p => p.Written.Limits.Any(l => (l.Clause, l.Key, l.Value is not null) == (r.Clause, r.Key, true))));
    }

    // On a stand a free-field type suits the mount; 14 CFR 36, J36.109(f)(1) wants a pressure type (2021 edition). What does not suit the
    // mount is said once.
    [Theory]
    [InlineData("light-helicopter-1200mm", Mount.GroundStand, "pressure", 0)]
    [InlineData("light-helicopter-1200mm", Mount.GroundStand, "free-field", 1)]
    [InlineData("light-helicopter-1200mm", Mount.GroundStand, "diffuse", 1)]
    [InlineData("transport-1200mm", Mount.GroundStand, "free-field", 0)]
    [InlineData("small-propeller-inverted", Mount.InvertedPlate, "free-field", 1)]
    public void A_microphone_is_of_a_type_that_the_clause_allows(string id, Mount mount, string type, int wrong)
    {
        var register = FactList.RegisterOf([Make.Registered("M1", "11", "microphone", ("response-type", type))]);
        var chain = new StandingChain(
            new("S1", new StationPlanned("S1", 53, 1, mount, null), [register.Device("M1")!]), (CampaignPlanned)Heath.Planned().Body,
            BuiltInProfiles.Find(id)!, name => name);

        var found = ReadinessRules.Find("response-type")!.AskChain!(chain).ToList();

        Assert.Equal(wrong, found.Count);
        Assert.All(found, f => Assert.Equal(Gravity.Stops, f.Gravity));
    }

    private static StandingDevice Standing(ProfileState profile, DeviceState device) =>
        new(device, profile, new(2026, 7, 1), new(2026, 7, 1));

    // Ten steps inside, at the figure, one step beyond.
    private static Func<ProfileState, double, int, bool> By(double step, Func<ProfileState, double, bool> holds) =>
        (p, figure, side) => holds(p, figure + (step * (side < 0 ? -10 : side)));

    // Counted in calendar months: ten days inside, on the very day, one day beyond.
    private static Row Months(string clause, string what, int months) => new(
        clause, LimitKey.IntervalMonths + what, months, (p, figure, side) => Lasts(p, what, (int)figure, side < 0 ? -10 : side));

    private static Row Bands(string clause, string what, double db) =>
        new(clause, CertificateLimits.ChangeInBands + what, db, By(0.01, (p, v) => ChangesInABand(p, what, v)));

    // Two curves that differ in the band of 1 kHz alone.
    private static bool ChangesInABand(ProfileState profile, string what, double by)
    {
        var (kind, quantity) = (what.Split('/')[0], what.Split('/')[1]);
        Fact Certified(string day, char curve) => Make.Of(
            Make.Issued(0.2, 0.1, quantity, "dB") with { Curve = new(curve, 64), FrequencyHz = null }, day, curve, Subject.Device("D1"));
        var register = FactList.RegisterOf([Make.Registered("D1", "71", kind), Certified("2026-01-05", '0'), Certified("2026-06-05", '1')])
            .WithCurves(sha => Screens.Curve(0.2, 0.02, (1000, sha[0] == '0' ? 0.2 : 0.2 + by)));
        var standing = Standing(profile, register.Device("D1")!) with { Band = (50, 10_000), Curves = register.CurveShelf };
        return !BandRules.ChangeInBands(standing).Any();
    }

    private static bool Errs(ProfileState profile, double by)
    {
        var register = FactList.RegisterOf([
            Make.Registered("D1", "71", "attenuator", (DeviceField.GainDb.Key, -20.0)),
            Make.Certificate("D1", "2026-06-05", 20 + by, 0.02, "attenuation", "dB")]);
        return !ErrorRules.ErrorWithin(Standing(profile, register.Device("D1")!)).Any();
    }

    // A certificate of so many months and days before 1 July, which has to last through that day.
    private static bool Lasts(ProfileState profile, string what, int months, int days)
    {
        var (kind, quantity) = (what.Split('/')[0], what.Split('/')[1]);
        var day = new DateOnly(2026, 7, 1).AddMonths(-months).AddDays(-days).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var register = FactList.RegisterOf([Make.Registered("D1", "71", kind), Make.Certificate("D1", day, 1, 0.1, quantity, "dB")]);
        return !CalibrationRules.Due(Standing(profile, register.Device("D1")!))
            .Any(f => f.Text.Contains($"its {quantity} ", StringComparison.Ordinal));
    }

    private static bool Steps(ProfileState profile, string what, double by)
    {
        var (kind, quantity) = (what.Split('/')[0], what.Split('/')[1]);
        var register = FactList.RegisterOf([
            Make.Registered("D1", "71", kind), Make.Certificate("D1", "2026-01-05", 94, 0.02, quantity, "dB"),
            Make.Certificate("D1", "2026-06-05", 94 + by, 0.02, quantity, "dB")]);
        return DoubtBook.OfDevice(register, "D1", profile).Count == 0;
    }

    private static bool Differs(ProfileState profile, double by)
    {
        CheckRecord[] checks = [Check("06:00", CheckMoment.Before, 0), Check("16:00", CheckMoment.After, by)];
        return CheckJudge.Judge(profile, checks[1], checks).Comparisons.Single(c => c.Key == LimitKey.CheckDifferenceDb).Verdict
            == Metrology.Conformity.ConformityVerdict.Conforms;
    }

    private static bool Varies(ProfileState profile, double by)
    {
        CheckRecord[] checks =
            [Check("06:00", CheckMoment.Before, 0), Check("07:00", CheckMoment.Other, -by), Check("16:00", CheckMoment.After, -0.1)];
        return CheckClock.Of(profile).VariationOf(checks, checks[0].Test)!.Verdict == Metrology.Conformity.ConformityVerdict.Conforms;
    }

    private static CheckRecord Check(string at, CheckMoment moment, double db)
    {
        var when = Make.On($"2026-06-02T{at}:00.000Z");
        return CheckBook.Unstored(FactList.RegisterOf([]), null, when, Make.Check("S1", moment, db, "M1"), (int)moment);
    }

    // Checks so many minutes apart around an event, of which the later one lies on its end.
    private static bool Apart(ProfileState profile, double minutes)
    {
        long from = Heath.Ms("06-02 10:00"), to = from + (long)Math.Round(minutes * 60_000);
        CheckRecord At(long ms) => Check("06:00", CheckMoment.Other, 0) with { Instant = ms };
        var clock = CheckClock.Of(profile);
        return !clock.GapsAround([At(from), At(to)], from + 1, to).Any() && !CheckClock.IsTooFar(to - from, clock.ToEventMinutes);
    }

    // A reading at the event, or so many minutes before it; the track is 90°, so that wind from 90° blows along it and from 0° across.
    private static bool Weather(
        ProfileState profile, double windMs, double? gustMs = null, double fromDeg = 90, double celsius = 20, double humidityPercent = 50,
        double minutesBefore = 0)
    {
        var at = DateTimeOffset.FromUnixTimeMilliseconds(Heath.Ms("06-02 10:00")).AddMinutes(-minutesBefore);
        var text = at.ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture);
        var reading = new LoggedWeather(text, fromDeg, windMs, gustMs ?? windMs, celsius, humidityPercent, null);
        var plan = ((CampaignPlanned)Heath.Planned().Body) with { TrackDeg = 90 };
        var register = Heath.With([
            .. Heath.Flight(), Make.Of(plan, "2026-05-02", 3, Subject.Campaign(Heath.C)),
            Make.Of(profile.Written, "2026-05-03", Subject.Profile(Heath.Rules)),
            FactText.WriteDerived(
                new(Make.On(text), "P1", "desk-1.ABCD", 9), new WeatherLogged("mast.csv", new string('a', 64), [reading], null),
                [Subject.Campaign(Heath.C)])]);
        var chain = Assert.Single(Tracer.Chains(Tracer.ContextOf(register, "E1")!, "S1"));
        return !WeatherQuestions.WeatherLimits(chain).Any();
    }

    private static bool Plate(
        ProfileState profile, double gapMm = 7, double diameterMm = 400, double thicknessMm = 2.5, double offsetMm = 150)
    {
        var register = FactList.RegisterOf([Make.Registered("G1", "41", "ground-plate",
            ("diameter-mm", diameterMm), ("thickness-mm", thicknessMm), ("capsule-offset-mm", offsetMm))]);
        var plan = (CampaignPlanned)Heath.Planned().Body;
        var chain = new StandingChain(
            new("S1", new StationPlanned("S1", 53, 1, Mount.InvertedPlate, null), [register.Device("G1")!]), plan, profile, id => id)
        { MeasuredGapMm = gapMm };
        return !PlateRules.PlateGeometry(chain).Concat(ChainLimitRules.CapsulePlace(chain)).Any();
    }

    private sealed record Row(string Clause, string Key, double Figure, Func<ProfileState, double, int, bool> Holds);
}

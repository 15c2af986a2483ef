using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>An invented campaign of three stations on a heath, two hours ahead of UTC. Times are UTC of 2026: "06-02 10:00", or "06-02" for a bare day.</summary>
internal static class Heath
{
    public const string C = "HEATH-26";
    public const string Rules = "heath-rules";

    private static readonly ZoneOffset[] Ahead = [new("2020-01-01T00:00:00.000Z", 120)];

    /// <summary>What the reference standard rests on, and what the calibrators were measured against.</summary>
    public static readonly Fact ReferenceCertificate = Make.Of(Make.Issued(-38.30, 0.04) with { Laboratory = "National laboratory" }, "2025-11-01", "device:REF");

    /// <summary>94.00 dB with u = 0.1 / 2 = 0.05 dB.</summary>
    public static readonly Fact FirstCalibrator = Make.Of(Make.Issued(94.00, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-01-05", "device:K1");

    /// <summary>94.10 dB with u = 0.1 / 2 = 0.05 dB.</summary>
    public static readonly Fact SecondCalibrator = Make.Of(Make.Issued(94.10, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-01-06", "device:K2");

    /// <summary>-38.06 dB re 1 V/Pa with u = 0.06 / 2 = 0.03 dB.</summary>
    public static readonly Fact FirstMicrophone = Make.Certificate("M1", "2026-03-01", -38.06);

    public static readonly IReadOnlyList<Fact> Base = [.. Facts()];

    private static readonly Register Known = FactList.RegisterOf(Base);

    public static Register With(params Fact[] facts) => FactList.RegisterOf([.. Base, .. facts]).WithCurves(Curved.Read);

    public static string[] Chain(string station) => ["M" + station[1..], "P" + station[1..], "R" + station[1..]];

    public static Fact Written(params (string Key, double Value)[] more)
    {
        (string Key, double Value)[] limits =
        [
            (LimitKey.CheckDeviationDb, 0.3), (LimitKey.CheckDifferenceDb, 0.3), (LimitKey.GapMm, 7), (LimitKey.GapToleranceMm, 1),
            (LimitKey.IntervalMonths + "microphone/sensitivity", 12), (LimitKey.IntervalMonths + "sound-calibrator/level", 12), .. more,
        ];
        return Make.Of(new ProfileWritten("Heath rules", "Invented.", [.. limits.Select(l => new ProfileLimit(l.Key, l.Value, null, "invented", "own"))]), "2026-05-01", more.Length, Subject.Profile(Rules));
    }

    public static Fact Placed(string station, string at, string[]? devices = null, double? rangeV = null, PartSwap? swap = null, string[]? unknown = null, double? gapMm = null, int counter = 1)
    {
        devices ??= Chain(station);
        return Said(at, counter, new ChainPlaced(station, devices, unknown ?? [], gapMm, null, null, rangeV, swap, [], null), [Subject.Campaign(C), .. devices.Select(Subject.Device), .. (unknown ?? []).Select(Subject.Label)]);
    }

    public static Fact TakenIn(string station, string at, string[]? devices = null, int counter = 2) =>
        Said(at, counter, new ChainTakenIn(station, devices ?? Chain(station), [], null), [Subject.Campaign(C), .. (devices ?? Chain(station)).Select(Subject.Device)]);

    /// <summary>A check in which the chain shows a level, in dB re 1 V/Pa, or re 1 full scale/Pa by a recorded tone.</summary>
    public static Fact Checked(string station, string at, CheckMoment moment, double chainDb, string calibrator = "K1", string[]? devices = null, CheckMethod method = CheckMethod.Voltage, StatedAir? air = null, Register? on = null, int counter = 3)
    {
        devices ??= Chain(station);
        // Its pressure times the chain: 20 µPa · 10^(L/20) · 10^(chain/20).
        var reading = 20e-6 * Math.Pow(10, ((calibrator == "K1" ? 94.00 : 94.10) + chainDb) / 20);
        var entry = new CheckEntry { Campaign = C, Station = station, At = At(at).ToString(), Moment = moment, Devices = devices, Calibrator = calibrator, Method = method, Readings = [reading], Air = air };
        var answer = CheckWork.Out(on ?? Known, entry);
        Assert.True(answer is Result<ChainChecked>.Accepted, (answer as Result<ChainChecked>.Rejected)?.Why.Text);
        var check = ((Result<ChainChecked>.Accepted)answer).Value;
        return Said(at, counter, check, [Subject.Campaign(C), .. devices.Select(Subject.Device), Subject.Device(calibrator)]);
    }

    public static Fact Event(string id, string from, string to) =>
        Said(from, 4, new EventHappened("Flight " + id, At(from).ToString(), At(to).ToString(), EventKind.FlyOver, null, [], null), [Subject.Event(id), Subject.Campaign(C)]);

    public static Fact Weather(string at, double? temperatureC, double? pressureKPa = null, double? humidityPercent = null) =>
        Said(at, 5, new WeatherNoted(null, null, temperatureC, humidityPercent, pressureKPa), [Subject.Campaign(C)]);

    /// <summary>Chains compared in place; every station is expected to read the same.</summary>
    public static Fact Compared(string at, double? expanded, params (string Station, string[] Devices, double LevelDb)[] chains) =>
        Said(at, 7, new ChainsCompared("distant loudspeaker", 250, [.. chains.Select(c => new ComparedChain(c.Station, c.Devices, c.LevelDb, 0))], expanded, null), [Subject.Campaign(C), .. chains.SelectMany(c => c.Devices).Distinct().Select(Subject.Device)]);

    public static Fact Incidence(double angleDeg, string? station = null, string? @event = null, int counter = 0, double? halfWidthDeg = null) =>
        Make.Of(new IncidenceStated(station, angleDeg, halfWidthDeg, "from the flight track"), "2026-06-02", counter, [.. @event is null ? Array.Empty<string>() : [Subject.Event(@event)], Subject.Campaign(C)]);

    public static Fact Damaged(string device, string at, string text = "water in the capsule") => Said(at, 6, new DeviceServiced(ServiceKind.Damage, text, false), [Subject.Device(device)]);

    public static Fact Chosen(SensitivityRule rule) => Make.Of(new SensitivityRuleChosen(rule, "agreed"), "2026-05-02", Subject.Campaign(C));

    public static Fact Said(string at, int counter, FactBody body, IReadOnlyList<string> subjects) => FactText.WriteDerived(new(At(at), "P1", "phone-1.ABCD", counter), body, subjects);

    public static Fact Described(string device, params (string Key, object Value)[] details) =>
        Make.Of(new DeviceDescribed(Make.Details(details), []), "2026-05-02", Subject.Device(device));

    /// <summary>The campaign's plan as it is, with levels that are expected.</summary>
    public static Fact Planned(double? highestDb = null, double? lowestDb = null, double altitudeM = 20) => Make.Of(
        new CampaignPlanned(
            "Heath", new(2026, 6, 1), new(2026, 6, 10), "Zone/Heath", Ahead, "Heath", altitudeM, SourceClass.Propeller, 20, 10_000, lowestDb,
            highestDb, Rules, 0, null),
        "2026-05-02", 1, Subject.Campaign(C));

    /// <summary>The profile with a limit in words.</summary>
    public static Fact WrittenWords(string key, string words) => Make.Of(
        new ProfileWritten("Heath rules", "Invented.", [new(key, null, words, "invented", "own")]), "2026-05-02", Subject.Profile(Rules));

    /// <summary>The profile with checks that serve the day at the site, or a stated session, alone.</summary>
    public static Fact WrittenTestDay(double? hours = null)
    {
        var usual = (ProfileWritten)Written().Body;
        List<ProfileLimit> limits = [.. usual.Limits, new(LimitKey.CheckTestDay, null, LimitKey.SiteDay, "invented", "own")];
        if (hours is { } h) limits.Add(new(LimitKey.CheckSpanHours, h, null, "invented", "own"));
        return Make.Of(usual with { Limits = limits }, "2026-05-02", 2, Subject.Profile(Rules));
    }

    /// <summary>A session of testing.</summary>
    public static Fact Session(string name, string from, string to, int counter = 8) =>
        Said(from, counter, new TestSessionStated(name, At(from).ToString(), At(to).ToString()), [Subject.Campaign(C)]);

    /// <summary>A day at S1: placed at 06:00, checked before and after, and an event of a minute at 10:00.</summary>
    public static Fact[] Flight(double beforeDb = -38.11, double afterDb = -38.19, StatedAir? airBefore = null, StatedAir? airAfter = null) =>
    [
        Placed("S1", "06-02 06:00"), Checked("S1", "06-02 06:30", CheckMoment.Before, beforeDb, air: airBefore),
        Event("E1", "06-02 10:00", "06-02 10:01"), Checked("S1", "06-02 16:00", CheckMoment.After, afterDb, air: airAfter),
    ];

    public static StationTrace One(Register register, string id = "E1", string station = "S1") => Assert.Single(Tracer.Of(register, id, station)!.Stations);

    public static Occurred At(string text) => Make.On("2026-" + (text.Contains(' ', StringComparison.Ordinal) ? text.Replace(' ', 'T') + ":00.000Z" : text));

    public static long Ms(string text) => At(text).UnixMilliseconds;

    private static IEnumerable<Fact> Facts()
    {
        yield return Make.Of(new RegisterFounded("01JD8XK3ZZ0000000000000000", "Heath House", "Zone/Heath", Ahead), "2020-01-01", Subject.TheRegister);
        yield return Written();
        yield return Make.Of(new CampaignPlanned("Heath", new(2026, 6, 1), new(2026, 6, 10), "Zone/Heath", Ahead, "Heath", 20, SourceClass.Propeller, 20, 10_000, null, null, Rules, 0, null), "2026-05-01", Subject.Campaign(C));
        foreach (var (station, mount, counter) in new[] { ("S1", Mount.FlushPlate, 1), ("S2", Mount.GroundStand, 2), ("S3", Mount.Pole, 3) })
            yield return Make.Of(new StationPlanned(station, 53 + (0.001 * counter), 1, mount, null), "2026-05-01", counter, Subject.Campaign(C));
        foreach (var n in new[] { "1", "2", "3", "9" })
        {
            // S3 is a pole, all else is flush or a stand.
            yield return Make.Registered(
                "M" + n, "10" + n, "microphone", ("response-type", n == "3" ? "free-field" : "pressure"), ("highest-hz", 40_000));
            yield return n == "1" ? FirstMicrophone : Make.Certificate("M" + n, "2026-03-01", -38.06);
            yield return Make.Registered("P" + n, "20" + n, "preamplifier");
            yield return Make.Certificate("P" + n, "2026-02-01", -0.1, 0.04, "gain", "dB");
            yield return Make.Registered("R" + n, "30" + n, "recorder-channel", ("range-v", 10));
            yield return Make.Certificate("R" + n, "2026-02-01", 0.003, 0.04, "gain", "dB");
        }
        yield return Make.Registered("REF", "901");
        yield return ReferenceCertificate;
        yield return Make.Registered("K1", "501", "sound-calibrator", ("calibrator-class", "1"), ("pressure-law", "none"));
        yield return FirstCalibrator;
        yield return Make.Registered("K2", "502", "sound-calibrator", ("calibrator-class", "1"), ("pressure-law", "none"));
        yield return SecondCalibrator;
    }
}

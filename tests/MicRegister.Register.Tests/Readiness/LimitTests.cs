using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// Limits hold at themselves and break just beyond, with the figures that are shown. Limits are those of the profile small-unmanned-flush
/// and of the sound campaign: 400 mm and 0.2 mm of a plate, 1 mm of flatness, 3 dB and 10 dB of margin, 50 Hz to 10 kHz, 40 dB to 120 dB.
/// </summary>
public sealed class LimitTests
{
    public static TheoryData<string, string> Cases() => [.. Table().Select((c, i) => ($"{i}: {c.Rule}", c.What))];

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_limit_holds_at_itself_and_breaks_just_beyond(string which, string what)
    {
        var limit = Table()[int.Parse(which.Split(':')[0], System.Globalization.CultureInfo.InvariantCulture)];

        var (at, beyond) = (Found(limit.Holds), Found(limit.Breaks));

        Assert.True(at.All(f => f.Rule != limit.Rule), what + ": " + string.Join(" ", at.Select(f => f.Text)));
        Assert.All(beyond, f => Assert.Equal(limit.Rule, f.Rule));
        var figures = beyond.SelectMany(f => f.Figures).ToList();
        foreach (var (name, value) in limit.Figures) Assert.Contains(figures, f => f.Name == name && Math.Abs(f.Value - value) < 1e-9);
        Assert.NotEmpty(beyond);
    }

    // From 1 July: 20 + 2 · 4 days for a calibration, 2 to swap or plan anew, 1 to inspect or decide, none to enter (the settings'
    // defaults).
    [Theory]
    [InlineData("due", "2026-06-03")]
    [InlineData("response-type", "2026-06-29")]
    [InlineData("mount", "2026-06-29")]
    [InlineData("plate-geometry", "2026-06-30")]
    [InlineData("calibrator-step", "2026-06-30")]
    [InlineData("calibrator-class", "2026-07-01")]
    public void What_takes_longer_has_to_start_earlier(string rule, string latest)
    {
        Fact[] wrong =
        [
            Described("M1", ("interval-months", 1)), Described("M2", ("response-type", "free-field")), Plate("G1", step: 0.3),
            Calibrator("2026-05-01", 114.22),
            Make.Of(new DeviceDescribed([], ["calibrator-class"]), "2026-05-01", "device:K1"),
            Make.Of(new StationPlanned("S3", 40.003, -8, Mount.FlushPlate, 0.003), "2026-05-05", "campaign:C1"),
        ];

        var found = ReadinessTests.Judge([.. ReadinessTests.Sound(), .. wrong]).Findings.Where(f => f.Rule == rule).ToList();

        Assert.NotEmpty(found);
        Assert.All(found, f => Assert.Equal(Make.Day(latest), f.LatestStart));
    }

    // It is not too late on the latest day itself.
    [Theory]
    [InlineData("2026-06-03", false)]
    [InlineData("2026-06-04", true)]
    public void On_the_latest_day_it_is_not_too_late(string today, bool isTooLate)
    {
        var register = FactList.RegisterOf([.. ReadinessTests.Sound(), Described("M1", ("interval-months", 1))]);

        Assert.Equal(isTooLate, CampaignReadiness.Judge(register, "C1", Make.Day(today))!.Findings.Single(f => f.Rule == "due").IsTooLate);
    }

    [Fact]
    public void Findings_stand_by_gravity_then_by_the_day_that_they_bite_then_by_rule_and_station()
    {
        var report = ReadinessTests.Judge(
        [
            .. ReadinessTests.Sound(), Described("M1", ("interval-months", 4)), Described("M2", ("response-type", "free-field")),
            Described("M3", ("response-type", "free-field")), Described("P1", ("size-mm", 6.35)),
            Make.Of(new DeviceStatusChanged(DeviceStatus.Away, null), "2026-05-01", "device:P3"),
            Make.Of(new DeviceDescribed([], ["highest-hz"]), "2026-05-01", "device:M1"),
        ]);

        // Valid through 1 July, so that it bites on the 2nd; everything else on the first day, the 1st.
        Assert.Equal(
            ["parts-fit S1", "response-type S2", "response-type S3", "due S1", "unfit S3", "frequency-range S1", "profile "],
            report.Findings.Where(f => f.Rule != "array").Select(f => $"{f.Rule} {f.Station}"));
        Assert.Equal(ReadinessVerdict.NotReady, report.Verdict);
        Assert.All(report.Stations, s => Assert.Equal((ReadinessVerdict.NotReady, 0.0), (s.Verdict, s.Probability)));
    }

    // A campaign that ends on the day before, or begins on the day after, shares no day.
    [Theory]
    [InlineData("2026-06-20", "2026-06-30", false)]
    [InlineData("2026-06-20", "2026-07-01", true)]
    [InlineData("2026-07-10", "2026-07-20", true)]
    [InlineData("2026-07-11", "2026-07-20", false)]
    public void Two_campaigns_clash_where_they_share_a_day(string first, string last, bool clashes)
    {
        var other = new CampaignPlanned(
            "Other", Make.Day(first), Make.Day(last), "Zone/Site", [], "Hill", 10, SourceClass.Jet, 50, 1000, null, null,
            "engineering-practice", 0, null);

        var found = ReadinessTests.Judge(
        [
            .. ReadinessTests.Sound(), Make.Of(other, "2026-05-01", "campaign:C2"),
            Make.Of(new ChainPlanned("T1", ["M2"]), "2026-05-01", "campaign:C2", "device:M2"),
        ]).Findings.Where(f => f.Rule == "double-booked").ToList();

        Assert.Equal(clashes ? 1 : 0, found.Count);
        var bites = Make.Day(first) < Make.Day("2026-07-01") ? Make.Day("2026-07-01") : Make.Day(first);
        Assert.All(found, f => Assert.Equal(bites, f.BitesOn));
    }

    [Fact]
    public void Of_plates_the_most_common_sort_is_the_usual_one_and_another_batch_is_only_noted()
    {
        IReadOnlyList<Finding> Of(params Fact[] more) =>
            [.. ReadinessTests.Judge([.. ReadinessTests.Sound(), .. more]).Findings.Where(f => f.Rule == "plates-alike")];

        Assert.Empty(Of(Described("G1", ("material", "Aluminium ")))); // written another way
        Assert.Empty(Of(Described("G1", ("batch", "A")))); // of the others nothing is known
        var batch = Assert.Single(Of(Described("G1", ("batch", "A")), Described("G2", ("batch", "B")), Described("G3", ("batch", "B"))));
        Assert.Equal((Gravity.Note, "G1"), (batch.Gravity, batch.Device));
        var wide = Assert.Single(Of(Described("G3", ("diameter-mm", 420))));
        Assert.Equal((Gravity.Risks, "G3"), (wide.Gravity, wide.Device));
        Assert.Contains("has plate diameter 420 mm; 2 of 3 plates have 400", wide.Text, StringComparison.Ordinal);
    }

    private sealed record Limit(string Rule, string What, Fact[] Holds, Fact[] Breaks, params (string Name, double Value)[] Figures);

    private static IReadOnlyList<Finding> Found(Fact[] facts) =>
        [.. ReadinessTests.Judge([.. ReadinessTests.Sound(), .. facts]).Findings.Where(f => f.Rule is not ("profile" or "array"))];

    private static Fact Described(string device, params (string, object)[] details) => ReadinessTests.Described(device, details);

    private static Fact[] All(params (string, object)[] details) => [.. new[] { "G1", "G2", "G3" }.Select(g => Described(g, details))];

    private static Fact Plate(string device, double? step = 0.05, double? flat = 0.2) =>
        Make.Of(new DeviceInspected(true, step, null, flat, null), "2026-05-01", "device:" + device);

    private static Fact Calibrator(string day, double levelDb) => Make.Certificate("K1", day, levelDb, 0.1, "level", "dB");

    private static Fact[] Kit(params string[] devices) =>
        [Make.Of(new KitPlanned(KitPurpose.Check, devices), "2026-05-05", ["campaign:C1", .. devices.Select(d => "device:" + d)])];

    private static Fact[] Height(double m) =>
        [Make.Of(new StationPlanned("S1", 40.001, -8, Mount.FlushPlate, m), "2026-05-05", "campaign:C1")];

    private static List<Limit> Table() =>
    [
        new("frequency-range", "highest", [Described("M1", ("highest-hz", 10_000))], [Described("M1", ("highest-hz", 9_999))],
            ("highest frequency", 9_999), ("wanted", 10_000)),
        new("frequency-range", "lowest", [Described("M1", ("lowest-hz", 50))], [Described("M1", ("lowest-hz", 50.1))], ("wanted", 10_000)),
        new("highest-level", "margin", [Described("M1", ("highest-level-db", 123))], [Described("M1", ("highest-level-db", 122.9))],
            ("highest level", 122.9), ("expected", 120)),
        new("noise-floor", "margin", [Described("M1", ("noise-floor-db", 30))], [Described("M1", ("noise-floor-db", 30.1))],
            ("noise floor", 30.1), ("lowest level", 40)),
        new("plate-geometry", "step proud", [Plate("G1", step: 0.2)], [Plate("G1", step: 0.21)], ("step", 0.21), ("limit", 0.2)),
        new("plate-geometry", "step below", [Plate("G1", step: -0.2)], [Plate("G1", step: -0.21)], ("step", -0.21), ("limit", 0.2)),
        new("plate-geometry", "flatness", [Plate("G1", flat: 1)], [Plate("G1", flat: 1.01)], ("flatness", 1.01), ("limit", 1)),
        new("plate-geometry", "diameter", All(("diameter-mm", 400)), All(("diameter-mm", 399)), ("diameter", 399), ("limit", 400)),
        new("calibrator-step", "limit", [Calibrator("2026-05-01", 114.21)], [Calibrator("2026-05-01", 114.22)],
            ("change", 0.21), ("limit", 0.2)),
        new("calibrator-step", "downwards", [Calibrator("2026-05-01", 113.81)], [Calibrator("2026-05-01", 113.80)], ("change", -0.21)),
        // 99.892 kPa stand at 120 m (standard atmosphere, ISO 2533): between the lowest and the highest pressure of the calibrator.
        new("altitude", "lowest pressure", [Described("K1", ("lowest-kpa", 99.8))], [Described("K1", ("lowest-kpa", 99.9))]),
        new("altitude", "highest pressure", [Described("K1", ("highest-kpa", 99.9))], [Described("K1", ("highest-kpa", 99.8))]),
        new("barometer", "without", Kit("K1", "B1"), Kit("K1")),
        new("calibrator-class", "allowed", [Described("K1", ("calibrator-class", "1/C"))], [Described("K1", ("calibrator-class", "2/C"))]),
        new("parts-fit", "polarisation", [Described("M1", ("polarisation-v", 0))], [Described("M1", ("polarisation-v", 28))]),
        new("parts-fit", "powering", [Described("R1", ("powering", "Constant-Current"))], [Described("R1", ("powering", "battery"))]),
        // 1 dB is lost at 3642 Hz · 7 mm / height (image source, by hand): 2.5 mm reach 10.2 kHz, 2.6 mm 9.8 kHz.
        new("mount", "raised", Height(0.0025), Height(0.0026)),
        // Twelve months from the last inspection have to reach 10 July.
        new("plate-inspection", "valid through the last day", Inspected("2025-07-10"), Inspected("2025-07-09")),
        new("due", "valid through the last day", [Described("M1", ("interval-months", 4)), Newer("2026-03-10")],
            [Described("M1", ("interval-months", 4)), Newer("2026-03-09")], ("days missing", 1)),
        new("spares", "one of three stations", [], [Make.Of(new KitPlanned(KitPurpose.Spare, []), "2026-05-05", "campaign:C1")],
            ("spares", 0), ("wanted", 1)),
    ];

    private static Fact[] Inspected(string day) =>
    [
        Make.Annulling(Make.Of(new DeviceInspected(true, 0.05, null, 0.2, null), "2026-03-01", "device:G1")),
        Make.Of(new DeviceInspected(true, 0.05, null, 0.2, null), day, "device:G1"),
    ];

    private static Fact Newer(string day) => Make.Certificate("M1", day, -38.06);
}

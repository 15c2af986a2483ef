using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>What counts as a spare, and what spares are worth.</summary>
public sealed class SpareTests
{
    // Three stations whose channels are known to U = 0.4 dB only, so that each may fail; the spare is a microphone.
    [Fact]
    public void A_spare_microphone_cures_no_loss_of_a_channel()
    {
        var register = FactList.RegisterOf([.. Doubtful(), Plan(losses: 0)]);
        var report = Judge(register);
        double[] holding = [.. report.Stations.Select(s => s.Probability)];
        Assert.All(holding, p => Assert.InRange(p, 0.6, 0.9));
        Assert.Equal(1, report.UsableSpares);

        Assert.Equal(AtMost(holding, 0), report.ArrayProbability, 1e-12);
        Assert.Equal(AtMost(holding, 0), report.WithLossesProbability, 1e-12);
        Assert.Equal(Enumerated(report, register, 0), report.WithSparesProbability, 1e-12);
        Assert.InRange(report.WithSparesProbability, report.WithLossesProbability, AtMost(holding, 1) - 0.1);
        // No two microphones share a laboratory and a day, so that the array with a common shift is the same.
        Assert.Equal(AtMost(holding, 0), report.Common.AllHold, 1e-9);
        Assert.Equal(AtMost(holding, 0), report.Common.WithLosses, 1e-9);
        Assert.Equal(report.WithSparesProbability, report.Common.WithSpares, 1e-9);
        Assert.Equal(holding.Sum(p => 1 - p), report.Common.ExpectedLosses, 1e-6);
        Assert.Equal(0, report.Common.ShiftDb);
    }

    // Two spare channels, one as doubtful as those at the stations: each counts with its own probability and no more.
    [Fact]
    public void A_spare_channel_counts_with_its_own_probability()
    {
        var register = FactList.RegisterOf([.. Doubtful(), .. Channel("R4", 0.4), .. Channel("R5", 0.04), Kit("M4", "R4", "R5"), Plan(losses: 0)]);
        var report = Judge(register);

        var spares = report.Spares.ToDictionary(s => s.Device);
        Assert.All(spares.Values, s => Assert.Null(s.Why));
        Assert.InRange(spares["R4"].Probability, 0.6, 0.9);
        Assert.InRange(spares["R5"].Probability, 0.95, 1);
        Assert.All(spares.Values, s => Assert.Equal(3, s.Stations));
        Assert.Equal(Enumerated(report, register, 0), report.WithSparesProbability, 1e-12);
        double[] holding = [.. report.Stations.Select(s => s.Probability)];
        Assert.InRange(report.WithSparesProbability, report.WithLossesProbability + 0.1, AtMost(holding, 2) - 0.01);
        Assert.Equal(1, report.UsableSpares); // microphones alone
    }

    [Fact]
    public void Permitted_losses_count_beside_the_spares()
    {
        var register = FactList.RegisterOf([.. Doubtful(), .. Channel("R4", 0.04), Kit("M4", "R4"), Plan(losses: 1)]);
        var report = Judge(register);
        double[] holding = [.. report.Stations.Select(s => s.Probability)];

        Assert.Equal(AtMost(holding, 1), report.WithLossesProbability, 1e-12);
        Assert.Equal(Enumerated(report, register, 1), report.WithSparesProbability, 1e-12);
        Assert.Equal(AtMost(holding, 1), report.Common.WithLosses, 1e-9);
        Assert.Equal(report.WithSparesProbability, report.Common.WithSpares, 1e-9);
        // The least number of losses that holds with 0.95, by enumeration, less the one that is permitted.
        Assert.Equal(Enumerable.Range(0, 4).First(k => AtMost(holding, k) >= 0.95) - 1, report.Common.SparesWanted);
    }

    // A lost microphone, a lost plate, and a microphone that does not suit the mount: what another of its kind would mend, and what not.
    [Fact]
    public void What_stops_a_station_is_cured_by_a_spare_of_that_kind_where_the_device_alone_is_to_blame()
    {
        static Fact Lost(string device) => Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", "device:" + device);
        static ReadinessReport Of(params Fact[] more) => ReadinessTests.Judge([.. ReadinessTests.Sound(), Plan(losses: 0), .. more]);

        var microphone = Of(Lost("M1"));
        Assert.Equal(0, microphone.WithLossesProbability);
        Assert.InRange(microphone.WithSparesProbability, 0.8, 1);
        Assert.Equal(microphone.WithSparesProbability, microphone.Common.WithSpares, 1e-6);

        Assert.Equal(0, Of(Lost("G1")).WithSparesProbability);
        Fact[] plate =
        [
            Make.Registered("G4", "44", "ground-plate", ("diameter-mm", 400), ("thickness-mm", 5), ("material", "aluminium"), ("fits-mm", 12.7), ("plate-style", "flush")),
            Make.Of(new DeviceInspected(true, 0.05, null, 0.2, null), "2026-03-01", "device:G4"),
        ];
        Assert.Equal(0, Of([Lost("G1"), .. plate]).WithSparesProbability);
        Assert.InRange(Of([Lost("G1"), .. plate, Kit("M4", "G4")]).WithSparesProbability, 0.8, 1);
        // Both: it takes a spare of each.
        Assert.InRange(Of([Lost("G1"), Lost("M1"), .. plate, Kit("M4", "G4")]).WithSparesProbability, 0.8, 1);
        Assert.Equal(0, Of([Lost("G1"), Lost("M1"), .. plate, Kit("G4")]).WithSparesProbability);

        Assert.Equal(0, Of(ReadinessTests.Described("P1", ("size-mm", 6.35))).WithSparesProbability); // parts that do not fit
    }

    // M4 goes along, and stands at S1 of this campaign, at a station of another, or is taken in again.
    [Fact]
    public void What_stands_at_a_station_now_is_no_spare()
    {
        static Fact Placed(string campaign, string day) => Make.Of(
            new ChainPlaced("S9", ["M4"], [], null, null, null, null, null, [], null), day, "campaign:" + campaign, "device:M4");
        var other = Make.Of(
            new CampaignPlanned("Other", new(2026, 5, 25), new(2026, 6, 5), "Zone/Site", [], "Hill", 10, SourceClass.Jet, 50, 1000, null, null, "engineering-practice", 0, null),
            "2026-05-01", "campaign:C2");
        var takenIn = Make.Of(new ChainTakenIn("S9", ["M4"], [], null), "2026-05-29", "campaign:C2");
        static ReadinessReport Of(params Fact[] more) => ReadinessTests.Judge([.. ReadinessTests.Sound(), .. more]);

        var there = Of(other, Placed("C2", "2026-05-28"));
        Assert.Equal("stands at station S9 of Other", Assert.Single(there.Spares).Why);
        Assert.Equal(0, there.UsableSpares);
        Assert.Equal(there.WithLossesProbability, there.WithSparesProbability, 1e-12);
        var finding = Assert.Single(there.Findings, f => f.Rule == "spares");
        Assert.Contains("Not counted: ", finding.Text, StringComparison.Ordinal);
        Assert.Contains("stands at station S9 of Other", finding.Text, StringComparison.Ordinal);
        Assert.Equal("stands at station S9 of Trial", Assert.Single(Of(Placed("C1", "2026-05-28")).Spares).Why);
        Assert.Equal(1, Of(other, Placed("C2", "2026-05-28"), takenIn).UsableSpares);
        Assert.Equal(1, Of(other, Placed("C2", "2026-06-02")).UsableSpares); // after the day that is judged
    }

    // Random lists of spares of all kinds, doubtful and sound ones: no worse than none, no better than certain ones, and by enumeration.
    [Fact]
    public void Random_lists_of_spares_agree_with_all_outcomes()
    {
        var random = new Random(1609);
        var between = 0;
        for (var n = 0; n < 25; n++)
        {
            List<Fact> more = [.. Enumerable.Range(4, random.Next(4)).SelectMany(i => Channel("R" + i, random.Next(2) == 0 ? 0.3 : 0.04))];
            List<string> kit = [.. more.SelectMany(f => f.Subjects).Select(Subject.Id).Distinct()];
            if (random.Next(2) == 0) kit.Add("M4");
            var lost = random.Next(3);
            if (lost > 0) more.Add(Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", lost == 1 ? "device:M2" : "device:R2"));
            var permitted = random.Next(2);

            var register = FactList.RegisterOf([.. Doubtful(), .. more, Kit([.. kit]), Plan(permitted)]);
            var report = Judge(register);

            var certain = report with { Spares = [.. report.Spares.Select(s => s with { Probability = s.Why is null ? 1 : 0 })] };
            Assert.Equal(Enumerated(report, register, permitted), report.WithSparesProbability, 1e-12);
            Assert.InRange(report.WithSparesProbability, report.WithLossesProbability - 1e-12, Enumerated(certain, register, permitted) + 1e-12);
            if (report.WithSparesProbability > report.WithLossesProbability + 0.01 && report.WithSparesProbability < Enumerated(certain, register, permitted) - 0.001) between++;
        }
        Assert.InRange(between, 5, 25);
    }

    [Fact]
    public void What_stands_at_a_station_is_no_spare()
    {
        var alone = ReadinessTests.Judge([.. ReadinessTests.Sound(), Kit("M1")]);
        var beside = ReadinessTests.Judge([.. ReadinessTests.Sound(), Kit("M4", "M1", "M4")]);

        var finding = Assert.Single(alone.Findings, f => f.Rule == "spares");
        Assert.StartsWith("0 spare microphones go along; 1 are wanted", finding.Text, StringComparison.Ordinal);
        Assert.Equal(0, alone.UsableSpares);
        Assert.DoesNotContain(beside.Findings, f => f.Rule == "spares");
        Assert.Equal(1, beside.UsableSpares);
    }

    // A lost spare is a risk; a microphone that is needed at its station stops it, whatever list it stands on besides.
    [Fact]
    public void Only_what_merely_stands_by_is_judged_more_mildly()
    {
        static Fact Lost(string device) => Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-05-01", "device:" + device);

        static Gravity Of(params Fact[] more) =>
            Assert.Single(ReadinessTests.Judge([.. ReadinessTests.Sound(), .. more]).Findings, f => f.Rule == "unfit").Gravity;

        Assert.Equal(Gravity.Risks, Of(Lost("M4")));
        Assert.Equal(Gravity.Stops, Of(Kit("M4", "M1"), Lost("M1")));
    }

    [Fact]
    public void A_spare_that_is_marred_or_another_sort_counts_for_nothing()
    {
        int Usable(params Fact[] more) => ReadinessTests.Judge([.. ReadinessTests.Sound(), .. more]).UsableSpares;

        Assert.Equal(1, Usable());
        Assert.Equal(0, Usable(Make.Of(new DeviceStatusChanged(DeviceStatus.Away, null), "2026-05-01", "device:M4")));
        Assert.Equal(0, Usable(ReadinessTests.Described("M4", ("response-type", "free-field"))));
        Assert.Equal(0, Usable(ReadinessTests.Described("M4", ("size-mm", 6.35))));
        Assert.Equal(0, Usable(ReadinessTests.Described("M4", ("highest-hz", 9_999))));
        Assert.Equal(1, Usable(ReadinessTests.Described("M4", ("highest-hz", 10_000)))); // the plan asks for 10 kHz
        // Not known, and no finding against it.
        Assert.Equal(1, Usable(Make.Of(new DeviceDescribed([], ["highest-hz"]), "2026-05-01", "device:M4")));
        Assert.Equal(0, Usable(Kit("K1"))); // no microphone
    }

    private static ReadinessReport Judge(Register register) => CampaignReadiness.Judge(register, "C1", Make.Day("2026-06-01"))!;

    private static IEnumerable<Fact> Doubtful() => ReadinessTests.Sound().Concat(Enumerable.Range(1, 3).SelectMany(i => new[]
    {
        Make.Annulling(Make.Certificate("R" + i, "2026-02-01", 0, 0.04, "gain", "dB")),
        Make.Certificate("R" + i, "2026-02-02", 0, 0.4, "gain", "dB"),
    }));

    private static IEnumerable<Fact> Channel(string id, double expandedDb) =>
    [
        Make.Registered(id, "3" + id, "recorder-channel", ("powering", "constant-current"), ("connector", "round")),
        Make.Certificate(id, "2026-02-02", 0, expandedDb, "gain", "dB"),
    ];

    private static Fact Kit(params string[] devices) =>
        Make.Of(new KitPlanned(KitPurpose.Spare, devices), "2026-05-05", ["campaign:C1", .. devices.Distinct().Select(d => "device:" + d)]);

    private static Fact Plan(int losses) => Make.Of(
        new CampaignPlanned(
            "Trial", new(2026, 7, 1), new(2026, 7, 10), "Zone/Site", [], "Field", 120, SourceClass.SmallMultirotor, 50, 10_000, 40, 120,
            "small-unmanned-flush", losses, null),
        "2026-05-05", "campaign:C1");

    // A second implementation: every outcome of every microphone, channel and plate at the stations and of every spare that counts, with the
    // least number of stations lost for all ways to give spares to them. Probabilities of devices are asked of the book of drift.
    private static double Enumerated(ReadinessReport report, Register register, int permitted)
    {
        var book = register.Drift(report.Today);
        double Holds(string id) =>
            report.Findings.Any(f => f.Device == id && f.Gravity == Gravity.Stops) ? 0
            : book.Of(id) is { } drift ? drift.At(report.LastDay).ProbabilityWithin(drift.Series.InUseDb, 0.3)
            : 1;
        var parts = report.Stations.SelectMany((s, i) => s.Devices.Select(d => (Station: i, Kind: d[0], P: Holds(d)))).Where(p => p.P < 1).ToList();
        var spares = report.Spares.Where(s => s.Why is null).Select(s => (Kind: s.Device[0], P: s.Probability)).ToList();
        double sum = 0;
        for (var o = 0; o < 1 << (parts.Count + spares.Count); o++)
        {
            var p = parts.Select(x => x.P).Concat(spares.Select(x => x.P)).Select((x, i) => (o >> i & 1) == 1 ? x : 1 - x).Aggregate(1.0, (a, b) => a * b);
            if (p == 0) continue;
            var lacking = parts.Where((_, i) => (o >> i & 1) == 0).GroupBy(x => x.Station).Select(g => g.Select(x => x.Kind).ToList()).ToList();
            var good = spares.Where((_, i) => (o >> (parts.Count + i) & 1) == 1).Select(s => s.Kind).ToList();
            var cured = Enumerable.Range(0, 1 << lacking.Count).Where(set => lacking.Where((_, i) => (set >> i & 1) == 1).SelectMany(k => k).GroupBy(k => k)
                .All(g => g.Count() <= good.Count(k => k == g.Key))).Max(set => System.Numerics.BitOperations.PopCount((uint)set));
            if (lacking.Count - cured <= permitted) sum += p;
        }
        return sum;
    }

    // By enumeration of which stations are lost.
    private static double AtMost(double[] holding, int losses) => Enumerable.Range(0, 1 << holding.Length)
        .Where(lost => System.Numerics.BitOperations.PopCount((uint)lost) <= losses)
        .Sum(lost => holding.Select((p, i) => (lost >> i & 1) == 1 ? 1 - p : p).Aggregate(1.0, (a, b) => a * b));
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>What counts as a spare, and what spares are worth.</summary>
public sealed class SpareTests
{
    // Three stations whose channels are known to U = 0.4 dB only, so that each may fail; no loss is permitted and one spare goes along.
    [Fact]
    public void Each_fit_spare_makes_up_for_one_loss_and_no_more()
    {
        var report = ReadinessTests.Judge([.. Doubtful(), Plan(losses: 0)]);
        double[] holding = [.. report.Stations.Select(s => s.Probability)];
        Assert.All(holding, p => Assert.InRange(p, 0.6, 0.9));
        Assert.Equal(1, report.UsableSpares);

        Assert.Equal(AtMost(holding, 0), report.ArrayProbability, 1e-12);
        Assert.Equal(AtMost(holding, 0), report.WithLossesProbability, 1e-12);
        Assert.Equal(AtMost(holding, 1), report.WithSparesProbability, 1e-12);
        // No two microphones share a laboratory and a day, so that the array with a common shift is the same.
        Assert.Equal(AtMost(holding, 0), report.Common.AllHold, 1e-9);
        Assert.Equal(AtMost(holding, 0), report.Common.WithLosses, 1e-9);
        Assert.Equal(AtMost(holding, 1), report.Common.WithSpares, 1e-9);
        Assert.Equal(holding.Sum(p => 1 - p), report.Common.ExpectedLosses, 1e-6);
        Assert.Equal(0, report.Common.ShiftDb);
    }

    [Fact]
    public void Permitted_losses_count_beside_the_spares()
    {
        var report = ReadinessTests.Judge([.. Doubtful(), Plan(losses: 1)]);
        double[] holding = [.. report.Stations.Select(s => s.Probability)];

        Assert.Equal(AtMost(holding, 1), report.WithLossesProbability, 1e-12);
        Assert.Equal(AtMost(holding, 2), report.WithSparesProbability, 1e-12);
        Assert.Equal(AtMost(holding, 1), report.Common.WithLosses, 1e-9);
        Assert.Equal(AtMost(holding, 2), report.Common.WithSpares, 1e-9);
        // The least number of losses that holds with 0.95, by enumeration, less the one that is permitted.
        Assert.Equal(Enumerable.Range(0, 4).First(k => AtMost(holding, k) >= 0.95) - 1, report.Common.SparesWanted);
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

    private static IEnumerable<Fact> Doubtful() => ReadinessTests.Sound().Concat(Enumerable.Range(1, 3).SelectMany(i => new[]
    {
        Make.Annulling(Make.Certificate("R" + i, "2026-02-01", 0, 0.04, "gain", "dB")),
        Make.Certificate("R" + i, "2026-02-02", 0, 0.4, "gain", "dB"),
    }));

    private static Fact Kit(params string[] devices) =>
        Make.Of(new KitPlanned(KitPurpose.Spare, devices), "2026-05-05", ["campaign:C1", .. devices.Distinct().Select(d => "device:" + d)]);

    private static Fact Plan(int losses) => Make.Of(
        new CampaignPlanned(
            "Trial", new(2026, 7, 1), new(2026, 7, 10), "Zone/Site", [], "Field", 120, SourceClass.SmallMultirotor, 50, 10_000, 40, 120,
            "small-unmanned-flush", losses, null),
        "2026-05-05", "campaign:C1");

    // By enumeration of which stations are lost.
    private static double AtMost(double[] holding, int losses) => Enumerable.Range(0, 1 << holding.Length)
        .Where(lost => System.Numerics.BitOperations.PopCount((uint)lost) <= losses)
        .Sum(lost => holding.Select((p, i) => (lost >> i & 1) == 1 ? 1 - p : p).Aggregate(1.0, (a, b) => a * b));
}

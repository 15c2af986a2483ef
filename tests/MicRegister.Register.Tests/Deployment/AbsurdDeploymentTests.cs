using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Deployment;

/// <summary>
/// What phones can say within the bounds of facts and no crew would: work and findings stay in proportion to what was said.
/// </summary>
public sealed class AbsurdDeploymentTests
{
    private const string C = "campaign:C";

    [Fact]
    public void A_device_at_three_thousand_stations_at_once_fails_each_and_is_told_in_proportion()
    {
        const int Stations = 3000;
        var register = FactList.RegisterOf([Plan(), Make.Registered("A", "1"), .. Enumerable.Range(0, Stations)
            .Select(n => Placed(n, $"S{n:0000}", ["A"]))]);

        var findings = DeploymentFindings.Of(register, "C").Where(f => f.Rule == "placed-twice").ToList();

        // Pairs would be four and a half million.
        Assert.InRange(findings.Count, 20, Stations + 20);
        var named = findings.SelectMany(f => f.Facts).ToHashSet();
        Assert.Equal(Stations, ArrayDeployment.Of(register, "C").Placements.Count(p => named.Contains(p.Fact.ToString())));
        var standing = StationStanding.Of(register, register.Campaign("C")!, ArrayDeployment.Of(register, "C"), []);
        Assert.All(standing, s => Assert.Equal(StationState.Failing, s.State));
        Assert.All(standing, s => Assert.InRange(s.Reasons.Count, 1, 110));
    }

    [Fact]
    public void Placements_that_only_touch_are_no_finding_however_many()
    {
        List<Fact> facts = [Plan(), Make.Registered("A", "1")];
        for (var n = 0; n < 1000; n++)
        {
            facts.Add(Placed(2 * n, $"S{n:0000}", ["A"]));
            facts.Add(Make.Of(new ChainTakenIn($"S{n:0000}", ["A"], [], null), At((2 * n) + 1), (2 * n) + 1, C, "device:A"));
        }
        // One more in between, long after the first ones.
        facts.Add(Placed(1500, "S9999", ["A"]));
        var register = FactList.RegisterOf(facts);

        var findings = DeploymentFindings.Of(register, "C").Where(f => f.Rule == "placed-twice").ToList();

        // From the 750th on, all stand beside it: twenty pairs, then each of the other 230 by itself.
        Assert.Equal(20 + 230, findings.Count);
        Assert.All(findings, f => Assert.DoesNotContain("S0749 (", f.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_chain_of_thousands_of_devices_is_read_in_proportion()
    {
        const int Devices = 2000;
        List<string> ids = [.. Enumerable.Range(0, Devices).Select(n => $"D{n:0000}")];
        List<Fact> facts = [Plan(), .. Enumerable.Range(0, 5).Select(n => Placed(n, "S" + n, ids))];
        var counted = new CountedReads(facts);
        var register = Register.Empty(counted).With(facts);
        _ = ArrayDeployment.Of(register, "C");
        counted.Reads = 0;

        var findings = DeploymentFindings.Of(register, "C");

        // One read a placement for all its devices; the folds of the devices read no placement. Once a device and placement, it would be
        // ten thousand.
        Assert.InRange(counted.Reads, 1, 100);
        Assert.Equal(Devices * 5, findings.Count(f => f.Rule == "device-unknown"));
    }

    [Fact]
    public void Missing_parts_are_looked_up_and_not_searched_for()
    {
        List<Fact> facts = [Plan(), Make.Registered("A", "1"), Make.Registered("B", "2"), Make.Registered("L", "3")];
        facts.Add(Placed(0, "S0", ["A", "B"]));
        facts.Add(Make.Of(new ChainTakenIn("S0", [], ["A", "B", "L", "NOBODY"], null), At(1), 1, C));
        facts.Add(Placed(2, "S1", ["A"])); // found again
        facts.Add(Make.Of(new ChainTakenIn("S2", ["L"], [], null), At(3), 3, C));

        var missing = DeploymentFindings.Of(FactList.RegisterOf(facts), "C")
            .Where(f => f.Rule == "missing-at-take-in").Select(f => f.Subjects[0]);

        Assert.Equal(["device:B"], missing);
    }

    private static Fact Plan() => Make.Of(
        new CampaignPlanned("Campaign", new(2026, 5, 1), new(2026, 5, 9), "UTC", [], "Site", 100, SourceClass.Jet, 50, 10_000, null, null,
            "small-unmanned-flush", 0, null), "2026-04-01", C);

    private static Fact Placed(int n, string station, IReadOnlyList<string> devices) => Make.Of(
        new ChainPlaced(station, devices, [], null, null, new(n % 2 == 0 ? 89.9 : -89.9, 179.9, 1e8), null, null, [], null), At(n), n,
            [C, .. devices.Select(d => "device:" + d)]);

    private static string At(int minute) => new DateTimeOffset(2026, 5, 2, 0, 0, 0, TimeSpan.Zero).AddMinutes(minute)
        .ToString("yyyy-MM-ddTHH:mm:ss.fffZ", System.Globalization.CultureInfo.InvariantCulture);
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;

namespace MicRegister.Register.Tests.Deployment;

public sealed class DeploymentTests
{
    private const string C = "HEATH-26";
    private static readonly string Blank = LabelCode.TryRead("2AYS641TS", out var code, out _) ? code.Text : "";

    [Fact]
    public void A_chain_stands_from_its_placement_until_it_is_taken_in()
    {
        var register = Register(Placed("S1", "08:00", "M1", "P1"), TakenIn("S1", "18:00", ["M1", "P1"]));

        var placement = Assert.Single(ArrayDeployment.Of(register, C).Placements);
        Assert.Equal(PlacementEnd.TakenIn, placement.End);
        Assert.True(placement.StoodAt(Ms("08:00")));
        Assert.True(placement.StoodAt(Ms("17:59")));
        Assert.False(placement.StoodAt(Ms("18:00"))); // the end belongs to it no longer
        Assert.False(placement.StoodAt(Ms("07:59")));
        Assert.Empty(DeploymentFindings.Of(register, C));
        Assert.Equal([("S1", StationState.TakenIn), ("S2", StationState.Planned)], Standing(register));
    }

    [Fact]
    public void A_swap_ends_the_chain_and_begins_another()
    {
        var register = Register(Placed("S1", "08:00", "M1", "P1"), Placed("S1", "10:00", ["M2", "P1"], swap: new("M1", "M2", "no signal")));

        var deployment = ArrayDeployment.Of(register, C);
        Assert.Equal([PlacementEnd.Swapped, null], deployment.Placements.Select(p => p.End));
        Assert.Equal("M1", deployment.At("S1", Ms("09:59"))!.Devices[0]);
        Assert.Equal("M2", deployment.At("S1", Ms("10:00"))!.Devices[0]);
        Assert.Equal("M2", deployment.At("S1")!.Devices[0]);
        Assert.Empty(DeploymentFindings.Of(register, C));
    }

    [Fact]
    public void One_device_at_two_stations_is_a_finding_whichever_came_first_and_annulling_one_settles_it()
    {
        var (first, second) = (Placed("S1", "08:00", "M1", "P1"), Placed("S2", "09:00", "M1", "P2"));
        foreach (var register in new[] { Register(first, second), Register(second, first) })
        {
            var finding = Assert.Single(DeploymentFindings.Of(register, C));
            Assert.Equal("placed-twice", finding.Rule);
            Assert.Contains("S1", finding.Text, StringComparison.Ordinal);
            Assert.Contains("S2", finding.Text, StringComparison.Ordinal);
            Assert.Equal([first.Id.ToString(), second.Id.ToString()], finding.Facts);
            Assert.Equal([("S1", StationState.Failing), ("S2", StationState.Failing)], Standing(register));
        }
        Assert.Empty(DeploymentFindings.Of(Register(first, second, Make.Annulling(first)), C));
        Assert.Empty(DeploymentFindings.Of(Register(first, TakenIn("S1", "08:30", ["M1", "P1"]), second), C));
    }

    [Fact]
    public void A_phone_whose_clock_is_wrong_is_put_right_before_anything_contradicts()
    {
        // Taken in at 08:30 by a phone that runs two hours ahead: it says 10:30.
        var taken = FactText.WriteDerived(new(At("10:30"), "P1", "phone-2.WXYZ", 5), new ChainTakenIn("S1", ["M1", "P1"], [], null), Subjects(["M1", "P1"]));
        Fact[] facts = [Placed("S1", "08:00", "M1", "P1"), Placed("S2", "09:00", "M1", "P2"), taken];

        Assert.Single(DeploymentFindings.Of(Register(facts), C));
        Assert.Empty(DeploymentFindings.Of(Register([.. facts, FactText.WriteDerived(new(At("11:00"), "P1", "server", 1), new ClientClockNoticed("phone-2.WXYZ", 0, -7_200_000), [Subject.TheRegister])]), C));
    }

    [Fact]
    public void Taken_in_but_never_placed_is_a_finding()
    {
        var finding = Assert.Single(DeploymentFindings.Of(Register(TakenIn("S1", "18:00", ["M1"])), C));
        Assert.Equal("taken-in-unplaced", finding.Rule);
    }

    [Fact]
    public void What_was_missing_stays_open_until_it_is_found_or_lost()
    {
        Fact[] facts = [Placed("S1", "08:00", "M1", "P1"), TakenIn("S1", "18:00", ["M1"], ["P1"])];
        Assert.Equal("missing-at-take-in", Assert.Single(DeploymentFindings.Of(Register(facts), C)).Rule);

        Assert.Empty(DeploymentFindings.Of(Register([.. facts, Make.Of(new DeviceStatusChanged(DeviceStatus.Lost, "stolen"), "2026-06-03", "device:P1")]), C));
        Assert.DoesNotContain(DeploymentFindings.Of(Register([.. facts, TakenIn("S1", "19:00", ["P1"])]), C), f => f.Rule == "missing-at-take-in");
    }

    [Fact]
    public void A_label_that_nobody_knows_is_a_finding_until_it_is_bound_and_then_its_device_stands_there()
    {
        var placed = Placed("S1", "08:00", ["P1"], unknown: [Blank]);
        var register = Register(placed);
        Assert.Equal("label-unknown", Assert.Single(DeploymentFindings.Of(register, C)).Rule);
        Assert.Equal([Blank], ArrayDeployment.Of(register, C).At("S1")!.UnknownLabels);

        var bound = Register(placed, Make.Of(new LabelBound(Blank, null), "2026-06-05", Subject.Label(Blank), "device:M1"));

        Assert.Empty(DeploymentFindings.Of(bound, C));
        Assert.Equal(["P1", "M1"], ArrayDeployment.Of(bound, C).At("S1")!.Devices);
    }

    [Fact]
    public void A_station_that_was_not_planned_and_a_device_that_is_not_registered_are_findings()
    {
        var rules = DeploymentFindings.Of(Register(Placed("S9", "08:00", "M1", "NOBODY")), C).Select(f => f.Rule);
        Assert.Equal(["device-unknown", "station-unknown"], rules);
    }

    [Fact]
    public void A_device_in_two_campaigns_at_once_is_a_finding_and_a_campaign_that_was_never_taken_in_ends_after_its_last_day()
    {
        var other = FactText.WriteDerived(new(Make.On("2026-06-02T09:00:00.000Z"), "P1", "phone-1.ABCD", 9), new ChainPlaced("X1", ["M1"], [], null, null, null, null, null, [], null), ["campaign:MOOR-26", "device:M1"]);
        Assert.Equal("placed-twice", Assert.Single(DeploymentFindings.Of(Register(Placed("S1", "08:00", "M1"), other, Planned("MOOR-26", "2026-06-01", "2026-06-05")), C)).Rule);

        var old = FactText.WriteDerived(new(Make.On("2026-05-02T09:00:00.000Z"), "P1", "phone-1.ABCD", 9), new ChainPlaced("X1", ["M1"], [], null, null, null, null, null, [], null), ["campaign:MOOR-26", "device:M1"]);
        Assert.Empty(DeploymentFindings.Of(Register(Placed("S1", "08:00", "M1"), old, Planned("MOOR-26", "2026-05-01", "2026-05-05")), C));
    }

    [Fact]
    public void A_check_makes_a_station_checked_a_bad_one_makes_it_fail_and_one_of_another_chain_says_nothing()
    {
        Fact Checked(string time, double deviation, params string[] devices) =>
            FactText.WriteDerived(new(At(time), "P1", "phone-1.ABCD", 3), Make.Check("S1", CheckMoment.Before, deviation, devices), ["campaign:" + C, .. devices.Select(d => "device:" + d), "device:K1"]);

        var placed = Placed("S1", "08:00", "M1", "P1");
        Assert.Equal(StationState.Checked, Standing(Register(placed, Checked("08:10", 0.05, "M1", "P1")))[0].State);
        Assert.Equal(StationState.Failing, Standing(Register(placed, Checked("08:10", 0.9, "M1", "P1")))[0].State);
        Assert.Equal(StationState.Placed, Standing(Register(placed, Checked("08:10", 0.05, "M2", "P1")))[0].State);
        Assert.Equal(StationState.Placed, Standing(Register(placed, Checked("07:50", 0.05, "M1", "P1")))[0].State); // before it stood there
    }

    [Fact]
    public void A_device_that_is_reported_fails_its_station()
    {
        var register = Register(Placed("S1", "08:00", "M1", "P1"), Make.Of(new DeviceServiced(ServiceKind.Damage, "water in the capsule", false), "2026-06-02", "device:M1"));

        var station = StationStanding.Of(register, register.Campaign(C)!, ArrayDeployment.Of(register, C), [])[0];
        Assert.Equal(StationState.Failing, station.State);
        Assert.Contains("water in the capsule", Assert.Single(station.Reasons, r => r.Contains("water", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_tone_waits_until_a_check_of_its_recording_stands_for_it()
    {
        var tone = FactText.WriteDerived(new(At("08:10"), "P1", "phone-1.ABCD", 3), new ToneNoted("S1", CheckMoment.Before, ["M1"], "K1", null, null, null), ["campaign:" + C, "device:M1", "device:K1"]);
        var recorded = Make.Check("S1", CheckMoment.Before, 0.05, "M1") with { Method = CheckMethod.Recording };
        var joined = FactText.WriteDerived(new(At("12:00"), "P1", "desk", 4), recorded, ["campaign:" + C, "device:M1", "device:K1"]);

        int Waiting(params Fact[] facts) => Register(facts) is var register ? ArrayDeployment.Of(register, C).Unjoined(CheckBook.OfCampaign(register, C)).Count() : 0;
        Assert.Equal(1, Waiting(tone));
        Assert.Equal(0, Waiting(tone, joined));
    }

    [Fact]
    public void The_distance_from_the_plan_is_on_the_plane()
    {
        // 0.001 degrees of latitude are 111.32 m; of longitude at 53 degrees cos 53° = 0.601815 of it: 66.99 m. By hand.
        Assert.Equal(111.32, new PhonePosition(53, 1, 5).MetresTo(53.001, 1), 0.01);
        Assert.Equal(66.994, new PhonePosition(53, 1, 5).MetresTo(53, 1.001), 0.01);
    }

    [Fact]
    public void Each_phone_is_seen_with_what_it_did()
    {
        var seen = ArrayDeployment.Of(Register(Placed("S1", "08:00", "M1"), Placed("S2", "08:20", "M2"), TakenIn("S1", "18:00", ["M1"])), C).Seen;
        Assert.Equal(new ClientSeen("phone-1.ABCD", "P1", Ms("18:00"), 2, 1), Assert.Single(seen));
    }

    private static Fact Placed(string station, string time, params string[] devices) => Placed(station, time, devices, null);

    private static Fact Placed(string station, string time, string[] devices, PartSwap? swap = null, string[]? unknown = null) =>
        FactText.WriteDerived(new(At(time), "P1", "phone-1.ABCD", 1), new ChainPlaced(station, devices, unknown ?? [], null, null, null, null, swap, [], null), [.. Subjects(devices), .. (unknown ?? []).Select(Subject.Label)]);

    private static Fact TakenIn(string station, string time, string[] devices, string[]? missing = null) =>
        FactText.WriteDerived(new(At(time), "P1", "phone-1.ABCD", 2), new ChainTakenIn(station, devices, missing ?? [], null), Subjects([.. devices, .. missing ?? []]));

    private static string[] Subjects(string[] devices) => ["campaign:" + C, .. devices.Select(d => "device:" + d)];

    private static Occurred At(string time) => Make.On($"2026-06-02T{time}:00.000Z");

    private static long Ms(string time) => At(time).UnixMilliseconds;

    private static Fact Planned(string campaign, string first, string last) =>
        Make.Of(new CampaignPlanned(campaign, Make.Day(first), Make.Day(last), "UTC", [new("2025-01-01T00:00:00.000Z", 0)], "Heath", 20, SourceClass.Propeller, 20, 10_000, null, null, "small-unmanned-flush", 0, null), "2026-05-01", "campaign:" + campaign);

    private static Register Register(params Fact[] facts) => FactList.RegisterOf(
    [
        Planned(C, "2026-06-01", "2026-06-10"),
        Make.Of(new StationPlanned("S1", 53, 1, Mount.FlushPlate, null), "2026-05-01", 1, "campaign:" + C),
        Make.Of(new StationPlanned("S2", 53.001, 1, Mount.FlushPlate, null), "2026-05-01", 2, "campaign:" + C),
        Make.Registered("M1", "1"), Make.Registered("M2", "2"), Make.Registered("P1", "3", "preamplifier"), Make.Registered("P2", "4", "preamplifier"), Make.Registered("K1", "5", "sound-calibrator"),
        .. facts,
    ]);

    private static List<(string Station, StationState State)> Standing(Register register) =>
        [.. StationStanding.Of(register, register.Campaign(C)!, ArrayDeployment.Of(register, C), CheckBook.OfCampaign(register, C)).Select(s => (s.Station, s.State))];
}

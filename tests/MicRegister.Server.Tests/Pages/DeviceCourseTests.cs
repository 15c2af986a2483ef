using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Devices;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Where a device was and what was done with it, in the order of time.</summary>
public sealed class DeviceCourseTests : PageContext
{
    [Fact]
    public async Task Campaigns_stations_places_and_work_stand_in_one_order()
    {
        var (client, counter) = ("desk", 0);
        Fact Of(FactBody body, string at, params string[] subjects) => FactText.WriteDerived(
            new(Occurred.TryParse(at, out var day) ? day : throw new ArgumentException(at, nameof(at)), "P1", client, counter++), body,
            subjects);
        var plan = new CampaignPlanned(
            "Heath 26", new(2026, 7, 1), new(2026, 7, 9), "UTC", [], "heath", 100, SourceClass.Propeller, 50, 10_000, null, null,
            BuiltInProfiles.Usual, 0, null);
        await Live.Submit(
        [
            Of(plan, "2026-01-01", "campaign:HEATH"),
            Of(new ChainPlanned("S1", ["A1"]), "2026-01-02", "campaign:HEATH", "device:A1"),
            Of(new DeviceRegistered("microphone", null, null, "1", []), "2020-01-01", "device:A1"),
            Of(new DeviceMoved("van 2"), "2026-06-01", "device:A1"),
            Of(new DeviceStatusChanged(DeviceStatus.Away, "laboratory"), "2026-05-01", "device:A1"),
            Of(new DeviceServiced(ServiceKind.Repair, "new grid", true), "2025-04-01", "device:A1"),
            Of(new DeviceInspected(true, 0.1, null, null, "clean"), "2026-06-20", "device:A1"),
            Of(
                new ChainPlaced("S1", ["A1"], [], null, true, null, 10, null, [], null), "2026-07-02T08:00:00.000Z", "campaign:HEATH",
                "device:A1"),
            Of(new ChainTakenIn("S1", ["A1"], [], null), "2026-07-02T18:30:00.000Z", "campaign:HEATH", "device:A1"),
        ], "test");

        var rows = DeviceCourse.Of(Live.Now, Live.Now.Device("A1")!);

        Assert.Equal(
            [
                "2026-07-02 placed at S1", "2026-07-01 planned for Heath 26", "2026-06-20 inspected: passed", "2026-06-01 moved",
                "2026-05-01 away", "2025-04-01 repair",
            ],
            rows.Select(r => $"{r.DayText} {r.What}"));
        Assert.Contains("taken in 2026-07-02 18:30", rows[0].Text, StringComparison.Ordinal);
        Assert.Equal("board/HEATH?station=S1", rows[0].Address);
        Assert.Equal(("station S1, through 2026-07-09", "campaigns/HEATH?station=S1"), (rows[1].Text, rows[1].Address));
        Assert.Equal("step 0.10 mm, clean", rows[2].Text);
        Assert.Equal("new grid Results begin anew with it.", rows[5].Text);
    }
}

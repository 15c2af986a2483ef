using Bunit;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Server.Outdoors;
using MicRegister.Server.Pages.Fleet;
using MicRegister.Server.Pages.Labels;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Devices marked in the fleet get labels of their own: those and no others, whatever state they are in.</summary>
public sealed class MarkedLabelsTests : PageContext
{
    private static Fact Registered(string id, string serial) => FactText.WriteDerived(
        FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("cable", null, "X", serial, []), [Subject.Device(id)]);

    private async Task Three() => await Live.Submit(
        [
            Registered("A", "1"), Registered("B", "2"), Registered("C", "3"),
            FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 1),
                new DeviceStatusChanged(DeviceStatus.Retired, null), [Subject.Device("B")]),
        ],
        "test");

    private IRenderedComponent<LabelsPage> Labels(string address)
    {
        Services.GetRequiredService<NavigationManager>().NavigateTo(address);
        return Render<LabelsPage>();
    }

    [Fact]
    public async Task The_marked_get_their_codes_and_their_sheet()
    {
        await Three();
        var page = Labels(LabelsPage.Address(["A", "B", "gone"])!);

        Assert.Equal("the 2 marked devices", page.Find("option[selected], option").TextContent);
        Assert.Contains("1 of the marked devices is not in the register.", page.Markup, StringComparison.Ordinal);
        Assert.Contains("2 of them have no label yet.", page.Markup, StringComparison.Ordinal);
        await page.FindAll("button").Single(b => b.TextContent.Contains("Give each a code", StringComparison.Ordinal)).ClickAsync(new());

        Assert.All(["A", "B"], id => Assert.NotNull(Live.Now.Device(id)!.Label));
        Assert.Null(Live.Now.Device("C")!.Label);
        page.Render();
        Assert.EndsWith("&device=A&device=B", page.Find("a.act[download]").GetAttribute("href"), StringComparison.Ordinal);
        // What the sheet is made of is what the page counted.
        var order = new LabelOrder(null, [], null, null) { Ids = ["A", "B", "A"] };
        Assert.Equal(["1", "2"], order.Labels(Live.Now).Select(l => l.Values["serial"]));
    }

    [Fact]
    public async Task Without_marks_nothing_of_them_is_offered_and_too_many_have_no_address()
    {
        await Three();

        Assert.DoesNotContain("marked device", Labels("labels").Markup, StringComparison.Ordinal);
        Assert.Null(LabelsPage.Address(Enumerable.Range(0, 1000).Select(i => "device" + i)));
    }

    [Fact]
    public async Task The_fleet_leads_from_its_marks_to_their_labels()
    {
        await Three();
        var fleet = Render<FleetPage>();

        await fleet.FindAll("tbody input[type=checkbox]")[2].ChangeAsync(true);

        var print = fleet.FindAll(".marked-bar a").Single(a => a.TextContent.Trim() == "Print labels");
        Assert.Equal(LabelsPage.Address(["C"]), print.GetAttribute("href"));
    }
}

using Bunit;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Fleet;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The page of the fleet gives what it shows as files.</summary>
public sealed class FleetPageTests : PageContext
{
    [Fact]
    public async Task Files_are_of_what_is_shown()
    {
        var cable = new DeviceRegistered("cable", "M & Co", "X", "1", []);
        await Live.Submit([FactText.WriteDerived(new(Occurred.Unknown, "ada", "desk", 1), cable, [Subject.Device("C")])], "test");
        Services.GetRequiredService<NavigationManager>().NavigateTo("fleet?q=m %26&kind=cable&sort=-serial");

        var page = Render<FleetPage>();

        Assert.Equal(
            [
                "api/fleet/devices.csv?q=m%20%26&kind=cable", "api/fleet/devices.xlsx?q=m%20%26&kind=cable",
                "api/fleet/results.csv?q=m%20%26&kind=cable", "api/fleet/results.xlsx?q=m%20%26&kind=cable",
                "api/fleet/inspections.csv?q=m%20%26&kind=cable", "api/fleet/inspections.xlsx?q=m%20%26&kind=cable",
                "api/fleet/register.xlsx",
            ],
            page.FindAll("a[download]").Select(a => a.GetAttribute("href")));
    }

    [Fact]
    public async Task Rows_follow_a_key_before_the_address_has_come_round()
    {
        await Live.Submit([.. new[] { "41", "42" }.Select(serial => FactText.WriteDerived(
            FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("cable", null, "X", serial, []),
            [Subject.Device("C" + serial)]))], "test");
        var page = Render<FleetPage>();
        using var held = Services.GetRequiredService<NavigationManager>().RegisterLocationChangingHandler(going =>
        {
            going.PreventNavigation();
            return ValueTask.CompletedTask;
        });

        await page.Find("[data-filters] input").InputAsync("42");

        Assert.StartsWith("1 of 2 devices", page.Find("[role=status]").TextContent, StringComparison.Ordinal);
        Assert.Equal("42", page.Find("[data-filters] input").GetAttribute("value"));
    }

    [Fact]
    public void Where_nothing_is_shown_there_is_no_file() => Assert.Empty(Render<FleetPage>().FindAll("a[download]"));
}

using Bunit;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Server.Pages.Start;
using MicRegister.Server.Setup;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The way from an empty register to the first verdict.</summary>
public sealed class FirstStepsTests : PageContext
{
    private readonly TaskCompletionSource<Uri> _glance = new();
    private int _counter;

    private protected override ServerOptions Options => new() { Glance = _ => _glance.Task };

    [Fact]
    public async Task Each_step_is_ticked_by_what_is_there()
    {
        var page = Render<FirstSteps>();
        Assert.Empty(Done(page));
        Assert.Contains("The register is empty", page.Markup, StringComparison.Ordinal);

        await Meanwhile(Said(new DeviceRegistered("microphone", "House", "A", "1", new(StringComparer.Ordinal)), "device:M1"));
        page.WaitForAssertion(() => Assert.Equal(["Take over the fleet"], Done(page)));
        Assert.Contains("Done: 1 device", page.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("Look at an invented fleet", page.Markup, StringComparison.Ordinal);

        var code = LabelCode.Draw(n => [.. Enumerable.Repeat((byte)7, n)]);
        await Meanwhile(Said(new LabelBound(code.Text, null), "label:" + code.Text, "device:M1"), Said(Plan(), "campaign:C1"));
        page.WaitForAssertion(() => Assert.Equal(["Take over the fleet", "Print labels"], Done(page)));
        Assert.Contains("One with ", page.Markup, StringComparison.Ordinal); // planned, and no station yet: not ticked

        await Meanwhile(Said(new StationPlanned("S1", 53, 8, Mount.FlushPlate, null), "campaign:C1"));
        page.WaitForAssertion(() => Assert.Equal(["Take over the fleet", "Plan a campaign", "Print labels"], Done(page)));
        Assert.Equal("plan/C1", page.FindAll("li a")[2].GetAttribute("href"));

        // A chain gives a verdict: whoever has one needs no way to it.
        await Meanwhile(Said(new ChainPlanned("S1", ["M1"]), "campaign:C1", "device:M1"));
        page.WaitForAssertion(() => Assert.Empty(page.FindAll(".first-steps")));
    }

    [Fact]
    public async Task The_invented_fleet_is_opened_in_a_register_of_its_own()
    {
        var page = Render<FirstSteps>();
        var click = Key(page).ClickAsync(new());
        Assert.Contains("is being taken over", page.Find("[role=status]").TextContent, StringComparison.Ordinal);
        Assert.True(Key(page).HasAttribute("disabled"));

        _glance.SetResult(new("http://127.0.0.1:6123"));
        await click;

        // By the machine's other name, so that cookies do not meet.
        var navigation = Services.GetRequiredService<NavigationManager>();
        page.WaitForAssertion(() => Assert.Equal("http://127.0.0.1:6123/", navigation.Uri));
        Assert.Equal(0, Live.Now.Count);
    }

    [Fact]
    public async Task What_cannot_be_opened_is_said()
    {
        var page = Render<FirstSteps>();
        var click = Key(page).ClickAsync(new());
        _glance.SetException(new IOException("no room"));
        await click;

        page.WaitForAssertion(() => Assert.False(Key(page).HasAttribute("disabled")));
        Assert.Contains(Services.GetRequiredService<MudBlazor.ISnackbar>().ShownSnackbars, s => s.Message!.Contains("no room", StringComparison.Ordinal));
    }

    private static AngleSharp.Dom.IElement Key(IRenderedComponent<FirstSteps> page) =>
        page.FindAll("button").Single(b => b.TextContent.Contains("invented fleet", StringComparison.Ordinal));

    private static IEnumerable<string> Done(IRenderedComponent<FirstSteps> page) => page.FindAll("li.done a").Select(a => a.TextContent);

    private static CampaignPlanned Plan() => new(
        "One", new(2026, 9, 1), new(2026, 9, 9), "UTC", [new("2026-01-01T00:00:00.000Z", 0)], "Heath", 100, SourceClass.Propeller,
        50, 10_000, null, null, BuiltInProfiles.Usual, 0, null);

    private Fact Said(FactBody body, params string[] subjects) =>
        FactText.WriteDerived(new(Occurred.On(new(2026, 8, 1)), "P2", "desk", ++_counter), body, subjects);
}

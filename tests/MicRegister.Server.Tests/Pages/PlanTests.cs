using AngleSharp.Dom;
using Bunit;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Campaigns;
using MicRegister.Server.Pages.Parts;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Planning by hand: nothing that was typed is lost, and what belongs together is said together.</summary>
public sealed class PlanTests : PageContext
{
    private const string Campaign = "campaign:C1";
    private int _counter;

    [Fact]
    public async Task A_station_is_never_seen_without_the_chain_that_was_said_with_it()
    {
        var page = await Open();
        var states = new List<CampaignState>();
        Desk.Changed += () => states.Add(Live.Now.Campaign("C1")!);

        await Type(page, "H1", "38,71", "-9.14");
        await Choose(page, "41001");
        await Choose(page, "41002");
        await Form(page).SubmitAsync();

        var state = Assert.Single(states);
        Assert.Equal(["M1", "M2"], state.Chains["H1"]);
        Assert.Equal(38.71, state.Stations["H1"].LatitudeDeg);
        // The form is empty for the next one, and says it as well.
        Assert.Equal("", Inputs(page)[0].GetAttribute("value") ?? "");
        await Type(page, "H2", "38,72", "-9.14");
        await Form(page).SubmitAsync();
        Assert.Equal(["H1", "H2"], Live.Now.Campaign("C1")!.Stations.Keys);
        Assert.False(Live.Now.Campaign("C1")!.Chains.ContainsKey("H2"));
    }

    [Fact]
    public async Task What_is_typed_about_stations_stays_when_others_plan_one()
    {
        var page = await Open(Said(new StationPlanned("S2", 38.5, -9, Mount.FlushPlate, null)));
        await Type(page, "T9", "38,71", "-9.14");
        await Choose(page, "41001");
        await page.Find("tbody button[aria-expanded]").ClickAsync(new());
        await page.FindAll("form[aria-label='Station S2'] input")[2].InputAsync(new() { Value = "1,5" });

        await Meanwhile(Said(new StationPlanned("A1", 38.5, -9, Mount.FlushPlate, null)));
        page.WaitForAssertion(() => Assert.Contains("Stations (2)", page.Markup, StringComparison.Ordinal));

        Assert.Equal("T9", Inputs(page)[0].GetAttribute("value"));
        Assert.Contains("41001", Form(page).TextContent, StringComparison.Ordinal);
        Assert.Equal("1,5", page.FindAll("form[aria-label='Station S2'] input")[2].GetAttribute("value"));
    }

    [Fact]
    public async Task A_kit_that_is_being_put_together_stays_when_others_plan_a_station()
    {
        var page = await Open();
        IElement Kit() => page.Find("form[aria-label='Spares']");
        await Choose(page, "41001", "Take along", last: false);

        await Meanwhile(Said(new StationPlanned("A1", 38.5, -9, Mount.FlushPlate, null)));
        page.WaitForAssertion(() => Assert.Contains("Stations (1)", page.Markup, StringComparison.Ordinal));

        Assert.Contains("41001", Kit().TextContent, StringComparison.Ordinal);
        Assert.False(Kit().QuerySelector("button.act")!.HasAttribute("disabled"));
        await Kit().SubmitAsync();
        if (Live.Now.Campaign("C1")!.KitOf(KitPurpose.Spare).IsEmpty) await Kit().SubmitAsync(); // what was said meanwhile was shown first
        Assert.Equal(["M1"], Live.Now.Campaign("C1")!.KitOf(KitPurpose.Spare));
        Assert.True(Kit().QuerySelector("button.act")!.HasAttribute("disabled"));
    }

    private async Task<IRenderedComponent<PlanPage>> Open(params IReadOnlyList<Fact> more)
    {
        await Live.Submit(
        [
            Said(new CampaignPlanned(
                "One", new(2026, 9, 1), new(2026, 9, 9), "UTC", [new("2026-01-01T00:00:00.000Z", 0)], "Heath", 100, SourceClass.Propeller,
                50, 10_000, null, null, BuiltInProfiles.Usual, 0, null)),
            .. new[] { "1", "2" }.Select(n => FactText.WriteDerived(
                Stamp(), new DeviceRegistered("microphone", "House", "A", "4100" + n, new(StringComparer.Ordinal)), ["device:M" + n])),
            .. more,
        ], "test");
        return Render<PlanPage>(p => p.Add(x => x.Id, "C1"));
    }

    private FactStamp Stamp() => new(Occurred.On(new(2026, 8, 1)), "P2", "desk", ++_counter);

    private Fact Said(FactBody body) => FactText.WriteDerived(Stamp(), body, [Campaign]);

    private static IElement Form(IRenderedComponent<PlanPage> page) => page.Find("form[aria-label='Add a station']");

    private static IHtmlCollection<IElement> Inputs(IRenderedComponent<PlanPage> page) => Form(page).QuerySelectorAll("input");

    private static async Task Type(IRenderedComponent<PlanPage> page, params string[] values)
    {
        for (var i = 0; i < values.Length; i++) await Inputs(page)[i].InputAsync(new() { Value = values[i] });
    }

    private Task Choose(IRenderedComponent<PlanPage> page, string serial, string label = "Add to its chain", bool last = true)
    {
        var finders = page.FindComponents<DeviceFinder>().Where(f => f.Instance.Label == label).ToList();
        var field = (last ? finders[^1] : finders[0]).FindComponent<MudAutocomplete<FleetRow>>();
        var row = Services.GetRequiredService<FleetView>().Find(Live.Now, serial).Single();
        return page.InvokeAsync(() => field.Instance.SelectOptionAsync(row));
    }
}

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

        await Say(page, 0, "Station", "H1");
        await Say(page, 0, "Latitude, °", "38,71");
        await Say(page, 0, "Longitude, °", "-9.14");
        await Say(page, 0, "Mount", "flush");
        await Say(page, 0, "Chain", "41001 + 41002");
        Assert.Contains("Not stored: 1 new.", page.Markup, StringComparison.Ordinal);
        await Button(page, "Store 1 station").ClickAsync(new());

        page.WaitForAssertion(() => Assert.Contains("All is stored. 1 station is stored.", page.Markup, StringComparison.Ordinal));
        var state = Assert.Single(states);
        Assert.Equal(["M1", "M2"], state.Chains["H1"]);
        Assert.Equal((38.71, Mount.FlushPlate), (state.Stations["H1"].LatitudeDeg, state.Stations["H1"].Mount));
        Assert.Equal(["38.71", ""], Cells(page, "Latitude, °").Select(c => c.GetAttribute("value"))); // and a line for the next one
    }

    [Fact]
    public async Task What_is_typed_about_stations_stays_when_others_plan_one()
    {
        var page = await Open(Said(new StationPlanned("S2", 38.5, -9, Mount.FlushPlate, null)));
        await Say(page, 0, "Height, m", "1,5");
        await Say(page, 1, "Station", "T9");

        await Meanwhile(Said(new StationPlanned("A1", 38.5, -9, Mount.FlushPlate, null)));
        page.WaitForAssertion(() => Assert.Contains("Stations (2)", page.Markup, StringComparison.Ordinal));

        Assert.Equal(["A1", "S2", "T9", ""], Cells(page, "Station").Select(c => c.GetAttribute("value")));
        Assert.Equal(["", "1,5", "", ""], Cells(page, "Height, m").Select(c => c.GetAttribute("value")));
        // Storing shows first what others said, and stores when it is said again.
        await Say(page, 2, "Latitude, °", "38.6");
        await Say(page, 2, "Longitude, °", "-9");
        await Say(page, 2, "Mount", "pole");
        await Button(page, "Store 2 stations").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Contains("Meanwhile was said:", page.Markup, StringComparison.Ordinal));
        Assert.Null(Live.Now.Campaign("C1")!.Stations["S2"].HeightM);
        await Button(page, "Store 2 stations").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Equal(1.5, Live.Now.Campaign("C1")!.Stations["S2"].HeightM));
        Assert.Equal(["A1", "S2", "T9"], Live.Now.Campaign("C1")!.Stations.Keys);
    }

    [Fact]
    public async Task Nothing_is_stored_while_a_cell_cannot_be_so_and_a_station_falls_away_with_its_reason()
    {
        var page = await Open(Said(new StationPlanned("S2", 38.5, -9, Mount.FlushPlate, null)));
        await Say(page, 0, "Latitude, °", "138");
        Assert.Contains("1 cell cannot be so", page.Markup, StringComparison.Ordinal);
        var cell = Cells(page, "Latitude, °")[0];
        Assert.Equal("true", cell.GetAttribute("aria-invalid"));
        Assert.Contains("'138': allowed is", page.Find("#" + cell.GetAttribute("aria-describedby")).TextContent, StringComparison.Ordinal);
        await Button(page, "Store 1 station").ClickAsync(new());
        Assert.Contains(Services.GetRequiredService<ISnackbar>().ShownSnackbars,
            s => s.Message == "Not stored: 1 changed; 1 cell cannot be so. Nothing was stored.");
        Assert.Equal(38.5, Live.Now.Campaign("C1")!.Stations["S2"].LatitudeDeg);

        await Button(page, "Take back the last act").ClickAsync(new());
        await page.Find("button[aria-label='Take out: station S2']").ClickAsync(new());
        await Button(page, "Store 1 change").ClickAsync(new());
        Assert.True(Live.Now.Campaign("C1")!.Stations.ContainsKey("S2")); // why is missing
        await page.FindComponents<Field>().Single(f => f.Instance.Label == "Why they fall away").Find("input")
            .ChangeAsync(new() { Value = "ploughed" });
        await Button(page, "Store 1 change").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Empty(Live.Now.Campaign("C1")!.Stations));
        Assert.Contains("1 station is taken out.", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_kept_since_others_spoke_is_shown_beside_what_they_said_before_it_is_stored()
    {
        var page = await Open(Said(new StationPlanned("S2", 38.5, -9, Mount.FlushPlate, null)));
        await Say(page, 0, "Height, m", "1,5");
        await Meanwhile(Said(new StationPlanned("S2", 38.6, -9, Mount.FlushPlate, null)));

        var again = Reload();
        await Button(again, "Store 1 station").ClickAsync(new());

        again.WaitForAssertion(() => Assert.Contains("Meanwhile was said:", again.Markup, StringComparison.Ordinal));
        Assert.Null(Live.Now.Campaign("C1")!.Stations["S2"].HeightM);
    }

    [Fact]
    public void A_new_plan_offers_the_zones_that_this_machine_knows()
    {
        var page = Render<PlanPage>();

        var zones = page.FindAll($"datalist#{page.Find("input[list]").GetAttribute("list")} option")
            .Select(o => o.GetAttribute("value")).ToList();
        Assert.Contains("Europe/Lisbon", zones);
        Assert.Contains("UTC", zones);
        Assert.All(zones, z => Assert.NotNull(Documents.Import.ZoneData.Offsets(z!, new(2026, 9, 1), new(2026, 9, 2))));
    }

    [Fact]
    public async Task What_was_typed_and_not_stored_stands_there_when_the_page_is_opened_again()
    {
        var page = await Open();
        await Say(page, 0, "Station", "H1");

        var again = Reload();

        Assert.Equal(["H1", ""], Cells(again, "Station").Select(c => c.GetAttribute("value")));
        Assert.Contains("and not stored stands here again", again.Markup, StringComparison.Ordinal);
        await Button(again, "Leave what is not stored").ClickAsync(new());
        Assert.Null(JSInterop.Invocations["desk.keep"][^1].Arguments[1]); // forgotten
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

    [Theory]
    [InlineData("""{"version":1,"lines":[{"texts":["H1"],"base":[]}]}""")]
    [InlineData("""{"version":1,"at":"2026-08-01T08:00:00+00:00","lines":[{"texts":["H1"],"base":[],"isOut":false}]}""")]
    [InlineData("""{"version":1,"at":"2026-08-01T08:00:00+00:00","lines":[null]}""")]
    public async Task What_a_tab_kept_and_nobody_can_read_is_told_and_takes_nothing_away(string kept)
    {
        JSInterop.Setup<string?>("desk.kept", _ => true).SetResult(kept);
        var page = await Open(Said(new StationPlanned("S2", 38.5, -9, Mount.FlushPlate, null)));

        Assert.Equal(["S2", ""], Cells(page, "Station").Select(c => c.GetAttribute("value")));
        Assert.Contains(Services.GetRequiredService<ISnackbar>().ShownSnackbars,
            s => s.Message == "What this tab kept of the plan cannot be read any more.");
    }

    // The page anew, with what the tab was told to keep.
    private IRenderedComponent<PlanPage> Reload()
    {
        JSInterop.Setup<string?>("desk.kept", _ => true).SetResult((string?)JSInterop.Invocations["desk.keep"][^1].Arguments[1]);
        return Render<PlanPage>(p => p.Add(x => x.Id, "C1"));
    }

    private static IReadOnlyList<IElement> Cells(IRenderedComponent<PlanPage> page, string head) =>
        [.. page.FindAll("input.cell").Where(c => c.GetAttribute("aria-label")!.StartsWith(head + ", ", StringComparison.Ordinal))];

    private static Task Say(IRenderedComponent<PlanPage> page, int line, string head, string text) =>
        Cells(page, head)[line].ChangeAsync(new() { Value = text });

    private static IElement Button(IRenderedComponent<PlanPage> page, string words) =>
        page.FindAll("button").Single(b => b.TextContent.Trim() == words);

    private Task Choose(IRenderedComponent<PlanPage> page, string serial, string label = "Add to its chain", bool last = true)
    {
        var finders = page.FindComponents<DeviceFinder>().Where(f => f.Instance.Label == label).ToList();
        var field = (last ? finders[^1] : finders[0]).FindComponent<MudAutocomplete<FleetRow>>();
        var row = Services.GetRequiredService<FleetView>().Find(Live.Now, serial).Single();
        return page.InvokeAsync(() => field.Instance.SelectOptionAsync(row));
    }
}

using Bunit;
using MicRegister.Documents.Tests;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;
using MicRegister.Server.Pages.Events;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The list of events says of each what it is worth, and works out no more than what is shown.</summary>
public sealed class EventsPageTests : PageContext
{
    [Fact]
    public async Task Each_event_has_its_verdict_in_shape_and_word_and_how_many_stations_are_what()
    {
        var page = await Open(4, 2, [3], [4]);

        Assert.Equal(
            ["▲ doubtful of 4 stations 2 valid, 1 doubtful, 0 undecided, 1 not valid", "▲ doubtful of 4 stations 2 valid, 1 doubtful, 0 undecided, 1 not valid"],
            Rows(page).Select(r => Words(r.QuerySelectorAll("td")[1].TextContent)));
        var verdict = EventVerdict.Of(Live.Now, LargeArray.Event(0))!;
        Assert.Equal("of 4 stations 2 valid, 1 doubtful, 0 undecided, 1 not valid", verdict.InWords);

        // Another chain is found damaged: all who look at the list see it.
        await Meanwhile([LargeArray.At("2026-06-02T21:00:00.000Z", new FactAnnulled(CheckOf(1), "read off the wrong line"), "campaign:" + LargeArray.C)]);
        page.WaitForAssertion(() => Assert.Contains("of 4 stations 1 valid, 2 doubtful, 0 undecided, 1 not valid", Words(Rows(page)[0].TextContent), StringComparison.Ordinal));
    }

    [Fact]
    public async Task Of_many_events_only_those_of_the_page_are_worked_out()
    {
        var page = await Open(1, 60, []);

        Assert.Equal(25, Rows(page).Count);
        Assert.Contains("1 to 25 of 60", page.Markup, StringComparison.Ordinal);
        Services.GetRequiredService<NavigationManager>().NavigateTo("events/FEN-26?page=3");
        page.Render();
        page.WaitForAssertion(() => Assert.Equal(10, Rows(page).Count));
        Assert.Contains("51 to 60 of 60", page.Markup, StringComparison.Ordinal);
        AllIsWorkedOut(page);
    }

    [Fact]
    public async Task Events_of_several_days_that_no_page_shows_stay_unasked()
    {
        // A second day, so that no chart of a day asks for all of it.
        var page = await Open(1, 60, [], [], LargeArray.At(
            "2026-06-03T10:00:00.000Z", new EventHappened("Late", "2026-06-03T10:00:00.000Z", "2026-06-03T10:01:00.000Z", EventKind.Run, null, [], null),
            "event:FEN-26.LATE", "campaign:" + LargeArray.C));

        var known = EventBook.OfCampaign(Live.Now, LargeArray.C).Where(e => EventVerdict.IfKnown(Live.Now, e.Id) is not null).ToList();
        Assert.Equal(25, known.Count);
        Assert.DoesNotContain(known, e => e.Name == "Late");
    }

    [Fact]
    public async Task What_takes_longer_follows_while_the_page_stands_with_what_is_left_and_can_be_stopped()
    {
        Hurry(); // as if each look at the clock came a second later
        var page = await Begin(30, 60, []);
        string Status() => Words(page.FindAll(".working [role=status]").SingleOrDefault()?.TextContent ?? "");

        Assert.EndsWith("are left.", Status(), StringComparison.Ordinal);
        await page.InvokeAsync(() => Button(page, "Stop").Click());
        page.WaitForAssertion(() => Assert.Equal("Go on", Words(page.Find(".working button").TextContent)));
        Assert.Contains("not worked out yet", page.Markup, StringComparison.Ordinal);

        await page.InvokeAsync(() => Button(page, "Go on").Click());
        page.WaitForAssertion(() => Assert.Equal("", Status()));
        AllIsWorkedOut(page);
        Assert.Contains("Run 59, 10:59:00 site time: valid, of 30 stations 30 valid", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mark_of_the_day_leads_to_its_event_and_station()
    {
        var page = await Open(4, 1, [3]);

        await page.FindAll("g.mark").Single(m => m.GetAttribute("aria-label") == "Station S003: doubtful in 1 of 1 event").ClickAsync(new());
        Assert.EndsWith("/events/FEN-26/RUN-0?station=S003", Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
        await page.FindAll("g.mark").Single(m => m.GetAttribute("aria-label")!.StartsWith("Run 0, 10:00:00", StringComparison.Ordinal)).ClickAsync(new());
        Assert.EndsWith("/events/FEN-26/RUN-0", Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_graph_of_an_event_says_how_many_are_what_and_lists_the_gravest_first()
    {
        await Live.Submit([.. LargeArray.Facts(30, 1, [29], [30])], "test");
        var page = Render<GraphPage>(p => p.Add(g => g.Kind, "event").Add(g => g.Id, LargeArray.Event(0)));

        Assert.Contains(
            page.FindAll("p"),
            p => Words(p.TextContent).StartsWith("▲ doubtful: of 30 stations 28 valid, 1 doubtful, 0 undecided, 1 not valid; the gravest", StringComparison.Ordinal));
        Assert.Equal(["S030 ■ not valid", "S029 ▲ doubtful", "S001 ● valid"], page.FindAll(".two li").Take(3).Select(l => Words(l.TextContent)));
        Assert.Contains("and 6 more, all valid", page.Markup, StringComparison.Ordinal); // 30 without the 24 that are drawn
    }

    [Fact]
    public async Task Evidence_on_its_page_begins_with_what_it_comes_to()
    {
        await Live.Submit([.. LargeArray.Facts(4, 1, [3])], "test");
        var page = Render<EvidencePage>(p => p.Add(e => e.Campaign, LargeArray.C));

        Assert.Equal("1 In short", page.Find("h2").TextContent);
        Assert.Equal("Verdict: doubtful", page.Find("h3").TextContent);
        Assert.Single(page.FindAll("hr.turn"));
    }

    private string CheckOf(int station) => Live.Now.Facts("campaign:" + LargeArray.C).Select(s => Live.Now.Source.Read(s))
        .First(f => f.Body is Register.Checks.ChainChecked k && k.Station == LargeArray.Station(station)).Id.ToString();

    private async Task<IRenderedComponent<EventsPage>> Open(int stations, int events, int[] @unchecked, int[]? empty = null, params Fact[] more)
    {
        var page = await Begin(stations, events, @unchecked, empty, more);
        AllIsWorkedOut(page);
        return page;
    }

    private static void AllIsWorkedOut(IRenderedComponent<EventsPage> page) => page.WaitForAssertion(() =>
    {
        Assert.Empty(page.FindAll(".working"));
        Assert.DoesNotContain("not worked out yet", page.Find(".listed").TextContent, StringComparison.Ordinal);
    });

    private async Task<IRenderedComponent<EventsPage>> Begin(int stations, int events, int[] @unchecked, int[]? empty = null, params Fact[] more)
    {
        await Live.Submit([.. LargeArray.Facts(stations, events, @unchecked, empty), .. more], "test");
        Render<MudPopoverProvider>();
        return Render<EventsPage>(p => p.Add(e => e.Campaign, LargeArray.C));
    }

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<EventsPage> page, string words) =>
        page.FindAll(".working button").Single(b => Words(b.TextContent) == words);

    private static IReadOnlyList<AngleSharp.Dom.IElement> Rows(IRenderedComponent<EventsPage> page) => [.. page.FindAll(".listed tbody tr")];

    private static string Words(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}

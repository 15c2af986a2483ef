using MicRegister.Server.Api;
using MicRegister.Server.Pages.Shell;

namespace MicRegister.Server.Tests.Pages;

/// <summary>One field finds devices, labels, stations, events, people and pages by a few words in any order.</summary>
public sealed class DeskSearchTests
{
    private static readonly DateOnly Today = new(2026, 8, 3);

    private static async Task<(string[] Told, int More)> Found(string words, Duties held = Duties.Own)
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        var (hits, more) = DeskSearch.Of(server.Live.Now, new FleetView(), words, held, Today);
        return ([.. hits.Select(h => $"{h.Sort} {h.Title} {h.Beside}".TrimEnd())], more);
    }

    [Theory]
    [InlineData("41007", "Microphone A-12P 41007 Hall 2, cabinet 2, in service")]
    [InlineData("a-12p 41007", "Microphone A-12P 41007 Hall 2, cabinet 2, in service")]
    [InlineData("s37", "Station S37 Quillmere 26")]
    [InlineData("37 quillmere", "Station S37 Quillmere 26")]
    [InlineData("quillmere", "Campaign Quillmere 26 from 2026-09-01")]
    [InlineData("quillmere 26", "Campaign Quillmere 26 from 2026-09-01")]
    [InlineData("26", "Station S26 Quillmere 26")]
    [InlineData("spreadsheets", "Page Take over")]
    public async Task What_is_meant_comes_first(string words, string first) => Assert.Equal(first, (await Found(words)).Told[0]);

    [Fact]
    public async Task Devices_beyond_those_told_are_counted()
    {
        var (told, more) = await Found("gp-400");

        Assert.Equal(DeskSearch.Most, told.Length);
        Assert.All(told, t => Assert.StartsWith("Ground plate GP-400", t, StringComparison.Ordinal));
        Assert.True(more > 50, $"{more} more");
    }

    [Fact]
    public async Task A_number_stands_for_itself_alone()
    {
        var (told, _) = await Found("7");

        Assert.Contains("Station S07 Quillmere 26", told);
        Assert.DoesNotContain(told, t => t.StartsWith("Station S17", StringComparison.Ordinal)
            || t.StartsWith("Station S70", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_event_is_found_by_its_name_and_with_a_station_leads_to_what_applied_there()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        using var table = new StringContent("event,start,stop,zone\n" + string.Concat(new[] { 1, 12, 112 }
            .Select(i => $"Run {i},2026-08-02 10:00:00,2026-08-02 10:01:00,utc\n")));
        (await server.Client.PostAsync("/api/campaigns/QUILLMERE-26/events/table", table, TestContext.Current.CancellationToken))
            .EnsureSuccessStatusCode();
        IReadOnlyList<SearchHit> Hits(string words) => DeskSearch.Of(server.Live.Now, new FleetView(), words, Duties.Own, Today).Hits;

        Assert.Equal("Run 12", Assert.Single(Hits("run 12")).Title);
        var at = Hits("s37 run 12")[0];
        Assert.Equal(("Event", "Run 12 at S37"), (at.Sort, at.Title));
        Assert.EndsWith("?station=S37", at.Address, StringComparison.Ordinal);
        Assert.Equal(at, Hits("12 run 37")[0] is { Title: "Run 12 at S37" } same ? same : Hits("12 run 37")[1]);
    }

    [Fact]
    public async Task Pages_beyond_ones_duties_are_not_told_and_nothing_typed_tells_pages()
    {
        Assert.DoesNotContain("Page People", (await Found("people", Duties.Field)).Told);
        Assert.Contains("Page People", (await Found("people")).Told);
        Assert.Equal("Page Today", (await Found("")).Told[0]);
        Assert.Empty((await Found("no such thing anywhere")).Told);
    }

    [Fact]
    public void Each_page_of_the_rail_is_one_that_the_table_of_duties_knows() => Assert.All(
        DeskPlaces.All, p => Assert.True(p.IsFor(Duties.Own), p.Address));
}

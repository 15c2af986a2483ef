using Bunit;
using Bunit.TestDoubles;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Mounting;
using MicRegister.Server.Pages.Mounts;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The page of mounts answers what stands in its address, and says what of it cannot be.</summary>
public sealed class MountsPageTests : PageContext
{
    [Fact]
    public void The_usual_mounts_show_model_and_practice_side_by_side()
    {
        var page = Open("mounts?source=propeller");
        var rows = page.FindAll("table[aria-label='Answers by mount'] tbody tr, [aria-label='Answers by mount'] tbody tr");

        Assert.Equal(5, rows.Count);
        var stand = Words(rows.Single(r => r.TextContent.Contains("on a stand, 1.2 m", StringComparison.Ordinal)).TextContent);
        Assert.Contains("+3.01", stand, StringComparison.Ordinal);
        Assert.Contains("70.89", stand, StringComparison.Ordinal);
        Assert.Contains("from 951 Hz on", stand, StringComparison.Ordinal);
        Assert.Equal(2, stand.Split("■ does not").Length - 1);
        Assert.Contains("common practice, no source", page.Markup, StringComparison.Ordinal);
        Assert.All(MountCaveats.All, s => Assert.Contains(s, page.Markup, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("mount=pole&height=0", "Height '0': allowed is a number above 0 up to 100 m")]
    [InlineData("mount=pole&height=tall", "Height 'tall': allowed is a number.")]
    [InlineData("elevation=91", "Elevation '91'")]
    [InlineData("mount=tree", "Mount 'tree': allowed is flush-plate")]
    [InlineData("source=kite", "Source 'kite'")]
    public void What_cannot_be_is_said_at_its_field_and_nothing_else_is_shown(string query, string says)
    {
        var page = Open("mounts?" + query);

        Assert.Contains(says, page.FindAll(".mud-alert").Select(a => Words(a.TextContent)).Single(), StringComparison.Ordinal);
        Assert.NotEmpty(page.FindAll(".mud-input-error"));
        Assert.Empty(page.FindAll("[aria-label='Answers by mount']"));
    }

    [Fact]
    public void What_is_typed_stands_in_the_address()
    {
        var page = Open("mounts");
        page.FindAll("input").First(i => page.Find($"label[for='{i.Id}']").TextContent == "Elevation of the source, °").Change("60");

        Assert.EndsWith("/mounts?elevation=60", Services.GetRequiredService<BunitNavigationManager>().Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_campaign_shows_its_own_stations_and_one_without_any_leads_on()
    {
        await Plan("GORSE-26", new StationPlanned("S1", 53, 1, Mount.InvertedPlate, 0.008));
        var page = Open("mounts?campaign=GORSE-26");

        Assert.Contains("Do the mounts of Gorse suit its source?", page.Find("h1").TextContent, StringComparison.Ordinal);
        Assert.Contains("S1 (height planned)", Words(page.Find("[aria-label='Answers by mount'] tbody").TextContent), StringComparison.Ordinal);
        Assert.Contains("inverted over a ground plate, 8 mm", page.Markup, StringComparison.Ordinal);
        Assert.Contains("up to 3187 Hz", page.Markup, StringComparison.Ordinal); // acos(10^-0.05) · 340.294 / (π · 0.016)

        await Plan("FURZE-26", null);
        Assert.Contains("It has no station yet", Open("mounts?campaign=FURZE-26").Markup, StringComparison.Ordinal);
        Assert.Contains("The register holds no plan of NOWHERE", Open("mounts?campaign=NOWHERE").Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void The_addresses_of_its_files_ask_the_same()
    {
        var page = Open("mounts?mount=pole&height=8,5&to=4000");

        Assert.Contains(page.FindAll("a"), a => a.GetAttribute("href") == "api/mounts/table.csv?mount=pole&toHz=4000&heightM=8.5");
    }

    private bool _hasPopovers;

    private async Task Plan(string id, StationPlanned? station)
    {
        var plan = new CampaignPlanned(
            char.ToUpperInvariant(id[0]) + id[1..^3].ToLowerInvariant(), new(2026, 8, 1), new(2026, 8, 5), "Zone/Gorse",
            [new("2020-01-01T00:00:00.000Z", 0)], "Gorse", 20, SourceClass.Propeller, 50, 10_000, null, null, "engineering-practice", 0, null);
        IEnumerable<FactBody> said = station is null ? [plan] : [plan, station];
        await Live.Submit(
            [.. said.Select((b, i) => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, i), b, [Subject.Campaign(id)]))], "test");
    }

    private IRenderedComponent<MountsPage> Open(string address)
    {
        Services.GetRequiredService<BunitNavigationManager>().NavigateTo(address);
        if (!_hasPopovers) Render<MudBlazor.MudPopoverProvider>();
        _hasPopovers = true;
        return Render<MountsPage>();
    }

    private static string Words(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}

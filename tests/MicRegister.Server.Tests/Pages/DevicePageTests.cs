using Bunit;
using Bunit.TestDoubles;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Devices;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages;

/// <summary>A device's page: its head, its plot, its parts by their addresses, and its dialogs.</summary>
public sealed class DevicePageTests : PageContext
{
    private static readonly string[] Labels = ["Results", "What it is", "Where it was", "Depends on", "Journal"];

    private BunitNavigationManager Navigation => (BunitNavigationManager)Services.GetRequiredService<NavigationManager>();

    [Fact]
    public async Task The_head_says_whether_it_can_be_relied_on_where_it_is_and_its_label()
    {
        await Known();
        var page = At(null);

        var head = page.Find(".device-head");
        Assert.Equal("Microphone A-12P 41001", head.QuerySelector("h1")!.TextContent);
        Assert.Contains("● ready", head.TextContent, StringComparison.Ordinal);
        Assert.Contains("in service, van 2", head.TextContent, StringComparison.Ordinal);
        Assert.Single(page.FindAll(".history svg"));

        await Meanwhile(Of(new DeviceStatusChanged(DeviceStatus.OutOfService, "dropped"), "2026-08-02"));
        page.WaitForAssertion(() => Assert.Contains("■ not ready", page.Find(".device-head").TextContent, StringComparison.Ordinal));
        Assert.Contains("It is out of service.", page.Find(".device-head").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, "Results", "Next calibration")]
    [InlineData("what-it-is", "What it is", "Serial number")]
    [InlineData("where-it-was", "Where it was", "moved")]
    [InlineData("depends-on", "Depends on", "It rests on")]
    [InlineData("journal", "Journal", "device moved: van 2")]
    public async Task Each_part_stands_at_its_address(string? word, string tab, string says)
    {
        await Known();
        var page = At(word);

        Assert.Equal(tab, page.Find("[role=tab][aria-selected=true]").TextContent.Trim());
        Assert.Contains(says, page.Find("[role=tabpanel]").TextContent, StringComparison.Ordinal);
        Assert.Equal(Labels, page.FindAll("[role=tab]").Select(t => t.TextContent.Trim()));
    }

    [Fact]
    public async Task A_tab_that_is_pressed_goes_to_its_address()
    {
        await Known();
        var page = At(null);

        await page.FindAll("[role=tab]")[4].ClickAsync();

        Assert.EndsWith("/devices/A1/journal", Navigation.Uri, StringComparison.Ordinal);
        Assert.Single(Navigation.History); // back is one step
    }

    [Theory]
    [InlineData("It is due.", "It is due.")]
    [InlineData("It is 0.4 mm proud; at most 0.2 mm are allowed. Nobody has looked.", "It is 0.4 mm proud; at most 0.2 mm are allowed.")]
    [InlineData(
        "Its newest result of 2026-05-18 by House laboratory deviates (+0.164 dB, 4.4 standard deviations where 3.5 would be scatter); only "
            + "another calibration can tell. The forecast is half the one, half the other.",
        "Its newest result of 2026-05-18 by House laboratory deviates (+0.164 dB, 4.4 standard deviations where 3.5 would be scatter).")]
    public void A_finding_is_told_by_its_first_sentence(string text, string first) =>
        Assert.Equal(first, FindingLine.FirstSentence(text));

    [Theory]
    [InlineData("Plate GP1: it is due.", "It is due.")]
    [InlineData("Plate GP1 holds it proud.", "It holds it proud.")]
    [InlineData("Plate GP12 holds it proud.", "Plate GP12 holds it proud.")] // another one
    public void A_finding_does_not_say_the_name_above_it_again(string text, string told) =>
        Assert.Equal(told, FindingLine.Told(text, "Plate GP1"));

    [Fact]
    public async Task The_whole_stands_on_one_page_without_tabs()
    {
        await Known();
        var page = At("whole");

        Assert.Empty(page.FindAll("[role=tab]"));
        Assert.Equal(Labels, page.FindAll(".part-of-whole").Select(t => t.TextContent));
        foreach (var says in new[] { "Next calibration", "Serial number", "moved", "It rests on", "device moved: van 2" })
            Assert.Contains(says, page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_no_part_is_not_taken_for_one()
    {
        await Known();
        Assert.Contains("There is nothing called teapot", At("teapot").Markup, StringComparison.Ordinal);
        Assert.Contains("No such device", Render<DevicePage>(p => p.Add(d => d.Id, "NOWHERE")).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_address_opens_its_dialog_and_loses_that_word_when_it_is_shut()
    {
        await Known();
        var screen = Screen();
        Navigation.NavigateTo("devices/A1/where-it-was?enter=inspection");
        At("where-it-was");
        await screen.WaitForElementAsync(".mud-dialog");
        Assert.Equal("Inspect it, or say what was done", screen.Find(".mud-dialog h2").TextContent);

        await screen.Find("[data-cancel]").ClickAsync();

        screen.WaitForAssertion(() => Assert.Empty(screen.FindAll(".mud-dialog")));
        Assert.EndsWith("/devices/A1/where-it-was", Navigation.Uri, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null, "Enter a certificate", "Enter a certificate")]
    [InlineData(null, "Inspect it", "Inspect it, or say what was done")]
    [InlineData(null, "Say where it is", "Where it is and how")]
    [InlineData("where-it-was", "Say where it is and how", "Where it is and how")]
    [InlineData("where-it-was", "Inspect it, or say what was done", "Inspect it, or say what was done")]
    [InlineData("what-it-is", "Add or correct a detail", "Add or correct a detail")]
    [InlineData("what-it-is", "It stands in the register twice", "The same device stands in the register twice")]
    [InlineData(null, "Correct", "Correct this certificate")]
    [InlineData(null, "Judge", "What the certificate of 2025-03-01 is worth")]
    public async Task A_key_opens_the_dialog_that_it_names(string? word, string key, string title)
    {
        await Known();
        var screen = Screen();
        var page = At(word);
        Assert.Empty(screen.FindAll(".mud-dialog"));

        await page.FindAll("button").First(b => b.TextContent.Trim() == key).ClickAsync();

        await screen.WaitForElementAsync(".mud-dialog");
        Assert.Equal(title, screen.Find(".mud-dialog h2").TextContent);
    }

    [Fact]
    public async Task A_result_that_is_chosen_in_the_plot_is_shown_in_its_list()
    {
        await Known();
        var page = At(null);
        Assert.Empty(page.FindAll("tr.chosen"));
        await page.FindAll(".history g.mark")[0].ClickAsync();
        Assert.Contains("2018-03-01", page.Find("tr.chosen").TextContent, StringComparison.Ordinal);

        await At("journal").FindAll(".history g.mark")[0].ClickAsync();
        Assert.EndsWith("/devices/A1", Navigation.Uri, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_stored_in_a_dialog_stands_on_the_page()
    {
        await Known();
        var screen = Screen();
        var page = At(null);
        await page.FindAll("button").First(b => b.TextContent.Trim() == "Say where it is").ClickAsync();
        await screen.WaitForElementAsync(".mud-dialog");
        await screen.Find(".mud-dialog input").InputAsync("bench 7");
        await screen.Find("[data-yes]").ClickAsync();

        page.WaitForAssertion(() => Assert.Contains("in service, bench 7", page.Find(".device-line").TextContent, StringComparison.Ordinal));
    }

    private IRenderedComponent<DevicePage> At(string? word) =>
        Render<DevicePage>(p => p.Add(d => d.Id, "A1").Add(d => d.Word, word));

    private async Task Known()
    {
        var issued = new CertificateIssued(
            "sensitivity", null, "House", null, null, null, null, 250,
            [new(AdjustmentState.AsFoundAndLeft, 12.5, "mV/Pa", 0.06, "dB", 2)], null, null, null, null, null, null, null);
        await Live.Submit(
            [
                Of(new DeviceRegistered("microphone", null, "A-12P", "41001", []), "2018-01-01"),
                Of(new DeviceMoved("van 2"), "2024-06-01"),
                .. Enumerable.Range(2018, 8).Select(y => Of(issued, y + "-03-01")),
            ],
            "test");
    }

    private static Fact Of(FactBody body, string day) =>
        FactText.WriteDerived(FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), 0), body, ["device:A1"]);
}

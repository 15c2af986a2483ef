using Bunit;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>A number, chosen, says at the side where it comes from.</summary>
public sealed class FigureTests : PageContext
{
    private static readonly Derivation Level = new(
        "Level at S01", "71.3 dB ± 0.4 dB", "L = 20 lg(U/(S·20 µPa))",
        [new("U, voltage", "1.02 mV", "recording a.wav"), new("Assumed gain", "0 dB", null)], "the house's rule 4",
        [new("calibrated on 2026-03-02", "devices/M1#certificates"), new("said by telephone", null)], "The gain is from memory.");

    [Fact]
    public void It_opens_at_the_side_with_all_that_it_stands_on_and_closes()
    {
        var side = Render<FigureSide>();
        var figure = Render<Figure>(p => p.Add(f => f.From, () => Level).Add(f => f.Text, Level.Value));
        Assert.Equal(("71.3 dB ± 0.4 dB", "dialog"), (figure.Find("button").TextContent.Trim(), figure.Find("button")
            .GetAttribute("aria-haspopup")));
        Assert.DoesNotContain("mud-drawer--open", side.Find("[role=dialog]").ClassList);

        figure.Find("button").Click();

        side.WaitForAssertion(() => Assert.Equal("Level at S01", side.Find("h2").TextContent));
        Assert.Contains("mud-drawer--open", side.Find("[role=dialog]").ClassList);
        Assert.Equal("71.3 dB ± 0.4 dB", side.Find(".figure-value").TextContent);
        Assert.Equal("▲ The gain is from memory.", side.Find(".risks").TextContent);
        Assert.Contains(side.FindAll("p"), p => p.TextContent == "Worked out asL = 20 lg(U/(S·20 µPa))");
        Assert.Contains(side.FindAll("p"), p => p.TextContent == "Afterthe house's rule 4");
        Assert.Equal(
            [("U, voltagerecording a.wav", "1.02 mV"), ("Assumed gain", "0 dB")],
            side.FindAll("tbody tr").Select(r => (r.Children[0].TextContent.Trim(), r.Children[1].TextContent)));
        Assert.Equal(
            [("calibrated on 2026-03-02", "devices/M1#certificates"), ("said by telephone", null)],
            side.FindAll("li").Select(l => (l.TextContent.Trim(), l.QuerySelector("a")?.GetAttribute("href"))));

        side.Find("button[aria-label=Close]").Click();
        side.WaitForAssertion(() => Assert.Empty(side.FindAll("h2")));
        Assert.DoesNotContain("mud-drawer--open", side.Find("[role=dialog]").ClassList);
    }

    [Fact]
    public void Another_figure_takes_its_place_and_what_that_has_not_is_not_said()
    {
        var side = Render<FigureSide>();
        Render<Figure>(p => p.Add(f => f.From, () => Level).Add(f => f.Text, Level.Value)).Find("button").Click();
        var read = new Derivation("Stations", "72", null, [], null, []);
        var figure = Render<Figure>(p => p.Add(f => f.From, () => read).Add(f => f.Text, "72 stations"));
        Assert.Equal("72 stations", figure.Find("button").TextContent.Trim());

        figure.Find("button").Click();

        side.WaitForAssertion(() => Assert.Equal("Stations", side.Find("h2").TextContent));
        Assert.Empty(side.FindAll(".risks, table, ul"));
        Assert.Equal(["72"], side.FindAll("p").Select(p => p.TextContent));
    }
}

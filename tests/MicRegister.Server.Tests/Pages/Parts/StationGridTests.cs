using Bunit;
using MicRegister.Server.Pages.Parts;
using Microsoft.AspNetCore.Components;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>The sheet as a part: what it tells whoever gives it its lines.</summary>
public sealed class StationGridTests : PageContext
{
    private static readonly GridColumn[] Columns =
        [new("Station", "5rem"), new("Mount kind", "5rem", Words: ["pole", "stand"]), new("Chain", "9rem", Between: " + ")];

    private readonly List<string> _told = [];

    [Fact]
    public async Task What_is_typed_pasted_and_taken_out_is_told_with_its_line_and_column()
    {
        var grid = Open(Line("1", "S1", "pole", "A"), Line("2", "", "", ""));

        await grid.FindAll("input")[4].ChangeAsync(new() { Value = "stand" });
        await grid.InvokeAsync(() => grid.Instance.Pasted("2", 1, "a\tb"));
        await grid.InvokeAsync(() => grid.Instance.Pasted("2", 3, "beside it"));
        await grid.InvokeAsync(() => grid.Instance.Pasted("2", -1, "beside it"));
        await grid.FindAll("input")[0].FocusAsync(new());
        await grid.Find("button").ClickAsync(new());
        await grid.InvokeAsync(() => grid.Instance.Undone());

        Assert.Equal(["2/1/stand", "2/1/a\tb", "chosen 1", "out 1", "undone"], _told);
    }

    [Theory]
    [InlineData("a", false)]
    [InlineData("a\n", false)]
    [InlineData("\r\na\r\n", false)]
    [InlineData("a\tb", true)]
    [InlineData("a\nb", true)]
    public void A_block_is_more_than_one_cell(string text, bool isBlock) => Assert.Equal(isBlock, new GridText("1", 0, text).IsBlock);

    [Fact]
    public void A_cell_says_what_it_is_what_is_wrong_and_what_may_be_chosen()
    {
        var grid = Open(new GridLine("1", "station S1",
            [new("S1", IsFixed: true), new("tree", "'tree' is no mount"), new("A", Told: "also at S2", IsChanged: true)], "gone", false, true));
        var inputs = grid.FindAll("input");

        Assert.Equal(["Station, station S1", "Mount kind, station S1", "Chain, station S1"], inputs.Select(i => i.GetAttribute("aria-label")));
        Assert.True(inputs[0].HasAttribute("readonly"));
        Assert.False(inputs[1].HasAttribute("readonly"));
        Assert.Equal("true", inputs[1].GetAttribute("aria-invalid"));
        Assert.Contains("'tree' is no mount", grid.Find("#" + inputs[1].GetAttribute("aria-describedby")).TextContent, StringComparison.Ordinal);
        Assert.Equal("also at S2", grid.Find("#" + inputs[2].GetAttribute("aria-describedby")).TextContent);
        Assert.Equal(["pole", "stand"], grid.FindAll($"datalist#{inputs[1].GetAttribute("list")} option").Select(o => o.GetAttribute("value")));
        Assert.Equal(" + ", inputs[2].GetAttribute("data-between"));
        Assert.Equal("changed", inputs[2].ParentElement!.ClassName);
        Assert.Contains("gone", grid.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void A_line_that_goes_cannot_be_typed_in_and_offers_to_stay()
    {
        var grid = Open(Line("1", "S1", "pole", "A") with { IsOut = true }, Line("2", "", "", "") with { CanGo = false });

        Assert.All(grid.FindAll("tr.out input"), i => Assert.True(i.HasAttribute("readonly")));
        Assert.Equal("Keep it: station S1", Assert.Single(grid.FindAll("button")).GetAttribute("aria-label"));
    }

    [Fact]
    public void Only_a_line_that_is_another_is_drawn_again()
    {
        var lines = new[] { Line("1", "S1", "pole", "A"), Line("2", "S2", "pole", "B") };
        var grid = Open(lines);
        var drawn = grid.FindComponents<StationGridLine>().Select(l => l.RenderCount).ToList();

        grid.Render(p => p.Add(x => x.Lines, [Line("1", "S1", "pole", "A"), Line("2", "S2", "stand", "B")]));

        var now = grid.FindComponents<StationGridLine>().Select(l => l.RenderCount).ToList();
        Assert.Equal((drawn[0], drawn[1] + 1), (now[0], now[1]));
    }

    private static GridLine Line(string key, params string[] texts) =>
        new(key, texts[0].Length > 0 ? "station " + texts[0] : "line " + key, [.. texts.Select(t => new GridCell(t))], null, false, true);

    private IRenderedComponent<StationGrid> Open(params GridLine[] lines) => Render<StationGrid>(p => p
        .Add(x => x.Label, "Stations").Add(x => x.Columns, Columns).Add(x => x.Lines, lines)
        .Add(x => x.OnText, EventCallback.Factory.Create<GridText>(this, t => _told.Add($"{t.Key}/{t.Column}/{t.Text}")))
        .Add(x => x.OnChosen, EventCallback.Factory.Create<string>(this, k => _told.Add("chosen " + k)))
        .Add(x => x.OnOut, EventCallback.Factory.Create<string>(this, k => _told.Add("out " + k)))
        .Add(x => x.OnUndo, EventCallback.Factory.Create(this, () => _told.Add("undone"))));
}

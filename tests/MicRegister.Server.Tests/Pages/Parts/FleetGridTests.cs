using Bunit;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Parts;
using Microsoft.Extensions.DependencyInjection;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>The list of the fleet: marks outlive filters, groups say how many, and the first screen needs no connection.</summary>
public sealed class FleetGridTests : PageContext
{
    private readonly List<string> _marked = [];
    private int _told;

    [Fact]
    public async Task Marks_stay_while_other_rows_are_shown()
    {
        var rows = await Rows(("A", "microphone"), ("B", "cable"), ("C", "cable"));
        var grid = Grid(rows);

        Tick(grid, "B", true);
        grid.Render(p => p.Add(g => g.Rows, [.. rows.Where(r => r.Id == "A")]));
        Assert.Equal(["Mark A"], Marks(grid).Select(m => m.Name));
        grid.Render(p => p.Add(g => g.Rows, rows));

        Assert.Equal(["B"], _marked);
        Assert.Equal([("Mark B", true), ("Mark C", false), ("Mark A", false)], Marks(grid));
        Tick(grid, "B", false);
        Assert.Empty(_marked);
        Assert.Equal(2, _told);
    }

    [Fact]
    public async Task All_and_none_are_of_what_is_shown()
    {
        var rows = await Rows(("A", "microphone"), ("B", "cable"), ("C", "cable"));
        _marked.Add("A");
        var grid = Grid([.. rows.Where(r => r.Kind == "cable")]);
        Assert.False(IsAllMarked(grid)); // as many marks as there are of others do not count

        grid.Find("input[aria-label='Mark all that are shown']").Change(true);
        Assert.Equal(["A", "B", "C"], _marked);
        Assert.True(IsAllMarked(grid));

        grid.Find("input[aria-label='Mark all that are shown']").Change(false);
        Assert.Equal(["A"], _marked);
        Assert.False(IsAllMarked(grid));
    }

    [Fact]
    public async Task Groups_stand_in_order_with_how_many_they_hold()
    {
        var grid = Grid(await Rows(("A", "microphone"), ("B", "cable"), ("C", "cable")));
        Assert.Empty(grid.FindAll("tr.group"));

        grid.Render(p => p.Add(g => g.Group, "kind"));
        Assert.Equal(["Cable (2)", "Microphone (1)"], grid.FindAll("tr.group")
            .Select(g => string.Join(' ', g.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))));
        // Each stands before its own.
        Assert.Equal(
            ["group", "B", "C", "group", "A"],
            grid.FindAll("tbody tr").Select(r => r.ClassName == "group" ? "group" : r.QuerySelector("a")?.TextContent).OfType<string>());

        grid.Render(p => p.Add(g => g.Group, "place"));
        Assert.Equal(["not stated (3)"], grid.FindAll("tr.group")
            .Select(g => string.Join(' ', g.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))));
    }

    [Fact]
    public async Task Columns_that_are_left_out_are_left_out_of_head_and_rows()
    {
        var grid = Grid(await Rows(("A", "microphone")));
        var all = Heads(grid);
        Assert.Equal(["Kind", "Serial", "Model", "Place", "Use", "Calibrated", "Newest result", "Its history"], all);

        grid.Render(p => p.Add(g => g.Hidden, ["place", "history"]));

        Assert.Equal(all.Except(["Place", "Its history"]), Heads(grid));
        Assert.Equal(grid.FindAll("thead th").Count, grid.Find("tbody tr:has(a)").Children.Length);
        Assert.DoesNotContain(FleetGrid.Optional, c => c.Key == "serial"); // by which a row is opened
    }

    [Fact]
    public async Task The_head_says_by_what_it_is_sorted_and_asks_for_another_order()
    {
        var asked = new List<string>();
        var grid = Render<FleetGrid>(p => p.Add(g => g.Rows, []).Add(g => g.Marked, _marked).Add(g => g.Sort, "-serial")
            .Add(g => g.OnSort, asked.Add));
        Assert.Equal([null, "none", "descending", "none", "none", "none", "none", "none", null], grid.FindAll("thead th")
            .Select(h => h.GetAttribute("aria-sort")));
        Assert.Equal("Serial ↓", grid.FindAll("thead th")[2].TextContent.Trim());

        grid.Render(p => p.Add(g => g.Sort, "kind"));
        Assert.Equal(["ascending", "none"], grid.FindAll("thead th").Skip(1).Take(2).Select(h => h.GetAttribute("aria-sort")));
        await grid.FindAll("thead th button")[1].ClickAsync();

        Assert.Equal(["serial"], asked);
    }

    [Fact]
    public async Task The_first_screen_is_drawn_before_the_connection_stands_and_the_rest_is_not()
    {
        Renderer.SetRendererInfo(new("Static", false));
        var rows = await Rows([.. Enumerable.Range(10, 40).Select(i => ($"D{i}", "cable"))]);

        var grid = Grid(rows);

        Assert.Equal(rows.Take(30).Select(r => r.Id), grid.FindAll("tbody tr").Select(r => r.QuerySelector("a")!.TextContent));
    }

    [Fact]
    public async Task With_a_connection_it_holds_all()
    {
        var rows = await Rows([.. Enumerable.Range(10, 40).Select(i => ($"D{i}", "cable"))]);

        Assert.Equal(rows.Select(r => r.Id), Grid(rows).FindAll("tbody tr a").Select(a => a.TextContent));
    }

    private IRenderedComponent<FleetGrid> Grid(IReadOnlyList<FleetRow> rows) =>
        Render<FleetGrid>(p => p.Add(g => g.Rows, rows).Add(g => g.Marked, _marked).Add(g => g.MarkedChanged, () => _told++));

    private static void Tick(IRenderedComponent<FleetGrid> grid, string id, bool on) => grid.Find($"input[aria-label='Mark {id}']")
        .Change(on);

    private static bool IsAllMarked(IRenderedComponent<FleetGrid> grid) => grid.Find("input[aria-label='Mark all that are shown']")
        .HasAttribute("checked");

    private static IEnumerable<(string Name, bool Is)> Marks(IRenderedComponent<FleetGrid> grid) =>
        grid.FindAll("tbody input").Select(m => (m.GetAttribute("aria-label")!, m.HasAttribute("checked")));

    private static List<string> Heads(IRenderedComponent<FleetGrid> grid) =>
        [.. grid.FindAll("thead th").Skip(1).Select(h => h.TextContent.Trim())];

    // Each with its id for a serial.
    private async Task<IReadOnlyList<FleetRow>> Rows(params (string Id, string Kind)[] devices)
    {
        await Live.Submit(
            [.. devices.Select((d, i) =>
                FactText.WriteDerived(new(Occurred.Unknown, "ada", "desk", i), new DeviceRegistered(d.Kind, null, null, d.Id, []),
                [Subject.Device(d.Id)]))],
            "test");
        return Services.GetRequiredService<FleetView>().Rows(Desk.Now);
    }
}

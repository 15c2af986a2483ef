using Bunit;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Parts;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>A device is found by words, by its serial and by its label; words that name none choose none.</summary>
public sealed class DeviceFinderTests : PageContext
{
    // A code of the register's own tests, its check character included.
    private const string Code = "2AYS641TS";

    private readonly List<string?> _told = [];
    private IRenderedComponent<MudPopoverProvider> _list = null!;

    [Fact]
    public async Task A_serial_is_typed_and_its_device_chosen()
    {
        await Fleet();
        var finder = Finder();

        finder.Find("input").Input("107");
        await Choose("107", finder);

        Assert.Equal(["M1"], _told);
        Assert.Equal("Model A 107", finder.Find("input").GetAttribute("value"));
    }

    // 1070 begins like it and stands before it by its kind.
    [Fact]
    public async Task The_device_whose_serial_it_is_stands_first_where_Enter_takes_it()
    {
        await Fleet();
        var finder = Finder();

        finder.Find("input").Input("107");
        Assert.Equal(["107", "1070"], (await Offered(2)).Select(o => o.Split(' ')[^1]));
    }

    [Theory]
    [InlineData(Code)]
    [InlineData("2ays 641t s")]
    [InlineData("https://register.example/l/2AYS641TS")]
    public async Task A_label_finds_what_it_is_on(string scanned)
    {
        await Fleet();
        var finder = Finder();

        finder.Find("input").Input(scanned);

        Assert.Equal(["Cable Model C 1070"], await Offered(1));
    }

    [Fact]
    public async Task Words_that_name_none_choose_none_and_never_bring_back_the_device_that_stood_there()
    {
        await Fleet();
        var finder = Finder("M1");
        Assert.Equal("Model A 107", finder.Find("input").GetAttribute("value"));

        finder.Find("input").Input("no such thing");
        _list.WaitForAssertion(() => Assert.Contains("Nothing fits.", _list.Markup, StringComparison.Ordinal));
        await finder.Find("input").BlurAsync();

        finder.WaitForAssertion(() => Assert.NotEqual("Model A 107", finder.Find("input").GetAttribute("value")));
        Assert.Equal([null], _told.Distinct());
    }

    [Fact]
    public async Task Words_of_others_that_are_left_without_a_choice_are_no_device_either()
    {
        await Fleet();
        var finder = Finder("M1");

        finder.Find("input").Input("model");
        await Offered(3);
        await finder.Find("input").BlurAsync();
        Assert.Empty(_told); // one of them may be chosen yet
        await finder.InvokeAsync(() => finder.FindComponent<MudAutocomplete<FleetRow>>().Instance.CloseMenuAsync());

        finder.WaitForAssertion(() => Assert.Equal([null], _told));
    }

    [Fact]
    public async Task The_device_that_stands_there_stays_while_nothing_is_typed_and_another_of_the_page_takes_its_place()
    {
        await Fleet();
        var finder = Finder("M1");
        finder.Render(p => p.Add(f => f.Value, "M2"));

        await finder.Find("input").BlurAsync();

        Assert.Equal("Model B 220", finder.Find("input").GetAttribute("value"));
        Assert.Empty(_told);
    }

    [Fact]
    public async Task An_empty_field_is_no_device()
    {
        await Fleet();
        var finder = Finder("M1");

        finder.Find("input").Input("");

        finder.WaitForAssertion(() => Assert.Equal([null], _told));
    }

    [Fact]
    public async Task What_is_not_to_be_offered_is_not_by_words_nor_by_label()
    {
        await Fleet();
        var finder = Finder();
        finder.Render(p => p.Add(f => f.Without, ["C1"]));
        finder.Find("input").Input("107");
        Assert.Equal(["Microphone Model A 107"], await Offered(1));

        finder.Find("input").Input(Code);
        _list.WaitForAssertion(() => Assert.Contains("Nothing fits.", _list.Markup, StringComparison.Ordinal));

        finder.Render(p => p.Add(f => f.Without, []).Add(f => f.Kind, "microphone"));
        finder.Find("input").Input("model");
        Assert.Equal(["Microphone Model A 107", "Microphone Model B 220"], await Offered(2));
        finder.Find("input").Input(Code);
        _list.WaitForAssertion(() => Assert.Contains("Nothing fits.", _list.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Where_one_is_added_after_the_other_the_field_is_empty_afterwards()
    {
        await Fleet();
        _list = Render<MudPopoverProvider>();
        var chosen = new List<string>();
        var finder = Render<DeviceFinder>(p => p.Add(f => f.OnChosen, chosen.Add));

        foreach (var serial in new[] { "220", "107" })
        {
            finder.Find("input").Input(serial);
            await Choose(serial, finder);
            finder.WaitForAssertion(() => Assert.Equal("", finder.Find("input").GetAttribute("value") ?? ""));
        }

        Assert.Equal(["M2", "M1"], chosen);
        Assert.Empty(_told);
    }

    private IRenderedComponent<DeviceFinder> Finder(string? value = null)
    {
        _list = Render<MudPopoverProvider>();
        return Render<DeviceFinder>(p => p.Add(f => f.Label, "Device").Add(f => f.Value, value).Add(f => f.ValueChanged, _told.Add));
    }

    private Task<List<string>> Offered(int count)
    {
        _list.WaitForAssertion(() => Assert.Equal(count, _list.FindAll(".mud-list-item").Count));
        return Task.FromResult(_list.FindAll(".mud-list-item")
            .Select(o => string.Join(' ', o.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))).ToList());
    }

    private async Task Choose(string serial, IRenderedComponent<DeviceFinder> finder)
    {
        _list.WaitForAssertion(() =>
            Assert.Contains(_list.FindAll(".mud-list-item strong"), s => s.TextContent.EndsWith(" " + serial, StringComparison.Ordinal)));
        await finder.InvokeAsync(() => _list.FindAll(".mud-list-item")
            .First(o => o.QuerySelector("strong")!.TextContent.EndsWith(" " + serial, StringComparison.Ordinal)).Click());
    }

    private async Task Fleet()
    {
        Fact Of(int counter, FactBody body, params string[] subjects) =>
            FactText.WriteDerived(new(Occurred.Unknown, "ada", "desk", counter), body, subjects);
        await Live.Submit(
            [
                Of(1, new DeviceRegistered("microphone", "House", "Model A", "107", []), Subject.Device("M1")),
                Of(2, new DeviceRegistered("microphone", "House", "Model B", "220", []), Subject.Device("M2")),
                Of(3, new DeviceRegistered("cable", "House", "Model C", "1070", []), Subject.Device("C1")),
                Of(4, new LabelBound(Code, null), Subject.Label(Code), Subject.Device("C1")),
            ],
            "test");
    }
}

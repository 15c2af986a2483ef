using Bunit;
using MicRegister.Register.Devices;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>One of a few words, as the machine's own list.</summary>
public sealed class ChoiceTests : PageContext
{
    private const string Words = "<option value=''>none</option><option value='red'>red</option><option value='blue'>blue</option>";
    private const string States = "<option value=''>none</option><option value='Away'>away</option><option value='Lost'>lost</option>";

    [Fact]
    public void A_word_is_chosen_and_an_empty_entry_is_none()
    {
        var told = new List<string?>();
        var choice = Render<Choice<string>>(p => p.Add(c => c.Label, "Colour").AddChildContent(Words).Add(c => c.Value, "red")
            .Add(c => c.ValueChanged, told.Add));
        Assert.Equal("red", choice.Find("select").GetAttribute("value"));
        Assert.Equal("Colour", choice.Find($"label[for='{choice.Find("select").Id}']").TextContent);

        choice.Find("select").Change("blue");
        choice.Find("select").Change("");

        Assert.Equal(["blue", null], told);
    }

    [Fact]
    public void An_enumeration_is_chosen_by_its_name_and_none_of_it_is_null()
    {
        var told = new List<DeviceStatus?>();
        var choice = Render<Choice<DeviceStatus?>>(p => p
            .Add(c => c.Label, "State").AddChildContent(States).Add(c => c.Value, DeviceStatus.Lost).Add(c => c.ValueChanged, told.Add));
        Assert.Equal("Lost", choice.Find("select").GetAttribute("value"));

        choice.Find("select").Change("Away");
        choice.Find("select").Change("");
        choice.Find("select").Change("Somewhere"); // no entry of it

        Assert.Equal([DeviceStatus.Away, null, null], told);
    }

    [Fact]
    public void Where_none_is_not_allowed_an_empty_entry_is_the_first_of_its_kind()
    {
        var told = new List<DeviceStatus>();
        var choice = Render<Choice<DeviceStatus>>(p => p.Add(c => c.Label, "State").AddChildContent(States)
            .Add(c => c.ValueChanged, told.Add));

        choice.Find("select").Change("Lost");
        choice.Find("select").Change("");

        Assert.Equal([DeviceStatus.Lost, default], told);
    }

    [Fact]
    public void Where_no_value_is_given_the_entry_that_says_so_is_selected()
    {
        var choice = Render<Choice<string>>(p => p
            .Add(c => c.Label, "Spare").AddChildContent("<option value='A'>A</option><option value='B' selected>B</option>"));

        // A value of the list, even an empty one, would win over the mark of the entry.
        Assert.False(choice.Find("select").HasAttribute("value"));
        Assert.Equal("B", choice.Find("option[selected]").GetAttribute("value"));
        // The first word of an enumeration is a value like any other.
        var state = Render<Choice<DeviceStatus>>(p => p.Add(c => c.Label, "State").AddChildContent(States));
        Assert.False(state.Find("select").HasAttribute("value"));
        Assert.Equal("", Render<Choice<string>>(p => p.Add(c => c.Label, "Spare").Add(c => c.Value, "").AddChildContent(Words))
            .Find("select").GetAttribute("value"));
    }

    [Fact]
    public void What_is_required_or_shut_is_said_at_the_list_itself()
    {
        var choice = Render<Choice<string>>(p => p
            .Add(c => c.Label, "Spare").AddChildContent(Words).Add(c => c.Required, true).Add(c => c.Disabled, true)
                .AddUnmatched("name", "spare"));

        Assert.True(choice.Find("select").HasAttribute("required"));
        Assert.True(choice.Find("select").HasAttribute("disabled"));
        Assert.Equal("spare", choice.Find("select").GetAttribute("name"));
    }

    [Fact]
    public void In_a_cell_the_label_is_for_those_who_do_not_see_the_head_and_an_empty_entry_is_none()
    {
        var (told, typed) = (new List<string?>(), new List<string?>());
        var choice = Render<CellChoice>(p => p.Add(c => c.Label, "Mount of row 3").AddChildContent(Words).Add(c => c.Value, "red")
            .Add(c => c.ValueChanged, told.Add));
        var cell = Render<Cell>(p => p.Add(c => c.Label, "Latitude of row 3").Add(c => c.ValueChanged, typed.Add));

        choice.Find("select").Change("blue");
        choice.Find("select").Change("");
        cell.Find("input").Input("53,5");

        Assert.Equal(("Mount of row 3", "Latitude of row 3"), (choice.Find("select").GetAttribute("aria-label"), cell.Find("input")
            .GetAttribute("aria-label")));
        Assert.Equal(["blue", null], told);
        Assert.Equal(["53,5"], typed);
    }
}

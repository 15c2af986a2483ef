using Bunit;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>Whole numbers: what is none stays, is told at the field, and leaves the value as it was.</summary>
public sealed class CountFieldTests : PageContext
{
    private readonly List<int?> _told = [];

    [Theory]
    [InlineData("12", 12)]
    [InlineData(" 7 ", 7)]
    [InlineData("0", 0)]
    [InlineData("", null)]
    public void A_count_is_told_as_a_number_and_an_empty_field_as_none(string text, int? value)
    {
        var field = Count(3);

        field.Find("input").Change(text);

        Assert.Equal([value], _told);
        Assert.NotEqual("true", field.Find("input").GetAttribute("aria-invalid"));
    }

    [Theory]
    [InlineData("12,5", "'12,5' is no whole number.")]
    [InlineData("1.0", "'1.0' is no whole number.")]
    [InlineData("many", "'many' is no whole number.")]
    [InlineData("99999999999", "'99999999999' is no whole number.")]
    [InlineData("41", "41 is out of bounds: 0 to 40.")]
    [InlineData("-1", "-1 is out of bounds: 0 to 40.")]
    public void What_is_none_stays_is_told_at_the_field_and_changes_nothing(string text, string said)
    {
        var field = Count(3);

        field.Find("input").Change(text);
        field.Render(p => p.Add(c => c.Value, 3)); // the page knows of nothing

        Assert.Empty(_told);
        Assert.Equal((text, "true"), (field.Find("input").GetAttribute("value"), field.Find("input").GetAttribute("aria-invalid")));
        Assert.Equal(said, field.Find(".mud-input-helper-text").TextContent.Trim());
        field.Find("input").Change("4");
        Assert.Equal([4], _told);
        Assert.NotEqual("true", field.Find("input").GetAttribute("aria-invalid"));
    }

    [Fact]
    public void Another_value_of_the_page_replaces_what_was_wrong()
    {
        var field = Count(3);
        field.Find("input").Change("many");

        field.Render(p => p.Add(c => c.Value, 5));

        Assert.Equal("5", field.Find("input").GetAttribute("value"));
        Assert.NotEqual("true", field.Find("input").GetAttribute("aria-invalid"));
    }

    [Fact]
    public void Where_only_the_least_is_bounded_that_is_said()
    {
        var field = Render<CountField>(p => p.Add(c => c.Label, "Days").Add(c => c.Least, 1));

        field.Find("input").Change("0");

        Assert.Equal("0 is out of bounds: 1 or more.", field.Find(".mud-input-helper-text").TextContent.Trim());
    }

    private IRenderedComponent<CountField> Count(int? value) => Render<CountField>(p => p
        .Add(c => c.Label, "Spares").Add(c => c.Value, value).Add(c => c.Least, 0).Add(c => c.Greatest, 40)
            .Add(c => c.ValueChanged, _told.Add));
}

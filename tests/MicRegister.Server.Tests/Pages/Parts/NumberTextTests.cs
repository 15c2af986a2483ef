using AngleSharp.Dom;
using Bunit;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>Measured values stand as they were typed; what is none is told where it stands and changes nothing.</summary>
public sealed class NumberTextTests : PageContext
{
    [Theory]
    [InlineData("12,5")]
    [InlineData("12.5")]
    [InlineData("−38,06")] // U+2212
    [InlineData("-38.06")]
    [InlineData("94 dB")]
    public void A_number_stays_as_it_was_typed_and_is_told_like_that(string text)
    {
        var told = new List<string?>();
        var field = Render<NumberText>(p => p.Add(n => n.Label, "Level").Add(n => n.Unit, "dB").Add(n => n.ValueChanged, told.Add));

        field.Find("input").Change(text);

        Assert.Equal(text, field.Find("input").GetAttribute("value"));
        Assert.Equal([text], told);
        Assert.False(IsInvalid(field.Find("input")));
        Assert.Equal("decimal", field.Find("input").GetAttribute("inputmode"));
    }

    [Theory]
    [InlineData("twelve")]
    [InlineData("12,5 apples")]
    [InlineData("--3")]
    public void What_is_no_number_stays_and_is_told_at_the_field(string text)
    {
        var field = Render<NumberText>(p => p.Add(n => n.Label, "Level"));

        field.Find("input").Change(text);

        Assert.Equal(text, field.Find("input").GetAttribute("value"));
        Assert.True(IsInvalid(field.Find("input")));
        Assert.Contains($"'{text}' is no number.", field.Markup.Replace("&#x27;", "'", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-20.0, 50.0, "50,1", "50,1 is out of bounds: -20 to 50 °C.")]
    [InlineData(-20.0, 50.0, "−20,1", "−20,1 is out of bounds: -20 to 50 °C.")]
    [InlineData(0.5, null, "0,4", "0,4 is out of bounds: 0.5 or more °C.")]
    [InlineData(null, 50.0, "51", "51 is out of bounds: 50 or less °C.")]
    [InlineData(-20.0, 50.0, "50", null)]
    [InlineData(-20.0, 50.0, "−20", null)]
    [InlineData(-20.0, 50.0, "", null)]
    public void What_is_out_of_bounds_is_told_with_what_is_allowed_and_its_unit(double? least, double? greatest, string text, string? said)
    {
        var field = Render<NumberText>(p => p.Add(n => n.Label, "Temperature").Add(n => n.Unit, "°C").Add(n => n.Least, least)
            .Add(n => n.Greatest, greatest));

        field.Find("input").Change(text);

        Assert.Equal(text, field.Find("input").GetAttribute("value") ?? "");
        Assert.Equal(said is not null, IsInvalid(field.Find("input")));
        if (said is not null) Assert.Contains(said, field.Find(".mud-input-helper-text").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_page_finds_wrong_comes_first()
    {
        var field = Render<NumberText>(p => p.Add(n => n.Label, "Limit").Add(n => n.Value, "x")
            .Add(n => n.Problem, "The limit is the profile's."));

        Assert.Equal("The limit is the profile's.", field.Find(".mud-input-helper-text").TextContent.Trim());
    }

    private static bool IsInvalid(IElement input) => input.GetAttribute("aria-invalid") == "true";
}

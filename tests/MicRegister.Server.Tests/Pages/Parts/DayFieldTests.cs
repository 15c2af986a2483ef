using Bunit;
using MicRegister.Server.Pages.Parts;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages.Parts;

/// <summary>Days and times of day, typed: one writing is taken, all else stays and is told at the field.</summary>
public sealed class DayFieldTests : PageContext
{
    private readonly List<DateOnly?> _told = [];

    [Fact]
    public void A_day_is_taken_as_it_is_written_everywhere()
    {
        var field = Day(null);

        field.Find("input").Change("2026-05-17");

        Assert.Equal([new DateOnly(2026, 5, 17)], _told);
        Assert.Equal("2026-05-17", field.Find("input").GetAttribute("value"));
        Assert.NotEqual("true", field.Find("input").GetAttribute("aria-invalid"));
    }

    [Theory]
    [InlineData("17.5.2026")]
    [InlineData("2026-02-30")]
    [InlineData("20260517")]
    [InlineData("2026-5-17")]
    [InlineData("{0} {x}")]
    public void What_is_no_such_day_stays_is_told_at_the_field_and_is_no_day(string text)
    {
        var field = Day(new(2026, 8, 3));
        Assert.Equal("2026-08-03", field.Find("input").GetAttribute("value"));

        field.Find("input").Change(text);
        field.Render(p => p.Add(d => d.Value, _told.LastOrDefault()));

        Assert.Equal(text, field.Find("input").GetAttribute("value"));
        Assert.Equal("true", field.Find("input").GetAttribute("aria-invalid"));
        Assert.Equal($"'{text}' is no day: a day is written 2026-05-17.", field.Find(".mud-input-helper-text").TextContent.Trim());
        Assert.Equal([null], _told);
        Assert.Null(field.Instance.Value);
    }

    [Fact]
    public void A_day_is_told_once_and_one_that_stands_there_already_not_at_all()
    {
        var field = Day(new(2026, 8, 3));

        field.Find("input").Change("2026-08-04");
        field.Render(p => p.Add(d => d.Value, new DateOnly(2026, 8, 4)));
        field.Render(p => p.Add(d => d.Value, new DateOnly(2026, 8, 5)));

        Assert.Equal([new DateOnly(2026, 8, 4)], _told);
        Assert.Equal("2026-08-05", field.Find("input").GetAttribute("value"));
    }

    [Fact]
    public void The_first_of_all_days_is_shown_as_none_and_what_is_required_is_said_at_the_input()
    {
        var field = Day(default(DateOnly));
        Assert.Equal("", field.Find("input").GetAttribute("value") ?? "");
        Assert.False(field.Find("input").HasAttribute("required"));

        field.Render(p => p.Add(d => d.Required, true));
        var input = field.Find("input");
        Assert.True(input.HasAttribute("required"));
        Assert.Equal("First day", field.Find($"label[for='{input.Id}']").TextContent.Trim().TrimEnd('*'));
    }

    [Fact]
    public void The_calendar_has_a_name_and_its_weeks_begin_on_Monday()
    {
        var popovers = Render<MudPopoverProvider>();
        var field = Day(new(2026, 8, 3));

        field.Find("button[aria-label='Calendar']").Click();

        popovers.WaitForAssertion(() => Assert.Equal(7, popovers.FindAll(".mud-picker-calendar-header-day .mud-day-label").Count));
        Assert.StartsWith("Mo", popovers.Find(".mud-picker-calendar-header-day .mud-day-label").TextContent.Trim(),
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("07:05", "07:05")]
    [InlineData("7:05", "07:05")]
    [InlineData("1905", "19:05")]
    [InlineData("23:59:30", "23:59:30")]
    [InlineData("00:00", "00:00")]
    [InlineData("", "")]
    public void A_time_of_day_is_taken_with_or_without_its_colon(string text, string time)
    {
        var (field, told) = Time();

        field.Find("input").Change(text);

        Assert.Equal([time], told);
        Assert.Equal(time, field.Find("input").GetAttribute("value") ?? "");
        Assert.NotEqual("true", field.Find("input").GetAttribute("aria-invalid"));
    }

    [Theory]
    [InlineData("25:00")]
    [InlineData("24:00")]
    [InlineData("12:60")]
    [InlineData("7:5")]
    [InlineData("705")]
    [InlineData("7 pm")]
    public void What_is_no_time_stays_and_is_told_at_the_field(string text)
    {
        var (field, told) = Time();

        field.Find("input").Change(text);

        Assert.Equal([text], told);
        Assert.Equal((text, "true"), (field.Find("input").GetAttribute("value"), field.Find("input").GetAttribute("aria-invalid")));
        Assert.Equal($"'{text}' is no time: a time is written 07:05.", field.Find(".mud-input-helper-text").TextContent.Trim());
        Assert.False(TimeField.TryRead(text, out _));
    }

    private IRenderedComponent<DayField> Day(DateOnly? value) =>
        Render<DayField>(p => p.Add(d => d.Label, "First day").Add(d => d.Value, value).Add(d => d.ValueChanged, _told.Add));

    private (IRenderedComponent<TimeField> Field, List<string?> Told) Time()
    {
        var told = new List<string?>();
        return (Render<TimeField>(p => p.Add(t => t.Label, "Begin").Add(t => t.ValueChanged, told.Add)), told);
    }
}

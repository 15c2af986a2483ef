using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Import;

/// <summary>A legend is changed a rule at a time, and all else in it stays.</summary>
public sealed class LegendLinesTests
{
    private const string Legend = "# from the cupboard\nNr = serial\n\n[sheet Old]\nNr = inventory-code\nword kind \"Kapsel\" := microphone\n# end";

    [Fact]
    public void Rules_are_told_one_by_one_with_their_sheet()
    {
        Assert.Equal(["Nr = serial", "[sheet Old] Nr = inventory-code", "[sheet Old] word kind \"Kapsel\" := microphone"],
            LegendLines.Rules(Legend));
        Assert.Empty(LegendLines.Rules(null));
    }

    [Fact]
    public void An_answer_keeps_comments_and_stands_before_the_first_sheet()
    {
        var with = LegendLines.With(Legend, "dates := day-first");

        Assert.Equal("# from the cupboard\nNr = serial\n\ndates := day-first\n[sheet Old]\nNr = inventory-code\n"
            + "word kind \"Kapsel\" := microphone\n# end", with);
        var read = ImportMapping.Read(new StringReader(with), "x");
        Assert.Equal((DateOrder.DayFirst, (DateOrder?)null), (read.Dates, read.Sheets["old"].Dates));
    }

    [Theory]
    [InlineData("nr. = model", "nr. = model,[sheet Old] Nr = inventory-code,[sheet Old] word kind \"Kapsel\" := microphone")]
    [InlineData("[sheet old] NR = model", "Nr = serial,[sheet old] NR = model,[sheet Old] word kind \"Kapsel\" := microphone")]
    [InlineData("[sheet Old] word kind \"kapsel\" := cable",
        "Nr = serial,[sheet Old] word kind \"kapsel\" := cable,[sheet Old] Nr = inventory-code")]
    public void What_is_said_of_a_thing_stands_in_the_place_of_what_was_said(string rule, string rules) =>
        Assert.Equal(rules.Split(','), LegendLines.Rules(LegendLines.With(Legend, rule)));

    [Fact]
    public void The_heading_of_a_sheet_cannot_be_taken_back_alone()
    {
        Assert.Equal(Legend, LegendLines.Without(Legend, "[sheet Old]"));
        var without = LegendLines.Without(Legend, "[sheet Old] Nr = inventory-code");
        Assert.Equal(["Nr = serial", "[sheet Old] word kind \"Kapsel\" := microphone"], LegendLines.Rules(without));
        Assert.Contains("# from the cupboard", without, StringComparison.Ordinal);
    }

    [Fact]
    public void The_rule_of_a_header_is_found_in_its_sheet_first()
    {
        Assert.Equal("[sheet Old] Nr = inventory-code", LegendLines.OfHeader(Legend, "OLD", "Nr."));
        Assert.Equal("Nr = serial", LegendLines.OfHeader(Legend, "New", "Nr."));
        Assert.Null(LegendLines.OfHeader(Legend, "", "Kind"));
    }

    [Fact]
    public void The_next_list_does_not_speak_as_of_the_same_day() =>
        Assert.Equal("Nr = serial", LegendLines.ForNext("Nr = serial\nas-of := 2025-01-01"));

    [Fact]
    public void Two_legends_are_joined_and_rules_of_the_file_stay_its_own()
    {
        var joined = LegendLines.Joined("Nr = serial\n[sheet Old]\nNr = model", "Nr = inventory-code\n[sheet New]\nNr = maker");

        Assert.Equal(["Nr = inventory-code", "[sheet Old] Nr = model", "[sheet New] Nr = maker"], LegendLines.Rules(joined));
        Assert.Equal("a := b", LegendLines.Joined("", "a := b"));
    }
}

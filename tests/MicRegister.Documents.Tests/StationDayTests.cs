using MicRegister.Documents.Drawings;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Tests;

/// <summary>The chart of a day says by shapes which stations are doubtful or not valid, and where a part was swapped.</summary>
public sealed class StationDayTests
{
    [Fact]
    public void Doubtful_stations_and_swaps_have_marks_of_their_own_and_valid_ones_none()
    {
        var marks = Day(72, 2, @unchecked: [70, 71], swapped: [69]).Shapes.OfType<Mark>().ToList();

        // A mark before the name, and one at each of the two events that lie too near to each other to be told apart.
        var doubtful = marks.Where(m => m.Tip.StartsWith("Station S070", StringComparison.Ordinal)).ToList();
        Assert.Equal(["Station S070: doubtful in 2 of 2 events", "Station S070, Run 0 and 1 more: doubtful"], doubtful.Select(m => m.Tip));
        Assert.All(doubtful, m => Assert.Equal((MarkForm.Triangle, Role.Risk, LargeArray.Event(0) + "|S070"), (m.Form, m.Role, m.Key)));
        Assert.DoesNotContain(marks, m => m.Tip.StartsWith("Station S001", StringComparison.Ordinal));

        // The chain is swapped in the first event; the new microphone was not checked.
        var swap = Assert.Single(marks, m => m.Form == MarkForm.Cross);
        Assert.Equal("S069, 10:00:30 site time: Microphone Model 4069 was swapped for Microphone Model 5069. it crackled", swap.Tip);
        Assert.Equal(marks.First(m => m.Tip.StartsWith("Station S069", StringComparison.Ordinal)).Y, swap.Y);

        // Above, each event has the form of its verdict.
        Assert.Equal(
            ["Run 0, 10:00:00 site time: doubtful, of 72 stations 69 valid, 3 doubtful, 0 undecided, 0 not valid", "Run 1, 10:01:00 site time: doubtful, of 72 stations 69 valid, 3 doubtful, 0 undecided, 0 not valid"],
            marks.Where(m => m.Y < 10).Select(m => m.Tip));
        Assert.All(marks.Where(m => m.Y < 10), m => Assert.Equal(MarkForm.Triangle, m.Form));
    }

    [Fact]
    public void An_event_that_is_valid_everywhere_is_a_disc_and_one_of_which_that_is_not_known_yet_is_hollow()
    {
        var valid = Assert.Single(Day(3, 1).Shapes.OfType<Mark>());
        Assert.Equal((MarkForm.Disc, Role.Ready), (valid.Form, valid.Role));

        var open = Assert.Single(Day(3, 1, known: _ => null, @unchecked: [1]).Shapes.OfType<Mark>());
        Assert.Equal((MarkForm.Disc, Role.Annulled, "Run 0, 10:00:00 site time: not worked out yet"), (open.Form, open.Role, open.Tip));
    }

    [Fact]
    public void Where_there_would_be_too_many_marks_each_station_keeps_the_one_before_its_name()
    {
        int[] all = [.. Enumerable.Range(1, 70)];
        // Each minute of five hours on 206 mm: up to 80 marks of 2.6 mm a station.
        var marks = Day(70, 300, @unchecked: all).Shapes.OfType<Mark>().ToList();

        Assert.Equal(70, marks.Count(m => m.Tip.EndsWith("doubtful in 300 of 300 events", StringComparison.Ordinal)));
        Assert.Equal(70 + 300, marks.Count);
        Assert.Contains(Day(5, 300, @unchecked: all[..5]).Shapes.OfType<Mark>(), m => m.Tip.StartsWith("Station S001, Run", StringComparison.Ordinal));
    }

    private static Drawing Day(
        int stations, int events, int[]? @unchecked = null, int[]? swapped = null, Func<string, EventVerdict?>? known = null)
    {
        var register = FactList.RegisterOf([.. LargeArray.Facts(stations, events, @unchecked, swapped: swapped)]);
        return StationDay.Of(
            register, register.Campaign(LargeArray.C)!, new(2026, 6, 2), EventBook.OfCampaign(register, LargeArray.C),
            CheckBook.OfCampaign(register, LargeArray.C), known)!;
    }
}

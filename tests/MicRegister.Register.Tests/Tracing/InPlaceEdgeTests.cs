using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Comparisons in place at the very edge of the time within which they say something of an event.</summary>
public sealed class InPlaceEdgeTests
{
    [Theory]
    [InlineData("06-03 21:59", false)] // 23:59 of the day before, 22 h before the event
    [InlineData("06-03 22:00", true)] // 00:00 of its local day
    [InlineData("06-05 14:01", true)] // 18 h after it, as long as a session
    [InlineData("06-05 14:02", false)]
    public void Without_hours_in_the_profile_the_local_day_or_one_session_counts(string at, bool counts)
    {
        // The event is at 22:00 at the heath.
        var register = Heath.With(
            Heath.Written((LimitKey.CheckSpanHours, 240)), Heath.Placed("S1", "06-01 06:00"),
            Heath.Checked("S1", "06-01 07:00", CheckMoment.Before, -38.15), Heath.Event("E1", "06-04 20:00", "06-04 20:01"),
            Heath.Checked("S1", "06-08 07:00", CheckMoment.After, -38.15), Compared(at));

        Assert.Equal(counts ? 1 : 0, Heath.One(register).InPlace.Count);
    }

    [Theory]
    [InlineData("2026-06-05T10:01:00.000Z", true)] // 24 h after its end
    [InlineData("2026-06-05T10:01:00.001Z", false)]
    public void The_hours_of_the_profile_count_to_the_millisecond(string at, bool counts)
    {
        var compared = Compared("06-05 10:01");
        var register = Heath.With(
            Heath.Written((LimitKey.CheckSpanHours, 240), (LimitKey.InPlaceHours, 24)), Heath.Placed("S1", "06-01 06:00"),
            Heath.Checked("S1", "06-01 07:00", CheckMoment.Before, -38.15), Heath.Event("E1", "06-04 10:00", "06-04 10:01"),
            FactText.WriteDerived(new(Make.On(at), "P1", "phone-1.ABCD", 7), compared.Body, compared.Subjects));

        Assert.Equal(counts ? 1 : 0, Heath.One(register).InPlace.Count);
    }

    [Theory]
    [InlineData("06-02 06:29", false)]
    [InlineData("06-02 06:30", true)] // at the instant of the check before
    [InlineData("06-02 16:00", true)] // at that of the check after
    [InlineData("06-02 16:01", false)]
    public void What_was_compared_before_the_check_before_or_after_the_check_after_was_another_time_of_the_chain(string at, bool counts) =>
        Assert.Equal(counts ? 1 : 0, Heath.One(Heath.With([.. Heath.Flight(), Compared(at)])).InPlace.Count);

    /// <summary>Five chains that read alike.</summary>
    private static Fact Compared(string at) =>
        Heath.Compared(
            at, 0.4, ("S1", Heath.Chain("S1"), 70), ("X2", ["M2"], 70), ("X3", ["M3"], 70), ("X4", ["M9"], 70), ("X5", ["P9"], 70));
}

using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>A chain that was taken in and set up again was another set-up: checks of before do not serve what it recorded after.</summary>
public sealed class SetUpAgainTests
{
    private static readonly Fact Morning = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.15);
    private static readonly Fact Evening = Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.15);
    private static readonly Fact TakenIn = Heath.TakenIn("S1", "06-02 08:00");
    private static readonly Fact Again = Heath.Placed("S1", "06-02 09:00");

    [Fact]
    public void A_check_before_it_was_taken_in_does_not_serve_what_it_recorded_after_it_was_placed_again()
    {
        var trace = Heath.One(Heath.With([TakenIn, Again, .. Flight]));

        Assert.Null(trace.Before);
        Assert.Equal(Evening.Id, trace.After!.Fact);
        var reason = Assert.Single(trace.Reasons);
        Assert.Equal(
            "The chain was not checked before it as it stood: between the event and that check it was taken away at 08:00:00 UTC "
                + "and set up again at 09:00:00 UTC.",
            reason.Text);
        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
    }

    [Theory]
    [InlineData("08:30")] // taken in, not yet placed
    [InlineData("09:30")]
    public void A_new_check_before_the_event_serves(string at)
    {
        var check = Heath.Checked("S1", "06-02 " + at, CheckMoment.Before, -38.15, counter: 9);
        var trace = Heath.One(Heath.With([TakenIn, Again, check, .. Flight]));

        Assert.Equal((check.Id, TraceVerdict.Valid), (trace.Before!.Fact, trace.Verdict));
    }

    [Fact]
    public void A_check_after_it_was_set_up_again_does_not_serve_what_it_recorded_before()
    {
        var (taken, placed) = (Heath.TakenIn("S1", "06-02 12:00"), Heath.Placed("S1", "06-02 13:00"));
        var trace = Heath.One(Heath.With([taken, placed, .. Flight]));
        Assert.Equal((Morning.Id, null), (trace.Before!.Fact, trace.After?.Fact));
        Assert.Contains("not checked after it as it stood", Assert.Single(trace.Reasons).Text, StringComparison.Ordinal);

        // Taken in and checked where it lay is the same set-up still.
        Assert.Equal(Evening.Id, Heath.One(Heath.With([taken, .. Flight])).After!.Fact);
    }

    [Fact]
    public void The_same_parts_placed_anew_where_they_stand_stayed_there()
    {
        Assert.Equal(Morning.Id, Heath.One(Heath.With([Again, .. Flight])).Before!.Fact);
    }

    [Fact]
    public void What_another_chain_replaced_or_a_swap_took_out_was_set_up_again()
    {
        var other = Heath.Placed("S1", "06-02 08:00", ["M9", "P9", "R9"]);
        Assert.Null(Heath.One(Heath.With([other, Again, .. Flight])).Before);

        var swapped = Heath.Placed("S1", "06-02 08:00", ["M9", "P1", "R1"], swap: new("M1", "M9", "no signal"));
        Assert.Null(Heath.One(Heath.With([swapped, Again, .. Flight])).Before);
    }

    [Fact]
    public void Another_station_and_what_makes_no_sound_change_nothing()
    {
        Assert.Equal(Morning.Id, Heath.One(Heath.With([
            Heath.Placed("S2", "06-02 06:10"), Heath.TakenIn("S2", "06-02 08:00"), Heath.Placed("S2", "06-02 09:00"), .. Flight])).Before!.Fact);

        var plate = Make.Registered("G1", "401", "ground-plate");
        Assert.Equal(Morning.Id, Heath.One(Heath.With([
            plate, Heath.Placed("S2", "06-02 06:10", ["G1"]), Heath.TakenIn("S2", "06-02 08:00", ["G1"]),
            Heath.Placed("S1", "06-02 09:00", [.. Heath.Chain("S1"), "G1"]), .. Flight])).Before!.Fact);
    }

    [Fact]
    public void A_part_that_was_missing_when_the_chain_was_taken_in_went_away_too()
    {
        var taken = Heath.Said("06-02 08:00", 2, new ChainTakenIn("S1", [], ["M1"], null), [Subject.Campaign(Heath.C), "device:M1"]);
        Assert.Null(Heath.One(Heath.With([taken, Again, .. Flight])).Before);
    }

    [Fact]
    public void A_check_of_a_bare_day_stands_for_all_of_it()
    {
        var before = Heath.Checked("S1", "06-02", CheckMoment.Before, -38.15);
        Fact[] day = [Flight[0], before, .. Flight[2..]];
        Assert.Equal(before.Id, Heath.One(Heath.With(day)).Before!.Fact);
        // The evening of the day before lies before all of it; the site is two hours ahead.
        Assert.Equal(before.Id, Heath.One(Heath.With([
            Heath.Placed("S1", "06-01 06:00"), Heath.TakenIn("S1", "06-01 21:59"), .. day])).Before!.Fact);
        Assert.Null(Heath.One(Heath.With([TakenIn, Again, .. day])).Before);

        var after = Heath.Checked("S1", "06-02", CheckMoment.After, -38.15);
        Assert.Equal(after.Id, Heath.One(Heath.With([.. Flight[..3], after])).After!.Fact);
        Assert.Null(Heath.One(Heath.With([
            .. Flight[..3], after, Heath.TakenIn("S1", "06-02 12:00"), Heath.Placed("S1", "06-02 13:00")])).After);
    }

    [Fact]
    public void A_doubt_report_of_the_calibrator_pairs_the_same_checks()
    {
        // K1 is found 0.5 dB off in August: what was checked with it since January is in doubt.
        var found = Make.Of(Make.Issued(94.5, 0.1, "level", "dB"), "2026-08-02", "device:K1");
        // The second calibrator finds the chain 0.27 dB lower: nearer to the step of 0.5 dB than to none.
        var second = Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.42, "K2");
        Fact[] day = [Flight[0], Morning, Flight[2], second, found];

        Assert.Equal(["E1"], Touched(Heath.With(day)));
        // Set up again, the event leans on the check by the other calibrator alone.
        Assert.Empty(Touched(Heath.With([.. day, TakenIn, Again])));
        Assert.DoesNotContain(Heath.One(Heath.With([.. day, TakenIn, Again])).Reasons, r => r.Source == $"fact {found.Id}");
    }

    private static List<string> Touched(Register register) =>
        [.. DoubtBook.OfDevice(register, "K1").SelectMany(d => DoubtReport.Of(register, d).Touched.Select(t => t.Event.Id))];

    private static Fact[] Flight => [Heath.Placed("S1", "06-02 06:00"), Morning, Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Evening];
}

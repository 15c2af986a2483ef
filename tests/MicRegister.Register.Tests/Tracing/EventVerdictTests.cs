using MicRegister.Register.Tracing;
using static MicRegister.Register.Tracing.TraceVerdict;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>One verdict of an event: how many of its stations are what, alike for all who ask.</summary>
public sealed class EventVerdictTests
{
    [Theory]
    [InlineData(NotValid)]
    [InlineData(Valid, Valid, Valid)]
    [InlineData(NotValid, NotValid, NotValid)]
    [InlineData(Doubtful, Doubtful, Doubtful)]
    [InlineData(Doubtful, Valid, Valid, Doubtful)]
    [InlineData(Doubtful, Valid, NotValid)]
    [InlineData(Doubtful, Doubtful, NotValid)]
    [InlineData(Undecided, Undecided, Undecided)]
    [InlineData(Undecided, Undecided, NotValid)]
    [InlineData(Doubtful, Valid, Undecided)]
    [InlineData(Doubtful, Doubtful, Undecided, NotValid)]
    public void It_is_valid_where_all_are_and_not_valid_where_none_can_be_used(TraceVerdict expected, params TraceVerdict[] stations)
    {
        Assert.Equal(expected, EventVerdict.Of(stations));
    }

    [Fact]
    public void Stations_are_counted_each_once_and_by_the_worse_part_of_a_swap()
    {
        // S1 is swapped in mid-event for a chain that nobody checked; S2 was never checked; nothing stood at S3.
        var register = Heath.With([
            .. Heath.Flight(), Heath.Placed("S2", "06-02 06:00"),
            Heath.Placed("S1", "06-02 10:00", ["M9", "P1", "R1"], swap: new("M1", "M9", "it crackled"), counter: 8),
            Heath.Event("E2", "06-02 09:59", "06-02 10:01")]);

        var verdict = EventVerdict.Of(register, "E2")!;

        Assert.Equal(2, Tracer.Of(register, "E2", "S1")!.Stations.Count);
        Assert.Equal([("S1", Doubtful, true), ("S2", Doubtful, false), ("S3", NotValid, false)], verdict.Stations.Select(s => (s.Station, s.Verdict, s.IsSwapped)));
        Assert.Equal((0, 2, 1, Doubtful), (verdict.Valid, verdict.Doubtful, verdict.NotValid, verdict.Verdict));
        Assert.Equal("of 3 stations 0 valid, 2 doubtful, 0 undecided, 1 not valid", verdict.InWords);
        Assert.Equal(["S3", "S1", "S2"], StationVerdict.GravestFirst(verdict.Stations).Select(s => s.Station));
    }

    [Fact]
    public void A_trace_says_what_the_list_says_and_one_station_alone_says_its_own()
    {
        var register = Heath.With(Heath.Flight());

        Assert.Equal(EventVerdict.Of(register, "E1")!.Verdict, Tracer.Of(register, "E1")!.Verdict);
        Assert.Equal(Doubtful, Tracer.Of(register, "E1")!.Verdict); // nothing stood at S2 and S3
        Assert.Equal(Valid, Tracer.Of(register, "E1", "S1")!.Verdict);
        Assert.Equal("of 1 station 1 valid, 0 doubtful, 0 undecided, 0 not valid", EventVerdict.Of(Tracer.Of(register, "E1", "S1")!).InWords);
        Assert.Null(EventVerdict.Of(register, "E9"));
    }

    [Fact]
    public void It_is_worked_out_once_a_state_and_anew_once_something_was_said()
    {
        var facts = Heath.Flight();
        var before = Heath.With(facts);
        Assert.Null(EventVerdict.IfKnown(before, "E1"));
        var first = EventVerdict.Of(before, "E1")!;
        Assert.Same(first, EventVerdict.Of(before, "E1"));
        Assert.Same(first, EventVerdict.IfKnown(before, "E1"));

        var after = Heath.With([.. facts, Heath.Damaged("M1", "06-02 17:00"), Make.Annulling(facts[3])]);
        Assert.Null(EventVerdict.IfKnown(after, "E1"));
        Assert.Equal((1, 0), (first.Valid, EventVerdict.Of(after, "E1")!.Valid));
    }

    [Fact]
    public void A_reason_names_the_question_that_it_answers()
    {
        var reason = Assert.Single(Tracer.Of(Heath.With(Heath.Flight()), "E1", "S2")!.Stations[0].Reasons);

        Assert.Equal(("nothing-placed", "Did anything stand there?"), (reason.Question, reason.Asked));
        Assert.Equal("", new TraceReason(Doubtful, "Something.", "nowhere").Asked);
    }

    [Fact]
    public void The_graph_of_an_event_lists_the_gravest_first_and_marks_swaps()
    {
        var register = Heath.With([
            .. Heath.Flight(), Heath.Placed("S2", "06-02 06:00"),
            Heath.Placed("S2", "06-02 10:00", ["M9", "P2", "R2"], swap: new("M2", "M9", "it crackled"), counter: 8)]);

        var nodes = TraceGraph.Around(register, "event", "E1")!.RestsOn;
        Assert.Equal([("S3", NotValid, false), ("S2", Doubtful, false), ("S1", Valid, false)], nodes.Select(n => (n.Label, n.Verdict!.Value, n.IsSwapped)));

        // The same event, a minute longer at its begin: the swap lies within it.
        var parted = TraceGraph.Around(register.WhatIf([Heath.Event("E2", "06-02 09:58", "06-02 10:01")]), "event", "E2")!.RestsOn[1];
        Assert.Equal(("S2", "doubtful, a part was swapped", true), (parted.Label, parted.Detail, parted.IsSwapped));

        var placed = TraceGraph.Around(register, "station", "E1|S2")!.RestsOn.Single(n => n.Kind == "placement");
        Assert.Equal(("Part swapped at S2", true), (placed.Label, placed.IsSwapped));
    }
}

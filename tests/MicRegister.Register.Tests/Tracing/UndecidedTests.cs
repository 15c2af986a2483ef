using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>What was said and cannot be used here leaves a result undecided, where it is about that station, that time and that event.</summary>
public sealed class UndecidedTests
{
    private static readonly Fact[] Flight = Heath.Flight();

    [Fact]
    public void Undecided_is_graver_than_doubtful_and_less_than_not_valid()
    {
        Assert.Equal(
            [TraceVerdict.Valid, TraceVerdict.Doubtful, TraceVerdict.Undecided, TraceVerdict.NotValid], Enum.GetValues<TraceVerdict>());
        // Without a check before it is doubtful beside it; with an unregistered part it is not valid for certain.
        Assert.Equal(TraceVerdict.Undecided, Heath.One(Heath.With([Flight[0], .. Flight[2..], NewerFacts.Newer("chain-placed", "06-02 09:00", "S1")])).Verdict);
        Assert.Equal(TraceVerdict.NotValid, Heath.One(Heath.With(
            [Heath.Placed("S1", "06-02 06:00", ["P1", "R1"]), .. Flight[1..], NewerFacts.Newer("chain-placed", "06-02 09:00", "S1")])).Verdict);
    }

    [Theory]
    [InlineData("09:00", TraceVerdict.Undecided)]
    [InlineData("10:00:30", TraceVerdict.Undecided)] // within the event
    [InlineData("10:01", TraceVerdict.Valid)] // after it
    [InlineData("05:00", TraceVerdict.Valid)] // what stands was placed later
    public void A_placement_by_a_newer_version_counts_from_when_it_was_said(string at, TraceVerdict verdict)
    {
        var newer = NewerFacts.Newer("chain-placed", "06-02 " + at, "S1");
        var trace = Heath.One(Heath.With([.. Flight, newer]));

        Assert.Equal(verdict, trace.Verdict);
        if (verdict == TraceVerdict.Valid) return;
        var reason = Assert.Single(trace.Reasons);
        Assert.Equal($"fact {newer.Id}", reason.Source);
        Assert.EndsWith("cannot be used here, so that it is not known what it says: chain-placed version 9 is not known here.", reason.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void It_is_of_its_own_station_of_its_devices_and_of_all_where_it_names_neither()
    {
        Fact[] two = [.. Flight, Heath.Placed("S2", "06-02 06:10"), Heath.Checked("S2", "06-02 06:40", CheckMoment.Before, -38.15),
            Heath.Checked("S2", "06-02 16:10", CheckMoment.After, -38.15)];
        (TraceVerdict, TraceVerdict) Verdicts(Fact newer)
        {
            var register = Heath.With([.. two, newer]);
            return (Heath.One(register).Verdict, Heath.One(register, station: "S2").Verdict);
        }

        const TraceVerdict valid = TraceVerdict.Valid, undecided = TraceVerdict.Undecided;
        Assert.Equal((valid, undecided), Verdicts(NewerFacts.Newer("chain-placed", "06-02 09:00", "S2")));
        // A device of S1 was placed at S2, or somewhere.
        Assert.Equal((undecided, undecided), Verdicts(NewerFacts.Newer("chain-placed", "06-02 09:00", "S2", "M1")));
        Assert.Equal((undecided, valid), Verdicts(NewerFacts.Newer("chain-placed", "06-02 09:00", null, "M1")));
        Assert.Equal((undecided, undecided), Verdicts(NewerFacts.Newer("chain-placed", "06-02 09:00", null)));
        Assert.Equal((undecided, valid), Verdicts(NewerFacts.Newer("chain-taken-in", "06-02 09:00", "S1")));
    }

    [Fact]
    public void Where_nothing_else_was_placed_it_is_undecided_and_not_nothing()
    {
        var newer = NewerFacts.Newer("chain-placed", "06-02 09:00", "S3");
        var trace = Heath.One(Heath.With([.. Flight, newer]), station: "S3");
        Assert.Equal((TraceVerdict.Undecided, null), (trace.Verdict, trace.Placement));

        // It was taken in since, in words that can be read.
        var since = Heath.One(Heath.With([.. Flight, newer, Heath.TakenIn("S3", "06-02 09:30")]), station: "S3");
        Assert.Equal(["Nothing stood there."], since.Reasons.Select(r => r.Text));
    }

    [Fact]
    public void Annulled_it_is_settled()
    {
        var newer = NewerFacts.Newer("chain-placed", "06-02 09:00", "S1");
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. Flight, newer, Make.Annulling(newer)])).Verdict);
    }

    [Theory]
    [InlineData("09:00", "S1", TraceVerdict.Undecided)]
    [InlineData("15:00", "S1", TraceVerdict.Undecided)]
    [InlineData("17:00", "S1", TraceVerdict.Valid)] // after the check after
    [InlineData("06:10", "S1", TraceVerdict.Valid)] // before the check before
    [InlineData("09:00", "S2", TraceVerdict.Valid)]
    public void A_check_by_a_newer_version_counts_between_the_checks_that_are_used(string at, string station, TraceVerdict verdict)
    {
        Assert.Equal(verdict, Heath.One(Heath.With([.. Flight, NewerFacts.Newer("chain-checked", "06-02 " + at, station, "M1")])).Verdict);
    }

    [Fact]
    public void What_a_newer_version_said_of_the_event_counts_for_it_alone()
    {
        var other = Heath.Event("E2", "06-02 11:00", "06-02 11:01");
        var newer = NewerFacts.Of("event-recorded", "06-02 10:00", new JsonObject(), [Subject.Event("E1"), Subject.Campaign(Heath.C)]);
        var register = Heath.With([.. Flight, other, newer]);

        Assert.Equal((TraceVerdict.Undecided, TraceVerdict.Valid), (Heath.One(register).Verdict, Heath.One(register, "E2").Verdict));
    }

    [Fact]
    public void Facts_of_a_newer_version_about_device_calibrator_campaign_and_profile_leave_it_undecided()
    {
        foreach (var subject in new[] { "device:M1", "device:K1", Subject.Campaign(Heath.C), Subject.Profile(Heath.Rules) })
        {
            var register = Heath.With([.. Flight, NewerFacts.Of("something-newer", "06-02 09:00", new JsonObject(), [subject])]);
            Assert.Equal((subject, TraceVerdict.Undecided), (subject, Heath.One(register).Verdict));
        }
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. Flight, NewerFacts.Of("something-newer", "06-02 09:00", new JsonObject(), ["device:M2"])])).Verdict);
    }

    [Fact]
    public void A_placement_of_a_known_version_without_its_list_of_devices_is_never_passed_over()
    {
        var placed = Heath.Placed("S1", "06-02 09:00", ["M9", "P9", "R9"]);
        var body = JsonNode.Parse(placed.Bytes.Span)!.AsObject();
        body["body"]!.AsObject().Remove("devices");
        var broken = FactText.ReadCanonical(CanonicalJson.Write(JsonDocument.Parse(body.ToJsonString()).RootElement));

        var trace = Heath.One(Heath.With([.. Flight, broken]));

        Assert.Equal(TraceVerdict.Undecided, trace.Verdict);
        Assert.Contains("devices", Assert.Single(trace.Reasons).Text, StringComparison.Ordinal);
    }
}

using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>One walks from an event down to a laboratory and to a person, and from each of them back to the event.</summary>
public sealed class TraceGraphTests
{
    private static readonly Fact[] Flight = Heath.Flight();
    private static readonly Register All = Heath.With([.. Flight, Make.Of(new PersonNamed("Tess Technician"), "2026-05-01", Subject.Person("P1"))]);

    [Fact]
    public void From_an_event_one_walks_down_to_a_laboratory_and_to_who_said_so()
    {
        Assert.Contains(Around("event", "E1").RestsOn, n => n == new GraphNode("station", "E1|S1", "S1", "valid") { Verdict = TraceVerdict.Valid });
        var station = Around("station", "E1|S1");
        Assert.Equal([("device", "M1"), ("placement", Flight[0].Id.ToString()), ("check", Flight[1].Id.ToString()), ("check", Flight[3].Id.ToString()), ("certificate", Heath.ReferenceCertificate.Id.ToString())],
            station.RestsOn.Where(n => n.Kind is not "device" || n.Id == "M1").Where(n => n.Kind != "certificate" || n.Id == Heath.ReferenceCertificate.Id.ToString()).Select(n => (n.Kind, n.Id)));
        Assert.Equal("E1", Assert.Single(station.Bears).Id);
        var check = Around("check", Flight[1].Id.ToString());
        Assert.Contains(check.RestsOn, n => (n.Kind, n.Id) == ("device", "K1"));
        Assert.Contains(check.RestsOn, n => (n.Kind, n.Id) == ("certificate", Heath.FirstCalibrator.Id.ToString()));
        Assert.Contains(check.RestsOn, n => n == new GraphNode("person", "P1", "Tess Technician", "stated it"));
        Assert.Contains(Around("certificate", Heath.FirstCalibrator.Id.ToString()).RestsOn, n => (n.Kind, n.Id) == ("device", "REF"));
        Assert.Contains(Around("certificate", Heath.ReferenceCertificate.Id.ToString()).RestsOn, n => n == new GraphNode("text", "", "National laboratory", ""));
    }

    [Theory]
    [InlineData("device", "M1")]
    [InlineData("device", "K1")]
    public void From_a_device_of_the_chain_or_its_calibrator_one_comes_back_to_the_event(string kind, string id)
    {
        var bears = Around(kind, id).Bears;

        Assert.Contains(bears, n => (n.Kind, n.Id) == ("event", "E1"));
        Assert.Contains(bears, n => (n.Kind, n.Id) == ("check", Flight[3].Id.ToString()));
    }

    [Fact]
    public void From_a_check_a_placement_and_a_reference_one_comes_back_too()
    {
        Assert.Equal("E1", Assert.Single(Around("check", Flight[1].Id.ToString()).Bears).Id);
        var placement = Around("placement", Flight[0].Id.ToString());
        Assert.Equal("E1", Assert.Single(placement.Bears).Id);
        Assert.Equal(["M1", "P1", "R1", "P1"], placement.RestsOn.Select(n => n.Id)); // three devices and the person, whose id is that of a preamplifier
        Assert.Contains(Around("certificate", Heath.FirstMicrophone.Id.ToString()).Bears, n => (n.Kind, n.Id) == ("event", "E1"));
        Assert.Equal([Heath.SecondCalibrator.Id.ToString(), Heath.FirstCalibrator.Id.ToString()], Around("device", "REF").Bears.Where(n => n.Kind == "certificate").Select(n => n.Id));
    }

    [Fact]
    public void From_a_person_one_comes_to_all_that_events_rest_on_and_annulled_facts_are_left_out()
    {
        IReadOnlyList<int> Said(string id) => [.. Enumerable.Range(1, All.Count).Where(s => All.Source.Read(s).Author == id)];
        var graph = TraceGraph.Around(All, "person", "P1", Said)!;

        Assert.Equal("Tess Technician", graph.Here.Label);
        Assert.Equal(Flight.Select(f => f.Id == Flight[2].Id ? "E1" : f.Id.ToString()).Order(StringComparer.Ordinal), graph.Bears.Where(n => n.Kind is not "certificate").Select(n => n.Id).Order(StringComparer.Ordinal));
        Assert.Contains(graph.Bears, n => n.Id == Heath.FirstMicrophone.Id.ToString());

        var without = Heath.With([.. Flight, Make.Annulling(Flight[1]), Make.Of(new PersonNamed("Tess Technician"), "2026-05-01", Subject.Person("P1"))]);
        Assert.DoesNotContain(TraceGraph.Around(without, "person", "P1", id => [.. Enumerable.Range(1, without.Count).Where(s => without.Source.Read(s).Author == id)])!.Bears, n => n.Id == Flight[1].Id.ToString());
        Assert.Null(TraceGraph.Around(All, "person", "NOBODY", Said));
        Assert.Null(TraceGraph.Around(All, "person", "P1"));
    }

    [Theory]
    [InlineData("device", "NOWHERE")]
    [InlineData("check", "NOTHING")]
    [InlineData("placement", "01JD8XK3ZZ0000000000000000")]
    [InlineData("station", "E1")]
    [InlineData("moon", "E1")]
    public void What_is_not_there_has_no_graph(string kind, string id) => Assert.Null(TraceGraph.Around(All, kind, id));

    private static TraceGraph Around(string kind, string id) => TraceGraph.Around(All, kind, id)!;
}

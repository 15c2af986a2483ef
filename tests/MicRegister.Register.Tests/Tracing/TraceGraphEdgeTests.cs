using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>What a thing bears where that is much, where a certificate gave way to the next, and where it is nothing.</summary>
public sealed class TraceGraphEdgeTests
{
    private static readonly Fact[] Flight = Heath.Flight();

    [Theory]
    [InlineData(50, 10, 0)] // 52 are all shown
    [InlineData(70, 18, 12)] // of 72 sixty are shown: 40, 2 and 18
    public void Forty_events_come_first_then_the_checks_then_the_events_that_are_left(int events, int after, int left)
    {
        string Minute(int i) => $"06-02 {10 + (i / 60):00}:{i % 60:00}";
        var flown = Enumerable.Range(0, events).Select(i => Heath.Event("V" + i, Minute(i), Minute(i)));

        var graph = Around(Heath.With([Flight[0], Flight[1], Flight[3], .. flown]), "device", "M1");

        // The newest first.
        IEnumerable<string> Newest(int skip, int count) => Enumerable.Range(skip, count).Select(i => "V" + (events - 1 - i));
        string[] expected = [.. Newest(0, 40), Flight[3].Id.ToString(), Flight[1].Id.ToString(), .. Newest(40, after)];
        Assert.Equal(expected, graph.Bears.Select(n => n.Id));
        Assert.Equal(left, graph.Left);
    }

    [Fact]
    public void A_certificate_that_was_annulled_is_none_that_a_device_rests_on()
    {
        var newer = Make.Certificate("M1", "2026-04-01", -38.05);

        var graph = Around(Heath.With(newer, Make.Annulling(Heath.FirstMicrophone)), "device", "M1");

        Assert.Equal(newer.Id.ToString(), Assert.Single(graph.RestsOn).Id);
    }

    [Fact]
    public void A_certificate_bears_events_until_the_next_one_of_its_quantity()
    {
        Fact second = Make.Certificate("M1", "2026-05-20", -38.07), third = Make.Certificate("M1", "2026-07-01", -38.08);
        // 20 May begins at the heath at 22:00 UTC.
        var register = Heath.With(
            second, third, Heath.Placed("S1", "05-19 06:00"), Heath.Event("V1", "05-19 21:59", "05-19 21:59"),
            Heath.Event("V2", "05-19 22:00", "05-19 22:01"), Heath.Event("V3", "06-02 10:00", "06-02 10:01"));
        IEnumerable<string> Events(Fact certificate) =>
            Around(register, "certificate", certificate.Id.ToString()).Bears.Where(n => n.Kind == "event").Select(n => n.Id);

        Assert.Equal(["V1"], Events(Heath.FirstMicrophone));
        Assert.Equal(["V3", "V2"], Events(second));
        Assert.Empty(Events(third));
    }

    [Fact]
    public void A_calibrator_and_its_adapter_that_were_calibrated_together_bear_each_check_once_and_the_check_rests_on_both()
    {
        Fact[] kit =
        [
            Make.Registered("A1", "601", "calibration-adapter"),
            Make.Of(Make.Issued(94.00, 0.1, "level", "dB"), "2026-04-01", "device:K1", "device:A1"),
        ];
        var plain = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.11, on: Heath.With(kit));
        var check = Heath.Said(
            "06-02 06:30", 3, ((ChainChecked)plain.Body) with { Adapter = "A1" }, [.. plain.Subjects, Subject.Device("A1")]);
        var register = Heath.With([.. kit, Flight[0], check]);

        Assert.Equal(["K1", "A1", check.Id.ToString()], Around(register, "certificate", kit[1].Id.ToString()).Bears.Select(n => n.Id));
        Assert.Equal(
            ["M1", "P1", "R1", "K1", "A1"],
            Around(register, "check", check.Id.ToString()).RestsOn.Where(n => n.Kind == "device").Select(n => n.Id));
    }

    [Fact]
    public void A_check_is_of_the_first_campaign_that_it_names()
    {
        var plain = Flight[1];
        var check = Heath.Said("06-02 06:30", 3, plain.Body, [.. plain.Subjects, Subject.Campaign("MOOR-26")]);
        var register = Heath.With(Flight[0], check, Flight[2]);

        Assert.Equal(check.Id, Heath.One(register).Before?.Fact);
        Assert.Equal("E1", Assert.Single(Around(register, "check", check.Id.ToString()).Bears).Id);
    }

    [Fact]
    public void No_level_rests_on_a_certificate_of_a_plate()
    {
        var flat = Make.Of(Make.Issued(0.1, null, "flatness", "mm"), "2026-03-05", "device:G1");
        var register = Heath.With(
            Make.Registered("G1", "801", "ground-plate"), flat, Heath.Placed("S1", "06-02 06:00", [.. Heath.Chain("S1"), "G1"]),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        Assert.Equal("G1", Assert.Single(Around(register, "certificate", flat.Id.ToString()).Bears).Id);
    }

    private static TraceGraph Around(Register register, string kind, string id) => TraceGraph.Around(register, kind, id)!;
}

using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Deployment;

/// <summary>A replacement that names another microphone is no correction: refused where it is stated at a desk, a finding and undecided otherwise.</summary>
public sealed class OtherMicrophoneTests
{
    private static readonly Fact[] Flight = Heath.Flight();
    private static readonly string[] Subjects = [Subject.Campaign(Heath.C), .. Heath.Chain("S1").Select(Subject.Device)];

    [Theory]
    [InlineData(true)] // with the subjects of the old one it counts in its place
    [InlineData(false)] // with its own it does not fit, and does not count
    public void From_outdoors_it_is_a_finding_and_leaves_the_station_undecided(bool hasOldSubjects)
    {
        var anew = Replacement("M9", hasOldSubjects);
        var register = Heath.With([.. Flight, anew]);

        var finding = Assert.Single(DeploymentFindings.Of(register, Heath.C), f => f.Rule == "replaced-microphone");
        Assert.Equal([anew.Id.ToString(), Flight[0].Id.ToString()], finding.Facts);
        Assert.Contains("names Microphone Model 109 and not Microphone Model 101", finding.Text, StringComparison.Ordinal);
        var trace = Heath.One(register);
        Assert.Equal(TraceVerdict.Undecided, trace.Reasons.Single(r => r.Source == $"facts {anew.Id}, {Flight[0].Id}").Weight);
        Assert.Equal(TraceVerdict.Undecided, trace.Verdict);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Annulled_it_is_settled(bool hasOldSubjects)
    {
        var anew = Replacement("M9", hasOldSubjects);
        var register = Heath.With([.. Flight, anew, Make.Annulling(anew)]);

        Assert.DoesNotContain(DeploymentFindings.Of(register, Heath.C), f => f.Rule == "replaced-microphone");
        Assert.Equal(TraceVerdict.Valid, Heath.One(register).Verdict);
    }

    [Fact]
    public void A_check_that_another_microphone_replaces_leaves_its_events_undecided_and_no_others()
    {
        var other = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.15, devices: ["M9", "P1", "R1"]);
        var anew = Make.Replacing(Flight[1], other.Body, [.. other.Subjects]);
        Fact[] facts = [.. Flight, anew, Heath.Placed("S2", "06-02 06:10"), Heath.Checked("S2", "06-02 06:40", CheckMoment.Before, -38.15),
            Heath.Checked("S2", "06-02 16:10", CheckMoment.After, -38.15)];
        var register = Heath.With(facts);

        Assert.Equal(TraceVerdict.Undecided, Heath.One(register).Verdict);
        Assert.Equal(TraceVerdict.Valid, Heath.One(register, station: "S2").Verdict);
        // Whatever follows in the place of the old one does not settle it.
        var worked = Make.Replacing(Flight[1], Flight[1].Body);
        Assert.Equal(TraceVerdict.Undecided, Heath.One(Heath.With([.. facts, worked])).Verdict);
    }

    [Fact]
    public void The_same_microphone_under_another_entry_or_with_other_parts_is_no_other()
    {
        Assert.Null(OtherMicrophones.Refusal(Heath.With(Flight), Flight[0], Replacement("M1", false, "P9")));
        var joined = Heath.With([.. Flight, Make.Of(new DevicesJoined("M1", "M9", "one label"), "2026-06-01", "device:M1", "device:M9")]);
        Assert.Null(OtherMicrophones.Refusal(joined, Flight[0], Replacement("M9", false)));
        Assert.DoesNotContain(DeploymentFindings.Of(Heath.With([.. Flight, Replacement("M1", false, "P9")]), Heath.C), f => f.Rule == "replaced-microphone");
    }

    [Fact]
    public void At_the_desk_it_is_refused_with_both_names()
    {
        var refusal = OtherMicrophones.Refusal(Heath.With(Flight), Flight[0], Replacement("M9", true));

        Assert.Equal(RejectionSort.Invalid, refusal!.Sort);
        Assert.Contains($"replaces chain-placed {Flight[0].Id}", refusal.Text, StringComparison.Ordinal);
        Assert.Contains("what replaces it names the same microphone", refusal.Text, StringComparison.Ordinal);
        Assert.Null(OtherMicrophones.Refusal(Heath.With(Flight), Flight[2], Make.Replacing(Flight[2], Flight[2].Body)));
    }

    private static Fact Replacement(string microphone, bool hasOldSubjects, string preamplifier = "P1")
    {
        string[] devices = [microphone, preamplifier, "R1"];
        return Make.Replacing(
            Flight[0], ((ChainPlaced)Flight[0].Body) with { Devices = devices },
            hasOldSubjects ? Subjects : [Subject.Campaign(Heath.C), .. devices.Select(Subject.Device)]);
    }
}

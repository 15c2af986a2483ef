using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Fold;

/// <summary>What was worked out is kept while nothing can have changed it, and no longer.</summary>
public sealed class RegisterMemoryTests
{
    [Fact]
    public void A_fact_that_changes_its_own_subjects_alone_keeps_what_was_worked_out()
    {
        foreach (var next in new[] { Heath.Checked("S1", "06-02 17:00", CheckMoment.After, -38.2), Heath.Damaged("M1", "06-02 12:00"), Make.Certificate("M1", "2026-07-01", -38.1), Heath.Event("E2", "06-03 10:00", "06-03 10:01") })
        {
            var (before, after) = Grown(Heath.Flight(), next);
            Assert.Same(before.Memory, after.Memory);
        }
    }

    [Fact]
    public void A_correction_a_profile_a_join_a_clock_or_a_new_device_begins_it_anew()
    {
        var flight = Heath.Flight();
        foreach (var next in new[]
        {
            Make.Annulling(flight[1]), Make.Replacing(flight[1], flight[1].Body), Heath.Written((LimitKey.CheckSpanHours, 5)), Make.Of(new DevicesJoined("M3", "M9", "one label"), "2026-06-06", "device:M3", "device:M9"),
            Make.Of(new ClientClockNoticed("phone-1.ABCD", 0, 60_000), "2026-06-06", Subject.TheRegister), Make.Registered("M7", "107"),
        })
        {
            var (before, after) = Grown(flight, next);
            Assert.NotSame(before.Memory, after.Memory);
        }
    }

    [Fact]
    public void A_fact_that_something_already_points_at_begins_it_anew_and_so_does_a_trial()
    {
        var check = Heath.Checked("S1", "06-02 12:00", CheckMoment.Other, -38.2);
        var (before, after) = Grown([.. Heath.Flight(), Make.Annulling(check)], check);

        Assert.NotSame(before.Memory, after.Memory);
        Assert.NotSame(after.Memory, after.WhatIf([Heath.Damaged("M1", "06-02 12:00")]).Memory);
    }

    [Fact]
    public void Answers_follow_the_facts_of_their_own_subject()
    {
        var (register, moved) = Grown(Heath.Flight(), Make.Of(new DeviceMoved("Hall 3"), "2026-06-03", "device:M1"));
        Assert.Same(ArrayDeployment.Of(register, Heath.C), ArrayDeployment.Of(moved, Heath.C));

        var (stands, taken) = Grown(Heath.Flight(), Heath.TakenIn("S1", "06-02 18:00"));
        Assert.Null(ArrayDeployment.Of(taken, Heath.C).At("S1"));
        // An older state still answers as it stood.
        Assert.NotNull(ArrayDeployment.Of(stands, Heath.C).At("S1"));

        var (good, bad) = Grown(Heath.Flight(), Make.Certificate("M1", "2026-07-01", -38.70));
        Assert.Equal((0, 1), (DoubtBook.OfDevice(good, "M1").Count, DoubtBook.OfDevice(bad, "M1").Count));
    }

    [Fact]
    public void A_label_bound_outdoors_keeps_what_was_worked_out_but_for_placements_that_asked_for_it()
    {
        const string Code = "2AYS641TS";
        List<Fact> flight = [.. Heath.Flight(), Heath.Placed("S2", "06-02 08:00", ["PRE2"], unknown: [Code])];
        var bound = Make.Of(new LabelBound(Code, null), "2026-06-02", Subject.Label(Code), Subject.Device("M2"));

        var (before, after) = Grown(flight, bound);

        Assert.Same(before.Memory, after.Memory);
        Assert.Equal([Code], ArrayDeployment.Of(before, Heath.C).At("S2")!.UnknownLabels);
        Assert.Equal(["PRE2"], ArrayDeployment.Of(before, Heath.C).At("S2")!.Devices);
        Assert.Equal(["PRE2", "M2"], ArrayDeployment.Of(after, Heath.C).At("S2")!.Devices);
        // Placements that asked for no label stay as they are.
        var (still, other) = Grown(Heath.Flight(), bound);
        Assert.Same(ArrayDeployment.Of(still, Heath.C), ArrayDeployment.Of(other, Heath.C));
    }

    [Fact]
    public void A_placement_that_asked_for_a_label_follows_each_binding_of_it_and_what_is_taken_back()
    {
        const string Code = "2AYS641TS";
        Fact Bound(string day, string device) =>
            Make.Of(new LabelBound(Code, null), day, Subject.Label(Code), Subject.Device(device));
        var (first, second) = (Bound("2026-06-02", "M2"), Bound("2026-06-03", "M3"));
        var list = new FactList();
        var register = Register.Empty(list);
        Then([.. Heath.Base, Heath.Placed("S2", "06-02 08:00", ["PRE2"], unknown: [Code])]);
        var memory = register.Memory;
        Stands(["PRE2"], [Code]);

        Then(first);
        Stands(["PRE2", "M2"], []);
        // On two things at once it tells of none.
        Then(second);
        Stands(["PRE2"], [Code]);
        Assert.Same(memory, register.Memory);

        Then(Make.Annulling(first));
        Stands(["PRE2", "M3"], []);

        void Then(params Fact[] facts)
        {
            foreach (var fact in facts) list.Add(fact);
            register = register.With(facts);
        }

        void Stands(string[] devices, string[] unknown)
        {
            var placement = ArrayDeployment.Of(register, Heath.C).At("S2")!;
            Assert.Equal(devices, placement.Devices);
            Assert.Equal(unknown, placement.UnknownLabels);
        }
    }

    [Fact]
    public void A_kind_is_what_the_state_says()
    {
        var register = Heath.With(Make.Of(new DeviceDescribed(Make.Details(("kind", "windscreen")), []), "2026-01-02", "device:M2"), Make.Of(new DevicesJoined("M3", "M9", "one label"), "2026-06-06", "device:M3", "device:M9"));

        foreach (var id in register.DeviceIds.Append("M9").Append("NOWHERE")) Assert.Equal(register.Device(id)?.Kind, register.KindOf(id));
        Assert.Equal("windscreen", register.KindOf("M2"));
    }

    // A register of which much was asked, and the same with one more fact.
    private static (Register Before, Register After) Grown(IReadOnlyList<Fact> facts, Fact next)
    {
        var list = new FactList();
        List<Fact> all = [.. Heath.Base, .. facts];
        foreach (var fact in all) list.Add(fact);
        var before = Register.Empty(list).With(all);
        _ = TraceDump.Of(before);
        list.Add(next);
        return (before, before.With([next]));
    }
}

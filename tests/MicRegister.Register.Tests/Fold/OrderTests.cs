using System.Text;
using FsCheck;
using FsCheck.Fluent;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.People;

namespace MicRegister.Register.Tests.Fold;

/// <summary>The register depends on which facts there are, not on how they came.</summary>
public sealed class OrderTests
{
    [Fact]
    public void Any_order_of_arrival_gives_the_same_register() => Check.One(Config.QuickThrowOnFailure.WithMaxTest(300), Prop.ForAll(Sets(), s =>
    {
        var (facts, seed) = s;
        var expected = RegisterDump.Of(FactList.RegisterOf(facts));
        Assert.Equal(expected, RegisterDump.Of(OneByOne(Shuffled(facts, seed))));
        Assert.Equal(expected, RegisterDump.Of(InBatches(Shuffled(facts, seed + 1), 5)));
    }));

    [Fact]
    public void Folding_a_union_equals_the_union_of_folds() => Check.One(Config.QuickThrowOnFailure.WithMaxTest(200), Prop.ForAll(Sets(), s =>
    {
        var (facts, seed) = s;
        var mixed = Shuffled(facts, seed);
        // Two logs that share some facts, merged either way, each read by states in between.
        var here = mixed.Take((mixed.Count * 2) / 3).ToList();
        var there = mixed.Skip(mixed.Count / 3).ToList();
        Assert.Equal(RegisterDump.Of(OneByOne([.. here, .. there])), RegisterDump.Of(OneByOne([.. there, .. here])));
        Assert.Equal(RegisterDump.Of(FactList.RegisterOf(facts)), RegisterDump.Of(OneByOne([.. here, .. there])));
    }));

    [Fact]
    public void As_the_log_stood_is_the_fold_of_its_beginning()
    {
        var facts = Sample(new Random(5), 40);
        var whole = OneByOne(facts);

        for (var n = 0; n <= whole.Count; n += 7)
            Assert.Equal(RegisterDump.Of(FactList.RegisterOf(facts.DistinctBy(f => f.Id).Take(n))), RegisterDump.Of(whole.AsOfSequence(n)));
        Assert.Throws<ArgumentOutOfRangeException>(() => whole.AsOfSequence(whole.Count + 1));
    }

    [Fact]
    public void A_clock_put_right_reads_what_its_client_said_since_and_nothing_else()
    {
        List<Fact> facts = [.. Enumerable.Range(0, 2000).Select(i => Said("phone" + (i % 10), i / 10, $"2026-05-04T10:{i / 60 % 60:00}:{i % 60:00}.000Z"))];
        var source = new CountedReads(facts);
        var register = Register.Empty(source).With(facts);
        source.Reads = 0;

        var notice = Make.Of(new ClientClockNoticed("phone3", 150, 7_000), "2026-05-05", Subject.TheRegister);
        source.Facts.Add(notice);
        var after = register.With([notice]);

        // Of phone3's 200 facts those with counters from 150 to 199.
        Assert.Equal(50, source.Reads);
        var moved = source.Facts[(150 * 10) + 3];
        Assert.Equal(("phone3", 150L, moved.Occurred.UnixMilliseconds + 7_000), (moved.Client, moved.Counter, after.Instant(moved)));
        Assert.Equal(RegisterDump.Of(FactList.RegisterOf([.. facts, notice])), RegisterDump.Of(after));
        // The same notice once more moves nothing.
        var again = Make.Of(new ClientClockNoticed("phone3", 150, 7_000), "2026-05-06", Subject.TheRegister);
        source.Facts.Add(again);
        Assert.Equal(RegisterDump.Of(FactList.RegisterOf([.. facts, notice, again])), RegisterDump.Of(after.With([again])));
    }

    [Fact]
    public void A_fact_that_comes_with_the_notice_of_its_clock_is_put_right_too()
    {
        var list = new FactList();
        var early = Said("phone1", 4, "2026-05-04T10:00:00.000Z");
        var late = Said("phone1", 5, "2026-05-04T09:00:00.000Z");
        var notice = Make.Of(new ClientClockNoticed("phone1", 5, 7_200_000), "2026-05-05", Subject.TheRegister);
        Fact[] all = [early, late, notice];
        foreach (var fact in all) list.Add(fact);

        var register = Register.Empty(list).With([early]).With([late, notice]);

        Assert.Equal(["n4", "n5"], register.Device("A1")!.Notes.Select(n => n.What.Text));
    }

    private static Fact Said(string client, int counter, string at) =>
        FactText.WriteDerived(new(Make.On(at), "P1", client, counter), new DeviceNoted("n" + counter), ["device:A1"]);

    [Fact]
    public void A_what_if_leaves_the_register_as_it_was()
    {
        var register = OneByOne(Sample(new Random(6), 30));
        var before = RegisterDump.Of(register);
        var more = Make.Of(new DeviceMoved("van"), "2026-01-01", "device:A1");

        var tried = register.WhatIf([more]);

        Assert.Equal("van", tried.Device("A1")!.Place);
        Assert.Equal(before, RegisterDump.Of(register));
        Assert.False(register.Knows(more.Id));
        // What is known already, or given twice, changes nothing.
        Assert.Equal("van", register.WhatIf([register.Source.Read(1), more, more]).Device("A1")!.Place);
        Assert.Same(register, register.WhatIf([register.Source.Read(1)]));
    }

    private static Register OneByOne(IReadOnlyList<Fact> facts) => InBatches(facts, 1);

    private static Register InBatches(IReadOnlyList<Fact> facts, int size)
    {
        var list = new FactList();
        var register = Register.Empty(list);
        foreach (var chunk in facts.DistinctBy(f => f.Id).Chunk(size))
        {
            foreach (var fact in chunk) list.Add(fact);
            register = register.With(chunk);
            _ = register.Device("A1"); // remembers a state that the next fact must undo
            _ = register.Device("A2", new DateOnly(2022, 6, 1));
        }
        return register;
    }

    private static List<Fact> Shuffled(IReadOnlyList<Fact> facts, int seed)
    {
        var array = facts.ToArray();
        new Random(seed).Shuffle(array);
        return [.. array];
    }

    private static Arbitrary<(List<Fact> Facts, int Seed)> Sets() => Arb.From(
        from seed in Gen.Choose(0, int.MaxValue)
        from n in Gen.Choose(1, 40)
        select (Sample(new Random(seed), n), seed));

    /// <summary>Facts of all sorts about few devices, so that they meet: late ones, rivals, circles, annulled annulments, newer kinds.</summary>
    private static List<Fact> Sample(Random random, int n)
    {
        var facts = new List<Fact>();
        while (facts.Count < n)
        {
            var device = "A" + random.Next(1, 4);
            var other = "A" + random.Next(1, 4);
            var day = new DateOnly(2020, 1, 1).AddDays(random.Next(0, 2000)).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
            var target = facts.Count > 0 ? facts[random.Next(facts.Count)] : null;
            facts.Add(random.Next(0, 15) switch
            {
                0 => Make.Registered(device, random.Next(1, 3).ToString(System.Globalization.CultureInfo.InvariantCulture), random.Next(2) == 0 ? "microphone" : "preamplifier"),
                1 => Make.Of(new DeviceMoved("place " + random.Next(9)), day, "device:" + device),
                2 => Make.Of(new DeviceStatusChanged((DeviceStatus)random.Next(5), null), day, random.Next(3), "device:" + device),
                3 => Make.Of(new DeviceDescribed(Make.Details(("owner", "o" + random.Next(3))), random.Next(2) == 0 ? [] : ["variant"]), day, "device:" + device),
                4 => Make.Certificate(device, day, -26 + random.NextDouble()),
                5 => FactText.WriteDerived(new(Make.On(day + "T10:00:00.000Z"), "P1", "phone" + random.Next(2), random.Next(10)), new DeviceNoted("n" + random.Next(99)), ["device:" + device]),
                6 => Make.Of(new ClientClockNoticed("phone" + random.Next(2), random.Next(10), random.Next(-100, 100) * 3_600_000L), day, Subject.TheRegister),
                7 => Make.Of(new RegisterFounded("R", "House", "Zone/Home", [new("2020-01-01T00:00:00.000Z", random.Next(-12, 13) * 60)]), day, Subject.TheRegister),
                8 => Make.Of(new PersonNamed("N" + random.Next(5)), day, "person:P1"),
                9 when target is not null => Make.Annulling(target, "r" + random.Next(3)),
                10 when target?.Body is DeviceMoved => Make.Replacing(target, new DeviceMoved("replaced " + random.Next(9))),
                10 when target is not null && target.Body is not FactAnnulled => Make.Replacing(target, new DeviceMoved("unfit " + random.Next(9)), "device:" + device),
                11 => Newer(device, random.Next(3)),
                12 when device != other => Make.Of(new DevicesJoined(device, other, "same"), day, "device:" + device, "device:" + other),
                13 when device != other => Make.Of(new DevicesParted(device, other, "two"), day, "device:" + device, "device:" + other),
                14 => Circle(device, random.Next(3), facts),
                _ => Make.Of(new DeviceNoted("x" + random.Next(99)), day, "device:" + device),
            });
        }
        return facts;
    }

    private static Fact Newer(string device, int n) => FactText.ReadCanonical(Encoding.UTF8.GetBytes(
        $$"""{"at":"2024-01-0{{n + 1}}","author":"P1","body":{},"client":"c","counter":0,"id":"01JD8XK3ZZ00000000000000{{device[1]}}{{n}}","kind":"device-weighed","subjects":["device:{{device}}"],"version":1}"""));

    // Two annulments that point at each other can only be made with ids chosen beforehand.
    private static Fact Circle(string device, int n, List<Fact> facts)
    {
        var (a, b) = (FactId.Create(n, [1, 0, 0, 0, 0, 0, 0, 0, 0, 0]), FactId.Create(n, [2, 0, 0, 0, 0, 0, 0, 0, 0, 0]));
        var stamp = new FactStamp(Make.On("2024-01-01"), "P1", "desk", 0);
        facts.Add(FactText.Write(a, stamp, new FactAnnulled(b.ToString(), "circle"), ["device:A1"]));
        return FactText.Write(b, stamp, new FactAnnulled(a.ToString(), "circle"), ["device:A1"]);
    }
}

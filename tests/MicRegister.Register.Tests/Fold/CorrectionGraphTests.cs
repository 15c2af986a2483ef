using System.Text;
using System.Text.Json;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Fold;

/// <summary>Annulments and replacements of one another in every shape, in any order of arrival, beside a second implementation.</summary>
public sealed class CorrectionGraphTests
{
    private static readonly string[] Devices = ["A1", "A2", "A3"];

    [Fact]
    public void Any_graph_that_arrives_in_any_order_and_batches_counts_as_the_plain_rules_say()
    {
        for (var seed = 1; seed <= 3000; seed++)
        {
            var random = new Random(seed);
            var facts = Graph(random, random.Next(2, 16));
            var list = new FactList();
            var register = Register.Empty(list);
            (Register Register, bool[] Counts)? earlier = null;
            for (var arrived = 0; arrived < facts.Count;)
            {
                var batch = facts.Skip(arrived).Take(random.Next(1, 5)).ToList();
                foreach (var fact in batch) list.Add(fact);
                register = register.With(batch);
                arrived += batch.Count;

                var known = facts.Take(arrived).ToList();
                AssertSame(seed, register, known);
                // A state of a device that was remembered before is folded again where it must be.
                Assert.True(
                    States(FactList.RegisterOf(known)) == States(register), $"Seed {seed}: a remembered state after {arrived} facts.");
                if (earlier is null || random.Next(3) == 0) earlier = (register, Counts(register));
                var coming = facts.Skip(arrived + 1).ToList();
                AssertSame(seed, register.WhatIf(coming), [.. known, .. coming]);
            }
            // A snapshot never changes, and one that was read from an image says the same.
            Assert.True(earlier!.Value.Counts.SequenceEqual(Counts(earlier.Value.Register)), $"Seed {seed}: an earlier snapshot.");
            using var image = new MemoryStream();
            RegisterImage.Write(register, image);
            image.Position = 0;
            AssertSame(seed, RegisterImage.Read(image, list), facts);
            AssertSame(seed, register.AsOfSequence(facts.Count / 2), facts.Take(facts.Count / 2).ToList());
        }
    }

    [Fact]
    public void An_earlier_snapshot_does_not_hold_a_replacement_against_a_target_that_came_later()
    {
        var target = Make.Of(new DeviceMoved("store"), "2024-01-01", "device:A1");
        var unfit = Make.Replacing(target, new DeviceMoved("van"), "device:A2");
        var list = new FactList();
        list.Add(unfit);
        var before = Register.Empty(list).With([unfit]);
        list.Add(target);
        var after = before.With([target]);

        Assert.True(before.Counts(1));
        Assert.Equal("van", before.Device("A2")!.Place);
        Assert.False(after.Counts(1));
        Assert.Null(after.Device("A2")!.Place);
    }

    private static void AssertSame(int seed, Register register, List<Fact> facts)
    {
        var plain = new PlainCorrections(facts);
        for (var sequence = 1; sequence <= facts.Count; sequence++)
            Assert.True(
                plain.Counts(sequence) == register.Counts(sequence),
                $"Seed {seed}: fact {sequence} of {facts.Count}, {facts[sequence - 1]}.");
        var said = register.Findings(new DateOnly(2026, 5, 1))
            .Where(f => f.Rule is "correction-circle" or "replacement-unfit" or "replaced-twice").Select(f => (f.Rule, f.Facts[0]));
        Assert.True(plain.Findings().SequenceEqual(said), $"Seed {seed}: findings of {facts.Count} facts.");
    }

    private static bool[] Counts(Register register) => [.. Enumerable.Range(1, register.Count).Select(register.Counts)];

    private static string States(Register register)
    {
        object?[] now = [.. Devices.Select(d => register.Device(d)), .. register.DeviceIds.Order(StringComparer.Ordinal)];
        return JsonSerializer.Serialize(now) + JsonSerializer.Serialize(Devices.Select(d => register.Device(d, new DateOnly(2022, 6, 1))));
    }

    /// <summary>Facts about three devices that point at one another, at themselves and at what never comes; ids stand beforehand.</summary>
    private static List<Fact> Graph(Random random, int n)
    {
        var ids = Enumerable.Range(0, n).Select(_ => Id(random)).ToArray();
        var shapes = random.Next(1, 4); // few shapes let replacements fit, many do not
        var facts = ids.Select(id => One(random, id, Any(random, ids), shapes)).ToArray();
        random.Shuffle(facts);
        return [.. facts.Take(random.Next(4) == 0 ? n - 1 : n)]; // one of them may never come
    }

    private static FactId? Any(Random random, FactId[] ids) =>
        random.Next(10) switch { 0 or 1 => null, 2 => Id(random), _ => ids[random.Next(ids.Length)] };

    private static FactId Id(Random random)
    {
        var bytes = new byte[10];
        random.NextBytes(bytes);
        return FactId.Create(1_700_000_000_000 + random.Next(1000), bytes);
    }

    private static Fact One(Random random, FactId id, FactId? target, int shapes)
    {
        var device = Devices[random.Next(shapes)];
        string[] subjects = random.Next(6) == 0 ? ["device:" + device, "device:A1"] : ["device:" + device];
        subjects = [.. subjects.Distinct()];
        var stamp = new FactStamp(Make.On($"202{random.Next(5)}-0{random.Next(1, 9)}-01"), "P1", "desk", random.Next(3));
        var kind = random.Next(12);
        if (target is { } t && kind < 5) return FactText.Write(id, stamp, new FactAnnulled(t.ToString(), "r"), subjects);
        if (kind == 11) return Newer(id, device, target);
        FactBody body = kind switch
        {
            10 when device != "A1" => new DevicesJoined("A1", device, "same"),
            9 => new DeviceNoted("n" + random.Next(99)),
            _ => new DeviceMoved("place " + random.Next(99)),
        };
        return FactText.Write(id, stamp, body, body is DevicesJoined ? ["device:A1", "device:" + device] : subjects, target);
    }

    // An annulment or a join of a later version, which this one cannot read.
    private static Fact Newer(FactId id, string device, FactId? target)
    {
        var (kind, subjects) = device == "A1"
            ? ("fact-annulled", "\"device:A1\"")
            : ("devices-joined", $"\"device:A1\",\"device:{device}\"");
        var replaces = target is { } t ? $"\"replaces\":\"{t}\"," : "";
        return FactText.ReadCanonical(Encoding.UTF8.GetBytes(
            "{\"at\":\"2024-01-01\",\"author\":\"P1\",\"body\":{},\"client\":\"c\",\"counter\":0,"
            + $"\"id\":\"{id}\",\"kind\":\"{kind}\",{replaces}\"subjects\":[{subjects}],\"version\":9}}"));
    }
}

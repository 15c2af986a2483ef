using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Fold;

/// <summary>
/// Ten thousand corrections of one fact, in shapes that take exponential or quadratic time, or a stack as deep, where each is worked out
/// by itself. What counts follows from the shape; how often facts are read bounds the work.
/// </summary>
public sealed class ManyCorrectionsTests
{
    private const int N = 10_000;
    private const int Half = N / 2;

    private static readonly FactStamp Stamp = new(Make.On("2024-01-01"), "P1", "desk", 0);

    // The facts, the corrected one first where it is there, and which of them count.
    private static readonly Dictionary<string, Func<(List<Fact> Facts, HashSet<int> Counting)>> ShapesByName = new(StringComparer.Ordinal)
    {
        ["all replace one"] = () => (Of(N + 1, i => i == 0 ? Moved(0) : Replacing(i, 0)), [N]),
        ["all annul one"] = () => (Of(N + 1, i => i == 0 ? Moved(0) : Annulling(i, 0)), [.. From(1, N)]),
        ["replacements, each annulled"] = () => (
            Of(N + 1, i => i == 0 ? Moved(0) : i <= Half ? Replacing(i, 0) : Annulling(i, i - Half)), [0, .. From(Half + 1, Half)]),
        ["replacements of what is not here, each annulled but the first"] = () => (
            Of(N + 1, i => i == 0 ? Noted(0) : i <= Half ? Replacing(i, 90_000, i) : Annulling(i, Math.Max(2, i - Half))),
            [0, 1, .. From(Half + 1, Half)]),
        ["a chain of annulments"] = () => (
            Of(N + 1, i => i == 0 ? Moved(0) : Annulling(i, i - 1)), [.. From(0, N + 1).Where(i => i % 2 == 0)]),
        // One that was itself replaced does not count, and so replaces nothing.
        ["a chain of replacements"] = () => (
            Of(N + 1, i => i == 0 ? Moved(0) : Replacing(i, i - 1)), [.. From(0, N + 1).Where(i => i % 2 == 0)]),
        ["a chain of replacements, each annulled"] = () => (
            Of(N + 1, i => i == 0 ? Moved(0) : i <= Half ? Replacing(i, i - 1) : Annulling(i, i - Half)), [0, .. From(Half + 1, Half)]),
        ["a chain of replacements that do not fit"] = () => (Of(N, i => i == 0 ? Moved(0) : Replacing(i, i - 1, i)), [0]),
        ["a circle of annulments"] = () => (Of(N, i => Annulling(i, (i + 1) % N)), []),
        ["a circle of replacements"] = () => (Of(N, i => Replacing(i, (i + 1) % N)), []),
        ["annulments of one in a circle"] = () => (Of(N, i => Annulling(i, i < 10 ? (i + 1) % 10 : 0)), [.. From(10, N - 10)]),
        ["every device's fact replaced twice and one annulled"] = () => (
            Of(N, i => (i % 4) switch
            {
                0 => Moved(i, i),
                1 => Replacing(i, i - 1, i - 1),
                2 => Replacing(i, i - 2, i - 2),
                _ => Annulling(i, i - 1),
            }),
            [.. From(0, N).Where(i => i % 2 == 1)]),
    };

    public static TheoryData<string> Shapes => [.. ShapesByName.Keys];

    [Theory]
    [MemberData(nameof(Shapes))]
    public void What_counts_is_known_with_few_reads_whether_all_came_at_once_or_backwards_or_by_turns(string shape)
    {
        var (facts, counting) = ShapesByName[shape]();
        int[] turns = [.. Enumerable.Range(0, facts.Count)];
        new Random(41).Shuffle(turns);
        foreach (var order in new[] { [.. Enumerable.Range(0, facts.Count)], [.. Enumerable.Range(0, facts.Count).Reverse()], turns })
        {
            var source = new CountedReads(order.Select(i => facts[i]));
            var register = Register.Empty(source).With(source.Facts);
            var found = Enumerable.Range(1, facts.Count).Where(register.Counts).Select(s => order[s - 1]).ToHashSet();

            Assert.True(counting.SetEquals(found), $"{found.Count} count, of {counting.Count}.");
            Assert.InRange(source.Reads, 0, 6 * facts.Count);
        }
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Facts_that_come_one_by_one_are_read_a_few_times_each(string shape)
    {
        var source = new CountedReads(ShapesByName[shape]().Facts.Take(2000));
        var register = Register.Empty(source);
        foreach (var fact in source.Facts) register = register.With([fact]);

        Assert.InRange(source.Reads, 0, 10 * source.Facts.Count);
        var atOnce = FactList.RegisterOf(source.Facts);
        Assert.Equal(Enumerable.Range(1, 2000).Where(atOnce.Counts), Enumerable.Range(1, 2000).Where(register.Counts));
    }

    private static IEnumerable<int> From(int first, int count) => Enumerable.Range(first, count);

    private static List<Fact> Of(int count, Func<int, Fact> make) => [.. Enumerable.Range(0, count).Select(make)];

    // Ids go up with their numbers.
    private static FactId Id(int i) => FactId.Create(1_700_000_000_000 + i, new byte[10]);

    private static Fact Moved(int i, int device = 0) => FactText.Write(Id(i), Stamp, new DeviceMoved("store"), ["device:D" + device]);

    private static Fact Noted(int i) => FactText.Write(Id(i), Stamp, new DeviceNoted("beside it"), ["device:D0"]);

    private static Fact Replacing(int i, int target, int device = 0) =>
        FactText.Write(Id(i), Stamp, new DeviceMoved("van"), ["device:D" + device], Id(target));

    private static Fact Annulling(int i, int target) =>
        FactText.Write(Id(i), Stamp, new FactAnnulled(Id(target).ToString(), "wrong"), ["device:D0"]);
}

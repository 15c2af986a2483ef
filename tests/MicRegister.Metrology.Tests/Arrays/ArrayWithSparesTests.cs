using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Tests.Arrays;

/// <summary>Spares stand in for their own kind, each with its own probability: held against all outcomes, one by one.</summary>
public sealed class ArrayWithSparesTests
{
    private static SparedArray Of(IReadOnlyList<SparePart[]> stations, IReadOnlyList<SparePart> spares, int permitted) =>
        ArrayWithSpares.Of([new([new(1, [.. stations], spares)])], permitted);

    // Two stations of one microphone each, 0.9 and 0.8, one spare of 0.7: none lost 0.72, one lost 0.26 and made up for with 0.7.
    [Fact]
    public void One_spare_for_two_stations_by_hand()
    {
        SparePart[][] stations = [[new(0, 0.9)], [new(0, 0.8)]];

        AssertClose.Absolute(0.72 + (0.26 * 0.7), Of(stations, [new(0, 0.7)], 0).Probability, 1e-14);
        AssertClose.Absolute(0.98 + (0.02 * 0.7), Of(stations, [new(0, 0.7)], 1).Probability, 1e-14);
        AssertClose.Absolute(0.72, Of(stations, [new(1, 0.7)], 0).Probability, 1e-14); // another kind
        AssertClose.Absolute(0.72, Of(stations, [new(null, 0.7)], 0).Probability, 1e-14);
        AssertClose.Absolute(0.72, Of(stations, [], 0).Probability, 1e-14);
    }

    // Microphone 0.9, preamplifier 0.8; a spare of each that is certain cures all, of one kind that kind alone.
    [Fact]
    public void A_station_that_lacks_two_parts_takes_a_spare_of_each()
    {
        SparePart[][] station = [[new(0, 0.9), new(1, 0.8)]];

        AssertClose.Absolute(1, Of(station, [new(0, 1), new(1, 1)], 0).Probability, 1e-14);
        AssertClose.Absolute(0.8, Of(station, [new(0, 1)], 0).Probability, 1e-14);
        AssertClose.Absolute(0.9, Of(station, [new(1, 1)], 0).Probability, 1e-14);
        AssertClose.Absolute(0.72 + (0.08 * 0.5) + (0.18 * 0.6) + (0.02 * 0.5 * 0.6), Of(station, [new(0, 0.5), new(1, 0.6)], 0).Probability, 1e-14);
        // A second microphone at the station is one that no spare is counted for.
        AssertClose.Absolute(0.9, Of([[new(0, 0.9), new(0, 0.9)]], [new(0, 1), new(0, 1)], 0).Probability, 1e-14);
    }

    [Fact]
    public void Random_arrays_agree_with_all_outcomes_counted_one_by_one()
    {
        var random = new Random(160901);
        for (var n = 0; n < 400; n++)
        {
            var stations = Stations(random);
            SparePart[] spares = [.. Enumerable.Range(0, random.Next(5)).Select(_ => Part(random))];
            var permitted = random.Next(3);

            var found = Of(stations, spares, permitted);

            Assert.False(found.IsAtLeast);
            AssertClose.Absolute(Enumerated(stations, spares, permitted), found.Probability, 1e-12);
        }
    }

    [Fact]
    public void Spares_never_harm_and_never_count_as_more_than_certain_ones()
    {
        var random = new Random(160902);
        var (between, all) = (0, 300);
        for (var n = 0; n < all; n++)
        {
            var stations = Stations(random);
            SparePart[] spares = [.. Enumerable.Range(0, 1 + random.Next(4)).Select(_ => Part(random))];
            var permitted = random.Next(2);

            var without = Of(stations, [], permitted).Probability;
            var with = Of(stations, spares, permitted).Probability;
            var certain = Of(stations, [.. spares.Select(s => s with { Holds = 1 })], permitted).Probability;

            Assert.InRange(with, without - 1e-14, certain + 1e-14);
            var holding = stations.Select(s => s.Aggregate(1.0, (a, p) => a * p.Holds)).ToArray();
            AssertClose.Absolute(LossCount.ProbabilityAtMost(holding, permitted), without, 1e-13);
            if (with > without + 1e-6 && with < certain - 1e-6) between++;
        }
        Assert.InRange(between, all / 4, all);
    }

    // Two groups with a shift of two values each, by enumeration of the values and of all outcomes.
    [Fact]
    public void Groups_that_share_a_shift_are_weighed_value_by_value()
    {
        var random = new Random(160903);
        for (var n = 0; n < 40; n++)
        {
            SpareNode Node(double weight) => new(weight, [.. Stations(random, 2)], [new(0, random.NextDouble()), new(1, random.NextDouble())]);
            SpareGroup[] groups = [new([Node(0.3), Node(0.7)]), new([Node(0.6), Node(0.4)])];

            double expected = 0;
            foreach (var a in groups[0].Nodes)
            {
                foreach (var b in groups[1].Nodes)
                    expected += a.Weight * b.Weight * Enumerated([.. a.Stations, .. b.Stations], [.. a.Spares, .. b.Spares], 1);
            }

            AssertClose.Absolute(expected, ArrayWithSpares.Of(groups, 1).Probability, 1e-12);
        }
    }

    [Fact]
    public void What_would_take_too_long_is_a_lower_bound_and_says_so()
    {
        SparePart[][] stations = [.. Enumerable.Range(0, 60).Select(_ => new SparePart[] { new(0, 0.97), new(1, 0.99), new(2, 0.995) })];
        SparePart[] spares = [.. Enumerable.Repeat(new SparePart(0, 0.97), 4), .. Enumerable.Repeat(new SparePart(1, 0.99), 2), new(2, 0.995)];
        SpareGroup[] groups = [new([new(1, stations, spares)])];

        var bound = ArrayWithSpares.Of(groups, 1, 10_000);
        var closer = ArrayWithSpares.Of(groups, 1);
        var none = ArrayWithSpares.Of(groups, 1, 10);

        Assert.True(bound.IsAtLeast);
        Assert.False(closer.IsAtLeast);
        Assert.InRange(bound.Probability, 0.0001, closer.Probability - 1e-6);
        Assert.True(none.IsAtLeast);
        double[] holding = [.. stations.Select(s => s.Aggregate(1.0, (a, p) => a * p.Holds))];
        AssertClose.Absolute(LossCount.ProbabilityAtMost(holding, 1), none.Probability, 1e-12);
    }

    [Fact]
    public void Where_all_may_be_lost_nothing_is_counted_and_what_cannot_be_is_refused()
    {
        Assert.Equal(new SparedArray(1, false), Of([[new(0, 0)]], [], 1));
        Assert.Equal(new SparedArray(1, false), Of([], [], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Of([[new(0, 0.5)]], [], -1));
        Assert.Throws<ArgumentException>(() => Of([[new(0, 1.01)]], [], 0));
        Assert.Throws<ArgumentException>(() => Of([[new(0, 0.5)]], [new(0, double.NaN)], 0));
    }

    // The values of a shift that are summed over stand for a normal distribution: 1, 0, 1 are its first moments.
    [Fact]
    public void Values_of_a_shift_have_the_moments_of_a_normal_distribution()
    {
        var shifts = ArrayForecast.Shifts(0.05).ToList();

        AssertClose.Absolute(1, shifts.Sum(s => s.Weight), 1e-7);
        AssertClose.Absolute(0, shifts.Sum(s => s.Weight * s.Z), 1e-12);
        AssertClose.Absolute(1, shifts.Sum(s => s.Weight * s.Z * s.Z), 1e-6);
        Assert.Equal([(0.0, 1.0)], ArrayForecast.Shifts(0));
        AssertClose.Absolute(0.682689, ArrayForecast.Within(LevelForecast.Normal(0, 0.1), 0, 0.1, 0, 0), 1e-6);
    }

    private static SparePart Part(Random random) =>
        new(random.Next(4) is var k and < 3 ? k : null, random.Next(6) switch { 0 => 0, 1 => 1, _ => random.NextDouble() });

    private static List<SparePart[]> Stations(Random random, int count = 0) =>
        [.. Enumerable.Range(0, count > 0 ? count : 1 + random.Next(3)).Select(_ => Enumerable.Range(0, 1 + random.Next(3)).Select(_ => Part(random))
            .DistinctBy(p => p.Kind).ToArray())];

    // All outcomes of all parts and spares; all ways to give spares to stations.
    private static double Enumerated(IReadOnlyList<IReadOnlyList<SparePart>> stations, IReadOnlyList<SparePart> spares, int permitted)
    {
        List<SparePart> all = [.. stations.SelectMany(s => s), .. spares];
        double sum = 0;
        for (var outcome = 0; outcome < 1 << all.Count; outcome++)
        {
            var p = all.Select((part, i) => (outcome >> i & 1) == 1 ? part.Holds : 1 - part.Holds).Aggregate(1.0, (a, b) => a * b);
            if (p == 0) continue;
            var at = 0;
            var lacking = new List<List<int?>>();
            foreach (var station in stations)
            {
                List<int?> kinds = [.. station.Where((_, i) => (outcome >> (at + i) & 1) == 0).Select(x => x.Kind)];
                at += station.Count;
                if (kinds.Count > 0) lacking.Add(kinds);
            }
            var good = spares.Where((_, i) => (outcome >> (at + i) & 1) == 1).Select(s => s.Kind).ToList();
            var lost = Enumerable.Range(0, 1 << lacking.Count).Where(cured =>
            {
                var needed = lacking.Where((_, i) => (cured >> i & 1) == 1).SelectMany(k => k).ToList();
                return needed.TrueForAll(k => k is not null && needed.Count(x => x == k) <= good.Count(g => g == k));
            }).Min(cured => lacking.Count - System.Numerics.BitOperations.PopCount((uint)cured));
            if (lost <= permitted) sum += p;
        }
        return sum;
    }
}

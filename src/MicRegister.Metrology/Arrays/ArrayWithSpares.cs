using System.Numerics;

namespace MicRegister.Metrology.Arrays;

/// <summary>
/// How probable it is that an array holds when spares stand in for what is lost: each spare for a part of its own kind alone, and only where
/// it holds itself.
/// </summary>
/// <remarks>
/// Exact for parts and spares that fail independently of each other given the shift of their group, and for the best use of the spares:
/// stations that lack one part get theirs first, since whoever lacks more would take at least as much. What is counted, one part after the
/// other, is how many spares of each kind are left or missing, how many stations lack several parts, by which, and how many no spare cures.
/// </remarks>
public static class ArrayWithSpares
{
    // States rarer than this count as lost.
    private const double Rarest = 1e-17;

    /// <summary>Probability that no more than a number of stations are lost once the spares that hold stand in.</summary>
    /// <param name="groups">Stations and spares; those of one group may share a shift, groups are independent of each other.</param>
    /// <param name="permitted">Greatest number of stations lost, not negative.</param>
    /// <param name="mostSteps">
    /// So many steps are done at most. Where it would take more, the spares of the kind that is lost least are left out, and the answer is
    /// a lower bound.
    /// </param>
    /// <exception cref="ArgumentException">A probability lies outside 0 to 1, or a number is negative.</exception>
    public static SparedArray Of(IReadOnlyList<SpareGroup> groups, int permitted, int mostSteps = 3_000_000)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(permitted);
        foreach (var p in groups.SelectMany(g => g.Nodes).SelectMany(n => n.Stations.SelectMany(s => s).Concat(n.Spares)))
        {
            if (p.Holds is not (>= 0 and <= 1))
                throw new ArgumentException($"A probability must lie between 0 and 1; found {p.Holds}.", nameof(groups));
        }
        var stations = groups.Sum(g => g.Nodes.Count == 0 ? 0 : g.Nodes[0].Stations.Count);
        if (permitted >= stations) return new(1, false);
        var kinds = KindsByLoss(groups);
        for (var leftOut = 0; leftOut < kinds.Count; leftOut++)
        {
            if (new Count(groups, [.. kinds.Skip(leftOut)], permitted, mostSteps).Probability() is { } exact)
                return new(exact, leftOut > 0);
        }
        return new(new Count(groups, [], permitted, int.MaxValue).Probability()!.Value, kinds.Count > 0);
    }

    // Kinds that spares go along of and stations have, the one that is lost least first.
    private static List<int> KindsByLoss(IReadOnlyList<SpareGroup> groups)
    {
        var nodes = groups.SelectMany(g => g.Nodes).ToList();
        var lost = nodes.SelectMany(n => n.Stations.SelectMany(s => s).Where(p => p.Kind is not null)
                .Select(p => (Kind: p.Kind!.Value, Lost: n.Weight * (1 - p.Holds))))
            .GroupBy(p => p.Kind).ToDictionary(g => g.Key, g => g.Sum(p => p.Lost));
        return [.. nodes.SelectMany(n => n.Spares).Select(s => s.Kind).OfType<int>().Distinct()
            .Where(k => lost.GetValueOrDefault(k) > 0).OrderBy(k => lost[k]).ThenBy(k => k)];
    }

    private sealed class Count
    {
        private readonly IReadOnlyList<SpareGroup> _groups;
        private readonly Dictionary<int, int> _indexOf;
        private readonly int[] _spares;
        private readonly List<uint> _several = [];
        private readonly int _permitted, _mostSteps;
        private readonly int[] _shifts;
        private readonly UInt128[] _masks;
        private readonly bool _fits;
        private int _steps;

        // Fields of a state: for each kind the spares left, offset so that none is negative; stations that lack several, by which; those lost
        // for good.
        public Count(IReadOnlyList<SpareGroup> groups, int[] kinds, int permitted, int mostSteps)
        {
            (_groups, _permitted, _mostSteps) = (groups, permitted, mostSteps);
            _indexOf = kinds.Select((k, i) => (k, i)).ToDictionary(x => x.k, x => x.i);
            _spares = [.. kinds.Select(k => groups.Sum(g => g.Nodes.Count == 0 ? 0 : g.Nodes[0].Spares.Count(s => s.Kind == k)))];
            foreach (var station in groups.SelectMany(g => g.Nodes).SelectMany(n => n.Stations))
            {
                foreach (var (mask, _) in Outcomes(station).Lacking)
                {
                    if (BitOperations.PopCount(mask) > 1 && !_several.Contains(mask)) _several.Add(mask);
                }
            }
            _several.Sort();
            List<int> ranges = [.. _spares.Select(s => permitted + (2 * s) + 1), .. _several.Select(m => permitted + Least(m) + 1), permitted + 1];
            (_shifts, _masks) = (new int[ranges.Count], new UInt128[ranges.Count]);
            var bits = 0;
            for (var i = 0; i < ranges.Count; i++)
            {
                var width = 32 - BitOperations.LeadingZeroCount((uint)ranges[i]);
                (_shifts[i], _masks[i]) = (bits, (UInt128.One << width) - 1);
                bits += width;
            }
            _fits = bits <= 127;
        }

        private int GoodField => _spares.Length + _several.Count;

        /// <summary>Null where it takes more steps than allowed.</summary>
        public double? Probability()
        {
            if (!_fits) return null;
            // No spare holds yet, and none is missing.
            UInt128 begin = 0;
            for (var k = 0; k < _spares.Length; k++) begin += (UInt128)(uint)(_permitted + _spares[k]) << _shifts[k];
            var states = new Dictionary<UInt128, double> { [begin] = 1 };
            int[] later = [.. _spares];
            foreach (var group in _groups)
            {
                foreach (var spare in group.Nodes.Count == 0 ? [] : group.Nodes[0].Spares)
                {
                    if (spare.Kind is { } kind && _indexOf.TryGetValue(kind, out var k)) later[k]--;
                }
                var sum = new Dictionary<UInt128, double>();
                foreach (var node in group.Nodes)
                {
                    if (After(states, node, later) is not { } after) return null;
                    foreach (var (key, p) in after) sum[key] = sum.GetValueOrDefault(key) + (node.Weight * p);
                }
                if (group.Nodes.Count > 0) states = sum;
            }
            return Math.Min(1, states.Where(s => IsHeld(s.Key)).Sum(s => s.Value));
        }

        private Dictionary<UInt128, double>? After(Dictionary<UInt128, double> states, SpareNode node, int[] later)
        {
            foreach (var spare in node.Spares)
            {
                if (spare.Kind is not { } kind || !_indexOf.TryGetValue(kind, out var k)) continue;
                var next = new Dictionary<UInt128, double>(states.Count * 2);
                foreach (var (key, p) in states)
                {
                    Add(next, key, p * (1 - spare.Holds));
                    // Never more than there are, so that the field cannot overflow.
                    Add(next, key + (UInt128.One << _shifts[k]), p * spare.Holds);
                }
                if ((_steps += states.Count * 2) > _mostSteps) return null;
                states = next;
            }
            foreach (var station in node.Stations)
            {
                var (lost, lacking) = Outcomes(station);
                var next = new Dictionary<UInt128, double>(states.Count * 2);
                foreach (var (key, p) in states)
                {
                    var isFull = IsFull(key, later);
                    if (lost > 0 && !isFull)
                        Add(next, key + (UInt128.One << _shifts[GoodField]), p * lost);
                    foreach (var (mask, chance) in lacking)
                    {
                        if (mask == 0) Add(next, key, p * chance);
                        else if (BitOperations.PopCount(mask) == 1)
                        {
                            var k = BitOperations.TrailingZeroCount(mask);
                            if (isFull && Left(key, k) + later[k] <= 0) continue;
                            Add(next, key - (UInt128.One << _shifts[k]), p * chance);
                        }
                        else
                        {
                            var field = _spares.Length + _several.BinarySearch(mask);
                            if ((int)(key >> _shifts[field] & _masks[field]) == _permitted + Least(mask)) continue;
                            Add(next, key + (UInt128.One << _shifts[field]), p * chance);
                        }
                    }
                }
                if ((_steps += states.Count * (lacking.Count + 1)) > _mostSteps) return null;
                states = next;
            }
            return states;
        }

        // Whether as many are lost for good as may be, whatever spares are still to come.
        private bool IsFull(UInt128 key, int[] later)
        {
            var lost = (int)(key >> _shifts[GoodField] & _masks[GoodField]);
            for (var k = 0; k < later.Length; k++) lost += Math.Max(0, -(Left(key, k) + later[k]));
            return lost >= _permitted;
        }

        private int Left(UInt128 key, int k) => (int)(key >> _shifts[k] & _masks[k]) - _permitted - _spares[k];

        private static void Add(Dictionary<UInt128, double> states, UInt128 key, double p)
        {
            if (p < Rarest) return;
            System.Runtime.InteropServices.CollectionsMarshal.GetValueRefOrAddDefault(states, key, out _) += p;
        }

        private int Least(uint mask) => Enumerable.Range(0, _spares.Length).Where(k => (mask >> k & 1) == 1).Min(k => _spares[k]);

        // What a station may lack, as bits of kinds that there are spares of, and whether it is lost whatever spares there are.
        private (double Lost, List<(uint Mask, double Chance)> Lacking) Outcomes(IReadOnlyList<SparePart> station)
        {
            double whole = 1;
            List<(uint Mask, double Chance)> lacking = [(0, 1)];
            foreach (var part in station)
            {
                var k = part.Kind is { } kind && _indexOf.TryGetValue(kind, out var index) ? index : -1;
                // A second part of one kind would take a second spare: no spare is counted for it.
                if (k < 0 || lacking.Exists(l => (l.Mask >> k & 1) == 1))
                {
                    whole *= part.Holds;
                    continue;
                }
                if (part.Holds == 1) continue;
                lacking = [.. lacking.SelectMany(l => new[]
                {
                    (l.Mask, l.Chance * part.Holds), (l.Mask | (1u << k), l.Chance * (1 - part.Holds)),
                })];
            }
            return (1 - whole, [.. lacking.Where(l => l.Chance > 0).Select(l => (l.Mask, l.Chance * whole)).Where(l => l.Item2 > 0)]);
        }

        private bool IsHeld(UInt128 key)
        {
            var lost = (int)(key >> _shifts[GoodField] & _masks[GoodField]);
            var left = new int[_spares.Length];
            for (var k = 0; k < left.Length; k++)
            {
                left[k] = Left(key, k);
                if (left[k] < 0) (lost, left[k]) = (lost - left[k], 0);
            }
            if (lost > _permitted) return false;
            int[] several = [.. Enumerable.Range(_spares.Length, _several.Count).Select(f => (int)(key >> _shifts[f] & _masks[f]))];
            return IsCured(several, 0, left, _permitted - lost);
        }

        // Whether the spares that are left can stand in so that no more than a number of these stations stay lost.
        private bool IsCured(int[] several, int from, int[] left, int allowed)
        {
            if (several.Skip(from).Sum() <= allowed) return true;
            if (from == several.Length) return false;
            var kinds = Enumerable.Range(0, left.Length).Where(k => (_several[from] >> k & 1) == 1).ToList();
            for (var cured = Math.Min(several[from], kinds.Min(k => left[k])); cured >= Math.Max(0, several[from] - allowed); cured--)
            {
                int[] rest = [.. left];
                foreach (var k in kinds) rest[k] -= cured;
                if (IsCured(several, from + 1, rest, allowed - (several[from] - cured))) return true;
            }
            return false;
        }
    }
}

/// <summary>Stations and spares that may share a shift.</summary>
/// <param name="Nodes">
/// What they are given each value of the shift; the weights sum to 1, and all hold the same stations and spares in order.
/// </param>
public sealed record SpareGroup(IReadOnlyList<SpareNode> Nodes);

/// <summary>Stations and spares given one value of the shift that they share.</summary>
/// <param name="Weight">Probability of that value.</param>
/// <param name="Stations">The parts of each station; it holds where all do.</param>
/// <param name="Spares">The spares.</param>
public sealed record SpareNode(double Weight, IReadOnlyList<IReadOnlyList<SparePart>> Stations, IReadOnlyList<SparePart> Spares);

/// <summary>A part of a station, or a spare.</summary>
/// <param name="Kind">Number of its kind, by which spares stand in for parts; null where no spare does.</param>
/// <param name="Holds">Probability that it holds, from 0 to 1.</param>
public readonly record struct SparePart(int? Kind, double Holds);

/// <summary>An array with its spares.</summary>
/// <param name="Probability">Probability that it holds.</param>
/// <param name="IsAtLeast">Whether it is a lower bound only, since the whole of it would take too long to count.</param>
public readonly record struct SparedArray(double Probability, bool IsAtLeast);

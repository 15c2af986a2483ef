using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Drift;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>
/// An array whose microphones share what their laboratory's reference was off by: those whose newest result is of the same laboratory
/// and day. Stations as independent are the safe side for the array as a whole, but not for the number of spares.
/// </summary>
internal static class CommonShift
{
    /// <summary>
    /// Share of a result's standard uncertainty that is taken as common where the certificate's budget is not known
    /// (common practice, no source).
    /// </summary>
    public const double Share = 0.7;

    /// <summary>The stations' array and, with the spares, what is left of it.</summary>
    /// <param name="context">What is judged.</param>
    /// <param name="stations">Its stations.</param>
    /// <param name="spares">Spares, and the parts that they stand in for.</param>
    public static (ArrayForecast Array, SparedArray WithSpares) Of(
        ReadinessContext context, IReadOnlyList<StationReadiness> stations, SpareBook spares)
    {
        var array = ArrayForecast.Of([], 1, 0);
        var limit = context.Profile.Value(LimitKey.DriftDb);
        var groups = new SortedDictionary<string, Sharing>(StringComparer.Ordinal);
        var alone = new Sharing();
        foreach (var station in stations)
        {
            var parts = spares.PartsOf(station.Station);
            var i = limit is null || station.Probability == 0 ? -1 : parts.FindIndex(p => IsForecast(context, p.Device));
            if (i < 0)
            {
                alone.Members.Add(new(Certain, 0, station.Probability));
                alone.Stations.Add(parts);
                continue;
            }
            var judged = CalibrationRules.Probability(context, parts[i].Device)!;
            var group = GroupOf(judged, groups, alone);
            group.Members.Add(new(judged.Forecast, judged.Drift.Series.InUseDb, Math.Min(1, station.Probability / judged.Probability)));
            group.Us.Add(judged.Drift.Series.Current.Newest.StandardUncertaintyDb);
            group.Stations.Add([.. parts.Select((p, k) => k == i ? p with { Judged = judged } : p)]);
        }
        // A spare shares with those of its laboratory and day where there are any.
        foreach (var spare in spares.Fit)
        {
            var judged = limit is not null && IsForecast(context, spare.Device) ? CalibrationRules.Probability(context, spare.Device) : null;
            var group = judged is not null && groups.GetValueOrDefault(KeyOf(judged) ?? "") is { } its ? its : alone;
            group.Spares.Add(ReferenceEquals(group, alone) ? spare : spare with { Judged = judged });
        }
        var spared = new List<SpareGroup>();
        foreach (var group in groups.Values)
        {
            var u = group.Us.Order().ElementAt(group.Us.Count / 2);
            var common = group.Members.Count > 1 ? Share * u : 0;
            array = array.And(ArrayForecast.Of(group.Members, limit!.Value, common));
            spared.Add(group.AsShared(limit.Value, common));
        }
        if (alone.Members.Count > 0) array = array.And(ArrayForecast.Of(alone.Members, limit ?? 1, 0));
        spared.Add(alone.AsShared(limit ?? 1, 0));
        return (array, ArrayWithSpares.Of(spared, context.Plan.PermittedLosses));
    }

    private static bool IsForecast(ReadinessContext context, DeviceState device) =>
        device.Kind == DeviceKind.Microphone.Key && CalibrationRules.Probability(context, device) is { Probability: > 0 };

    private static Sharing GroupOf(CalibrationRules.Judged judged, SortedDictionary<string, Sharing> groups, Sharing alone)
    {
        if (KeyOf(judged) is not { } key) return alone;
        if (!groups.TryGetValue(key, out var group)) groups[key] = group = new();
        return group;
    }

    // Null where nobody named the laboratory.
    private static string? KeyOf(CalibrationRules.Judged judged)
    {
        var newest = judged.Drift.Series.Current.Newest;
        return newest.Laboratory is null ? null : $"{newest.Laboratory}\n{newest.Day:yyyy-MM-dd}";
    }

    private static readonly LevelForecast Certain = LevelForecast.Normal(0, 1e-9);

    // Stations and spares whose microphones share a shift.
    private sealed class Sharing
    {
        public List<ArrayMember> Members { get; } = [];

        public List<double> Us { get; } = [];

        public List<List<StationPart>> Stations { get; } = [];

        public List<StationPart> Spares { get; } = [];

        public SpareGroup AsShared(double limitDb, double commonDb) => new([.. ArrayForecast.Shifts(commonDb).Select(shift =>
        {
            SparePart Given(StationPart part) => new(part.Kind, part.Judged is { } judged
                ? ArrayForecast.Within(judged.Forecast, judged.Drift.Series.InUseDb, limitDb, commonDb, shift.Z)
                : part.Holds);
            return new SpareNode(
                shift.Weight, [.. Stations.Select(s => (IReadOnlyList<SparePart>)[.. s.Select(Given)])], [.. Spares.Select(Given)]);
        })]);
    }
}

/// <summary>The array with a shift common to microphones of one laboratory and day, beside what independence would say.</summary>
/// <param name="AllHold">Probability that every station holds.</param>
/// <param name="WithLosses">The same with the losses that the plan permits.</param>
/// <param name="WithSpares">The same with those losses and the fit spares, each for its own kind and with its own probability.</param>
/// <param name="ExpectedLosses">Expected number of stations lost.</param>
/// <param name="SparesWanted">
/// Sound spares, each of the kind that is lost, that it takes with the permitted losses to hold with probability 0.95; the greater number
/// of both ways.
/// </param>
/// <param name="ShiftDb">Greatest standard uncertainty taken for a common shift, in dB.</param>
public sealed record ArrayOutlook(double AllHold, double WithLosses, double WithSpares, double ExpectedLosses, int SparesWanted, double ShiftDb)
{
    internal static ArrayOutlook Of(ArrayForecast common, double withSpares, double[] holding, int permitted)
    {
        var independent = LossCount.Distribution(holding);
        var (needed, sum) = (0, independent[0]);
        while (sum < 0.95 && needed < holding.Length) sum += independent[++needed];
        return new(
            common.AllWithin, common.AtMost(permitted), withSpares, common.MeanOutside,
            Math.Max(0, Math.Max(common.Spares(0.95), needed) - permitted), common.CommonUncertaintyDb);
    }
}

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
    /// <summary>Share of a result's standard uncertainty that is taken as common where the certificate's budget is not known (common practice, no source).</summary>
    public const double Share = 0.7;

    public static ArrayForecast Of(ReadinessContext context, IReadOnlyList<StationReadiness> stations)
    {
        var array = ArrayForecast.Of([], 1, 0);
        var limit = context.Profile.Value(LimitKey.DriftDb);
        var groups = new SortedDictionary<string, List<(ArrayMember Member, double U)>>(StringComparer.Ordinal);
        var alone = new List<ArrayMember>();
        foreach (var station in stations)
        {
            var microphone = station.Devices.Select(context.Device).FirstOrDefault(d => d.Kind == DeviceKind.Microphone.Key);
            if (limit is null || microphone is null || station.Probability == 0 || CalibrationRules.Probability(context, microphone) is not { Probability: > 0 } judged)
            {
                alone.Add(new(Certain, 0, station.Probability));
                continue;
            }
            var newest = judged.Drift.Series.Current.Newest;
            var member = new ArrayMember(judged.Forecast, judged.Drift.Series.InUseDb, Math.Min(1, station.Probability / judged.Probability));
            if (newest.Laboratory is null)
            {
                alone.Add(member);
                continue;
            }
            var key = $"{newest.Laboratory}\n{newest.Day:yyyy-MM-dd}";
            if (!groups.TryGetValue(key, out var group)) groups[key] = group = [];
            group.Add((member, newest.StandardUncertaintyDb));
        }
        foreach (var group in groups.Values)
        {
            var u = group.Select(g => g.U).Order().ElementAt(group.Count / 2);
            array = array.And(ArrayForecast.Of([.. group.Select(g => g.Member)], limit!.Value, group.Count > 1 ? Share * u : 0));
        }
        return alone.Count == 0 ? array : array.And(ArrayForecast.Of(alone, limit ?? 1, 0));
    }

    private static readonly LevelForecast Certain = LevelForecast.Normal(0, 1e-9);
}

/// <summary>The array with a shift common to microphones of one laboratory and day, beside what independence would say.</summary>
/// <param name="AllHold">Probability that every station holds.</param>
/// <param name="WithLosses">The same with the losses that the plan permits.</param>
/// <param name="WithSpares">The same with those losses and the fit spares.</param>
/// <param name="ExpectedLosses">Expected number of stations lost.</param>
/// <param name="SparesWanted">Spares that it takes, with the permitted losses, to hold with probability 0.95; the greater number of both ways.</param>
/// <param name="ShiftDb">Greatest standard uncertainty taken for a common shift, in dB.</param>
public sealed record ArrayOutlook(double AllHold, double WithLosses, double WithSpares, double ExpectedLosses, int SparesWanted, double ShiftDb)
{
    internal static ArrayOutlook Of(ArrayForecast common, double[] holding, int permitted, int spares)
    {
        var independent = LossCount.Distribution(holding);
        var (needed, sum) = (0, independent[0]);
        while (sum < 0.95 && needed < holding.Length) sum += independent[++needed];
        return new(common.AllWithin, common.AtMost(permitted), common.AtMost(permitted + spares), common.MeanOutside, Math.Max(0, Math.Max(common.Spares(0.95), needed) - permitted), common.CommonUncertaintyDb);
    }
}

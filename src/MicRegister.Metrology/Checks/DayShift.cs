using MicRegister.Metrology.Charts;

namespace MicRegister.Metrology.Checks;

/// <summary>What all channels of one day and calibrator have in common, separated from what each does alone, before any device is blamed.</summary>
/// <param name="CommonDb">Common shift in dB: the median of all deviations.</param>
/// <param name="ScatterDb">Robust standard deviation of the rest in dB: 1.4826 times the median of its magnitudes, never under <see cref="LeastScatterDb"/>.</param>
/// <param name="Limit">Multiple of it that one of all healthy channels exceeds with the probability asked for.</param>
/// <param name="OwnDb">Each channel's deviation from the common shift, in dB.</param>
public sealed record DayShift(double CommonDb, double ScatterDb, double Limit, IReadOnlyList<double> OwnDb)
{
    /// <summary>Fewer channels than this have no common shift that could be told.</summary>
    public const int LeastChannels = 5;

    /// <summary>Insertions of a calibrator repeat hardly better than this, in dB (common practice, no source).</summary>
    public const double LeastScatterDb = 0.02;

    private const double ToStandardDeviation = 1.4826;

    /// <summary>Whether a channel stands out from the others.</summary>
    public bool StandsOut(int channel) => Math.Abs(OwnDb[channel]) > Limit * ScatterDb;

    /// <summary>Separates the day's shift.</summary>
    /// <param name="deviationsDb">Deviation of each channel from its certificate or its last check, in dB.</param>
    /// <param name="falseAlarm">Probability that any of all healthy channels stands out.</param>
    /// <returns>Null where there are too few channels.</returns>
    public static DayShift? Of(IReadOnlyList<double> deviationsDb, double falseAlarm = 0.05)
    {
        if (deviationsDb.Count < LeastChannels) return null;
        var common = Median(deviationsDb);
        double[] own = [.. deviationsDb.Select(d => d - common)];
        var scatter = Math.Max(LeastScatterDb, ToStandardDeviation * Median([.. own.Select(Math.Abs)]));
        return new(common, scatter, ManyAtOnce.Multiple(deviationsDb.Count, falseAlarm), own);
    }

    private static double Median(IReadOnlyList<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;
    }
}

namespace MicRegister.Metrology.Arrays;

/// <summary>How many stations of an array are lost when each holds with a probability of its own.</summary>
public static class LossCount
{
    /// <summary>Probability that no more than a number of stations are lost.</summary>
    /// <param name="holding">Probability of each station to hold, from 0 to 1; none is an array that holds.</param>
    /// <param name="permitted">Greatest number of losses, not negative.</param>
    /// <returns>From 0 to 1. Stations are taken as independent.</returns>
    /// <exception cref="ArgumentException">A probability lies outside 0 to 1, or the number is negative.</exception>
    /// <remarks>Poisson-binomial distribution by convolution, one station after the other, in the order given.</remarks>
    public static double ProbabilityAtMost(ReadOnlySpan<double> holding, int permitted)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(permitted);
        permitted = Math.Min(permitted, holding.Length); // more cannot be lost
        var lost = new double[permitted + 1];
        lost[0] = 1;
        foreach (var p in holding)
        {
            if (p is not (>= 0 and <= 1)) throw new ArgumentException($"A probability must lie between 0 and 1; found {p}.", nameof(holding));
            for (var k = permitted; k > 0; k--) lost[k] = (lost[k] * p) + (lost[k - 1] * (1 - p));
            lost[0] *= p;
        }
        double sum = 0;
        foreach (var term in lost) sum += term;
        return Math.Min(1, sum);
    }

    /// <summary>Probability of each number of losses, from none to all.</summary>
    /// <param name="holding">Probability of each station to hold, from 0 to 1.</param>
    public static double[] Distribution(IEnumerable<double> holding)
    {
        var lost = new List<double> { 1 };
        foreach (var p in holding)
        {
            if (p is not (>= 0 and <= 1)) throw new ArgumentException($"A probability must lie between 0 and 1; found {p}.", nameof(holding));
            lost.Add(0);
            for (var k = lost.Count - 1; k > 0; k--) lost[k] = (lost[k] * p) + (lost[k - 1] * (1 - p));
            lost[0] *= p;
        }
        return [.. lost];
    }
}

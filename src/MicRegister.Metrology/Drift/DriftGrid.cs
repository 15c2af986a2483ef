namespace MicRegister.Metrology.Drift;

/// <summary>
/// The fixed grid of what a device model may be like, with its prior: walk, certificate scale and slope spread. Averaging over it
/// replaces one plugged-in estimate; a fixed grid gives the same answer every time.
/// </summary>
internal static class DriftGrid
{
    /// <summary>Walks of the grid; restless devices use the five above it as well.</summary>
    public const int Walks = 15;

    public const int AllWalks = 20;

    /// <summary>How many grid steps above its model's walk a restless device walks: 2^2.5 = 5.657 times as much.</summary>
    public const int RestlessSteps = 5;

    public const int Scales = 7;

    public const int Slopes = 6;

    public const int Nodes = Walks * Scales * Slopes;

    /// <summary>Share of devices that are restless, of any model.</summary>
    public const double RestlessShare = 0.05;

    public const double DaysPerYear = 365.25;

    /// <summary>Walk in dB per square root of a year.</summary>
    public static readonly double[] Walk = [.. Enumerable.Range(0, AllWalks).Select(j => 0.0025 * Math.Pow(2, j / 2.0))];

    /// <summary>Scatter of results as a multiple of their stated standard uncertainty.</summary>
    public static readonly double[] Scale = [0.5, 0.63, 0.8, 1, 1.25, 1.6, 2];

    /// <summary>Standard deviation of a model's slopes in dB per year.</summary>
    public static readonly double[] Slope = [0, .005, .01, .02, .03, .05];

    private static readonly double[] SlopeCell = [.0025, .005, .0075, .01, .015, .02];

    /// <summary>Logarithm of the prior mass of each node, not normalised.</summary>
    public static readonly double[] LogPrior = Prior();

    public static int Node(int walk, int scale, int slope) => (((walk * Scales) + scale) * Slopes) + slope;

    // Half-normal 0.10 in the walk, log-normal 0.3 in the scale, half-normal 0.03 in the slope spread.
    private static double[] Prior()
    {
        var prior = new double[Nodes];
        for (var w = 0; w < Walks; w++)
        {
            for (var k = 0; k < Scales; k++)
            {
                for (var s = 0; s < Slopes; s++)
                {
                    prior[Node(w, k, s)] = Math.Log(Walk[w]) - (0.5 * Square(Walk[w] / 0.10)) - (0.5 * Square(Math.Log(Scale[k]) / 0.3)) + Math.Log(SlopeCell[s]) - (0.5 * Square(Slope[s] / 0.03));
                }
            }
        }
        return prior;
    }

    private static double Square(double x) => x * x;
}

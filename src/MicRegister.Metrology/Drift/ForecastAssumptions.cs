namespace MicRegister.Metrology.Drift;

/// <summary>What a forecast takes for granted where the results themselves do not tell.</summary>
/// <param name="DefaultSlopeDbPerYear">
/// Standard deviation of the unknown drift of a device with results of one day only, in dB per year, not negative.
/// The default 0.05 dB a year is common practice, without a source.
/// </param>
public sealed record ForecastAssumptions(double DefaultSlopeDbPerYear = 0.05)
{
    public static ForecastAssumptions Default { get; } = new();
}

using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.ResponseLimits;

namespace MicRegister.Server.Api;

/// <summary>What a response says of its limits, in words for pages and the command line.</summary>
internal static class ResponseWords
{
    public static string Of(BandVerdict verdict) => verdict switch
    {
        BandVerdict.Met => "met",
        BandVerdict.Exceeded => "exceeded",
        BandVerdict.Undecided => "undecided",
        _ => "not covered",
    };

    /// <summary>The verdict of a band with its figures and why.</summary>
    public static string Of(BandLimitView b)
    {
        var by = b is { ByDb: { } db, Verdict: BandVerdict.Exceeded } ? $" by {QuantityText.Of(db, "dB", 2)} at {Hz(b.Hz)}" : "";
        return Of(b.Verdict) + by + (b.Why.Length > 0 ? ": " + b.Why : "");
    }

    /// <summary>The limits of a band.</summary>
    public static string Limits(BandLimitView b) => b.UpperDb is not { } upper
        ? "none"
        : b.LowerDb is { } lower
            ? $"{QuantityText.Signed(lower, 1)} to {QuantityText.Signed(upper, 1)} dB"
            : $"to {QuantityText.Signed(upper, 1)} dB";

    /// <summary>A frequency.</summary>
    public static string Hz(double? hz) => hz switch
    {
        null => "",
        >= 1000 => QuantityText.UpTo(hz / 1000, 3) + " kHz",
        _ => QuantityText.UpTo(hz, 2) + " Hz",
    };

    /// <summary>Shape and style of a verdict.</summary>
    public static (string Shape, string Style) Look(BandVerdict verdict) => verdict switch
    {
        BandVerdict.Met => ("●", "ready"),
        BandVerdict.Exceeded => ("■", "stops"),
        BandVerdict.Undecided => ("◇", "undecided"),
        _ => ("–", "quiet"),
    };
}

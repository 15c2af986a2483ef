using MicRegister.Metrology.Sensitivities;

namespace MicRegister.Register.Calibration;

/// <summary>A certificate's figure as a level with its standard uncertainty, whatever unit it was stated in.</summary>
/// <param name="LevelDb">dB re 1 V/Pa for a sensitivity, dB re 20 µPa for a calibrator's level,
/// plain dB for a gain or loss; kPa for a static pressure.</param>
/// <param name="StandardUncertaintyDb">u = U/k in dB, above 0; null where none was stated.</param>
/// <param name="CoverageFactor">k.</param>
/// <param name="FactorWasAssumed">Whether k was not stated and 2 was taken.</param>
public readonly record struct ResultLevel(double LevelDb, double? StandardUncertaintyDb, double CoverageFactor, bool FactorWasAssumed)
{
    /// <summary>Least standard uncertainty that is taken for one, in dB: less is a slip of the pen.</summary>
    public const double LeastUncertaintyDb = 1e-4;

    /// <summary>Units of a figure, in the order in which they are offered.</summary>
    public static IReadOnlyList<string> Units { get; } = ["mV/Pa", "V/Pa", "dB re 1 V/Pa", "dB", "kPa"];

    /// <summary>Units of an uncertainty.</summary>
    public static IReadOnlyList<string> UncertaintyUnits { get; } = ["dB", "%", "mV/Pa", "V/Pa", "kPa"];

    /// <summary>The unit of a level of a quantity: kPa for a static pressure, dB for all else.</summary>
    public static string UnitOf(string? quantity) => Devices.DeviceKind.UnitOf(quantity);

    /// <summary>Converts a figure.</summary>
    /// <returns>Null where it cannot be a level: a sensitivity that is not positive, or a unit that is not known.</returns>
    public static ResultLevel? Of(CalibrationResult result)
    {
        var level = result.Unit switch
        {
            "V/Pa" => Level(result.Value),
            "mV/Pa" => Level(result.Value / 1000),
            "dB re 1 V/Pa" or "dB" or "kPa" => result.Value,
            _ => double.NaN,
        };
        if (!double.IsFinite(level)) return null;

        var k = result.CoverageFactor ?? 2;
        var u = result.ExpandedUncertainty / k;
        double? decibels = (result.UncertaintyUnit ?? "dB") switch
        {
            "dB" => u,
            "kPa" when result.Unit == "kPa" => u,
            "mV/Pa" when result.Unit == "V/Pa" => LevelChange.UncertaintyFromRelative((u ?? double.NaN) / 1000 / result.Value),
            "V/Pa" when result.Unit == "mV/Pa" => LevelChange.UncertaintyFromRelative((u ?? double.NaN) * 1000 / result.Value),
            "mV/Pa" when result.Unit == "dB re 1 V/Pa" => LevelChange.UncertaintyFromRelative((u ?? double.NaN) / Sensitivity.FromLevel(new(result.Value)).MillivoltsPerPascal),
            "V/Pa" when result.Unit == "dB re 1 V/Pa" => LevelChange.UncertaintyFromRelative((u ?? double.NaN) / Sensitivity.FromLevel(new(result.Value)).VoltsPerPascal),
            "%" => LevelChange.UncertaintyFromRelative((u ?? double.NaN) / 100),
            var unit when unit == result.Unit => LevelChange.UncertaintyFromRelative((u ?? double.NaN) / result.Value),
            _ => null,
        };
        return new(level, decibels is > 0 && double.IsFinite(decibels.Value) ? decibels : null, k, result.CoverageFactor is null);
    }

    private static double Level(double voltsPerPascal) => voltsPerPascal > 0 ? new Sensitivity(voltsPerPascal).Level.Decibels : double.NaN;
}

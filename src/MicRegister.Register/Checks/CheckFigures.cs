using MicRegister.Metrology.Checks;

namespace MicRegister.Register.Checks;

/// <summary>Whether the figures that a check states follow from what was read.</summary>
internal static class CheckFigures
{
    /// <summary>What of a check does not follow from its own readings and terms, in words; null where all does.</summary>
    public static string? Misfit(ChainChecked check)
    {
        const double most = 1e-5;
        if (Math.Abs(check.CalibratorTerms.Sum(t => t.ValueDb) - check.CalibratorDb) > most)
            return "the calibrator's level is not the sum of its terms";
        var read = check.Readings.Average(r => check.Method == CheckMethod.Indicated
            ? ChainSensitivity.DeviationDb(r, check.CalibratorDb)
            : ChainSensitivity.LevelDb(r, check.CalibratorDb));
        var stated = check.Method == CheckMethod.Indicated ? check.IndicatedDb : check.SensitivityDb;
        if (stated is { } db && Math.Abs(db - read) > most) return "its level is not that of its readings";
        return check is { DeviationDb: { } deviation, SensitivityDb: { } level }
            && Math.Abs(level - check.ExpectedTerms.Sum(t => t.ValueDb) - deviation) > most
                ? "its deviation is not that of its level from its certificates"
                : null;
    }
}

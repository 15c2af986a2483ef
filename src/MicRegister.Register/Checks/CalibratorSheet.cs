using MicRegister.Metrology.Conformity;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>One certificate of a calibrator's level beside the one before.</summary>
/// <param name="Certificate">The certificate.</param>
/// <param name="LevelDb">Level as found, in dB re 20 µPa.</param>
/// <param name="ExpandedDb">U at k = 2, in dB; null where none was stated.</param>
/// <param name="Before">Day of the one before that compares; null where none does.</param>
/// <param name="ChangeDb">Change since then, in dB.</param>
/// <param name="Holds">Whether the change is within the limit; null where there is nothing to compare, or no limit.</param>
public sealed record CalibratorStep(DeviceCertificate Certificate, double LevelDb, double? ExpandedDb, DateOnly? Before, double? ChangeDb, bool? Holds);

/// <summary>A calibrator's levels over time, each step held against the limit of a profile.</summary>
public static class CalibratorSheet
{
    private const double SameLevelDb = 5;

    /// <summary>All levels, oldest first.</summary>
    /// <param name="calibrator">The calibrator.</param>
    /// <param name="limitDb">Greatest change allowed, such as 0.2 dB; null holds none against it.</param>
    public static IReadOnlyList<CalibratorStep> Of(DeviceState calibrator, double? limitDb)
    {
        var steps = new List<CalibratorStep>();
        foreach (var certificate in calibrator.Certificates.Where(c => !c.IsAnnulled && c.Issued.Quantity == "level").OrderBy(c => c.Day).ThenBy(c => c.Fact))
        {
            if (certificate.Found is not { } found || ResultLevel.Of(found) is not { } level) continue;
            var before = Before(calibrator, certificate, level.LevelDb);
            double? change = level.LevelDb - before?.LevelDb;
            steps.Add(new(certificate, level.LevelDb, 2 * level.StandardUncertaintyDb, before?.Day, change, change is { } c && limitDb is { } limit ? DecisionLimit.AtMost(Math.Abs(c), limit) : null));
        }
        return steps;
    }

    /// <summary>The newest earlier level that compares: a calibrator may have two levels or frequencies, so only a result of the same series and the same nominal level does.</summary>
    internal static (DateOnly Day, double LevelDb)? Before(DeviceState calibrator, DeviceCertificate newest, double nowDb)
    {
        foreach (var earlier in calibrator.Certificates.Where(r => !r.IsAnnulled && r.Day <= newest.Day && r.Fact != newest.Fact && SeriesKey.Of(r.Issued) == SeriesKey.Of(newest.Issued)).OrderByDescending(r => r.Day))
        {
            if (earlier.Day == newest.Day && earlier.Fact.CompareTo(newest.Fact) > 0) continue;
            if (earlier.InForce is { } force && ResultLevel.Of(force)?.LevelDb is { } level && Math.Abs(level - nowDb) < SameLevelDb) return (earlier.Day, level);
        }
        return null;
    }
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>A certificate that a check was worked out from, beside the one that is in force for its day by what is known now.</summary>
/// <param name="IsOfCalibrator">Whether the calibrator's level comes from it; otherwise what the chain was held against.</param>
/// <param name="Device">Id of its device; null where the register holds no such certificate of what was checked.</param>
/// <param name="UsedId">Id of the certificate that was used.</param>
/// <param name="Used">The same; null where the register does not hold it.</param>
/// <param name="UsedDb">What was taken from it, in dB.</param>
/// <param name="InForce">The certificate in force for that day; null where there is none.</param>
/// <param name="InForceDb">What it says, in dB.</param>
public sealed record CheckBasis(
    bool IsOfCalibrator, DeviceState? Device, string UsedId, DeviceCertificate? Used, double UsedDb, DeviceCertificate? InForce,
    double? InForceDb)
{
    private const double SameDb = 1e-6;
    private const string Certificate = "certificate ";

    /// <summary>By how much what is in force lies above what was used, in dB; null where nothing is in force.</summary>
    public double? DifferenceDb => InForceDb - UsedDb;

    /// <summary>Whether the check was worked out from another certificate than the one in force, which says otherwise.</summary>
    public bool IsSuperseded =>
        InForce is not null && InForce.Fact.ToString() != UsedId
        && !(DifferenceDb is { } by && Math.Abs(by) <= SameDb && Used is not null && SaysAsMuch(Used, InForce));

    // The same level is another statement with another uncertainty, or for another pressure or frequency.
    private static bool SaysAsMuch(DeviceCertificate used, DeviceCertificate now) =>
        used.Issued.StatedForKPa == now.Issued.StatedForKPa && used.Issued.FrequencyHz == now.Issued.FrequencyHz
        && used.Issued.Air == now.Issued.Air && Uncertainty(used) == Uncertainty(now);

    private static double? Uncertainty(DeviceCertificate certificate) =>
        certificate.InForce is { } result && ResultLevel.Of(result) is { StandardUncertaintyDb: { } u } ? Math.Round(u, 9) : null;

    /// <summary>What the certificate that was used states, in dB; null where the register does not hold it, or it states none.</summary>
    public double? StatedDb => Used?.InForce is { } result && Device is { } device && ResultLevel.Of(result) is { } level
        ? CalibrationSeries.AtReference(device, Used, level.LevelDb)
        : null;

    /// <summary>What a check was worked out from: the calibrator's certificate first, then those that the chain was held against.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="record">The check.</param>
    /// <param name="known">Gives a device by its id; null asks the register.</param>
    public static IReadOnlyList<CheckBasis> Of(Register register, CheckRecord record, Func<string, DeviceState?>? known = null)
    {
        known ??= id => register.Device(id);
        var bases = new List<CheckBasis>();
        if (OfCalibrator(record, known) is { } level) bases.Add(level);
        foreach (var term in record.Check.ExpectedTerms)
        {
            if (OfChain(record, term, known) is { } basis) bases.Add(basis);
        }
        return bases;
    }

    /// <summary>The certificate in force on a day for the level and frequency of another one; null where there is none.</summary>
    internal static (DeviceCertificate Certificate, double Db)? LevelInForce(
        DeviceState calibrator, DateOnly day, double nearDb, double? frequencyHz)
    {
        foreach (var (certificate, level) in CheckWork.NewestLevels(calibrator.CertifiedBy(day)))
        {
            if (CheckWork.IsSameLevel(level.LevelDb, nearDb) && CheckWork.IsSameFrequency(certificate.Issued.FrequencyHz, frequencyHz))
                return (certificate, level.LevelDb);
        }
        return null;
    }

    private static DeviceCertificate? Held(DeviceState device, string id) =>
        FactId.TryParse(id, out var fact) ? device.Certificates.FirstOrDefault(c => c.Fact == fact) : null;

    private static CheckBasis? OfCalibrator(CheckRecord record, Func<string, DeviceState?> known)
    {
        var check = record.Check;
        if (known(check.Calibrator) is not { } calibrator) return null;
        var used = Held(calibrator, check.CalibratorCertificate);
        var usedDb = check.CalibratorTerms.FirstOrDefault(t => t.Source.StartsWith(Certificate, StringComparison.Ordinal))?.ValueDb
            ?? (used?.InForce is { } result ? ResultLevel.Of(result)?.LevelDb : null) ?? check.CalibratorDb;
        var force = LevelInForce(calibrator, record.Day, usedDb, used?.Issued.FrequencyHz ?? check.Tone?.FrequencyHz);
        return new(true, calibrator, check.CalibratorCertificate, used, usedDb, force?.Certificate, force?.Db);
    }

    private static CheckBasis? OfChain(CheckRecord record, CheckTerm term, Func<string, DeviceState?> known)
    {
        if (!term.Source.StartsWith(Certificate, StringComparison.Ordinal)) return null;
        var id = term.Source[Certificate.Length..];
        foreach (var device in record.Check.Devices.Select(known).OfType<DeviceState>())
        {
            if (Held(device, id) is not { } used) continue;
            var force = CalibrationSeries.Newest(device.CertifiedBy(record.Day), used.Issued.Quantity);
            var db = force?.InForce is { } result && ResultLevel.Of(result) is { } level
                ? CalibrationSeries.AtReference(device, force, level.LevelDb)
                : (double?)null;
            return new(false, device, id, used, term.ValueDb, force, db);
        }
        return null;
    }
}

using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Drift;

/// <summary>What a new result is held against before it is stored.</summary>
public enum ExpectationBasis
{
    /// <summary>The forecast of its series, in its own standard deviations.</summary>
    Forecast,

    /// <summary>The same, though it states no U: that of the newest result stands in for it, in this question alone.</summary>
    ForecastWithoutUncertainty,

    /// <summary>A certificate of the same quantity, where the forecast says nothing of it.</summary>
    Certificate,

    /// <summary>The nominal value of the device, where it has no certificate.</summary>
    Nominal,
}

/// <summary>
/// What was to be expected of a result that is being entered, whether or not it states its uncertainty: what is far from it is asked about.
/// </summary>
/// <param name="LevelDb">Its level in dB (kPa for a static pressure), in reference conditions where they can be worked out.</param>
/// <param name="ExpectedDb">What was to be expected, in the same unit.</param>
/// <param name="LimitDb">Greatest distance, inclusive, that is not asked about.</param>
/// <param name="Basis">What it is held against.</param>
/// <param name="StandardDeviationDb">Standard deviation of the difference; null where none is known.</param>
/// <param name="Day">Day of the result that it is held against, or whose U stands in; null for a nominal value.</param>
/// <param name="AssumedExpandedDb">U with k = 2 in dB that stands in for the one that is not stated; null where none does.</param>
public sealed record EntryExpectation(
    double LevelDb, double ExpectedDb, double LimitDb, ExpectationBasis Basis, double? StandardDeviationDb, DateOnly? Day,
    double? AssumedExpandedDb)
{
    /// <summary>
    /// What a result may lie from a certificate that no forecast can be made of, in dB (kPa for a static pressure): 1 (own practice, no
    /// source; far more than a sound device moves, far less than a wrong unit makes).
    /// </summary>
    public const double FromCertificate = 1;

    /// <summary>What it may lie from a microphone's nominal sensitivity, in dB: 3 (own practice, no source).</summary>
    public const double FromNominalSensitivityDb = 3;

    public double DeviationDb => LevelDb - ExpectedDb;

    /// <summary>The difference in its own standard deviations; null where none is known.</summary>
    public double? Z => DeviationDb / StandardDeviationDb;

    /// <summary>Whether it lies near enough not to be asked about.</summary>
    public bool Fits => Math.Abs(DeviationDb) <= LimitDb;

    /// <summary>What a certificate that is not entered yet is held against.</summary>
    /// <param name="device">The device.</param>
    /// <param name="drift">What is known of its drift; null where nothing is.</param>
    /// <param name="issued">What the certificate states.</param>
    /// <param name="day">Its day.</param>
    /// <returns>Null where nothing on file tells what to expect, or it states no level.</returns>
    public static EntryExpectation? Of(DeviceState device, DeviceDrift? drift, CertificateIssued issued, DateOnly day)
    {
        if (CalibrationSeries.LevelOf(device, issued, day) is not { } level) return null;
        if (drift?.Check(issued, day) is { } check)
            return Forecast(level, check, ExpectationBasis.Forecast, drift.Series.Current.Newest.Day, null);
        if (drift is not null && WithoutUncertainty(device, drift, issued, day))
        {
            var newest = drift.Series.Current.Newest;
            return Forecast(
                level, drift.Forecast.Check(day.DayNumber, level, newest.StandardUncertaintyDb),
                ExpectationBasis.ForecastWithoutUncertainty, newest.Day, 2 * newest.StandardUncertaintyDb);
        }
        if (Nearest(device, issued, day) is { } other)
        {
            var before = CalibrationSeries.AtReference(device, other, ResultLevel.Of(other.InForce!)!.Value.LevelDb);
            return new(level, before, FromCertificate, ExpectationBasis.Certificate, null, other.Day, null);
        }
        return Nominal(device, issued.Quantity) is var (nominal, limit)
            ? new(level, nominal, limit, ExpectationBasis.Nominal, null, null, null) : null;
    }

    private static EntryExpectation Forecast(
        double level, EntryCheck check, ExpectationBasis basis, DateOnly day, double? assumed) =>
        new(level, check.ExpectedDb, EntryCheck.Limit * check.StandardDeviationDb, basis, check.StandardDeviationDb, day, assumed);

    private static bool WithoutUncertainty(DeviceState device, DeviceDrift drift, CertificateIssued issued, DateOnly day) =>
        SeriesKey.Of(issued) == drift.Series.Key && day.DayNumber >= drift.Forecast.NewestDay
            && CalibrationSeries.Stated(device, issued, day) is null;

    // Of the same series where there is one, the last before that day; a later one only where there is none.
    private static DeviceCertificate? Nearest(DeviceState device, CertificateIssued issued, DateOnly day) => device.Certificates
        .Where(c => c.Issued.Quantity == issued.Quantity && device.ReliesOn(c)
            && c.InForce is { } force && ResultLevel.Of(force) is not null)
        .OrderByDescending(c => SeriesKey.Of(c.Issued) == SeriesKey.Of(issued)).ThenByDescending(c => c.Day <= day)
        .ThenBy(c => Math.Abs(c.Day.DayNumber - day.DayNumber)).ThenByDescending(device.RankOf).ThenByDescending(c => c.Fact)
        .FirstOrDefault();

    private static (double Level, double Limit)? Nominal(DeviceState device, string quantity) => quantity switch
    {
        "sensitivity" when device.Number(DeviceField.NominalSensitivity) is { } mv =>
            (new Sensitivity(mv / 1000).Level.Decibels, FromNominalSensitivityDb),
        "level" when device.Number(DeviceField.NominalLevelDb) is { } level => (level, FromCertificate),
        "gain" when device.Number(DeviceField.GainDb) is { } gain => (gain, FromCertificate),
        _ => null,
    };
}

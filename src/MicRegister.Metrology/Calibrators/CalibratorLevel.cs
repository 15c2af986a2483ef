using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Metrology.Calibrators;

/// <summary>How a calibrator's level follows static pressure.</summary>
public enum PressureLaw
{
    /// <summary>A pistonphone: 20 lg(p / p_cert).</summary>
    Adiabatic,

    /// <summary>So many decibels a kilopascal.</summary>
    Coefficient,

    /// <summary>It holds its level by a reference of its own.</summary>
    None,
}

/// <summary>A static pressure and how it is known.</summary>
/// <param name="KPa">Static pressure at the place, in kPa, not reduced to sea level.</param>
/// <param name="StandardUncertaintyKPa">Its standard uncertainty in kPa.</param>
/// <param name="IsEstimated">Whether it was worked out from the altitude, where no barometer stood.</param>
public readonly record struct StationPressure(double KPa, double StandardUncertaintyKPa, bool IsEstimated = false)
{
    /// <summary>Weather moves static pressure around the standard atmosphere by about this much, one standard deviation, in kPa (common practice, no source).</summary>
    public const double WeatherKPa = 1.0;

    private const double HighestAboveKPa = 4;
    private const double FarthestBelowKPa = 7;

    /// <summary>A marked estimate from the altitude alone.</summary>
    /// <param name="altitudeM">Altitude in m.</param>
    /// <remarks>ISO 2533:1975.</remarks>
    public static StationPressure FromAltitude(double altitudeM) => new(StandardAtmosphere.PressureKPa(altitudeM), WeatherKPa, IsEstimated: true);

    /// <summary>Why a reading cannot be the static pressure at a site; null where it can.</summary>
    /// <param name="altitudeM">Altitude of the site in m.</param>
    /// <remarks>Weather lifts it by hardly more than 4 kPa over the standard atmosphere: what lies higher was reduced to sea level, as weather reports are.</remarks>
    public string? Doubt(double altitudeM)
    {
        var usual = StandardAtmosphere.PressureKPa(altitudeM);
        if (KPa > usual + HighestAboveKPa)
        {
            return $"{QuantityText.Of(KPa, "kPa", 1)} is too high {Usually()}: it looks reduced to sea level, as weather reports are; "
                + "read a barometer at the place";
        }
        return KPa < usual - FarthestBelowKPa ? $"{QuantityText.Of(KPa, "kPa", 1)} is too low {Usually()}" : null;

        string Usually() => FormattableString.Invariant($"for {altitudeM:0} m, where about {QuantityText.Of(usual, "kPa", 1)} stand");
    }
}

/// <summary>A correction that the user's own data state, such as load volume or the difference of pressure and free field.</summary>
/// <param name="Name">What it is.</param>
/// <param name="CorrectionDb">Correction to the level in dB.</param>
/// <param name="StandardUncertaintyDb">Its standard uncertainty in dB.</param>
public sealed record StatedCorrection(string Name, double CorrectionDb, double StandardUncertaintyDb);

/// <summary>One term of a level, as it is shown.</summary>
/// <param name="Name">What it is.</param>
/// <param name="ValueDb">Its part in dB: the certificate's level, or a correction.</param>
/// <param name="StandardUncertaintyDb">Its part of the uncertainty in dB.</param>
/// <param name="Remark">What was assumed; empty where nothing was.</param>
public sealed record LevelTerm(string Name, double ValueDb, double StandardUncertaintyDb, string Remark = "");

/// <summary>The level that a calibrator gives at the place of use, term by term.</summary>
/// <param name="Terms">Certificate first.</param>
/// <param name="Budget">Its uncertainty; the certificate and the barometer are sources that other results share.</param>
public sealed record CalibratorLevel(IReadOnlyList<LevelTerm> Terms, UncertaintyBudget Budget)
{
    /// <summary>Static pressure that a certificate's level is stated for where it does not say, in kPa.</summary>
    public const double UsualKPa = 101.325;

    private const double DecibelsPerNeper = 8.685889638065035; // 20 / ln 10

    /// <summary>Level in dB re 20 µPa.</summary>
    public double LevelDb => Terms.Sum(t => t.ValueDb);

    /// <summary>Works out the level.</summary>
    /// <param name="certifiedDb">Level that the certificate states, in dB re 20 µPa.</param>
    /// <param name="certifiedUncertaintyDb">Its standard uncertainty in dB.</param>
    /// <param name="certificate">What the certificate is, as a source of uncertainty.</param>
    /// <param name="certifiedKPa">Static pressure that it is stated for, in kPa; null takes 101.325 and says so.</param>
    /// <param name="law">How the level follows static pressure.</param>
    /// <param name="coefficientDbPerKPa">dB a kPa, for <see cref="PressureLaw.Coefficient"/>.</param>
    /// <param name="pressure">Static pressure at the place; null where it was not read, which only a calibrator without a law allows.</param>
    /// <param name="stated">Corrections from the user's own data: load volume, field, temperature. None is built in.</param>
    /// <exception cref="ArgumentException">The law needs a pressure that is not there, or a figure is out of range.</exception>
    public static CalibratorLevel Of(
        double certifiedDb, double certifiedUncertaintyDb, string certificate, double? certifiedKPa, PressureLaw law, double coefficientDbPerKPa, StationPressure? pressure, params IReadOnlyList<StatedCorrection> stated)
    {
        if (!double.IsFinite(certifiedDb)) throw new ArgumentException($"The certificate's level '{certifiedDb}' is no number.");
        var terms = new List<LevelTerm> { new("certificate", certifiedDb, certifiedUncertaintyDb) };
        var components = new List<UncertaintyComponent> { new("certificate", certificate, certifiedUncertaintyDb) };
        if (law != PressureLaw.None)
        {
            if (pressure is not { } p) throw new ArgumentException("This calibrator's level follows static pressure: read it at the place.");
            var reference = certifiedKPa ?? UsualKPa;
            var (correction, slope) = law == PressureLaw.Adiabatic
                ? (Pistonphone.PressureCorrection(p.KPa, reference).Decibels, DecibelsPerNeper / p.KPa)
                : (coefficientDbPerKPa * (p.KPa - reference), coefficientDbPerKPa);
            var remarks = new[] { certifiedKPa is null ? "the certificate does not say for which pressure; 101.325 kPa is taken" : "", p.IsEstimated ? "estimated from the altitude, no barometer was read" : "" };
            terms.Add(new("static pressure", correction, Math.Abs(slope) * p.StandardUncertaintyKPa, string.Join("; ", remarks.Where(r => r.Length > 0))));
            components.Add(new("static pressure", p.IsEstimated ? "altitude" : "barometer", p.StandardUncertaintyKPa, slope));
        }
        foreach (var s in stated)
        {
            terms.Add(new(s.Name, s.CorrectionDb, s.StandardUncertaintyDb));
            components.Add(new(s.Name, s.Name, s.StandardUncertaintyDb));
        }
        return new(terms, new(components));
    }
}

using MicRegister.Metrology.Classes;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>A calibrator's newest certificate of its level, held against the limits of its class and edition.</summary>
public static class CalibratorLimitSheet
{
    // Two levels or two frequencies of one calibrator lie further apart (common practice, no source).
    private const double OtherLevelDb = 5;
    private const double OtherFrequency = 0.05;
    private const double ReferenceKPa = 101.325;
    private const double SamePressureKPa = 0.05;

    /// <summary>One line a quantity: level, frequency, distortion, fluctuation.</summary>
    /// <param name="calibrator">The calibrator.</param>
    /// <returns>
    /// Nothing of other kinds, and of a calibrator without a class or a certificate. One line that says why, where no limit can be told:
    /// the edition is not stated, or there are no figures of it.
    /// </returns>
    public static IReadOnlyList<ClassLimitLine> Of(DeviceState calibrator)
    {
        if (calibrator.Kind != DeviceKind.Calibrator.Key || CalibrationSeries.Newest(calibrator, "level") is not { } certificate) return [];
        if (InstrumentClasses.Of(calibrator, DeviceField.CalibratorClass, out var wrong) is not { } stated)
            return wrong is null ? [] : [ClassLimitLine.Open("class", $"its class is not one that is known: {wrong}.")];
        if (stated.Edition is not { } edition)
        {
            return
            [
                ClassLimitLine.Open("class", $"{stated.Text}: limits differ from edition to edition, so that none is held against it."),
            ];
        }
        if (!CalibratorLimit.Known.Contains(edition.Year))
            return [ClassLimitLine.Open("class", $"the limits of {edition.Text} are not known here, so that none is held against it.")];
        var nominal = calibrator.Number(DeviceField.FrequencyHz);
        var issued = certificate.Issued;
        // A calibrator of several frequencies: the certificate's own is the one that was set.
        var hz = nominal is { } n && (issued.FrequencyHz is not { } at || Math.Abs((at / n) - 1) <= OtherFrequency)
            ? n
            : issued.FrequencyHz;
        if (hz is not { } set) return [ClassLimitLine.Open("class", "its nominal frequency is not known, and limits depend on it.")];
        ClassLimitLine Judged(string quantity, string what, double? deviation, double? expanded, string missing)
        {
            if (deviation is not { } d) return ClassLimitLine.Open(quantity, missing);
            if (CalibratorLimit.Find(edition.Year, quantity, stated.Name, set) is not { } limit)
                return ClassLimitLine.Open(quantity, FormattableString.Invariant(
                    $"no limit of {stated.Text} for its {quantity} at {set:0.###} Hz is known here."));
            return ClassLimitLine.Of(certificate, stated, limit, what, d, expanded);
        }

        var tone = issued.Tone;
        var (level, levelU, levelMissing) = Level(calibrator, certificate);
        var (measured, measuredU) = (tone?.FrequencyHz, tone?.FrequencyExpandedPercent);
        if (measured is null && issued.FrequencyHz is { } said && said != set) measured = said;
        return
        [
            Judged("level", "its level deviates from the nominal one by", level, levelU, levelMissing),
            Judged("frequency", "its frequency deviates from the nominal one by", ((measured / set) - 1) * 100, measuredU,
                "the certificate states no measured frequency."),
            Judged("distortion", "its distortion is", tone?.DistortionPercent, tone?.DistortionExpandedPercent,
                "the certificate states no distortion."),
            Judged("fluctuation", "its level fluctuates by", tone?.FluctuationDb, null,
                "the certificate states no fluctuation of the level."),
        ];
    }

    // The deviation in force: as left where it was adjusted.
    private static (double? Db, double? ExpandedDb, string Missing) Level(DeviceState calibrator, DeviceCertificate certificate)
    {
        if (certificate.InForce is not { } result || ResultLevel.Of(result) is not { } level)
            return (null, null, "no level can be read from it.");
        if (calibrator.Number(DeviceField.NominalLevelDb) is not { } nominal) return (null, null, "its nominal level is not known.");
        if (Math.Abs(level.LevelDb - nominal) > OtherLevelDb)
            return (null, null, "the certificate is of another setting than its nominal level.");
        if (certificate.Issued.StatedForKPa is { } kPa && Math.Abs(kPa - ReferenceKPa) > SamePressureKPa
            && calibrator.Text(DeviceField.PressureLaw) != "none")
            return (null, null, FormattableString.Invariant($"its level is stated for {kPa} kPa, and limits hold for {ReferenceKPa} kPa."));
        return (level.LevelDb - nominal, 2 * level.StandardUncertaintyDb, "");
    }
}

/// <summary>One quantity of a certificate beside the limit of a class.</summary>
/// <param name="Quantity">level, frequency, distortion or fluctuation; class where none can be judged.</param>
/// <param name="Verdict">Whether it keeps the limit.</param>
/// <param name="Text">All of it in a sentence, with the mark of the limit.</param>
/// <param name="Deviation">Deviation, or the figure itself, in the limit's unit; null where it was not judged.</param>
/// <param name="Expanded">Expanded uncertainty (k = 2) in that unit; null where none was stated.</param>
/// <param name="Limit">The limit; null where there is none.</param>
/// <param name="Certificate">Id of the certificate; null where it was not judged.</param>
public sealed record ClassLimitLine(
    string Quantity, ClassLimitVerdict Verdict, string Text, double? Deviation, double? Expanded, CalibratorLimit? Limit,
    FactId? Certificate)
{
    /// <summary>Whether it lies within the limit and was measured too coarsely to say that the class is kept.</summary>
    public bool IsTooUncertain => Verdict == ClassLimitVerdict.NotShown && Expanded is not null;

    internal static ClassLimitLine Open(string quantity, string why) =>
        new(quantity, ClassLimitVerdict.NotJudged, why, null, null, null, null);

    internal static ClassLimitLine Of(
        DeviceCertificate certificate, StatedClass stated, CalibratorLimit limit, string what, double deviation, double? expanded)
    {
        var verdict = limit.Judge(deviation, expanded) switch
        {
            LimitVerdict.Conforms => ClassLimitVerdict.Conforms,
            LimitVerdict.Exceeds => ClassLimitVerdict.Exceeds,
            _ => ClassLimitVerdict.NotShown,
        };
        var isSigned = limit.Quantity is "level" or "frequency";
        var figure = isSigned ? QuantityText.Change(deviation, limit.Unit, 2) : QuantityText.Of(deviation, limit.Unit, 2);
        var u = expanded is { } e ? $" with U = {QuantityText.Of(e, limit.Unit, 2)}" : "";
        var allowed = $"{stated.Text} allows {QuantityText.Of(limit.Limit, limit.Unit, 2)}"
            + (limit.HoldsUncertainty ? ", U included" : limit.GreatestExpanded is { } most
                ? $" with U of at most {QuantityText.Of(most, limit.Unit, 2)}" : "");
        var then = verdict switch
        {
            ClassLimitVerdict.Conforms => "it keeps that",
            ClassLimitVerdict.Exceeds => "it does not keep that",
            _ when expanded is null => "U is not stated, so that nothing is shown",
            _ => "U is too large for it to be shown",
        };
        return new(
            limit.Quantity, verdict,
            FormattableString.Invariant($"by the certificate of {certificate.Day:yyyy-MM-dd} {what} {figure}{u}; ")
                + $"{allowed}: {then} (limits {limit.Mark}).",
            deviation, expanded, limit, certificate.Fact);
    }
}

/// <summary>Whether a quantity keeps the limit of a class.</summary>
public enum ClassLimitVerdict
{
    Conforms,

    /// <summary>Within the limit, but too uncertain to say so.</summary>
    NotShown,

    Exceeds,

    /// <summary>No limit, or nothing to hold against it.</summary>
    NotJudged,
}

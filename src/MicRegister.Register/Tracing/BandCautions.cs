using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;

namespace MicRegister.Register.Tracing;

/// <summary>Everything that must be known of corrections by band, in the order in which people read it.</summary>
internal static class BandCautions
{
    public static IReadOnlyList<BandCaution> All { get; } =
    [
        new("mount", "What must be known of the mount and of the air?", OfMount),
        new("reference-unknown", "Is it stated at which frequency the sensitivity holds?", ReferenceUnknown),
        new("curve-unusable", "Can each curve be read, and does it reach that frequency?", CurveUnusable),
        new("no-response", "Is there a response of each microphone as it stood?", NoResponse),
        new("no-insertion-loss", "Is there a curve of each windscreen?", NoInsertionLoss),
        new("no-angle", "Is it stated where the sound came from?", NoAngle),
        new("one-angle", "Where it is not, is there a curve of another direction?", OneAngle),
        new("no-uncertainty", "Does each curve state an uncertainty?", NoUncertainty),
        new("open-bands", "Does each curve reach each band?", OpenBands),
        new("outside-mount", "Does the mount keep its normalisation in each band?", OutsideMount),
    ];

    /// <summary>What all of them say.</summary>
    public static IReadOnlyList<string> Ask(BandContext context) => [.. All.SelectMany(c => c.Ask(context))];

    private static IEnumerable<string> OfMount(BandContext c) => c.Applied.Caution is { } caution ? [caution] : [];

    private static IEnumerable<string> ReferenceUnknown(BandContext c)
    {
        if (c.Applied.ReferenceHz is not null || c.Station.Curves.All(k => k.Acts != CurveActs.Response)) return [];
        return [FormattableString.Invariant(
            $"Nothing states the frequency of the sensitivity; responses are taken relative to {BandCorrections.UsualHz} Hz.")];
    }

    private static IEnumerable<string> CurveUnusable(BandContext c)
    {
        foreach (var r in c.Responses)
        {
            if (r.Unread is { } unread)
            {
                yield return $"The curve of {r.Device.Name} of {unread.Certificate.Day:yyyy-MM-dd} is not here or holds no figures: "
                    + "its bands stay open.";
            }
            if (r.MissesReference)
            {
                yield return FormattableString.Invariant($"The curve of {r.Device.Name} does not reach {c.ReferenceHz:0.##} Hz, ")
                    + "where its sensitivity holds: it is taken as it stands.";
            }
        }
    }

    private static IEnumerable<string> NoResponse(BandContext c)
    {
        foreach (var device in c.MicrophonesWithoutCurve)
        {
            var curves = device.Certificates.Where(k => !k.IsAnnulled && k.Day <= c.Station.Day && k.Issued.Curve is not null).ToList();
            bool Fits(DeviceCertificate k) => ActingCurve.Fits(k.Issued.Field, c.Station.Plan?.Mount);
            var others = curves.Where(k => !Fits(k)).Select(k => k.Issued.Field).Distinct(StringComparer.Ordinal).ToList();
            if (curves.Exists(k => Fits(k) && k.Set.Count > 1))
                yield return $"The response of {device.Name} was measured in a set that did not stand together: it is taken as flat.";
            else if (others.Count > 0)
                yield return $"{device.Name} has a response in {string.Join(" and ", others)} alone, which is not how it stood: "
                    + "it is taken as flat.";
            else
                yield return $"No response of {device.Name} is on record: it is taken as flat.";
        }
    }

    private static IEnumerable<string> NoInsertionLoss(BandContext c)
    {
        foreach (var screen in c.ScreensWithoutCurve)
        {
            yield return c.GreatestLoss(screen) is var (db, _)
                ? $"Of {screen.Name} no curve is on record: nothing is corrected, and its greatest insertion loss of "
                    + $"{QuantityText.Of(db, "dB", 2)} is part of the uncertainty."
                : $"No insertion loss of {screen.Name} is on record: nothing is corrected.";
        }
    }

    private static IEnumerable<string> NoAngle(BandContext c)
    {
        if (c.AngleDeg is null && c.Responses.Any(r => r.Response?.Angles.Count > 1))
        {
            yield return "No angle of incidence is stated: the middle of all curves is taken, "
                + "and what lies between them is part of the uncertainty.";
        }
    }

    private static IEnumerable<string> OneAngle(BandContext c)
    {
        if (c.AngleDeg is not null) yield break;
        foreach (var (device, angles) in c.Responses.Select(r => (r.Device, r.Response?.Angles)))
        {
            if (angles is not { Count: 1 }) continue;
            yield return FormattableString.Invariant(
                $"No angle of incidence is stated: the curve of {device.Name} holds for {angles[0]:0.#}°, ")
                + "and what another direction makes of it is not part of the uncertainty.";
        }
    }

    private static IEnumerable<string> NoUncertainty(BandContext c) => c.Bands.SelectMany(b => b.Terms).Where(t => t.Remark is not null)
        .Select(t => t.Name).Distinct(StringComparer.Ordinal)
        .Select(n => $"The {n} is stated without an uncertainty, at least in some bands: there it counts as exact.");

    private static IEnumerable<string> OpenBands(BandContext c)
    {
        // Where a curve cannot be read that was said already.
        if (c.Bands.Any(b => b.TotalDb is null) && c.Responses.All(r => r.Response is not null))
        {
            yield return "Bands without a sum lie outside of what the curves hold, "
                + "in frequency or by more than 30° from all of their angles (own practice, no source).";
        }
    }

    private static IEnumerable<string> OutsideMount(BandContext c)
    {
        if (c.Bands.Any(b => !b.IsWithinMount)) yield return "In bands that are marked the mount does not keep its normalisation.";
    }
}

/// <param name="Key">Stable key of the caution.</param>
/// <param name="Title">What it asks.</param>
/// <param name="Ask">A pure function that gives what must be known.</param>
internal sealed record BandCaution(string Key, string Title, Func<BandContext, IEnumerable<string>> Ask);

using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>
/// What the stored response curves of a device say of printed limits: the one answer for page, API, command, plan and trace.
/// </summary>
/// <param name="Table">Stored words of the limits, with their edition.</param>
/// <param name="Source">Document, edition and clause of the limits.</param>
/// <param name="Mark">How sure it is that the limits are the document's.</param>
/// <param name="About">What must be known of any curve that is held against them; empty where nothing.</param>
/// <param name="Certificates">Certificates whose curves were judged, the deciding one first; empty where none is stored.</param>
/// <param name="ReferenceHz">Frequency in Hz that deviations are relative to; null for limits by angle.</param>
/// <param name="Curve">The curve that was judged, as it is stored; null where there is none, and for limits by angle.</param>
/// <param name="Bands">What it comes to, band by band; empty where nothing can be judged.</param>
/// <param name="Remarks">What was assumed or must be known; empty where nothing.</param>
/// <param name="Open">Why nothing can be judged, as the end of a sentence; null where something is.</param>
public sealed record ResponseConformity(
    string Table, string Source, string Mark, string About, IReadOnlyList<DeviceCertificate> Certificates, double? ReferenceHz,
    ResponseCurve? Curve, IReadOnlyList<BandJudgement> Bands, IReadOnlyList<string> Remarks, string? Open)
{
    /// <summary>Frequency that a curve is relative to where its certificate states none: 250 Hz (common practice, no source).</summary>
    public const double UsualHz = 250;

    private const double GrazingDeg = 90;

    /// <summary>Whether a device is of a kind whose response is held against limits.</summary>
    public static bool IsJudged(DeviceState device) =>
        device.Kind == DeviceKind.Microphone.Key || (device.Kind == DeviceKind.General.Key && StatedTable(device) is not null);

    /// <summary>Whether printed limits of responses can be said of devices of its kind, where somebody names them.</summary>
    public static bool IsCovered(DeviceState device) => Uncovered(device) is null;

    /// <summary>The table that a device states it is judged by; null where it states none that is held here.</summary>
    public static ResponseTable? StatedTable(DeviceState device) => ResponseTable.Find(device.Text(DeviceField.ResponseClass));

    /// <summary>Judges a device's response over frequency.</summary>
    /// <param name="device">The device; what was certified later than a day of interest is left out by the caller.</param>
    /// <param name="read">Reads its curves.</param>
    /// <param name="table">The limits.</param>
    /// <param name="certificate">The certificate to judge; null takes the newest whose curve suits.</param>
    public static ResponseConformity OverFrequency(
        DeviceState device, CurveReader read, ResponseTable table, DeviceCertificate? certificate = null)
    {
        var wanted = table.Field ?? device.Text(DeviceField.ResponseType);
        var stored = WithCurves(device).ToList();
        var chosen = certificate ?? stored.Find(c => wanted is null || c.Issued.Field is null || c.Issued.Field == wanted)
            ?? (stored.Count > 0 ? stored[0] : null);
        var none = new ResponseConformity(
            table.Key, table.Source, table.Mark, table.About, [], null, null, [], [], Uncovered(device) ?? "no response curve is stored");
        if (!IsCovered(device)) return none;
        if (chosen?.Issued.Curve is not { } sha) return none;
        var reference = chosen.Issued.FrequencyHz ?? UsualHz;
        none = none with { Certificates = [chosen], ReferenceHz = reference };
        if (read(sha) is not { } curves)
            return none with { Open = "its response curve is not here yet, or is no table of frequency and level that is clear without an answer" };
        // Sound comes in along the axis of a free-field type, and along the diaphragm of a pressure type in the open.
        var isGrazing = table.Field == FieldDifference.FreeField && device.Text(DeviceField.ResponseType) == FieldDifference.Pressure;
        var direction = isGrazing ? GrazingDeg : 0;
        var angles = curves.Select(c => c.AngleDeg ?? chosen.Issued.AngleDeg).ToList();
        var at = angles.FindIndex(a => a is null || a == direction);
        if (at < 0)
        {
            return none with
            {
                Curve = curves[0].Curve,
                Open = FormattableString.Invariant($"its curves are not of {direction}°, the direction that the limits hold for"),
            };
        }
        var bands = ResponseJudge.OverFrequency(curves[at].Curve, reference, table);
        var field = chosen.Issued.Field;
        var isOther = wanted is not null && field is not null && field != wanted;
        return none with
        {
            Curve = curves[at].Curve,
            Bands = isOther ? [.. bands.Select(b => OtherField(b, wanted!, field!, isGrazing))] : bands,
            Remarks =
            [
                .. Remarked(device, chosen, wanted, isGrazing && angles[at] is null),
                .. isOther ? Generic(wanted!, field!) : [],
            ],
            Open = null,
        };
    }

    /// <summary>Judges how a device's response differs with the angle of incidence.</summary>
    /// <param name="device">The device.</param>
    /// <param name="read">Reads its curves.</param>
    /// <param name="table">The limits.</param>
    /// <remarks>The newest curve of each angle counts; one that holds for every direction says nothing of angles.</remarks>
    public static ResponseConformity OverAngle(DeviceState device, CurveReader read, AngleTable table)
    {
        if (Uncovered(device) is { } uncovered) return new(table.Key, table.Source, table.Mark, "", [], null, null, [], [], uncovered);
        var found = new List<(double AngleDeg, ResponseCurve Curve)>();
        var from = new List<DeviceCertificate>();
        foreach (var c in WithCurves(device).Where(c => c.Issued.Field is null or FieldDifference.FreeField))
        {
            foreach (var (own, curve) in read(c.Issued.Curve!) ?? [])
            {
                var angle = own ?? c.Issued.AngleDeg ?? (c.Issued.Field == FieldDifference.FreeField ? 0 : null);
                if (angle is not (>= 0 and <= 180) || found.Exists(f => f.AngleDeg == angle)) continue;
                found.Add((angle.Value, curve));
                if (!from.Contains(c)) from.Add(c);
            }
        }
        var several = from.Count > 1
            ? "The curves of its angles are from several certificates; their levels are compared as they are stated."
            : "";
        var bands = ResponseJudge.OverAngle(found, table);
        return new(
            table.Key, table.Source, table.Mark, "", from, null, null, bands, several.Length > 0 ? [several] : [],
            bands.Count > 0 ? null : "no curves by angle are stored");
    }

    // The newest first, as traces take them.
    private static IEnumerable<DeviceCertificate> WithCurves(DeviceState device) => device.Certificates
        .Where(c => c.Issued is { Curve: not null, Quantity: "response" or "sensitivity" } && device.ReliesOn(c))
        .OrderByDescending(c => c.Day).ThenByDescending(device.RankOf).ThenByDescending(c => c.Fact);

    // What was measured in another field decides nothing, however good the level is; however bad it is, only where no difference of fields
    // could bring it back. An uncertainty that is not stated is taken care of by the bound, which is generous.
    private static BandJudgement OtherField(BandJudgement band, string wanted, string stored, bool isAlong)
    {
        if (band.Step is null || band.Point is null) return band;
        var generic = FieldDifference.Of(wanted, stored, band.Band) is { } db
            ? $", in general {QuantityText.Change(db, "dB", 2)} away"
            : "";
        var why = $"measured as {stored}, wanted as {wanted}{generic}";
        if (band.Verdict == BandVerdict.Exceeded && FieldDifference.BoundDb(band.Band, isAlong) is { } bound
            && band.ByDb - bound - (band.Point.Value.ExpandedDb ?? 0) is > 0)
        {
            return band with
            {
                ByDb = band.ByDb - bound,
                Why = $"{why}; fields never differ by more than {QuantityText.Of(bound, "dB", 0)} (own practice), which is taken off",
            };
        }
        return band with { Verdict = BandVerdict.Undecided, ByDb = null, Why = why };
    }

    // A table of microphones says nothing of what is none, however its curve looks.
    private static string? Uncovered(DeviceState device) =>
        device.Kind == DeviceKind.Microphone.Key || device.Kind == DeviceKind.ReferenceMicrophone.Key
            || device.Kind == DeviceKind.General.Key
            ? null
            : $"no table of limits covers devices of the kind '{DeviceKind.Find(device.Kind)?.Label ?? device.Kind}'";

    private static IEnumerable<string> Generic(string wanted, string stored)
    {
        var greatest = FieldDifference.Bands.MaxBy(b => Math.Abs(FieldDifference.Of(wanted, stored, b) ?? 0));
        yield return $"Only its {stored} response is stored; the limits are of the {wanted} response. By {FieldDifference.Source} both differ "
            + $"for half-inch microphones in general by {General(wanted, stored, new(6))} at 4 kHz, "
            + $"{General(wanted, stored, new(10))} at 10 kHz, {General(wanted, stored, greatest)} "
            + $"at {QuantityText.UpTo(greatest.NominalHz / 1000, 2)} kHz ({FieldDifference.Mark}). "
            + "That table is generic and never stands in for the one of the microphone's own type. "
            + "Only what lies outside by more than fields can differ at all (12 dB, own practice) is said to be beyond the limits.";
    }

    private static string General(string wanted, string stored, ThirdOctave band) =>
        QuantityText.Change(FieldDifference.Of(wanted, stored, band), "dB", 2);

    private static IEnumerable<string> Remarked(
        DeviceState device, DeviceCertificate certificate, string? wanted, bool isDirectionTaken)
    {
        if (certificate.Issued.FrequencyHz is null)
            yield return "The certificate states no frequency that its curve is relative to; 250 Hz are taken.";
        if (wanted is null)
            yield return $"The response type of {device.Name} is not known; the curve is judged in the field that it was measured in.";
        else if (certificate.Issued.Field is null)
            yield return $"The certificate does not name its sound field; it is taken for {wanted}.";
        if (isDirectionTaken)
            yield return "The certificate does not name a direction; it is taken for grazing incidence, which a pressure type stands in.";
        if (certificate.Set.Count > 1) yield return "The curve was measured with other devices as a set.";
    }
}

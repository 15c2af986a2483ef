using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Api;

/// <summary>Traces in words.</summary>
internal static class TraceWords
{
    /// <summary>What applies, as one reads it aloud.</summary>
    public static string Sentence(StationTrace s)
    {
        if (s.Placement is null) return s.Reasons.Count > 0 ? s.Reasons[0].Text : "Nothing stood there.";
        var chain = string.Join(", ", s.Chain.Select(d => d.Name));
        if (s.Applied is not { } a) return $"{chain} stood there; no sensitivity is known.";
        var fullScale = a.FullScaleDb is { } fs ? $", {QuantityText.Of(fs, "dB", 3)} re 1 FS/Pa" : "";
        return $"{chain} stood there. Apply {QuantityText.Of(a.VoltsPerPascal * 1000, "mV/Pa", 3)} "
            + $"({QuantityText.Of(a.VoltsDb, "dB", 3)} re 1 V/Pa{fullScale}), U = {QuantityText.Expanded(a.ExpandedDb, "dB")} dB "
            + FormattableString.Invariant($"in V/Pa (k = {a.CoverageFactor:0.00}{Parts(a)}){FullScale(a)}, by {a.Rule.InWords}; ")
            + $"{QuantityText.Change(a.NormalisationDb, "dB", 2)} to the free field, {Band(a)}"
            + (a.Caution is null ? "" : ". " + a.Caution)
            + (a.UncertaintyNote is null ? "" : ". " + a.UncertaintyNote);
    }

    // The channel's gain stands between both units, so that it counts in the one or the other.
    private static string FullScale(AppliedSensitivity a) => a.InFullScale is { } known
        ? $" and {QuantityText.Expanded(known.ExpandedDb, "dB")} dB in FS/Pa" + (known.CoverageFactor == a.CoverageFactor
            ? ""
            : FormattableString.Invariant($" (k = {known.CoverageFactor:0.00})"))
        : "";

    // Apart only where both contribute.
    private static string Parts(AppliedSensitivity a) =>
        a.Part(UncertaintyPart.MountAndDirection) is { StandardDb: > 0, ExpandedDb: var mount }
            ? $": {QuantityText.Expanded(a.Part(UncertaintyPart.Sensitivity).ExpandedDb, "dB")} dB of the sensitivity, "
                + $"{QuantityText.Expanded(mount, "dB")} dB of mount and direction"
            : "";

    public static string Band(AppliedSensitivity a) => double.IsFinite(a.UsableToHz)
        ? FormattableString.Invariant($"usable from {a.UsableFromHz:0} Hz to {a.UsableToHz:0} Hz")
        : FormattableString.Invariant($"usable from {a.UsableFromHz:0} Hz");

    public static string Of(TraceLink link)
    {
        if (link.Certificate is not { } certificate) return $"{link.Device.Name}: no certificate";
        var unit = ResultLevel.UnitOf(certificate.Issued.Quantity);
        var result = certificate.InForce is { } r && ResultLevel.Of(r) is { } level
            ? $" {QuantityText.Of(level.LevelDb, unit, 3)}"
                + (level.StandardUncertaintyDb is { } u ? $", u {QuantityText.Of(u, unit, 3)}" : "")
            : "";
        var laboratory = certificate.Issued.Laboratory is { } lab ? " by " + lab : "";
        var restsOn = link.RestsOn is { } on ? "; rests on " + on : "";
        var superseded = link is { InForce: { } force, DifferenceDb: { } by }
            ? $"; in force now is that of {force.Day:yyyy-MM-dd}, {QuantityText.Change(by, "dB", 3)}"
            : "";
        return $"{link.Device.Name}: certificate of {certificate.Day:yyyy-MM-dd}{laboratory}{result}{restsOn}{superseded}";
    }

    /// <summary>Evidence of a comparison in place, in words.</summary>
    public static string Of(InPlaceEvidence k)
    {
        var instant = DateTimeOffset.FromUnixTimeMilliseconds(k.Instant);
        return FormattableString.Invariant($"Compared in place with {k.Chains - 1} others on {instant:yyyy-MM-dd HH:mm} UTC: ")
            + $"{QuantityText.Change(k.MovedDb, "dB", 2)} {(k.Since is null ? "from them" : "against them since the comparison before")}, "
            + $"U = {QuantityText.Expanded(k.ExpandedDb, "dB")} dB"
            + (k.LimitDb is { } limit ? $", {QuantityText.UpTo(limit, 3)} dB allowed" : "")
            + " (weaker evidence than a check)";
    }

    /// <summary>The direction that sound came from, in words.</summary>
    public static string Of(StatedIncidence? incidence)
    {
        if (incidence is not { Said: var said }) return "Nobody stated the angle of incidence.";
        var halfWidth = said.HalfWidthDeg is { } half ? FormattableString.Invariant($" ± {half:0.#}°") : "";
        var statedFor = (incidence.IsOfEvent ? "this event" : "the campaign") + (said.Station is null ? "" : ", this station");
        return FormattableString.Invariant(
            $"Angle of incidence {said.AngleDeg:0.#}°{halfWidth} ({said.Reason}; stated for {statedFor})");
    }

    public static string Kind(DeviceState device) => DeviceKind.Find(device.Kind)?.Label ?? "Device";
}

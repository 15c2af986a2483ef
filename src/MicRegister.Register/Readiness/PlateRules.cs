using MicRegister.Metrology.Conformity;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether the ground plates are as they must be, and alike.</summary>
internal static class PlateRules
{
    public static IEnumerable<Fault> PlateInspected(StandingDevice s)
    {
        if (s.Device.Kind != DeviceKind.GroundPlate.Key || s.Profile?.Value(LimitKey.PlateInspectionMonths) is not { } months) yield break;
        var plate = s.Device;
        if (plate.Inspections.IsEmpty)
        {
            yield return new(Gravity.Risks, plate, Clearing.Inspect, $"{plate.Name} was never inspected.");
            yield break;
        }
        var last = plate.Inspections[^1];
        var due = DueDay.AfterMonths(last.Day, (int)Math.Clamp(months, 0, 1200));
        if (!last.What.Passed)
        {
            var why = last.What.Text is { } text ? ": " + text : "";
            yield return new(Gravity.Stops, plate, Clearing.Inspect, $"{plate.Name} failed its inspection of {last.Day:yyyy-MM-dd}{why}.")
            {
                Basis = $"fact {last.Fact}",
            };
        }
        else if (due < s.Last)
        {
            yield return new(Gravity.Risks, plate, Clearing.Inspect,
                $"{plate.Name}: its inspection of {last.Day:yyyy-MM-dd} is valid through {due:yyyy-MM-dd}.")
            {
                From = due.AddDays(1),
                Basis = $"fact {last.Fact}",
            };
        }
    }

    public static IEnumerable<Fault> PlateGeometry(StandingChain s)
    {
        if (!s.Parts.IsOnPlate) yield break;
        var mount = s.Parts.Plan.Mount;
        // What was measured when it was placed stands for itself, with or without a plate that somebody scanned.
        if (mount == Mount.InvertedPlate && (s.MeasuredGapMm ?? s.Parts.Plate?.Inspections.LastOrDefault()?.What.GapMm) is { } gap
            && s.Profile.Value(LimitKey.GapMm) is { } wanted && s.Profile.Value(LimitKey.GapToleranceMm) is { } tolerance
            && !DecisionLimit.AtMost(Math.Abs(gap - wanted), tolerance))
        {
            var name = s.Parts.Plate?.Name ?? $"Station {s.Parts.Station}";
            yield return new(Gravity.Stops, s.Parts.Plate, Clearing.Inspect,
                $"{name} leaves a gap of " + FormattableString.Invariant($"{gap:0.##} mm; {wanted:0.##} ± {tolerance:0.##} mm are asked."),
                new("gap", gap, "mm"), new("wanted", wanted, "mm"));
        }
        if (s.Parts.Plate is not { } plate) yield break;
        if (plate.Number(DeviceField.DiameterMm) is { } diameter && s.Profile.Value(LimitKey.PlateDiameterMm) is { } least
            && !DecisionLimit.AtLeast(diameter, least))
        {
            yield return Geometry(plate, $"is {diameter:0.#} mm wide; at least {least:0.#} mm are asked", Clearing.Swap,
                new("diameter", diameter, "mm"), new("limit", least, "mm"));
        }
        if (plate.Number(DeviceField.ThicknessMm) is { } thickness && s.Profile.Value(LimitKey.PlateThicknessMm) is { } thin
            && !DecisionLimit.AtLeast(thickness, thin))
        {
            yield return Geometry(plate, $"is {thickness:0.##} mm thick; at least {thin:0.##} mm are asked", Clearing.Swap,
                new("thickness", thickness, "mm"), new("limit", thin, "mm"));
        }
        if (plate.Inspections.LastOrDefault()?.What is not { } seen) yield break;
        if (seen.FlatnessMm is { } flat && s.Profile.Value(LimitKey.FlatnessMm) is { } bent && !DecisionLimit.AtMost(flat, bent))
        {
            yield return Geometry(plate, $"is {flat:0.##} mm out of flat; at most {bent:0.##} mm are allowed", Clearing.Inspect,
                new("flatness", flat, "mm"), new("limit", bent, "mm"));
        }
        if (mount == Mount.FlushPlate && s.Profile.Value(LimitKey.FlushStepMm) is { } flush)
        {
            if (seen.FlushStepMm is not { } step)
            {
                yield return new(Gravity.Note, plate, Clearing.Inspect,
                    $"{plate.Name}: how far its capsule stands from its surface was not measured.");
            }
            else if (!DecisionLimit.AtMost(Math.Abs(step), flush))
            {
                var side = step > 0 ? "proud of" : "below";
                yield return Geometry(plate,
                    $"holds the capsule {Math.Abs(step):0.##} mm {side} its surface; at most {flush:0.##} mm are allowed", Clearing.Inspect,
                    new("step", step, "mm"), new("limit", flush, "mm"));
            }
        }
    }

    public static IEnumerable<Finding> PlatesAlike(ReadinessContext c)
    {
        var plates = Plates(c).ToList();
        DeviceField[] compared = [DeviceField.Material, DeviceField.DiameterMm, DeviceField.ThicknessMm, DeviceField.Batch];
        foreach (var field in compared)
        {
            var known = plates.Where(p => p.Details.ContainsKey(field.Key)).ToList();
            if (known.Count < 2) continue;
            var usual = known.GroupBy(p => DeviceIdentity.Normal(p.Details[field.Key].ToString())).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).First();
            foreach (var odd in known.Where(p => DeviceIdentity.Normal(p.Details[field.Key].ToString()) != usual.Key))
            {
                yield return c.About("plates-alike", field == DeviceField.Batch ? Gravity.Note : Gravity.Risks, odd, c.Plan.FirstDay, Clearing.Swap,
                    $"{odd.Name} has {field.Label.ToLowerInvariant()} {odd.Details[field.Key]}{(field.Unit.Length > 0 ? " " + field.Unit : "")}; {usual.Count()} of {known.Count} plates have {usual.First().Details[field.Key]}.");
            }
        }
    }

    private static Fault Geometry(DeviceState plate, FormattableString text, Clearing clearing, params Figure[] figures) =>
        new(Gravity.Stops, plate, clearing, plate.Name + " " + FormattableString.Invariant(text) + ".", figures);

    private static IEnumerable<DeviceState> Plates(ReadinessContext c) => c.InUse.Where(d => d.Kind == DeviceKind.GroundPlate.Key && c.StationOf(d) is not null);
}

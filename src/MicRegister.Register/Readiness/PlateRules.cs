using MicRegister.Metrology.Conformity;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether the ground plates are as they must be, and alike.</summary>
internal static class PlateRules
{
    public static IEnumerable<Finding> PlateInspected(ReadinessContext c)
    {
        if (c.Profile.Value(LimitKey.PlateInspectionMonths) is not { } months) yield break;
        foreach (var plate in Plates(c))
        {
            if (plate.Inspections.IsEmpty)
            {
                yield return c.About("plate-inspection", Gravity.Risks, plate, c.Plan.FirstDay, Clearing.Inspect, $"{plate.Name} was never inspected.");
                continue;
            }
            var last = plate.Inspections[^1];
            var due = DueDay.AfterMonths(last.Day, (int)Math.Clamp(months, 0, 1200));
            if (!last.What.Passed)
                yield return c.About("plate-inspection", Gravity.Stops, plate, c.Plan.FirstDay, Clearing.Inspect, $"{plate.Name} failed its inspection of {last.Day:yyyy-MM-dd}{(last.What.Text is { } why ? ": " + why : "")}.");
            else if (due < c.Plan.LastDay)
                yield return c.About("plate-inspection", Gravity.Risks, plate, due.AddDays(1), Clearing.Inspect, $"{plate.Name}: its inspection of {last.Day:yyyy-MM-dd} is valid through {due:yyyy-MM-dd}.");
        }
    }

    public static IEnumerable<Finding> PlateGeometry(ReadinessContext c)
    {
        foreach (var chain in c.Chains.Where(ch => ch.IsOnPlate && ch.Plate is not null))
        {
            var plate = chain.Plate!;
            if (plate.Number(DeviceField.DiameterMm) is { } diameter && c.Profile.Value(LimitKey.PlateDiameterMm) is { } least && !DecisionLimit.AtLeast(diameter, least))
                yield return Geometry(c, plate, $"is {diameter:0.#} mm wide; at least {least:0.#} mm are asked", Clearing.Swap, new("diameter", diameter, "mm"), new("limit", least, "mm"));
            if (plate.Number(DeviceField.ThicknessMm) is { } thickness && c.Profile.Value(LimitKey.PlateThicknessMm) is { } thin && !DecisionLimit.AtLeast(thickness, thin))
                yield return Geometry(c, plate, $"is {thickness:0.##} mm thick; at least {thin:0.##} mm are asked", Clearing.Swap, new("thickness", thickness, "mm"), new("limit", thin, "mm"));
            if (plate.Inspections.LastOrDefault()?.What is not { } seen) continue;
            if (seen.FlatnessMm is { } flat && c.Profile.Value(LimitKey.FlatnessMm) is { } bent && !DecisionLimit.AtMost(flat, bent))
                yield return Geometry(c, plate, $"is {flat:0.##} mm out of flat; at most {bent:0.##} mm are allowed", Clearing.Inspect, new("flatness", flat, "mm"), new("limit", bent, "mm"));
            if (chain.Plan.Mount == Mount.FlushPlate && seen.FlushStepMm is null && c.Profile.Value(LimitKey.FlushStepMm) is not null)
                yield return c.About("plate-geometry", Gravity.Note, plate, c.Plan.FirstDay, Clearing.Inspect, $"{plate.Name}: how far its capsule stands from its surface was not measured.");
            if (chain.Plan.Mount == Mount.FlushPlate && seen.FlushStepMm is { } step && c.Profile.Value(LimitKey.FlushStepMm) is { } flush && !DecisionLimit.AtMost(Math.Abs(step), flush))
                yield return Geometry(c, plate, $"holds the capsule {Math.Abs(step):0.##} mm {(step > 0 ? "proud of" : "below")} its surface; at most {flush:0.##} mm are allowed", Clearing.Inspect, new("step", step, "mm"), new("limit", flush, "mm"));
            if (chain.Plan.Mount == Mount.InvertedPlate && seen.GapMm is { } gap && c.Profile.Value(LimitKey.GapMm) is { } wanted && c.Profile.Value(LimitKey.GapToleranceMm) is { } tolerance && !DecisionLimit.AtMost(Math.Abs(gap - wanted), tolerance))
                yield return Geometry(c, plate, $"leaves a gap of {gap:0.##} mm; {wanted:0.##} ± {tolerance:0.##} mm are asked", Clearing.Inspect, new("gap", gap, "mm"), new("wanted", wanted, "mm"));
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

    private static Finding Geometry(ReadinessContext c, DeviceState plate, FormattableString text, Clearing clearing, params Figure[] figures) =>
        c.About("plate-geometry", Gravity.Stops, plate, c.Plan.FirstDay, clearing, plate.Name + " " + FormattableString.Invariant(text) + ".", figures);

    private static IEnumerable<DeviceState> Plates(ReadinessContext c) => c.InUse.Where(d => d.Kind == DeviceKind.GroundPlate.Key && c.StationOf(d) is not null);
}

using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>
/// What a profile asks of a chain beside what suits a mount: the response type, and where an inverted capsule sits over its plate.
/// </summary>
internal static class ChainLimitRules
{
    public static IEnumerable<Fault> ResponseAllowed(StandingChain s)
    {
        var allowed = s.Profile.Words(LimitKey.ResponseTypes);
        // What does not suit the mount is said once.
        if (allowed.Count == 0 || ChainRules.ResponseType(s).Any() || s.Parts.Microphone is not { } microphone) yield break;
        if (microphone.Text(DeviceField.ResponseType) is not { } has || allowed.Contains(has)) yield break;
        yield return new(Gravity.Stops, microphone, Clearing.Swap,
            $"{microphone.Name} is a {has} type; the profile allows {string.Join(", ", allowed)}.");
    }

    public static IEnumerable<Fault> CapsulePlace(StandingChain s)
    {
        if (s.Parts.Plan.Mount != Mount.InvertedPlate || s.Parts.Plate is not { } plate) yield break;
        if (s.Profile.Value(LimitKey.CapsuleShare) is not { } share) yield break;
        if (s.Profile.Value(LimitKey.CapsuleToleranceMm) is not { } tolerance) yield break;
        if (plate.Number(DeviceField.DiameterMm) is not { } diameter || plate.Number(DeviceField.CapsuleOffsetMm) is not { } offset)
        {
            yield return new(Gravity.Note, plate, Clearing.Enter,
                $"{plate.Name}: its diameter, or how far from its centre it holds the capsule, is not known.");
            yield break;
        }
        var wanted = share * diameter / 2;
        if (DecisionLimit.AtMost(Math.Abs(offset - wanted), tolerance)) yield break;
        yield return new(Gravity.Stops, plate, Clearing.Inspect,
            FormattableString.Invariant($"{plate.Name} holds the capsule {offset:0.#} mm from its centre; ")
                + FormattableString.Invariant($"{wanted:0.#} ± {tolerance:0.#} mm are asked, {share:0.##} of its radius."),
            new("distance", offset, "mm"), new("wanted", wanted, "mm"));
    }
}

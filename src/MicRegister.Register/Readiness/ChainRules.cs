using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Mounting;

namespace MicRegister.Register.Readiness;

/// <summary>Whether the parts of a chain suit each other, the mount and the source.</summary>
internal static class ChainRules
{
    public static IEnumerable<Finding> ChainIncomplete(ReadinessContext c)
    {
        foreach (var chain in c.Chains)
        {
            var missing = new List<string>();
            if (chain.Microphone is null) missing.Add("microphone");
            if (chain.Preamplifier is null) missing.Add("preamplifier");
            if (chain.Channel is null) missing.Add("recorder channel");
            if (chain.IsOnPlate && chain.Plate is null) missing.Add("ground plate");
            if (missing.Count > 0 && chain.Devices.All(d => d.Kind is not null))
                yield return c.About("chain-incomplete", Gravity.Stops, chain, null, Clearing.Plan, $"Station {chain.Station} has no {string.Join(", no ", missing)}.");
        }
    }

    /// <remarks>Pressure type flush in a plate or inverted over it, free-field type on a pole or stand (common practice, no source).</remarks>
    public static IEnumerable<Fault> ResponseType(StandingChain s)
    {
        var chain = s.Parts;
        if (chain.Microphone is not { } microphone) yield break;
        var wanted = chain.Plan.Mount.ResponseType;
        var has = microphone.Text(DeviceField.ResponseType);
        // On a stand sound comes in at grazing incidence, where a pressure type serves as well.
        if (has == wanted || (chain.Plan.Mount == Mount.GroundStand && has == "pressure")) yield break;
        var suits = $"{chain.Plan.Mount.InWords} it has to be a {wanted} type";
        yield return has is null
            ? new(Gravity.Risks, microphone, Clearing.Enter, $"The response type of {microphone.Name} is not known; {suits}.")
            : new(Gravity.Stops, microphone, Clearing.Swap, $"{microphone.Name} is a {has} type; {suits}.");
    }

    public static IEnumerable<Fault> FrequencyRange(StandingChain s)
    {
        if (s.Parts.Microphone is not { } microphone) yield break;
        double? low = microphone.Number(DeviceField.LowestHz), high = microphone.Number(DeviceField.HighestHz);
        if (high is not { } top)
        {
            yield return new(Gravity.Note, microphone, Clearing.Enter, $"The frequency range of {microphone.Name} is not known.");
            yield break;
        }
        var (from, upTo) = (s.Campaign.LowestHz, s.Campaign.HighestHz);
        if (DecisionLimit.AtMost(upTo, top) && (low is null || DecisionLimit.AtLeast(from, low.Value))) yield break;
        yield return new(Gravity.Stops, microphone, Clearing.Swap,
            FormattableString.Invariant($"{microphone.Name} covers {low ?? 0:0.#} Hz to {top:0.#} Hz; ")
                + FormattableString.Invariant($"the source is wanted from {from:0.#} Hz to {upTo:0.#} Hz."),
            new("highest frequency", top, "Hz"), new("wanted", upTo, "Hz"));
    }

    public static IEnumerable<Fault> MountSuits(StandingChain s)
    {
        var (chain, plan) = (s.Parts, s.Campaign);
        var allowed = s.Profile.Words(LimitKey.Mounts);
        if (allowed.Count > 0 && !allowed.Contains(chain.Plan.Mount.Key))
        {
            var suiting = string.Join(" and ", allowed.Select(Words));
            yield return new(Gravity.Stops, null, Clearing.Plan,
                $"Station {chain.Station} stands {chain.Plan.Mount.InWords}; the profile allows {suiting}.");
            yield break;
        }
        if (chain.Plan.Mount == Mount.InvertedPlate && MountPractice.Takes(chain.Plan.Mount, plan.Source) == false)
        {
            yield return new(Gravity.Risks, null, Clearing.Plan,
                $"Station {chain.Station}: inverted over a plate does not suit small multirotors, "
                    + "whose sound runs above 10 kHz (common practice, no source).");
            yield break;
        }
        if (s.Profile.Value(LimitKey.MountToleranceDb) is not ({ } toleranceDb and > 0)) yield break;
        var (from, upTo) = MountUse.Band(chain.Plan.Mount, chain.HeightM, toleranceDb);
        if (DecisionLimit.AtLeast(plan.LowestHz, from) && DecisionLimit.AtMost(plan.HighestHz, upTo)) yield break;
        yield return new(Gravity.Risks, null, Clearing.Plan,
            FormattableString.Invariant($"Station {chain.Station}: at {chain.HeightM * 1000:0.#} mm over the ground ")
                + FormattableString.Invariant($"a level is usable from {from:0} Hz to {upTo:0} Hz within {toleranceDb} dB; ")
                + FormattableString.Invariant($"wanted are {plan.LowestHz:0.#} Hz to {plan.HighestHz:0.#} Hz ")
                + "(image source, normal incidence).",
            new("usable from", from, "Hz"), new("usable to", upTo, "Hz"));
    }

    public static IEnumerable<Fault> HighestLevel(StandingChain s)
    {
        if (s.Campaign.HighestLevelDb is not { } expected || s.Profile.Value(LimitKey.LevelMarginDb) is not { } margin) yield break;
        if (s.Parts.Microphone is not { } microphone || microphone.Number(DeviceField.HighestLevelDb) is not { } highest) yield break;
        if (DecisionLimit.AtLeast(highest - margin, expected)) yield break;
        yield return new(Gravity.Stops, microphone, Clearing.Swap,
            $"{microphone.Name} takes {QuantityText.UpTo(highest, 1)} dB; {QuantityText.UpTo(expected, 1)} dB are expected "
                + FormattableString.Invariant($"and {margin} dB of margin are asked."),
            new("highest level", highest, "dB"), new("expected", expected, "dB"));
    }

    public static IEnumerable<Fault> NoiseFloor(StandingChain s)
    {
        if (s.Campaign.LowestLevelDb is not { } lowest || s.Profile.Value(LimitKey.NoiseMarginDb) is not { } margin) yield break;
        if (s.Parts.Microphone is not { } microphone || microphone.Number(DeviceField.NoiseFloorDb) is not { } floor) yield break;
        if (DecisionLimit.AtMost(floor + margin, lowest)) yield break;
        yield return new(Gravity.Risks, microphone, Clearing.Swap,
            $"{microphone.Name} has a noise floor of {QuantityText.UpTo(floor, 1)} dB; "
                + $"levels from {QuantityText.UpTo(lowest, 1)} dB matter "
                + FormattableString.Invariant($"and {margin} dB of margin are asked."),
            new("noise floor", floor, "dB"), new("lowest level", lowest, "dB"));
    }

    public static IEnumerable<Fault> PartsFit(StandingChain s) => Misfits(s.Parts)
        .Select(text => new Fault(Gravity.Stops, s.Parts.Microphone, Clearing.Plan, $"Station {s.Parts.Station}: {text}."));

    private static IEnumerable<string> Misfits(PlannedChain chain)
    {
        var (microphone, preamplifier, channel) = (chain.Microphone, chain.Preamplifier, chain.Channel);
        var hasAdapter = chain.First(DeviceKind.Adapter) is not null;
        if (!hasAdapter && microphone?.Number(DeviceField.SizeMm) is { } size && preamplifier?.Number(DeviceField.SizeMm) is { } thread && Differ(size, thread))
            yield return FormattableString.Invariant($"a {size:0.##} mm capsule does not fit a {thread:0.##} mm preamplifier without an adapter");
        if (microphone?.Number(DeviceField.SizeMm) is { } capsule && chain.Plate?.Number(DeviceField.FitsMm) is { } bore && Differ(capsule, bore))
            yield return FormattableString.Invariant($"the plate holds a {bore:0.##} mm capsule, not one of {capsule:0.##} mm");
        if (microphone?.Number(DeviceField.PolarisationV) is { } needs && preamplifier?.Number(DeviceField.PolarisationV) is { } gives && needs != gives)
            yield return FormattableString.Invariant($"the capsule wants {needs:0} V of polarisation, the preamplifier gives {gives:0} V");
        var powered = chain.First(DeviceKind.PowerModule) ?? channel;
        if (preamplifier?.Text(DeviceField.Powering) is { } wants && powered?.Text(DeviceField.Powering) is { } supply && Other(wants, supply))
            yield return $"the preamplifier wants {wants} powering, {(powered == channel ? "the channel" : "the power module")} gives {supply}";
        if (chain.First(DeviceKind.Cable) is null && preamplifier?.Text(DeviceField.Connector) is { } plug && channel?.Text(DeviceField.Connector) is { } socket && Other(plug, socket))
            yield return $"the preamplifier's connector {plug} does not fit the channel's {socket}";
        if (chain.Plate?.Text(DeviceField.PlateStyle) is { } style && chain.IsOnPlate && style != (chain.Plan.Mount == Mount.FlushPlate ? "flush" : "inverted"))
            yield return $"the plate is made for {style} mounting";
    }

    private static bool Other(string a, string b) => DeviceIdentity.Normal(a) != DeviceIdentity.Normal(b);

    /// <summary>Whether two diameters in mm are not of one size: more than 0.2 mm apart (common practice, no source).</summary>
    internal static bool Differ(double a, double b) => !DecisionLimit.AtMost(Math.Abs(a - b), 0.2);

    // A word that is no mount of this version stays as it was written.
    private static string Words(string key) =>
        Enum.GetValues<Mount>().Where(m => m.Key == key).Select(x => x.InWords).DefaultIfEmpty(key).First();
}

using MicRegister.Metrology.Arrays;
using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Readiness;

/// <summary>The spares of a plan, and the parts of its stations that they stand in for.</summary>
internal sealed class SpareBook
{
    // Faults of the device itself, for which another of its kind would do; what lies in a pair of parts, a mount or a plan stays.
    private static readonly HashSet<string> OfDeviceAlone =
        [.. ReadinessRules.All.Where(r => r.AskDevice is not null).Select(r => r.Key), "forecast", "double-booked"];

    private readonly Dictionary<string, List<StationPart>> _parts = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _kinds = new(StringComparer.Ordinal);

    public SpareBook(ReadinessContext c)
    {
        foreach (var chain in c.Chains) _parts[chain.Station] = [.. PartsOf(c, chain)];
        foreach (var device in c.Spares.DistinctBy(s => s.Id).Where(c.IsSpareOnly))
        {
            var look = LookOf(device);
            var serves = look is null ? 0 : c.Chains.Count(x => x.Devices.Any(d => LookOf(d) == look));
            var holds = CalibrationRules.Probability(c, device)?.Probability ?? 1;
            var why = WhyNot(c, device, look, serves, holds);
            All.Add(new(device.Id, device.Name, device.Kind, why is null ? holds : 0, serves, why));
            if (why is null) Fit.Add(new(device, KindOf(look!), holds));
        }
    }

    /// <summary>Every device that only stands by, in the order of the list.</summary>
    public List<SpareReadiness> All { get; } = [];

    /// <summary>Those that count.</summary>
    public List<StationPart> Fit { get; } = [];

    /// <summary>How many microphones count.</summary>
    public int Microphones => Fit.Count(s => s.Device.Kind == DeviceKind.Microphone.Key);

    /// <summary>Parts of a station, each with its own probability; one that stands for all that no spare makes up for, if there is any.</summary>
    public List<StationPart> PartsOf(string station) => _parts[station];

    /// <summary>Probability with the permitted losses and the spares, stations and spares taken as independent.</summary>
    public SparedArray Probability(int permitted) => ArrayWithSpares.Of(
        [new([new(1, [.. _parts.Values.Select(s => (IReadOnlyList<SparePart>)[.. s.Select(p => new SparePart(p.Kind, p.Holds))])],
            [.. Fit.Select(p => new SparePart(p.Kind, p.Holds))])])],
        permitted);

    private IEnumerable<StationPart> PartsOf(ReadinessContext c, PlannedChain chain)
    {
        var stops = c.Found.Where(f => f.Station == chain.Station && f.Gravity == Gravity.Stops).ToList();
        foreach (var device in chain.Devices.DistinctBy(d => d.Id))
        {
            var isLost = !device.WrittenByNewer.IsEmpty || stops.Exists(f => f.Device == device.Id && OfDeviceAlone.Contains(f.Rule));
            var holds = isLost ? 0 : CalibrationRules.Probability(c, device)?.Probability ?? 1;
            yield return new(device, LookOf(device) is { } look ? KindOf(look) : null, holds);
        }
        var isForGood = stops.Exists(f => !OfDeviceAlone.Contains(f.Rule) || chain.Devices.All(d => d.Id != f.Device));
        if (isForGood) yield return new(new(chain.Station), null, 0);
    }

    private int KindOf(string look)
    {
        if (!_kinds.TryGetValue(look, out var kind)) _kinds[look] = kind = _kinds.Count;
        return kind;
    }

    // What a spare has to be like: a microphone of the same response and size, all else of the same kind. Null where that is not known.
    private static string? LookOf(DeviceState device) =>
        device.Kind != DeviceKind.Microphone.Key ? device.Kind
        : device.Text(DeviceField.ResponseType) is { } response && device.Number(DeviceField.SizeMm) is { } size
            ? FormattableString.Invariant($"{device.Kind} {response} {size}")
        : null;

    // In words that go on after "it"; null where it counts.
    private static string? WhyNot(ReadinessContext c, DeviceState device, string? look, int serves, double holds)
    {
        if (!device.WrittenByNewer.IsEmpty) return "has facts that cannot be used here";
        if (device.Kind is null) return "is not registered";
        if (device.Status != DeviceStatus.InService) return $"is {device.Status.InWords}";
        if (StandsAt(c, device) is { } place) return $"stands {place}";
        if (look is null) return "has no known response type or size";
        if (serves == 0) return device.Kind == DeviceKind.Microphone.Key
            ? "is like no microphone of a station" : "is of a kind that no station has";
        if (device.Number(DeviceField.HighestHz) is { } high && !DecisionLimit.AtMost(c.Plan.HighestHz, high)) return "does not cover the band";
        if (c.Found.FirstOrDefault(f => f.Device == device.Id && f.Gravity >= Gravity.Risks && f.Rule != "forecast") is { } finding)
            return $"has an open finding ({finding.Rule})";
        // A doubtful forecast counts as far as it holds; one under which it must not be used at all does not.
        return DecisionLimit.AtLeast(holds, c.Profile.Value(LimitKey.DeviceProbabilityStop) ?? 0.5) ? null
            : "is not likely to stay within its limit";
    }

    // At the end of the day that asks, in this campaign or another.
    private static string? StandsAt(ReadinessContext c, DeviceState device)
    {
        var now = ZoneOffsets.StartOfDay(c.Today.AddDays(1), c.Plan.Offsets) - 1;
        if (DeploymentFindings.OfDevice(c.Register, device.Id).LastOrDefault(p => p.StoodAt(now)) is not { } placement) return null;
        return $"at station {placement.Station} of {c.Register.Campaign(placement.Campaign)?.Name ?? placement.Campaign}";
    }
}

/// <summary>A part of a station, or a spare.</summary>
/// <param name="Device">The device.</param>
/// <param name="Kind">Number of what stands in for it; null where nothing does.</param>
/// <param name="Holds">Probability that it holds through the last day.</param>
internal sealed record StationPart(DeviceState Device, int? Kind, double Holds)
{
    /// <summary>What is expected of it, where that may be shared with others.</summary>
    public CalibrationRules.Judged? Judged { get; init; }
}

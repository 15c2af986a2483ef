using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>What the stations of one event have in common.</summary>
internal sealed class TraceContext
{
    private readonly Dictionary<string, DeviceState?> _devices = new(StringComparer.Ordinal);

    public TraceContext(Register register, RecordedEvent what, CampaignState campaign)
    {
        (Register, Event, Campaign) = (register, what, campaign);
        Profile = campaign.Plan is { } plan ? register.Profile(plan.Profile) : null;
        Deployment = ArrayDeployment.Of(register, campaign.Id);
        Contradictions = DeploymentFindings.Overlapping(register, campaign.Id, what.StartMs, what.StopMs);
        Day = DayOf(what.StartMs);
        Span = CheckSpan.Of(Profile);
        Kit = new(register, Profile);
    }

    public Register Register { get; }

    public RecordedEvent Event { get; }

    public CampaignState Campaign { get; }

    public ProfileState? Profile { get; }

    public ArrayDeployment Deployment { get; }

    /// <summary>What stood at two stations during the event.</summary>
    public IReadOnlyList<RegisterFinding> Contradictions { get; }

    /// <summary>Local day of the event's begin.</summary>
    public DateOnly Day { get; }

    /// <summary>How far a check may lie from the event.</summary>
    public CheckSpan Span { get; }

    /// <summary>Doubts by the campaign's limits, worked out once a trace.</summary>
    public KitInDoubt Kit { get; }

    public DateOnly DayOf(long instant) => ZoneOffsets.LocalDay(instant, Campaign.Plan?.Offsets ?? Register.OffsetsOf(null));

    public DeviceState? Device(string id)
    {
        if (!_devices.TryGetValue(id, out var device)) _devices[id] = device = Register.Device(id);
        return device;
    }

    /// <summary>The weather that was noted at the site.</summary>
    public WeatherLog Weather => field ??= WeatherLog.Of(Register, Campaign.Id);
}

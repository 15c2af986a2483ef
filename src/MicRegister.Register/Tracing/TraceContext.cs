using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>What the stations of one event have in common.</summary>
internal sealed class TraceContext
{
    private readonly List<string> _barometers;

    private readonly Dictionary<string, DeviceState?> _devices = new(StringComparer.Ordinal);

    public TraceContext(Register register, RecordedEvent what, CampaignState campaign)
    {
        (Register, Event, Campaign) = (register, what, campaign);
        Profile = campaign.Plan is { } plan ? register.Profile(plan.Profile) : null;
        Deployment = ArrayDeployment.Of(register, campaign.Id);
        Contradictions = DeploymentFindings.Overlapping(register, campaign.Id, what.StartMs, what.StopMs);
        Test = TestOf(what.StartMs);
        Span = CheckSpan.Of(Profile);
        Kit = new(register, Profile);
        _barometers = [.. campaign.KitOf(KitPurpose.Check).Where(id => Device(id)?.Kind == DeviceKind.Barometer.Key)];
        Unread = UnreadSaid.Of(register, campaign.Id);
        OtherMicrophones = MicRegister.Register.Deployment.OtherMicrophones.Of(register, campaign.Id);
        Coverage = EventCoverage.Of(register, what);
        References = new(register, Device);
    }

    public Register Register { get; }

    public RecordedEvent Event { get; }

    public CampaignState Campaign { get; }

    public ProfileState? Profile { get; }

    public ArrayDeployment Deployment { get; }

    /// <summary>What stood at two stations during the event.</summary>
    public IReadOnlyList<RegisterFinding> Contradictions { get; }

    /// <summary>What was said of the campaign in the field and cannot be used here.</summary>
    public IReadOnlyList<UnreadSaid> Unread { get; }

    /// <summary>What was said in the place of other facts and names another microphone.</summary>
    public IReadOnlyList<OtherMicrophone> OtherMicrophones { get; }

    /// <summary>What the stated files hold of the event.</summary>
    public EventCoverage Coverage { get; }

    /// <summary>Local day of the event's begin.</summary>
    public DateOnly Day => Test.Day;

    /// <summary>The test that it belongs to, by its begin.</summary>
    public TestTime Test { get; }

    /// <summary>How far a check may lie from the event.</summary>
    public CheckSpan Span { get; }

    /// <summary>Whether a barometer goes along with the campaign; nobody can say so of one whose kit was not planned.</summary>
    public bool HasBarometer => _barometers.Count > 0 || Campaign.KitOf(KitPurpose.Check).IsEmpty;

    /// <summary>Id of the one barometer that goes along; null where there are more or none.</summary>
    public string? OnlyBarometer => _barometers is [var only] ? only : null;

    /// <summary>Doubts by the campaign's limits, worked out once a trace.</summary>
    public KitInDoubt Kit { get; }

    /// <summary>Offsets of the site's zone.</summary>
    public IReadOnlyList<ZoneOffset> Offsets => Campaign.Plan?.Offsets ?? Register.OffsetsOf(null);

    /// <summary>The test that an instant belongs to.</summary>
    public TestTime TestOf(long instant) => new(DayOf(instant), TestSessions.Of(Register, Campaign.Id).At(instant)?.Fact);

    public DateOnly DayOf(long instant) => ZoneOffsets.LocalDay(instant, Offsets);

    /// <summary>What certificates have in common through what they were measured against.</summary>
    public SharedReferences References { get; }

    public DeviceState? Device(string id)
    {
        if (!_devices.TryGetValue(id, out var device)) _devices[id] = device = Register.Device(id);
        return device;
    }

    /// <summary>What the weather has against parts of the event, once for all stations.</summary>
    public Dictionary<(long From, long To), IReadOnlyList<TraceReason>> WeatherReasons { get; } = [];

    /// <summary>The weather that was noted at the site.</summary>
    public WeatherLog Weather => field ??= WeatherLog.Of(Register, Campaign.Id);
}

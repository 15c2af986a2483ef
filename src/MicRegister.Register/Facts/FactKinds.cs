using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Facts;

/// <summary>The stored name and version of each kind of fact. A name once written is never given another meaning.</summary>
public static class FactKinds
{
    public const string Annulled = "fact-annulled";

    /// <summary>One row a kind: stored name, version, type of the body, and whether folding a device reads the body.</summary>
    public static IReadOnlyList<FactKind> All { get; } =
    [
        new(Annulled, 1, typeof(FactAnnulled)),
        new("register-founded", 1, typeof(RegisterFounded)),
        new("settings-chosen", 1, typeof(SettingsChosen)),
        new("client-clock-noticed", 1, typeof(ClientClockNoticed)),
        new("item-put-aside", 1, typeof(ItemPutAside)),
        new("import-accepted", 1, typeof(ImportAccepted)),
        new("person-named", 1, typeof(PersonNamed)),
        new("device-registered", 1, typeof(DeviceRegistered)),
        new("device-described", 1, typeof(DeviceDescribed)),
        new("device-moved", 1, typeof(DeviceMoved)),
        new("device-status-changed", 1, typeof(DeviceStatusChanged)),
        new("device-noted", 1, typeof(DeviceNoted)),
        new("device-serviced", 1, typeof(DeviceServiced)),
        new("device-inspected", 1, typeof(DeviceInspected)),
        new("devices-joined", 1, typeof(DevicesJoined)),
        new("devices-parted", 1, typeof(DevicesParted)),
        new("certificate-issued", 1, typeof(CertificateIssued)),
        new("alarm-reviewed", 1, typeof(AlarmReviewed)),
        new("coupling-stated", 1, typeof(CouplingStated)),
        new("label-bound", 1, typeof(LabelBound)),
        new("profile-written", 1, typeof(ProfileWritten)),
        new("profile-confirmed", 1, typeof(ProfileConfirmed)),
        new("campaign-planned", 1, typeof(CampaignPlanned)),
        new("station-planned", 1, typeof(StationPlanned)),
        new("chain-planned", 1, typeof(ChainPlanned)),
        new("kit-planned", 1, typeof(KitPlanned)),
        new("sensitivity-rule-chosen", 1, typeof(SensitivityRuleChosen)),
        new("doubt-settled", 1, typeof(DoubtSettled), IsTraffic: true),
        new("incidence-stated", 1, typeof(IncidenceStated), IsTraffic: true),
        new("chain-placed", 1, typeof(ChainPlacedBriefly), IsTraffic: true),
        new("chain-placed", 2, typeof(ChainPlaced), IsTraffic: true),
        new("chain-taken-in", 1, typeof(ChainTakenIn), IsTraffic: true),
        new("tone-noted", 1, typeof(ToneNoted), IsTraffic: true),
        new("photo-taken", 1, typeof(PhotoTaken), IsTraffic: true),
        new("weather-noted", 1, typeof(WeatherNoted), IsTraffic: true),
        new("chain-checked", 1, typeof(ChainCheckedBriefly), IsTraffic: true),
        new("chain-checked", 2, typeof(ChainChecked), IsTraffic: true),
        new("chains-compared", 1, typeof(ChainsCompared), IsTraffic: true),
        new("event-recorded", 1, typeof(EventRecorded), IsTraffic: true),
        new("event-recorded", 2, typeof(EventHappened), IsTraffic: true),
        new("recorder-clock-set", 1, typeof(RecorderClockSet), IsTraffic: true),
        new("recorder-time-checked", 1, typeof(RecorderTimeChecked), IsTraffic: true),
        new("recorder-hour-chosen", 1, typeof(HourChosen), IsTraffic: true),
    ];

    private static readonly Dictionary<(string, int), FactKind> ByName = All.ToDictionary(k => (k.Name, k.Version));
    private static readonly Dictionary<Type, FactKind> ByType = All.ToDictionary(k => k.Body);
    private static readonly HashSet<string> Traffic = [.. All.Where(k => k.IsTraffic).Select(k => k.Name)];

    public static FactKind? Find(string name, int version) => ByName.GetValueOrDefault((name, version));

    public static FactKind Of(FactBody body) => ByType.TryGetValue(body.GetType(), out var kind)
        ? kind
        : throw new ArgumentException($"{body.GetType().Name} is not a kind of fact.", nameof(body));

    /// <summary>Whether facts of a kind come by the hundred thousand, so that folding counts them without reading them.</summary>
    public static bool IsTrafficKind(string name) => Traffic.Contains(name);
}

/// <param name="Name">Stored name.</param>
/// <param name="Version">Stored version; a changed meaning gets the next one.</param>
/// <param name="Body">Type of the body.</param>
/// <param name="IsTraffic">Whether it comes by the hundred thousand.</param>
public sealed record FactKind(string Name, int Version, Type Body, bool IsTraffic = false);

using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Mounting;
using MicRegister.Register.Settings;

namespace MicRegister.Register.Readiness;

/// <summary>All that the rules look at: one campaign, its devices and its profile, as they were known at the end of a day.</summary>
public sealed class ReadinessContext
{
    private readonly Dictionary<string, DeviceState> _devices = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> _stationsOf = new(StringComparer.Ordinal);

    internal ReadinessContext(Register register, CampaignState campaign, CampaignPlanned plan, DateOnly today)
    {
        (Register, Campaign, Plan, Today) = (register, campaign, plan, today);
        Profile = register.Profile(plan.Profile, today) ?? new(plan.Profile, new(plan.Profile, "", []), null, false);
        HasProfile = register.Profile(plan.Profile, today) is not null;
        Settings = register.State.Settings;
        // A plan may name an entry that was joined to another since: both ids lead to the one that was kept.
        foreach (var id in campaign.Devices)
        {
            var device = register.Device(id, today) ?? new DeviceState(id);
            _devices[id] = _devices[device.Id] = device;
        }
        Chains = [.. campaign.Stations.Select(s => new PlannedChain(s.Key, s.Value, [.. campaign.Chains.GetValueOrDefault(s.Key, []).Select(Device)]))];
        foreach (var (station, devices) in campaign.Chains)
        {
            foreach (var device in devices)
            {
                var kept = Device(device).Id;
                if (!_stationsOf.TryGetValue(kept, out var list)) _stationsOf[kept] = list = [];
                list.Add(station);
            }
        }
        Spares = [.. campaign.KitOf(KitPurpose.Spare).Select(Device)];
        CheckKit = [.. campaign.KitOf(KitPurpose.Check).Select(Device)];
        InUse = [.. campaign.Chains.Values.SelectMany(c => c).Concat(campaign.KitOf(KitPurpose.Check)).Concat(campaign.KitOf(KitPurpose.Spare))
            .Select(id => Device(id).Id).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).Select(Device)];
    }

    public Register Register { get; }

    /// <summary>The drift of all devices, those of the same models outside the campaign included.</summary>
    internal DriftBook Drift => Register.Drift(Today);

    /// <summary>The checks of the campaign so far, by day.</summary>
    internal IReadOnlyList<CheckDay> CheckDays => field ??= CheckDay.Of(CheckBook.OfCampaign(Register, Campaign.Id, Today), Profile);

    /// <summary>Ids of devices that facts speak of which cannot be used here.</summary>
    internal IReadOnlySet<string> Undecided => field ??=
        InUse.Where(d => !d.WrittenByNewer.IsEmpty).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);

    /// <summary>What all rules find but the one that counts spares, which looks at what they found.</summary>
    internal IReadOnlyList<Finding> Found => field ??=
        [.. ReadinessRules.All.Where(r => r.Key != PlanRules.SparesRule).SelectMany(r => r.Judge(this))
        .Where(f => f.Device is null || f.Rule == "newer-facts" || !Undecided.Contains(f.Device))];

    /// <summary>The spares, as far as they count.</summary>
    internal SpareBook SpareBook => field ??= new(this);

    public CampaignState Campaign { get; }

    public CampaignPlanned Plan { get; }

    public DateOnly Today { get; }

    public ProfileState Profile { get; }

    public bool HasProfile { get; }

    public SettingsChosen Settings { get; }

    /// <summary>Planned stations with their chains, which may be empty, in order of their names.</summary>
    public IReadOnlyList<PlannedChain> Chains { get; }

    public IReadOnlyList<DeviceState> Spares { get; }

    public IReadOnlyList<DeviceState> CheckKit { get; }

    /// <summary>Every device of the plan once.</summary>
    public IReadOnlyList<DeviceState> InUse { get; }

    public DeviceState Device(string id) => _devices[id];

    /// <summary>The station a device is planned for; null for spares and the kit.</summary>
    public string? StationOf(DeviceState device) => _stationsOf.GetValueOrDefault(device.Id)?[0];

    internal IReadOnlyDictionary<string, List<string>> StationsOf => _stationsOf;

    internal bool IsAtStation(DeviceState device) => StationOf(device) is not null;

    /// <summary>A chain as it will stand.</summary>
    internal StandingChain Standing(PlannedChain chain) =>
        new(chain, Plan, Profile, id => Register.Device(id, Today)?.Name ?? id) { Read = Register.Source.Curves };

    /// <summary>What checks will be made with.</summary>
    internal StandingKit StandingKit => field ??= CheckKitRules.StandingKitOf(this);

    /// <summary>A device through the campaign.</summary>
    internal StandingDevice Standing(DeviceState device) => new(device, Profile, Plan.FirstDay, Plan.LastDay)
    {
        Usual = Register.Profile(BuiltInProfiles.Usual, Today),
        Band = (Plan.LowestHz, Plan.HighestHz),
        Curves = Register.CurveShelf,
    };

    /// <summary>Whether a device only stands by.</summary>
    public bool IsSpareOnly(DeviceState device) => StationOf(device) is null && Spares.Any(s => s.Id == device.Id);

    /// <summary>A finding about the plan as a whole.</summary>
    public Finding About(string rule, Gravity gravity, Clearing clearing, string text, params Figure[] figures) =>
        Make(rule, gravity, null, null, Plan.FirstDay, text, clearing, figures);

    /// <summary>A finding about a station.</summary>
    public Finding About(string rule, Gravity gravity, PlannedChain chain, DeviceState? device, Clearing clearing, string text, params Figure[] figures) =>
        Make(rule, gravity, device, chain.Station, Plan.FirstDay, text, clearing, figures);

    /// <summary>A finding about a device, at its station where it has one. About a spare it is never more than a risk.</summary>
    public Finding About(string rule, Gravity gravity, DeviceState device, DateOnly bitesOn, Clearing clearing, string text, params Figure[] figures) =>
        Make(rule, IsSpareOnly(device) && gravity == Gravity.Stops ? Gravity.Risks : gravity, device, StationOf(device), bitesOn, text, clearing, figures);

    private Finding Make(string rule, Gravity gravity, DeviceState? device, string? station, DateOnly bitesOn, string text, Clearing clearing, Figure[] figures)
    {
        var bites = bitesOn < Plan.FirstDay ? Plan.FirstDay : bitesOn;
        var latest = DateOnly.FromDayNumber(Math.Max(0, Plan.FirstDay.DayNumber - DaysFor(clearing)));
        return new(rule, gravity, device?.Id, device?.Name, station, bites, text, figures, clearing, latest, latest < Today);
    }

    // Whatever bites during the campaign has to be cleared before it begins: nobody calibrates in the field.
    private int DaysFor(Clearing clearing) => clearing switch
    {
        Clearing.Calibrate => Settings.LaboratoryDays + (2 * Settings.ShippingDays),
        Clearing.Swap or Clearing.Plan => Settings.SwapDays,
        Clearing.Inspect or Clearing.Decide => Settings.InspectionDays,
        _ => 0,
    };
}

/// <summary>A station with the devices allocated to it.</summary>
public sealed record PlannedChain(string Station, StationPlanned Plan, IReadOnlyList<DeviceState> Devices)
{
    public DeviceState? First(DeviceKind kind) => Devices.FirstOrDefault(d => d.Kind == kind.Key);

    public DeviceState? Microphone => First(DeviceKind.Microphone);

    public DeviceState? Preamplifier => First(DeviceKind.Preamplifier);

    public DeviceState? Plate => First(DeviceKind.GroundPlate);

    public DeviceState? Channel => First(DeviceKind.RecorderChannel);

    /// <summary>Height of the diaphragm in m: as planned, or the mount's usual one (common practice, no source).</summary>
    public double HeightM => Plan.HeightM ?? Plan.Mount.UsualHeightM;

    public bool IsOnPlate => Plan.Mount.IsPlate;
}

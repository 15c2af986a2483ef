using System.Globalization;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Reports;

/// <summary>All that a report of one campaign is made from, read once, and how it is written.</summary>
internal sealed class Evidence
{
    private readonly Dictionary<string, DeviceState?> _devices = new(StringComparer.Ordinal);

    public Evidence(Register.Register register, CampaignState campaign, CampaignPlanned plan, DateOnly today)
    {
        (Register, Campaign, Plan, Today) = (register, campaign, plan, today);
        Profile = register.Profile(plan.Profile);
        Deployment = ArrayDeployment.Of(register, campaign.Id);
        Checks = CheckBook.OfCampaign(register, campaign.Id);
        Traces = [.. EventBook.OfCampaign(register, campaign.Id).Select(e => Tracer.Of(register, e.Id)).OfType<EventTrace>()];
        Verdicts = [.. Traces.Select(t => (t.Event, EventVerdict.Of(t)))];
        Readiness = CampaignReadiness.Judge(register, campaign.Id, today);
        Days = DaysOfUse();
        // Also what certificates and checks rest on, though it was never placed.
        var behind = Traces.SelectMany(t => t.Stations).SelectMany(s => s.Links).Select(l => l.Device.Id)
            .Concat(Checks.SelectMany(k => k.Kit).Select(d => register.EntriesOf(d)[0]));
        Doubts = [.. Days.Keys.Concat(behind).Distinct(StringComparer.Ordinal)
            .SelectMany(d => DoubtBook.OfDevice(register, d, Profile)).DistinctBy(d => d.Key)
            .SelectMany(d => DoubtReport.Of(register, d).Touched.Where(t => t.Event.Campaign == campaign.Id).Select(t => (d, t)))];
    }

    public Register.Register Register { get; }

    public CampaignState Campaign { get; }

    public CampaignPlanned Plan { get; }

    public DateOnly Today { get; }

    public ProfileState? Profile { get; }

    public ArrayDeployment Deployment { get; }

    /// <summary>In the order of time.</summary>
    public IReadOnlyList<CheckRecord> Checks { get; }

    /// <summary>Events by their begin.</summary>
    public IReadOnlyList<EventTrace> Traces { get; }

    /// <summary>Each of them at a glance, as every list of events says it.</summary>
    public IReadOnlyList<(RecordedEvent Event, EventVerdict Verdict)> Verdicts { get; }

    /// <summary>Doubts that touch events of the campaign, one for each event.</summary>
    public IReadOnlyList<(Doubt Doubt, TouchedEvent Touched)> Doubts { get; }

    /// <summary>Null where the plan was not known yet on the day of the report.</summary>
    public ReadinessReport? Readiness { get; }

    /// <summary>Days on which each device was used, by its id: placed, checked or checked with, recorded with.</summary>
    public SortedDictionary<string, SortedSet<DateOnly>> Days { get; }

    /// <summary>Planned stations and those where something was placed all the same, in order of their names.</summary>
    public IEnumerable<string> Stations => Campaign.Stations.Keys.Concat(Deployment.Placements.Select(p => p.Station)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);

    public DeviceState? Device(string id)
    {
        if (!_devices.TryGetValue(id, out var device)) _devices[id] = device = Register.Device(id);
        return device;
    }

    public string Name(string device) => Device(device)?.Name ?? device;

    public string Names(IEnumerable<string> devices) => string.Join("; ", devices.Select(Name));

    public string Person(string id) => Register.Person(id)?.Name ?? id;

    /// <summary>The day at the site.</summary>
    public DateOnly Day(long instant) => ZoneOffsets.LocalDay(instant, Plan.Offsets);

    /// <summary>What a clock at the site showed.</summary>
    public string Local(long instant) => Utc(ZoneOffsets.LocalOf(instant, Plan.Offsets));

    /// <summary>The time of day at the site.</summary>
    public string Time(long instant) => Local(instant) is { Length: 19 } text ? text[11..] : "not known";

    /// <summary>An instant in UTC, without the letters that say so; "not known" and "to this day" at the ends of all time.</summary>
    public static string Utc(long instant)
    {
        if (instant < DateTimeOffset.MinValue.ToUnixTimeMilliseconds()) return "not known";
        if (instant > DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()) return "to this day";
        return ShownTime.Text(instant)[..19].Replace('T', ' ');
    }

    public static string Date(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Hz(double value) => double.IsPositiveInfinity(value) ? "no limit" : QuantityText.Number(value, 0);

    public static string[] Row(params string[] cells) => cells;

    public static string Count(int n, string one, string many) => $"{n} {(n == 1 ? one : many)}";

    private SortedDictionary<string, SortedSet<DateOnly>> DaysOfUse()
    {
        var days = new SortedDictionary<string, SortedSet<DateOnly>>(StringComparer.Ordinal);
        foreach (var p in Deployment.Placements)
        {
            foreach (var device in p.Devices)
            {
                Add(device, Day(p.From));
                if (p.Until is { } until) Add(device, Day(until));
            }
        }
        foreach (var k in Checks)
        {
            foreach (var device in k.Check.Devices) Add(device, k.Day);
            Add(k.Check.Calibrator, k.Day);
            if (k.Check.Adapter is { } adapter) Add(Register.EntriesOf(adapter)[0], k.Day);
        }
        foreach (var trace in Traces)
        {
            foreach (var device in trace.Stations.SelectMany(s => s.Chain)) Add(device.Id, Day(trace.Event.StartMs));
        }
        return days;

        void Add(string device, DateOnly day)
        {
            if (!days.TryGetValue(device, out var of)) days[device] = of = [];
            of.Add(day);
        }
    }
}

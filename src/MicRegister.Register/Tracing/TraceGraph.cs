using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.People;

namespace MicRegister.Register.Tracing;

/// <summary>Something in the graph of what rests on what.</summary>
/// <param name="Kind">device, certificate, check, placement, station, event, campaign, person or text.</param>
/// <param name="Id">Its id; a station's is its event's, a stroke and its name.</param>
/// <param name="Label">Words that people know it by.</param>
/// <param name="Detail">When, or how it stands; empty where there is nothing to say.</param>
public sealed record GraphNode(string Kind, string Id, string Label, string Detail)
{
    /// <summary>What the recording of a station is worth, or the event that is asked for; null for all else.</summary>
    public TraceVerdict? Verdict { get; init; }

    /// <summary>Whether a swap made it: a station where a part was swapped during the event, or a chain that a swap began.</summary>
    public bool IsSwapped { get; init; }
}

/// <summary>One thing with its neighbours: what it rests on, and what rests on it.</summary>
/// <param name="Here">The thing itself.</param>
/// <param name="RestsOn">What it rests on.</param>
/// <param name="Bears">What rests on it, at most <see cref="Most"/>, the newest first.</param>
/// <param name="Left">How many more rest on it.</param>
public sealed record TraceGraph(GraphNode Here, IReadOnlyList<GraphNode> RestsOn, IReadOnlyList<GraphNode> Bears, int Left)
{
    /// <summary>More are counted and not shown.</summary>
    public const int Most = 60;

    /// <summary>Stands for what a certificate rests on where it does not say so.</summary>
    public const string NotSaid = "It does not say what it rests on";

    private const long DayMs = 86_400_000;

    // What a person may have stated that events rest on.
    private static readonly string[] Bearing = ["chain-checked", "chain-placed", "certificate-issued", "event-recorded"];

    /// <summary>Looks around; null where there is no such thing.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="kind">Kind of the thing.</param>
    /// <param name="id">Its id.</param>
    /// <param name="saidBy">Gives the sequences of what a person stated, the oldest first; null finds nothing of persons.</param>
    public static TraceGraph? Around(Register register, string kind, string id, Func<string, IReadOnlyList<int>>? saidBy = null) => kind switch
    {
        "person" => saidBy is null ? null : OfPerson(register, id, saidBy(id)),
        "placement" => OfPlacement(register, id),
        "device" => OfDevice(register, id),
        "certificate" => OfCertificate(register, id),
        "check" => OfCheck(register, id),
        "event" => OfEvent(register, id),
        "station" => OfStation(register, id),
        _ => null,
    };

    private static TraceGraph? OfDevice(Register register, string id)
    {
        if (register.Device(id) is not { } device) return null;
        var own = device.Certificates.Where(c => !c.IsAnnulled).OrderByDescending(c => c.Day).Select(Node);
        var isOfChecks = device.Kind == DeviceKind.Calibrator.Key || device.Kind == DeviceKind.Adapter.Key;
        var whole = new Doubt("", DoubtKind.Reported, device.Id, default, long.MinValue, long.MaxValue, null, "", isOfChecks, []);
        var events = DoubtReport.Of(register, whole).Touched.OrderByDescending(t => t.Event.StartMs).Select(t => Node(t.Event));
        var checks = CheckBook.Around(register, device.Id, long.MinValue, long.MaxValue).Reverse().Select(k => Node(register, k));
        var references = register.MeasuredAgainst(device.Id).Where(register.Counts).Select(s => register.Source.Read(s))
            .OrderByDescending(f => f.Occurred.Day).Select(Node).OfType<GraphNode>();
        return Made(Node(device), own, [.. references, .. Mixed([.. events], [.. checks])]);
    }

    private static TraceGraph? OfCertificate(Register register, string id)
    {
        if (!FactId.TryParse(id, out var fact) || register.Find(fact) is not (var sequence and > 0)
            || register.Source.Read(sequence) is not { Body: CertificateIssued issued } found)
        {
            return null;
        }
        var holders = found.Subjects.Where(Subject.IsDevice).Select(s => register.Device(Subject.Id(s))).OfType<DeviceState>().ToList();
        var below = issued.ReferenceDevice is { } reference && register.Device(reference) is { } r
            ? Node(r)
            : new GraphNode("text", "", issued.Reference ?? issued.Laboratory ?? NotSaid, "");
        // Until the next one, checks with a calibrator take their level from this.
        var later = holders.SelectMany(h => h.Certificates)
            .Where(c => !c.IsAnnulled && c.Issued.Quantity == issued.Quantity && c.Day > found.Occurred.Day);
        var next = later.Select(c => (DateOnly?)c.Day).Min();
        var checks = holders.Where(h => h.Kind == DeviceKind.Calibrator.Key).SelectMany(h => CheckBook.MadeWith(register, h.Id))
            .Where(k => k.Check.CalibratorCertificate == id && (next is null || k.Day <= next)).Reverse().Select(k => Node(register, k));
        var events = holders.SelectMany(h => Resting(register, h, issued, found.Occurred.Day, next)).DistinctBy(n => n.Id);
        return Made(
            new("certificate", id, $"{issued.Quantity} certificate of {found.Occurred.Day:yyyy-MM-dd}", issued.Laboratory ?? ""),
            [below, .. Stated(register, found.Author)], [.. holders.Select(Node), .. Mixed([.. events], [.. checks])]);
    }

    // Events that stood on a certificate of the chain while it was in force; those behind a calibrator's are found through its checks.
    private static IEnumerable<GraphNode> Resting(Register register, DeviceState holder, CertificateIssued issued, DateOnly from, DateOnly? next)
    {
        if (holder.Kind == DeviceKind.Calibrator.Key || DeviceKind.Find(holder.Kind)?.Calibrated is null) return [];
        var whole = new Doubt(
            "", DoubtKind.Reported, holder.Id, default, DoubtBook.StartOf(register, from),
            next is { } day ? DoubtBook.StartOf(register, day) - 1 : long.MaxValue, null, issued.Quantity, false, []);
        return DoubtReport.Of(register, whole).Touched.OrderByDescending(t => t.Event.StartMs).Select(t => Node(t.Event));
    }

    private static TraceGraph? OfCheck(Register register, string id)
    {
        if (!FactId.TryParse(id, out var fact) || register.Find(fact) is not (var sequence and > 0)
            || register.Source.Read(sequence) is not { Body: ChainChecked check } found)
        {
            return null;
        }
        var campaign = found.Subjects.FirstOrDefault(Subject.IsCampaign) is { } subject ? Subject.Id(subject) : null;
        var at = register.Instant(found);
        // One of a bare day lies at the begin of its day at home, which lies up to two days from that at the site.
        var profile = campaign is not null && register.Campaign(campaign)?.Plan is { } plan ? register.Profile(plan.Profile) : null;
        var around = CheckSpan.Of(profile).Ms + (2 * DayMs);
        var events = campaign is null || check.Station is null
            ? []
            : EventBook.Between(register, campaign, at - around, at + around)
                .Where(e => Tracer.Of(register, e.Id, check.Station) is { } trace
                    && trace.Stations.Any(s => s.Before?.Fact == fact || s.After?.Fact == fact))
                .OrderByDescending(e => e.StartMs).Select(Node);
        var below = check.Devices.Append(check.Calibrator).Concat(check.Adapter is { } a ? [a] : []).Select(d => register.Device(d))
            .OfType<DeviceState>().Select(Node).ToList();
        if (OfCertificate(register, check.CalibratorCertificate) is { } certificate) below.Add(certificate.Here);
        return Made(
            new("check", id, $"Check of {check.Station ?? "a bench"}", found.Occurred.Minute),
            [.. below, .. Stated(register, found.Author)], [.. events]);
    }

    private static TraceGraph? OfPlacement(Register register, string id)
    {
        if (!FactId.TryParse(id, out var fact) || register.Find(fact) is not (var sequence and > 0)
            || register.Source.Read(sequence).Subjects.FirstOrDefault(Subject.IsCampaign) is not { } subject)
        {
            return null;
        }
        if (ArrayDeployment.Of(register, Subject.Id(subject)).Placements.FirstOrDefault(p => p.Fact == fact) is not { } placement) return null;
        var events = EventBook.Between(register, placement.Campaign, placement.From, placement.Until ?? long.MaxValue)
            .OrderByDescending(e => e.StartMs).Select(Node);
        var devices = placement.Devices.Select(d => register.Device(d)).OfType<DeviceState>();
        return Made(Node(placement), [.. devices.Select(Node), .. Stated(register, placement.Author)], [.. events]);
    }

    private static TraceGraph? OfPerson(Register register, string id, IReadOnlyList<int> said)
    {
        if (register.Person(id) is not { } person) return null;
        List<int> bearing = [.. said.Where(s => Array.Exists(Bearing, k => register.IsOfKind(s, k)) && register.Counts(s))];
        // The newest are shown; all are counted.
        var nodes = bearing.AsEnumerable().Reverse().Take(Most).Select(s => Node(register.Source.Read(s))).OfType<GraphNode>();
        return new(Node(person), [], [.. nodes], Math.Max(0, bearing.Count - Most));
    }

    private static TraceGraph? OfEvent(Register register, string id)
    {
        if (Tracer.Of(register, id) is not { } trace) return null;
        var glance = EventVerdict.Of(trace);
        var stations = StationVerdict.GravestFirst(glance.Stations).Select(s => Node(id, s, s.Station));
        var campaign = register.Campaign(trace.Event.Campaign)?.Name ?? trace.Event.Campaign;
        var here = Node(trace.Event) with { Verdict = glance.Verdict };
        return new(here, [.. stations], [new("campaign", trace.Event.Campaign, campaign, "")], 0);
    }

    private static TraceGraph? OfStation(Register register, string id)
    {
        if (id.Split('|') is not [var what, var station]
            || Tracer.Of(register, what, station) is not { } trace
            || trace.Stations.Count == 0)
        {
            return null;
        }
        var below = trace.Stations.SelectMany(Below).DistinctBy(n => (n.Kind, n.Id));
        var own = EventVerdict.Of(trace).Stations[0];
        return Made(Node(what, own, $"{station} during {trace.Event.Name}"), below, [Node(trace.Event)]);

        IEnumerable<GraphNode> Below(StationTrace s)
        {
            var checks = new[] { s.Before, s.After }.OfType<CheckRecord>().Select(k => Node(register, k));
            var certificates = s.Links.Select(l => l.Certificate).OfType<DeviceCertificate>().Concat(s.Curves.Select(k => k.Certificate));
            GraphNode[] placed = s.Placement is { } placement ? [Node(placement)] : [];
            return [.. s.Chain.Select(Node), .. placed, .. checks, .. certificates.Select(Node), .. s.InPlace.Select(Compared)];
        }

        static GraphNode Compared(InPlaceEvidence k) => new(
            "text", k.Fact.ToString(), FormattableString.Invariant($"Compared in place with {k.Chains - 1} others"),
            QuantityText.Change(k.MovedDb, "dB", 2));
    }

    private static TraceGraph Made(GraphNode here, IEnumerable<GraphNode> below, IReadOnlyList<GraphNode> above) =>
        new(here, [.. below], [.. above.Take(Most)], Math.Max(0, above.Count - Most));

    // Events first, since they are what is asked for; some checks beside them.
    private static IEnumerable<GraphNode> Mixed(List<GraphNode> events, List<GraphNode> checks) =>
        events.Take(Most * 2 / 3).Concat(checks).Concat(events.Skip(Most * 2 / 3));

    // Who stated a fact; an import has no person.
    private static IEnumerable<GraphNode> Stated(Register register, string author) => register.Person(author) is { } person ? [Node(person)] : [];

    private static GraphNode Node(PersonState p) => new("person", p.Id, p.Name, "stated it");

    private static GraphNode Node(string @event, StationVerdict s, string label) =>
        new("station", $"{@event}|{s.Station}", label, s.Verdict.InWords + (s.IsSwapped ? ", a part was swapped" : ""))
        {
            Verdict = s.Verdict,
            IsSwapped = s.IsSwapped,
        };

    private static GraphNode Node(Placement p) => Placed(p.Fact, p.Station, p.Said.Swap is not null, EventBook.Minute(p.From));

    private static GraphNode Placed(FactId fact, string station, bool isSwapped, string when) =>
        new("placement", fact.ToString(), isSwapped ? $"Part swapped at {station}" : $"Chain placed at {station}", when)
        {
            IsSwapped = isSwapped,
        };

    private static GraphNode? Node(Fact fact) => fact.Body switch
    {
        ChainChecked check => new("check", fact.Id.ToString(), $"Check of {check.Station ?? "a bench"}", Words(fact.Occurred.Day)),
        ChainPlaced placed => Placed(fact.Id, placed.Station, placed.Swap is not null, fact.Occurred.Minute),
        ChainPlacedBriefly placed => Placed(fact.Id, placed.Station, false, fact.Occurred.Minute),
        CertificateIssued issued => new(
            "certificate", fact.Id.ToString(), $"{issued.Quantity} certificate of {fact.Occurred.Day:yyyy-MM-dd}", issued.Laboratory ?? ""),
        EventHappened or EventRecorded => RecordedEvent.Of(fact) is { } e ? Node(e) : null,
        _ => null,
    };

    private static GraphNode Node(DeviceState d) => new("device", d.Id, d.Name, d.Place ?? "");

    private static GraphNode Node(DeviceCertificate c) =>
        new("certificate", c.Fact.ToString(), $"{c.Issued.Quantity} certificate of {c.Day:yyyy-MM-dd}", c.Issued.Laboratory ?? "");

    private static GraphNode Node(RecordedEvent e) => new("event", e.Id, e.Name, EventBook.Minute(e.StartMs));

    private static GraphNode Node(Register register, CheckRecord k)
    {
        var campaign = k.Campaign is { } id ? ", " + (register.Campaign(id)?.Name ?? id) : "";
        return new("check", k.Fact.ToString(), $"Check of {k.Check.Station ?? "a bench"}{campaign}", Words(k.Day));
    }

    private static string Words(DateOnly day) => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}

using System.Globalization;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows that speak of campaigns, their stations with chains, and what goes along.</summary>
internal sealed class CampaignRows(ImportSession session)
{
    /// <summary>What stands for no offset at all.</summary>
    public const string Utc = "utc";

    private readonly Dictionary<(string Campaign, KitPurpose Purpose), List<string>> _kits = [];
    private readonly Dictionary<string, CampaignPlanned> _plans = new(StringComparer.Ordinal);
    private readonly HashSet<(string Campaign, string Station)> _torn = [];
    private Dictionary<string, StationPositions> _positions = [];

    /// <summary>Id of the campaign that was named last: rows that name none are of it.</summary>
    public string? Last { get; set; }

    /// <summary>The id of a campaign that is known by its name: the name itself where it is plain, otherwise with a hash of it.</summary>
    public static string IdOf(string name)
    {
        var plain = string.Join('-', Column.Plain(name).Split(' ', StringSplitOptions.RemoveEmptyEntries)).ToUpperInvariant();
        var isPlain = plain.Length is > 0 and <= 50 && name.All(c => char.IsAsciiLetterOrDigit(c) || c is ' ' or '-' or '_' or '.');
        return isPlain ? plain : $"{plain[..Math.Min(30, plain.Length)]}-{MicRegister.Register.People.PersonState.IdOf("campaign " + DeviceIdentity.Normal(name))}".TrimStart('-');
    }

    public RowOutcome TakeCampaign(RowReader row, string sheet)
    {
        var name = row.Text(Column.Campaign) ?? throw Missing(row, Column.Campaign);
        var first = row.Day(Column.FirstDay) ?? throw Missing(row, Column.FirstDay);
        var last = row.Day(Column.LastDay) ?? throw Missing(row, Column.LastDay);
        if (last < first) throw row.Refused(Column.LastDay, $"it lies before the first day, {first:yyyy-MM-dd}");
        if (last.DayNumber - first.DayNumber > 400) throw row.Refused(Column.LastDay, "a campaign lasts at most 400 days");
        var zone = row.Text(Column.Zone) ?? throw Missing(row, Column.Zone);
        var profile = row.Text(Column.Profile) ?? throw Missing(row, Column.Profile);
        if (session.Register.Profile(profile) is null && !session.Profiles.Contains(profile))
            throw row.Refused(Column.Profile, "allowed are "
                + string.Join(", ", session.Register.ProfileIds.Concat(session.Profiles).Order(StringComparer.Ordinal)));
        double low = row.Number(Column.BandFrom, "Hz", 0.1, 200_000) ?? throw Missing(row, Column.BandFrom),
            high = row.Number(Column.BandTo, "Hz", 1, 200_000) ?? throw Missing(row, Column.BandTo);
        if (high <= low) throw row.Refused(Column.BandTo, $"it is not above the lowest, {low} Hz");
        var plan = new CampaignPlanned(
            name, first, last, zone, Offsets(row, zone, first, last), row.Text(Column.Site) ?? "",
                row.Number(Column.Altitude, "m", -500, 6000) ?? throw Missing(row, Column.Altitude),
            row.Word(Column.Source, Words.Source, ["jet", "propeller", "small multirotor", "other"]) ?? throw Missing(row, Column.Source),
                low, high,
            row.Number(Column.QuietDb, "dB", -20, 200), row.Number(Column.LoudDb, "dB", 0, 200), profile,
            (int)(row.Number(Column.Losses, "", 0, 10_000) ?? 0), (int?)row.Number(Column.SparesWanted, "", 0, 10_000))
        {
            TrackDeg = row.Number(Column.Track, "°", 0, 360),
        };

        var id = row.Id(Column.CampaignId) ?? IdOf(name);
        Last = id;
        if (name.Length > 150) throw row.Refused(Column.Campaign, "a name has at most 150 characters");
        if (!session.Campaigns.Add(id))
        {
            var twice = row.Refused(Column.Campaign, "it stands twice; a campaign has one row");
            throw _plans.TryGetValue(id, out var other) && Same(other, plan) ? twice
                : session.Torn.Against(Subject.Campaign(id), "plan", row, twice);
        }
        _plans[id] = plan;
        session.Torn.Says(Subject.Campaign(id), "plan", row);
        var known = session.Register.Campaign(id)?.Plan;
        if (known is not null) plan = Kept(plan, known);
        if (known is not null && Same(known, plan)) return new(sheet, row.Row.Number, RowSort.AlreadyThere, name);
        var isNew = session.StateCampaign(plan, known is null ? Occurred.Unknown : null, 6, id, []);
        var sort = known is not null ? RowSort.Changed : isNew ? RowSort.New : RowSort.AlreadyThere;
        return new(sheet, row.Row.Number, sort, $"campaign {name}")
        { Changes = PlannedChanges.Of(known, plan), Name = name };
    }

    /// <summary>Looks at a table of stations as a whole, before its rows are taken one by one.</summary>
    public void Begin(TableReading table, string sheet, ImportMapping rules)
    {
        _torn.Clear();
        var said = new Dictionary<string, Dictionary<string, StationPositions.Spot>>(StringComparer.Ordinal);
        foreach (var row in table.Rows.Where(r => r.Fault is null).Select(r => table.Reader(r)))
        {
            try
            {
                if (row.Text(Column.Station) is not { } station) continue;
                var plan = PlanOf(row, station, row.Word(Column.Mount, Words.MountOf, []) ?? Mount.GroundStand);
                var campaign = CampaignOf(row);
                if (!said.TryGetValue(campaign, out var spots)) said[campaign] = spots = new(StringComparer.Ordinal);
                var spot = StationPositions.Spot.Of(plan);
                if (!spots.TryAdd(station, spot) && spots[station] != spot) _torn.Add((campaign, station));
            }
            catch (RowProblem)
            {
                continue; // said when the row is taken
            }
        }
        _positions = said.ToDictionary(
            s => s.Key,
            s => new StationPositions(
                [
                    .. s.Value.Values,
                    .. (session.Register.Campaign(s.Key)?.Stations.Values ?? []).Where(p => !s.Value.ContainsKey(p.Station))
                        .Select(StationPositions.Spot.Of),
                ],
                s.Value.Keys.ToHashSet(StringComparer.Ordinal), rules, sheet),
            StringComparer.Ordinal);
    }

    public RowOutcome TakeStation(RowReader row, string sheet)
    {
        var campaign = CampaignOf(row);
        var station = row.Text(Column.Station) ?? throw Missing(row, Column.Station);
        var mount = row.Word(Column.Mount, Words.MountOf, ["flush plate", "inverted plate", "ground stand", "pole"])
            ?? throw Missing(row, Column.Mount);
        var plan = PlanOf(row, station, mount);
        if (_torn.Contains((campaign, station)) && !row.IsChecked)
            throw row.Questioned(Column.Station, "another row puts it elsewhere; leave the right one");
        var devices = new List<string>();
        foreach (var (column, kind) in Column.Parts)
        {
            if (row.Text(column) is { } serial) devices.Add(Find(row, column, kind, serial).Id);
        }
        foreach (var other in row.Text(Column.StationOthers)?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [])
            devices.Add(OfId(row, Column.StationOthers, other).Id);

        var state = session.Register.Campaign(campaign);
        // A cell loses outer blanks.
        station = state?.Stations.Keys.FirstOrDefault(k => CellText.Same(k, station)) ?? station;
        plan = plan with { Station = station };
        if (state?.Stations.GetValueOrDefault(station) is not { } stands
            || (stands.LatitudeDeg, stands.LongitudeDeg) != (plan.LatitudeDeg, plan.LongitudeDeg))
        {
            var (latitude, longitude) = _positions[campaign].Settle(row, station, plan.LatitudeDeg, plan.LongitudeDeg);
            plan = plan with { LatitudeDeg = latitude, LongitudeDeg = longitude };
        }
        Occurred? when = state?.Stations.ContainsKey(station) == true ? null : Occurred.Unknown;
        var said = new List<string>();
        var changes = new List<FieldChange>();
        var known = state?.Stations.GetValueOrDefault(station);
        if (known != plan && session.StateCampaign(plan, when, 7, campaign, []))
        {
            said.Add("position");
            changes.AddRange(PlannedChanges.Of(known, plan));
        }
        IReadOnlyList<string> chain = state?.Chains.GetValueOrDefault(station, []) ?? [];
        if (devices.Count > 0 && !chain.Select(Kept).ToHashSet().SetEquals(devices)
            && session.StateCampaign(new ChainPlanned(station, devices), when, 8, campaign, devices))
        {
            said.Add("chain");
            if (chain.Count > 0) changes.Add(new("Chain", Names(chain), Names(devices)));
        }
        var sort = said.Count == 0 ? RowSort.AlreadyThere : when is not null ? RowSort.New : RowSort.Changed;
        return new(sheet, row.Row.Number, sort, $"station {station}{(said.Count > 0 ? ": " + string.Join(", ", said) : "")}")
        { Changes = changes, Name = $"station {station}" };
    }

    private static StationPlanned PlanOf(RowReader row, string station, Mount mount) => new(
        station, row.Number(Column.Latitude, "°", -90, 90) ?? throw Missing(row, Column.Latitude),
        row.Number(Column.Longitude, "°", -180, 180) ?? throw Missing(row, Column.Longitude),
        mount, row.Number(Column.Height, "m", 0, 50));

    private string Names(IEnumerable<string> devices) => string.Join(", ", devices.Select(session.Lookup.NameOf));

    public RowOutcome TakeKit(RowReader row, string sheet)
    {
        var campaign = CampaignOf(row);
        var purpose = row.Word(Column.Purpose, Words.Purpose, ["spare", "check"]) ?? throw Missing(row, Column.Purpose);
        var id = row.Id(Column.DeviceId);
        var serial = row.Text(Column.Serial) ?? (id is null ? throw Missing(row, Column.Serial) : "");
        var kind = row.Text(Column.Kind) is { } words ? Words.Kind(words) ?? throw row.Refused(Column.Kind, "it is no kind of device")
            : null;
        var device = id is not null && session.Lookup.OfId(id) is { } stated ? stated
            : serial.Length > 0 ? Find(row, Column.Serial, kind, serial) : OfId(row, Column.DeviceId, id!);
        if (!_kits.TryGetValue((campaign, purpose), out var kit)) _kits[(campaign, purpose)] = kit = [];
        if (!kit.Contains(device.Id)) kit.Add(device.Id);
        var isThere = session.Register.Campaign(campaign)?.KitOf(purpose).Select(Kept).Contains(device.Id) == true;
        return new(sheet, row.Row.Number, isThere ? RowSort.AlreadyThere : RowSort.New, $"{purpose}: {device.Name}");
    }

    /// <summary>States the lists of what goes along, each as a whole.</summary>
    public void Finish()
    {
        foreach (var ((campaign, purpose), kit) in _kits.OrderBy(k => k.Key.Campaign, StringComparer.Ordinal).ThenBy(k => k.Key.Purpose))
        {
            List<string> known = [.. (session.Register.Campaign(campaign)?.KitOf(purpose) ?? []).Select(Kept)];
            if (kit.All(known.Contains)) continue;
            List<string> all = [.. known, .. kit.Where(d => !known.Contains(d))];
            session.StateCampaign(new KitPlanned(purpose, all), known.Count == 0 ? Occurred.Unknown : null, 9, campaign, all);
        }
        _kits.Clear();
    }

    private string CampaignOf(RowReader row)
    {
        if (row.Id(Column.CampaignId) is { } stated
            && (session.Campaigns.Contains(stated) || session.Register.Campaign(stated) is not null)) return stated;
        if (row.Text(Column.Campaign) is { } name)
        {
            var id = IdOf(name);
            return session.Campaigns.Contains(id) || session.Register.Campaign(id) is not null ? id
                : throw row.Refused(Column.Campaign, "no campaign of that name is known");
        }
        return Last ?? (session.Register.CampaignIds.ToList() is [var only] ? only : throw Missing(row, Column.Campaign));
    }

    // A cell loses outer blanks, and a row without a site says nothing of it: that is no change.
    private static CampaignPlanned Kept(CampaignPlanned said, CampaignPlanned known) => said with
    {
        Name = CellText.Same(said.Name, known.Name) ? known.Name : said.Name,
        Zone = CellText.Same(said.Zone, known.Zone) ? known.Zone : said.Zone,
        Site = said.Site.Length == 0 || CellText.Same(said.Site, known.Site) ? known.Site : said.Site,
    };

    // The same device by the entry that was kept.
    private string Kept(string device) => session.Register.EntriesOf(device)[0];

    private PlannedDevice OfId(RowReader row, Column column, string id) =>
        session.Lookup.OfId(id) ?? throw row.Refused(column, $"no device with the id '{id}' is known");

    private PlannedDevice Find(RowReader row, Column column, DeviceKind? kind, string serial) =>
        session.Lookup.Find(kind, null, null, serial, null) ?? session.Lookup.Find(kind, null, null, null, serial)
        ?? (session.Lookup.OfId(serial) is { } stated && (kind is null || stated.Kind == kind.Key) ? stated : null)
        ?? throw row.Refused(column, $"no {(kind?.Label ?? "device").ToLowerInvariant()} with that serial number is known");

    // The zone's offsets over the campaign go into the fact: whoever folds it asks no machine's zone data.
    private static IReadOnlyList<ZoneOffset> Offsets(RowReader row, string zone, DateOnly first, DateOnly last)
    {
        if (row.Text(Column.Offset) is { } stated)
        {
            if (stated == Utc) return [];
            if (stated.Contains('=', StringComparison.Ordinal)) return Several(row, stated);
            var minutes = Minutes(stated) ?? throw row.Refused(Column.Offset, "write minutes, or ±hh:mm");
            return [new(Occurred.At(new DateTimeOffset(first, TimeOnly.MinValue, TimeSpan.Zero)).ToString(), minutes)];
        }
        return ZoneData.Offsets(zone, first, last)
            ?? throw row.Refused(Column.Zone, "this machine does not know the zone; write an IANA name such as Europe/Lisbon, or give the offset from UTC in a column of its own");
    }

    private static List<ZoneOffset> Several(RowReader row, string stated)
    {
        var offsets = new List<ZoneOffset>();
        foreach (var one in stated.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (one.Split('=') is not [var from, var text] || Minutes(text) is not { } minutes)
                throw row.Refused(Column.Offset, $"'{one}': write INSTANT=MINUTES, such as 2026-03-29T01:00:00.000Z=120");
            offsets.Add(new(from, minutes));
        }
        return ZoneOffsets.Wrong(offsets) is not { } wrong ? offsets : throw row.Refused(Column.Offset, wrong);
    }

    private static int? Minutes(string text)
    {
        if (int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture,
            out var minutes)) return Math.Abs(minutes) <= 900 ? minutes : null;
        var sign = text.StartsWith('-') ? -1 : 1;
        return TimeSpan.TryParseExact(text.TrimStart('+', '-'), @"hh\:mm", CultureInfo.InvariantCulture, out var span)
            ? sign * (int)span.TotalMinutes : null;
    }

    // Lists do not compare by content.
    private static bool Same(CampaignPlanned a, CampaignPlanned b) => a.Offsets.SequenceEqual(b.Offsets)
        && a with { Offsets = b.Offsets } == b;

    private static RowProblem Missing(RowReader row, Column column) =>
        new(RowSort.Refused, $"{column.Meaning} is missing.", row.HeaderOf(column), "");
}

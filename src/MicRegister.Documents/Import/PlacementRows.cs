using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using Own = MicRegister.Documents.Import.DiaryColumns;

namespace MicRegister.Documents.Import;

/// <summary>
/// Takes rows that say what stood where: chains placed, parts swapped, chains taken in, in the order of time whatever that of the rows.
/// </summary>
internal sealed class PlacementRows(ImportSession session)
{
    private const int RankOfTakingIn = 20;
    private const int RankOfPlacing = 21;

    private static readonly Dictionary<string, Sort> Actions = new (Sort Sort, string[] Words)[]
    {
        (Sort.Place, ["placed", "place", "set up", "setup", "laid out", "deployed", "aufgebaut", "aufbau", "gestellt", "pose",
            "mise en place", "colocado",            "montado", "posato", "montato", "geplaatst"]),
        (Sort.Swap, ["swapped", "swap", "exchanged", "exchange", "replaced", "getauscht", "tausch", "ausgetauscht", "gewechselt",
            "echange", "change",            "remplace", "cambiado", "sustituido", "cambiato", "sostituito", "verwisseld", "vervangen"]),
        (Sort.TakeIn, ["taken in", "take in", "taken down", "recovered", "recovery", "collected", "abgebaut", "abbau", "eingeholt",
            "releve", "repris",            "recogido", "recuperado", "ritirato", "smontato", "binnengehaald", "opgehaald"]),
    }.SelectMany(a => a.Words.Select(w => (w, a.Sort))).ToDictionary(a => a.w, a => a.Sort, StringComparer.Ordinal);

    private readonly DiaryDevices _devices = new(session);

    private enum Sort
    {
        TakeIn,
        Place,
        Swap,
    }

    public void Take(CampaignState campaign, List<DiaryRow> rows)
    {
        var register = session.Ahead;
        var now = new Outdoors(register, campaign, new(register, campaign.Id));
        var acts = new List<Act>();
        foreach (var row in rows)
        {
            List<Act>? own = null;
            if (row.Try(() => own = [.. Read(row, campaign)])) acts.AddRange(own!);
        }
        Join(acts);
        // Where rows of one chain are apart, one that is bad leaves the chain incomplete.
        foreach (var bad in rows.Where(r => r.IsPutAside).ToList())
        {
            if (PartOf(bad, campaign) is not { } chain) continue;
            foreach (var act in acts.Where(a => a.Sort == Sort.Place && a.Station == chain.Station && a.At == chain.At).ToList())
                Wait(acts, act, bad.Number);
        }
        DoubleStays.PutAside([.. acts.Where(a => !a.Rows.Exists(r => r.IsPutAside)).Select(a => new DoubleStays.Step(
            a.Station, a.At, a.Sort == Sort.TakeIn, a.Sort == Sort.Swap,
            [.. a.Devices.Append(a.In).OfType<string>().Where(d => register.Device(d)?.Kind == DeviceKind.Microphone.Key)], a.Rows))],
            campaign.Plan?.Offsets ?? [], d => register.Device(d)!.Name);
        foreach (var act in acts.OrderBy(a => a.At.UnixMilliseconds).ThenBy(a => a.Sort == Sort.TakeIn ? 0 : 1))
        {
            // A row that says two things is taken with both of them or not at all.
            if (act.Rows.Exists(r => r.IsPutAside)) continue;
            var (isNew, text) = (false, "");
            if (!act.Rows[0].Try(() => (isNew, text) = State(act, now)))
            {
                foreach (var row in act.Rows.Skip(1)) row.Became(Wrong(act, act.Rows[0].Outcome!.Text));
                continue;
            }
            foreach (var row in act.Rows)
            {
                var before = row.Outcome;
                row.Became(
                    isNew || before?.Sort == RowSort.New ? RowSort.New : RowSort.AlreadyThere,
                    before is null ? text : $"{before.Text}; {text}");
            }
        }
        foreach (var row in rows.Where(r => r.IsOpen))
            row.Became(Wrong(row.Reader.Text(Column.Station) ?? "", "another row of the same chain cannot be taken"));
    }

    private IEnumerable<Act> Read(DiaryRow row, CampaignState campaign)
    {
        var (reader, offsets) = (row.Reader, campaign.Plan?.Offsets ?? []);
        var station = row.Must(Column.Station);
        var (outgoing, incoming) = (reader.Text(Own.Out), reader.Text(Own.In));
        var sort = reader.Word(Own.Action, w => Actions.TryGetValue(Column.Plain(Sheets.FoldedText.Of(w)), out var a) ? a : (Sort?)null,
            ["placed", "swapped", "taken in"]) ?? (outgoing is not null || incoming is not null ? Sort.Swap : Sort.Place);
        var chain = new List<string>();
        foreach (var (column, kind) in Column.Parts)
        {
            if (_devices.One(row, column, kind) is { } part) chain.Add(part);
        }
        chain.AddRange(_devices.Several(row, Column.Serial));
        if (chain.GroupBy(d => d, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
            throw new RowProblem(RowSort.Refused, $"{session.Ahead.Device(twice.Key)!.Name} is named twice", null, station);
        var time = DiaryTimes.Of(reader, Own.Time, Own.Clock);
        var takenIn = reader.Text(Own.TakenIn) is null ? null : DiaryTimes.Of(reader, Own.TakenIn);
        if (sort == Sort.TakeIn || (takenIn is not null && reader.Text(Own.Action) is null))
            yield return Made(Sort.TakeIn, (takenIn ?? time)?.At(row.Reader, offsets) ?? throw row.MissingOf(Own.TakenIn));
        if (sort == Sort.TakeIn || (takenIn is not null && time is not { Clock: not null } && chain.Count == 0)) yield break;
        if (sort == Sort.Place && chain.Count == 0)
            throw new RowProblem(RowSort.Refused, "no device is named by its serial number", reader.HeaderOf(Column.Serial), "");
        if (sort == Sort.Swap && chain.Count == 0 && (outgoing is null || incoming is null))
            throw row.MissingOf(outgoing is null ? Own.Out : Own.In);
        if (takenIn is not null && time?.At(reader, offsets) is { } from && takenIn.At(reader, offsets) is var until
            && until.UnixMilliseconds <= from.UnixMilliseconds)
        {
            throw reader.Refused(Own.TakenIn, $"it is not after it was placed, {from}");
        }
        yield return Made(sort, time?.At(row.Reader, offsets) ?? throw row.MissingOf(Own.Time));

        Act Made(Sort what, Occurred at)
        {
            if (at.Day > session.Today.AddDays(1)) throw reader.Refused(Own.Time, $"it lies after today, {session.Today:yyyy-MM-dd}");
            return new(what, station, at, [row])
            {
                Devices = what == Sort.TakeIn && sort != Sort.TakeIn ? [] : chain,
                Out = _devices.One(row, Own.Out, null),
                In = _devices.One(row, Own.In, null),
                Missing = what == Sort.TakeIn ? _devices.Several(row, Own.Missing) : [],
            };
        }
    }

    // One device a row: rows of one station and time are one chain.
    private static void Join(List<Act> acts)
    {
        foreach (var group in acts.Where(a => a.Sort == Sort.Place).GroupBy(a => (a.Station, a.At)).Where(g => g.Count() > 1).ToList())
        {
            var first = group.First();
            var isTorn = group.Skip(1).Any(o => o.Rows[0].Reader.Header.Has(Column.Parts[0].Column))
                || group.SelectMany(a => a.Devices).GroupBy(d => d, StringComparer.Ordinal).Any(g => g.Count() > 1);
            foreach (var other in group.Where(a => isTorn || a != first))
            {
                if (isTorn)
                {
                    // Nobody knows which of them is right.
                    var rival = group.First(a => a != other).Rows[0].Number;
                    other.Rows[0].Became(new RowProblem(RowSort.Refused,
                        $"another chain is placed at {first.Station} at that time in row {rival}", null, first.Station));
                    continue;
                }
                first.Devices = [.. first.Devices, .. other.Devices];
                first.Rows.AddRange(other.Rows);
            }
            acts.RemoveAll(a => (isTorn ? group : group.Skip(1)).Contains(a));
        }
    }

    private static (string Station, Occurred At)? PartOf(DiaryRow row, CampaignState campaign)
    {
        try
        {
            return row.Reader.Text(Column.Station) is { } station
                && DiaryTimes.Of(row.Reader, Own.Time, Own.Clock)?.At(row.Reader, campaign.Plan?.Offsets ?? []) is { } at
                ? (station, at)
                : null;
        }
        catch (RowProblem)
        {
            return null;
        }
    }

    private static void Wait(List<Act> acts, Act act, int bad)
    {
        foreach (var row in act.Rows)
        {
            row.Became(new RowProblem(
                RowSort.Questioned,
                FormattableString.Invariant($"row {bad} is of the same chain and cannot be taken; this one waits for it"),
                null, act.Station));
        }
        acts.Remove(act);
    }

    private (bool IsNew, string Text) State(Act act, Outdoors now)
    {
        var (row, at) = (act.Rows[0], act.At.UnixMilliseconds);
        var stood = now.Standing.Before(act.Station, at);
        if (act.Sort == Sort.TakeIn)
        {
            if (stood.Count == 0) throw Wrong(act, $"nothing stood at {act.Station} at {act.At}");
            List<string> came = act.Devices.Count > 0 ? act.Devices : [.. stood.Except(act.Missing)];
            var taken = DiaryRow.Decided(DeploymentDecisions.TakeIn(
                now.Register, ImportSession.Saying(act.At, RankOfTakingIn), now.Campaign.Id,
                new(act.Station, came, act.Missing, row.Remark())));
            var isThere = now.Standing.IsTakenIn(act.Station, at) && !now.Register.Knows(taken[0].Id);
            now.Standing.TakeIn(act.Station, at);
            return (!isThere && session.StateAll(taken), $"{act.Station} taken in");
        }
        var (devices, swap) = act.Sort == Sort.Swap ? Swapped(act, stood, row, now.Register) : ([.. act.Devices], null);
        var rank = RankOfPlacing + now.Standing.PlacedNow(act.Station, at);
        var placed = DiaryRow.Decided(DeploymentDecisions.Place(
            now.Register, ImportSession.Saying(act.At, rank), now.Campaign.Id,
            new(
                act.Station, devices, [], row.Reader.Number(Column.Gap, "mm", 0, 50),
                row.Reader.Word(Own.Flush, Words.YesNo, ["yes", "no"]), null, row.Reader.Number(Own.Range, "V", 0.001, 1000), swap, [],
                row.Remark())));
        var other = now.Register.Knows(placed[0].Id) ? null : now.Standing.PlacedAt(act.Station, at);
        if (other?.ToHashSet(StringComparer.Ordinal).SetEquals(devices) == false)
            throw Wrong(act, $"the register holds another chain that was placed at {act.Station} at {act.At}; annul that first");
        now.Standing.Place(act.Station, at, devices);
        return (other is null && session.StateAll(placed), $"{act.Station}: {Named(now.Register, devices)}");
    }

    private static (List<string> Devices, PartSwap? Swap) Swapped(
        Act act, IReadOnlyList<string> stood, DiaryRow row, Register.Register register)
    {
        if (stood.Count == 0) throw Wrong(act, $"nothing stood at {act.Station} at {act.At}");
        var reason = row.Reader.Text(Own.Reason) ?? "no reason was written down";
        if (act is { Out: { } gone, In: { } stands })
        {
            if (!stood.Contains(gone))
                throw row.Reader.Refused(Own.Out, $"it did not stand at {act.Station} at {act.At}; {Named(register, stood)} did");
            if (stood.Contains(stands)) throw row.Reader.Refused(Own.In, $"it stood at {act.Station} already");
            return ([.. stood.Select(d => d == gone ? stands : d)], new(gone, stands, reason));
        }
        // The new parts alone are named: each stands in for the one of its kind.
        var devices = stood.ToList();
        PartSwap? swap = null;
        foreach (var part in act.Devices.Where(d => !stood.Contains(d)))
        {
            var kind = register.Device(part)!.Kind;
            if (devices.FindAll(d => register.Device(d)!.Kind == kind) is not [var old])
                throw Wrong(act, $"which part {register.Device(part)!.Name} stands in for is not clear; name it");
            devices[devices.IndexOf(old)] = part;
            swap = new(old, part, reason);
        }
        return swap is null ? throw Wrong(act, $"it names no part that did not stand at {act.Station} already")
            : (devices, swap);
    }

    private static string Named(Register.Register register, IEnumerable<string> devices) =>
        string.Join(", ", devices.Select(d => register.Device(d)?.Name ?? d));

    private static RowProblem Wrong(Act act, string why) => Wrong(act.Station, why);

    private static RowProblem Wrong(string station, string why) => new(RowSort.Refused, why, null, station);

    private sealed record Outdoors(Register.Register Register, CampaignState Campaign, StandingChains Standing);

    private sealed record Act(Sort Sort, string Station, Occurred At, List<DiaryRow> Rows)
    {
        public List<string> Devices { get; set; } = [];

        public IReadOnlyList<string> Missing { get; init; } = [];

        public string? Out { get; init; }

        public string? In { get; init; }
    }
}

using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Register.Readiness;
using MicRegister.Server.Accounts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Outdoors;

/// <summary>All that a crew's phone needs of a campaign where no network is.</summary>
/// <param name="Campaign">The campaign.</param>
/// <param name="Speaker">Who the phone speaks as.</param>
/// <param name="Sequence">Newest fact that it knows.</param>
/// <param name="MadeAt">When it was made.</param>
/// <param name="Today">Day as of which was judged.</param>
/// <param name="Limits">Limits of the requirement profile that count outdoors.</param>
/// <param name="Stations">Stations in order of their names.</param>
/// <param name="Devices">
/// Those of the plan, and those that were placed or checked there, up to a number; of others of the fleet no more than a label, a name or
/// a serial in a crew's hands needs to be told by, and whether they are fit to be used at all.
/// </param>
/// <param name="Elsewhere">Devices that stand in another campaign right now, and where.</param>
internal sealed record FieldKit(
    FieldKit.CampaignPart Campaign, FieldKit.SpeakerPart Speaker, int Sequence, DateTimeOffset MadeAt, DateOnly Today,
    FieldKit.LimitPart Limits, IReadOnlyList<FieldKit.StationPart> Stations, IReadOnlyList<FieldKit.DevicePart> Devices,
    IReadOnlyDictionary<string, string> Elsewhere)
{
    /// <summary>What the keys in it are called.</summary>
    public FieldWords Words { get; } = FieldWords.All;

    /// <summary>Which checks belong together.</summary>
    public required TestPart Tests { get; init; }

    /// <summary>Most devices beside those of the plan: the rest of a large fleet is not carried outdoors.</summary>
    private const int MostOthers = 3000;

    // Whoever holds a phone can say of any device that it was placed: what the fleet's certificates say is not read out that way.
    private const int MostUnplanned = 40;

    private const int ChecksOfStation = 4;

    private static readonly HashSet<string> OutdoorKinds =
    [
        DeviceKind.Microphone.Key, DeviceKind.Preamplifier.Key, DeviceKind.GroundPlate.Key, DeviceKind.RecorderChannel.Key,
        DeviceKind.Calibrator.Key, DeviceKind.Adapter.Key,
    ];

    private static readonly DeviceField[] Fitting =
    [
        DeviceField.ResponseType, DeviceField.SizeMm, DeviceField.FitsMm, DeviceField.PolarisationV, DeviceField.Powering,
        DeviceField.Connector, DeviceField.PlateStyle, DeviceField.ChannelRangeV,
    ];

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    // Worked out once a state for all phones that ask; who asks is filled in after.
    private static readonly ConditionalWeakTable<Register.Register, Dictionary<string, FieldKit>> Made = [];

    /// <summary>A kit as bytes, with a tag that changes when what it says does.</summary>
    internal sealed record Packed(byte[] Bytes, string Tag);

    /// <summary>The kit of a campaign; null where it has no plan.</summary>
    public static Packed? Of(Desk desk, string campaign, Speaker speaker, DateTimeOffset now)
    {
        var register = desk.Now;
        if (register.Campaign(campaign) is not { Plan: { } plan } state) return null;
        FieldKit kit;
        var made = Made.GetOrCreateValue(register);
        lock (made)
        {
            var key = $"{campaign} {desk.Today.DayNumber} {register.DriftMemory.Version}";
            if (!made.TryGetValue(key, out kit!)) made[key] = kit = Make(desk, register, state, plan, now);
        }
        kit = kit with { Speaker = new(speaker.Person, PersonState.IdOf(speaker.Person), speaker.Client) };
        // Two kits that differ in when they were made alone say the same.
        var sequence = register.Version(Register.Facts.Subject.Campaign(campaign));
        var said = JsonSerializer.SerializeToUtf8Bytes(kit with { Sequence = sequence, MadeAt = default }, Json);
        var tag = $"\"{Convert.ToHexStringLower(SHA256.HashData(said))[..20]}\"";
        return new(JsonSerializer.SerializeToUtf8Bytes(kit with { MadeAt = now }, Json), tag);
    }

    private static FieldKit Make(Desk desk, Register.Register register, CampaignState campaign, CampaignPlanned plan, DateTimeOffset now)
    {
        var profile = register.Profile(plan.Profile) ?? new(plan.Profile, new(plan.Profile, "", []), null, false);
        var deployment = ArrayDeployment.Of(register, campaign.Id);
        var checks = desk.Checks(register, campaign.Id);
        var standing = StationStanding.Of(register, campaign, deployment, checks).ToDictionary(s => s.Station);
        var byStation = checks.Where(c => c.Check.Station is not null).ToLookup(c => c.Check.Station!);
        var verdicts = desk.Judge(register, campaign.Id) is { } report ? DeviceVerdicts.Of(register, report) : [];
        var planned = campaign.Chains.SelectMany(c => c.Value.Select(d => (Device: register.EntriesOf(d)[0], Station: c.Key)))
            .GroupBy(x => x.Device, x => x.Station).ToDictionary(g => g.Key, g => g.First());
        var spares = campaign.KitOf(KitPurpose.Spare).Select(d => register.EntriesOf(d)[0]).ToHashSet();
        var inPlan = campaign.Devices.Select(d => register.EntriesOf(d)[0]).ToHashSet(StringComparer.Ordinal);
        var unplanned = deployment.Placements.SelectMany(p => p.Devices).Concat(checks.SelectMany(Parts))
            .Select(d => register.EntriesOf(d)[0]).Where(d => !inPlan.Contains(d)).Distinct(StringComparer.Ordinal).Take(MostUnplanned);
        var own = inPlan.Concat(unplanned).ToList();
        var carried = own.ToHashSet(StringComparer.Ordinal);
        var others = register.DeviceIds.Where(d => !carried.Contains(d)).Select(d => register.Device(d)!)
            .Where(d => d.Kind is not null && OutdoorKinds.Contains(d.Kind) && d.Status is not DeviceStatus.Retired).Take(MostOthers);
        var book = register.Drift(desk.Today);
        List<DevicePart> devices =
        [
            .. own.Select(d => register.Device(d)).OfType<DeviceState>().Select(d => Device(
                register, d, profile, planned.GetValueOrDefault(d.Id), inPlan.Contains(d.Id), spares.Contains(d.Id),
                verdicts.GetValueOrDefault(d.Id) ?? DeviceOnDay.Judge(book, d, profile, plan.LastDay))),
            .. others.Select(Stranger),
        ];
        var at = now.ToUnixTimeMilliseconds();
        var elsewhere = own.Select(d => (Device: d, Where: DeploymentFindings.Elsewhere(register, d, campaign.Id, at)))
            .Where(x => x.Where is not null).ToDictionary(x => x.Device, x => x.Where!);
        return new(
            new(campaign.Id, campaign.Name, plan.Site, plan.AltitudeM, plan.FirstDay, plan.LastDay, plan.Zone, plan.Offsets),
            new("", "", ""), register.Count, now, desk.Today,
            new(
                profile.Value(profile.Value(LimitKey.CheckDeviationDb) is null ? LimitKey.DriftDb : LimitKey.CheckDeviationDb),
                profile.Value(LimitKey.CheckDifferenceDb), profile.Value(LimitKey.CheckSpreadDb),
                profile.Limit(LimitKey.DecisionRule)?.Text ?? "simple",
                profile.Value(LimitKey.DecisionProbability) ?? Metrology.Conformity.DecisionRule.UsualProbability,
                profile.Value(LimitKey.GapMm), profile.Value(LimitKey.GapToleranceMm), profile.Value(LimitKey.FlushStepMm), plan.Profile),
            [.. standing.Values.Select(s => Station(register, campaign, s, [.. byStation[s.Station].TakeLast(ChecksOfStation)]))],
            devices, elsewhere)
        {
            Tests = TestPart.Of(register, campaign.Id, profile),
        };
    }

    private static IEnumerable<string> Parts(CheckRecord record)
    {
        var check = record.Check;
        return check.Adapter is { } adapter ? [.. check.Devices, check.Calibrator, adapter] : [.. check.Devices, check.Calibrator];
    }

    private static StationPart Station(
        Register.Register register, CampaignState campaign, StationStanding standing, List<CheckRecord> checks)
    {
        var plan = campaign.Stations.GetValueOrDefault(standing.Station);
        return new(
            standing.Station, plan?.LatitudeDeg, plan?.LongitudeDeg, plan?.Mount, plan?.HeightM,
            campaign.Labels.GetValueOrDefault(standing.Station),
            [.. campaign.Chains.GetValueOrDefault(standing.Station, []).Select(d => register.EntriesOf(d)[0])],
            standing.Placement is { } p
                ? new(
                    p.Fact.ToString(), p.Occurred.ToString(), p.Devices, p.UnknownLabels,
                    register.Person(p.Author)?.Name ?? p.Author)
                : null,
            [.. checks.Select(c => new CheckPart(
                c.Fact.ToString(), c.Occurred.ToString(), c.Day, c.Instant, c.Check.Moment, c.Check.Devices, c.Check.Calibrator,
                c.Check.Method, c.Check.RangeV, c.Check.SensitivityDb, c.Check.SensitivityUnit, c.Check.IndicatedDb, c.Check.Budget))],
            standing.State);
    }

    private static DevicePart Device(
        Register.Register register, DeviceState d, ProfileState profile, string? station, bool isPlanned, bool isSpare,
        DeviceOnDay verdict)
    {
        var details = Fitting.Where(f => d.Details.ContainsKey(f.Key))
            .ToDictionary(f => f.Key, f => f.IsNumber ? (object)d.Number(f)! : d.Text(f)!);
        return new(
            d.Id, d.Kind ?? "general", DeviceKind.Find(d.Kind)?.Label ?? "Device", d.Name, d.Model, d.Serial, d.Label,
            d.Text(DeviceField.Owner), d.Status, d.Place, isPlanned, isSpare, station, DueDay.Of(d, profile),
            verdict.Verdict, verdict.Why, details,
            d.Kind == DeviceKind.Microphone.Key ? MicrophoneKit.Of(d) : null, GainKit.Of(d),
            d.Kind == DeviceKind.Calibrator.Key ? CalibratorKit.Of(d) : null);
    }

    // What a phone that is lost may tell of the rest of the fleet: no owner, place, certificate or verdict.
    private static DevicePart Stranger(DeviceState d) => new(
        d.Id, d.Kind!, DeviceKind.Find(d.Kind)?.Label ?? "Device", d.Name, null, d.Serial, d.Label, null, d.Status, null, false, false,
        null, null, ReadinessVerdict.Undecided,
        $"{d.Name} is not of this campaign: what its certificates say and whether it fits is not known on this phone.",
        new Dictionary<string, object>(), null, null, null, true);

    internal sealed record CampaignPart(
        string Id, string Name, string Site, double AltitudeM, DateOnly FirstDay, DateOnly LastDay, string Zone,
        IReadOnlyList<ZoneOffset> Offsets);

    internal sealed record SpeakerPart(string Person, string Author, string Client);

    internal sealed record LimitPart(
        double? DeviationDb, double? DifferenceDb, double? SpreadDb, string Rule, double Probability,
        double? GapMm, double? GapToleranceMm, double? FlushStepMm, string Profile);

    /// <param name="AreApart">Whether checks of one test belong together alone.</param>
    /// <param name="MostMs">How far apart others may lie to belong together, in ms.</param>
    /// <param name="Sessions">Sessions that were stated, by their begin.</param>
    internal sealed record TestPart(bool AreApart, long MostMs, IReadOnlyList<SessionPart> Sessions)
    {
        public static TestPart Of(Register.Register register, string campaign, ProfileState profile)
        {
            var span = CheckSpan.Of(profile);
            return new(
                span.By == CheckTie.TestDay, span.MostApartMs,
                [.. TestSessions.Of(register, campaign).All.Select(s => new SessionPart(s.Fact.ToString(), s.FromMs, s.ToMs))]);
        }
    }

    internal sealed record SessionPart(string Fact, long FromMs, long ToMs);

    internal sealed record StationPart(
        string Name, double? LatitudeDeg, double? LongitudeDeg, Mount? Mount, double? HeightM, string? Label,
        IReadOnlyList<string> Planned, PlacedPart? Placed, IReadOnlyList<CheckPart> Checks, StationState State);

    internal sealed record PlacedPart(
        string Fact, string At, IReadOnlyList<string> Devices, IReadOnlyList<string> UnknownLabels, string By);

    internal sealed record CheckPart(
        string Fact, string At, DateOnly Day, long Instant, CheckMoment Moment, IReadOnlyList<string> Devices, string Calibrator,
        CheckMethod Method, double? RangeV, double? SensitivityDb, string? SensitivityUnit, double? IndicatedDb,
        IReadOnlyList<BudgetLine> Budget);

    internal sealed record DevicePart(
        string Id, string Kind, string KindLabel, string Name, string? Model, string? Serial, string? Label, string? Owner,
        DeviceStatus Status, string? Place, bool IsPlanned, bool IsSpare, string? Station, DateOnly? Due,
        ReadinessVerdict Verdict, string Why, IReadOnlyDictionary<string, object> Details,
        MicrophoneKit? Microphone, CheckTerm? Gain, CalibratorKit? Calibrator, bool? IsStranger = null);
}

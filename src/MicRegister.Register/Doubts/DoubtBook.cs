using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Doubts;

/// <summary>What is in doubt, folded from certificates, annulments, reports and repairs.</summary>
public static class DoubtBook
{
    private const double SameDb = 1e-6;
    private const double OtherLevelDb = 5;

    /// <summary>All doubts of the register, the newest first: those that any campaign's profile raises, or usual practice.</summary>
    public static IReadOnlyList<Doubt> All(Register register)
    {
        var profiles = ProfilesOf(register);
        return [.. register.DeviceIds.SelectMany(d => Under(register, d, profiles))
            .OrderByDescending(d => d.ToMs).ThenBy(d => d.Key, StringComparer.Ordinal)];
    }

    /// <summary>Doubts of one device that any campaign's profile raises, or usual practice; oldest first.</summary>
    public static IReadOnlyList<Doubt> OfDevice(Register register, string id) => Under(register, id, ProfilesOf(register));

    /// <summary>Doubts of one device by the limits of a profile, oldest first.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="id">Id of the device.</param>
    /// <param name="profile">Limits of a campaign; null takes what is usual.</param>
    public static IReadOnlyList<Doubt> OfDevice(Register register, string id, ProfileState? profile) => Under(register, id, [profile]);

    /// <summary>A doubt by its key; null where nothing raises it any more.</summary>
    public static Doubt? Find(Register register, string key) =>
        key.Split(':') is [_, var device, _] ? OfDevice(register, device).FirstOrDefault(d => d.Key == key) : null;

    /// <summary>Says what a doubt comes to.</summary>
    public static Result<IReadOnlyList<Fact>> Settle(
        Register register, Saying saying, string key, bool isConfirmed, IReadOnlyList<string> events, string reason)
    {
        if (Find(register, key) is not { } doubt) return new Rejection(RejectionSort.NotFound, $"There is no doubt {key}.");
        if (DeviceDecisions.Text(reason, "Reason") is { } wrong) return wrong;
        if (events.FirstOrDefault(e => Events.EventBook.Find(register, e) is null) is { } missing)
            return new Rejection(RejectionSort.NotFound, $"There is no event {missing}.");
        IReadOnlyList<string>? raising = doubt.Limited is null
            ? null
            : [.. ProfilesOf(register).Where(p => doubt.IsRaisedBy(register, p)).Select(p => p?.Id ?? BuiltInProfiles.Usual)];
        return saying.Of(
            register, new DoubtSettled(key, isConfirmed, events, reason.Trim()) { Profiles = raising },
            [Subject.Device(doubt.Device), .. events.Select(Subject.Event)]);
    }

    /// <summary>All that may put a device in doubt by some profiles, before their limits on figures are held against it.</summary>
    internal static IReadOnlyList<Doubt> Causes(Register register, string id, IReadOnlyList<ProfileState?> profiles) =>
        BandDoubts.Of(register, id, profiles) is { Count: > 0 } inBands
            ? [.. Causes(register, id).Concat(inBands).OrderBy(d => d.FromMs).ThenBy(d => d.Key, StringComparer.Ordinal)]
            : Causes(register, id);

    // Worked out once a state.
    private static IReadOnlyList<Doubt> Causes(Register register, string id) =>
        register.Version(Subject.Device(id)) is var version and > 0
            ? register.Memory.Of<Shelf<IReadOnlyList<Doubt>>>().Of(id, version, device => Fold(register, device))
            : [];

    // The strictest of some profiles names its limit.
    private static List<Doubt> Under(Register register, string id, IReadOnlyList<ProfileState?> profiles)
    {
        var causes = Causes(register, id, profiles);
        if (causes.Count == 0) return [];
        var doubts = new List<Doubt>();
        foreach (var cause in causes)
        {
            if (cause.Limited is not { } limited)
            {
                doubts.Add(GoodUntil.Narrowed(register, cause));
                continue;
            }
            var strictest = profiles.Count == 1 ? profiles[0] : profiles.MinBy(p => ChangeLimit.Of(register, p, limited));
            if (!cause.IsRaisedBy(register, strictest)) continue;
            var limit = ChangeLimit.Of(register, strictest, limited);
            var allowed = $"{cause.Text}; {QuantityText.UpTo(limit, 3)} {cause.Unit} are allowed{(limited.IsInBands ? " in each" : "")}.";
            doubts.Add(GoodUntil.Narrowed(register, cause with { Text = allowed }));
        }
        return doubts;
    }

    // Those that campaigns are judged by, and usual practice.
    private static IReadOnlyList<ProfileState?> ProfilesOf(Register register) =>
        [.. register.CampaignIds.Select(c => register.Campaign(c)?.Plan?.Profile).OfType<string>().Append(BuiltInProfiles.Usual)
            .Distinct(StringComparer.Ordinal).Select(p => register.Profile(p))];

    private static IReadOnlyList<Doubt> Fold(Register register, string id)
    {
        if (register.Device(id) is not { } device) return [];
        if (QuantityOf(register, device) is not { } quantity) return [.. Reported(register, device, []), .. Repaired(register, device, [])];
        List<DeviceCertificate> all = [.. device.Certificates.Where(c => c.Issued.Quantity == quantity)
            .OrderBy(c => c.Day).ThenBy(device.RankOf).ThenBy(c => c.Fact)];
        List<DeviceCertificate> counting = [.. all.Where(device.ReliesOn)];
        var doubts = new List<Doubt>();
        foreach (var series in counting.GroupBy(c => SeriesKey.Of(c.Issued)))
            doubts.AddRange(series.Zip(series.Skip(1)).Select(p => Moved(register, device, p.First, p.Second)).OfType<Doubt>());
        foreach (var gone in all.Where(c => c.IsAnnulled))
        {
            var next = counting.FirstOrDefault(c => c.Day > gone.Day && SeriesKey.Of(c.Issued) == SeriesKey.Of(gone.Issued));
            var instead = counting.LastOrDefault(c => c.Day <= gone.Day && SeriesKey.Of(c.Issued) == SeriesKey.Of(gone.Issued));
            double? change = gone.InForce is { } a && instead?.InForce is { } b ? Level(device, instead, b) - Level(device, gone, a) : null;
            // A certificate that was only stated anew with the same figure puts nothing in doubt.
            if (change is { } same && Math.Abs(same) <= SameDb) continue;
            var now = change is { } by
                ? $"what counts instead lies {QuantityText.Change(by, ResultLevel.UnitOf(gone.Issued.Quantity), 3)} away"
                : "nothing stands in its place";
            doubts.Add(New(
                register, device, DoubtKind.Withdrawn, gone.Fact, StartOf(register, gone.Day),
                next is null ? long.MaxValue : StartOf(register, next.Day) - 1, change is { } d ? Math.Abs(d) : null,
                $"The certificate of {gone.Day:yyyy-MM-dd} of {device.Name} does not count any more; {now}.")
                with
            { Through = gone.Fact.ToString(), Against = change is null ? null : instead?.Fact });
        }
        doubts.AddRange(Reported(register, device, counting));
        doubts.AddRange(Repaired(register, device, counting));
        return [.. doubts.OrderBy(d => d.FromMs).ThenBy(d => d.Key, StringComparer.Ordinal)];
    }

    // What a device is calibrated for; of a meter, which may be of any kind, what its certificates state.
    private static string? QuantityOf(Register register, DeviceState device) =>
        DeviceKind.Find(device.Kind)?.Calibrated
            ?? (device.Certificates.IsEmpty || CheckBook.MadeWith(register, device.Id).Count == 0 ? null : device.Certificates[^1].Issued.Quantity);

    private static Doubt? Moved(Register register, DeviceState device, DeviceCertificate last, DeviceCertificate found)
    {
        if (last.InForce is not { } force || found.Found is not { } now || Level(device, last, force) is not { } was
            || Level(device, found, now) is not { } level)
        {
            return null;
        }
        // Work that makes it another device ends what was known of it: both are no change of one. The work itself is a cause of doubt.
        if (device.IsAnotherBetween(last, found)) return null;
        var change = level - was;
        // Two levels of one calibrator are no change of one.
        if (Math.Abs(change) <= SameDb || (device.Kind == DeviceKind.Calibrator.Key && Math.Abs(change) > OtherLevelDb)) return null;
        var unit = ResultLevel.UnitOf(found.Issued.Quantity);
        var moved = $"{QuantityText.Change(change, unit, 3)} from its calibration of {last.Day:yyyy-MM-dd}";
        return New(
            register, device, DoubtKind.OutOfTolerance, found.Fact, StartOf(register, last.Day),
            StartOf(register, found.Day.AddDays(1)) - 1, Math.Abs(change), $"{device.Name} was found {moved} on {found.Day:yyyy-MM-dd}")
            with
        { Limited = new(device.Kind, found.Issued.Quantity), Against = last.Fact };
    }

    private static IEnumerable<Doubt> Reported(Register register, DeviceState device, List<DeviceCertificate> counting)
    {
        foreach (var report in device.Services.Where(s => s.What.What is ServiceKind.Damage or ServiceKind.Malfunction))
        {
            if (EndOf(register, report) is not { } at) continue;
            // Nothing is checked of what checks are made with: it stays in doubt until it is calibrated or put right.
            if (IsForChecks(register, device)) at = PutRight(register, device, counting, report, at);
            yield return New(
                register, device, DoubtKind.Reported, report.Fact, LastCertified(register, counting, report.Day), at, null,
                $"{device.Name}: {report.What.Text} ({report.What.What.InWords} of {report.Day:yyyy-MM-dd}).");
        }
    }

    private static long PutRight(
        Register register, DeviceState device, List<DeviceCertificate> counting, Dated<DeviceServiced> report, long at)
    {
        var days = counting.Where(c => c.Day > report.Day).Select(c => c.Day).Concat(device.Services
            .Where(s => s.Day > report.Day && s.What.What is ServiceKind.Repair or ServiceKind.Verification).Select(s => s.Day)).ToList();
        return days.Count == 0 ? long.MaxValue : Math.Max(at, StartOf(register, days.Min()) - 1);
    }

    // A repair bounds what may have been wrong and never removes it.
    private static IEnumerable<Doubt> Repaired(Register register, DeviceState device, List<DeviceCertificate> counting)
    {
        foreach (var work in device.Services.Where(s => s.What.BeginsAnew && s.What.What is not (ServiceKind.Damage or ServiceKind.Malfunction)))
        {
            // Nothing was relied on before its first certificate, and what was found on the day tells how it was.
            if (!counting.Exists(c => c.Day < work.Day) || counting.Exists(c => c.TellsBefore(work))) continue;
            if (EndOf(register, work) is not { } at) continue;
            yield return New(
                register, device, DoubtKind.Repaired, work.Fact, LastCertified(register, counting, work.Day.AddDays(-1)), at, null,
                $"{device.Name}: {work.What.Text} ({work.What.What.InWords} of {work.Day:yyyy-MM-dd}); nothing tells how it was before.");
        }
    }

    private static long LastCertified(Register register, List<DeviceCertificate> counting, DateOnly day) =>
        counting.LastOrDefault(c => c.Day <= day) is { } certificate ? StartOf(register, certificate.Day) : long.MinValue;

    private static long? EndOf(Register register, Dated<DeviceServiced> work)
    {
        if (register.Find(work.Fact) is not (var sequence and > 0)) return null;
        var fact = register.Source.Read(sequence);
        return fact.Occurred.IsInstant ? register.Instant(fact) : StartOf(register, work.Day.AddDays(1)) - 1;
    }

    // Of a device that nobody registered, and of what may be used as a meter, what was done with it tells.
    internal static bool IsForChecks(Register register, DeviceState device) =>
        device.Kind == DeviceKind.Calibrator.Key || device.Kind == DeviceKind.Adapter.Key
        || (!DeviceKind.IsOfChain(device.Kind) && CheckBook.MadeWith(register, device.Id).Count > 0);

    internal static Doubt New(
        Register register, DeviceState device, DoubtKind kind, FactId fact, long from, long to, double? greatest, string text,
        string keyBegin = "")
    {
        var key = $"{kind}{keyBegin}:{device.Id}:{fact}";
        return new(
            key, kind, device.Id, fact, from, to, greatest, text, IsForChecks(register, device), SettledOf(register, device, key))
        {
            Unit = ResultLevel.UnitOf(DeviceKind.Find(device.Kind)?.Calibrated),
        };
    }

    private static IReadOnlyList<Dated<DoubtSettled>> SettledOf(Register register, DeviceState device, string key) =>
        [.. register.EntriesOf(device.Id).SelectMany(e => register.Facts(Subject.Device(e)))
            .Where(s => register.IsOfKind(s, "doubt-settled") && register.Counts(s)).Select(register.Source.Read)
            .Where(f => f.Body is DoubtSettled said && said.Cause == key).Select(f => Dated.Of(f, (DoubtSettled)f.Body))];

    private static double? Level(DeviceState device, DeviceCertificate certificate, CalibrationResult result) =>
        ResultLevel.Of(result) is { } level ? CalibrationSeries.AtReference(device, certificate, level.LevelDb) : null;

    internal static long StartOf(Register register, DateOnly day) => ZoneOffsets.StartOfDay(day, register.OffsetsOf(null));
}

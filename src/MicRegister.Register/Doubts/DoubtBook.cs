using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Doubts;

/// <summary>What is in doubt, folded from certificates, annulments and reports.</summary>
public static class DoubtBook
{
    private const double UsualLimitDb = 0.3;
    private const double UsualStepDb = 0.2;
    private const double SameDb = 1e-6;

    /// <summary>All doubts of the register, the newest first.</summary>
    public static IReadOnlyList<Doubt> All(Register register) =>
        [.. register.DeviceIds.SelectMany(d => OfDevice(register, d))
            .OrderByDescending(d => d.ToMs).ThenBy(d => d.Key, StringComparer.Ordinal)];

    /// <summary>Doubts of one device, oldest first; worked out once a state.</summary>
    public static IReadOnlyList<Doubt> OfDevice(Register register, string id) =>
        register.Version(Subject.Device(id)) is var version and > 0
            ? register.Memory.Of<Shelf<IReadOnlyList<Doubt>>>().Of(id, version, device => Fold(register, device))
            : [];

    private static IReadOnlyList<Doubt> Fold(Register register, string id)
    {
        if (register.Device(id) is not { } device || DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity)
            return register.Device(id) is { } other ? [.. Reported(register, other, [])] : [];
        var usual = register.Profile(BuiltInProfiles.Usual);
        var limit = device.Kind == DeviceKind.Calibrator.Key
            ? usual?.Value(LimitKey.CalibratorStepDb) ?? UsualStepDb
            : usual?.Value(LimitKey.DriftDb) ?? UsualLimitDb;
        List<DeviceCertificate> all = [.. device.Certificates.Where(c => c.Issued.Quantity == quantity).OrderBy(c => c.Day).ThenBy(c => c.Fact)];
        List<DeviceCertificate> counting = [.. all.Where(device.ReliesOn)];
        var doubts = new List<Doubt>();
        foreach (var series in counting.GroupBy(c => SeriesKey.Of(c.Issued)))
        {
            foreach (var (last, found) in series.Zip(series.Skip(1)))
            {
                if (last.InForce is not { } force || found.Found is not { } now || Level(device, last, force) is not { } was
                    || Level(device, found, now) is not { } level)
                {
                    continue;
                }
                // Work that makes it another device ends what was known of it: both are no change of one.
                if (device.Services.Any(w => w.What.BeginsAnew && last.Day < w.Day && w.Day <= found.Day)) continue;
                var change = level - was;
                // Two levels of one calibrator are no change of one.
                if (DecisionLimit.AtMost(Math.Abs(change), limit) || (device.Kind == DeviceKind.Calibrator.Key && Math.Abs(change) > 5)) continue;
                var unit = ResultLevel.UnitOf(found.Issued.Quantity);
                var moved = $"{QuantityText.Change(change, unit, 3)} from its calibration of {last.Day:yyyy-MM-dd}";
                var allowed = $"{QuantityText.UpTo(limit, 3)} {unit} are allowed";
                doubts.Add(New(
                    register, device, DoubtKind.OutOfTolerance, found.Fact, last.Day, StartOf(register, found.Day.AddDays(1)) - 1,
                    Math.Abs(change), $"{device.Name} was found {moved} on {found.Day:yyyy-MM-dd}; {allowed}."));
            }
        }
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
                register, device, DoubtKind.Withdrawn, gone.Fact, gone.Day, next is null ? long.MaxValue : StartOf(register, next.Day) - 1,
                change is { } d ? Math.Abs(d) : null,
                $"The certificate of {gone.Day:yyyy-MM-dd} of {device.Name} does not count any more; {now}."));
        }
        doubts.AddRange(Reported(register, device, counting));
        return [.. doubts.OrderBy(d => d.FromMs).ThenBy(d => d.Key, StringComparer.Ordinal)];
    }

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
        return saying.Of(
            register, new DoubtSettled(key, isConfirmed, events, reason.Trim()),
            [Subject.Device(doubt.Device), .. events.Select(Subject.Event)]);
    }

    private static IEnumerable<Doubt> Reported(Register register, DeviceState device, List<DeviceCertificate> counting)
    {
        foreach (var report in device.Services.Where(s => s.What.What is ServiceKind.Damage or ServiceKind.Malfunction))
        {
            if (register.Find(report.Fact) is not (var sequence and > 0)) continue;
            var fact = register.Source.Read(sequence);
            var at = fact.Occurred.IsInstant ? register.Instant(fact) : StartOf(register, report.Day.AddDays(1)) - 1;
            var from = counting.LastOrDefault(c => c.Day <= report.Day) is { } certificate ? StartOf(register, certificate.Day) : long.MinValue;
            // A check that was good says that it was still whole then.
            var good = CheckBook.Around(register, device.Id, from, at).LastOrDefault(k =>
                k.Instant <= at && k.Check.Devices.Contains(device.Id) && Doubt.IsGood(ProfileOf(register, k.Campaign), k));
            if (good is not null) from = Math.Max(from, good.Instant);
            var key = $"{DoubtKind.Reported}:{device.Id}:{report.Fact}";
            yield return new(
                key, DoubtKind.Reported, device.Id, report.Fact, from, at, null,
                $"{device.Name}: {report.What.Text} ({report.What.What.InWords} of {report.Day:yyyy-MM-dd}).",
                IsForChecks(register, device), SettledOf(register, device, key))
            {
                Unit = UnitOf(device),
            };
        }
    }

    // Of a device that nobody registered, what was done with it tells.
    internal static bool IsForChecks(Register register, DeviceState device) =>
        device.Kind is { } kind
            ? kind == DeviceKind.Calibrator.Key || kind == DeviceKind.Adapter.Key
            : CheckBook.MadeWith(register, device.Id).Count > 0;

    private static ProfileState? ProfileOf(Register register, string? campaign) =>
        campaign is not null && register.Campaign(campaign)?.Plan is { } plan
            ? register.Profile(plan.Profile)
            : register.Profile(BuiltInProfiles.Usual);

    private static Doubt New(
        Register register, DeviceState device, DoubtKind kind, FactId fact, DateOnly from, long to, double? greatest, string text)
    {
        var key = $"{kind}:{device.Id}:{fact}";
        return new(
            key, kind, device.Id, fact, StartOf(register, from), to, greatest, text, device.Kind == DeviceKind.Calibrator.Key,
            SettledOf(register, device, key))
        { Unit = UnitOf(device) };
    }

    private static string UnitOf(DeviceState device) => ResultLevel.UnitOf(DeviceKind.Find(device.Kind)?.Calibrated);

    private static IReadOnlyList<DoubtSettled> SettledOf(Register register, DeviceState device, string key) =>
        [.. register.EntriesOf(device.Id).SelectMany(e => register.Facts(Subject.Device(e)))
            .Where(s => register.IsOfKind(s, "doubt-settled") && register.Counts(s)).Select(s => register.Source.Read(s).Body)
            .OfType<DoubtSettled>().Where(s => s.Cause == key)];

    private static double? Level(DeviceState device, DeviceCertificate certificate, CalibrationResult result) =>
        ResultLevel.Of(result) is { } level ? CalibrationSeries.AtReference(device, certificate, level.LevelDb) : null;

    internal static long StartOf(Register register, DateOnly day) => ZoneOffsets.StartOfDay(day, register.OffsetsOf(null));
}

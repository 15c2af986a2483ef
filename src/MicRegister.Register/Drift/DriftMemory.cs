using MicRegister.Metrology.Drift;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Drift;

/// <summary>
/// What was worked out about drift, kept from one state to the next. Answers do not depend on it, with one exception: a hasty memory
/// answers a few new results with the last settled findings, says so, and owes the full answer.
/// </summary>
public sealed class DriftMemory
{
    /// <summary>More changed histories than this are worked out in full at once: they do not come from one person's new result.</summary>
    private const int FewChanges = 8;

    /// <summary>Pools with fewer results are worked out in full at once: that takes a few milliseconds.</summary>
    private const int SmallPool = 2_000;

    private readonly Lock _door = new();
    private readonly Dictionary<string, (DeviceState State, CalibrationSeries? Series)> _series = new(StringComparer.Ordinal);
    private readonly Dictionary<ModelKey, FleetDrift> _fleets = [];
    private int _version;

    /// <summary>Whether large pools may answer with the last settled findings at first.</summary>
    public bool IsHasty { get; set; }

    /// <summary>Grows whenever a full answer took the place of a hasty one.</summary>
    public int Version => Volatile.Read(ref _version);

    /// <summary>Raised when a hasty answer was given; whoever listens sees to the full one.</summary>
    public event Action? Owed;

    /// <summary>Whether full answers are owed.</summary>
    public bool Owes
    {
        get
        {
            lock (_door) return _fleets.Values.Any(f => f.IsProvisional);
        }
    }

    /// <summary>The series of a device; one whose results did not change is the same object again.</summary>
    internal CalibrationSeries? Series(DeviceState device)
    {
        lock (_door)
        {
            _series.TryGetValue(device.Id, out var known);
            if (ReferenceEquals(known.State, device)) return known.Series;
            var series = DeviceKind.Find(device.Kind)?.Calibrated is { } quantity && IsInDecibels(quantity) ? CalibrationSeries.Of(device, quantity) : null;
            if (known.Series is { } before && series is not null && Says(before, series)) series = before;
            _series[device.Id] = (device, series);
            return series;
        }
    }

    /// <summary>The answer for a model's histories.</summary>
    internal FleetDrift Fleet(ModelKey model, IReadOnlyList<ResultHistory> histories)
    {
        FleetDrift fleet;
        lock (_door)
        {
            var known = _fleets.GetValueOrDefault(model);
            if (known is not null && IsOf(known, histories)) return known;
            fleet = IsHasty && known is not null && Hasty(known, histories) is { } hasty ? hasty : FleetDrift.Estimate(histories, known);
            _fleets[model] = fleet;
        }
        if (fleet.IsProvisional) Owed?.Invoke();
        return fleet;
    }

    /// <summary>Works out in full what was answered hastily.</summary>
    public void Settle()
    {
        while (true)
        {
            KeyValuePair<ModelKey, FleetDrift> owed;
            lock (_door) owed = _fleets.FirstOrDefault(f => f.Value.IsProvisional);
            if (owed.Value is not { } hasty) return;
            // Outside the lock: who asks meanwhile gets the hasty answer.
            var full = FleetDrift.Estimate([.. Enumerable.Range(0, hasty.Count).Select(hasty.History)], hasty);
            lock (_door)
            {
                if (!ReferenceEquals(_fleets.GetValueOrDefault(owed.Key), hasty)) continue;
                _fleets[owed.Key] = full;
                Interlocked.Increment(ref _version);
            }
        }
    }

    /// <summary>Pressure is stated in kPa: the priors and limits of drift are in dB.</summary>
    private static bool IsInDecibels(string quantity) => ResultLevel.UnitOf(quantity) == "dB";

    private static FleetDrift? Hasty(FleetDrift known, IReadOnlyList<ResultHistory> histories)
    {
        if (known.Count != histories.Count || known.Pool.Results < SmallPool) return null;
        var changed = Enumerable.Range(0, histories.Count).Where(i => !ReferenceEquals(known.History(i), histories[i])).Take(FewChanges + 1).ToList();
        if (changed.Count > FewChanges) return null;
        return changed.Aggregate(known, (fleet, i) => fleet.With(i, histories[i]));
    }

    private static bool IsOf(FleetDrift fleet, IReadOnlyList<ResultHistory> histories)
    {
        if (fleet.Count != histories.Count) return false;
        for (var i = 0; i < histories.Count; i++)
        {
            if (!ReferenceEquals(fleet.History(i), histories[i])) return false;
        }
        return true;
    }

    private static bool Says(CalibrationSeries a, CalibrationSeries b) => a.Key == b.Key && a.InUseDb.Equals(b.InUseDb) && a.InUseDay == b.InUseDay && a.BegunAnewOn == b.BegunAnewOn && a.WithoutUncertainty == b.WithoutUncertainty
        && a.LeftOut.SequenceEqual(b.LeftOut) && a.Points.SequenceEqual(b.Points) && a.Lives.Count == b.Lives.Count && a.Lives.Zip(b.Lives).All(l => l.First.History.Says(l.Second.History));
}

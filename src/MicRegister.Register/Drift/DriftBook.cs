using System.Buffers.Binary;
using System.Collections.Concurrent;
using System.Security.Cryptography;
using MicRegister.Metrology.Drift;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Drift;

/// <summary>What a state says of the drift of all its devices, as it was known at the end of a day.</summary>
public sealed class DriftBook
{
    private readonly DriftMemory _memory;
    private readonly DateOnly? _day;
    private readonly Dictionary<string, Entry> _entries;
    private readonly Dictionary<ModelKey, List<Entry>> _models;
    private readonly ConcurrentDictionary<(ModelKey, int), FleetDrift> _fleets = new();
    private readonly ConcurrentDictionary<(string, int), DeviceDrift> _devices = new();

    internal DriftBook(Register register, DateOnly? day, DriftMemory memory)
    {
        (_memory, _day, _entries, _models) = (memory, day, new(StringComparer.Ordinal), []);
        foreach (var id in register.DeviceIds) Enter(register, id);
        foreach (var model in _models.Values) Number(model);
    }

    private DriftBook(DriftBook before)
    {
        (_memory, _day) = (before._memory, before._day);
        (_entries, _models) = (new(before._entries, StringComparer.Ordinal), new(before._models));
    }

    /// <summary>The book of a later state in which only some devices changed.</summary>
    internal DriftBook With(Register register, IReadOnlyCollection<string> touched)
    {
        var next = new DriftBook(this);
        var changed = new HashSet<ModelKey>();
        // What is said of a joined entry counts for the one that was kept.
        var entries = touched.Concat(touched.Select(id => register.Device(id, _day)?.Id).OfType<string>()).Distinct(StringComparer.Ordinal);
        foreach (var id in entries.Order(StringComparer.Ordinal))
        {
            var old = next._entries.GetValueOrDefault(id);
            if (register.Device(id, _day) is { } same && old is not null && ReferenceEquals(same, old.Device)) continue;
            if (old is not null)
            {
                next._entries.Remove(id);
                if (changed.Add(old.Model)) next._models[old.Model] = [.. next._models[old.Model]];
                next._models[old.Model].Remove(old);
            }
            if (next.Enter(register, id, changed) is { } model) changed.Add(model);
        }
        foreach (var model in changed)
        {
            if (next._models[model].Count == 0)
            {
                next._models.Remove(model);
                continue;
            }
            next._models[model] = [.. next._models[model].OrderBy(e => e.Device.Id, StringComparer.Ordinal).Select(e => e with { })];
            foreach (var entry in next._models[model]) next._entries[entry.Device.Id] = entry;
            Number(next._models[model]);
        }
        return next;
    }

    private ModelKey? Enter(Register register, string id, HashSet<ModelKey>? copied = null)
    {
        // A joined entry speaks through the one that was kept.
        if (register.Device(id, _day) is not { } device || device.Id != id || _memory.Series(device) is not { } series) return null;
        var entry = new Entry(device, series, ModelKey.Of(device, series.Key));
        _entries[id] = entry;
        if (!_models.TryGetValue(entry.Model, out var model)) _models[entry.Model] = model = [];
        else if (copied is not null && !copied.Contains(entry.Model)) _models[entry.Model] = model = [.. model];
        model.Add(entry);
        return entry.Model;
    }

    private static void Number(List<Entry> model)
    {
        var lives = 0;
        foreach (var entry in model)
        {
            entry.FirstLife = lives;
            lives += entry.Series.Lives.Count;
        }
    }

    /// <summary>Models with at least one result that states an uncertainty, largest fleets first.</summary>
    public IReadOnlyList<ModelDrift> Models => [.. _models.Select(m => new ModelDrift(m.Key, Fleet(m.Key), [.. m.Value.Select(e => Of(e.Device.Id)!)]))
        .OrderByDescending(m => m.Devices.Count).ThenBy(m => m.Key.ToString(), StringComparer.Ordinal)];

    /// <summary>Ids of the devices that it speaks of, in ordinal order.</summary>
    public IEnumerable<string> DeviceIds => _entries.Keys.Order(StringComparer.Ordinal);

    /// <summary>One device; null where no result of it states an uncertainty.</summary>
    public DeviceDrift? Of(string id)
    {
        if (!_entries.TryGetValue(id, out var entry)) return null;
        var version = _memory.Version;
        return _devices.GetOrAdd((id, version), _ => new DeviceDrift(entry.Device, entry.Series, entry.Model, Fleet(entry.Model), _models[entry.Model].Count, entry.FirstLife));
    }

    private FleetDrift Fleet(ModelKey model)
    {
        var version = _memory.Version;
        return _fleets.GetOrAdd((model, version), _ => _memory.Fleet(model, [.. _models[model].SelectMany(e => e.Series.Lives).Select(l => l.History)]));
    }

    private sealed record Entry(DeviceState Device, CalibrationSeries Series, ModelKey Model)
    {
        public int FirstLife { get; set; }
    }
}

/// <summary>The devices of one model beside each other.</summary>
/// <param name="Key">Which model.</param>
/// <param name="Fleet">What they tell together.</param>
/// <param name="Devices">The devices, in order of their ids.</param>
public sealed record ModelDrift(ModelKey Key, FleetDrift Fleet, IReadOnlyList<DeviceDrift> Devices);

/// <summary>What is known of one device's drift.</summary>
public sealed class DeviceDrift
{
    private readonly Lazy<DeviceForecast> _forecast;
    private readonly int _firstLife;

    internal DeviceDrift(DeviceState device, CalibrationSeries series, ModelKey model, FleetDrift fleet, int modelDevices, int firstLife)
    {
        (Device, Series, Model, Fleet, ModelDevices, _firstLife) = (device, series, model, fleet, modelDevices, firstLife);
        _forecast = new(() => fleet.Forecast(firstLife + series.Lives.Count - 1));
    }

    public DeviceState Device { get; }

    public CalibrationSeries Series { get; }

    public ModelKey Model { get; }

    /// <summary>Its model's fleet: who else stands behind the forecast.</summary>
    public FleetDrift Fleet { get; }

    /// <summary>Devices of its model; one that was made another by a repair has two histories in the fleet.</summary>
    public int ModelDevices { get; }

    /// <summary>The forecast from its current life.</summary>
    public DeviceForecast Forecast => _forecast.Value;

    /// <summary>Results behind the forecast, those left out included.</summary>
    public int Results => Series.Current.Points.Count;

    /// <summary>What was found in all its lives, with the result with which it begins, in the order of days.</summary>
    public IReadOnlyList<(DriftFinding Finding, SeriesPoint Point, Life Life)> Findings =>
        [.. Series.Lives.SelectMany((life, i) => Fleet.Findings(_firstLife + i).Select(f => (Finding: f, Point: life.Points[f.Index], Life: life))).OrderBy(f => f.Point.Day)];

    /// <summary>The straight line through its current life, where that explains what was found at least as well as a step does.</summary>
    public SteadyDrift? Steady => SteadyDrift.Of(Forecast.History, Forecast.Findings);

    /// <summary>Whether a certificate fits before it is entered.</summary>
    /// <returns>Null where it cannot be compared: another series, no uncertainty, or older than the newest result.</returns>
    public EntryCheck? Check(CertificateIssued issued, DateOnly day) =>
        SeriesKey.Of(issued) == Series.Key && day.DayNumber >= Forecast.NewestDay && CalibrationSeries.Stated(Device, issued, day) is { } point
            ? Forecast.Check(day.DayNumber, point.LevelDb, point.StandardUncertaintyDb) : null;

    /// <summary>What is expected on a day; a day before the newest result is taken as that result's.</summary>
    public LevelForecast At(DateOnly day) => Forecast.At(Math.Max(day.DayNumber, Forecast.NewestDay));

    /// <summary>Which pool answered: the same histories give the same text on every machine.</summary>
    public string PoolVersion => Version(Fleet);

    /// <summary>Text for a pool: eight hexadecimal digits from its weights.</summary>
    public static string Version(FleetDrift fleet)
    {
        var bytes = new byte[8 * 3];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, BitConverter.DoubleToInt64Bits(Math.Round(fleet.Pool.Walk, 9)));
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(8), BitConverter.DoubleToInt64Bits(Math.Round(fleet.Pool.SlopeSpread, 9)));
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(16), (long)fleet.Pool.Devices << 32 | (uint)fleet.Pool.Results);
        return Convert.ToHexStringLower(SHA256.HashData(bytes))[..8] + (fleet.IsProvisional ? ", being settled" : "");
    }
}

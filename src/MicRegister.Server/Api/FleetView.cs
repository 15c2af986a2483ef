using System.Runtime.CompilerServices;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Api;

/// <summary>The fleet as rows that can be searched: made once a state, kept until the next.</summary>
public sealed class FleetView
{
    private volatile Snapshot? _snapshot;

    public IReadOnlyList<FleetRow> Rows(Register.Register register)
    {
        if (_snapshot is { } known && known.Register.Count == register.Count) return known.Rows;
        var before = _snapshot?.ById;
        var rows = register.DeviceIds.Select(id => register.Device(id)!)
            .Select(d => before is not null && before.TryGetValue(d.Id, out var row) && ReferenceEquals(row.State, d)
                ? row
                : FleetRow.Of(d))
            .OrderBy(r => r.KindLabel, StringComparer.Ordinal).ThenBy(r => r.Serial, StringComparer.Ordinal)
            .ThenBy(r => r.Id, StringComparer.Ordinal).ToList();
        _snapshot = new(register, rows, rows.ToDictionary(r => r.Id));
        return rows;
    }

    /// <summary>Rows that hold every word of a question in some field, and fit the facets.</summary>
    public IReadOnlyList<FleetRow> Find(
        Register.Register register, string? words, string? kind = null, string? place = null, DeviceStatus? status = null,
        string? model = null)
    {
        var wanted = (words ?? "").ToUpperInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        return [.. Rows(register).Where(r => (kind is null || r.Kind == kind) && (place is null || r.Place == place)
            && (status is null || r.Status == status) && (model is null || r.Model == model)
            && wanted.All(w => r.Text.Contains(w, StringComparison.Ordinal)))];
    }

    /// <summary>Keys by which a list can be sorted.</summary>
    public static IReadOnlyDictionary<string, Func<FleetRow, IComparable?>> SortKeys { get; } =
        new Dictionary<string, Func<FleetRow, IComparable?>>
        {
            ["kind"] = r => r.KindLabel,
            ["model"] = r => r.Model,
            ["serial"] = r => r.Serial,
            ["place"] = r => r.Place,
            ["use"] = r => r.Status.InWords,
            ["calibrated"] = r => r.Calibrated,
            ["level"] = r => r.Level,
        };

    /// <summary>Rows in the order of a key, turned round where - stands before it; ties by serial, then id.</summary>
    /// <returns>Null where the key is none.</returns>
    public static IReadOnlyList<FleetRow>? Sort(IReadOnlyList<FleetRow> rows, string? key)
    {
        if (string.IsNullOrEmpty(key)) return rows;
        if (!SortKeys.TryGetValue(key.TrimStart('-'), out var by)) return null;
        var compared = Comparer<IComparable?>.Create((a, b) => a is string x && b is string y
            ? string.CompareOrdinal(x, y)
            : Comparer<IComparable?>.Default.Compare(a, b));
        var sorted = key[0] == '-' ? rows.OrderByDescending(by, compared) : rows.OrderBy(by, compared);
        return [.. sorted.ThenBy(r => r.Serial, StringComparer.Ordinal).ThenBy(r => r.Id, StringComparer.Ordinal)];
    }

    private readonly ConditionalWeakTable<
        Register.Register, Dictionary<(DateOnly, DateOnly, int), Dictionary<string, DeviceOnDay>>> _onDays = [];

    /// <summary>What can be said of every device on a day by the usual profile; worked out once a state and day.</summary>
    public IReadOnlyDictionary<string, DeviceOnDay> OnDay(Register.Register register, DateOnly today, DateOnly day)
    {
        var days = _onDays.GetOrCreateValue(register);
        lock (days)
        {
            var key = (today, day, register.DriftMemory.Version);
            if (days.TryGetValue(key, out var known)) return known;
            var (profile, book) = (register.Profile(BuiltInProfiles.Usual)!, register.Drift(today));
            return days[key] = Rows(register).ToDictionary(r => r.Id, r => DeviceOnDay.Judge(book, r.State!, profile, day));
        }
    }

    private sealed record Snapshot(Register.Register Register, IReadOnlyList<FleetRow> Rows, Dictionary<string, FleetRow> ById);
}

/// <summary>One device in a list.</summary>
/// <param name="Level">Newest result of what is calibrated about it, in <see cref="Unit"/>; null where there is none.</param>
/// <param name="Uncertainty">Its expanded uncertainty at k = 2, in <see cref="Unit"/>.</param>
public sealed record FleetRow(
    string Id, string? Kind, string KindLabel, string? Maker, string? Model, string? Serial, string? Place, DeviceStatus Status,
    string? Owner, DateOnly? Calibrated, double? Level, double? Uncertainty, int Results)
{
    /// <summary>All fields in capitals, for searching.</summary>
    internal string Text { get; private init; } = "";

    internal DeviceState? State { get; private init; }

    /// <summary>Unit of level and uncertainty: kPa for a barometer, dB for all else; null without a level.</summary>
    public string? Unit { get; private init; }

    public static FleetRow Of(DeviceState d)
    {
        var kind = DeviceKind.Find(d.Kind);
        var newest = kind?.Calibrated is { } quantity
            ? CalibrationSeries.Newest(d, quantity)
            : d.Certificates.LastOrDefault(c => !c.IsAnnulled);
        var level = newest?.InForce is { } result ? ResultLevel.Of(result) : null;
        var row = new FleetRow(
            d.Id, d.Kind, kind?.Label ?? d.Kind ?? "Unregistered", d.Maker, d.Model, d.Serial, d.Place, d.Status,
            d.Text(DeviceField.Owner), newest?.Day, level?.LevelDb, level?.StandardUncertaintyDb * 2,
            d.Certificates.Count(c => !c.IsAnnulled));
        var text = string.Join(' ', new[] { row.KindLabel, d.Maker, d.Model, d.Serial, d.Place, d.Id, d.Status.InWords,
            newest?.Day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture) }
            .Concat(d.Details.Values.Select(v => v.ToString())));
        var unit = level is null ? null : ResultLevel.UnitOf(newest?.Issued.Quantity);
        return row with { Text = text.ToUpperInvariant(), State = d, Unit = unit };
    }
}

using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Documents.Import;

/// <summary>Since when what is known of devices stands, so that an old list does not put it back.</summary>
/// <param name="session">The import.</param>
/// <param name="recorded">Tells on which day a fact was recorded, by its sequence; null where nobody can.</param>
internal sealed class StandingValues(ImportSession session, Func<int, DateOnly?>? recorded)
{
    private readonly Dictionary<string, IReadOnlyDictionary<string, Fact>> _statements = new(StringComparer.Ordinal);
    private Dictionary<(string Device, string Key), DateOnly> _said = [];
    private readonly Dictionary<TakenImport, bool> _agrees = [];
    private IReadOnlyList<TakenImport>? _imports;

    /// <summary>
    /// Takes from what a row says of a known device all that the register holds of a later day, or asks as of which day the list speaks.
    /// </summary>
    /// <param name="row">The row.</param>
    /// <param name="device">The device.</param>
    /// <param name="changes">Details that the row would add or change.</param>
    /// <param name="place">Where the row says it is.</param>
    /// <param name="status">The state of use that the row says.</param>
    /// <returns>What stands against the row, in words.</returns>
    /// <exception cref="RowProblem">The row changes what the register holds, and nobody knows its day.</exception>
    public IReadOnlyList<string> KeepNewer(
        RowReader row, PlannedDevice device, SortedDictionary<string, FieldValue> changes, ref string? place, ref DeviceStatus? status)
    {
        var newer = new List<string>();
        foreach (var key in changes.Keys.ToList())
        {
            var held = Held(device, key);
            var label = DeviceField.Find(key)?.Label.ToLowerInvariant() ?? key;
            if (!Keeps(row, device, key, held is not null, held is null ? $"{label} not known" : $"{label} {held}", newer)) continue;
            changes.Remove(key);
        }
        if (place is not null && place != device.Place
            && Keeps(row, device, DeviceStatements.Place, device.Place is not null, $"place {device.Place}", newer)) place = null;
        if (status is { } s && s != device.Status
            && Keeps(row, device, DeviceStatements.Status, true, device.Status.InWords, newer)) status = null;
        return newer;
    }

    /// <summary>Whether anything says what stands of a device.</summary>
    public bool IsStated(PlannedDevice device, string key) => Since(device, key) is not null;

    /// <summary>What this import said so far, to come back to.</summary>
    public IReadOnlyDictionary<(string Device, string Key), DateOnly> Remembered
    {
        get => _said.ToDictionary();
        set => _said = value.ToDictionary();
    }

    /// <summary>Remembers as of which day this import states something.</summary>
    public void Said(PlannedDevice device, IEnumerable<string> keys)
    {
        foreach (var key in keys) _said[(device.Id, key)] = session.AsOf?.Day ?? session.Today;
    }

    private static string? Held(PlannedDevice device, string key) => key switch
    {
        "maker" => device.Maker,
        "model" => device.Model,
        _ => device.Details.TryGetValue(key, out var value) ? value.ToString() : null,
    };

    private bool Keeps(RowReader row, PlannedDevice device, string key, bool isHeld, string words, List<string> newer)
    {
        if (session.AsOf is { } asOf)
        {
            if (Since(device, key) is not var (instant, since) || instant <= session.Register.StartOf(asOf.Day)) return false;
            newer.Add($"newer: {words} {since} stands");
            return true;
        }
        // What is new in this import, or what nobody stated, is not put back by it.
        if (device.IsNew || (!isHeld && Since(device, key) is null)) return false;
        session.AsksAsOf();
        var column = key switch
        {
            DeviceStatements.Place => Column.Place,
            DeviceStatements.Status => Column.Status,
            "maker" => Column.Maker,
            "model" => Column.Model,
            _ => row.Header.Fields.Where(f => f.Field.Key == key).Select(f => f.Column).FirstOrDefault(),
        };
        throw new RowProblem(
            RowSort.Questioned, $"{AsOfDay.Question} ({words}).", column is null ? null : row.HeaderOf(column),
            column is null ? null : row.Text(column));
    }

    // The instant from which a value stands, and how that is said.
    private (long Instant, string Words)? Since(PlannedDevice device, string key)
    {
        if (_said.TryGetValue((device.Id, key), out var said)) return (session.Register.StartOf(said), $"as of {said:yyyy-MM-dd}");
        if (!_statements.TryGetValue(device.Id, out var statements))
            _statements[device.Id] = statements = session.Register.StatementsOf(device.Id);
        if (!statements.TryGetValue(key, out var fact)) return null;
        if (fact.Occurred != Occurred.Unknown) return (session.Register.Instant(fact), "since " + fact.Occurred.Minute);
        var sequence = session.Register.Find(fact.Id);
        if (ImportOf(sequence) is { } import)
        {
            var day = import.Accepted.AsOf ?? import.Fact.Occurred.Day;
            if (day > session.Today) day = session.Today; // where the day was told, clocks run ahead of it
            var how = import.Accepted.AsOf is null ? "taken over" : "as of";
            return (session.Register.StartOf(day), FormattableString.Invariant($"{how} {day:yyyy-MM-dd}"));
        }
        return recorded?.Invoke(sequence) is { } noted
            ? (session.Register.StartOf(noted < session.Today ? noted : session.Today),
                FormattableString.Invariant($"recorded {noted:yyyy-MM-dd}"))
            : null;
    }

    private TakenImport? ImportOf(int sequence)
    {
        _imports ??= session.Register.TakenImports();
        return _imports.FirstOrDefault(i => i.Brought(sequence)) is { } import
            && (_agrees.TryGetValue(import, out var agrees) ? agrees : _agrees[import] = import.Agrees(session.Register))
            ? import
            : null;
    }
}

using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Details of a device, such as its size or nominal sensitivity, as a row states them.</summary>
internal static class DeviceDetails
{
    public static SortedDictionary<string, FieldValue> Details(RowReader row, DeviceKind kind, PlannedDevice device)
    {
        var details = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal);
        var columns = new Dictionary<DeviceField, Column>();
        foreach (var (field, column) in FieldsOf(row))
        {
            if (row.Text(column) is not { } text) continue;
            var meant = Meant(field, kind, row.HeaderOf(column));
            // "0.0" of a preamplifier under the nominal sensitivities of a mixed list.
            if (meant == DeviceField.NominalSensitivity && MeasuredText.TryRead(text, out var none, out _) && none == 0) continue;
            if (!kind.Has(meant)) throw row.Refused(column, $"a {kind.Label.ToLowerInvariant()} has no such detail");
            columns[meant] = column;
            details[meant.Key] = meant switch
            {
                _ when meant == DeviceField.PolarisationV && Column.Plain(text).StartsWith("prepol", StringComparison.Ordinal) =>
                    FieldValue.Of(0),
                { IsNumber: true } => FieldValue.Of(row.Number(column, meant.Unit, meant.Least!.Value, meant.Greatest!.Value)!.Value),
                { Choices: not null } => FieldValue.Of(Words.Choice(meant, text) ?? throw row.Refused(column, "allowed are "
                    + string.Join(", ", meant.Choices))),
                _ => FieldValue.Of(text),
            };
        }
        var settled = InstrumentClasses.Settle(details, f => device.Details.TryGetValue(f.Key, out var known) ? known.Text : null,
            out var wrong);
        if (wrong is var (unclear, why)) throw row.Refused(columns[unclear], why);
        return ReferenceEquals(settled, details) ? details : new(settled.ToDictionary(), StringComparer.Ordinal);
    }

    // A heading may say a size that no column holds.
    private static IEnumerable<(DeviceField Field, Column Column)> FieldsOf(RowReader row) => row.Beside.Count == 0
        ? row.Header.Fields
        : row.Header.Fields.Concat(Column.Fields.Where(f => row.Beside.ContainsKey(f.Value) && !row.Has(f.Value))
            .Select(f => (f.Key, f.Value)));

    // One header means different details of different kinds.
    private static DeviceField Meant(DeviceField field, DeviceKind kind, string header) => field switch
    {
        _ when field == DeviceField.SizeMm && kind == DeviceKind.GroundPlate && Column.Plain(header) is "diameter" or "durchmesser" =>
            DeviceField.DiameterMm,
        _ when field == DeviceField.SizeMm && !kind.Has(field) && kind.Has(DeviceField.FitsMm) => DeviceField.FitsMm,
        _ when field == DeviceField.NominalSensitivity && kind == DeviceKind.Calibrator => DeviceField.NominalLevelDb,
        _ when field == DeviceField.WorkingStandardClass && kind == DeviceKind.Calibrator => DeviceField.CalibratorClass,
        _ => field,
    };

    public static SortedDictionary<string, FieldValue> Changes(PlannedDevice device, RowReader row, SortedDictionary<string,
        FieldValue> details)
    {
        var changes = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal);
        foreach (var (key, value) in details)
        {
            if (!device.Details.TryGetValue(key, out var known) || known != value) changes[key] = value;
        }
        if (row.Text(Column.Maker) is { } maker && string.IsNullOrEmpty(device.Maker)) changes["maker"] = FieldValue.Of(maker);
        if (row.Text(Column.Model) is { } model && string.IsNullOrEmpty(device.Model)) changes["model"] = FieldValue.Of(model);
        return changes;
    }

    public static string Before(PlannedDevice device, string key) => device.Details.TryGetValue(key, out var value) ? value.ToString()
        : DeviceRows.Nothing;

    public static void Set(PlannedDevice device, string key, FieldValue value)
    {
        if (key == "maker") device.Maker = value.Text;
        else if (key == "model") device.Model = value.Text;
        else device.Details[key] = value;
    }

    /// <summary>What a row says that no detail holds.</summary>
    public static List<string> Notes(RowReader row)
    {
        var notes = new List<string>();
        if (row.Text(Column.Note) is { } note) notes.Add(note);
        if (row.Part is not null) return notes;
        if (row.Beside.TryGetValue(Column.Noted, out var beside)) notes.Add(beside);
        foreach (var column in row.Header.Noted)
        {
            if (row.Row.At(column).Shown is var text && !RowReader.IsAbsent(text)) notes.Add($"{row.Header.Row.At(column).Shown}: {text}");
        }
        return notes;
    }

    /// <summary>
    /// Asks about a file that says two things of one device: nobody can know which row is right, and taking both would add facts at each
    /// import.
    /// </summary>
    public static void AskAboutContradictions(RowReader row, PlannedDevice device, SortedDictionary<string, FieldValue> details,
        string? place, DeviceStatus? status, TornRows torn)
    {
        const string Why = "an earlier row of this import says otherwise; if the later one is right, write yes under 'checked'";
        foreach (var (key, value) in details)
        {
            if (device.Said.Contains(key) && device.Details.TryGetValue(key, out var known) && known != value)
                throw torn.Against(device.Id, key, row, new(RowSort.Questioned,
                    $"{DeviceField.Find(key)?.Label} '{value}', before '{known}': {Why}", DeviceField.Find(key)?.Label, value.ToString()));
        }
        if (place is not null && device.Said.Contains(DeviceStatements.Place) && place != device.Place)
            throw torn.Against(device.Id, DeviceStatements.Place, row, row.Questioned(Column.Place, $"before '{device.Place}': {Why}"));
        if (status is { } s && device.Said.Contains(DeviceStatements.Status) && s != device.Status)
            throw torn.Against(device.Id, DeviceStatements.Status, row, row.Questioned(Column.Status, $"before '{device.Status}': {Why}"));
    }
}

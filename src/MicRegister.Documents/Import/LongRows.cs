using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Certificates exported with a row a quantity: the rows of one device, day and certificate that speak of the air, the uncertainty or the
/// frequency belong to the row of the result.
/// </summary>
internal static class LongRows
{
    private static readonly Dictionary<string, Column> Beside = new(StringComparer.Ordinal)
    {
        [Column.Pressure.Key] = Column.Pressure,
        [Column.Temperature.Key] = Column.Temperature,
        [Column.Humidity.Key] = Column.Humidity,
        [Column.Uncertainty.Key] = Column.Uncertainty,
        [Column.Factor.Key] = Column.Factor,
        [Column.CalibrationHz.Key] = Column.CalibrationHz,
    };

    /// <summary>Which rows say something for another, and what.</summary>
    /// <returns>By number of the row that has the result: what is beside it; and the numbers of the rows that are in it.</returns>
    public static (Dictionary<int, Dictionary<Column, string>> Of, Dictionary<int, int> Into) Join(TableReading table)
    {
        var of = new Dictionary<int, Dictionary<Column, string>>();
        var into = new Dictionary<int, int>();
        var header = table.Header;
        // A table that left a register has a row a result.
        if (!header.Has(Column.Quantity) || !header.Has(Column.Value) || header.Has(Column.DeviceId)) return (of, into);
        var groups = new Dictionary<string, List<(SheetRow Row, string Meaning)>>(StringComparer.Ordinal);
        foreach (var row in table.Rows)
        {
            var meaning = Meaning(row.At(header.Places[Column.Quantity]).Shown);
            if (meaning is null) continue;
            var key = string.Join('\n', new[] { Column.Kind, Column.Serial, Column.Model, Column.Day, Column.Certificate,
                Column.Fields[Register.Devices.DeviceField.InventoryCode] }
                .Select(c => header.Places.TryGetValue(c, out var place) ? row.At(place).Shown : ""));
            if (!groups.TryGetValue(key, out var group)) groups[key] = group = [];
            group.Add((row, meaning));
        }
        foreach (var group in groups.Values)
        {
            var results = group.Where(g => g.Meaning == Column.Value.Key).ToList();
            // Without one result nobody knows what the air belongs to.
            if (results.Count != 1) continue;
            var said = new Dictionary<Column, string>();
            foreach (var (row, meaning) in group.Where(g => Beside.ContainsKey(g.Meaning)))
            {
                if (!said.TryAdd(Beside[meaning], Text(row, header))) continue;
                into[row.Number] = results[0].Row.Number;
            }
            var noted = group.Where(g => g.Meaning == "?noted").ToList();
            foreach (var (row, _) in noted) into[row.Number] = results[0].Row.Number;
            if (noted.Count > 0) said[Column.Noted] = string.Join("; ",
                noted.Select(n => $"{n.Row.At(header.Places[Column.Quantity]).Shown}: {Text(n.Row, header)}"));
            if (said.Count > 0) of[results[0].Row.Number] = said;
        }
        return (of, into);
    }

    private static string? Meaning(string quantity)
    {
        if (Words.Quantity(quantity) is "sensitivity" or "level" or "gain") return Column.Value.Key;
        var (concepts, unknown, _) = HeaderConcepts.Of(quantity);
        return unknown == 0 ? HeaderConcepts.MeaningOf(concepts).Key : null;
    }

    private static string Text(SheetRow row, TableHeader header)
    {
        var text = row.At(header.Places[Column.Value]).Shown;
        var unit = header.Places.TryGetValue(Column.Unit, out var place) ? row.At(place).Shown
            : header.Units.GetValueOrDefault(header.Places[Column.Value]) ?? "";
        return MeasuredText.TryRead(text, out _, out var stated) && stated is null ? $"{text} {unit}".Trim() : text;
    }
}

using MicRegister.Register.Checks;

namespace MicRegister.Documents.Import;

/// <summary>What was read in a check, as its unit tells.</summary>
/// <param name="Method">What was read.</param>
/// <param name="Values">One an insertion: V, dB, or parts of full scale rms.</param>
internal sealed record CheckReading(CheckMethod Method, IReadOnlyList<double> Values)
{
    private const string Allowed =
        "allowed are levels in dB, voltages in V or mV and rms shares of full scale in FS; several in a cell with ; or / between them";

    /// <summary>The reading of some cells; their unit stands in them or in the header, otherwise it is asked.</summary>
    /// <exception cref="RowProblem">It is none.</exception>
    public static CheckReading Of(DiaryTable table, DiaryRow row, Column column, IReadOnlyList<int?> places)
    {
        var (values, method) = (new List<double>(), (CheckMethod?)null);
        foreach (var place in places)
        {
            var (header, text) = place is { } i
                ? (table.Header.Row.At(i).Shown, row.Reader.Row.At(i).Shown)
                : (column.Meaning, row.Reader.Text(column)!);
            foreach (var part in text.Split([';', '/'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            {
                var isShare = part.EndsWith("FS", StringComparison.OrdinalIgnoreCase)
                    && !part.EndsWith("dBFS", StringComparison.OrdinalIgnoreCase);
                if (!MeasuredText.TryRead(isShare ? part[..^2] : part, out var number, out var stated))
                    throw new RowProblem(RowSort.Refused, $"{header} '{text}': {Allowed}", header, text);
                var unit = isShare ? "fs" : stated ?? (place is { } at ? table.UnitAt(at) : null);
                var (own, value) = unit switch
                {
                    "dB" or "db" => (CheckMethod.Indicated, number),
                    "V" or "v" => (CheckMethod.Voltage, number),
                    "mV" or "mv" => (CheckMethod.Voltage, number / 1000),
                    "fs" or "of full scale" => (CheckMethod.Recording, number),
                    null or "" => throw Unit(row, header, text),
                    _ => throw new RowProblem(RowSort.Refused, $"{header} '{text}': its unit is {unit}; {Allowed}", header, text),
                };
                if (method is { } before && before != own)
                    throw new RowProblem(RowSort.Refused, $"{header} '{text}': readings of one check have one unit", header, text);
                method = own;
                values.Add(value);
            }
        }
        return new(method ?? throw row.MissingOf(column), values);
    }

    /// <summary>Last step of a reading, in the unit of its method; null where nobody said.</summary>
    public static double? Resolution(DiaryRow row, CheckMethod method)
    {
        var column = DiaryColumns.Resolution;
        if (row.Reader.Text(column) is not { } text) return null;
        if (!MeasuredText.TryRead(text, out var number, out var stated)) throw row.Reader.Refused(column, "a number is wanted");
        return (stated ?? row.Reader.UnitAbove(column), method) switch
        {
            ("mV", CheckMethod.Voltage) => number / 1000,
            ("V" or null, CheckMethod.Voltage) or ("dB" or null, CheckMethod.Indicated) or (null, CheckMethod.Recording) => number,
            var (unit, _) => throw row.Reader.Refused(column, $"its unit, {unit}, is not that of the reading"),
        };
    }

    private static RowProblem Unit(DiaryRow row, string header, string text) =>
        new(RowSort.Questioned, $"{header} '{text}': its unit is missing", header, text)
        {
            Question = new(
                "column " + header.ToLowerInvariant(), row.Reader.Sheet, $"In which unit is '{header}'?",
                [.. new[] { ("dB", "dB"), ("mV", "mV"), ("V", "V"), ("rms share of full scale", "FS") }.Select(u => new ImportChoice(
                    u.Item1, LegendText.HeaderRule(header, $"{KeyOf(row, header)} [{u.Item2}]")))]),
        };

    private static string KeyOf(DiaryRow row, string header) =>
        row.Reader.Header.Places.FirstOrDefault(p => row.Reader.Header.Row.At(p.Value).Shown == header).Key?.Key
        ?? DiaryColumns.Reading.Key;
}

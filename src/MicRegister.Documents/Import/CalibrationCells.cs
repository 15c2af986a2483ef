using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Reads results out of a row.</summary>
internal static class CalibrationCells
{
    /// <summary>A result with how finely it was written.</summary>
    public sealed record Read(CalibrationResult Result, double LevelDb, double ResolutionDb, Column Column);

    private static readonly string[] SensitivityUnits = ["mV/Pa", "V/Pa", "dB re 1 V/Pa"];

    private const string Undated = "results-without-days";

    /// <summary>Remark of a result whose table gave a year and no day.</summary>
    public const string YearOnly = "only the year is known";

    /// <summary>The certificate that a row states; null where it states none.</summary>
    public static (DateOnly Day, CertificateIssued Issued, IReadOnlyList<Read> Results)? Of(RowReader row, DeviceKind kind, bool isChecked)
    {
        var day = row.Day(Column.Day);
        var results = new List<Read>();
        var quantity = Quantity(row, kind);
        foreach (var (column, state) in new[] { (Column.FoundValue, AdjustmentState.AsFound), (Column.LeftValue, AdjustmentState.AsLeft),
            (Column.Value, AdjustmentState.AsFoundAndLeft) })
        {
            // A plain result beside "as left" repeats it.
            if (state == AdjustmentState.AsFoundAndLeft && results.Any(r => r.Result.State == AdjustmentState.AsLeft)) continue;
            if (row.Text(column) is { } text) results.Add(Result(row, column, text, row.UnitAbove(column), quantity, state));
        }
        if (day is null)
        {
            if (results.Count == 0 || (!row.Has(Column.Day) && row.Mapping.Of(Undated) == "leave-out")) return null;
            throw new RowProblem(RowSort.Refused, "There is a result without a day of calibration.", row.HeaderOf(Column.Day), "")
            {
                Question = row.Has(Column.Day) ? null : new(Undated, row.Sheet, "The table has results and no day of calibration. "
                    + "State the day of all of them with day := YYYY-MM-DD in the legend, or leave them out?",
                    [new("Leave the results out; take the rest of the rows", Undated + " := leave-out")]),
            };
        }
        if (results.Count == 0 && !isChecked && kind.Calibrated is null && row.Text(Column.Laboratory) is null
            && row.Text(Column.Certificate) is null) return null;
        if (results.Count == 0 && kind.Calibrated is not null && !isChecked && !IsKeptWithoutResult(row, day.Value)) return null;
        return (day.Value, Issued(row, quantity, results), results);
    }

    // A day of calibration whose result nobody reads leaves a device in date and without a sensitivity: a person has to want that.
    private static bool IsKeptWithoutResult(RowReader row, DateOnly day)
    {
        var hasColumn = row.Has(Column.Value) || row.Has(Column.FoundValue) || row.Has(Column.LeftValue);
        var key = hasColumn ? "missing-results" : "days-without-results";
        if (row.Mapping.Of(key) is { } said) return said == "keep";
        throw new RowProblem(RowSort.Questioned, $"{row.HeaderOf(Column.Day)} '{day:yyyy-MM-dd}': a calibration without a result",
            row.HeaderOf(Column.Day), row.Text(Column.Day))
        {
            Question = new(key, row.Sheet, hasColumn ? "Some rows have a day of calibration and no result. What about them?"
                : "The table has days of calibration and no column of results. What about the days?",
            [
                new("Keep the days; no result is known of them", key + " := keep"),
                new("Leave these calibrations out; take the rest of the rows", key + " := leave-out"),
            ]),
        };
    }

    /// <summary>A certificate from a column that holds the results of a year.</summary>
    public static (CertificateIssued Issued, Read Result) OfYear(RowReader row, DeviceKind kind, string text, string? unitAbove,
        string header)
    {
        var quantity = Quantity(row, kind);
        var result = Result(row, Column.Value, text, unitAbove, quantity, AdjustmentState.AsFoundAndLeft, header);
        return (Issued(row, quantity, [result]) with { Remark = YearOnly }, result);
    }

    private static CertificateIssued Issued(RowReader row, string quantity, IReadOnlyList<Read> results)
    {
        double? p = row.Number(Column.Pressure, "kPa", 30, 120), t = row.Number(Column.Temperature, "°C", -60, 80),
            h = row.Number(Column.Humidity, "%", 0, 100);
        return new(
            quantity, row.Text(Column.Certificate), row.Text(Column.Laboratory), row.Text(Column.Method),
            row.Text(Column.Field) is { } field ? Words.Choice(DeviceField.ResponseType, field)
                ?? throw row.Refused(Column.Field, "allowed are " + string.Join(", ", DeviceField.ResponseType.Choices!)) : null,
            row.Number(Column.Angle, "°", 0, 180), row.Text(Column.Loading),
            row.Number(Column.CalibrationHz, "Hz", 0.1, 200_000) ?? row.FrequencyAbove(Column.Value), [.. results.Select(r => r.Result)],
            p is null && t is null && h is null ? null : new(p, t, h), row.Id(Column.ReferenceDevice), row.Text(Column.Reference),
            row.Day(Column.Due), null, null, row.Text(Column.ResultRemark))
        {
            StatedForKPa = row.Number(Column.StatedFor, "kPa", 30, 120),
            Tone = Tone(row),
        };
    }

    private static StatedTone? Tone(RowReader row)
    {
        var tone = new StatedTone(
            row.Number(Column.ToneHz, "Hz", 0.001, 20_000), row.Number(Column.ToneHzUncertainty, "%", 0, 100),
            row.Number(Column.Distortion, "%", 0, 100), row.Number(Column.DistortionUncertainty, "%", 0, 100),
            row.Number(Column.Fluctuation, "dB", 0, 10));
        return tone == new StatedTone(null, null, null, null, null) ? null : tone;
    }

    private static string Quantity(RowReader row, DeviceKind kind) =>
        row.Text(Column.Quantity) is { } text
            ? Words.Quantity(text) ?? throw row.Refused(
                Column.Quantity, "allowed are sensitivity, level, gain, response, insertion loss, attenuation, noise level, "
                    + "static pressure, insertion voltage")
            : kind.Calibrated ?? "general";

    private static Read Result(RowReader row, Column column, string text, string? unitAbove, string quantity, AdjustmentState state,
        string? header = null)
    {
        var (uncertain, k) = (row.Text(Column.Uncertainty), (double?)null);
        var whole = text;
        if (ResultText.Split(text) is var (result_, beside, factorInCell))
        {
            // What the cell itself says of its uncertainty counts before a column of its own only where there is none.
            (text, uncertain, k) = (result_, uncertain ?? beside, factorInCell);
        }
        if (ResultText.Twice(text) is var (once, again))
        {
            if (!SecondValue.Agree(once, again)) throw new RowProblem(RowSort.Refused,
                $"{header ?? row.HeaderOf(column)} '{text}': the two figures do not say the same; leave the right one", header
                    ?? row.HeaderOf(column), whole);
            text = once;
        }
        if (!MeasuredText.TryRead(text, out var value, out var stated))
            throw new RowProblem(RowSort.Refused,
                $"{header ?? row.HeaderOf(column)} '{text}': it is no number with a unit that a result can have", header
                ?? row.HeaderOf(column), whole);
        stated ??= row.Text(Column.Unit) is { } own ? MeasuredText.Unit(own)
            ?? throw row.Unknown(Column.Unit, own, SensitivityUnits.Append("dB")) : null;
        if (quantity == "sensitivity" && (stated ?? unitAbove) == "mV") stated = Millivolts(row, column, text, header);
        if (stated is null && unitAbove is null && quantity == "sensitivity" && value > 0
            && row.PlaceOf(column) is { } place) throw WithoutUnit(row, column, place, text);
        var unit = Unit(stated ?? unitAbove, value, quantity)
            ?? throw new RowProblem(RowSort.Refused,
                $"{header ?? row.HeaderOf(column)} '{text}': the unit is missing or does not fit a {quantity}; write mV/Pa, V/Pa or dB re 1 V/Pa in the cell or the header", header ?? row.HeaderOf(column), text);
        if (unit == "kPa" && (stated ?? unitAbove) is "hPa" or "Pa") value = MeasuredText.Convert(value, stated ?? unitAbove, "kPa")!.Value;

        var (expanded, uncertaintyUnit) = Uncertainty(row, uncertain, unit);
        var (ofRow, above) = (row.Number(Column.Factor, "", 0.5, 10), row.FactorAbove(Column.Uncertainty));
        // "U (k=2)" beside k = 1, or a standard uncertainty beside k = 2: nobody knows which one holds.
        if (expanded is not null && ofRow is { } said && above is { } ofHeader && said != ofHeader)
            throw row.Refused(Column.Factor, FormattableString.Invariant($"the header of the uncertainty says k = {ofHeader}"));
        var factor = ofRow ?? k ?? above ?? row.FactorAbove(column);
        var result = new CalibrationResult(state, value, unit, expanded, expanded is null ? null : uncertaintyUnit, factor);
        if (ResultLevel.Of(result) is not { } level)
            throw new RowProblem(RowSort.Refused, $"{header ?? row.HeaderOf(column)} '{text}': a sensitivity in {unit} is above 0", header
                ?? row.HeaderOf(column), text);
        if (expanded is not null && level.StandardUncertaintyDb is null) throw row.Refused(Column.Uncertainty,
            $"an uncertainty in {uncertaintyUnit} does not fit a result in {unit}");
        if (level.StandardUncertaintyDb < ResultLevel.LeastUncertaintyDb) throw row.Refused(Column.Uncertainty,
            $"it is so small that it must be a slip; at least {ResultLevel.LeastUncertaintyDb} dB are taken");
        return new(result, level.LevelDb, Resolution(text, value, unit), column);
    }

    private static string Millivolts(RowReader row, Column column, string text, string? header) => row.Mapping.Of("mV")
        ?? throw new RowProblem(RowSort.Questioned,
            $"{header ?? row.HeaderOf(column)} '{text}': a sensitivity in mV; for which sound pressure?", header ?? row.HeaderOf(column),
            text)
        {
            Question = new("mV", row.Sheet,
                $"'{text}' under '{header ?? row.HeaderOf(column)}' is in mV. Is it for a sound pressure of 1 Pa?",
                [new("Yes: mV/Pa", "mV := mV/Pa")]),
        };

    private static RowProblem WithoutUnit(RowReader row, Column column, int place, string text)
    {
        var header = row.Header.Row.At(place).Shown;
        return new(RowSort.Questioned,
            $"{header} '{text}': the unit is missing or does not fit a sensitivity; write mV/Pa, V/Pa or dB re 1 V/Pa in the cell or the header", header, text)
        {
            Question = new("unit " + header, row.Sheet, $"In which unit are the results under '{header}', such as {text}?",
                [.. SensitivityUnits.Select(u => new ImportChoice(u, LegendText.HeaderRule(header, $"{column.Key} [{u}]")))]),
        };
    }

    // A bare negative number can only be a level; a bare positive one could be anything.
    private static string? Unit(string? unit, double value, string quantity) => (quantity, unit) switch
    {
        ("sensitivity", "mV/Pa" or "V/Pa" or "dB re 1 V/Pa") => unit,
        ("sensitivity", "dB") => "dB re 1 V/Pa",
        ("sensitivity", null) => value < 0 ? "dB re 1 V/Pa" : null,
        ("static-pressure", "kPa" or "hPa" or "Pa") => "kPa",
        ("static-pressure", null) => value is > 30 and < 120 ? "kPa" : null,
        ("sensitivity" or "static-pressure", _) => null,
        (_, null or "dB") => "dB",
        _ => null,
    };

    private static (double? Expanded, string? Unit) Uncertainty(RowReader row, string? text, string resultUnit)
    {
        if (text is null) return (null, null);
        if (!MeasuredText.TryRead(text, out var value, out var stated)) throw row.Refused(Column.Uncertainty, "it is no number");
        stated ??= row.Text(Column.UncertaintyUnit) is { } own
            ? MeasuredText.Unit(own) ?? throw row.Unknown(Column.UncertaintyUnit, own, ResultLevel.UncertaintyUnits) : null;
        var unit = stated ?? row.UnitAbove(Column.Uncertainty)
            ?? (resultUnit.StartsWith("dB", StringComparison.Ordinal) ? "dB" : resultUnit == "kPa" ? "kPa" : null)
            ?? throw row.Refused(Column.Uncertainty,
                "its unit is missing; write dB, % or the unit of the result in the cell or the header");
        if (unit == "dB re 1 V/Pa") unit = "dB";
        if (!ResultLevel.UncertaintyUnits.Contains(unit)) throw row.Refused(Column.Uncertainty, "allowed units are "
            + string.Join(", ", ResultLevel.UncertaintyUnits));
        if (value <= 0) throw row.Refused(Column.Uncertainty,
            "an expanded uncertainty is above 0; leave the cell blank where none was stated");
        return (value, unit);
    }

    // Half a unit of the last digit, as a level.
    private static double Resolution(string text, double value, string unit)
    {
        var digits = text.Trim().Split(' ')[0];
        var mark = digits.LastIndexOfAny(['.', ',']);
        var decimals = mark < 0 ? 0 : digits[(mark + 1)..].TakeWhile(char.IsAsciiDigit).Count();
        var half = 0.5 * Math.Pow(10, -decimals);
        return unit.StartsWith("dB", StringComparison.Ordinal) || unit == "kPa" ? half : 8.686 * half / Math.Abs(value);
    }

    /// <summary>A level of a quantity for people.</summary>
    public static string Shown(double levelDb, string quantity) => QuantityText.Of(levelDb, ResultLevel.UnitOf(quantity), 3);
}

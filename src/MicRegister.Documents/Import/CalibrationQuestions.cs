using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Questions values that cannot be, before they are taken for results.</summary>
internal static class CalibrationQuestions
{
    // 200 mV/Pa and 0.5 mV/Pa: few measurement microphones lie beyond (common practice, no source).
    private const double UsualMostDb = -14;
    private const double UsualLeastDb = -66;

    private const string IfRight = " (if it is right after all, write yes under 'checked')";

    public static void Ask(
        RowReader row, Column column, PlannedDevice device, SortedDictionary<string, FieldValue> details, string quantity,
            CalibrationCells.Read read,
        SiblingLevels siblings, string? header = null, string? text = null)
    {
        var model = row.Text(Column.Model);
        if ((Question(device, details, quantity, read) ?? OfSiblings(device, model, quantity, read, siblings)
            ?? Unusual(device, details, quantity, read)) is not { } why)
            return;
        throw new RowProblem(RowSort.Questioned, $"{header ?? row.HeaderOf(column)} '{text ?? row.Text(column)}': {why}{IfRight}", header
            ?? row.HeaderOf(column), text ?? row.Text(column));
    }

    private static string? Question(PlannedDevice device, SortedDictionary<string, FieldValue> details, string quantity,
        CalibrationCells.Read read)
    {
        if (ResultLevel.Of(read.Result) is { StandardUncertaintyDb: > 1 })
            return "its uncertainty is over 2 " + ResultLevel.UnitOf(quantity);
        if (quantity == "level" && read.LevelDb is < 60 or > 160) return "no sound calibrator has such a level";
        if (quantity == "level") return null; // one calibrator may have several levels
        if (quantity != "sensitivity") return Against(device, quantity, read.LevelDb, 3);

        if (read.LevelDb > 0 && read.Result.Unit.StartsWith("dB",
            StringComparison.Ordinal)) return "a sensitivity level is negative; did the sign get lost?";
        if (read.LevelDb > 0) return "no measurement microphone has more than 1 V/Pa";
        if (read.LevelDb < -80) return "no measurement microphone has less than 0.1 mV/Pa";
        var nominal = details.TryGetValue(DeviceField.NominalSensitivity.Key, out var said) ? said.Number
            : device.Details.TryGetValue(DeviceField.NominalSensitivity.Key, out var known) ? known.Number : null;
        if (nominal is { } mv && read.LevelDb - Sensitivity.FromMillivoltsPerPascal(mv).Level.Decibels is var off && Math.Abs(off) > 3)
        {
            return $"it is {QuantityText.Change(off, "dB", 1)} off the nominal {QuantityText.UpTo(mv, 3)} mV/Pa"
                + (Math.Abs(Math.Abs(off) - 20) < 2 ? ", a factor of ten" : "");
        }
        return Against(device, quantity, read.LevelDb, 3);
    }

    private static string? Unusual(PlannedDevice device, SortedDictionary<string, FieldValue> details, string quantity,
        CalibrationCells.Read read) =>
        quantity == "sensitivity" && read.LevelDb is > UsualMostDb or < UsualLeastDb
        && !details.ContainsKey(DeviceField.NominalSensitivity.Key) && !device.Details.ContainsKey(DeviceField.NominalSensitivity.Key)
            ? "few measurement microphones have so much or so little, and no nominal sensitivity says it of this one"
            : null;

    // Microphones of one model lie within a few decibels; one that lies further off is another model, or a slip.
    private static string? OfSiblings(PlannedDevice device, string? model, string quantity, CalibrationCells.Read read,
        SiblingLevels siblings)
    {
        if (quantity != "sensitivity" || siblings.TooFarOff(device.Model ?? model, read.LevelDb) is not { } off) return null;
        return $"it is {QuantityText.Change(off, "dB", 1)} off the others of its model"
            + (Math.Abs(Math.Abs(off) - 20) < 3 ? ", a factor of ten" : "");
    }

    private static string? Against(PlannedDevice device, string quantity, double levelDb, double limitDb)
    {
        var levels = device.Certificates.Where(c => c.Issued.Quantity == quantity).Select(c => c.LevelDb).OfType<double>().Order().ToList();
        if (levels.Count == 0) return null;
        var median = levels[levels.Count / 2];
        return Math.Abs(levelDb - median) > limitDb
            ? $"it is {QuantityText.Change(levelDb - median, ResultLevel.UnitOf(quantity), 1)} off the device's other results"
            : null;
    }
}

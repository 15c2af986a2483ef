using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What a row says of an inspection.</summary>
internal static class InspectionRow
{
    private static readonly string[] YesOrNo = ["yes", "no"];

    /// <summary>The inspection with its day; null where the row speaks of none.</summary>
    /// <exception cref="RowProblem">It has no day, or it passed what it found damaged or contaminated.</exception>
    public static (DateOnly Day, DeviceInspected Body)? Of(RowReader row)
    {
        var day = row.Day(Column.Inspected);
        double? step = row.Number(Column.FlushStep, "mm", -50, 50), gap = row.Number(Column.Gap, "mm", 0, 200),
            flat = row.Number(Column.Flatness, "mm", 0, 50);
        var passed = row.Word(Column.Passed, Words.YesNo, YesOrNo);
        var (undamaged, uncontaminated) = (row.Word(Column.Undamaged, Words.YesNo, YesOrNo),
            row.Word(Column.Uncontaminated, Words.YesNo, YesOrNo));
        var (data, remark) = (row.Text(Column.MakersData), row.Text(Column.InspectionRemark));
        if (day is null)
        {
            return step is null && gap is null && flat is null && passed is null && undamaged is null && uncontaminated is null
                && data is null && remark is null
                ? null
                : throw new RowProblem(RowSort.Refused, "There is an inspection without its day.", row.HeaderOf(Column.Inspected), "");
        }
        var isSound = undamaged != false && uncontaminated != false;
        if (passed == true && !isSound) throw row.Refused(Column.Passed, "no, since it was found damaged or contaminated");
        return (day.Value, new(passed ?? isSound, step, gap, flat, remark)
        {
            Undamaged = undamaged,
            Uncontaminated = uncontaminated,
            MakersData = data,
        });
    }

    /// <summary>Whether a device holds an inspection of that day that says all that another says.</summary>
    public static bool IsHeld(PlannedDevice device, (DateOnly Day, DeviceInspected Body) seen)
    {
        var said = seen.Body;
        return device.Inspections.Exists(i => i.Day == seen.Day && i.Body is var held && held.Passed == said.Passed
            && (said.FlushStepMm is null || held.FlushStepMm == said.FlushStepMm) && (said.GapMm is null || held.GapMm == said.GapMm)
            && (said.FlatnessMm is null || held.FlatnessMm == said.FlatnessMm) && Says(held.Text, said.Text)
            && (said.Undamaged is null || held.Undamaged == said.Undamaged)
            && (said.Uncontaminated is null || held.Uncontaminated == said.Uncontaminated) && Says(held.MakersData, said.MakersData));
    }

    private static bool Says(string? held, string? said) => said is null || CellText.Same(held, said);
}

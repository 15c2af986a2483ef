using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Results of one device and day: whether they are one, which says more, and which two are of two certificates.</summary>
internal static class RivalResults
{
    /// <summary>Holds a result against those of the same day, or of the same year where only that is known.</summary>
    public static void Against(
        PlannedDevice device, DateOnly day, CertificateIssued issued, CalibrationCells.Read? result, bool isYear, bool isChecked,
        RowReader row, Column column, List<(DateOnly, CertificateIssued, FactId?)> taken, TornRows torn)
    {
        if (row.Text(Column.OwnResult) is { } own && Words.YesNo(own) == true)
        {
            taken.Add((day, issued, null));
            return;
        }
        var rivals = device.Certificates.Where(c => c.Issued.Quantity == issued.Quantity
            && (c.Issued.FrequencyHz is null || issued.FrequencyHz is null || c.Issued.FrequencyHz == issued.FrequencyHz)
            && (isYear ? c.Day.Year == day.Year : c.Day == day) && !IsOfAnother(c.Issued, issued)).ToList();
        if (rivals.Count == 0)
        {
            // Where an older table knew only the year, the day takes its place, so that one measurement does not count twice.
            var yearOnly = isYear || result is null ? null
                : device.Certificates.FirstOrDefault(c => c.Issued.Quantity == issued.Quantity
                && c.Issued.Remark == CalibrationCells.YearOnly && c.Day.Year == day.Year
                && c.LevelDb is { } level && Math.Abs(level - result.LevelDb) <= Math.Max(0.005, result.ResolutionDb) + 1e-9);
            taken.Add((day, issued, yearOnly?.Fact));
            return;
        }
        var same = rivals.FirstOrDefault(r => result is null || r.LevelDb is null
            || Math.Abs(r.LevelDb.Value - result.LevelDb) <= Math.Max(0.005, result.ResolutionDb) + 1e-9);
        if (same is null)
        {
            if (isChecked) taken.Add((day, issued, isYear ? null : rivals[^1].Fact));
            else
            {
                var held = CalibrationCells.Shown(rivals[0].LevelDb ?? double.NaN, issued.Quantity);
                var here = CalibrationCells.Shown(result!.LevelDb, issued.Quantity);
                var key = KeyOf(rivals[0].Day, rivals[0].Issued, isYear && rivals[0].Issued.Remark == CalibrationCells.YearOnly);
                var who = torn.FirstOf(device.Id, key) is { } other && other != row.Row.Number
                    ? FormattableString.Invariant($"Row {other} says") : "The register holds";
                var problem = new RowProblem(
                    RowSort.Questioned,
                    $"{who} another {issued.Quantity} of {rivals[0].Day:yyyy-MM-dd}: {held}, here {here}; which is right?",
                    row.HeaderOf(column), row.Text(column));
                throw isYear && rivals[0].Issued.Remark != CalibrationCells.YearOnly ? problem : torn.Against(device.Id, key, row, problem);
            }
            return;
        }
        if (!isYear && Fuller(same.Issued, issued) is { } fuller) taken.Add((day, fuller, same.Fact));
    }

    /// <summary>What tells results of a device that cannot stand beside each other.</summary>
    public static string KeyOf(DateOnly day, CertificateIssued issued, bool isYear) => FormattableString.Invariant(
        $"result {issued.Quantity} {(isYear ? "of " : "")}{day:yyyy-MM-dd} {issued.FrequencyHz} {DeviceIdentity.Normal(issued.Laboratory)} {DeviceIdentity.Normal(issued.Number)}");

    // Two laboratories measure one device on one day, and one laboratory may write two certificates: both are kept.
    private static bool IsOfAnother(CertificateIssued a, CertificateIssued b) => Differ(a.Laboratory, b.Laboratory)
        || Differ(a.Number, b.Number);

    private static bool Differ(string? a, string? b) => !string.IsNullOrEmpty(a) && !string.IsNullOrEmpty(b)
        && DeviceIdentity.Normal(a) != DeviceIdentity.Normal(b);

    // A statement that adds to a known one what that left open, and contradicts none of it.
    private static CertificateIssued? Fuller(CertificateIssued known, CertificateIssued said)
    {
        var results = known.Results.Count == 0 && said.Results.Count > 0 ? said.Results
            : known.Results.Count == 1 && said.Results.Count == 1 && known.Results[0].ExpandedUncertainty is null
                && said.Results[0].ExpandedUncertainty is not null ? said.Results
            : known.Results;
        var fuller = known with
        {
            Number = known.Number ?? said.Number,
            Laboratory = known.Laboratory ?? said.Laboratory,
            Method = known.Method ?? said.Method,
            Field = known.Field ?? said.Field,
            FrequencyHz = known.FrequencyHz ?? said.FrequencyHz,
            Air = known.Air ?? said.Air,
            Reference = known.Reference ?? said.Reference,
            DueDay = known.DueDay ?? said.DueDay,
            Results = results,
        };
        return fuller == known ? null : fuller;
    }
}

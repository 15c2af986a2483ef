using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Exports;

/// <summary>Covariances between what applies to the stations of an event, as a matrix: one row and one column a station.</summary>
public static class CovarianceTable
{
    /// <summary>Makes the table.</summary>
    /// <param name="title">What it is of.</param>
    /// <param name="covariance">The covariances.</param>
    /// <param name="part">One part of the uncertainty alone; null for all of it.</param>
    /// <param name="provenance">Register id, sequence, chain hash, set digest, version.</param>
    public static ExportTable Of(
        string title, EventCovariance covariance, UncertaintyPart? part, IReadOnlyList<(string Name, string Value)> provenance)
    {
        var names = covariance.Names;
        // A station may have any name.
        var first = "station";
        while (names.Contains(first, StringComparer.Ordinal)) first += "-name";
        var what = part switch
        {
            UncertaintyPart.Sensitivity => "sensitivity level alone",
            UncertaintyPart.MountAndDirection => "normalisation of the mount alone",
            _ => "sensitivity level and normalisation",
        };
        var unit = covariance.Unit == SensitivityUnit.Volts ? "V/Pa" : "FS/Pa";
        List<ExportColumn> columns =
        [
            new(first, "Station", "", "Name of the station, with the begin of its part where it has several."),
            .. names.Select(n => new ExportColumn(n, n, "dB²", $"Covariance with {n}: {what}, in {unit}.")),
        ];
        return new(title, columns, [.. names.Select((n, row) => Row(n, row))], provenance) { Notes = covariance.Cautions };

        IReadOnlyList<ExportCell> Row(string name, int row) =>
            [ExportCell.Of(name), .. names.Select((_, column) => ExportCell.Of(covariance.At(row, column, part)))];
    }
}

using MicRegister.Register.Mounting;

namespace MicRegister.Documents.Exports;

/// <summary>Levels of mounts re the free field: one row a mount and third-octave band.</summary>
public static class MountTable
{
    private static readonly ExportColumn[] Columns =
    [
        new("mount", "Mount", "", "flush-plate, inverted-plate, ground-stand or pole."),
        new("stations", "Stations", "", "Stations of the campaign that stand so; empty where none was asked about."),
        new("height-m", "Height", "m", "Of the diaphragm over ground or plate."),
        new("elevation-deg", "Elevation", "°", "Of the source over the horizon; 90 is overhead."),
        new("temperature-c", "Temperature", "°C", "Of the air."),
        new("speed-of-sound", "Speed of sound", "m/s", "Of dry standard air at that temperature, ISO 2533:1975."),
        new("reflection", "Reflection", "", "What the ground returns of the sound pressure; 1 is rigid.") { Type = ExportType.Number },
        new("band-hz", "Band", "Hz", "Nominal middle of the third-octave band."),
        new("middle-hz", "Middle", "Hz", "Exact middle, base ten."),
        new("low-hz", "Lower edge", "Hz", "Lower edge of the band."),
        new("high-hz", "Upper edge", "Hz", "Upper edge of the band."),
        new("tone-db", "Tone", "dB", "Level re free field of a tone at the exact middle; empty in a dip of no width."),
        new("level-db", "Level", "dB", "Level re free field of the band: the energy average, white within the band."),
        new("meant-db", "Meant", "dB", "Level re free field that the mount is meant to have: all that is ever taken off."),
        new("off-db", "Off", "dB", "Level less what is meant. A trend, never a correction."),
        new("within", "Within", "", "yes or no: whether that is within the tolerance."),
        new("lowest-db", "Lowest", "dB", "Lowest level of the band under another height or temperature that was looked at."),
        new("highest-db", "Highest", "dB", "Highest level of the band under another height or temperature that was looked at."),
    ];

    /// <summary>Makes the table.</summary>
    /// <param name="title">What it is of.</param>
    /// <param name="answers">Mounts in order, each with the stations that stand so.</param>
    /// <param name="provenance">Register id, sequence, chain hash, set digest, version.</param>
    public static ExportTable Of(
        string title, IEnumerable<(MountAnswer Answer, IReadOnlyList<string> Stations)> answers,
        IReadOnlyList<(string Name, string Value)> provenance)
    {
        List<(MountAnswer Answer, IReadOnlyList<string> Stations)> all = [.. answers];
        var rows = all.SelectMany(a => a.Answer.Bands.Select(b => Row(a.Answer, a.Stations, b)));
        var whys = all.Select(a =>
            $"{Drawings.MountPlot.Name(a.Answer.Question)}: {MountAgainstPractice.InWords(a.Answer.Agreement)}. {a.Answer.Why}");
        return new(title, Columns, [.. rows], provenance) { Notes = [.. whys.Distinct(StringComparer.Ordinal), .. MountCaveats.All] };
    }

    private static IReadOnlyList<ExportCell> Row(MountAnswer a, IReadOnlyList<string> stations, MountBand b)
    {
        List<double> levels = [b.LevelDb, .. b.ChangedDb];
        return
        [
            ExportCell.Of(a.Question.Mount.Key), ExportCell.Of(string.Join(' ', stations)), ExportCell.Of(a.Question.HeightM),
            ExportCell.Of(a.Question.ElevationDeg), ExportCell.Of(a.Question.TemperatureC), Rounded(a.Receiver.SpeedOfSound),
            ExportCell.Of(a.Question.Reflection), ExportCell.Of(Math.Round(b.Band.NominalHz, 6)), Rounded(b.Band.MiddleHz),
            Rounded(b.Band.LowHz), Rounded(b.Band.HighHz), double.IsFinite(b.ToneDb) ? Rounded(b.ToneDb) : ExportCell.Nothing,
            Rounded(b.LevelDb), Rounded(a.RaisesDb), Rounded(b.OffDb), ExportCell.Of(b.IsWithin ? "yes" : "no"),
            Rounded(levels.Min()), Rounded(levels.Max()),
        ];
    }

    private static ExportCell Rounded(double value) => ExportCell.Of(Math.Round(value, 4));
}

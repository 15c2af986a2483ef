using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Columns of frequencies without a unit whose numbers are hardly Hz: 0.25 and 1 are a calibrator's 250 Hz and 1 kHz.</summary>
internal static class FrequencyUnits
{
    // Where all numbers of a column lie below, they are kHz as likely as Hz. Sound calibrators give 250 Hz and 1000 Hz, microphones are
    // measured from some 20 Hz and reach some kHz at the least (common practice, no source).
    private static readonly (Column Column, double BelowHz)[] Plain =
    [
        (Column.CalibrationHz, 20), (Column.ToneHz, 20), (Column.BandFrom, 1), (Column.BandTo, 50),
        (Column.Fields[DeviceField.HighestHz], 200), (Column.Fields[DeviceField.FrequencyHz], 20),
    ];

    private static readonly string[] Units = ["kHz", "Hz"];

    /// <summary>One question a column.</summary>
    public static IEnumerable<ImportQuestion> Questions(TableHeader header, IReadOnlyList<SheetRow> rows, string sheet)
    {
        if (TableFinder.LeftARegister(header.Row)) yield break;
        foreach (var (column, below) in Plain)
        {
            foreach (var place in header.Groups.Select(g => g.Places).Prepend(header.Places)
                .SelectMany(p => p.TryGetValue(column, out var at) ? [at] : Array.Empty<int>()).Distinct())
            {
                if (header.Units.GetValueOrDefault(place) is "Hz" or "kHz") continue;
                var texts = rows.Select(r => r.At(place).Shown).Where(t => MeasuredText.TryRead(t, out _, out var unit) && unit is null
                    && !RowReader.MayBeOfThousands(t)).ToList();
                if (texts.Count == 0 || texts.Max(NumberOf) >= below) continue;
                var text = header.Row.At(place).Shown;
                var question = new ImportQuestion("unit " + text, sheet,
                    $"In which unit are the frequencies under '{text}', such as {texts[0]}?",
                    [.. Units.Select(u => new ImportChoice(u, LegendText.HeaderRule(text, $"{column.Key} [{u}]")))]);
                foreach (var example in texts) question.Seen(example);
                yield return question;
            }
        }
    }

    private static double NumberOf(string text) => MeasuredText.TryRead(text, out var value, out _) ? value : 0;
}

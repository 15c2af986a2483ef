using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>What a column of a table was taken for, for people.</summary>
/// <param name="Sheet">Name of the sheet; empty in a text file.</param>
/// <param name="Header">Its header.</param>
/// <param name="Meaning">What it holds.</param>
/// <param name="Certainty">How that is known.</param>
/// <param name="First">Its first values.</param>
public sealed record UnderstoodColumn(string Sheet, string Header, string Meaning, string Certainty, string First)
{
    private const int ValuesShown = 3;

    internal static IEnumerable<UnderstoodColumn> Of(string sheet, TableHeader header, IReadOnlyList<SheetRow> rows)
    {
        for (var i = 0; i < header.Row.Cells.Length; i++)
        {
            if (header.Row.At(i).IsBlank) continue;
            var (meaning, certainty) = Of(header, i);
            var first = rows.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).Distinct().Take(ValuesShown);
            yield return new(sheet, header.Row.At(i).Shown, meaning, certainty, string.Join(", ", first));
        }
    }

    private static (string Meaning, string Certainty) Of(TableHeader header, int i)
    {
        var unit = header.Units.GetValueOrDefault(i) is { } u ? $" [{u}]" : "";
        if (header.LeftOut.Contains(i)) return ("left out", "of no use here");
        if (header.Noted.Contains(i)) return ("kept as a note", "no column of the register");
        if (header.Described == i) return ("kind, model and serial number of the device", "by what stands below it");
        if (header.DateParts is var (day, month, year) && (day == i || month == i || year == i)) return ("part of the day of calibration", "by its header");
        if (header.YearPlace == i) return ("year of the result", "by its header");
        if (header.StatusMarks.Contains(i)) return ("state of use of the devices marked in it", "by its header");
        if (header.Again.Exists(a => a.Second == i)) return ("the same result in another unit" + unit, "agrees with the first");
        var meant = header.Places.Where(p => p.Value == i).Select(p => p.Key.Meaning)
            .Concat(header.Devices.SelectMany(d => d.Places.Where(p => p.Value == i)
                .Select(p => $"{p.Key.Meaning} of the {d.Kind.Label.ToLowerInvariant()}")))
            .Concat(header.Groups.SelectMany(g => g.Places.Where(p => p.Value == i)
                .Select(p => p.Key.Meaning + (g.Year is { } year ? FormattableString.Invariant($" of {year:yyyy}") : "")))).ToList();
        if (header.HasModelBesideKind && header.Places.TryGetValue(Column.Kind, out var kind) && kind == i) meant.Add("the model beside it");
        if (meant.Count == 0) return ("not understood", "asked");
        var certainty = header.Guessed.Exists(g => g.Column == i) ? "by likeness"
            : header.Readings[i] is null ? "said by the legend"
            : header.Readings[i]!.Column is null ? "by what stands below it"
            : "by its header";
        return (string.Join(" and ", meant) + unit, certainty);
    }
}

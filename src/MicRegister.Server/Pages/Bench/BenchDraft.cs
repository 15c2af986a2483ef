using System.Text.Json;
using MicRegister.Documents.Curves;
using MicRegister.Server.Api;

namespace MicRegister.Server.Pages.Bench;

/// <summary>A sheet as the browser keeps it, so that it outlives a reload and a lost connection. Nothing of it is stored.</summary>
/// <remarks>What files hold lies with the register as attachments already; here stand their names and their SHA-256.</remarks>
public sealed record BenchDraft(
    DateOnly Day, string? Laboratory, string? Method, string? Factor, string? Expanded, bool IsInPercent, string? Pressure,
    string? Temperature, string? Humidity, IReadOnlyList<DraftLine> Lines, IReadOnlyList<WaitingFile> Waiting,
    IReadOnlyList<DraftOffer> Offered)
{
    private const int MostWaiting = 1000;
    private const int ShaLength = 64;

    /// <summary>What is kept of a sheet; null where nothing would be lost with it.</summary>
    public static string? Of(BenchSheet sheet) => !sheet.IsUnsaved ? null : ApiJson.Text(new BenchDraft(
        sheet.Day, sheet.Laboratory, sheet.Method, sheet.Factor, sheet.Expanded, sheet.IsInPercent, sheet.Pressure, sheet.Temperature,
        sheet.Humidity, [.. sheet.Lines.Where(l => !l.IsEmpty || l.HoldsSomething).Select(DraftLine.Of)], sheet.Waiting,
        [.. sheet.Offered.Select(o => new DraftOffer(o.Device, o.File))]));

    /// <summary>Reads what a browser kept.</summary>
    /// <returns>Null where that is none: it may be of another release, or nobody wrote it here.</returns>
    public static BenchDraft? Read(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return null;
        try
        {
            return ApiJson.Read<BenchDraft>(text) is
            {
                Lines.Count: <= BenchSheet.MostLines, Waiting.Count: <= MostWaiting,
                Offered.Count: <= MostWaiting
            } draft && draft.Files.All(IsKept) ? draft : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>Puts it before what stands in a sheet; what all lines have in common is taken where nothing was typed there yet.</summary>
    public void PutInto(BenchSheet sheet)
    {
        if (!sheet.IsUnsaved)
        {
            (sheet.Day, sheet.Laboratory, sheet.Method, sheet.Factor) = (Day, Laboratory, Method, Factor);
            (sheet.Expanded, sheet.IsInPercent) = (Expanded, IsInPercent);
            (sheet.Pressure, sheet.Temperature, sheet.Humidity) = (Pressure, Temperature, Humidity);
        }
        sheet.PutBack(Lines.Select(l => l.Line()));
        sheet.Waiting.AddRange(Waiting);
        sheet.Offered.AddRange(Offered.Select(o => (o.Device, o.File)));
    }

    /// <summary>Marks again what a person said is right all the same, once the lines are worked out.</summary>
    public void Insist(BenchSheet sheet)
    {
        foreach (var (kept, line) in Lines.Zip(sheet.Lines).Where(p => p.First.IsInsisted)) line.IsInsisted = true;
    }

    private IEnumerable<BenchFile> Files => Lines.SelectMany(l => new[] { l.Certificate, l.Curve }).OfType<BenchFile>()
        .Concat(Waiting.Select(w => w.File)).Concat(Offered.Select(o => o.File));

    // The browser is not trusted with names of files on the disk.
    private static bool IsKept(BenchFile file) => file.Sha is { Length: ShaLength } sha && sha.All(char.IsAsciiHexDigitLower);
}

/// <summary>A file of a device that has no line yet.</summary>
public sealed record DraftOffer(string Device, BenchFile File);

/// <summary>One line of a sheet, as it was typed.</summary>
public sealed record DraftLine(
    string? Serial, string? Chosen, string? Value, string? Unit, string? Expanded, bool IsInPercent, DateOnly? Day, string? Number,
    string? Temperature, string? Humidity, string? Pressure, BenchFile? Certificate, BenchFile? Curve, IReadOnlyList<string> CurveColumns,
    string? CurveMarks, string? CurveSerial, bool IsInsisted)
{
    public static DraftLine Of(BenchLine line) => new(
        line.Serial, line.Chosen, line.Value, line.Unit, line.Expanded, line.IsInPercent, line.Day, line.Number, line.Temperature,
        line.Humidity, line.Pressure, line.Certificate, line.Curve,
        [.. line.CurveAnswers.Columns.OrderBy(c => c.Key).Select(c => FormattableString.Invariant($"{c.Key}={c.Value.Key}"))],
        line.CurveAnswers.Marks?.ToString().ToLowerInvariant(), line.CurveAnswers.Serial, line.IsInsisted);

    public BenchLine Line() => new()
    {
        Serial = Serial,
        Chosen = Chosen,
        Value = Value,
        Unit = Unit,
        Expanded = Expanded,
        IsInPercent = IsInPercent,
        Day = Day,
        Number = Number,
        Temperature = Temperature,
        Humidity = Humidity,
        Pressure = Pressure,
        Certificate = Certificate,
        Curve = Curve,
        CurveAnswers = Answers(),
    };

    // What was answered in words of another release is asked again.
    private CurveAnswers Answers()
    {
        try
        {
            return new(CurveAnswers.OfColumns(CurveColumns), CurveAnswers.OfMarks(CurveMarks)) { Serial = CurveSerial };
        }
        catch (FormatException)
        {
            return CurveAnswers.None;
        }
    }
}

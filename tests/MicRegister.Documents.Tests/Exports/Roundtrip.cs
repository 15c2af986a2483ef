using MicRegister.Documents.Exports;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>Takes a register out as tables and in again.</summary>
internal static class Roundtrip
{
    public static DateOnly Today { get; } = new(2026, 6, 1);

    public static FleetTables Tables(Register.Register register) => FleetTables.Of(register, Today, [("register", "test")]);

    public static IReadOnlyList<(string Name, byte[] Bytes)> Csv(Register.Register register) => [.. Tables(register).Tables.Select(t =>
    {
        using var content = new MemoryStream();
        CsvExport.Write(t.Table, content);
        return (t.Name + ".csv", content.ToArray());
    })];

    public static byte[] Workbook(Register.Register register)
    {
        var tables = Tables(register);
        using var content = new MemoryStream();
        XlsxExport.Write(tables.Tables, "Register", tables.Left.InWords, [("register", "test")], content);
        return content.ToArray();
    }

    /// <summary>What would become of files; nothing is asked of whole tables.</summary>
    public static (IReadOnlyList<Fact> Facts, IReadOnlyList<RowOutcome> Rows) Import(
        Register.Register onto, params IReadOnlyList<(string Name, byte[] Bytes)> files)
    {
        var session = new ImportSession(onto, Today);
        var rows = new List<RowOutcome>();
        foreach (var (name, bytes) in files)
        {
            var report = session.Take(new MemoryStream(bytes), name, ImportMapping.None);
            rows.AddRange(report.Outcomes);
            var asked = report.Questions.Select(q => q.Text).Concat(report.Problems).Concat(
                report.Outcomes.Where(o => o.Sort is RowSort.Questioned or RowSort.Refused or RowSort.PassedOver)
                    .Select(o => $"row {o.Row}: {o.Sort} {o.Text}"));
            Assert.True(report.IsGood, name + ": " + string.Join("\n", asked));
        }
        return (session.Facts, rows);
    }

    public static Register.Register Empty => Register.Register.Empty(new FactList());

    /// <summary>Cells of all sheets.</summary>
    public static IReadOnlyList<string> Cells(byte[] workbook)
    {
        using var content = new MemoryStream(workbook);
        return [.. SheetFile.Open(content, "r.xlsx", SheetLimits.Usual).Where(s => s.Name != "provenance")
            .SelectMany(s => s.Rows.ToList().Select(r => s.Name + "\n" + string.Join('\t', r.Cells.Select(c => c.Text))))];
    }

    /// <summary>What a register says of what tables hold, with texts as cells hold them.</summary>
    public static IReadOnlyList<string> Says(Register.Register register)
    {
        string[] Kept(IEnumerable<string> devices) => [.. devices.Select(d => register.EntriesOf(d)[0]).Distinct()];
        var says = new List<string>();
        foreach (var d in register.DeviceIds.Select(id => register.Device(id)!))
        {
            var details = d.Details.Select(x => (x.Key, Value: Held(x.Value.ToString()))).Where(x => x.Value.Length > 0);
            says.Add($"{d.Id} {d.Kind} {Held(d.Maker)} {Held(d.Model)} {Held(d.Serial)} at {Held(d.Place)} {d.Status} "
                + string.Join(';', details));
            says.AddRange(Sorted(d.Certificates.Where(c => !c.IsAnnulled).Select(c => $"{d.Id} {c.Day} {Of(c.Issued)}")));
            says.AddRange(Sorted(d.Inspections.Select(i => $"{d.Id} {i.Day} {Of(i.What)}")));
        }
        foreach (var c in register.CampaignIds.Select(id => register.Campaign(id)!))
        {
            var plan = c.Plan! with { Name = Held(c.Plan!.Name), Site = Held(c.Plan.Site), Offsets = [] };
            says.Add($"{c.Id} {plan} {string.Join(';', c.Plan.Offsets)}");
            says.AddRange(Sorted(c.Stations.Values.Select(s => $"{c.Id} {s with { Station = Held(s.Station) }} "
                + string.Join(',', Sorted(Kept(c.Chains.GetValueOrDefault(s.Station, [])))))));
            says.AddRange(c.Kit.Where(k => k.Value.Length > 0).Select(k => $"{c.Id} {k.Key} {string.Join(',', Kept(k.Value))}"));
        }
        foreach (var p in register.ProfileIds.Select(id => register.Profile(id)!))
        {
            var limits = p.Written.Limits.OrderBy(l => l.Key, StringComparer.Ordinal);
            says.Add($"{p.Id} {Held(p.Written.Name)} {Held(p.Written.Statement)} {string.Join(';', limits)}");
        }
        says.Add(register.State.Settings.ToString());
        return says;
    }

    private static string Of(CertificateIssued c)
    {
        var air = c.Air is { PressureKPa: null, TemperatureC: null, HumidityPercent: null } ? null : c.Air;
        var results = string.Join(';', c.Results.Select(r => Told(HeldResults.Plain(r, c.Quantity))));
        return string.Join(
            " | ", c.Quantity, Held(c.Number), Held(c.Laboratory), Held(c.Method), c.Field, c.AngleDeg, c.FrequencyHz, c.Loading, air,
            c.ReferenceDevice, Held(c.Reference), c.DueDay, Held(c.Remark), c.StatedForKPa, c.Tone, results);
    }

    private static string Of(DeviceInspected i) => string.Join(
        " | ", i.Passed, i.FlushStepMm, i.GapMm, i.FlatnessMm, Held(i.Text), i.Undamaged, i.Uncontaminated, Held(i.MakersData));

    private static IEnumerable<string> Sorted(IEnumerable<string> lines) => lines.Distinct().Order(StringComparer.Ordinal);

    // What is found or left stands in one cell, which has no place for a factor alone.
    private static CalibrationResult Told(CalibrationResult r) =>
        r is { State: not AdjustmentState.AsFoundAndLeft, ExpandedUncertainty: null } ? r with { CoverageFactor = null } : r;

    // As a cell holds it: without outer blanks; some words stand for nothing.
    private static string Held(string? text) =>
        (text ?? "").Trim(' ', '\u00A0', '\r', '\n') is var held && held is "-" or "unknown" or "n/a" ? "" : held;
}

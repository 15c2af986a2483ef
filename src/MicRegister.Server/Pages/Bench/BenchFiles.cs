using MicRegister.Documents.Curves;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;
using MicRegister.Server.Imports;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Bench;

/// <summary>Brings dropped files to the lines that they are of. What is not clear waits for a person; nothing is guessed.</summary>
internal sealed class BenchFiles(Desk desk, Register.Register register, BenchSheet sheet)
{
    private readonly Lazy<SerialsInNames> _names = new(() => SerialsInNames.Of(register));

    /// <summary>Brings a file that was dropped on the sheet to its line, offers to open one, or lets it wait.</summary>
    public void Place(BenchFile file)
    {
        if (file.WhyUnclear is { } unclear)
        {
            Wait(file, unclear, SpokenOf(file).All);
            return;
        }
        var (only, all, why) = SpokenOf(file);
        if (only is null)
        {
            Wait(file, why!, all);
            return;
        }
        var lines = LinesOf(only);
        if (lines.Count == 0) Offer(only, file);
        else if (lines.Count > 1) Wait(file, $"{lines.Count} lines are of the device that it names", all);
        else Put(lines[0], file);
    }

    /// <summary>Brings a file that was dropped on a line to it, unless it names another device.</summary>
    public void PlaceOn(BenchLine line, BenchFile file)
    {
        var (only, all, _) = SpokenOf(file);
        if (file.WhyUnclear is { } unclear) Wait(file, unclear, all, line);
        else if (only is not null && line.Device is { } device && device.Id != only)
            Wait(file, $"it was dropped on the line of {device.Name} and names {NameOf(only)}", all, line);
        else
        {
            if (only is not null && string.IsNullOrWhiteSpace(line.Serial)) Name(line, only);
            Put(line, file);
        }
    }

    /// <summary>Gives a file to a line, as a person said; what stood in its place goes.</summary>
    public static void PutInPlace(BenchLine line, BenchFile file)
    {
        if (file.Sort == BenchFileSort.Curve) (line.Curve, line.CurveAnswers) = (file, CurveAnswers.None);
        else line.Certificate = file;
        line.Version++;
    }

    /// <summary>Opens a line for each device whose files wait for one.</summary>
    public void OpenLines()
    {
        foreach (var device in sheet.Offered.Select(o => o.Device).Distinct().ToList())
        {
            if (LinesOf(device).Count > 0 || sheet.Lines.Count > BenchSheet.MostLines) continue;
            var line = sheet.Lines.Find(l => l.IsEmpty) ?? new();
            if (!sheet.Lines.Contains(line)) sheet.Lines.Add(line);
            Name(line, device);
            line.Device = register.Device(device);
        }
        Settle();
    }

    /// <summary>Brings files that waited for a line to the one that came.</summary>
    public void Settle()
    {
        foreach (var offer in sheet.Offered.ToList())
        {
            var lines = LinesOf(offer.Device);
            if (lines.Count == 0) continue;
            sheet.Offered.Remove(offer);
            if (lines.Count > 1) Wait(offer.File, $"{lines.Count} lines are of the device that it names", [offer.Device]);
            else Put(lines[0], offer.File);
        }
    }

    private void Offer(string device, BenchFile file)
    {
        if (!sheet.Offered.Exists(o => o.Device == device && o.File.Sha == file.Sha)) sheet.Offered.Add((device, file));
    }

    private void Put(BenchLine line, BenchFile file)
    {
        var there = file.Sort == BenchFileSort.Curve ? line.Curve : line.Certificate;
        if (there?.Sha == file.Sha) return;
        if (there is null) PutInPlace(line, file);
        else Wait(file, $"line {sheet.Lines.IndexOf(line) + 1} holds {there.Name} in its place", line.Device is { } d ? [d.Id] : [], line);
    }

    private void Wait(BenchFile file, string why, IReadOnlyList<string> devices, BenchLine? on = null)
    {
        var number = on is null ? (int?)null : sheet.Lines.IndexOf(on) + 1;
        sheet.Waiting.RemoveAll(w => w.File.Sha == file.Sha && w.File.Name == file.Name);
        sheet.Waiting.Add(new(file, why, devices) { DroppedOn = number });
    }

    private void Name(BenchLine line, string device) => (line.Serial, line.Chosen) = (register.Device(device)?.Serial ?? device, device);

    private List<BenchLine> LinesOf(string device) => sheet.Lines.FindAll(l => l.Device?.Id == device);

    private string NameOf(string device) => register.Device(device)?.Name ?? device;

    // By its name; by what it states of itself where that is a digital certificate, or where its name names nothing.
    private (string? Only, IReadOnlyList<string> All, string? Why) SpokenOf(BenchFile file)
    {
        var found = Meant(_names.Value.Find(file.Name));
        IReadOnlyList<string> named = [.. found.Select(f => f.Device)];
        var only = SerialsInNames.Only(found);
        if (file.Sort == BenchFileSort.Digital && Stated(file) is { Count: > 0 } stated)
        {
            List<string> both = [.. named.Where(stated.Contains)];
            if (only is not null) return both.Count == 1 ? (only, both, null) : Differs(named, stated);
            if (named.Count == 0) both = stated;
            return both.Count switch
            {
                1 => (both[0], both, null),
                0 => Differs(named, stated),
                _ => (null, both, "several devices have the serial number that it states"),
            };
        }
        if (only is not null) return (only, named, null);
        if (found.Count == 0 && file.Sort == BenchFileSort.Curve && OfCurve(file) is { Count: > 0 } curves)
        {
            return curves.Count == 1 ? (curves[0], curves, null)
                : (null, curves, $"it holds curves of {curves.Count} devices: take it under Curve files, below");
        }
        return (null, named, WhyNot(found));
    }

    private (string?, IReadOnlyList<string>, string) Differs(IReadOnlyList<string> named, IReadOnlyList<string> stated) => (null,
        [.. named.Concat(stated).Distinct()],
        $"its name speaks of {string.Join(" and ", named.Select(NameOf))}, it itself of {string.Join(" and ", stated.Select(NameOf))}");

    private static string WhyNot(List<SerialInName> found)
    {
        List<string> written = [.. found.Where(f => f.IsWritten).Select(f => f.Text).Distinct()];
        return found.Count == 0 ? "no serial number of a device in this register stands in its name"
            : found.All(f => !f.IsWritten)
                ? $"its name is like {string.Join(" and ", found.Select(f => f.Text).Distinct())}, but not the same to the letter"
            : written.Count == 1 && found.All(f => f.IsWritten) ? $"{found.Count} devices have the serial number {written[0]}"
            : $"its name can speak of {string.Join(" and ", found.Select(f => f.Text).Distinct().Order(StringComparer.Ordinal))}";
    }

    // Of namesakes, those that can be meant where results are entered: as where a serial number is typed.
    private List<SerialInName> Meant(IReadOnlyList<SerialInName> found) =>
    [
        .. found.GroupBy(f => (DeviceIdentity.Normal(f.Text), f.IsWritten)).SelectMany(g =>
        {
            var meant = BenchReading.Meant([.. g.Select(f => register.Device(f.Device)).OfType<DeviceState>()])
                .Select(d => d.Id).ToHashSet();
            return g.Where(f => meant.Contains(f.Device));
        }),
    ];

    private List<string> Stated(BenchFile file) => file.ReadDigital(desk.Live.Log.OpenAttachment) is not { } digital ? []
        : [.. digital.Items.SelectMany(i => BenchReading.Meant(SerialIndex.Find(register, i.Serial))).Select(d => d.Id).Distinct()];

    private List<string> OfCurve(BenchFile file)
    {
        using var stored = desk.Live.Log.OpenAttachment(file.Sha);
        if (stored is null) return [];
        using var content = new MemoryStream();
        stored.CopyTo(content);
        try
        {
            var reading = CurveIntake.Read(register, content, file.Name, CurveAnswers.None);
            return [.. reading.Curves.Select(c => c.Device).OfType<string>()
                .Concat(reading.Serials.SelectMany(s => BenchReading.Meant(SerialIndex.Find(register, s))).Select(d => d.Id)).Distinct()];
        }
        catch (SheetException)
        {
            return []; // what is wrong with it is told where it is put
        }
    }
}

using System.CommandLine;
using System.Security.Cryptography;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Prints labels: of devices that have one, of those that have none yet, or blank ones ahead.</summary>
internal static class LabelsCommand
{
    public static Command Make()
    {
        var (data, by) = (CommonOptions.Data(), new Option<string>("--by") { Description = "Name of the person who binds codes.", DefaultValueFactory = _ => "Registrar" });
        var layout = new Option<string?>("--layout") { Description = "Name of a layout, or a file of one's own; without it the layouts are listed." };
        var output = new Option<string?>("--out") { Description = "FILE.pdf, or FILE.svg for a single page." };
        var blank = new Option<int?>("--blank") { Description = "So many blank labels with new codes, to be bound later." };
        var kind = new Option<string?>("--kind") { Description = "Devices of this kind, for example microphone." };
        var serial = new Option<string[]>("--serial") { Description = "Devices with these serial numbers.", AllowMultipleArgumentsPerToken = true };
        var missing = new Option<bool>("--missing") { Description = "Draw and bind a code for each of them that has none, and print those alone." };
        var address = new Option<string>("--address") { Description = "Begin of the address in a code, in capitals.", DefaultValueFactory = _ => "HTTPS://REGISTER.LAN/L/" };
        var first = new Option<int>("--first") { Description = "Position of the first label on a used sheet.", DefaultValueFactory = _ => 1 };
        var command = new Command("labels", "Print labels with codes, exact to the millimetre.") { layout, output, blank, kind, serial, missing, address, first, by, data };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            parsed.GetValue(layout), parsed.GetValue(output), parsed.GetValue(blank), parsed.GetValue(kind), parsed.GetValue(serial) ?? [], parsed.GetValue(missing), parsed.GetValue(address)!, parsed.GetValue(first), parsed.GetValue(by)!,
            CommonOptions.Folder(parsed.GetValue(data))), cancel)));
        return command;
    }

    private sealed record Wanted(string? Layout, string? Out, int? Blank, string? Kind, string[] Serials, bool Missing, string Address, int First, string By, string Folder);

    private static async Task<int> Run(Wanted wanted, CancellationToken cancel)
    {
        if (wanted.Layout is not { } name)
        {
            foreach (var l in Layouts()) Console.WriteLine($"{l.Name}: {l.Title}, {l.PerPage} on {FormattableString.Invariant($"{l.PageWidthMm} × {l.PageHeightMm}")} mm");
            return CommandExit.Good;
        }
        var layout = Find(name);
        if (wanted.Out is not { } file || Path.GetExtension(file).ToLowerInvariant() is not (".pdf" or ".svg")) throw new BadUseException("--out: allowed is a file that ends with .pdf or .svg.");
        if (wanted.Blank is { } n && n is < 1 or > 5000) throw new BadUseException($"--blank {wanted.Blank}: allowed is a whole number from 1 to 5000.");
        var labels = wanted.Blank is { } count ? [.. Enumerable.Range(0, count).Select(_ => new LabelContent(LabelCode.Draw(RandomNumberGenerator.GetBytes), new Dictionary<string, string>()))]
            : await OfDevices(wanted, cancel);
        if (labels.Count == 0) throw new BadUseException(wanted.Missing ? "None of them lacks a label." : "None of them has a label; --missing draws and binds codes.");
        try
        {
            var pages = LabelSheet.Pages(layout, labels, wanted.Address, wanted.First);
            if (LabelSheet.Warning(layout, wanted.Address) is { } warning) Console.Error.WriteLine(warning);
            if (Path.GetExtension(file).Equals(".svg", StringComparison.OrdinalIgnoreCase))
            {
                if (pages.Count > 1) throw new BadUseException($"{labels.Count} labels fill {pages.Count} pages; an SVG file holds one. Take PDF.");
                await File.WriteAllTextAsync(file, SvgPainter.Paint(pages[0]), cancel);
            }
            else
            {
                await using var stream = File.Create(file);
                PdfPainter.Paint(pages, stream);
            }
            Console.WriteLine($"{labels.Count} labels on {pages.Count} pages: {file}");
        }
        catch (ArgumentException e)
        {
            throw new BadUseException(e.Message);
        }
        return CommandExit.Good;
    }

    private static async Task<List<LabelContent>> OfDevices(Wanted wanted, CancellationToken cancel)
    {
        if (wanted.Kind is null && wanted.Serials.Length == 0) throw new BadUseException("Give --blank N, --kind KIND or --serial S ...");
        if (wanted.Kind is { } kind && DeviceKind.Find(kind) is null) throw new BadUseException($"--kind {kind}: allowed are {string.Join(", ", DeviceKind.All.Select(k => k.Key))}.");
        if (!Directory.Exists(wanted.Folder)) throw new BadUseException($"The folder {wanted.Folder} holds no register.");
        if (!wanted.Missing)
        {
            using var store = ReadOnlyStore.Open(new DiskFiles(wanted.Folder)) ?? throw new BadUseException($"The folder {wanted.Folder} holds no register.");
            return [.. Chosen(store.Register, wanted).Where(d => d.Label is not null).Select(Content)];
        }
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(wanted.Folder), TimeProvider.System));
        var lacking = Chosen(live.Now, wanted).Where(d => d.Label is null).ToList();
        if (lacking.Count == 0) return [];
        var person = PersonState.IdOf(wanted.By);
        var saying = new Saying(new(Occurred.At(TimeProvider.System.GetUtcNow()), person, "command", live.Now.Count));
        var facts = new List<Fact>();
        if (live.Now.Person(person) is null) facts.Add(FactText.WriteDerived(new(Occurred.Unknown, person, "command", 0), new PersonNamed(wanted.By), [Subject.Person(person)]));
        foreach (var device in lacking)
        {
            LabelCode code;
            do code = LabelCode.Draw(RandomNumberGenerator.GetBytes); while (LabelBook.WasUsed(live.Now, code));
            if (LabelBook.Bind(live.Now, saying, code.Text, device.Id) is Result<IReadOnlyList<Fact>>.Accepted { Value: var bound }) facts.AddRange(bound);
        }
        await live.Submit(facts, "command by " + person, cancel);
        live.Log.Settle(live.Now, always: true);
        return [.. lacking.Select(d => Content(live.Now.Device(d.Id)!))];
    }

    private static IEnumerable<DeviceState> Chosen(Register.Register register, Wanted wanted) => register.DeviceIds.Select(id => register.Device(id)!)
        .Where(d => (wanted.Kind is null || d.Kind == wanted.Kind) && (wanted.Serials.Length == 0 || wanted.Serials.Any(s => DeviceIdentity.Normal(s) == DeviceIdentity.Normal(d.Serial)))).OrderBy(d => d.Serial, StringComparer.Ordinal);

    // What a finder needs; never a due day, which goes stale.
    private static LabelContent Content(DeviceState device)
    {
        LabelCode.TryRead(device.Label, out var code, out _);
        var values = new Dictionary<string, string>();
        foreach (var (field, value) in new[] { ("kind", DeviceKind.Find(device.Kind)?.Label), ("model", device.Model), ("serial", device.Serial), ("response", device.Text(DeviceField.ResponseType)), ("owner", device.Text(DeviceField.Owner)) })
        {
            if (!string.IsNullOrWhiteSpace(value)) values[field] = value;
        }
        return new(code, values);
    }

    private static IEnumerable<LabelLayout> Layouts() => Directory.GetFiles(Folder(), "*.layout").Order(StringComparer.Ordinal).Select(f => LabelLayout.Read(File.ReadAllText(f), Path.GetFileNameWithoutExtension(f)));

    private static LabelLayout Find(string name)
    {
        var own = Path.Combine(Folder(), name + ".layout");
        if (File.Exists(own)) return LabelLayout.Read(File.ReadAllText(own), name);
        return File.Exists(name) ? LabelLayout.Read(File.ReadAllText(name), Path.GetFileNameWithoutExtension(name)) : throw new BadUseException($"--layout {name}: allowed are {string.Join(", ", Layouts().Select(l => l.Name))}, or a file.");
    }

    private static string Folder() => Path.Combine(AppContext.BaseDirectory, "labels");
}

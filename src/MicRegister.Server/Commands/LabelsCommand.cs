using System.CommandLine;
using MicRegister.Documents.Labels;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Outdoors;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Prints labels: of devices or stations that have one, of those that have none yet, or blank ones ahead.</summary>
internal static class LabelsCommand
{
    public static Command Make()
    {
        var data = CommonOptions.Data();
        var by = new Option<string>("--by")
        { Description = "Name of the person who binds codes.", DefaultValueFactory = _ => "Registrar" };
        var layout = new Option<string?>("--layout")
        { Description = "Name of a layout, or a file of one's own; without it the layouts are listed." };
        var output = new Option<string?>("--out") { Description = "FILE.pdf; or FILE.svg or FILE.png for a single page." };
        var blank = new Option<int?>("--blank") { Description = "So many blank labels with new codes, to be bound later." };
        var kind = new Option<string?>("--kind") { Description = "Devices of this kind, for example microphone." };
        var serial = new Option<string[]>("--serial")
        { Description = "Devices with these serial numbers.", AllowMultipleArgumentsPerToken = true };
        var stations = new Option<string?>("--stations") { Description = "Stations of the campaign with this id." };
        var missing = new Option<bool>("--missing")
        { Description = "Draw and bind a code for each of them that has none, and print those alone." };
        var address = new Option<string>("--address")
        { Description = "Begin of the address in a code, in capitals.", DefaultValueFactory = _ => "HTTPS://REGISTER.LAN/L/" };
        var first = new Option<int>("--first")
        { Description = "Position of the first label on a used sheet.", DefaultValueFactory = _ => 1 };
        var dpi = new Option<int?>("--dpi")
        {
            Description = "Resolution of the printer: modules become a whole number of its dots. "
                + "A picture takes the layout's first one.",
        };
        var command = new Command("labels", "Print labels with codes, exact to the millimetre.")
        { layout, output, blank, kind, serial, stations, missing, address, first, dpi, by, data };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            parsed.GetValue(layout), parsed.GetValue(output),
            new(parsed.GetValue(kind), parsed.GetValue(serial) ?? [], parsed.GetValue(stations), parsed.GetValue(blank)),
            parsed.GetValue(missing), parsed.GetValue(address)!, parsed.GetValue(first), parsed.GetValue(dpi), parsed.GetValue(by)!,
            CommonOptions.Folder(parsed.GetValue(data))), cancel)));
        return command;
    }

    private sealed record Wanted(
        string? Layout, string? Out, LabelOrder Order, bool Missing, string Address, int First, int? Dpi, string By, string Folder);

    private static async Task<int> Run(Wanted wanted, CancellationToken cancel)
    {
        if (wanted.Layout is not { } name)
        {
            foreach (var l in LabelOrder.Layouts())
            {
                var page = FormattableString.Invariant($"{l.PageWidthMm} × {l.PageHeightMm}");
                Console.WriteLine($"{l.Name}: {l.Title}, {l.PerPage} on {page} mm");
            }
            return CommandExit.Good;
        }
        var layout = Find(name);
        if (wanted.Out is not { } file || Path.GetExtension(file).ToLowerInvariant() is not (".pdf" or ".svg" or ".png"))
            throw new BadUseException("--out: allowed is a file that ends with .pdf, .svg or .png.");
        if (wanted.Order.Blank is { } n && n is < 1 or > LabelOrder.MostBlank)
            throw new BadUseException($"--blank {n}: allowed is a whole number from 1 to {LabelOrder.MostBlank}.");
        if (wanted.Dpi is { } dots && dots is < 100 or > 2400)
            throw new BadUseException($"--dpi {dots}: allowed is a whole number from 100 to 2400.");
        var labels = await Labels(wanted, cancel);
        if (labels.Count == 0)
            throw new BadUseException(wanted.Missing
                ? "None of them lacks a label."
                : "None of them has a label; --missing draws and binds codes.");
        try
        {
            var dotsPerInch = Path.GetExtension(file) == ".png" ? wanted.Dpi ?? layout.DotsPerInch[0] : wanted.Dpi;
            var pages = LabelSheet.Pages(layout, labels, wanted.Address, wanted.First, dotsPerInch);
            if (LabelSheet.Warning(layout, wanted.Address) is { } warning) Console.Error.WriteLine(warning);
            await using (var stream = File.Create(file + ".part"))
                LabelFile.Write(pages, Path.GetExtension(file).ToLowerInvariant(), wanted.Dpi ?? layout.DotsPerInch[0], stream);
            File.Move(file + ".part", file, overwrite: true);
            Console.WriteLine($"{labels.Count} labels on {pages.Count} pages: {file}");
        }
        catch (ArgumentException e)
        {
            File.Delete(file + ".part");
            throw new BadUseException(e.Message);
        }
        return CommandExit.Good;
    }

    private static async Task<IReadOnlyList<LabelContent>> Labels(Wanted wanted, CancellationToken cancel)
    {
        var order = wanted.Order;
        if (order is { Blank: null, Campaign: null, Kind: null, Serials.Count: 0 })
            throw new BadUseException("Give --blank N, --kind KIND, --serial S ... or --stations CAMPAIGN");
        if (order.Kind is { } kind && DeviceKind.Find(kind) is null)
            throw new BadUseException($"--kind {kind}: allowed are {string.Join(", ", DeviceKind.All.Select(k => k.Key))}.");
        if (!Directory.Exists(wanted.Folder))
            return order.Blank is null
                ? throw new BadUseException($"The folder {wanted.Folder} holds no register.")
                : order.Labels(Register.Register.Empty(new NoFacts()));
        if (!wanted.Missing)
        {
            using var store = CommandStore.Read(wanted.Folder);
            if (order.Campaign is { } campaign && store.Register.Campaign(campaign) is null)
                throw new BadUseException($"--stations {campaign}: there is no such campaign.");
            return order.Labels(store.Register);
        }
        await using var live = CommandStore.Write(wanted.Folder);
        var before = order.Labels(live.Now).Select(l => l.Code).ToHashSet();
        // Where none lacks a label there is nothing to bind.
        if (order.Bind(live.Now, CommandStore.Saying(live, wanted.By)) is not Result<IReadOnlyList<Fact>>.Accepted { Value: var bound })
            return [];
        await CommandStore.State(live, wanted.By, (_, _) => new Result<IReadOnlyList<Fact>>.Accepted(bound), cancel);
        return [.. order.Labels(live.Now).Where(l => !before.Contains(l.Code))];
    }

    private static LabelLayout Find(string name) => LabelOrder.Layout(name)
        ?? (File.Exists(name)
            ? LabelLayout.Read(File.ReadAllText(name), Path.GetFileNameWithoutExtension(name))
            : throw new BadUseException(
                $"--layout {name}: allowed are {string.Join(", ", LabelOrder.Layouts().Select(l => l.Name))}, or a file."));

    /// <summary>Where no register is yet, blank labels are printed all the same.</summary>
    private sealed class NoFacts : IFactSource
    {
        public Fact Read(int sequence) => throw new InvalidOperationException("There are no facts.");
    }
}

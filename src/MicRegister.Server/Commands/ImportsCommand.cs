using System.CommandLine;
using System.Text.Json;
using MicRegister.Register.Intake;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Lists what was taken over from files, and takes an import back as one act.</summary>
internal static class ImportsCommand
{
    public static Command Make()
    {
        var takeBack = new Option<string?>("--take-back")
        { Description = "Id of an import: annul all that it brought and nobody built upon; says what stays." };
        var countAgain = new Option<string?>("--count-again") { Description = "Id of an import that was taken back: let it count again." };
        var legend = new Option<string?>("--legend") { Description = "Id of an import: print the answers that are kept with it." };
        var dryRun = new Option<bool>("--dry-run") { Description = "With --take-back: say what would become of it; store nothing." };
        var reason = new Option<string?>("--reason") { Description = "With --take-back: why." };
        var (data, json, by) = (CommonOptions.Data(), CommonOptions.Json(), CommonOptions.By());
        var command = new Command("imports", "List the files that were taken over, or take one of them back.")
        { takeBack, countAgain, legend, dryRun, reason, data, by, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(takeBack), parsed.GetValue(countAgain), parsed.GetValue(dryRun),
            parsed.GetValue(reason), parsed.GetValue(by)!, parsed.GetValue(json),
            parsed.GetValue(legend)), cancel), parsed.GetValue(json)));
        return command;
    }

    private sealed record Wanted(string Folder, string? TakeBack, string? CountAgain, bool DryRun, string? Reason, string By, bool Json,
        string? Legend);

    private static async Task<int> Run(Wanted wanted, CancellationToken cancel)
    {
        if (new[] { wanted.TakeBack, wanted.CountAgain, wanted.Legend }.Count(w => w is not null) > 1)
            throw new BadUseException("Ask one thing at a time: --take-back, --count-again or --legend.");
        if (wanted.TakeBack is null && (wanted.DryRun || wanted.Reason is not null))
            throw new BadUseException("--dry-run and --reason go with --take-back.");
        if (wanted.CountAgain is { } again) return await CountAgain(wanted, again, cancel);
        if (wanted.TakeBack is { } import) return await TakeBack(wanted, import, cancel);
        using var store = CommandStore.Read(wanted.Folder);
        if (wanted.Legend is { } id)
        {
            Print(store.Register, id, wanted.Json);
            return CommandExit.Good;
        }
        List(ImportRow.All(store.Register), wanted.Json);
        return CommandExit.Good;
    }

    private static void Print(Register.Register register, string id, bool asJson)
    {
        var import = register.TakenImports().FirstOrDefault(i => i.Fact.Id.ToString() == id)
            ?? throw new BadUseException($"There is no import {id}; imports lists them all.");
        var legend = import.Accepted.Legend ?? throw new BadUseException($"No answers are kept with the import of {import.Accepted.File}.");
        Console.WriteLine(asJson ? JsonSerializer.Serialize(legend, CommandJson.OneLine) : legend.Text);
    }

    private static void List(IReadOnlyList<ImportRow> rows, bool asJson)
    {
        if (asJson) Console.WriteLine(JsonSerializer.Serialize(rows, CommandJson.OneLine));
        else if (rows.Count == 0) Console.WriteLine("No file was taken over.");
        foreach (var row in asJson ? [] : rows)
        {
            Console.WriteLine(
                $"{row.Id}  {row.At}  {row.File}, by {row.Person}: {row.Facts} facts"
                    + (row.AsOf is { } day ? FormattableString.Invariant($", as of {day:yyyy-MM-dd}") : "")
                    + (row.Legend is { } legend ? $", answers kept as {legend}" : "")
                    + (row.TakenBack is { } back ? $"; taken back {back.At} by {back.Person}" : ""));
        }
    }

    private static async Task<int> TakeBack(Wanted wanted, string import, CancellationToken cancel)
    {
        if (wanted.DryRun)
        {
            using var store = CommandStore.Read(wanted.Folder);
            Say(Planned(store.Register, import), wanted.Json);
            if (!wanted.Json) Console.WriteLine("Dry run: nothing was stored.");
            return CommandExit.Good;
        }
        await using var live = CommandStore.Write(wanted.Folder);
        var planned = Planned(live.Now, import);
        await CommandStore.State(live, wanted.By, (r, s) => ImportTakeBack.TakeBack(r, s, import, wanted.Reason), cancel);
        Say(planned, wanted.Json);
        if (!wanted.Json) Console.WriteLine("Taken back.");
        return CommandExit.Good;
    }

    private static async Task<int> CountAgain(Wanted wanted, string import, CancellationToken cancel)
    {
        await using var live = CommandStore.Write(wanted.Folder);
        await CommandStore.State(live, wanted.By, (r, s) => ImportTakeBack.Undo(r, s, import), cancel);
        var row = ImportRow.All(live.Now).First(r => r.Id == import);
        Console.WriteLine(wanted.Json ? JsonSerializer.Serialize(row, CommandJson.OneLine) : $"{row.File} counts as taken over again.");
        return CommandExit.Good;
    }

    private static TakeBackView Planned(Register.Register register, string import) =>
        ImportTakeBack.Plan(register, import) is { } plan
            ? TakeBackView.Of(register, plan)
            : throw new BadUseException($"There is no import {import}; imports lists them all.");

    private static void Say(TakeBackView view, bool asJson)
    {
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(view, CommandJson.OneLine));
            return;
        }
        Console.WriteLine($"{view.Import.File}: {view.Summary}");
        foreach (var stays in view.Stays)
        {
            var others = stays.Count > stays.On.Count ? $" and {stays.Count - stays.On.Count} more" : "";
            Console.WriteLine($"  stays: {Words(stays.Fact)}; on it stand: {string.Join("; ", stays.On.Select(Words))}{others}");
        }
    }

    private static string Words(FactRow fact)
    {
        var words = $"{fact.Kind.Replace('-', ' ')} {fact.At}" + (fact.Said is { } said ? ": " + said : "");
        return new([.. words.Select(c => char.IsControl(c) ? ' ' : c)]);
    }
}

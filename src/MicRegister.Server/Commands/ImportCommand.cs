using System.CommandLine;
using System.Runtime;
using System.Text.Json.Nodes;
using MicRegister.Documents.Import;
using MicRegister.Server.Imports;
using MicRegister.Server.Remote;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Takes spreadsheets into a register.</summary>
internal static class ImportCommand
{
    /// <param name="terminal">Who asks a person what files leave open; null asks where a person sits at a terminal.</param>
    public static Command Make(Func<ImportDialogue?>? terminal = null)
    {
        var files = new Argument<string[]>("file") { Description = "Spreadsheets, .xlsx or .csv.", Arity = ArgumentArity.OneOrMore };
        var (data, json, today, dates) = (CommonOptions.Data(), CommonOptions.Json(), CommonOptions.Today(), CommonOptions.Dates());
        var dryRun = new Option<bool>("--dry-run") { Description = "Show what each row would become; store nothing." };
        var partial = new Option<bool>("--partial")
        { Description = "Store the good rows, and write the others to a file that can be mended and imported." };
        var mapping = new Option<string?>("--mapping")
        { Description = "File that names headers which are not known (FILE.mapping beside a file is found by itself)." };
        var answer = new Option<string[]>("--answer")
        {
            Description = "Answer to a question, as a rule of a legend, such as 'kind := microphone'; as often as needed.",
            AllowMultipleArgumentsPerToken = false
        };
        var legend = new Option<string?>("--legend")
        {
            Description = "Name of the answers that are kept with an earlier import (imports lists them); "
                + "--mapping and --answer go before them.",
        };
        var asOf = new Option<string?>("--as-of")
        {
            Description = "Day as of which the files speak, for example 2024-11-30 (otherwise the newest date in each); "
                + "what the register holds of a later day stands.",
        };
        var by = new Option<string>("--by")
        { Description = "Name of the person who answers for the import.", DefaultValueFactory = _ => "Registrar" };
        var command = new Command("import", "Take spreadsheets into the register.")
        { files, data, dryRun, partial, mapping, legend, answer, dates, asOf, by, today, json };
        var server = new ServerChoice();
        server.AddTo(command);
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            parsed.GetValue(files)!, CommonOptions.Folder(parsed.GetValue(data)), server.Read(parsed, data, by), parsed.GetValue(dryRun),
            parsed.GetValue(partial), parsed.GetValue(mapping), string.Join('\n', parsed.GetValue(answer) ?? []), parsed.GetValue(dates),
            parsed.GetValue(asOf), parsed.GetValue(by)!, parsed.GetValue(today), parsed.GetValue(json), parsed.GetValue(legend)),
            parsed.GetValue(json) ? null : terminal is null ? ImportDialogue.AtTerminal : terminal(), cancel), parsed.GetValue(json)));
        return command;
    }

    private sealed record Wanted(
        string[] Files, string Folder, ServerAddress? Server, bool DryRun, bool Partial, string? Mapping, string Answers, string? Dates,
        string? AsOf, string By, string? Today, bool Json, string? Legend);

    private static async Task<int> Run(Wanted wanted, ImportDialogue? dialogue, CancellationToken cancel)
    {
        // Nearly all that a long list leaves in memory stays to the end: to collect beside the work would only take its time.
        GCSettings.LatencyMode = GCLatencyMode.Batch;
        var ask = new ImportAsk
        {
            Files = [],
            Today = wanted.Today is null ? null : CommonOptions.Day(wanted.Today, TimeProvider.System),
            AsOf = wanted.AsOf is null ? null : CommonOptions.Day(wanted.AsOf, TimeProvider.System, "--as-of"),
            Dates = CommonOptions.Order(wanted.Dates) is null ? null : wanted.Dates,
            Legend = wanted.Legend,
            Partial = wanted.Partial,
            Aside = wanted.Partial && !wanted.DryRun,
        };
        if (wanted.Mapping is { } mapping && !File.Exists(mapping)) throw new BadUseException($"There is no file {mapping}.");
        await using var door = await Open(wanted, cancel);
        IReadOnlyList<FileAtHand> files = [];
        var answer = dialogue is null ? await Work(_ => "") : await dialogue.Ask(Work);
        if (wanted.DryRun)
        {
            Say(answer, wanted, 0, []);
            return answer.IsGood ? CommandExit.Good : CommandExit.BadUse;
        }
        if (!answer.IsGood && !wanted.Partial)
        {
            Say(answer, wanted, 0, []);
            if (!wanted.Json)
                Console.Error.WriteLine("Nothing was stored, since not all rows are good. Answer, mend them, or give --partial.");
            return CommandExit.BadUse;
        }
        if (answer.StopsAll is { } open)
        {
            Say(answer, wanted, 0, [], open);
            return CommandExit.BadUse;
        }
        // Put aside first: when that cannot be written, nothing is stored.
        var aside = MendTable.Write(answer.Aside, files, ".");
        var stored = await door.Store(ask, files, answer, cancel);
        Say(answer, wanted, stored, aside);
        return CommandExit.Good;

        Task<ImportAnswer> Work(Func<string, string> answered)
        {
            files = [.. wanted.Files.Select(f => FileAtHand.Find(
                f, wanted.Mapping, LegendLines.Joined(wanted.Answers, answered(Path.GetFileName(f)))))];
            ask = ask with { Files = [.. files.Select(f => f.Asked)] };
            return door.Work(ask, files, cancel);
        }
    }

    private static async Task<IImportDoor> Open(Wanted wanted, CancellationToken cancel)
    {
        if (wanted.Server is { } server) return new ServerDoor(await RegisterConnection.Open(server, cancel));
        var today = CommonOptions.Day(wanted.Today, TimeProvider.System);
        return wanted.DryRun ? new LookingDoor(wanted.Folder, today) : new FolderDoor(wanted.Folder, today, wanted.By);
    }

    private static void Say(ImportAnswer answer, Wanted wanted, int stored, IReadOnlyList<string> aside, string? error = null)
    {
        if (wanted.Json)
        {
            Console.WriteLine(new JsonObject
            {
                ["files"] = new JsonArray([.. answer.Files.Select(ImportText.Json)]),
                ["unreadable"] = new JsonArray([.. answer.Unreadable.Select(u =>
                    (JsonNode)new JsonObject { ["file"] = u.File, ["why"] = u.Why })]),
                ["isGood"] = answer.IsGood,
                ["stored"] = stored,
                ["putAside"] = new JsonArray([.. aside.Select(a => (JsonNode)a)]),
                ["error"] = error,
            }.ToJsonString());
            return;
        }
        // Where no file could be read, that is all there is to say.
        var to = answer.Files.Count == 0 ? Console.Error : Console.Out;
        foreach (var unread in answer.Unreadable) to.WriteLine("not read: " + unread.Why);
        foreach (var file in answer.Files) ImportText.Write(file, wanted.DryRun, Console.Out);
        foreach (var path in aside) Console.WriteLine($"Rows to mend: {path}");
        Console.WriteLine(wanted.DryRun ? "Dry run: nothing was stored." : $"{stored} facts stored.");
        if (error is not null) Console.Error.WriteLine(error);
    }
}

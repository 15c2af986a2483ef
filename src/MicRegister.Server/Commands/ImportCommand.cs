using System.CommandLine;
using System.Text.Json.Nodes;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Server.Imports;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

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
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            parsed.GetValue(files)!, CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(dryRun), parsed.GetValue(partial),
            parsed.GetValue(mapping), string.Join('\n', parsed.GetValue(answer) ?? []), parsed.GetValue(dates), parsed.GetValue(asOf),
                parsed.GetValue(by)!, parsed.GetValue(today), parsed.GetValue(json), parsed.GetValue(legend)),
            parsed.GetValue(json) ? null : terminal is null ? ImportDialogue.AtTerminal : terminal(), cancel), parsed.GetValue(json)));
        return command;
    }

    private sealed record Wanted(
        string[] Files, string Folder, bool DryRun, bool Partial, string? Mapping, string Answers, string? Dates, string? AsOf, string By,
            string? Today,
        bool Json, string? Legend);

    private static async Task<int> Run(Wanted wanted, ImportDialogue? dialogue, CancellationToken cancel)
    {
        var time = TimeProvider.System;
        var today = CommonOptions.Day(wanted.Today, time);
        if (wanted.DryRun)
        {
            using var store = Directory.Exists(wanted.Folder) ? ReadOnlyStore.Open(new DiskFiles(wanted.Folder)) : null;
            var register = store?.Register ?? Register.Register.Empty(new FactList());
            var tried = Taken(
                register, wanted, today, s => store is null ? null : Importing.DayOf(store.ReadLogged(s)), dialogue, cancel);
            Say(tried, wanted, 0, []);
            return tried.IsGood ? CommandExit.Good : CommandExit.BadUse;
        }

        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(wanted.Folder), time));
        var importing = Taken(live.Now, wanted, today, Importing.RecordedIn(live.Log), dialogue, cancel);
        if (!importing.IsGood && !wanted.Partial)
        {
            Say(importing, wanted, 0, []);
            if (!wanted.Json) Console.Error.WriteLine("Nothing was stored, since not all rows are good. Answer, mend them, or give --partial.");
            return CommandExit.BadUse;
        }
        if (importing.StopsAll is { } open)
        {
            Say(importing, wanted, 0, [], open);
            return CommandExit.BadUse;
        }
        // Put aside first: when that cannot be written, nothing is stored.
        var aside = importing.WriteAside(".");
        var stored = await importing.Store(live, wanted.By, time, cancel);
        live.Log.Settle(live.Now, always: stored > 0);
        Say(importing, wanted, stored, aside);
        return CommandExit.Good;
    }

    private static Importing Taken(
        Register.Register register, Wanted wanted, DateOnly today, Func<int, DateOnly?> recorded, ImportDialogue? dialogue,
        CancellationToken cancel)
    {
        DateOnly? asOf = wanted.AsOf is null ? null : CommonOptions.Day(wanted.AsOf, TimeProvider.System, "--as-of");
        var dates = CommonOptions.Order(wanted.Dates);
        if (wanted.Mapping is { } mapping && !File.Exists(mapping)) throw new BadUseException($"There is no file {mapping}.");
        var kept = wanted.Legend is null ? null : KeptLegend.Named(register, wanted.Legend).Legend;
        return dialogue is null ? Work(_ => "") : dialogue.Ask(Work, today);

        Importing Work(Func<string, string> answered)
        {
            var importing = new Importing(register, today, recorded);
            foreach (var file in wanted.Files)
            {
                var answers = LegendLines.Joined(wanted.Answers, answered(Path.GetFileName(file)));
                importing.Take(file, wanted.Mapping, dates, cancel, answers, asOf, kept);
            }
            importing.Finish(null, cancel);
            return importing;
        }
    }

    private static void Say(Importing importing, Wanted wanted, int stored, IReadOnlyList<string> aside, string? error = null)
    {
        if (wanted.Json)
        {
            Console.WriteLine(new JsonObject
            {
                ["files"] = new JsonArray([.. importing.Reports.Select(ImportText.Json)]),
                ["unreadable"] = new JsonArray([.. importing.Unreadable.Select(u =>
                    (JsonNode)new JsonObject { ["file"] = u.Name, ["why"] = u.Why })]),
                ["isGood"] = importing.IsGood,
                ["stored"] = stored,
                ["putAside"] = new JsonArray([.. aside.Select(a => (JsonNode)a)]),
                ["error"] = error,
            }.ToJsonString());
            return;
        }
        // Where no file could be read, that is all there is to say.
        var to = importing.Reports.Count == 0 ? Console.Error : Console.Out;
        foreach (var (_, why) in importing.Unreadable) to.WriteLine("not read: " + why);
        foreach (var report in importing.Reports) ImportText.Write(report, wanted.DryRun, Console.Out);
        foreach (var path in aside) Console.WriteLine($"Rows to mend: {path}");
        Console.WriteLine(wanted.DryRun ? "Dry run: nothing was stored." : $"{stored} facts stored.");
        if (error is not null) Console.Error.WriteLine(error);
    }
}

using System.CommandLine;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Readiness;
using MicRegister.Server.Accounts;
using MicRegister.Server.Api;
using MicRegister.Server.Imports;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>The main job with an invented fleet: import, verdict, findings; and a page to look at them.</summary>
internal static class DemoCommand
{
    public static Command Make()
    {
        var data = new Option<string?>("--data")
        { Description = "Folder of the demo's register (otherwise one in the user's own data folder)." };
        var once = new Option<bool>("--once") { Description = "Import, print the verdict and its findings, and exit." };
        var port = new Option<int>("--port") { Description = "Port on this machine; 0 takes any.", DefaultValueFactory = _ => 5480 };
        var day = new Option<string>("--day")
        {
            Description = "plan: four weeks before the campaign; field: the first morning of laying out.",
            DefaultValueFactory = _ => DemoFiles.Usual,
        };
        var (today, json) = (CommonOptions.Today(), CommonOptions.Json());
        var command = new Command("demo", "Take over an invented fleet and say whether its campaign is ready.")
        { data, once, day, today, port, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(
            parsed.GetValue(data), parsed.GetValue(once), parsed.GetValue(day)!, parsed.GetValue(today), parsed.GetValue(port),
            parsed.GetValue(json), cancel)));
        return command;
    }

    private static async Task<int> Run(
        string? data, bool once, string day, string? todayText, int port, bool asJson, CancellationToken cancel)
    {
        var batches = DemoFiles.Of(day);
        var today = todayText is null ? batches[^1].Day : CommonOptions.Day(todayText, TimeProvider.System);
        var folder = data ?? OwnFolder([.. batches.SelectMany(b => b.Files), DemoFiles.Doubts]);

        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
        var (stored, files, aside) = await DemoRegister.Fill(live, batches, today, Path.Combine(folder, "to-mend"), cancel);
        var reports = live.Now.CampaignIds.Select(id => CampaignReadiness.Judge(live.Now, id, today)).OfType<ReadinessReport>()
            .Where(r => r.LastDay >= today).ToList();
        var (flown, outdoors) = (DemoTour.Flown(live.Now, today), DemoTour.Outdoors(live.Now, today));
        if (asJson)
        {
            Console.WriteLine(new JsonObject
            {
                ["folder"] = folder,
                ["stored"] = stored,
                ["files"] = new JsonArray([.. files.Select(ImportText.Json)]),
                ["campaigns"] = JsonNode.Parse(ApiJson.Text(reports)),
                ["flown"] = new JsonArray([.. flown.Select(f => f.Json)]),
                ["outdoors"] = new JsonArray([.. outdoors.Select(o => o.Json)]),
            }.ToJsonString());
        }
        else
        {
            Console.WriteLine(
                $"Invented fleet, judged as of {today:yyyy-MM-dd}{(todayText is null ? ", the day written in demo-inventory" : "")}; "
                + $"register in {folder}");
            foreach (var report in files) ImportText.Write(report, everyRow: false, Console.Out);
            foreach (var path in aside) Console.WriteLine($"Rows to mend: {path}");
            Console.WriteLine($"{stored} facts stored.");
            foreach (var report in reports)
            {
                Console.WriteLine();
                ReadinessText.Write(report, Console.Out);
            }
            Console.WriteLine();
            foreach (var line in outdoors.Select(o => o.InWords).Concat(flown.Select(f => f.InWords))) Console.WriteLine(line);
            Console.WriteLine(once ? "Without --once, look at these pages:" : "Look at these pages:");
            foreach (var page in DemoTour.Pages) Console.WriteLine("  " + page);
        }
        if (!once)
        {
            using var book = AccountBook.Open(new DiskFiles(folder), TimeProvider.System);
            await ServeCommand.Serve(
                live, today, new() { Port = port, Access = new(book), KeyFolder = Path.Combine(folder, "session-keys") },
                People(book), cancel);
        }
        return reports.All(r => r.Verdict == ReadinessVerdict.Ready) ? CommandExit.Good : CommandExit.NotReady;
    }

    /// <summary>One account a duty, for the demo alone: it holds invented data and listens on this machine only.</summary>
    internal static IReadOnlyList<string> People(AccountBook book)
    {
        foreach (var duty in DutyWords.Single)
        {
            var name = "Demo " + DutyWords.Of(duty);
            var id = (book.Named(name) ?? (book.Make(name, duty) as Result<Account>.Accepted)?.Value)?.Id;
            if (id is not null && book.Verify(name, Password) is null) book.SetPassword(id, Password);
        }
        return
        [
            "Sign in with one of these names and the password " + Password + ":",
            .. DutyWords.Single.Select(d => $"  Demo {DutyWords.Of(d)}: {DutyWords.Meaning(d)}"),
        ];
    }

    private const string Password = "lapwings-over-quillmere";

    // A changed inventory gets a register of its own.
    private static string OwnFolder(IReadOnlyList<string> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in files) hash.AppendData(File.ReadAllBytes(file));
        var own = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create);
        var print = Convert.ToHexStringLower(hash.GetHashAndReset())[..8];
        return Path.Combine(own.Length > 0 ? own : Path.GetTempPath(), "MicRegister", "demo-" + print);
    }
}

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
    private const string Author = "Demo registrar";

    public static Command Make()
    {
        var data = new Option<string?>("--data")
        { Description = "Folder of the demo's register (otherwise one in the user's own data folder)." };
        var once = new Option<bool>("--once") { Description = "Import, print the verdict and its findings, and exit." };
        var port = new Option<int>("--port") { Description = "Port on this machine; 0 takes any.", DefaultValueFactory = _ => 5480 };
        var (today, json) = (CommonOptions.Today(), CommonOptions.Json());
        var command = new Command("demo", "Take over an invented fleet and say whether its campaign is ready.")
        { data, once, today, port, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(
            parsed.GetValue(data), parsed.GetValue(once), parsed.GetValue(today), parsed.GetValue(port), parsed.GetValue(json), cancel)));
        return command;
    }

    private static async Task<int> Run(string? data, bool once, string? todayText, int port, bool asJson, CancellationToken cancel)
    {
        var inventory = Path.Combine(AppContext.BaseDirectory, "demo-inventory");
        var files = Directory.GetFiles(inventory).Where(f => Path.GetExtension(f) is ".csv" or ".xlsx")
            .Order(StringComparer.Ordinal).ToList();
        var today = CommonOptions.Day(
            todayText ?? (await File.ReadAllTextAsync(Path.Combine(inventory, "today.txt"), cancel)).Trim(), TimeProvider.System);
        var folder = data ?? OwnFolder(files);

        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
        live.CurveReader = new Documents.Curves.CurveShelf(live.Log.OpenAttachment).Read;
        var hand = files.ConvertAll(f => FileAtHand.Find(f));
        var importing = Importing.Worked(
            live.Now, today, null, new() { Files = [.. hand.Select(f => f.Asked)] }, i => hand[i].Open(), cancel);
        var stored = await importing.Store(live, Author, TimeProvider.System, cancel);
        live.Log.Settle(live.Now, always: stored > 0);
        var aside = MendTable.Write(importing.Aside(), hand, Path.Combine(folder, "to-mend"), over: true);
        var reports = live.Now.CampaignIds.Select(id => CampaignReadiness.Judge(live.Now, id, today)).OfType<ReadinessReport>()
            .Where(r => r.LastDay >= today).ToList();
        if (asJson)
        {
            Console.WriteLine(new JsonObject
            {
                ["folder"] = folder,
                ["stored"] = stored,
                ["files"] = new JsonArray([.. importing.Reports.Select(ImportText.Json)]),
                ["campaigns"] = JsonNode.Parse(ApiJson.Text(reports)),
            }.ToJsonString());
        }
        else
        {
            Console.WriteLine(
                $"Invented fleet, judged as of {today:yyyy-MM-dd}{(todayText is null ? ", the day written in demo-inventory" : "")}; "
                + $"register in {folder}");
            foreach (var report in importing.Reports) ImportText.Write(report, everyRow: false, Console.Out);
            foreach (var path in aside) Console.WriteLine($"Rows to mend: {path}");
            Console.WriteLine($"{stored} facts stored.");
            foreach (var report in reports)
            {
                Console.WriteLine();
                ReadinessText.Write(report, Console.Out);
            }
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
    private static string OwnFolder(List<string> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in files) hash.AppendData(File.ReadAllBytes(file));
        var own = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.Create);
        var print = Convert.ToHexStringLower(hash.GetHashAndReset())[..8];
        return Path.Combine(own.Length > 0 ? own : Path.GetTempPath(), "MicRegister", "demo-" + print);
    }
}

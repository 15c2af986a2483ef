using System.CommandLine;
using System.Text.Json.Nodes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Readiness;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Judges campaigns; works while a server runs.</summary>
internal static class ReadinessCommand
{
    public static Command Make()
    {
        var campaign = new Argument<string?>("campaign")
        { Description = "Id of a campaign; all that are not over when left out.", Arity = ArgumentArity.ZeroOrOne };
        var (data, json, today) = (CommonOptions.Data(), CommonOptions.Json(), CommonOptions.Today());
        var command = new Command(
            "readiness", "Say whether a campaign is ready through its last day, and if not, why and what must happen by when.")
        { campaign, data, today, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            parsed.GetValue(campaign), CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(today), parsed.GetValue(json)))));
        return command;
    }

    private static int Run(string? campaign, string folder, string? todayText, bool asJson)
    {
        var today = CommonOptions.Day(todayText, TimeProvider.System);
        using var store = CommandStore.Read(folder);
        var register = CommandStore.Judged(store);
        // Without a day that was told, a campaign is over by the clock of its site.
        DateOnly SiteDay(string id) => todayText is null ? CampaignReadiness.SiteDay(register, id, TimeProvider.System.GetUtcNow()) : today;
        var wanted = campaign is not null
            ? [campaign]
            : register.CampaignIds.Where(id => register.Campaign(id)?.Plan is { } plan && plan.LastDay >= SiteDay(id)).ToList();
        if (wanted.Count == 0) throw new BadUseException("The register holds no campaign that is not over.");
        var reports = wanted.Select(id => CampaignReadiness.Judge(register, id, today, SiteDay(id))
            ?? throw new BadUseException(
                $"There is no plan of a campaign {id}; "
                + $"known are: {string.Join(", ", register.CampaignIds.DefaultIfEmpty("none"))}.")).ToList();
        if (asJson)
        {
            Console.WriteLine(new JsonObject
            {
                ["log"] = store.Head.ToString(),
                ["digest"] = register.Digest.ToString(),
                ["campaigns"] = JsonNode.Parse(ApiJson.Text(reports)),
            }.ToJsonString());
        }
        else
        {
            foreach (var report in reports) ReadinessText.Write(report, Console.Out);
            Console.WriteLine();
            Console.WriteLine($"Log {store.Head}; set {register.Digest}");
        }
        return reports.All(r => r.Verdict == ReadinessVerdict.Ready || (r.IsOver && r.Findings.Count == 0))
            ? CommandExit.Good : CommandExit.NotReady;
    }
}

using System.CommandLine;
using System.Text.Json;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Lists the sessions of a campaign, or states one.</summary>
internal static class SessionCommand
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var campaign = new Argument<string>("campaign") { Description = "Id of the campaign." };
        var name = new Option<string?>("--name") { Description = "Name of a session to state; the last statement of a name counts." };
        var start = new Option<string?>("--start")
        { Description = "With --name: when it began, its first check included, an instant in UTC such as 2026-05-04T18:00:00.000Z." };
        var stop = new Option<string?>("--stop") { Description = "With --name: when it ended, its last check included." };
        var by = CommonOptions.By();
        var command = new Command(
            "session", "List the sessions of testing of a campaign, or state one: checks and flights of one session belong together.")
        { campaign, name, start, stop, by, data, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(campaign)!, parsed.GetValue(name), parsed.GetValue(start),
            parsed.GetValue(stop), parsed.GetValue(by)!, parsed.GetValue(json), cancel)));
        return command;
    }

    private static async Task<int> Run(
        string folder, string campaign, string? name, string? start, string? stop, string by, bool asJson, CancellationToken cancel)
    {
        if (name is null != start is null || start is null != stop is null)
            throw new BadUseException("To state a session give --name, --start and --stop.");
        if (name is null)
        {
            using var store = CommandStore.Read(folder);
            return Say(store.Register, campaign, asJson);
        }
        await using var live = CommandStore.Write(folder);
        await CommandStore.State(live, by, (r, saying) => TestSessions.State(r, saying, campaign, new(name, start!, stop!)), cancel);
        return Say(live.Now, campaign, asJson);
    }

    private static int Say(Register.Register register, string campaign, bool asJson)
    {
        if (register.Campaign(campaign) is null)
            throw new BadUseException(
                $"There is no campaign {campaign}; known are: {string.Join(", ", register.CampaignIds.DefaultIfEmpty("none"))}.");
        var sessions = SessionView.Of(register, campaign);
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(sessions, Json));
            return CommandExit.Good;
        }
        foreach (var s in sessions) Console.WriteLine($"{s.Name}: {s.StartUtc} to {s.StopUtc} (fact {s.Fact})");
        if (sessions.Count == 0) Console.WriteLine("No session was stated.");
        Console.WriteLine(SessionView.Meaning(register, campaign));
        return CommandExit.Good;
    }
}

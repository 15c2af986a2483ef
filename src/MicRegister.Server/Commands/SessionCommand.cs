using System.CommandLine;
using System.Text.Json;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

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
        var by = new Option<string>("--by") { Description = "Name of the person who answers for it.", DefaultValueFactory = _ => "Technician" };
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
        if (!Directory.Exists(folder)) throw new BadUseException($"The folder {folder} holds no register.");
        if (name is null != start is null || start is null != stop is null)
            throw new BadUseException("To state a session give --name, --start and --stop.");
        if (name is null)
        {
            using var store = ReadOnlyStore.Open(new DiskFiles(folder))
                ?? throw new BadUseException($"The folder {folder} holds no register.");
            return Say(store.Register, campaign, asJson);
        }
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
        var person = PersonState.IdOf(by);
        var saying = new Saying(new(Occurred.At(TimeProvider.System.GetUtcNow()), person, "command", live.Now.Count));
        var answer = await live.Submit(r => TestSessions.State(r, saying, campaign, new(name, start!, stop!)) switch
        {
            Result<IReadOnlyList<Fact>>.Accepted a when r.Person(person) is null => new Result<IReadOnlyList<Fact>>.Accepted(
            [
                .. a.Value,
                FactText.WriteDerived(new(Occurred.Unknown, person, "command", 0), new PersonNamed(by), [Subject.Person(person)]),
            ]),
            var other => other,
        }, "command by " + person, cancel);
        if (answer is Result<IReadOnlyList<AppendOutcome>>.Rejected { Why: var why })
            throw new BadUseException($"{why.Text} Nothing was stored.");
        live.Log.Settle(live.Now, always: true);
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

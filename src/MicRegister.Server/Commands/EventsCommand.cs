using System.CommandLine;
using System.Text.Json;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Lists events, each with its one verdict and how many stations are what.</summary>
internal static class EventsCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var campaign = new Option<string?>("--campaign") { Description = "Id of a campaign; otherwise of all of them." };
        var day = new Option<string?>("--day") { Description = "Events of this day at the site, for example 2026-05-04." };
        var command = new Command("events", "List events: is each valid, doubtful or not valid, and at how many stations?")
        { data, campaign, day, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(campaign), parsed.GetValue(day), parsed.GetValue(json)))));
        return command;
    }

    private static int Run(string folder, string? campaign, string? dayText, bool asJson)
    {
        DateOnly? day = dayText is null ? null : CommonOptions.Day(dayText, TimeProvider.System, "--day");
        using var store = CommandStore.Read(folder);
        var register = CommandStore.Judged(store);
        if (campaign is not null && register.Campaign(campaign) is null)
            throw new BadUseException($"--campaign {campaign}: there is no such campaign.");
        List<string> campaigns = campaign is null ? [.. register.CampaignIds] : [campaign];
        var events = campaigns.SelectMany(c => EventBook.OfCampaign(register, c)
            .Where(e => day is null || e.DayAt(register.Campaign(c)?.Plan?.Offsets ?? []) == day)).ToList();
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(events.Select(e => ListedEvent.Of(register, e)), CommandJson.Indented));
            return CommandExit.Good;
        }
        if (events.Count == 0) Console.WriteLine("No event was stated.");
        foreach (var e in events)
        {
            var verdict = EventVerdict.Of(register, e.Id) ?? new([]);
            var start = DateTimeOffset.FromUnixTimeMilliseconds(e.StartMs);
            Console.WriteLine($"{e.Id}: {e.Name}, {start:yyyy-MM-dd HH:mm:ss} UTC: {verdict.Verdict.InWords}, {verdict.InWords}");
        }
        return CommandExit.Good;
    }
}

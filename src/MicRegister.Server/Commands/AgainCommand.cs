using System.CommandLine;
using System.Text.Json;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Works checks of a campaign out again by the certificates that are in force now.</summary>
internal static class AgainCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var campaign = new Option<string>("--campaign") { Description = "Id of the campaign.", Required = true };
        var store = new Option<bool>("--store") { Description = "State them anew, all or none; otherwise they are shown only." };
        var by = CommonOptions.By();
        var command = new Command(
            "again", "Show or state anew the checks that were worked out from certificates in force no longer, with what would change.")
        { data, campaign, store, by, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(campaign)!, parsed.GetValue(store), parsed.GetValue(by)!,
            parsed.GetValue(json), cancel)));
        return command;
    }

    private static async Task<int> Run(string folder, string campaign, bool isStored, string by, bool asJson, CancellationToken cancel)
    {
        if (!isStored)
        {
            using var store = CommandStore.Read(folder);
            return Say(Of(store.Register, campaign), 0, asJson);
        }
        await using var live = CommandStore.Write(folder);
        var checks = Of(live.Now, campaign);
        List<ReworkedCheck> possible = [.. checks.Where(c => c.Anew is not null)];
        if (possible.Count == 0) return Say(checks, 0, asJson);
        await CommandStore.State(
            live, by, (r, saying) => CheckRework.State(r, saying, [.. possible.Select(c => c.Record.Fact.ToString())]), cancel);
        return Say(checks, possible.Count, asJson);
    }

    private static IReadOnlyList<ReworkedCheck> Of(Register.Register register, string campaign) =>
        register.Campaign(campaign) is null
            ? throw new BadUseException($"--campaign {campaign}: allowed are {string.Join(", ", register.CampaignIds)}.")
            : CheckRework.Of(register, CheckBook.OfCampaign(register, campaign));

    private static int Say(IReadOnlyList<ReworkedCheck> checks, int stored, bool asJson)
    {
        if (asJson)
        {
            Console.WriteLine(JsonSerializer.Serialize(new { stored, checks = checks.Select(ReworkedView.Of) }, CommandJson.OneLine));
            return CommandExit.Good;
        }
        if (checks.Count == 0) Console.WriteLine("Every check rests on the certificates in force.");
        foreach (var c in checks)
        {
            var bases = c.Superseded.Select(b => $"{b.Device?.Name}: {b.Used?.Day.ToString("yyyy-MM-dd") ?? "not here"}, in force "
                + $"{b.InForce!.Day:yyyy-MM-dd}, {QuantityText.Change(b.DifferenceDb!.Value, "dB", 3)}");
            Console.WriteLine(
                $"{c.Record.Check.Station ?? "a bench"} {c.Record.Check.Moment.InWords} {c.Record.Day:yyyy-MM-dd}: "
                + (c.ChangeDb is { } by ? QuantityText.Change(by, "dB", 3) : c.Why ?? "no sensitivity") + $" ({string.Join("; ", bases)})");
        }
        if (stored > 0) Console.WriteLine($"{stored} checks are stated anew.");
        return CommandExit.Good;
    }
}

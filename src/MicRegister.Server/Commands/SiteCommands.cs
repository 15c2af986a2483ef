using System.CommandLine;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Server.Imports;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Takes over tables from the site: surveys of stations, and what a weather logger read. All of a table or nothing.</summary>
internal static class SiteCommands
{
    public static Command Survey()
    {
        var (file, data, campaign, by) = (File(), CommonOptions.Data(), Campaign(), CommonOptions.By());
        var method = new Option<string?>("--method") { Description = "How it was surveyed, for rows that do not say." };
        var command = new Command(
            "survey", "Take over surveyed places and heights of stations: station, latitude, longitude, horizontal uncertainty [m], and altitude, "
                + "height, vertical uncertainty, method, remark.")
        { file, data, campaign, method, by };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Store(
            parsed.GetValue(file)!, CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(campaign)!, parsed.GetValue(by)!,
            (content, name, _) =>
            {
                var table = SiteFiles.Surveys(content, name, parsed.GetValue(method));
                return (table.Bad, $"{table.Good.Count} stations", (r, s) => CampaignDecisions.Survey(r, s, parsed.GetValue(campaign)!, table.Good));
            }, cancel)));
        return command;
    }

    public static Command Weather()
    {
        var (file, data, campaign, by) = (File(), CommonOptions.Data(), Campaign(), CommonOptions.By());
        var zone = new Option<string?>("--zone")
        { Description = "What its times are: utc, or site for what clocks there show; nothing where the file says." };
        var remark = new Option<string?>("--remark") { Description = "Which instrument, where and how high it stood." };
        var command = new Command(
            "weather", "Take over what a weather logger read: time, and wind, gust, wind direction, temperature, humidity and pressure, each with "
                + "its unit behind its name.")
        { file, data, campaign, zone, remark, by };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Store(
            parsed.GetValue(file)!, CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(campaign)!, parsed.GetValue(by)!,
            (content, name, offsets) =>
            {
                var (logged, bad) = SiteFiles.Weather(content, name, parsed.GetValue(zone), offsets, parsed.GetValue(remark));
                return (bad, $"{logged.Readings.Count} readings",
                    (r, s) => DeploymentDecisions.LogWeather(r, s, parsed.GetValue(campaign)!, logged));
            }, cancel)));
        return command;
    }

    private static async Task<int> Store(
        string path, string folder, string campaign, string by,
        Func<MemoryStream, string, IReadOnlyList<ZoneOffset>,
            (IReadOnlyList<BadFieldRow> Bad, string What, Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> Decide)> read,
        CancellationToken cancel)
    {
        if (!System.IO.File.Exists(path)) throw new BadUseException($"There is no file {path}.");
        await using var live = CommandStore.Write(folder);
        var planned = live.Now.Campaign(campaign)
            ?? throw new BadUseException($"--campaign {campaign}: allowed are {string.Join(", ", live.Now.CampaignIds)}.");
        using var content = new MemoryStream();
        await using (var file = System.IO.File.OpenRead(path)) await file.CopyToAsync(content, cancel);
        var name = Path.GetFileName(path);
        try
        {
            var (bad, what, decide) = read(content, name, planned.Plan?.Offsets ?? []);
            if (bad.Count > 0) throw new BadUseException($"{name}: {SiteFiles.InWords(bad)} Nothing was stored.");
            await CommandStore.State(live, by, decide, cancel, name);
            Console.WriteLine($"{name}: {what} stored for {planned.Name}.");
            return CommandExit.Good;
        }
        catch (SheetException e)
        {
            throw new BadUseException($"{name}: {e.Message} Nothing was stored.");
        }
    }

    private static Argument<string> File() => new("file") { Description = "CSV or XLSX; the first row names the columns, in English or German." };

    private static Option<string> Campaign() => new("--campaign") { Description = "Id of the campaign.", Required = true };
}

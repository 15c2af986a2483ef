using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Documents.Recordings;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Checks;
using MicRegister.Server.Api;
using MicRegister.Server.Remote;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Checks the chains of a campaign from recorded tones.</summary>
internal static class CheckCommand
{
    public static Command Make()
    {
        var files = new Argument<string[]>("file")
        { Description = "Recordings, or folders of recordings: WAV, RF64 or BW64.", Arity = ArgumentArity.OneOrMore };
        var (data, json, today) = (CommonOptions.Data(), CommonOptions.Json(), CommonOptions.Today());
        var campaign = new Option<string>("--campaign") { Description = "Id of the campaign.", Required = true };
        var calibrator = new Option<string>("--calibrator") { Description = "Serial number of the calibrator.", Required = true };
        var adapter = new Option<string?>("--adapter") { Description = "Serial number of the calibration adapter." };
        var barometer = new Option<string?>("--barometer") { Description = "Serial number of the barometer that was read." };
        var pressure = new Option<double?>("--pressure-kpa")
        { Description = "Static pressure at the place in kPa, not reduced to sea level." };
        var estimate = new Option<bool>("--estimate-pressure")
        { Description = "Take it from the campaign's altitude instead, and mark it so." };
        var temperature = new Option<double?>("--temperature-c") { Description = "Air temperature in °C." };
        var humidity = new Option<double?>("--humidity-percent") { Description = "Relative humidity in %." };
        var moment = new Option<string>("--moment")
        { Description = "before or after the day's recordings, or other.", DefaultValueFactory = _ => "other" };
        var at = new Option<string?>("--at")
        { Description = "Day or instant in UTC of the check, for example 2026-09-02T08:10:00.000Z (otherwise now)." };
        var range = new Option<double?>("--range-v")
        { Description = "Peak voltage of the channels' full scale (otherwise what their entries state)." };
        var hz = new Option<double?>("--hz")
        { Description = "Frequency that is expected (otherwise the calibrator's nominal one, or whatever is found)." };
        var map = new Option<string?>("--map")
        { Description = "Text table of file, channel, station; it comes before what the recorder channels' entries say." };
        var store = new Option<bool>("--store")
        { Description = "Store one check for each usable channel that stands for a station; otherwise they are shown only." };
        var by = CommonOptions.By();
        var command = new Command(
            "check", "Measure recorded calibrator tones, match them with the chains of a campaign, and show or store the checks.")
        {
            files, data, campaign, calibrator, adapter, barometer, pressure, estimate, temperature, humidity, moment, at, range, hz, map,
            store, by,
            today, json,
        };
        var server = new ServerChoice();
        server.AddTo(command);
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            parsed.GetValue(files)!, CommonOptions.Folder(parsed.GetValue(data)), server.Read(parsed, data, by), parsed.GetValue(campaign)!,
            parsed.GetValue(calibrator)!, parsed.GetValue(adapter), parsed.GetValue(barometer),
            new(parsed.GetValue(pressure), parsed.GetValue(temperature), parsed.GetValue(humidity)), parsed.GetValue(estimate),
            Moment(parsed.GetValue(moment)!), parsed.GetValue(at), parsed.GetValue(range), parsed.GetValue(hz), parsed.GetValue(map),
            parsed.GetValue(store), parsed.GetValue(by)!,
            parsed.GetValue(today) is { } day ? CommonOptions.Day(day, TimeProvider.System) : null,
            parsed.GetValue(json)), cancel)));
        return command;
    }

    private sealed record Wanted(
        string[] Files, string Folder, ServerAddress? Server, string Campaign, string Calibrator, string? Adapter, string? Barometer,
        Register.Calibration.StatedAir Air,
        bool Estimate, CheckMoment Moment, string? At, double? RangeV, double? Hz, string? Map, bool Store, string By, DateOnly? Today,
        bool Json);

    private static async Task<int> Run(Wanted wanted, CancellationToken cancel)
    {
        var map = wanted.Map is null || File.Exists(wanted.Map) ? wanted.Map : throw new BadUseException($"There is no file {wanted.Map}.");
        var ask = new NewToneChecks
        {
            Campaign = wanted.Campaign,
            Calibrator = wanted.Calibrator,
            Adapter = wanted.Adapter,
            Barometer = wanted.Barometer,
            Air = wanted.Air,
            EstimatePressure = wanted.Estimate,
            Moment = wanted.Moment,
            At = wanted.At,
            RangeV = wanted.RangeV,
            Mappings = map is null ? null : ChannelMapFile.Read(await File.ReadAllTextAsync(map, cancel), Path.GetFileName(map)),
            Channels = [],
            Today = wanted.Today,
        };
        await using var door = await Open(wanted, cancel);
        // Asked without recordings first: what cannot be is said before they are measured, and which frequency the calibrator gives.
        var expected = (await door.Work(ask, cancel)).ExpectedHz;
        var (recordings, unread) = Measured(wanted.Files.SelectMany(Expand), wanted.Hz ?? expected, cancel);
        ask = ask with { Channels = [.. recordings.SelectMany(r => r.Channels.Select(c => MeasuredTone.Of(r, c)))] };
        return Say(wanted.Store ? await door.Store(ask, cancel) : await door.Work(ask, cancel), unread, wanted);
    }

    private static async Task<ICheckDoor> Open(Wanted wanted, CancellationToken cancel) => wanted.Server is { } server
        ? new CheckServer(await RegisterConnection.Open(server, cancel))
        : new CheckFolder(
            wanted.Folder, wanted.Store ? wanted.By : null, wanted.Today ?? CommonOptions.Day(null, TimeProvider.System));

    private static (IReadOnlyList<RecordingView> Recordings, IReadOnlyList<string> Unread) Measured(
        IEnumerable<string> paths, double? expectedHz, CancellationToken cancel)
    {
        var (recordings, unread) = (new List<RecordingView>(), new List<string>());
        foreach (var path in paths)
        {
            try
            {
                using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
                recordings.Add(TonesApi.Measured(stream, Path.GetFileName(path), expectedHz, cancel));
            }
            catch (RecordingException e)
            {
                unread.Add($"{Path.GetFileName(path)}: {e.Message}");
            }
        }
        return (recordings, unread);
    }

    private static int Say(ToneChecksView taken, IReadOnlyList<string> unread, Wanted wanted)
    {
        var isGood = taken.Refused.Count == 0 && unread.Count == 0 && taken.Checks.Count > 0
            && taken.Checks.All(v => v.Verdict is not ("reject" or "undecidable"));
        if (wanted.Json)
        {
            Console.WriteLine(new JsonObject
            {
                ["checks"] = JsonSerializer.SerializeToNode(taken.Checks, CommandJson.OneLine),
                ["refused"] = new JsonArray([.. taken.Refused.Select(r => (JsonNode)new JsonObject
                {
                    ["file"] = r.File,
                    ["channel"] = r.Channel,
                    ["station"] = r.Station,
                    ["problem"] = r.Problem,
                })]),
                ["unread"] = new JsonArray([.. unread.Select(u => (JsonNode)u)]),
                ["stored"] = taken.Stored,
            }.ToJsonString());
            return isGood ? CommandExit.Good : CommandExit.NotReady;
        }
        foreach (var v in taken.Checks)
        {
            var since = v.Comparisons.FirstOrDefault(c => c.What == "since the check before");
            var expected = v.Check.DeviationDb is { } d
                ? Db(d) + " dB from its certificates"
                : "its certificates do not say what to expect";
            Console.WriteLine(
                FormattableString.Invariant($"{v.Check.Station}: {Sensitivity(v.Check)} (k = {v.Check.CoverageFactor:0.00}), {expected}")
                + (since is null ? "" : ", " + Db(since.DifferenceDb) + " dB since the check before")
                + $": {v.Verdict}{(v.StandsOut ? ", stands out from the others" : "")}");
            if (v.Caution is { } caution) Console.WriteLine("  " + caution);
        }
        if (taken.Checks.FirstOrDefault(v => v.CommonDb is not null) is { CommonDb: { } common })
            Console.WriteLine($"All chains together: {Db(common)} dB.");
        foreach (var refused in taken.Refused)
        {
            var station = refused.Station is { } s ? ", " + s : "";
            Console.WriteLine($"{refused.File}, channel {refused.Channel}{station}: not taken: {refused.Problem}");
        }
        foreach (var problem in unread) Console.WriteLine($"{problem}.");
        Console.WriteLine(wanted.Store ? $"{taken.Stored} checks stored." : "Nothing was stored; --store does.");
        return isGood ? CommandExit.Good : CommandExit.NotReady;
    }

    private static string Sensitivity(ChainChecked check) => check.SensitivityDb is { } s
        ? QuantityText.With(s, check.ExpandedDb, "dB re 1 " + check.SensitivityUnit)
        : "no sensitivity";

    private static string Db(double db) => QuantityText.Signed(db, 3);

    private static IEnumerable<string> Expand(string path) =>
        Directory.Exists(path)
            ? Directory.EnumerateFiles(path)
                .Where(f => Path.GetExtension(f).ToLowerInvariant() is ".wav" or ".rf64" or ".bw64" or ".bwf")
                .Order(StringComparer.Ordinal)
        : File.Exists(path) ? [path] : throw new BadUseException($"There is no file or folder {path}.");

    private static CheckMoment Moment(string text) => text switch
    {
        "before" => CheckMoment.Before,
        "after" => CheckMoment.After,
        "other" => CheckMoment.Other,
        _ => throw new BadUseException($"--moment {text}: allowed are before, after, other."),
    };
}

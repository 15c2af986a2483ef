using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Documents.Recordings;
using MicRegister.Metrology.Quantities;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;
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
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Run(new(
            parsed.GetValue(files)!, CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(campaign)!,
            parsed.GetValue(calibrator)!, parsed.GetValue(adapter), parsed.GetValue(barometer),
            new(parsed.GetValue(pressure), parsed.GetValue(temperature), parsed.GetValue(humidity)), parsed.GetValue(estimate),
            Moment(parsed.GetValue(moment)!), parsed.GetValue(at), parsed.GetValue(range), parsed.GetValue(hz), parsed.GetValue(map),
            parsed.GetValue(store), parsed.GetValue(by)!, CommonOptions.Day(parsed.GetValue(today), TimeProvider.System),
            parsed.GetValue(json)), cancel)));
        return command;
    }

    private sealed record Wanted(
        string[] Files, string Folder, string Campaign, string Calibrator, string? Adapter, string? Barometer,
        Register.Calibration.StatedAir Air,
        bool Estimate, CheckMoment Moment, string? At, double? RangeV, double? Hz, string? Map, bool Store, string By, DateOnly Today,
        bool Json);

    private static async Task<int> Run(Wanted wanted, CancellationToken cancel)
    {
        if (!wanted.Store)
        {
            using var store = CommandStore.Read(wanted.Folder);
            return Say(Taken(store.Register, wanted, cancel), store.Register, wanted, null);
        }
        await using var live = CommandStore.Write(wanted.Folder);
        var taken = Taken(live.Now, wanted, cancel);
        await CommandStore.State(
            live, wanted.By, (r, saying) => CheckDecisions.Record(r, saying, taken.Entries, wanted.Today), cancel);
        return Say(taken, live.Now, wanted, taken.Entries.Count);
    }

    private sealed record Checks(
        IReadOnlyList<ToneRow> Rows, IReadOnlyList<CheckEntry> Entries, IReadOnlyList<(ToneRow Row, string Problem)> Refused,
        IReadOnlyList<CheckView> Views, IReadOnlyList<string> Unread);

    private static Checks Taken(Register.Register register, Wanted wanted, CancellationToken cancel)
    {
        var campaign = register.Campaign(wanted.Campaign)
            ?? throw new BadUseException($"--campaign {wanted.Campaign}: allowed are {string.Join(", ", register.CampaignIds)}.");
        var calibrator = Find(register, wanted.Calibrator, DeviceKind.Calibrator, "--calibrator");
        var adapter = wanted.Adapter is null ? null : Find(register, wanted.Adapter, DeviceKind.Adapter, "--adapter");
        var barometer = wanted.Barometer is null ? null : Find(register, wanted.Barometer, DeviceKind.Barometer, "--barometer");
        IReadOnlyList<ChannelMapping> mappings = wanted.Map is null ? []
            : File.Exists(wanted.Map) ? ChannelMapFile.Read(File.ReadAllText(wanted.Map), Path.GetFileName(wanted.Map))
            : throw new BadUseException($"There is no file {wanted.Map}.");
        var (recordings, unread) = (new List<RecordingView>(), new List<string>());
        foreach (var path in wanted.Files.SelectMany(Expand))
        {
            try
            {
                using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
                recordings.Add(TonesApi.Measured(
                    stream, Path.GetFileName(path), wanted.Hz ?? calibrator.Number(DeviceField.FrequencyHz), cancel));
            }
            catch (RecordingException e)
            {
                unread.Add($"{Path.GetFileName(path)}: {e.Message}");
            }
        }
        var rows = ToneBatch.Match(register, campaign, recordings, mappings);
        var conditions = new CheckEntry
        {
            Campaign = campaign.Id,
            At = wanted.At,
            Moment = wanted.Moment,
            Calibrator = calibrator.Id,
            Adapter = adapter?.Id,
            Barometer = barometer?.Id,
            Air = wanted.Air,
            EstimatePressure = wanted.Estimate,
            RangeV = wanted.RangeV,
            Readings = [],
        };
        var (good, refused) = (new List<(CheckEntry Entry, ChainChecked Check)>(), new List<(ToneRow, string)>());
        foreach (var row in rows)
        {
            if (ToneBatch.Entries([row], conditions) is not [var entry])
                refused.Add((row, row.Channel.Usable ? row.Why : string.Join("; ", row.Channel.Reasons)));
            else if (CheckWork.Out(register, entry) is Result<ChainChecked>.Accepted { Value: var check })
                good.Add((entry, check));
            else
                throw new BadUseException(
                    $"Station {entry.Station}: {((Result<ChainChecked>.Rejected)CheckWork.Out(register, entry)).Why.Text}");
        }
        var (days, profile) = CheckView.Tried(register, campaign.Id, good, Occurred.At(TimeProvider.System.GetUtcNow()));
        var fresh = good.Select(g => g.Check).ToHashSet(ReferenceEqualityComparer.Instance);
        var views = days.SelectMany(d => d.Checks.Where(j => fresh.Contains(j.Record.Check)).Select(j => CheckView.Of(register, j, d, profile)));
        return new(rows, [.. good.Select(g => g.Entry)], refused, [.. views], unread);
    }

    private static int Say(Checks taken, Register.Register register, Wanted wanted, int? stored)
    {
        var isGood = taken.Refused.Count == 0 && taken.Unread.Count == 0 && taken.Views.Count > 0
            && taken.Views.All(v => v.Verdict is not ("reject" or "undecidable"));
        if (wanted.Json)
        {
            Console.WriteLine(new JsonObject
            {
                ["checks"] = JsonSerializer.SerializeToNode(taken.Views, CommandJson.OneLine),
                ["refused"] = new JsonArray([.. taken.Refused.Select(r => (JsonNode)new JsonObject
                {
                    ["file"] = r.Row.Recording.File,
                    ["channel"] = r.Row.Channel.Channel,
                    ["station"] = r.Row.Station,
                    ["problem"] = r.Problem,
                })]),
                ["unread"] = new JsonArray([.. taken.Unread.Select(u => (JsonNode)u)]),
                ["stored"] = stored ?? 0,
            }.ToJsonString());
            return isGood ? CommandExit.Good : CommandExit.NotReady;
        }
        foreach (var v in taken.Views)
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
        if (taken.Views.FirstOrDefault(v => v.CommonDb is not null) is { CommonDb: { } common })
            Console.WriteLine($"All chains together: {Db(common)} dB.");
        foreach (var (row, problem) in taken.Refused)
        {
            var station = row.Station is { } s ? ", " + s : "";
            Console.WriteLine($"{row.Recording.File}, channel {row.Channel.Channel}{station}: not taken: {problem}");
        }
        foreach (var problem in taken.Unread) Console.WriteLine($"{problem}.");
        Console.WriteLine(stored is { } n ? $"{n} checks stored." : "Nothing was stored; --store does.");
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

    private static DeviceState Find(Register.Register register, string serial, DeviceKind kind, string option)
    {
        var all = register.DeviceIds.Select(id => register.Device(id)!).Where(d => d.Kind == kind.Key).ToList();
        var found = all.Where(d => d.Id == serial || DeviceIdentity.Normal(d.Serial) == DeviceIdentity.Normal(serial)).ToList();
        return found is [var one] ? one
            : throw new BadUseException(
                $"{option} {serial}: allowed is one of "
                + $"{string.Join(", ", all.Select(d => d.Serial ?? d.Id).Order(StringComparer.Ordinal))}.");
    }
}

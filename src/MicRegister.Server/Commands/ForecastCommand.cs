using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Drift;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Says for every device where it is expected to be on a day.</summary>
internal static class ForecastCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var today = new Option<string?>("--today")
        { Description = "Leave out what became known after this day, for example 2026-05-04 (otherwise all that is known counts)." };
        var on = new Option<string>("--on") { Description = "Day of the forecast, for example 2026-09-12.", Required = true };
        var limit = new Option<double>("--limit-db")
        { Description = "Limit on both sides of the last certified value, in dB.", Required = true };
        var command = new Command(
            "forecast",
            "For every device: expected level, standard deviation, probability to be within a limit of its last certified value "
                + "on a day, steps and bad results, and what stands behind it.")
        { data, on, limit, today, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Run(
            CommonOptions.Folder(parsed.GetValue(data)), parsed.GetValue(on)!, parsed.GetValue(limit), parsed.GetValue(today),
            parsed.GetValue(json)))));
        return command;
    }

    private static int Run(string folder, string onText, double limitDb, string? todayText, bool asJson)
    {
        if (!(limitDb is > 0 and <= 100))
            throw new BadUseException(FormattableString.Invariant($"--limit-db {limitDb}: allowed is a number above 0 up to 100."));
        if (!DateOnly.TryParseExact(onText, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var on))
            throw new BadUseException($"--on {onText} is no day; write it as 2026-05-04.");
        using var store = CommandStore.Read(folder);
        var book = store.Register.Drift(todayText is null ? DateOnly.MaxValue : CommonOptions.Day(todayText, TimeProvider.System));
        var views = book.DeviceIds.Select(id => DriftView.Of(book.Of(id)!, on, limitDb));
        if (asJson)
        {
            Console.WriteLine(new JsonObject
            {
                ["on"] = on.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                ["limitDb"] = limitDb,
                ["devices"] = new JsonArray([.. views.Select(Json)]),
            }.ToJsonString());
            return CommandExit.Good;
        }
        foreach (var v in views)
        {
            Console.WriteLine(
                $"{v.Name}: {QuantityText.Of(v.LevelDb, "dB", 3)} ± {QuantityText.Of(v.StandardDeviationDb, "dB", 3)} (1 sd) "
                + FormattableString.Invariant($"on {v.On:yyyy-MM-dd}; within ±{v.LimitDb} dB ")
                + $"of {QuantityText.Of(v.CertifiedDb, "dB", 3)} "
                + FormattableString.Invariant($"with probability {DriftWords.Probability(v.Probability)}; {v.Basis}; ")
                + FormattableString.Invariant($"{v.Results} results, {v.Devices} of its model"));
            foreach (var f in v.Findings) Console.WriteLine("  " + f.Text);
            if (v.SteadyDeviationDb is { } steady)
                Console.WriteLine(
                    $"  a steady drift of {QuantityText.Change(v.SteadySlopeDbPerYear, "dB", 3)} a year explains that at least as well "
                    + $"and would lead to {QuantityText.Change(steady, "dB", 3)} on that day");
        }
        return CommandExit.Good;
    }

    private static JsonNode Json(DriftView v) => new JsonObject
    {
        ["device"] = v.Device,
        ["name"] = v.Name,
        ["on"] = v.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        ["certifiedDb"] = v.CertifiedDb,
        ["levelDb"] = v.LevelDb,
        ["standardDeviationDb"] = v.StandardDeviationDb,
        ["lowDb"] = v.LowDb,
        ["highDb"] = v.HighDb,
        ["probability"] = v.Probability,
        ["probabilityIfNewestIsWrong"] = v.ProbabilityIfNewestIsWrong,
        ["probabilityIfItChanged"] = v.ProbabilityIfItChanged,
        ["results"] = v.Results,
        ["devicesOfModel"] = v.Devices,
        ["resultsOfModel"] = v.ModelResults,
        ["basis"] = v.Basis,
        ["intervalDays"] = v.IntervalDays,
        ["interval"] = v.IntervalReason,
        ["staircase"] = v.Staircase,
        ["steadySlopeDbPerYear"] = v.SteadySlopeDbPerYear,
        ["steadyDeviationDb"] = v.SteadyDeviationDb,
        ["pool"] = v.Pool,
        ["findings"] = new JsonArray([.. v.Findings.Select(f => (JsonNode)new JsonObject
        {
            ["kind"] = f.Kind,
            ["day"] = f.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["sizeDb"] = f.SizeDb,
            ["z"] = f.Z,
            ["threshold"] = f.Threshold,
            ["certain"] = f.IsCertain,
        })]),
    };
}

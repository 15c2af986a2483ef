using System.Globalization;
using System.Text.Json.Nodes;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Commands;

/// <summary>Says a verdict with its findings, to people and to programs.</summary>
internal static class ReadinessText
{
    /// <summary>Shape and word of each verdict: in black and white nothing is lost.</summary>
    public static (string Shape, string Word) Verdict(ReadinessVerdict verdict) => verdict switch
    {
        ReadinessVerdict.Ready => ("●", "ready"),
        ReadinessVerdict.AtRisk => ("▲", "at risk"),
        ReadinessVerdict.NotReady => ("■", "not ready"),
        _ => ("◇", "undecided"),
    };

    /// <summary>What clears a finding, as an act.</summary>
    public static string Act(Clearing clearing) => clearing switch
    {
        Clearing.Calibrate => "calibrate",
        Clearing.Swap => "swap",
        Clearing.Inspect => "inspect",
        Clearing.Decide => "decide",
        Clearing.Enter => "enter what is missing",
        _ => "change the plan",
    };

    public static string Word(Gravity gravity) => gravity switch
    {
        Gravity.Stops => "stops",
        Gravity.Risks => "risks",
        _ => "note",
    };

    public static void Write(ReadinessReport report, TextWriter to)
    {
        var (shape, word) = Verdict(report.Verdict);
        to.WriteLine(FormattableString.Invariant($"{shape} {report.Name} is {word} ({report.FirstDay:yyyy-MM-dd} to {report.LastDay:yyyy-MM-dd}, judged as of {report.Today:yyyy-MM-dd}, profile {report.Profile})"));
        to.WriteLine(FormattableString.Invariant($"  {report.Stations.Count} stations: {string.Join(", ", report.Stations.GroupBy(s => s.Verdict).OrderBy(g => g.Key).Select(g => $"{g.Count()} {Verdict(g.Key).Word}"))}"));
        to.WriteLine(FormattableString.Invariant($"  the array holds with probability {report.ArrayProbability:0.000}; with permitted losses {report.WithLossesProbability:0.000}; with {report.UsableSpares} fit spares as well {report.WithSparesProbability:0.000}"));
        foreach (var group in report.Findings.GroupBy(f => f.Clearing).OrderByDescending(g => g.Max(f => f.Gravity)).ThenBy(g => g.Key))
        {
            to.WriteLine();
            to.WriteLine($"To {Act(group.Key)}:");
            foreach (var f in group)
            {
                var where = f.Station is { } station ? $"station {station}: " : "";
                to.WriteLine(FormattableString.Invariant($"  {Word(f.Gravity),-5} {f.BitesOn:yyyy-MM-dd} [{f.Rule}] {where}{f.Text}"));
                if (f.Gravity != Gravity.Note) to.WriteLine(FormattableString.Invariant($"        start by {f.LatestStart:yyyy-MM-dd}{(f.IsTooLate ? ", which is past: take another device or change the plan" : "")}"));
            }
        }
    }

    public static JsonObject Json(ReadinessReport report) => new()
    {
        ["campaign"] = report.Campaign,
        ["name"] = report.Name,
        ["today"] = Day(report.Today),
        ["firstDay"] = Day(report.FirstDay),
        ["lastDay"] = Day(report.LastDay),
        ["profile"] = report.Profile,
        ["verdict"] = Verdict(report.Verdict).Word,
        ["arrayProbability"] = report.ArrayProbability,
        ["withLossesProbability"] = report.WithLossesProbability,
        ["withSparesProbability"] = report.WithSparesProbability,
        ["usableSpares"] = report.UsableSpares,
        ["stations"] = new JsonArray([.. report.Stations.Select(s => (JsonNode)new JsonObject
        {
            ["station"] = s.Station, ["verdict"] = Verdict(s.Verdict).Word, ["probability"] = s.Probability, ["devices"] = new JsonArray([.. s.Devices.Select(d => (JsonNode)d)]),
        })]),
        ["findings"] = new JsonArray([.. report.Findings.Select(f => (JsonNode)new JsonObject
        {
            ["rule"] = f.Rule, ["gravity"] = Word(f.Gravity), ["station"] = f.Station, ["device"] = f.Device, ["deviceName"] = f.DeviceName, ["bitesOn"] = Day(f.BitesOn), ["text"] = f.Text,
            ["figures"] = new JsonObject(f.Figures.Select(g => KeyValuePair.Create<string, JsonNode?>(g.Name + (g.Unit.Length > 0 ? " " + g.Unit : ""), g.Value))),
            ["clearing"] = Act(f.Clearing), ["latestStart"] = Day(f.LatestStart), ["isTooLate"] = f.IsTooLate,
        })]),
    };

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

using System.Globalization;
using System.Text.Json.Nodes;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Readiness;
using MicRegister.Server.Api;

namespace MicRegister.Server.Commands;

/// <summary>Says a verdict with its findings, to people and to programs.</summary>
internal static class ReadinessText
{
    public static void Write(ReadinessReport report, TextWriter to)
    {
        var (shape, word) = Words.Verdict(report.Verdict);
        to.WriteLine(
            FormattableString.Invariant($"{shape} {report.Name} is {word} ({report.FirstDay:yyyy-MM-dd} to {report.LastDay:yyyy-MM-dd}, ")
            + FormattableString.Invariant($"judged as of {report.Today:yyyy-MM-dd}, profile {report.Profile})"));
        if (report.IsOver)
        {
            to.WriteLine($"  {ReadinessWords.Over(report)}");
            foreach (var f in report.Findings)
                to.WriteLine($"  {Words.Gravity(f.Gravity).Word,-5} [{f.Rule}] {(f.Station is { } s ? $"station {s}: " : "")}{f.Text}");
            return;
        }
        var stations = report.Stations.GroupBy(s => s.Verdict).OrderBy(g => g.Key)
            .Select(g => $"{g.Count()} {Words.Verdict(g.Key).Word}");
        to.WriteLine(FormattableString.Invariant($"  {report.Stations.Count} stations: {string.Join(", ", stations)}"));
        to.WriteLine(
            FormattableString.Invariant($"  the array holds with probability {report.ArrayProbability:0.000}; ")
            + FormattableString.Invariant($"with permitted losses {report.WithLossesProbability:0.000}; ")
            + $"with {ReadinessWords.FitSpares(report.Spares)} as well {(report.IsWithSparesAtLeast ? "at least " : "")}"
            + FormattableString.Invariant($"{report.WithSparesProbability:0.000}"));
        foreach (var spare in report.Spares)
            to.WriteLine($"  spare {spare.Name} {ReadinessWords.Counts(spare)}");
        if (report.Spares.Count > 0) to.WriteLine($"  {ReadinessWords.HowSparesCount}");
        var common = report.Common;
        if (common.ShiftDb > 0)
            to.WriteLine(
                $"  if microphones of one laboratory and day share a shift of up to {QuantityText.Of(common.ShiftDb, "dB", 3)} (1 sd): "
                + FormattableString.Invariant($"{common.AllHold:0.000}; {common.WithLosses:0.000}; {common.WithSpares:0.000}; ")
                + FormattableString.Invariant($"spares for 0.95: {common.SparesWanted}"));
        foreach (var group in report.Findings.GroupBy(f => f.Clearing).OrderByDescending(g => g.Max(f => f.Gravity)).ThenBy(g => g.Key))
        {
            to.WriteLine();
            to.WriteLine($"To {group.Key.InWords}:");
            foreach (var f in group)
            {
                var where = f.Station is { } station ? $"station {station}: " : "";
                to.WriteLine(
                    FormattableString.Invariant($"  {Words.Gravity(f.Gravity).Word,-5} {f.BitesOn:yyyy-MM-dd} [{f.Rule}] {where}{f.Text}"));
                var late = f.IsTooLate ? ", which is past: take another device or change the plan" : "";
                if (f.Gravity != Gravity.Note)
                    to.WriteLine(FormattableString.Invariant($"        start by {f.LatestStart:yyyy-MM-dd}{late}"));
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
        ["verdict"] = Words.Verdict(report.Verdict).Word,
        ["isOver"] = report.IsOver,
        ["arrayProbability"] = report.IsOver ? null : report.ArrayProbability,
        ["withLossesProbability"] = report.IsOver ? null : report.WithLossesProbability,
        ["withSparesProbability"] = report.IsOver ? null : report.WithSparesProbability,
        ["usableSpares"] = report.UsableSpares,
        ["isWithSparesAtLeast"] = report.IsWithSparesAtLeast,
        ["spares"] = new JsonArray([.. report.Spares.Select(s => (JsonNode)new JsonObject
        {
            ["device"] = s.Device, ["name"] = s.Name, ["kind"] = s.Kind, ["probability"] = s.Probability, ["stations"] = s.Stations,
            ["why"] = s.Why,
        })]),
        ["commonShift"] = report.IsOver ? null : new JsonObject
        {
            ["shiftDb"] = report.Common.ShiftDb,
            ["arrayProbability"] = report.Common.AllHold,
            ["withLossesProbability"] = report.Common.WithLosses,
            ["withSparesProbability"] = report.Common.WithSpares,
            ["expectedLosses"] = report.Common.ExpectedLosses,
            ["sparesWanted"] = report.Common.SparesWanted,
        },
        ["stations"] = new JsonArray([.. report.Stations.Select(s => (JsonNode)new JsonObject
        {
            ["station"] = s.Station, ["verdict"] = Words.Verdict(s.Verdict).Word, ["probability"] = report.IsOver ? null : s.Probability,
            ["devices"] = new JsonArray([.. s.Devices.Select(d => (JsonNode)d)]),
        })]),
        ["findings"] = new JsonArray([.. report.Findings.Select(f => (JsonNode)new JsonObject
        {
            ["rule"] = f.Rule, ["gravity"] = Words.Gravity(f.Gravity).Word, ["station"] = f.Station, ["device"] = f.Device,
            ["deviceName"] = f.DeviceName, ["bitesOn"] = Day(f.BitesOn), ["text"] = f.Text,
            ["figures"] = new JsonObject(f.Figures.Select(g =>
                KeyValuePair.Create<string, JsonNode?>(g.Name + (g.Unit.Length > 0 ? " " + g.Unit : ""), g.Value))),
            ["clearing"] = f.Clearing.InWords, ["latestStart"] = f.LatestStart is { } by ? Day(by) : null, ["isTooLate"] = f.IsTooLate,
        })]),
    };

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}

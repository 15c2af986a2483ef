using MicRegister.Metrology.Quantities;
using MicRegister.Register.Drift;
using MicRegister.Register.Readiness;
using MicRegister.Server.Api;

namespace MicRegister.Server.Commands;

/// <summary>Says a verdict with its findings to people.</summary>
internal static class ReadinessText
{
    public static void Write(ReadinessReport report, TextWriter to)
    {
        var (shape, word) = Words.Verdict(report.Verdict);
        to.WriteLine(
            FormattableString.Invariant($"{shape} {report.Name} is {word} ({report.FirstDay:yyyy-MM-dd} to {report.LastDay:yyyy-MM-dd}, ")
            + FormattableString.Invariant($"judged as of {report.Today:yyyy-MM-dd}, profile {report.Profile}, {report.ProfileChecked})"));
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
            $"  the array holds with probability {DriftWords.Probability(report.ArrayProbability)}; "
            + $"with permitted losses {DriftWords.Probability(report.WithLossesProbability)}; "
            + $"with {ReadinessWords.FitSpares(report.Spares)} as well {(report.IsWithSparesAtLeast ? "at least " : "")}"
            + DriftWords.Probability(report.WithSparesProbability));
        foreach (var spare in report.Spares)
            to.WriteLine($"  spare {spare.Name} {ReadinessWords.Counts(spare)}");
        if (report.Spares.Count > 0) to.WriteLine($"  {ReadinessWords.HowSparesCount}");
        var common = report.Common;
        if (common.ShiftDb > 0)
            to.WriteLine(
                $"  if microphones of one laboratory and day share a shift of up to {QuantityText.Of(common.ShiftDb, "dB", 3)} (1 sd): "
                + $"{DriftWords.Probability(common.AllHold)}; {DriftWords.Probability(common.WithLosses)}; "
                + $"{DriftWords.Probability(common.WithSpares)}; "
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
}

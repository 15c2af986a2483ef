using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Drift;
using MicRegister.Register.Readiness;
using MicRegister.Register.Settling;
using MicRegister.Register.Tracing;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Shell;

namespace MicRegister.Server.Pages.Start;

/// <summary>One thing that wants doing: by when, what, and where to do it.</summary>
/// <param name="By">Day by which it has to start; null where there is no hurry.</param>
/// <param name="Gravity">How grave it is.</param>
/// <param name="Text">The sentence.</param>
/// <param name="Act">What to do, in a word or two.</param>
/// <param name="Address">Where.</param>
public sealed record Sentence(DateOnly? By, Gravity Gravity, string Text, string Act, string Address)
{
    private const int MostFindings = 100;
    private const int MostWeighed = 5;
    private const long WeighedLongMs = 300 * 86_400_000L;

    /// <summary>What wants doing on a day, most urgent first.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="today">The day.</param>
    /// <param name="siteDay">Day at the site of a campaign, by which it is over or not; null takes the day itself.</param>
    public static IReadOnlyList<Sentence> Of(Register.Register register, DateOnly today, Func<string, DateOnly>? siteDay = null)
    {
        var sentences = new List<Sentence>();
        foreach (var id in register.CampaignIds)
        {
            if (CampaignReadiness.Judge(register, id, today, siteDay?.Invoke(id)) is not { } report) continue;
            sentences.AddRange(report.IsOver ? OfOver(report, today) : OfCampaign(report, today));
            if (!report.IsOver && report.FirstDay <= today) sentences.AddRange(OfField(register, id, report.Name, today));
        }
        var overdue = Due(register, DateOnly.MinValue, today.AddDays(-1));
        if (overdue.Count > 0)
        {
            var those = overdue.Count == 1 ? "One device in service is" : $"{overdue.Count} devices in service are";
            var names = string.Join(", ", overdue.Take(3).Select(d => d.Device.Name)) + (overdue.Count > 3 ? " …" : "");
            sentences.Add(new(
                today, Gravity.Risks, $"{those} overdue for calibration: {names}.", overdue.Count == 1 ? "enter its result" : "look",
                overdue.Count == 1 ? "bench?device=" + overdue[0].Device.Id
                    : FormattableString.Invariant($"fleet?on={today:yyyy-MM-dd}&is=NotReady")));
        }
        // What was found lately and nobody has weighed yet.
        var since = new DateTimeOffset(today.AddDays(-60).ToDateTime(TimeOnly.MinValue), TimeSpan.Zero).ToUnixTimeMilliseconds();
        var unweighed = DoubtBook.All(register).Where(d => d.Settled.Count == 0 && d.ToMs >= since && d.ToMs != long.MaxValue).Take(10);
        sentences.AddRange(unweighed.Select(d => new Sentence(
            null, Gravity.Risks, d.Text + " What was recorded since it was last good is in doubt.", "weigh",
            "doubts/" + Uri.EscapeDataString(d.Key))));
        // What somebody began to weigh is told as long as an event that it touches is open.
        var begun = DoubtBook.All(register).Where(d => d.Settled.Count > 0 && d.ToMs >= since - WeighedLongMs && d.ToMs != long.MaxValue)
            .Take(MostWeighed).Select(d => DoubtReport.Of(register, d))
            .Select(r => (r.Doubt, Touched: r.Touched.Count, Left: r.Unweighed.Count())).Where(r => r.Left > 0);
        sentences.AddRange(begun.Select(r => new Sentence(
            null, Gravity.Risks,
            $"{r.Doubt.Text} Nobody has weighed {r.Left} of the {r.Touched} events that it touches.",
            "weigh", "doubts/" + Uri.EscapeDataString(r.Doubt.Key))));
        var findings = register.Findings(today).GroupBy(f => f.Text).ToList();
        sentences.AddRange(findings.Take(MostFindings).Select(same => new Sentence(null, Gravity.Risks, Counted(same), "look", "journal")));
        if (findings.Count > MostFindings)
            sentences.Add(
                new(null, Gravity.Risks, $"And {findings.Count - MostFindings} more findings in the facts themselves.", "look", "journal"));
        sentences.AddRange(register.DeviceIds.Select(d => register.Device(d)!).Where(d => !d.Contradictions.IsEmpty)
            .Select(d => new Sentence(null, Gravity.Risks, $"{d.Name}: {d.Contradictions[0]}", "settle", "devices/" + d.Id)));
        return
        [
            .. sentences.OrderBy(s => s.By ?? DateOnly.MaxValue).ThenByDescending(s => s.Gravity)
                .ThenBy(s => s.Text, StringComparer.Ordinal),
        ];
    }

    /// <summary>
    /// What was found, once, and how often where it was found of several facts: a chain of corrections may have thousands.
    /// </summary>
    public static string Counted(IGrouping<string, Register.RegisterFinding> same) =>
        same.Count() is > 1 and var n ? $"{same.Key} ({n} times)" : same.Key;

    /// <summary>Devices that fall due in a span: by their certificate, their own interval, or engineering-grade practice.</summary>
    public static IReadOnlyList<(DateOnly Due, DeviceState Device)> Due(Register.Register register, DateOnly from, DateOnly to)
    {
        var due = new List<(DateOnly, DeviceState)>();
        var usual = register.Profile(BuiltInProfiles.Usual);
        var used = register.DeviceIds.Select(d => register.Device(d)!).Where(d => d.Status is DeviceStatus.InService or DeviceStatus.Away);
        foreach (var device in used)
        {
            if (DueDay.Of(device, usual) is { } d && d >= from && d <= to) due.Add((d, device));
        }
        return [.. due.OrderBy(d => d.Item1).ThenBy(d => d.Item2.Name, StringComparer.Ordinal)];
    }

    // Devices by their names; what is said of no device in its own words.
    private static string Which(List<Finding> group)
    {
        var names = group.Select(f => f.DeviceName).OfType<string>().Distinct().ToList();
        var texts = group.Where(f => f.DeviceName is null).Select(f => f.Text.TrimEnd('.')).Distinct().ToList();
        var link = group[0].Clearing switch { Clearing.Plan => " for ", Clearing.Enter => " of ", _ => " " };
        var named = names.Count == 0 ? ""
            : link + string.Join(", ", names.Take(3)) + (names.Count > 3 ? $" and {names.Count - 3} more" : "");
        return named + (texts.Count == 0 ? "" : (names.Count == 0 ? ": " : "; ") + string.Join("; ", texts.Take(3))
            + (texts.Count > 3 ? $"; and {texts.Count - 3} more" : ""));
    }

    private static string Failing(int failing, int stations) => failing switch
    {
        0 => $"none of {stations} stations would fail",
        1 => $"1 of {stations} stations would fail as it stands",
        _ => $"{failing} of {stations} stations would fail as it stands",
    };

    // Who lays out has to know at once: a check that fails, a device that was dropped, a label that nobody knows.
    private static IEnumerable<Sentence> OfField(Register.Register register, string id, string name, DateOnly today)
    {
        var standings = StationStanding.Of(register, register.Campaign(id)!, ArrayDeployment.Of(register, id),
            CheckBook.OfCampaign(register, id));
        return standings.Where(s => s.State == StationState.Failing).Select(s => new Sentence(
            today, Gravity.Stops, $"{name}, {s.Station}: {s.Reasons[0]}", "look",
            $"board/{Uri.EscapeDataString(id)}?station={Uri.EscapeDataString(s.Station)}"));
    }

    // Nobody is asked to make it ready; what its evidence lacks is said for two months.
    private static IEnumerable<Sentence> OfOver(ReadinessReport report, DateOnly today)
    {
        if (report.LastDay.AddDays(60) < today || report.Findings.All(f => f.Gravity == Gravity.Note)) yield break;
        yield return new(null, Gravity.Risks, $"{report.Name}: {ReadinessWords.Over(report)}", "weigh", "campaigns/" + report.Campaign);
    }

    private static IEnumerable<Sentence> OfCampaign(ReadinessReport report, DateOnly today)
    {
        var address = "campaigns/" + report.Campaign;
        var days = report.FirstDay.DayNumber - today.DayNumber;
        var when = days == 1 ? "in 1 day" : days > 0 ? $"in {days} days" : "under way";
        var failing = report.Stations.Count(s => s.Verdict == ReadinessVerdict.NotReady);
        if (report.Verdict == ReadinessVerdict.Ready)
        {
            yield return new(
                report.FirstDay, Gravity.Note, $"{report.Name}, {when}: all {report.Stations.Count} stations are ready.", "look", address);
            yield break;
        }
        if (report.Findings.All(f => f.Gravity == Gravity.Note || f.Rule == CampaignReadiness.ArrayRule))
            yield return new(report.FirstDay, Gravity.Risks,
                $"{report.Name}, {when}: {Words.Verdict(report.Verdict).Word}; "
                    + $"the array holds with probability {DriftWords.Probability(report.WithLossesProbability)}.",
                "look", address);
        var wanting = report.Findings.Where(f => f.Gravity > Gravity.Note && f.Rule != CampaignReadiness.ArrayRule);
        foreach (var group in wanting.GroupBy(f => f.Clearing))
        {
            var first = group.OrderByDescending(f => f.Gravity).First();
            var late = group.Any(f => f.IsTooLate) ? " It is too late for that: swap or change the plan." : "";
            var single = group.Count() == 1;
            yield return new(group.Min(f => f.LatestStart), first.Gravity,
                $"{report.Name}, {when}: {group.Key.InWords}{Which([.. group])}; {Failing(failing, report.Stations.Count)}.{late}",
                single ? WhatClears.Act(first) : group.Key.InWords,
                single ? WhatClears.Address(first, report.Campaign) : WhatClears.Group(group.Key, report.Campaign));
        }
    }
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Work;

/// <summary>What a campaign's findings say of each device that it names.</summary>
internal static class DeviceVerdicts
{
    public static Dictionary<string, DeviceOnDay> Of(Register.Register register, ReadinessReport report)
    {
        // A campaign that is over says nothing of what its devices are fit for.
        if (report.IsOver) return [];
        var verdicts = (register.Campaign(report.Campaign)?.Devices ?? [])
            .Select(id => register.Device(id)?.Id ?? id)
            .Distinct()
            .ToDictionary(id => id, _ => new DeviceOnDay(ReadinessVerdict.Ready, ""));
        foreach (var finding in report.Findings.Where(f => f.Device is not null && f.Gravity > Gravity.Note))
        {
            var verdict = finding.Rule == "newer-facts"
                ? ReadinessVerdict.Undecided
                : finding.Gravity == Gravity.Stops ? ReadinessVerdict.NotReady : ReadinessVerdict.AtRisk;
            if (!verdicts.TryGetValue(finding.Device!, out var known) || verdict > known.Verdict)
                verdicts[finding.Device!] = new(verdict, finding.Text);
        }
        return verdicts;
    }
}

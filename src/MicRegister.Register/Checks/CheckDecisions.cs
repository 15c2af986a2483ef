using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>What people at the desk and at the bench say about checks.</summary>
public static class CheckDecisions
{
    /// <summary>Most checks that are taken at once.</summary>
    public const int MostAtOnce = 1000;

    /// <summary>Records checks: all of them or none.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="entries">At least one.</param>
    /// <param name="today">The day it is: no check is of a later one.</param>
    public static Result<IReadOnlyList<Fact>> Record(Register register, Saying saying, IReadOnlyList<CheckEntry> entries, DateOnly today)
    {
        if (entries.Count is 0 or > MostAtOnce) return Saying.Invalid($"Checks: 1 to {MostAtOnce} are allowed, not {entries.Count}.");
        var facts = new List<Fact>();
        var seen = new HashSet<(string, int)>();
        foreach (var entry in entries)
        {
            var at = saying.Stamp.Occurred;
            if (entry.At is { } text && !Occurred.TryParse(text, out at)) return Saying.Invalid($"{Where(entry)}: time '{text}': allowed is a day such as 2026-05-04 or an instant such as 2026-05-04T10:11:12.000Z.");
            // A site may be a day ahead of UTC.
            if (at.Day > today.AddDays(1) || at.Day.Year < 1950) return Saying.Invalid($"{Where(entry)}: day '{at.Day:yyyy-MM-dd}': allowed is from 1950-01-01 to today, {today:yyyy-MM-dd}.");
            var dated = entry with { At = at.ToString() };
            if (CheckWork.Out(register, dated) is not Result<ChainChecked>.Accepted { Value: var check })
            {
                var why = ((Result<ChainChecked>.Rejected)CheckWork.Out(register, dated)).Why;
                return why with { Text = $"{Where(entry)}: {why.Text}" };
            }
            if (check.Tone is { } tone)
            {
                if (WrongTone(tone) is { } wrong) return Saying.Invalid($"{Where(entry)}: {wrong}");
                if (!seen.Add((tone.Sha256, tone.Channel)) || IsThere(register, check, tone)) return new Rejection(RejectionSort.Conflict, $"{Where(entry)}: channel {tone.Channel} of {tone.File} stands for a check already.");
            }
            string[] subjects = [.. Subjects(register, entry, check)];
            if (facts.Count == 0 && saying.Changed(register, subjects[0]) is { } changed) return changed;
            facts.Add(FactText.WriteDerived(saying.Stamp with { Occurred = at }, check, subjects));
        }
        return new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }

    /// <summary>
    /// Records of a check what alone was written down: by how much the chain lay off its certificates. Without reading and uncertainty
    /// nobody can work with it; it is shown, and no result rests on it.
    /// </summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it, and when it was.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="devices">Ids of the devices of the chain.</param>
    /// <param name="brief">What was written down.</param>
    public static Result<IReadOnlyList<Fact>> RecordBriefly(
        Register register, Saying saying, string campaign, IReadOnlyList<string> devices, ChainCheckedBriefly brief)
    {
        if (register.Campaign(campaign) is not { } state) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (!state.Stations.ContainsKey(brief.Station))
            return Saying.Invalid($"Station '{brief.Station}': {state.Name} has no such station.");
        if (devices.Append(brief.Calibrator).FirstOrDefault(d => register.Device(d) is null) is { } missing)
            return DeviceDecisions.Missing(missing);
        if (register.Device(brief.Calibrator)!.Kind != DeviceKind.Calibrator.Key)
            return Saying.Invalid($"{register.Device(brief.Calibrator)!.Name} is no sound calibrator.");
        return Math.Abs(brief.DeviationDb) <= 60
            ? saying.Of(register, brief, [Subject.Campaign(campaign), .. devices.Select(Subject.Device)])
            : Saying.Invalid(FormattableString.Invariant($"Deviation '{brief.DeviationDb}': allowed is a number from -60 to 60 dB."));
    }

    private static IEnumerable<string> Subjects(Register register, CheckEntry entry, ChainChecked check)
    {
        if (entry.Campaign is { } campaign) yield return Subject.Campaign(campaign);
        foreach (var device in check.Devices) yield return Subject.Device(device);
        yield return Subject.Device(check.Calibrator);
        foreach (var other in new[] { check.Adapter, check.Barometer, check.Meter }.OfType<string>().Distinct(StringComparer.Ordinal))
            yield return Subject.Device(register.Device(other)!.Id);
    }

    private static bool IsThere(Register register, ChainChecked check, RecordedTone tone) =>
        CheckBook.OfDevice(register, check.Devices[0]).Any(c => c.Check.Tone is { } other && other.Sha256 == tone.Sha256 && other.Channel == tone.Channel);

    private static string? WrongTone(RecordedTone tone) =>
        tone.Sha256.Length != 64 || !tone.Sha256.All(char.IsAsciiHexDigitLower) ? $"SHA-256 '{tone.Sha256}': 64 small hexadecimal digits are allowed."
        : tone.File.Length is 0 or > 300 ? "The recording's name has 1 to 300 characters."
        : tone.Bytes < 0 || tone.Channel is < 1 or > 1024 ? $"Channel '{tone.Channel}' of {tone.Bytes} bytes: allowed are channels from 1 to 1024."
        : null;

    private static string Where(CheckEntry entry) => entry.Station is { } station ? $"Station {station}" : "Check";
}

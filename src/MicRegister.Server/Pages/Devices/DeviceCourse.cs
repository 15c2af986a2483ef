using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Pages.Devices;

/// <summary>One thing in the course of a device: where it was, or what was done with it.</summary>
/// <param name="Day">Its day; that of <see cref="Occurred.Unknown"/> where nobody stated one.</param>
/// <param name="What">In a word or two.</param>
/// <param name="Text">More of it; empty where there is no more.</param>
/// <param name="Address">Where more of it stands; null where it has no page.</param>
public sealed record CourseRow(DateOnly Day, string What, string Text, string? Address = null)
{
    /// <summary>The day as people read it.</summary>
    public string DayText => Day == Occurred.Unknown.Day ? "not known" : FormattableString.Invariant($"{Day:yyyy-MM-dd}");
}

/// <summary>The course of a device in the order of time: campaigns, stations, places, states, inspections, work and notes.</summary>
public static class DeviceCourse
{
    /// <summary>All of it, the newest first; what has no day last.</summary>
    public static IReadOnlyList<CourseRow> Of(Register.Register register, DeviceState device) =>
        [.. Planned(register, device).Concat(Placed(register, device)).Concat(Said(device))
            .OrderByDescending(r => r.Day == Occurred.Unknown.Day ? DateOnly.MinValue : r.Day)];

    private static IEnumerable<CourseRow> Planned(Register.Register register, DeviceState device)
    {
        var entries = register.EntriesOf(device.Id);
        foreach (var campaign in register.CampaignIds.Select(id => register.Campaign(id)!))
        {
            if (campaign.Plan is not { } plan || !entries.Any(campaign.Devices.Contains)) continue;
            List<string> stations = [.. campaign.Chains.Where(c => entries.Any(id => c.Value.Contains(id))).Select(c => c.Key)];
            var at = stations.Count > 0 ? "station " + string.Join(", ", stations) : "goes along, at no station";
            var query = stations.Count > 0 ? "?station=" + Uri.EscapeDataString(stations[0]) : "";
            yield return new(
                plan.FirstDay, "planned for " + campaign.Name, FormattableString.Invariant($"{at}, through {plan.LastDay:yyyy-MM-dd}"),
                $"campaigns/{Uri.EscapeDataString(campaign.Id)}{query}");
        }
    }

    private static IEnumerable<CourseRow> Placed(Register.Register register, DeviceState device) =>
        DeploymentFindings.OfDevice(register, device.Id).Reverse().Select(p => new CourseRow(
            p.Occurred.Day, "placed at " + p.Station,
            $"{register.Campaign(p.Campaign)?.Name ?? p.Campaign}, {p.Occurred.Minute}{End(p)}",
            $"board/{Uri.EscapeDataString(p.Campaign)}?station={Uri.EscapeDataString(p.Station)}"));

    private static string End(Placement p)
    {
        if (p.Until is not { } until) return ", stands";
        var minute = Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(until)).Minute;
        return p.End switch
        {
            PlacementEnd.TakenIn => ", taken in " + minute,
            PlacementEnd.Swapped => ", a part was swapped " + minute,
            PlacementEnd.PlacedAnew => ", another chain stood there from " + minute,
            _ => ", never said to be taken in",
        };
    }

    private static IEnumerable<CourseRow> Said(DeviceState device) =>
    [
        .. device.Statuses.Reverse().Select(s => new CourseRow(s.Day, s.What.Status.InWords, s.What.Reason ?? "")),
        .. device.Places.Reverse().Select(p => new CourseRow(p.Day, "moved", p.What.Place)),
        .. device.Inspections.Reverse().Select(i => new CourseRow(
            i.Day, i.What.Passed ? "inspected: passed" : "inspected: failed", Found(i.What),
            i.What.Attachment is { } sha ? "api/attachments/" + sha : null)),
        .. device.Services.Reverse().Select(w => new CourseRow(
            w.Day, w.What.What.InWords, w.What.Text + (w.What.BeginsAnew ? " Results begin anew with it." : ""))),
        .. device.Notes.Reverse().Select(n => new CourseRow(n.Day, "note", n.What.Text)),
    ];

    private static string Found(DeviceInspected seen) => string.Join(", ", new[]
    {
        seen.FlushStepMm is { } step ? $"step {QuantityText.Of(step, "mm")}" : null,
        seen.GapMm is { } gap ? $"gap {QuantityText.Of(gap, "mm")}" : null,
        seen.FlatnessMm is { } flat ? $"out of flat {QuantityText.Of(flat, "mm")}" : null,
        seen.StateInWords is { Length: > 0 } state ? state : null,
        string.IsNullOrEmpty(seen.Text) ? null : seen.Text,
    }.OfType<string>());
}

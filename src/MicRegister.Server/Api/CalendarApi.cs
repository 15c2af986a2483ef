using System.Text;
using MicRegister.Documents.Exports;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Settings;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Due days, shipments and campaigns as a calendar that other programs follow.</summary>
internal static class CalendarApi
{
    private const string Product = "-//MicRegister//register of measurement microphones//EN";
    private const string OpenSecret = "here";

    public static void Map(IEndpointRouteBuilder app) =>
        app.MapGet("/calendar/{secret}.ics", (Desk desk, HttpContext context, TimeProvider time, string secret) =>
        {
            // Where there is no sign-in, this machine alone asks; elsewhere the address is the key.
            if (!desk.Access.IsOpen && desk.Access.Book?.FindToken(secret) is not { Token.Duties: Duties.None })
                return Answers.NotFound("There is no such calendar: its address was revoked, or never was one.");
            if (desk.Access.IsOpen && secret != OpenSecret) return Answers.NotFound("There is no such calendar.");
            context.Response.Headers.CacheControl = "private, max-age=900";
            return Results.Text(
                CalendarFeed.Write(
                    Entries(desk.Now, desk.Today), desk.Now.State.Founded?.Name ?? "Register", Product, time.GetUtcNow()),
                "text/calendar", Encoding.UTF8);
        }).ExcludeFromDescription().AsOfNowAlone("A calendar is of the days around now.");

    /// <summary>What stands in the calendar, of the last year and the next two.</summary>
    internal static IReadOnlyList<CalendarEntry> Entries(Register.Register register, DateOnly today)
    {
        var entries = new List<CalendarEntry>();
        var (from, to) = (today.AddYears(-1), today.AddYears(2));
        foreach (var id in register.CampaignIds)
        {
            if (register.Campaign(id) is not { Plan: { } plan } campaign || plan.LastDay < from || plan.FirstDay > to) continue;
            entries.Add(new(
                $"campaign-{id}@register", plan.FirstDay, plan.LastDay, campaign.Name,
                $"{plan.Site}, {campaign.Stations.Count} stations", "campaign", null, null));
            // What goes to a laboratory before it has to leave by then.
            var leave = plan.FirstDay.AddDays(-(register.State.Settings.LaboratoryDays + (2 * register.State.Settings.ShippingDays)));
            entries.Add(new(
                $"shipment-{id}@register", leave, leave, $"Last day to send devices to a laboratory for {campaign.Name}",
                FormattableString.Invariant(
                    $"{register.State.Settings.LaboratoryDays} days there, {register.State.Settings.ShippingDays} days each way"),
                "shipment", null, null));
        }
        var profile = register.Profile(BuiltInProfiles.Usual);
        var dueByDay = register.DeviceIds.Select(id => register.Device(id)!)
            .Where(d => d.Status is DeviceStatus.InService or DeviceStatus.Away)
            .Select(d => (Device: d, Due: DueDay.Of(d, profile)))
            .Where(d => d.Due is { } day && day >= from && day <= to)
            .GroupBy(d => d.Due!.Value).OrderBy(g => g.Key);
        foreach (var due in dueByDay)
        {
            // One entry a day: a fleet has hundreds of them.
            List<string> names = [.. due.Select(d => d.Device.Name).Order(StringComparer.Ordinal)];
            entries.Add(new(
                $"due-{due.Key:yyyyMMdd}@register", due.Key, due.Key,
                names.Count == 1 ? $"Due: {names[0]}" : $"Due: {names.Count} devices", string.Join("\n", names), "due", null, null));
        }
        var devicesAway = register.DeviceIds.Select(id => register.Device(id)!)
            .Where(d => d.Status == DeviceStatus.Away && d.Statuses.Length > 0);
        foreach (var away in devicesAway)
        {
            entries.Add(new(
                $"away-{away.Id}@register", away.Statuses[^1].Day, away.Statuses[^1].Day, $"Away: {away.Name}", away.Place,
                "shipment", null, null));
        }
        return entries;
    }
}

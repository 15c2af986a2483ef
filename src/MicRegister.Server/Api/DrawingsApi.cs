using MicRegister.Documents.Drawings;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Drawings as SVG and PDF files: the array of a campaign, the history of a device.</summary>
internal static class DrawingsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/campaigns/{id}/map.{format}", (Desk desk, string id, string format) => desk.Now.Campaign(id) is { } campaign
            ? Painted(ArrayMap.Of(campaign, desk.Judge(desk.Now, id)?.Stations.ToDictionary(s => s.Station, s => s.Verdict) ?? []), format)
            : Answers.NotFound($"There is no campaign {id}.")).WithTags("drawings");
        app.MapGet("/api/devices/{id}/history.{format}", History).WithTags("drawings");
        app.MapGet("/api/devices/{id}/checks.{format}", (Desk desk, string id, string format) =>
            desk.Now.Device(id) is not { } device
                ? Answers.NotFound($"There is no device {id}.")
            : CheckChart.Of(device.Name, Register.Checks.CheckHistory.Of(desk.Now, device.Id)) is { } chart
                ? Painted(chart, format)
            : Answers.NotFound($"{device.Name} has no check that compares with its certificates.")).WithTags("drawings");
    }

    private static IResult History(Desk desk, string id, string format, double? limitDb, DateOnly? until)
    {
        if (limitDb is { } l && !(l is > 0 and <= 100))
            return Answers.Invalid($"Limit '{limitDb}': allowed is a number above 0 up to 100 dB.");
        if (until is { } day && (day.Year > desk.Today.Year + 50))
            return Answers.Invalid($"Until '{until:yyyy-MM-dd}': allowed is a day of the next 50 years.");
        if (desk.Now.Device(id) is not { } device) return Answers.NotFound($"There is no device {id}.");
        var limit = limitDb ?? desk.Now.Profile(BuiltInProfiles.Usual)?.Value(LimitKey.DriftDb);
        return desk.Now.Drift(desk.Today).Of(device.Id) is { } drift
            ? Painted(HistoryPlot.Of(drift, View(desk.Now, device.Id, until ?? desk.Today.AddYears(1), limit)), format)
            : Answers.NotFound($"{device.Name} has no result with an uncertainty.");
    }

    /// <summary>What stands beside a device's results: its campaigns and its checks in the field.</summary>
    public static HistoryView View(Register.Register register, string device, DateOnly until, double? limitDb) => new(
        until, limitDb,
        [.. register.CampaignIds.Select(c => register.Campaign(c)!)
            .Where(c => c.Plan is not null && register.EntriesOf(device).Any(c.Devices.Contains))
            .Select(c => (c.Name, c.Plan!.FirstDay, c.Plan.LastDay)).OrderBy(c => c.FirstDay)],
        FieldCheck.Of(register, device));

    internal static IResult Painted(Drawing drawing, string format)
    {
        switch (format)
        {
            case "svg":
                return Results.Text(SvgPainter.Paint(drawing), "image/svg+xml");
            case "pdf":
                using (var content = new MemoryStream())
                {
                    PdfPainter.Paint(drawing, content);
                    return Results.Bytes(content.ToArray(), "application/pdf");
                }

            default:
                return Answers.NotFound($"Drawings come as svg and pdf, not as {format}.");
        }
    }
}

using MicRegister.Documents.Drawings;
using MicRegister.Register.Campaigns;

namespace MicRegister.Server.Api;

/// <summary>Drawings as SVG files: the array of a campaign, the history of a device.</summary>
internal static class DrawingsApi
{
    private const string Svg = "image/svg+xml";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/campaigns/{id}/map.svg", (Desk desk, string id) => desk.Now.Campaign(id) is { } campaign
            ? Results.Text(SvgPainter.Paint(ArrayMap.Of(campaign, desk.Judge(desk.Now, id)?.Stations.ToDictionary(s => s.Station, s => s.Verdict) ?? [])), Svg)
            : Answers.NotFound($"There is no campaign {id}.")).WithTags("drawings");
        app.MapGet("/api/devices/{id}/history.svg", (Desk desk, string id, double? limitDb, DateOnly? until) => limitDb is { } l && !(l is > 0 and <= 100) ? Answers.Invalid($"Limit '{limitDb}': allowed is a number above 0 up to 100 dB.")
            : desk.Now.Device(id) is not { } device
            ? Answers.NotFound($"There is no device {id}.")
            : HistoryPlot.Of(device, limitDb ?? desk.Now.Profile(BuiltInProfiles.Usual)?.Value(LimitKey.DriftDb), until ?? desk.Today.AddYears(1)) is { } plot
                ? Results.Text(SvgPainter.Paint(plot), Svg)
                : Answers.NotFound($"{device.Name} has no result with an uncertainty.")).WithTags("drawings");
    }
}

using MicRegister.Register.Campaigns;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Mvc;

namespace MicRegister.Server.Api;

/// <summary>Which mount suits a source and a band: by the model, by practice, and of a campaign's own stations.</summary>
internal static class MountsApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var mounts = app.MapGroup("/api/mounts").WithTags("mounts");
        mounts.MapGet("", (Desk desk, [AsParameters] MountParameters asked) =>
            Answer(desk, asked, sheet => Results.Ok(MountsView.Of(sheet)))).Produces<MountsView>();
        mounts.MapGet("/table.{format}", (HttpContext context, Desk desk, string format, [AsParameters] MountParameters asked) =>
            Answer(desk, asked, sheet => Tables.Answer(
                context, desk, sheet.Table(Provenance.Of(desk, desk.Now)), format, Name(asked, "mounts"))));
        mounts.MapGet("/plot.{format}", (Desk desk, string format, [AsParameters] MountParameters asked) =>
            Answer(desk, asked, sheet => sheet.Plot is { } plot
                ? DrawingsApi.Painted(plot, format)
                : Answers.NotFound("There is no mount to draw.")));
    }

    private static IResult Answer(Desk desk, MountParameters asked, Func<MountSheet, IResult> tell)
    {
        if (asked.ToAsk().Of(desk.Now) is not { } sheet) return Answers.NotFound($"There is no campaign {asked.Campaign} with a plan.");
        return sheet.Faults.Count > 0 ? Answers.Invalid(string.Join(' ', sheet.Faults.Select(f => f.Text))) : tell(sheet);
    }

    private static string Name(MountParameters asked, string what) => asked.Campaign is { } id ? $"{what}-{id}" : what;
}

/// <summary>What is asked; what is left out is taken from the campaign, or is usual.</summary>
/// <param name="Campaign">Id of a campaign: its own mounts, heights, band and profile.</param>
/// <param name="Mount">One mount alone.</param>
/// <param name="HeightM">Height of the diaphragm over ground or plate in m, of the mount that is named.</param>
/// <param name="Source">What flies.</param>
/// <param name="FromHz">Lower end of the band in Hz.</param>
/// <param name="ToHz">Upper end of the band in Hz.</param>
/// <param name="ToleranceDb">Allowed deviation in dB from the level that a mount is meant to have.</param>
/// <param name="ElevationDeg">Elevation of the source over the horizon in °; 90 is overhead.</param>
/// <param name="TemperatureC">Temperature of the air in °C.</param>
/// <param name="ColdC">Lowest temperature that is looked at beside it.</param>
/// <param name="WarmC">Highest.</param>
/// <param name="Reflection">What the ground returns of the sound pressure, from 0 to 1.</param>
/// <param name="HeightOffMm">How far heights may be off, in mm.</param>
internal sealed record MountParameters(
    [FromQuery(Name = "campaign")] string? Campaign,
    [FromQuery(Name = "mount")] Word<Mount>? Mount,
    [FromQuery(Name = "heightM")] double? HeightM,
    [FromQuery(Name = "source")] Word<SourceClass>? Source,
    [FromQuery(Name = "fromHz")] double? FromHz,
    [FromQuery(Name = "toHz")] double? ToHz,
    [FromQuery(Name = "toleranceDb")] double? ToleranceDb,
    [FromQuery(Name = "elevationDeg")] double? ElevationDeg,
    [FromQuery(Name = "temperatureC")] double? TemperatureC,
    [FromQuery(Name = "coldC")] double? ColdC,
    [FromQuery(Name = "warmC")] double? WarmC,
    [FromQuery(Name = "reflection")] double? Reflection,
    [FromQuery(Name = "heightOffMm")] double? HeightOffMm)
{
    public MountAsk ToAsk() => new()
    {
        Campaign = Campaign,
        Mount = Mount?.Value,
        HeightM = HeightM,
        Source = Source?.Value,
        FromHz = FromHz,
        ToHz = ToHz,
        ToleranceDb = ToleranceDb,
        ElevationDeg = ElevationDeg,
        TemperatureC = TemperatureC,
        ColdC = ColdC,
        WarmC = WarmC,
        Reflection = Reflection,
        HeightOffMm = HeightOffMm,
    };
}

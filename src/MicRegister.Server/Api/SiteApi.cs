using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Server.Imports;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Where stations are as surveyed, and the weather at the site.</summary>
internal static class SiteApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var of = app.MapGroup("/api/campaigns/{id}").WithTags("site");
        of.MapGet("/surveys", (Desk desk, string id, int? offset, int? limit) => desk.Now.Campaign(id) is { } campaign
            ? Answers.Paged([.. campaign.Stations.Keys], offset, limit, s => PlaceView.Of(campaign.PlaceOf(s)!))
            : Missing(id)).Produces<Page<PlaceView>>();
        of.MapPost("/surveys", (HttpContext c, Desk desk, string id, StationSurveyed[] body) => Answers.Submit(
            c, desk, (r, s) => CampaignDecisions.Survey(r, s, id, body)));
        of.MapPost("/surveys/table", TakeSurveys).WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(SiteFiles.MostBytes));
        of.MapGet("/weather", (Desk desk, string id, int? offset, int? limit) => desk.Now.Campaign(id) is not null
            ? Answers.Paged(WeatherLog.Of(desk.Now, id).Samples, offset, limit, WeatherView.Of)
            : Missing(id)).Produces<Page<WeatherView>>();
        of.MapPost("/weather", (HttpContext c, Desk desk, string id, NewWeather body) => Answers.Submit(
            c, desk, (r, s) => body.Note(r, s, id)));
        of.MapPost("/weather/table", TakeWeather).WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(SiteFiles.MostBytes));
    }

    private static async Task<IResult> TakeSurveys(HttpContext context, Desk desk, string id, string? method)
    {
        if (desk.Now.Campaign(id) is null) return Missing(id);
        using var content = await Content(context);
        SurveyTable table;
        try
        {
            table = SiteFiles.Surveys(content, "The table", method);
        }
        catch (SheetException e)
        {
            return Answers.Invalid(e.Message);
        }
        return table.Bad.Count > 0
            ? Wrong(table.Bad)
            : await Answers.Submit(context, desk, (r, s) => CampaignDecisions.Survey(r, s, id, table.Good));
    }

    private static async Task<IResult> TakeWeather(HttpContext context, Desk desk, string id, string? zone, string? file, string? remark)
    {
        if (desk.Now.Campaign(id) is not { } campaign) return Missing(id);
        using var content = await Content(context);
        WeatherLogged logged;
        IReadOnlyList<BadFieldRow> bad;
        try
        {
            (logged, bad) = SiteFiles.Weather(content, file ?? "weather.csv", zone, campaign.Plan?.Offsets ?? [], remark);
        }
        catch (SheetException e)
        {
            return Answers.Invalid(e.Message);
        }
        return bad.Count > 0 ? Wrong(bad) : await Answers.Submit(context, desk, (r, s) => DeploymentDecisions.LogWeather(r, s, id, logged));
    }

    private static async Task<MemoryStream> Content(HttpContext context)
    {
        var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        return content;
    }

    private static IResult Wrong(IReadOnlyList<BadFieldRow> bad) => Results.Problem(
        SiteFiles.InWords(bad), statusCode: StatusCodes.Status422UnprocessableEntity, title: "Not accepted",
        extensions: new Dictionary<string, object?> { ["rows"] = bad });

    private static IResult Missing(string id) => Answers.NotFound($"There is no campaign {id}.");

    internal sealed record NewWeather(
        string? At, double? WindFromDeg, double? WindMs, double? TemperatureC, double? HumidityPercent, double? PressureKPa)
    {
        public Result<IReadOnlyList<Fact>> Note(Register.Register register, Saying saying, string campaign)
        {
            var weather = new WeatherNoted(WindFromDeg, WindMs, TemperatureC, HumidityPercent, PressureKPa);
            if (At is null) return DeploymentDecisions.NoteWeather(register, saying, campaign, weather);
            if (!Occurred.TryParse(At, out var at) || !at.IsInstant)
                return new Rejection(RejectionSort.Invalid, $"At '{At}': allowed is an instant in UTC such as 2026-05-04T10:11:12.000Z.");
            return DeploymentDecisions.NoteWeather(register, saying with { Stamp = saying.Stamp with { Occurred = at } }, campaign, weather);
        }
    }
}

/// <summary>Where a station is.</summary>
/// <param name="Station">Its name.</param>
/// <param name="LatitudeDeg">WGS84 latitude, as surveyed where it was, otherwise as planned.</param>
/// <param name="LongitudeDeg">WGS84 longitude.</param>
/// <param name="PlaceBy">surveyed or planned.</param>
/// <param name="HeightM">Height of the diaphragm over ground or plate; null is the mount's usual one.</param>
/// <param name="HeightBy">surveyed, planned or usual.</param>
/// <param name="OffPlanM">How far the survey lies from the plan.</param>
/// <param name="Survey">The survey in force; null where it was not surveyed.</param>
public sealed record PlaceView(
    string Station, double LatitudeDeg, double LongitudeDeg, string PlaceBy, double? HeightM, string HeightBy, double? OffPlanM,
    StationSurvey? Survey)
{
    public static PlaceView Of(StationPlace p) =>
        new(p.Plan.Station, p.LatitudeDeg, p.LongitudeDeg, p.PlaceBy, p.HeightM, p.HeightBy, p.OffPlanM, p.Survey);
}

/// <summary>The weather at one instant.</summary>
/// <param name="At">When.</param>
/// <param name="Fact">Id of the fact that says so.</param>
/// <param name="WindFromDeg">Direction that the wind comes from, in ° clockwise from north.</param>
/// <param name="WindMs">Its speed in m/s.</param>
/// <param name="GustMs">Its greatest speed in m/s.</param>
/// <param name="TemperatureC">Temperature in °C.</param>
/// <param name="HumidityPercent">Relative humidity in %.</param>
/// <param name="PressureKPa">Static pressure at the place in kPa.</param>
public sealed record WeatherView(
    DateTimeOffset At, string Fact, double? WindFromDeg, double? WindMs, double? GustMs, double? TemperatureC, double? HumidityPercent,
    double? PressureKPa)
{
    public static WeatherView Of(WeatherSample s) => new(
        DateTimeOffset.FromUnixTimeMilliseconds(s.Instant), s.Fact.ToString(), s.Said.WindFromDeg, s.Said.WindMs, s.GustMs,
        s.Said.TemperatureC, s.Said.HumidityPercent, s.Said.PressureKPa);
}

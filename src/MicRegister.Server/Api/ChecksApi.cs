using MicRegister.Documents.DataSheets;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Checks of chains with calibrators, couplings, and devices' own data sheets.</summary>
internal static class ChecksApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var checks = app.MapGroup("/api/checks").WithTags("checks");
        checks.MapPost("/", (HttpContext c, Desk desk, NewChecks body) => Answers.Submit(
            c, desk, (r, s) => CheckDecisions.Record(r, s, body.Checks, desk.Today)));
        checks.MapPost("/work-out", WorkOut).Produces<CheckView>();
        checks.MapPost("/again", (HttpContext c, Desk desk, ChecksAgain body) => Answers.Submit(
            c, desk, (r, s) => CheckRework.State(r, s, body.Checks)));
        app.MapGet("/api/campaigns/{id}/checks/superseded", (Desk desk, string id) => desk.Now.Campaign(id) is null
            ? Answers.NotFound($"There is no campaign {id}.")
            : Results.Ok(CheckRework.Of(desk.Now, CheckBook.OfCampaign(desk.Now, id)).Select(ReworkedView.Of)))
            .Produces<IReadOnlyList<ReworkedView>>().WithTags("checks");
        app.MapGet("/api/campaigns/{id}/checks", OfCampaign).Produces<Page<CheckView>>().WithTags("checks");
        app.MapGet("/api/devices/{id}/checks", OfDevice).Produces<DeviceChecksView>().WithTags("checks");
        app.MapGet("/api/devices/{id}/couplings", (Desk desk, string id) => desk.Now.Device(id) is { } device
            ? Results.Ok(Coupling.InForce(device))
            : Answers.NotFound($"There is no device {id}.")).Produces<IReadOnlyList<Dated<CouplingStated>>>().WithTags("checks");
        app.MapPost("/api/devices/{id}/couplings", (HttpContext c, Desk desk, string id, CouplingStated body) => Answers.Submit(
            c, desk, (r, s) => Coupling.State(r, s, id, body), r => r.Device(id))).WithTags("checks");
        app.MapPost("/api/data-sheets", (Desk desk, NewDataSheet body) => ReadDataSheet(desk, body.Hex))
            .Produces<DataSheetView>().WithTags("devices");
    }

    private static IResult WorkOut(Desk desk, CheckEntry body)
    {
        if (CheckWork.Out(desk.Now, body) is not Result<ChainChecked>.Accepted { Value: var check })
            return Answers.Of(((Result<ChainChecked>.Rejected)CheckWork.Out(desk.Now, body)).Why);
        var (days, profile) = CheckView.Tried(desk.Now, body.Campaign, [(body, check)], desk.Say("Desk").Stamp.Occurred);
        var day = days[0];
        return Results.Ok(CheckView.Of(desk.Now, day.Checks.First(j => ReferenceEquals(j.Record.Check, check)), day, profile));
    }

    private static IResult OfCampaign(HttpContext context, Desk desk, string id, DateOnly? day, int? offset, int? limit)
    {
        if (desk.Now.Campaign(id) is null) return Answers.NotFound($"There is no campaign {id}.");
        var profile = CheckView.ProfileOf(desk.Now, id);
        var days = CheckDay.Of(CheckBook.OfCampaign(desk.Now, id), profile).Where(d => day is null || d.Day == day);
        return Answers.Paged([.. days.SelectMany(d => d.Checks.Select(j => CheckView.Of(desk.Now, j, d, profile)))], offset, limit);
    }

    private static IResult OfDevice(HttpContext context, Desk desk, string id)
    {
        if (desk.Now.Device(id) is not { } device) return Answers.NotFound($"There is no device {id}.");
        return Answers.Read(
            context, Desk.Tag(desk.Now.Version(Subject.Device(device.Id))),
            () => Results.Ok(DeviceChecksView.Of(CheckHistory.Of(desk.Now, device.Id))));
    }

    private static IResult ReadDataSheet(Desk desk, string hex)
    {
        try
        {
            return Results.Ok(DataSheetView.Of(desk.Now, DataSheetMemory.ReadHex(hex)));
        }
        catch (FormatException e)
        {
            return Answers.Invalid(e.Message);
        }
    }

    internal sealed record NewChecks(IReadOnlyList<CheckEntry> Checks);

    internal sealed record ChecksAgain(IReadOnlyList<string> Checks);

    internal sealed record NewDataSheet(string Hex);
}

/// <summary>The checks of one device with what its charts say.</summary>
/// <param name="MeanDb">Centre of the chart of single values; null under six checks.</param>
/// <param name="LowerDb">Its lower limit.</param>
/// <param name="UpperDb">Its upper limit.</param>
/// <param name="Points">Oldest first.</param>
public sealed record DeviceChecksView(double? MeanDb, double? LowerDb, double? UpperDb, IReadOnlyList<DeviceChecksView.Point> Points)
{
    public static DeviceChecksView Of(CheckHistory h) => new(h.Individuals?.Mean, h.Individuals?.Lower, h.Individuals?.Upper,
        [.. h.Points.Select(p => new Point(
            p.Record.Fact.ToString(), p.Record.Day, p.Record.Check.Moment, p.Record.Campaign, p.Record.Check.Station, p.DeviationDb,
            p.CommonDb, p.OwnDb, p.Average?.Average, p.Average?.Lower, p.Average?.Upper, p.Alarms))]);

    /// <summary>One check; averages are null under six checks.</summary>
    public sealed record Point(
        string Fact, DateOnly Day, CheckMoment Moment, string? Campaign, string? Station, double DeviationDb, double? CommonDb,
        double OwnDb, double? AverageDb, double? AverageLowerDb, double? AverageUpperDb, IReadOnlyList<string> Alarms);
}

/// <summary>What a data sheet memory says, and which devices it may be.</summary>
/// <param name="Manufacturer">Number of the manufacturer.</param>
/// <param name="Model">Model number.</param>
/// <param name="Version">Version letter and number.</param>
/// <param name="Serial">Serial number.</param>
/// <param name="Template">Number of the template that follows; it is named, not read.</param>
/// <param name="Devices">Devices with that serial number, leading noughts aside.</param>
public sealed record DataSheetView(
    int Manufacturer, int Model, string Version, int Serial, int? Template, IReadOnlyList<DataSheetView.Found> Devices)
{
    /// <summary>Signs that the memory follows a draft with another basic block, so that none of this may be true.</summary>
    public IReadOnlyList<string> Signs { get; init; } = [];

    /// <summary>What has to be known of every memory.</summary>
    public string Caution { get; } = DataSheetMemory.Caution;

    public static DataSheetView Of(Register.Register register, DataSheetMemory memory)
    {
        var serial = memory.Serial.ToString(System.Globalization.CultureInfo.InvariantCulture);
        return new(memory.Manufacturer, memory.Model, $"{memory.VersionLetter}{memory.VersionNumber}", memory.Serial, memory.Template,
            [.. register.DeviceIds.Select(id => register.Device(id)!)
                .Where(d => d.Serial?.Trim().TrimStart('0') == serial)
                .Select(d => new Found(d.Id, d.Name, d.Kind))])
        { Signs = memory.Signs };
    }

    /// <summary>A device of the register.</summary>
    public sealed record Found(string Id, string Name, string? Kind);
}

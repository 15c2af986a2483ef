using MicRegister.Documents.Exports;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>The register as tables that an import takes back: each by itself, one workbook of all, and one of a campaign.</summary>
internal static class FleetApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var fleet = app.MapGroup("/api/fleet").WithTags("fleet");
        fleet.MapGet("/register.xlsx", (Desk desk, CancellationToken cancel) =>
        {
            var register = desk.Now;
            var tables = FleetTables.Of(register, desk.Today, Provenance.Of(desk, register), cancel: cancel);
            return Workbook(desk, tables, "Register", "register");
        });
        foreach (var name in FleetTables.OfDevices)
        {
            fleet.MapGet($"/{name}.{{format}}", (
                HttpContext context, Desk desk, FleetView view, string format, string? q, string? kind, string? place, string? model,
                Word<DeviceStatus>? status, CancellationToken cancel) =>
            {
                if (kind is not null && DeviceKind.Find(kind) is null)
                    return Answers.Invalid($"Kind '{kind}': allowed are {string.Join(", ", DeviceKind.All.Select(k => k.Key))}.");
                HashSet<string>? ids = (q, kind, place, model, status) is (null, null, null, null, null)
                    ? null
                    : [.. view.Find(desk.Now, q, kind, place, status?.Value, model).Select(r => r.Id)];
                return One(context, desk, name, format, ids, null, name, cancel);
            });
        }
        foreach (var name in FleetTables.OfCampaigns)
        {
            fleet.MapGet($"/{name}.{{format}}", (
                HttpContext context, Desk desk, string format, string? campaign, CancellationToken cancel) =>
                campaign is not null && desk.Now.Campaign(campaign) is null
                    ? Answers.NotFound($"There is no campaign {campaign}.")
                    : One(context, desk, name, format, null, campaign, campaign is null ? name : $"{campaign}-{name}", cancel));
        }
        foreach (var name in FleetTables.All.Except(FleetTables.OfDevices).Except(FleetTables.OfCampaigns))
        {
            fleet.MapGet($"/{name}.{{format}}", (HttpContext context, Desk desk, string format, CancellationToken cancel) =>
                One(context, desk, name, format, null, null, name, cancel));
        }
        app.MapGet("/api/campaigns/{id}/plan.{format}", Plan).WithTags("campaigns");
    }

    // As a workbook all of it; as comma-separated values the stations with their chains, which is what a plan is looked at for.
    private static IResult Plan(HttpContext context, Desk desk, string id, string format, CancellationToken cancel)
    {
        var register = desk.Now;
        if (register.Campaign(id) is not { } campaign) return Answers.NotFound($"There is no campaign {id}.");
        return format == "xlsx"
            ? Workbook(
                desk, FleetTables.Of(register, desk.Today, Provenance.Of(desk, register), FleetTables.OfCampaigns, null, id, cancel),
                campaign.Name, id + "-plan")
            : One(context, desk, "stations", format, null, id, id + "-plan", cancel);
    }

    private static IResult One(
        HttpContext context, Desk desk, string name, string format, IReadOnlySet<string>? devices, string? campaign, string file,
        CancellationToken cancel)
    {
        var register = desk.Now;
        var tables = FleetTables.Of(register, desk.Today, Provenance.Of(desk, register), [name], devices, campaign, cancel);
        return Tables.Answer(context, desk, tables.Tables[0].Table, format, file);
    }

    private static IResult Workbook(Desk desk, FleetTables tables, string title, string file)
    {
        using var content = new MemoryStream();
        XlsxExport.Write(tables.Tables, title, tables.Left.InWords, Provenance.Of(desk, desk.Now), content);
        return Results.Bytes(content.ToArray(), Tables.Workbook, file + ".xlsx");
    }
}

using System.Runtime.CompilerServices;
using System.Text.Json;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;

namespace MicRegister.Server.Api;

/// <summary>Devices: find, read, enter, describe, move, state of use, notes, work, inspections, joining.</summary>
internal static class DevicesApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        var devices = app.MapGroup("/api/devices").WithTags("devices");
        devices.MapGet("/", List).Produces<Page<FleetRow>>();
        devices.MapPost("/", (HttpContext c, Desk desk, NewDevice body) => Answers.Submit(
            c, desk,
            (r, s) => DeviceDecisions.Register(r, s, body.Kind, body.Maker, body.Model, body.Serial, body.Details ?? [])));
        devices.MapGet("/{id}", Read).Produces<DeviceView>();
        devices.MapPatch("/{id}", (HttpContext c, Desk desk, string id, DeviceChange body) => Answers.Submit(
            c, desk, (r, s) => DeviceDecisions.Describe(r, s, id, body.Set ?? [], body.Clear ?? []), r => View(r, id)));
        devices.MapPost("/{id}/places", (HttpContext c, Desk desk, string id, DeviceMoved body) => Answers.Submit(
            c, desk, (r, s) => DeviceDecisions.Move(r, s, id, body.Place), r => View(r, id)));
        devices.MapPost("/{id}/statuses", (HttpContext c, Desk desk, string id, DeviceStatusChanged body) => Answers.Submit(
            c, desk, (r, s) => DeviceDecisions.ChangeStatus(r, s, id, body.Status, body.Reason), r => View(r, id)));
        devices.MapPost("/{id}/notes", (HttpContext c, Desk desk, string id, DeviceNoted body) => Answers.Submit(
            c, desk, (r, s) => DeviceDecisions.Note(r, s, id, body.Text), r => View(r, id)));
        devices.MapPost("/{id}/services", (HttpContext c, Desk desk, string id, NewService body) => Answers.Submit(
            c, desk, (r, s) => DeviceDecisions.Serve(r, s, id, body.Day, new(body.What, body.Text, body.BeginsAnew)),
            r => View(r, id)));
        devices.MapPost("/{id}/inspections", (HttpContext c, Desk desk, string id, NewInspection body) => Answers.Submit(
            c, desk,
            (r, s) => DeviceDecisions.Inspect(r, s, id, body.Day, body.ToFact()),
            r => View(r, id)));
        devices.MapPost("/{id}/joins", (HttpContext c, Desk desk, string id, NewJoin body) => Answers.Submit(
            c, desk, (r, s) => DeviceDecisions.Join(r, s, id, body.Other, body.Reason), r => View(r, id)));
    }

    private static IResult List(
        Desk desk, FleetView fleet, string? q, string? kind, string? place, string? model, Word<DeviceStatus>? status, string? sort,
        int? offset, int? limit)
    {
        // A kind of a newer version is one of a device in the register.
        if (kind is not null && DeviceKind.Find(kind) is null && fleet.Find(desk.Now, null, kind).Count == 0)
            return Answers.Invalid($"Kind '{kind}': allowed are {string.Join(", ", DeviceKind.All.Select(k => k.Key))}.");
        if (FleetView.Sort(fleet.Find(desk.Now, q, kind, place, status?.Value, model), sort ?? "kind") is not { } sorted)
            return Answers.Invalid($"Sort '{sort}': allowed are {string.Join(", ", FleetView.SortKeys.Keys)}, "
                + "each with - before it to turn it round.");
        return Answers.Paged(sorted, offset, limit);
    }

    // A state never changes, so its text is written once and goes when the state does.
    private static readonly ConditionalWeakTable<DeviceState, byte[]> Written = [];

    private static IResult Read(HttpContext context, Desk desk, IOptions<JsonOptions> json, string id, DateOnly? day)
    {
        var register = desk.Now;
        if (register.Device(id, day) is not { } device)
            return Answers.NotFound($"There is no device {id}{(day is null ? "" : $" on {day:yyyy-MM-dd}")}.");
        return Answers.Read(context, Desk.Tag(register.Version(Subject.Device(device.Id))), () => Results.Bytes(
            Written.GetValue(device, d => JsonSerializer.SerializeToUtf8Bytes(DeviceView.Of(register, d), json.Value.SerializerOptions)),
            "application/json; charset=utf-8"));
    }

    private static DeviceView? View(Register.Register register, string id) =>
        register.Device(id) is { } device ? DeviceView.Of(register, device) : null;

    internal sealed record NewDevice(string Kind, string? Maker, string? Model, string? Serial, Dictionary<string, FieldValue>? Details);

    internal sealed record DeviceChange(Dictionary<string, FieldValue>? Set, string[]? Clear);

    internal sealed record NewService(DateOnly Day, ServiceKind What, string Text, bool BeginsAnew);

    internal sealed record NewInspection(DateOnly Day, bool Passed, double? FlushStepMm, double? GapMm, double? FlatnessMm, string? Text)
    {
        public bool? Undamaged { get; init; }

        public bool? Uncontaminated { get; init; }

        public string? MakersData { get; init; }

        public string? Attachment { get; init; }

        public DeviceInspected ToFact() => new(Passed, FlushStepMm, GapMm, FlatnessMm, Text)
        {
            Undamaged = Undamaged,
            Uncontaminated = Uncontaminated,
            MakersData = MakersData,
            Attachment = Attachment,
        };
    }

    internal sealed record NewJoin(string Other, string Reason);
}

/// <summary>A device with its version.</summary>
public sealed record DeviceView(int Version, DeviceState Device)
{
    public static DeviceView Of(Register.Register register, DeviceState device) => new(register.Version(Subject.Device(device.Id)), device);
}

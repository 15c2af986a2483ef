using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Certificates: of a device or a set, restated, reviewed.</summary>
internal static class CertificatesApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/devices/{id}/certificates", List).Produces<Page<DeviceCertificate>>().WithTags("certificates");
        var certificates = app.MapGroup("/api/certificates").WithTags("certificates");
        certificates.MapPost("/", async (HttpContext c, Desk desk, NewCertificate body) =>
            CurveFilesApi.Refused(desk, body.Issued, body.Devices) ?? await Answers.Submit(
            c, desk, (r, s) => CalibrationDecisions.Issue(r, s, body.Devices, body.Day, desk.Today, body.Issued),
            r => body.Devices.Count > 0 ? r.Device(body.Devices[0]) : null));
        certificates.MapPut("/{fact}", async (HttpContext c, Desk desk, string fact, RestatedCertificate body) =>
            (IsOf(desk, fact, body.Issued.Curve) ? null : CurveFilesApi.Refused(desk, body.Issued, DevicesOf(desk, fact)))
            ?? await Answers.Submit(
            c, desk, (r, s) => CalibrationDecisions.Restate(r, s, fact, body.Day, desk.Today, body.Issued), r => FactsApi.About(r, fact)));
        certificates.MapPost("/{fact}/reviews", (HttpContext c, Desk desk, string fact, NewReview body) => Answers.Submit(
            c, desk, (r, s) => CalibrationDecisions.Review(r, s, body.Device, fact, body.Decision, body.Reason),
            r => r.Device(body.Device)));
        certificates.MapPost("/{fact}/choices", (HttpContext c, Desk desk, string fact, NewChoice body) => Answers.Submit(
            c, desk, (r, s) => CalibrationDecisions.Choose(r, s, body.Device, fact, body.Reason), r => r.Device(body.Device)));
    }

    // A curve that a certificate has already may be stated with it again, whatever an earlier release took for one.
    private static bool IsOf(Desk desk, string fact, string? curve) =>
        FactId.TryParse(fact, out var id) && desk.Now.Find(id) is var at and > 0
        && desk.Now.Source.Read(at) is { Body: CertificateIssued { Curve: { } own } } && own == curve;

    private static IEnumerable<string> DevicesOf(Desk desk, string fact) =>
        FactId.TryParse(fact, out var id) && desk.Now.Find(id) is var at and > 0
            ? desk.Now.Source.Read(at)?.Subjects.Select(Subject.Id) ?? [] : [];

    private static IResult List(HttpContext context, Desk desk, string id, string? quantity, int? offset, int? limit) =>
        desk.Now.Device(id) is not { } device ? Answers.NotFound($"There is no device {id}.")
        : Answers.Read(context, Desk.Tag(desk.Now.Version(Subject.Device(device.Id))), () => Answers.Paged(
            [.. device.Certificates.Where(c => quantity is null || c.Issued.Quantity == quantity)], offset, limit));

    internal sealed record NewCertificate(IReadOnlyList<string> Devices, DateOnly Day, CertificateIssued Issued);

    internal sealed record RestatedCertificate(DateOnly Day, CertificateIssued Issued);

    internal sealed record NewChoice(string Device, string Reason);

    internal sealed record NewReview(string Device, AlarmDecision Decision, string Reason);
}

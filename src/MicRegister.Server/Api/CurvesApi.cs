using MicRegister.Documents.Curves;
using MicRegister.Documents.Drawings;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Response curves of certificates.</summary>
internal static class CurvesApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/certificates/{fact}/curve", (Desk desk, string fact) => Find(desk, fact) is { } view
            ? Results.Ok(view)
            : Answers.NotFound($"The certificate {fact} has no response curve here that can be read."))
            .Produces<CurveView>().WithTags("certificates");
        app.MapGet("/api/certificates/{fact}/curve.{format}", (Desk desk, string fact, string format) => Find(desk, fact) is { } view
            ? format == "csv" ? Results.Bytes(CurveText.Write(view.Curves, [$"certificate {fact}"]), "text/csv", "curve.csv")
                : DrawingsApi.Painted(view.Plot, format)
            : Answers.NotFound($"The certificate {fact} has no response curve here that can be read.")).WithTags("drawings");
    }

    private static CurveView? Find(Desk desk, string fact) =>
        FactId.TryParse(fact, out var id) && desk.Now.Find(id) is var at and > 0
        && desk.Now.Source.Read(at) is { Body: CertificateIssued } stated
        && desk.Now.Device(Subject.Id(stated.Subjects[0])) is { } device
        && device.Certificates.FirstOrDefault(c => c.Fact == id) is { } certificate
            ? CurveView.Of(desk, device, certificate) : null;
}

/// <summary>A response curve beside the one before it and the limits of a class.</summary>
/// <param name="ReferenceHz">Frequency that all is relative to.</param>
/// <param name="Points">The curve.</param>
/// <param name="BeforeDay">Day of the one before; null where there is none.</param>
/// <param name="GreatestChangeDb">Greatest difference to it, in dB.</param>
/// <param name="GreatestChangeHz">Where that is.</param>
/// <param name="Limits">Which limits.</param>
/// <param name="Beyond">Points beyond them.</param>
public sealed record CurveView(
    double ReferenceHz, IReadOnlyList<CurvePoint> Points, DateOnly? BeforeDay, double? GreatestChangeDb, double? GreatestChangeHz,
    string Limits, IReadOnlyList<CurvePoint> Beyond)
{
    /// <summary>Reference frequency where the certificate states none: 250 Hz (common practice, no source).</summary>
    public const double UsualHz = 250;

    internal Drawing Plot { get; private init; } = null!;

    internal IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> Curves { get; private init; } = [];

    /// <summary>The view of a certificate's curve.</summary>
    /// <returns>Null where it has none here, or it cannot be read.</returns>
    public static CurveView? Of(Desk desk, DeviceState device, DeviceCertificate certificate)
    {
        if (certificate.Issued.Curve is not { } sha || desk.Curves(sha) is not { } curves) return null;
        var curve = curves[0].Curve;
        var reference = certificate.Issued.FrequencyHz ?? UsualHz;
        var earlier = device.Certificates.LastOrDefault(c => !c.IsAnnulled && c.Day < certificate.Day
            && c.Issued.Curve is not null && c.Issued.Field == certificate.Issued.Field);
        var before = earlier is null ? null : desk.Curves(earlier.Issued.Curve!)?[0].Curve;
        var beside = before is null ? "" : $" beside that of {earlier!.Day:yyyy-MM-dd}";
        return Of(
            curve, before, reference, earlier?.Day,
            $"{device.Name}: response of {certificate.Day:yyyy-MM-dd}{beside}, dB re {reference} Hz") with { Curves = curves };
    }

    /// <summary>The view of a curve that is not stored yet.</summary>
    public static CurveView Of(ResponseCurve curve, ResponseCurve? before, double referenceHz, DateOnly? beforeDay, string title)
    {
        var (shown, shownBefore) = (curve.RelativeTo(referenceHz), before?.RelativeTo(referenceHz));
        var change = before is null ? null : curve.GreatestChange(before, referenceHz);
        return new(
            referenceHz, shown.Points, before is null ? null : beforeDay, change?.DifferenceDb, change?.Hz, ClassLimits.One.Name,
            ClassLimits.One.Beyond(shown))
        {
            Plot = CurvePlot.Of(shown, shownBefore, ClassLimits.One, title),
        };
    }
}

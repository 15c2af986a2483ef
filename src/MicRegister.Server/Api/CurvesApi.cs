using MicRegister.Documents.Curves;
using MicRegister.Documents.Drawings;
using MicRegister.Metrology.ResponseLimits;
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
        app.MapGet("/api/certificates/{fact}/curve", (Desk desk, string fact, string? limits) =>
                Wrong(limits) ?? (Find(desk, fact, limits) is { } view ? Results.Ok(view) : None(fact)))
            .Produces<CurveView>().WithTags("certificates");
        app.MapGet("/api/certificates/{fact}/curve.{format}", (Desk desk, string fact, string format, string? limits) =>
                Wrong(limits) ?? (Find(desk, fact, limits) is not { } view ? None(fact)
                    : format == "csv" ? Results.Bytes(CurveText.Write(view.Curves, [$"certificate {fact}"]), "text/csv", "curve.csv")
                    : DrawingsApi.Painted(view.Plot, format)))
            .WithTags("drawings");
        app.MapGet("/api/devices/{id}/response", (Desk desk, string id, string? limits) =>
                Wrong(limits) ?? (desk.Now.Device(id) is not { } device ? Answers.NotFound($"There is no device {id}.")
                    : Results.Ok(Judged(device, desk.Curves, limits))))
            .Produces<ResponsesView>().WithTags("certificates");
    }

    /// <summary>What the newest stored curves of a device say, as readiness takes them.</summary>
    internal static ResponsesView Judged(DeviceState device, CurveReader read, string? limits)
    {
        var over = ResponseConformity.OverFrequency(device, read, ResponseView.TableOf(device, limits));
        // A device of no special kind may be anything: limits of microphones hold where it or a person names them.
        if (limits is null && device.Kind == DeviceKind.General.Key && !ResponseConformity.IsJudged(device))
            over = over with { Bands = [], Open = "it is of no special kind and states no class; name the limits to hold it against" };
        return new(ResponseView.Of(over), ResponseView.Of(ResponseConformity.OverAngle(device, read, AngleTable.Of1995)));
    }

    private static IResult? Wrong(string? limits) => limits is null || ResponseTable.Find(limits) is not null
        ? null
        : Answers.Invalid($"Limits '{limits}': allowed are {string.Join(", ", ResponseTable.Keys)}.");

    private static IResult None(string fact) => Answers.NotFound($"The certificate {fact} has no response curve here that can be read.");

    private static CurveView? Find(Desk desk, string fact, string? limits) =>
        FactId.TryParse(fact, out var id) && desk.Now.Find(id) is var at and > 0
        && desk.Now.Source.Read(at) is { Body: CertificateIssued } stated
        && desk.Now.Device(Subject.Id(stated.Subjects[0])) is { } device
        && device.Certificates.FirstOrDefault(c => c.Fact == id) is { } certificate
            ? CurveView.Of(desk, device, certificate, limits) : null;
}

/// <summary>A response curve beside the one before it and printed limits.</summary>
/// <param name="ReferenceHz">Frequency that all is relative to.</param>
/// <param name="Points">The curve.</param>
/// <param name="BeforeDay">Day of the one before; null where there is none.</param>
/// <param name="GreatestChangeDb">Greatest difference to it, in dB.</param>
/// <param name="GreatestChangeHz">Where that is.</param>
/// <param name="Limits">Which limits; null where none hold for such a device.</param>
/// <param name="Beyond">The worst point of each band that lies beyond them.</param>
/// <param name="Response">What the curve says of them, band by band; null where none hold, or the curve is not stored yet.</param>
public sealed record CurveView(
    double ReferenceHz, IReadOnlyList<CurvePoint> Points, DateOnly? BeforeDay, double? GreatestChangeDb, double? GreatestChangeHz,
    string? Limits, IReadOnlyList<CurvePoint> Beyond, ResponseView? Response)
{
    /// <summary>Reference frequency where the certificate states none.</summary>
    public const double UsualHz = ResponseConformity.UsualHz;

    internal Drawing Plot { get; private init; } = null!;

    internal IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> Curves { get; private init; } = [];

    /// <summary>The view of a certificate's curve.</summary>
    /// <param name="limits">Stored words of the limits; null takes those that the device states, else class 1 of meters.</param>
    /// <returns>Null where it has none here, or it cannot be read.</returns>
    public static CurveView? Of(Desk desk, DeviceState device, DeviceCertificate certificate, string? limits = null)
    {
        if (certificate.Issued.Curve is not { } sha || desk.Curves(sha) is not { } curves) return null;
        var isJudged = certificate.Issued.Quantity is "response" or "sensitivity"
            && (ResponseConformity.IsJudged(device) || (ResponseConformity.IsCovered(device) && ResponseTable.Find(limits) is not null));
        var table = isJudged ? ResponseView.TableOf(device, limits) : null;
        var judged = table is null ? null : ResponseConformity.OverFrequency(device, desk.Curves, table, certificate);
        var reference = certificate.Issued.FrequencyHz ?? UsualHz;
        var earlier = device.Certificates.LastOrDefault(c => !c.IsAnnulled && c.Day < certificate.Day
            && c.Issued.Curve is not null && c.Issued.Field == certificate.Issued.Field);
        var before = earlier is null ? null : desk.Curves(earlier.Issued.Curve!)?[0].Curve;
        var beside = before is null ? "" : $" beside that of {earlier!.Day:yyyy-MM-dd}";
        return Of(
            judged?.Curve ?? curves[0].Curve, before, reference, earlier?.Day, table, judged?.Bands ?? [],
            $"{device.Name}: response of {certificate.Day:yyyy-MM-dd}{beside}, dB re {reference} Hz") with
        {
            Curves = curves,
            Response = judged is null ? null : ResponseView.Of(judged),
        };
    }

    /// <summary>The view of a curve that is not stored yet, with the limits that its device states, else those of class 1 meters.</summary>
    public static CurveView Of(
        ResponseCurve curve, ResponseCurve? before, double referenceHz, DateOnly? beforeDay, string title, DeviceState? device)
    {
        var table = device is null || ResponseConformity.IsJudged(device) ? ResponseView.TableOf(device ?? new(""), null) : null;
        var judged = table is null ? [] : ResponseJudge.OverFrequency(curve, referenceHz, table);
        return Of(curve, before, referenceHz, beforeDay, table, judged, title);
    }

    private static CurveView Of(
        ResponseCurve curve, ResponseCurve? before, double referenceHz, DateOnly? beforeDay, ResponseTable? table,
        IReadOnlyList<BandJudgement> judged, string title)
    {
        var (shown, shownBefore) = (curve.RelativeTo(referenceHz), before?.RelativeTo(referenceHz));
        var change = before is null ? null : curve.GreatestChange(before, referenceHz);
        return new(
            referenceHz, shown.Points, before is null ? null : beforeDay, change?.DifferenceDb, change?.Hz, table?.Key,
            [.. judged.Where(b => b.Verdict == BandVerdict.Exceeded).Select(b => b.Point!.Value)], null)
        {
            Plot = CurvePlot.Of(shown, shownBefore, table, judged, title),
        };
    }
}

using MicRegister.Documents.Curves;
using MicRegister.Documents.DigitalCertificates;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Responses;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Imports;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Mvc;

namespace MicRegister.Server.Api;

/// <summary>Takes curve files, and reads digital calibration certificates.</summary>
internal static class CurveFilesApi
{
    private const int MaxBytes = 26 << 20;

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapPost("/api/curves", Take).Produces<CurveFileView>().WithTags("certificates")
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MaxBytes));
        app.MapPost("/api/digital-certificates", ReadDigital).Produces<DigitalCertificate>().WithTags("certificates")
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MaxBytes));
    }

    /// <summary>What has to be asked of a curve file: columns and choices, and how they are answered.</summary>
    public static IResult Asked(CurveReading reading) => Results.Problem(
        string.Join(" ", reading.Questions.Select(q => q.Text))
            + " Answer with column=3=u, marks=decimal or serial=4711. Nothing was stored.",
        statusCode: StatusCodes.Status422UnprocessableEntity, title: "Not clear", extensions: new Dictionary<string, object?>
        { ["columns"] = reading.Columns, ["questions"] = reading.Questions });

    /// <summary>Why a certificate's curve cannot be kept as it is: it is not clear, or no curve; null where it can, or is not
    /// here.</summary>
    public static IResult? Refused(Desk desk, CertificateIssued issued, IEnumerable<string> devices)
    {
        if (issued.Curve is not { Length: 64 } sha || desk.Live.Log.OpenAttachment(sha) is not { } content) return null;
        using (content)
        {
            try
            {
                var reading = CurveFile.Read(content, "curve", CurveAnswers.None);
                if (reading.IsAsking) return Asked(reading);
                if (!reading.IsPlain) return Answers.Invalid(
                    "The curve holds sensitivities or names devices: send it to /api/curves, which keeps what follows from it.");
                List<CurveReading> held = [.. devices.Select(d => desk.Now.Device(d)).OfType<DeviceState>()
                    .Select(d => CurveIntake.HeldAgainst(reading, "curve", CurveAnswers.None, d))];
                return held.Count == 0 || held.Exists(h => !h.IsAsking) ? null
                    : Answers.Invalid(held[0].Questions[0].Text + " Send it to /api/curves with serial=, which keeps the answer with it.");
            }
            catch (SheetException e)
            {
                return Answers.Invalid(e.Message);
            }
        }
    }

    // Body: the file itself. Query: its name, column=3=u for each that is asked, marks=decimal|thousands; device where its headers name
    // none, and serial where the file states another one than that of the device; store=true with day, and field, angle, laboratory,
    // number of the certificate.
    private static async Task<IResult> Take(
        HttpContext context, Desk desk, string? name, [FromQuery] string[]? column, string? marks, string? device, string? serial,
        double? referenceHz, bool? store,
        DateOnly? day, string? field, double? angle, string? laboratory, string? number)
    {
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        var file = name is { Length: > 0 and <= 200 } ? Path.GetFileName(name) : "curve";
        if (device is not null && desk.Now.Device(device) is null) return Answers.NotFound($"There is no device {device}.");
        if (serial is not null && device is null) return Answers.Invalid("Serial: it is held against that of a device; say device=ID.");
        if (referenceHz is { } hz && !(hz is >= 1 and <= 200_000)) return Answers.Invalid(
            $"Frequency '{hz}': allowed is a number from 1 to 200000 Hz.");
        try
        {
            var answers = new CurveAnswers(CurveAnswers.OfColumns(column ?? []), CurveAnswers.OfMarks(marks), referenceHz)
            {
                Serial = serial,
            };
            var reading = CurveIntake.Read(desk.Now, content, file, answers, device is null ? null : desk.Now.Device(device));
            if (reading.IsAsking) return Asked(reading);
            var curves = CurveIntake.ByDevice(reading, content.ToArray(), file, answers);
            if (device is not null && curves is [{ Serial: null }]) curves = [curves[0] with { Device = desk.Now.Device(device)!.Id }];
            else if (device is not null) curves = [.. curves.Where(c => c.Device == desk.Now.Device(device)!.Id)];
            if (device is not null && curves.Count == 0) return Answers.Invalid(
                $"{file} holds no curve of {desk.Now.Device(device)!.Name}.");
            if (store != true) return Results.Ok(CurveFileView.Of(desk.Now, reading, curves, []));
            if (day is null) return Answers.Invalid("Day: it is needed to store a curve, as 2026-05-04.");
            if (curves.All(c => c.Device is null)) return Answers.Invalid($"{file} names no device that is known; say device=ID.");
            var about = new CurveCertificate(day.Value, referenceHz ?? CurveIntake.UsualHz, field, angle, laboratory, number);
            return await Store(context, desk, reading, [.. curves.Where(c => c.Device is not null)], curves, content, about);
        }
        catch (Exception e) when (e is SheetException or FormatException)
        {
            return Answers.Invalid(e.Message);
        }
    }

    private static async Task<IResult> Store(
        HttpContext context, Desk desk, CurveReading reading, IReadOnlyList<DeviceCurves> known, IReadOnlyList<DeviceCurves> all,
            MemoryStream content,
        CurveCertificate about)
    {
        if (CurveIntake.Wrong(known, about) is { } wrong) return Answers.Invalid(wrong);
        content.Position = 0;
        var sha = desk.Live.Log.KeepAttachment(content);
        List<(string Device, CertificateIssued Issued)> certificates = [.. known.Select(c => (
            c.Device!, CurveIntake.Certificate(c, about, desk.Live.Log.KeepAttachment(new MemoryStream(c.Content)), sha)))];
        var speaker = Desk.Speaker(context);
        var saying = desk.Say(speaker.Person, null, "api");
        var answer = await desk.Submit(
            speaker, "api", r => CalibrationDecisions.IssueAll(r, saying, certificates, about.Day, desk.Today), context.RequestAborted);
        return answer switch
        {
            Result<IReadOnlyList<AppendOutcome>>.Accepted stored => Results.Ok(CurveFileView.Of(
                desk.Now, reading, all, [.. stored.Value.Select(o => new StoredFact(o.Id.ToString(), o.Result, o.Sequence))])),
            _ => Answers.Of(((Result<IReadOnlyList<AppendOutcome>>.Rejected)answer).Why),
        };
    }

    private static async Task<IResult> ReadDigital(HttpContext context, string? name)
    {
        using var content = new MemoryStream();
        await context.Request.Body.CopyToAsync(content, context.RequestAborted);
        try
        {
            return Results.Ok(DigitalCertificateFile.Read(
                content, name is { Length: > 0 and <= 200 } ? Path.GetFileName(name) : "certificate"));
        }
        catch (FormatException e)
        {
            return Answers.Invalid(e.Message);
        }
    }
}

/// <summary>What a curve file holds.</summary>
/// <param name="Curves">By device, then in the order of angles.</param>
/// <param name="Columns">What each column was taken for.</param>
/// <param name="Notes">What was taken how, left out or assumed.</param>
/// <param name="Stored">What was stored; empty where nothing was asked to be.</param>
public sealed record CurveFileView(
    IReadOnlyList<CurveFileView.OfDevice> Curves, IReadOnlyList<CurveColumn> Columns, IReadOnlyList<string> Notes,
        IReadOnlyList<StoredFact> Stored)
{
    internal static CurveFileView Of(
        Register.Register register, CurveReading reading, IReadOnlyList<DeviceCurves> curves, IReadOnlyList<StoredFact> stored) => new(
        [.. curves.SelectMany(d => d.Curves.Select(c =>
        {
            var device = d.Device is null ? null : register.Device(d.Device);
            return new OfDevice(
                d.Device, device?.Name, c.Serial, c.AngleDeg, c.Field, c.Curve.Points, c.SensitivityDb, c.AtHz,
                    CurveIntake.Beside(device, c));
        }))], reading.Columns, reading.Notes, stored);

    /// <param name="Device">Id; null where none is named or known.</param>
    /// <param name="Name">Its name.</param>
    /// <param name="Serial">How the file names it.</param>
    /// <param name="AngleDeg">Angle of incidence in °.</param>
    /// <param name="Field">Sound field that the file names.</param>
    /// <param name="Points">Levels in dB, U with k = 2.</param>
    /// <param name="SensitivityDb">Sensitivity in dB re 1 V/Pa at <paramref name="AtHz"/>, where the file states sensitivities.</param>
    /// <param name="AtHz">Frequency in Hz.</param>
    /// <param name="Beside">How that lies beside the device's certificate.</param>
    public sealed record OfDevice(
        string? Device, string? Name, string? Serial, double? AngleDeg, string? Field, IReadOnlyList<CurvePoint> Points,
            double? SensitivityDb,
        double? AtHz, string? Beside);
}

using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Server.Imports;
using MicRegister.Server.Pages.Devices;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Bench;

/// <summary>Makes a certificate of a line and of what all lines have in common, or says at which field it cannot.</summary>
internal static class BenchReading
{
    // Laboratories lie within these, and a slip of the unit without (own practice, no source); hPa are read where they are written.
    private static readonly (double Least, double Greatest) KPa = (30, 120), Celsius = (-30, 60), Percent = (0, 100);

    /// <summary>Works a line out.</summary>
    public static void Work(Desk desk, Register.Register register, BenchSheet sheet, BenchLine line)
    {
        line.Forget();
        ReadCertificate(desk, line);
        if (!IsOfOneDevice(register, line))
        {
            if (line.HoldsSomething && string.IsNullOrWhiteSpace(line.Serial)) line.Blame(BenchField.Serial, "Serial number is missing.");
            return;
        }
        var device = line.Device!;
        var draft = CertificateDraft.For(device, desk.Today);
        line.UncertaintyUnit = draft.UncertaintyUnit;
        line.ShownUnit = line.Unit ?? draft.Unit;
        if (!string.IsNullOrWhiteSpace(sheet.Method)) draft.Method = sheet.Method;
        (draft.Day, draft.Laboratory, draft.Number) = (line.Day ?? sheet.Day, sheet.Laboratory, line.Number);
        if (draft.Day > desk.Today || draft.Day.Year < 1950)
            line.Blame(BenchField.Day, $"Day '{draft.Day:yyyy-MM-dd}': allowed is from 1950-01-01 to today, {desk.Today:yyyy-MM-dd}.");
        ReadAir(sheet, line, draft);
        if (line.Curve is not null) ReadCurve(desk, register, line, draft);
        if (string.IsNullOrWhiteSpace(line.Value)) return;
        ReadValue(line, draft);
        ReadUncertainty(sheet, line, draft);
        if (line.Problem is null) Issue(desk, register, line, draft);
    }

    private static bool IsOfOneDevice(Register.Register register, BenchLine line)
    {
        if (string.IsNullOrWhiteSpace(line.Serial)) return false;
        var found = SerialIndex.Find(register, line.Serial);
        var candidates = Meant(found);
        if (candidates.Count > 1) line.Namesakes = [.. candidates.OrderBy(d => d.Id, StringComparer.Ordinal)];
        line.Device = candidates is [var one] ? one : candidates.FirstOrDefault(d => d.Id == line.Chosen);
        if (line.Device is null)
        {
            line.Blame(BenchField.Serial, found.Count == 0
                ? $"No device has the serial number '{line.Serial}'."
                : $"{candidates.Count} devices have the serial number '{line.Serial}': choose the one that is meant.");
        }
        return line.Device is not null;
    }

    /// <summary>Of devices that carry one serial number those that can be meant at a bench: what is calibrated goes before what is
    /// not.</summary>
    public static IReadOnlyList<DeviceState> Meant(IReadOnlyList<DeviceState> namesakes)
    {
        var calibrated = namesakes.Where(d => DeviceKind.Find(d.Kind)?.Calibrated is not null).ToList();
        return calibrated.Count > 0 ? calibrated : namesakes;
    }

    private static void ReadValue(BenchLine line, CertificateDraft draft)
    {
        if (!MeasuredText.TryRead(line.Value!, out var value, out var typed))
        {
            line.Blame(BenchField.Value, $"Result '{line.Value}': it is no number.");
            return;
        }
        if (typed is not null && !ResultLevel.Units.Contains(typed))
            line.Blame(BenchField.Value, $"Result '{line.Value}': allowed units are {string.Join(", ", ResultLevel.Units)}.");
        else if (typed is not null && line.Unit is { } unit && unit != typed)
            line.Blame(BenchField.Value, $"Result '{line.Value}': the unit beside it is {unit}.");
        if (!string.IsNullOrWhiteSpace(line.Unit)) draft.Unit = line.Unit;
        else if (typed is not null) draft.Unit = typed;
        // What is below nought is a level, whatever the unit before was.
        else if (draft.Quantity == "sensitivity" && draft.Unit.EndsWith("V/Pa", StringComparison.Ordinal) && value < 0)
            draft.Unit = "dB re 1 V/Pa";
        draft.Value = Text(value);
        line.ShownUnit = draft.Unit;
    }

    private static void ReadUncertainty(BenchSheet sheet, BenchLine line, CertificateDraft draft)
    {
        var (text, isInPercent) = line.Expanded is null ? (sheet.Expanded, sheet.IsInPercent) : (line.Expanded, line.IsInPercent);
        if (!string.IsNullOrWhiteSpace(sheet.Factor) && !MeasuredText.TryRead(sheet.Factor, out _, out _))
            line.Blame(BenchField.Factor, $"k '{sheet.Factor}': it is no number.");
        draft.Factor = sheet.Factor;
        if (isInPercent) draft.UncertaintyUnit = "%";
        if (string.IsNullOrWhiteSpace(text)) return;
        if (!MeasuredText.TryRead(text, out var expanded, out var typed))
            line.Blame(BenchField.Uncertainty, $"U '{text}': it is no number.");
        else if (typed is not null && !ResultLevel.UncertaintyUnits.Contains(typed))
            line.Blame(BenchField.Uncertainty, $"U '{text}': allowed units are {string.Join(", ", ResultLevel.UncertaintyUnits)}.");
        else if (typed is not null && isInPercent && typed != "%")
            line.Blame(BenchField.Uncertainty, $"U '{text}': the unit beside it is %.");
        else (draft.Expanded, draft.UncertaintyUnit) = (Text(expanded), typed ?? draft.UncertaintyUnit);
    }

    private static void ReadAir(BenchSheet sheet, BenchLine line, CertificateDraft draft)
    {
        draft.Temperature = Air(line, BenchField.Temperature, "Temperature", line.Temperature ?? sheet.Temperature, "°C", Celsius);
        draft.Humidity = Air(line, BenchField.Humidity, "Humidity", line.Humidity ?? sheet.Humidity, "%", Percent);
        draft.Pressure = Air(line, BenchField.Pressure, "Static pressure", line.Pressure ?? sheet.Pressure, "kPa", KPa);
    }

    /// <summary>What is wrong with the day's air in a field of the sheet; null where nothing is.</summary>
    public static string? WrongAir(BenchField field, string? text)
    {
        var line = new BenchLine();
        _ = field switch
        {
            BenchField.Temperature => Air(line, field, "Temperature", text, "°C", Celsius),
            BenchField.Humidity => Air(line, field, "Humidity", text, "%", Percent),
            _ => Air(line, field, "Static pressure", text, "kPa", KPa),
        };
        return line.Problem;
    }

    private static string? Air(
        BenchLine line, BenchField field, string name, string? text, string unit, (double Least, double Greatest) allowed)
    {
        if (string.IsNullOrWhiteSpace(text)) return null;
        if (MeasuredText.TryRead(text, out var number, out var typed) && MeasuredText.Convert(number, typed, unit) is { } value
            && value >= allowed.Least && value <= allowed.Greatest)
        {
            return Text(value);
        }
        line.Blame(field, FormattableString.Invariant(
            $"{name} '{text}': allowed is a number from {allowed.Least} to {allowed.Greatest} {unit}."));
        return null;
    }

    private static void Issue(Desk desk, Register.Register register, BenchLine line, CertificateDraft draft)
    {
        draft.Attachment = line.Certificate?.Sha;
        if (draft.Read() is not Result<CertificateIssued>.Accepted { Value: var issued })
        {
            line.Blame(BenchField.Value, ((Result<CertificateIssued>.Rejected)draft.Read()).Why.Text);
            return;
        }
        if (CalibrationDecisions.Wrong(issued) is { } wrong)
        {
            line.Blame(FieldOf(wrong.Text), wrong.Text);
            return;
        }
        (line.Issued, line.IssuedOn) = (issued, draft.Day);
        line.LevelDb = CalibrationSeries.LevelOf(line.Device!, issued, draft.Day);
        line.Expectation = EntryExpectation.Of(line.Device!, desk.Drift(register, line.Device!.Id), issued, draft.Day);
        if (line.Device.Certificates.Any(c => c.Day == draft.Day && c.Issued.Quantity == issued.Quantity && line.Device.ReliesOn(c)))
            line.Notes.Add($"A certificate of {draft.Day:yyyy-MM-dd} stands in the register already; this one will stand beside it.");
        if (line.Digital is { } digital) BenchDigital.Hold(line, digital, issued);
    }

    // The decision names the field first.
    private static BenchField FieldOf(string text) =>
        text.StartsWith("Uncertainty", StringComparison.Ordinal) || text.StartsWith("Unit of uncertainty", StringComparison.Ordinal)
            ? BenchField.Uncertainty
            : text.StartsWith("Coverage factor", StringComparison.Ordinal) ? BenchField.Factor
            : text.StartsWith("Unit", StringComparison.Ordinal) ? BenchField.Unit
            : text.StartsWith("Attachment", StringComparison.Ordinal) ? BenchField.Certificate
            : BenchField.Value;

    private static void ReadCertificate(Desk desk, BenchLine line)
    {
        if (line.Certificate is not { } file) return;
        if (!Equals(line.CertificateKey, file.Sha))
        {
            using var stored = desk.Live.Log.OpenAttachment(file.Sha);
            (line.CertificateKey, line.IsCertificateHere) = (file.Sha, stored is not null);
            line.DigitalRead = file.ReadDigital(desk.Live.Log.OpenAttachment);
        }
        line.Digital = line.DigitalRead;
        if (!line.IsCertificateHere)
            line.Blame(BenchField.Certificate, $"{file.Name} is not here any more: take it out and drop it again.");
    }

    // A file is read again only where it, the device or an answer is another.
    private static void ReadCurve(Desk desk, Register.Register register, BenchLine line, CertificateDraft draft)
    {
        var reference = MeasuredText.TryRead(draft.Frequency ?? "", out var hz, out _) ? hz : CurveIntake.UsualHz;
        var key = (line.Curve!.Sha, line.Device!.Id, line.CurveAnswers, reference);
        if (!Equals(line.CurveKey, key)) (line.CurveKey, line.CurveRead) = (key, ReadCurve(desk, register, line, reference));
        (line.ReadCurve, line.Asking, var notes, var problem) = line.CurveRead;
        line.Notes.AddRange(notes);
        if (problem is not null) line.Blame(BenchField.Curve, problem);
        else if (line.ReadCurve is { } curve
            && CurveIntake.Wrong([curve], About(line, draft.Day, reference, draft.Laboratory)) is { } wrong)
            line.Blame(BenchField.Curve, wrong);
        line.CurveAbout = About(line, draft.Day, reference, draft.Laboratory);
    }

    private static CurveCertificate About(BenchLine line, DateOnly day, double hz, string? laboratory) => new(
        day, hz, null, null, string.IsNullOrWhiteSpace(laboratory) ? null : laboratory.Trim(),
        string.IsNullOrWhiteSpace(line.Number) ? null : line.Number.Trim());

    private static (DeviceCurves? Curve, Documents.Curves.CurveReading? Asking, IReadOnlyList<string> Notes, string? Problem) ReadCurve(
        Desk desk, Register.Register register, BenchLine line, double reference)
    {
        var (name, device) = (line.Curve!.Name, line.Device!);
        using var stored = desk.Live.Log.OpenAttachment(line.Curve.Sha);
        if (stored is null) return (null, null, [], $"{name} is not here any more: take it out and drop it again.");
        using var content = new MemoryStream();
        stored.CopyTo(content);
        try
        {
            var answers = line.CurveAnswers with { ReferenceHz = reference };
            var reading = CurveIntake.Read(register, content, name, answers, device);
            if (reading.IsAsking) return (null, reading, [], null);
            var all = CurveIntake.ByDevice(reading, content.ToArray(), name, answers);
            if (all.FirstOrDefault(c => c.Serial is null || c.Device == device.Id) is not { } mine)
                return (null, null, [], $"{name} holds no curve of {device.Name}.");
            var others = all.Count > 1 ? $"{name}: curves of {all.Count - 1} other devices are left out here." : null;
            return (mine with { Device = device.Id }, null,
                [.. reading.Notes, .. mine.Curves.Select(c => CurveIntake.Beside(device, c)).Append(others).OfType<string>()], null);
        }
        catch (SheetException e)
        {
            return (null, null, [], e.Message);
        }
    }

    private static string Text(double number) => number.ToString("R", CultureInfo.InvariantCulture);
}

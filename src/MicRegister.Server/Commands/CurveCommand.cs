using System.CommandLine;
using System.Globalization;
using MicRegister.Documents.Curves;
using MicRegister.Documents.DigitalCertificates;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Server.Api;
using MicRegister.Server.Imports;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Reads files of response curves, asks what they leave open, and stores one certificate a device; reads digital
/// certificates.</summary>
internal static class CurveCommand
{
    public static Command Make()
    {
        var (data, json) = (CommonOptions.Data(), CommonOptions.Json());
        var file = new Argument<string>("file") { Description = "Text table of frequency and levels." };
        var column = new Option<string[]>("--column")
        {
            Description = "What a column is, where its header leaves it open: 3=u, 2-31=level. Allowed: "
            + string.Join(", ", ColumnMeaning.All.Select(a => a.Key)) + "."
        };
        var marks = new Option<string?>("--marks") { Description = "What 1,250 is where both are possible: decimal or thousands." };
        var device = new Option<string?>("--device") { Description = "Serial number or id of the device, where no header names one." };
        var serial = new Option<string?>("--serial")
        {
            Description = "Serial number that the file states, where it is not that of --device and the curve is of it all the same.",
        };
        var reference = new Option<double?>(
            "--reference-hz")
        { Description = "Frequency that levels are relative to; 250 Hz where nothing is said." };
        var store = new Option<bool>("--store") { Description = "Store one response certificate a device; needs --day." };
        var day = new Option<string?>("--day") { Description = "Day of the measurement, such as 2026-05-04." };
        var field = new Option<string?>(
            "--field")
        { Description = "Sound field: pressure, free-field or diffuse, where the file does not name it." };
        var angle = new Option<double?>("--angle") { Description = "Angle of incidence in degrees, where the file names none." };
        var laboratory = new Option<string?>("--laboratory") { Description = "Who measured." };
        var number = new Option<string?>("--number") { Description = "Number of the certificate." };
        var by = CommonOptions.By();
        var today = CommonOptions.Today();
        var command = new Command(
            "curve", "Read a file of response curves; what its headers leave open is asked, and answered with --column and --marks.")
        { file, data, device, serial, column, marks, reference, store, day, field, angle, laboratory, number, by, today, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() =>
        {
            var wanted = new Wanted(
                parsed.GetValue(file)!, parsed.GetValue(device),
                new(CurveAnswers.OfColumns(parsed.GetValue(column) ?? []), CurveAnswers.OfMarks(parsed.GetValue(marks)),
                    parsed.GetValue(reference))
                { Serial = parsed.GetValue(serial) },
                parsed.GetValue(json));
            if (wanted.Answers.Serial is not null && wanted.Device is null)
                throw new BadUseException("--serial is held against that of a device; say --device.");
            if (!parsed.GetValue(store)) return Show(CommonOptions.Folder(parsed.GetValue(data)), wanted);
            var about = new CurveCertificate(
                CommonOptions.Day(
                    parsed.GetValue(day) ?? throw new BadUseException("--store needs --day, such as 2026-05-04."), TimeProvider.System,
                        "--day"),
                parsed.GetValue(reference) ?? CurveIntake.UsualHz, parsed.GetValue(field), parsed.GetValue(angle),
                    parsed.GetValue(laboratory),
                parsed.GetValue(number));
            return Store(
                CommonOptions.Folder(parsed.GetValue(data)), wanted, about, parsed.GetValue(by)!,
                CommonOptions.Day(parsed.GetValue(today), TimeProvider.System), cancel);
        }));
        return command;
    }

    /// <summary>Reads a digital calibration certificate.</summary>
    public static Command Digital()
    {
        var json = CommonOptions.Json();
        var file = new Argument<string>("file") { Description = "Digital calibration certificate (DCC, XML)." };
        var command = new Command(
            "dcc", "Read a digital calibration certificate: results with their uncertainties, and what was not read.") { file, json };
        command.SetAction((parsed, _) => CommandExit.Run(() => Task.FromResult(Digital(parsed.GetValue(file)!, parsed.GetValue(json)))));
        return command;
    }

    private sealed record Wanted(string File, string? Device, CurveAnswers Answers, bool Json);

    private static async Task<int> Show(string folder, Wanted w)
    {
        using var store = CommandStore.Read(folder);
        var (reading, curves) = await Read(store.Register, w);
        Say(store.Register, w, reading, curves, 0);
        return CommandExit.Good;
    }

    private static async Task<int> Store(
        string folder, Wanted w, CurveCertificate about, string by, DateOnly today, CancellationToken cancel)
    {
        await using var live = CommandStore.Write(folder);
        var (reading, curves) = await Read(live.Now, w);
        List<DeviceCurves> known = [.. curves.Where(c => c.Device is not null)];
        if (known.Count == 0) throw new BadUseException(
            $"{w.File} names no device that is known; say --device SERIAL. Nothing was stored.");
        if (CurveIntake.Wrong(known, about) is { } wrong) throw new BadUseException($"{w.File}: {wrong} Nothing was stored.");
        await using var content = File.OpenRead(w.File);
        var sha = live.Log.KeepAttachment(content);
        List<(string, CertificateIssued)> certificates = [.. known.Select(c => (
            c.Device!, CurveIntake.Certificate(c, about, live.Log.KeepAttachment(new MemoryStream(c.Content)), sha)))];
        await CommandStore.State(
            live, by, (r, s) => CalibrationDecisions.IssueAll(r, s, certificates, about.Day, today), cancel, Path.GetFileName(w.File));
        Say(live.Now, w, reading, curves, known.Count);
        return CommandExit.Good;
    }

    private static async Task<(CurveReading, IReadOnlyList<DeviceCurves>)> Read(Register.Register register, Wanted w)
    {
        if (!File.Exists(w.File)) throw new BadUseException($"There is no file {w.File}.");
        var (bytes, name) = (await File.ReadAllBytesAsync(w.File), Path.GetFileName(w.File));
        var id = w.Device is null ? null : Device(register, w.Device);
        var reading = CurveIntake.Read(register, new MemoryStream(bytes), name, w.Answers, id is null ? null : register.Device(id));
        if (reading.IsAsking) throw new BadUseException($"{name}: {InWords(reading)}Nothing was stored.");
        var curves = CurveIntake.ByDevice(reading, bytes, name, w.Answers);
        if (id is null) return (reading, curves);
        curves = curves is [{ Serial: null }] ? [curves[0] with { Device = id }] : [.. curves.Where(c => c.Device == id)];
        return curves.Count > 0 ? (reading, curves)
            : throw new BadUseException($"{name} holds no curve of --device {w.Device}. Nothing was stored.");
    }

    private static string InWords(CurveReading reading) => string.Concat(reading.Questions.Select(q =>
        $"{q.Text}\n" + string.Concat(q.Choices.Select(c => q.Columns.Count == 0
            ? $"  --{q.Asks} {c.Key}: {c.Words}\n"
                : $"  --{q.Asks.Replace("columns", "column", StringComparison.Ordinal)}={c.Key}: {c.Words}\n"))));

    private static string Device(Register.Register register, string text)
    {
        if (register.Device(text) is { } byId) return byId.Id;
        var found = register.DeviceIds.Select(d => register.Device(d)!).Where(
            d => DeviceIdentity.Normal(d.Serial) == DeviceIdentity.Normal(text)).ToList();
        return found.Count == 1 ? found[0].Id : throw new BadUseException(found.Count == 0
            ? $"--device {text}: there is no such device."
            : $"--device {text}: {string.Join(", ", found.Select(d => $"{d.Name} ({d.Id})"))} have that serial number; give an id.");
    }

    private static void Say(Register.Register register, Wanted w, CurveReading reading, IReadOnlyList<DeviceCurves> curves, int stored)
    {
        if (w.Json)
        {
            Console.WriteLine(ApiJson.Text(CurveFileView.Of(register, reading, curves, [])));
            return;
        }
        foreach (var c in CurveFileView.Of(register, reading, curves, []).Curves)
        {
            var angle = c.AngleDeg is { } a ? FormattableString.Invariant($" at {a}°") : "";
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{c.Name ?? c.Serial ?? "The curve"}{angle}: {c.Points.Count} points from {c.Points[0].Hz:0.###} to "
                    + $"{c.Points[^1].Hz:0.###} Hz, ")
                + $"{QuantityText.Signed(c.Points.Min(p => p.LevelDb), 3)} to {QuantityText.Signed(c.Points.Max(p => p.LevelDb), 3)} dB");
            if (c.Beside is { } beside) Console.WriteLine("  " + beside);
        }
        foreach (var note in reading.Notes) Console.WriteLine(note);
        Console.WriteLine(stored == 0 ? "Nothing was stored." : stored == 1 ? "One certificate was stored."
            : $"{stored} certificates were stored.");
    }

    private static int Digital(string path, bool asJson)
    {
        if (!File.Exists(path)) throw new BadUseException($"There is no file {path}.");
        using var content = File.OpenRead(path);
        var read = DigitalCertificateFile.Read(content, Path.GetFileName(path));
        if (asJson)
        {
            Console.WriteLine(ApiJson.Text(read));
            return CommandExit.Good;
        }
        Console.WriteLine($"{read.Number ?? "Without a number"}, schema {read.SchemaVersion}, {read.Begin:yyyy-MM-dd} to "
            + $"{read.End:yyyy-MM-dd}, {read.Laboratory}");
        foreach (var item in read.Items) Console.WriteLine(
            $"  {item.Name}, {item.Manufacturer} {item.Model}, serial number {item.Serial ?? "not stated"}");
        foreach (var q in read.Quantities)
        {
            foreach (var v in q.Values.Take(3)) Console.WriteLine($"  {q.Name ?? q.Result}: {DigitalText.Of(v)}");
            if (q.Values.Count > 3) Console.WriteLine($"    and {q.Values.Count - 3} more");
        }
        foreach (var note in read.Notes) Console.WriteLine(note);
        return CommandExit.Good;
    }
}

using System.Security.Cryptography;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Imports;

/// <summary>A curve file on its way into the register: whose its curves are, what is kept of them, and which certificates they
/// make.</summary>
public static class CurveIntake
{
    /// <summary>Reference frequency in Hz where nothing states one: 250 Hz (common practice, no source).</summary>
    public const double UsualHz = 250;

    private const int LeastSerial = 3;

    /// <summary>Reads a file with the register's devices at hand.</summary>
    /// <param name="register">The register.</param>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <param name="answers">What a person said of it.</param>
    /// <param name="device">The device whose curve it is to be; null where headers name devices.</param>
    /// <exception cref="SheetException">It cannot be read.</exception>
    public static CurveReading Read(
        Register.Register register, Stream content, string name, CurveAnswers answers, DeviceState? device = null)
    {
        var reading = CurveFile.Read(content, name, answers with { DevicesOf = DevicesOf(register) });
        return device is null || reading.IsAsking || reading.Curves.Any(c => c.Serial is not null)
            ? reading : HeldAgainst(reading, name, answers, device);
    }

    // A curve of another microphone looks as good as one of this: another serial number beside it is settled by a person alone.
    internal static CurveReading HeldAgainst(CurveReading reading, string name, CurveAnswers answers, DeviceState device)
    {
        var stated = string.Join(" and ", reading.Serials);
        if (reading.Serials.Count == 0)
            return With(reading, $"The file states no serial number: nothing in it says that it is of {device.Name}.");
        if (reading.Serials.Any(s => IsOf(device, s))) return reading;
        if (string.IsNullOrWhiteSpace(device.Serial))
            return With(reading, $"The file states the serial number {stated}; none is known of {device.Name}.");
        if (answers.Serial is { } told)
        {
            return reading.Serials.Any(s => DeviceIdentity.Normal(s) == DeviceIdentity.Normal(told))
                ? With(reading, $"The file states the serial number {stated}; a person said that it is of {device.Name} all the same.") with
                { IsPlain = false }
                : throw new SheetException($"{name}: serial number '{told}': the file states {stated}.");
        }
        return reading with
        {
            Curves = [],
            Notes = [],
            IsPlain = false,
            Questions =
            [
                new([], $"Is this the curve of {device.Name}? The file states the serial number {stated}, the device has {device.Serial}.",
                    [.. reading.Serials.Select(s => new CurveChoice(s, $"it is, although the file states {s}"))])
                { IsOfSerial = true },
            ],
        };
    }

    private static CurveReading With(CurveReading reading, string note) => reading with { Notes = [.. reading.Notes, note] };

    private static bool IsOf(DeviceState device, string serial) =>
        DeviceIdentity.Normal(serial) is var normal
        && (normal == DeviceIdentity.Normal(device.Serial) || normal == DeviceIdentity.Normal(device.Id));

    /// <summary>The curves of a file by device.</summary>
    /// <param name="reading">Nothing of it is asked.</param>
    /// <param name="content">The file.</param>
    /// <param name="name">Its name.</param>
    /// <param name="answers">What a person said of it, kept beside the curve.</param>
    public static IReadOnlyList<DeviceCurves> ByDevice(CurveReading reading, byte[] content, string name, CurveAnswers answers)
    {
        var sha = Convert.ToHexStringLower(SHA256.HashData(content));
        List<string> said =
        [
            $"from {name}, SHA-256 {sha}",
            .. answers.Columns.OrderBy(c => c.Key).Select(c => FormattableString.Invariant($"column {c.Key}={c.Value.Key}")),
            .. answers.Marks is { } marks ? [$"marks={marks.ToString().ToLowerInvariant()}"] : Array.Empty<string>(),
            .. answers.Serial is { } serial ? [$"serial={serial}"] : Array.Empty<string>(),
            .. reading.Notes,
        ];
        return [.. reading.Curves.GroupBy(c => (c.Device, c.Serial)).Select(g => new DeviceCurves(
            g.Key.Device, g.Key.Serial, [.. g],
            // What says all by itself is kept as it came.
            reading.IsPlain ? content : CurveText.Write([.. g.Select(c => (c.AngleDeg, c.Curve))], said)))];
    }

    /// <summary>The certificate of a device's curves: a response, relative to a reference frequency.</summary>
    public static CertificateIssued Certificate(DeviceCurves curves, CurveCertificate about, string curveSha, string fileSha)
    {
        var angle = about.AngleDeg ?? (curves.Curves is [{ AngleDeg: { } only }] ? only : null);
        return new(
            "response", about.Number, about.Laboratory, null, about.Field ?? curves.Field, curves.Curves.Count > 1 ? null : angle, null,
                about.ReferenceHz,
            [new(AdjustmentState.AsFoundAndLeft, 0, "dB", null, null, null)], null, null, null, null, curveSha, fileSha, null);
    }

    /// <summary>Why what is said of a file's curves cannot be; null where it can.</summary>
    public static string? Wrong(IEnumerable<DeviceCurves> curves, CurveCertificate about)
    {
        foreach (var c in curves)
        {
            if (about.Field is { } field && c.Field is { } own && own != field) return $"Field '{field}': the file's header says {own}.";
            if (about.AngleDeg is { } angle && c.Curves.Any(k => k.AngleDeg is { } stated && stated != angle))
                return FormattableString.Invariant($"Angle of incidence '{angle}': the file's header names {c.Curves[0].AngleDeg}°.");
            if (c.Curves.FirstOrDefault(k => k.Curve.At(about.ReferenceHz) is null) is { } misses)
            {
                return $"Frequency '{CurveHz(about.ReferenceHz)}': the curve goes from {CurveHz(misses.Curve.Points[0].Hz)} to "
                    + $"{CurveHz(misses.Curve.Points[^1].Hz)}.";
            }
        }
        return null;
    }

    /// <summary>How a sensitivity that the file states lies beside the device's newest certificate; null where there is nothing to
    /// compare.</summary>
    public static string? Beside(DeviceState? device, ReadCurve curve)
    {
        if (curve.SensitivityDb is not { } stated) return null;
        if (device is null || CalibrationSeries.Newest(device, "sensitivity") is not { InForce: { } result } certificate
            || ResultLevel.Of(result) is not { } level)
        {
            return "There is no certificate of its sensitivity to hold that of the file against.";
        }
        var at = certificate.Issued.FrequencyHz is { } hz && Math.Abs(hz - curve.AtHz!.Value) > 0.01 * hz
            ? FormattableString.Invariant($", which is stated at {hz:0.##} Hz") : "";
        return $"The file's sensitivity of {QuantityText.Of(stated, "dB", 3)} re 1 V/Pa at {CurveHz(curve.AtHz!.Value)} lies "
            + $"{QuantityText.Change(stated - level.LevelDb, "dB", 3)} from the certificate of {certificate.Day:yyyy-MM-dd}{at}.";
    }

    private static string CurveHz(double hz) => FormattableString.Invariant($"{hz:0.##} Hz");

    private static Func<string, IReadOnlyList<string>> DevicesOf(Register.Register register)
    {
        Dictionary<string, List<string>>? known = null;
        return text =>
        {
            // A header that names an angle or a unit names no device; nor does one without a figure.
            if (text.Length < LeastSerial || !text.Any(char.IsAsciiDigit)
                || !text.All(c => char.IsLetterOrDigit(c) || c is '-' or '.' or '/')) return [];
            known ??= Known(register);
            return known.GetValueOrDefault(DeviceIdentity.Normal(text)) ?? [];
        };
    }

    private static Dictionary<string, List<string>> Known(Register.Register register)
    {
        var known = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var id in register.DeviceIds)
        {
            Add(DeviceIdentity.Normal(id), id);
            if (register.Device(id)?.Serial is { Length: > 0 } serial) Add(DeviceIdentity.Normal(serial), id);
        }
        return known;

        void Add(string text, string id)
        {
            if (!known.TryGetValue(text, out var ids)) known[text] = ids = [];
            if (!ids.Contains(id)) ids.Add(id);
        }
    }
}

/// <summary>The curves of one device in a file.</summary>
/// <param name="Device">Its id; null where the file names none, or none that is known.</param>
/// <param name="Serial">How the file names it.</param>
/// <param name="Curves">One, or one for each angle.</param>
/// <param name="Content">What is kept: the file itself, or a table that the program wrote.</param>
public sealed record DeviceCurves(string? Device, string? Serial, IReadOnlyList<ReadCurve> Curves, byte[] Content)
{
    /// <summary>Sound field that the file names.</summary>
    public string? Field => Curves[0].Field;
}

/// <summary>What a certificate says beside the figures of its curve.</summary>
/// <param name="Day">Day of the measurement.</param>
/// <param name="ReferenceHz">Frequency in Hz that levels are relative to.</param>
public sealed record CurveCertificate(
    DateOnly Day, double ReferenceHz, string? Field = null, double? AngleDeg = null, string? Laboratory = null, string? Number = null);

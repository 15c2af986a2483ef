using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>What people at the desk say about calibrations.</summary>
public static class CalibrationDecisions
{
    /// <summary>What a certificate can state.</summary>
    public static IReadOnlyList<string> Quantities { get; } =
    [
        "sensitivity", "level", "gain", "response", "insertion-loss", "attenuation", "noise-level", "static-pressure",
        "insertion-voltage", "general",
    ];

    /// <summary>Sound fields that a sensitivity or a response can hold for.</summary>
    public static IReadOnlyList<string> Fields { get; } = ["pressure", "free-field", "diffuse"];

    /// <summary>Enters a certificate for a device, or for a set that was calibrated together.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="devices">Ids of one device or of the whole set.</param>
    /// <param name="day">Day of calibration, not after <paramref name="today"/>.</param>
    /// <param name="today">The day it is.</param>
    /// <param name="issued">What the certificate states.</param>
    public static Result<IReadOnlyList<Fact>> Issue(Register register, Saying saying, IReadOnlyList<string> devices, DateOnly day, DateOnly today, CertificateIssued issued)
    {
        if (devices.Count == 0) return Saying.Invalid("A certificate is for at least one device.");
        if (devices.FirstOrDefault(d => register.Device(d) is null) is { } missing) return DeviceDecisions.Missing(missing);
        if (WrongDay(day, today) is { } wrongDay) return wrongDay;
        if (Wrong(issued) is { } wrong) return wrong;
        return saying.On(day, register, issued, [.. devices.Select(d => Subject.Device(register.Device(d)!.Id))]);
    }

    /// <summary>Enters certificates of several devices, all of them or none.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="certificates">Id of a device and what its certificate states; at least one.</param>
    /// <param name="day">Day of calibration, not after <paramref name="today"/>.</param>
    /// <param name="today">The day it is.</param>
    public static Result<IReadOnlyList<Fact>> IssueAll(
        Register register, Saying saying, IReadOnlyList<(string Device, CertificateIssued Issued)> certificates, DateOnly day,
        DateOnly today) => IssueAll(register, saying, [.. certificates.Select(c => (c.Device, day, c.Issued))], today);

    /// <summary>The same where each is of a day of its own.</summary>
    public static Result<IReadOnlyList<Fact>> IssueAll(
        Register register, Saying saying, IReadOnlyList<(string Device, DateOnly Day, CertificateIssued Issued)> certificates,
        DateOnly today)
    {
        if (certificates.Count == 0) return Saying.Invalid("A certificate is for at least one device.");
        var facts = new List<Fact>();
        foreach (var (device, day, issued) in certificates)
        {
            var one = Issue(register, saying, [device], day, today, issued);
            if (one is not Result<IReadOnlyList<Fact>>.Accepted { Value: var said }) return one;
            facts.AddRange(said);
        }
        return new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }

    /// <summary>Says what an alarm was.</summary>
    public static Result<IReadOnlyList<Fact>> Review(Register register, Saying saying, string device, string certificate, AlarmDecision decision, string reason)
    {
        if (register.Device(device) is not { } state) return DeviceDecisions.Missing(device);
        if (state.Certificates.All(c => c.Fact.ToString() != certificate)) return new Rejection(RejectionSort.NotFound, $"{state.Name} has no certificate {certificate}.");
        return DeviceDecisions.Text(reason, "Reason") ?? saying.Of(register, new AlarmReviewed(certificate, decision, reason), Subject.Device(state.Id));
    }

    /// <summary>Says which of several certificates of one quantity and day is in force.</summary>
    public static Result<IReadOnlyList<Fact>> Choose(Register register, Saying saying, string device, string certificate, string reason)
    {
        if (register.Device(device) is not { } state) return DeviceDecisions.Missing(device);
        if (state.Certificates.FirstOrDefault(c => c.Fact.ToString() == certificate) is not { } chosen)
            return new Rejection(RejectionSort.NotFound, $"{state.Name} has no certificate {certificate}.");
        if (!state.ReliesOn(chosen))
            return new Rejection(RejectionSort.Conflict, "That certificate does not count: it was annulled or found bad.");
        return DeviceDecisions.Text(reason, "Reason")
            ?? saying.Of(register, new CertificateChosen(certificate, reason.Trim()), Subject.Device(state.Id));
    }

    /// <summary>States a certificate anew in the place of an earlier one.</summary>
    public static Result<IReadOnlyList<Fact>> Restate(
        Register register, Saying saying, string fact, DateOnly day, DateOnly today, CertificateIssued issued)
    {
        if (CorrectionDecisions.Find(register, fact) is not { Body: CertificateIssued } target) return CorrectionDecisions.Missing(fact);
        if (!register.Counts(register.Find(target.Id)))
        {
            return new Rejection(
                RejectionSort.Conflict, "That certificate does not count any more; another stands in its place or it was annulled.");
        }
        if (WrongDay(day, today) is { } wrongDay) return wrongDay;
        if (Wrong(issued) is { } wrong) return wrong;
        if (saying.Changed(register, target.Subjects[0]) is { } changed) return changed;
        var anew = FactText.WriteDerived(saying.Stamp with { Occurred = Occurred.On(day) }, issued, target.Subjects, target.Id);
        return new Result<IReadOnlyList<Fact>>.Accepted(CorrectionDecisions.InPlaceOf(target, anew, saying.Stamp));
    }

    internal static Rejection? WrongDay(DateOnly day, DateOnly today) =>
        day > today || day.Year < 1950 ? Saying.Invalid($"Day '{day:yyyy-MM-dd}': allowed is from 1950-01-01 to today, {today:yyyy-MM-dd}.") : null;

    /// <summary>Why a certificate cannot be; null when it can.</summary>
    public static Rejection? Wrong(CertificateIssued issued)
    {
        if (!Quantities.Contains(issued.Quantity)) return Saying.Invalid($"Quantity '{issued.Quantity}': allowed are {string.Join(", ", Quantities)}.");
        if (issued.FrequencyHz is { } hz && !(hz is > 0 and <= 1e6)) return Saying.Invalid($"Frequency '{hz}': allowed is a number above 0 up to 1000000 Hz.");
        if (issued.AngleDeg is { } angle && !(angle is >= 0 and <= 180)) return Saying.Invalid(FormattableString.Invariant($"Angle of incidence '{angle}': allowed is a number from 0 to 180 °."));
        if (issued.Field is { } field && !Fields.Contains(field)) return Saying.Invalid($"Field '{field}': allowed are {string.Join(", ", Fields)}.");
        if (issued.StatedForKPa is { } kPa && !(kPa is >= 30 and <= 120)) return Saying.Invalid($"Static pressure '{kPa}' that the level is stated for: allowed is a number from 30 to 120 kPa.");
        if (issued.Tone is { } tone && WrongTone(issued, tone) is { } untrue) return Saying.Invalid(untrue);
        if (issued.Results.Count is 0 or > 10) return Saying.Invalid($"Results: 1 to 10 are allowed, not {issued.Results.Count}.");
        foreach (var sha in new[] { issued.Attachment, issued.Curve }.OfType<string>())
        {
            if (sha.Length != 64 || !sha.All(char.IsAsciiHexDigitLower)) return Saying.Invalid($"Attachment '{sha}': a SHA-256 in 64 small hexadecimal digits is allowed.");
        }
        foreach (var result in issued.Results)
        {
            if (!(Math.Abs(result.Value) <= 1e6) || !(Math.Abs(result.ExpandedUncertainty ?? 0) <= 1e6)) return Saying.Invalid($"Result '{result.Value}' with uncertainty '{result.ExpandedUncertainty}': allowed are numbers up to 1000000.");
            if (!ResultLevel.Units.Contains(result.Unit)) return Saying.Invalid($"Unit '{result.Unit}': allowed are {string.Join(", ", ResultLevel.Units)}.");
            if (ResultLevel.Of(result) is null) return Saying.Invalid($"Result '{result.Value} {result.Unit}': a sensitivity is above 0.");
            if (issued.Quantity == "sensitivity" && result.Unit is "dB" or "kPa") return Saying.Invalid($"Unit '{result.Unit}': a sensitivity is stated in mV/Pa, V/Pa or dB re 1 V/Pa.");
            if (result.ExpandedUncertainty is { } u && !(u > 0)) return Saying.Invalid($"Uncertainty '{u}': it is above 0; leave it out where none was stated.");
            if (result.ExpandedUncertainty is not null && !ResultLevel.UncertaintyUnits.Contains(result.UncertaintyUnit)) return Saying.Invalid($"Unit of uncertainty '{result.UncertaintyUnit}': allowed are {string.Join(", ", ResultLevel.UncertaintyUnits)}.");
            if (ResultLevel.Of(result) is { StandardUncertaintyDb: < ResultLevel.LeastUncertaintyDb }) return Saying.Invalid($"Uncertainty '{result.ExpandedUncertainty} {result.UncertaintyUnit}': it is so small that it must be a slip; at least {ResultLevel.LeastUncertaintyDb} dB are taken.");
            if (result.CoverageFactor is { } k && !(k is >= 0.5 and <= 10)) return Saying.Invalid($"Coverage factor '{k}': allowed is a number from 0.5 to 10.");
        }
        return null;
    }

    private static string? WrongTone(CertificateIssued issued, StatedTone tone)
    {
        if (issued.Quantity != "level") return $"A tone beside the quantity '{issued.Quantity}': only certificates of a level state one.";
        var figures = new (string Name, double? Value, double Greatest, string Unit)[]
        {
            ("Measured frequency", tone.FrequencyHz, 20_000, "Hz"), ("Its uncertainty", tone.FrequencyExpandedPercent, 100, "%"),
            ("Distortion", tone.DistortionPercent, 100, "%"), ("Its uncertainty", tone.DistortionExpandedPercent, 100, "%"),
            ("Fluctuation", tone.FluctuationDb, 10, "dB"),
        };
        foreach (var (name, value, greatest, unit) in figures)
        {
            var isFrequency = unit == "Hz";
            if (value is { } v && !(isFrequency ? v > 0 && v <= greatest : v >= 0 && v <= greatest))
                return FormattableString.Invariant($"{name} '{v}': allowed is a number {(isFrequency ? "above" : "from")} 0 up to {greatest} {unit}.");
        }
        return null;
    }
}

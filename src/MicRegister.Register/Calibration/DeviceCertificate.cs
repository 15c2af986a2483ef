using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>A certificate in a device's history.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Day">Day of calibration.</param>
/// <param name="Issued">What it states.</param>
/// <param name="Set">Ids of the devices it holds for; several when a set was calibrated together.</param>
/// <param name="IsAnnulled">Whether it was annulled or replaced: shown, not used.</param>
public sealed record DeviceCertificate(FactId Fact, DateOnly Day, CertificateIssued Issued, IReadOnlyList<string> Set, bool IsAnnulled)
{
    /// <summary>The result in force from the day on: as left where something was adjusted.</summary>
    public CalibrationResult? InForce => Issued.Results.LastOrDefault(r => r.State != AdjustmentState.AsFound) ?? (Issued.Results.Count > 0 ? Issued.Results[^1] : null);

    /// <summary>The result that tells how the device came in: as found where something was adjusted.</summary>
    public CalibrationResult? Found => Issued.Results.FirstOrDefault(r => r.State != AdjustmentState.AsLeft);

    /// <summary>Whether the device was adjusted, so that results before and after are no one series.</summary>
    public bool WasAdjusted => Issued.Results.Any(r => r.State == AdjustmentState.AsLeft);

    // What was found on the day of the work and then adjusted is how it was before.
    internal bool TellsBefore(Dated<DeviceServiced> work) => Day == work.Day && WasAdjusted;
}

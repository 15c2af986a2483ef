using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Devices;

/// <summary>A result before it is stored, beside what was to be expected of it.</summary>
/// <param name="LevelDb">Its level in reference conditions, in <paramref name="Unit"/>; null where it has none.</param>
/// <param name="Told">What it is held against; null where nothing can be expected.</param>
/// <param name="Unit">Unit of levels: dB, or kPa of a barometer.</param>
public sealed record ExpectedResult(double? LevelDb, EntryExpectation? Told, string Unit)
{
    /// <summary>Holds a certificate against what is known.</summary>
    /// <param name="desk">The desk, which knows the day.</param>
    /// <param name="register">The facts.</param>
    /// <param name="device">The device.</param>
    /// <param name="issued">What the certificate states; at least one result.</param>
    /// <param name="day">Its day.</param>
    public static ExpectedResult Of(
        Desk desk, Register.Register register, DeviceState device, CertificateIssued issued, DateOnly day) => new(
        CalibrationSeries.LevelOf(device, issued, day), EntryExpectation.Of(device, desk.Drift(register, device.Id), issued, day),
        ResultLevel.UnitOf(issued.Quantity));

    /// <summary>Its level with unit.</summary>
    public string LevelText => Text(LevelDb);

    /// <summary>What was expected, with unit.</summary>
    public string ExpectedText => Text(Told?.ExpectedDb);

    /// <summary>How far it lies from that, with sign and unit.</summary>
    public string DeviationText => Told is { } told ? QuantityText.Change(told.DeviationDb, Unit, 3) : QuantityText.None;

    private string Text(double? level) => level is { } known ? QuantityText.Of(known, Unit, 3) : QuantityText.None;
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>
/// Due days from calendar intervals. A due day is valid through its day. Months keep the day of the month; where the month is
/// shorter, its last day is taken: 31 August and six months is 28 or 29 February, 29 February and twelve months is 28 February.
/// </summary>
public static class DueDay
{
    /// <summary>The due day some calendar months after a calibration.</summary>
    /// <param name="calibrated">Day of calibration.</param>
    /// <param name="months">Not negative.</param>
    public static DateOnly AfterMonths(DateOnly calibrated, int months)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(months);
        return calibrated.AddMonths(months);
    }

    /// <summary>The last day within some days after a calibration: the day with that number, inclusive.</summary>
    /// <param name="calibrated">Day of calibration, which is day 0.</param>
    /// <param name="days">Not negative.</param>
    public static DateOnly AfterDays(DateOnly calibrated, int days)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(days);
        return calibrated.AddDays(days);
    }

    /// <summary>The day through which a device's main calibration is valid: the earliest that its certificate, its own interval or a profile gives.</summary>
    /// <param name="device">The device.</param>
    /// <param name="profile">Profile whose intervals count; null for none. One that is counted to the first day of a series only is left out.</param>
    /// <returns>Null where nothing is calibrated about it, or nothing says how long that is valid.</returns>
    public static DateOnly? Of(DeviceState device, ProfileState? profile) => DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity ? null
        : CalibrationDue.Of(device, profile, DateOnly.MinValue, DateOnly.MaxValue).FirstOrDefault(d => d.Quantity == quantity)?.Due;
}

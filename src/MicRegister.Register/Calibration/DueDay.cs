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

    /// <summary>The day through which a device's main calibration is valid: as its certificate states, by its own interval, or by a profile.</summary>
    /// <param name="device">The device.</param>
    /// <param name="profile">Profile that decides where neither certificate nor device does; null leaves that open.</param>
    /// <returns>Null where nothing is calibrated about it, or nothing says how long that is valid.</returns>
    public static DateOnly? Of(DeviceState device, ProfileState? profile)
    {
        if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity || CalibrationSeries.Newest(device, quantity) is not { } newest) return null;
        if (newest.Issued.DueDay is { } stated) return stated;
        var months = device.Number(DeviceField.IntervalMonths) ?? profile?.Value($"{LimitKey.IntervalMonths}{device.Kind}/{quantity}");
        return months is { } m ? AfterMonths(newest.Day, (int)m) : null;
    }
}

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
}

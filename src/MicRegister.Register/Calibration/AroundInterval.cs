using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>An interval that counts both ways: what was calibrated within it before or after the first day of a series serves.</summary>
/// <param name="Length">Days or calendar months.</param>
/// <param name="IsInDays">Whether they are days.</param>
/// <remarks>
/// "Within" a number of days of a series, where the text does not say "before". Both ways are counted from the first day, so that what
/// serves it lies within the interval of every day of the series, or nearer. Months keep the day of the month, as all due days do.
/// </remarks>
public readonly record struct AroundInterval(int Length, bool IsInDays)
{
    /// <summary>The interval of a limit; null where it counts another way.</summary>
    public static AroundInterval? Of(ProfileLimit limit)
    {
        if (limit.Text != LimitKey.AroundFirstDay || limit.Value is not { } value) return null;
        var isInDays = limit.Key.StartsWith(LimitKey.IntervalDays, StringComparison.Ordinal);
        return new((int)Math.Clamp(value, 0, isInDays ? 36_500 : 1200), isInDays);
    }

    /// <summary>The last day that is within the interval after a day, inclusive.</summary>
    public DateOnly Last(DateOnly day) => IsInDays ? DueDay.AfterDays(day, Length) : DueDay.AfterMonths(day, Length);

    /// <summary>The certificate that serves, the nearest to the first day; of two alike near ones the earlier. Null where none does.</summary>
    /// <param name="device">The device with all certificates that are known.</param>
    /// <param name="quantity">What was calibrated.</param>
    /// <param name="firstDay">First day of the series.</param>
    public DeviceCertificate? ServedBy(DeviceState device, string quantity, DateOnly firstDay)
    {
        var (own, best) = (this, default(DeviceCertificate));
        foreach (var c in device.Certificates.Where(c => c.Issued.Quantity == quantity && device.ReliesOn(c)))
        {
            var isWithin = c.Day <= firstDay ? own.Last(c.Day) >= firstDay : firstDay.Year > 1 && own.Last(firstDay) >= c.Day;
            if (!isWithin) continue;
            if (best is null || Off(c) < Off(best) || (Off(c) == Off(best) && c.Day < best.Day)) best = c;
        }
        return best;

        int Off(DeviceCertificate c) => Math.Abs(c.Day.DayNumber - firstDay.DayNumber);
    }

    /// <summary>The newest certificate of a quantity that lies not after a day; null where there is none.</summary>
    public static DeviceCertificate? Before(DeviceState device, string quantity, DateOnly day) =>
        CalibrationSeries.Newest(device.CertifiedBy(day), quantity);

    /// <summary>The length in words, as in "90 days".</summary>
    public override string ToString() => FormattableString.Invariant($"{Length} {(IsInDays ? "days" : "months")}");
}

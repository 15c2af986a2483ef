using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>Through which day a calibration is valid, and through which it has to last.</summary>
/// <param name="Quantity">What was calibrated.</param>
/// <param name="Newest">The certificate in force.</param>
/// <param name="Due">It is valid through this day.</param>
/// <param name="Needed">It has to last through this day.</param>
/// <param name="Why">What says so: the profile, the device's own interval, or the certificate.</param>
/// <param name="Limit">The profile's limit, where that decides.</param>
public sealed record CalibrationDue(string Quantity, DeviceCertificate Newest, DateOnly Due, DateOnly Needed, string Why, ProfileLimit? Limit)
{
    /// <summary>Each calibration of a device by the profile, the device's own interval or the certificate; what is missing most decides, so that one device has one answer for one quantity.</summary>
    /// <param name="device">The device, with the certificates that are to count.</param>
    /// <param name="profile">Its limits; null where there is none.</param>
    /// <param name="firstDay">Day that intervals to the first day of a series are counted to.</param>
    /// <param name="lastDay">Day that all others are counted to.</param>
    /// <param name="later">
    /// The device with the certificates of later days: one within an interval that counts both ways serves; null takes
    /// <paramref name="device"/>.
    /// </param>
    public static IEnumerable<CalibrationDue> Of(
        DeviceState device, ProfileState? profile, DateOnly firstDay, DateOnly lastDay, DeviceState? later = null)
    {
        var limits = profile?.Intervals(device.Kind ?? "").ToList() ?? [];
        var main = DeviceKind.Find(device.Kind)?.Calibrated;
        foreach (var quantity in limits.Select(l => l.Quantity).Concat(main is null ? [] : [main]).Distinct(StringComparer.Ordinal))
        {
            if (CalibrationSeries.Newest(device, quantity) is not { } newest) continue;
            var candidates = new List<CalibrationDue>();
            foreach (var (_, limit) in limits.Where(l => l.Quantity == quantity))
            {
                if (AroundInterval.Of(limit) is { } around)
                {
                    // Where none lies before the first day there is nothing that ran out; what is missing is told by another rule.
                    var serving = around.ServedBy(later ?? device, quantity, firstDay)
                        ?? (firstDay == DateOnly.MinValue ? newest : AroundInterval.Before(device, quantity, firstDay));
                    if (serving is not null)
                        candidates.Add(new(quantity, serving, around.Last(serving.Day), firstDay, $"profile: {around}", limit));
                    continue;
                }
                var inDays = limit.Key.StartsWith(LimitKey.IntervalDays, StringComparison.Ordinal);
                var due = inDays ? DueDay.AfterDays(newest.Day, (int)Math.Clamp(limit.Value!.Value, 0, 36_500)) : DueDay.AfterMonths(newest.Day, (int)Math.Clamp(limit.Value!.Value, 0, 1200));
                var needed = limit.Text == LimitKey.ToFirstDay ? firstDay : lastDay;
                candidates.Add(new(quantity, newest, due, needed, $"profile: {limit.Value} {(inDays ? "days" : "months")}", limit));
            }
            if (quantity == main && device.Number(DeviceField.IntervalMonths) is { } months)
                candidates.Add(new(quantity, newest, DueDay.AfterMonths(newest.Day, (int)Math.Clamp(months, 0, 1200)), lastDay, $"own interval: {months} months", null));
            if (newest.Issued.DueDay is { } stated) candidates.Add(new(quantity, newest, stated, lastDay, "stated on the certificate", null));
            if (candidates.Count > 0) yield return candidates.MinBy(d => d.Due.DayNumber - d.Needed.DayNumber)!;
        }
    }
}

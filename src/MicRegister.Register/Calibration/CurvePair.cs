using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>Two certificates of a device that follow each other in one series, so that their curves can be held against each other.</summary>
/// <param name="Before">The earlier one.</param>
/// <param name="Now">The later one.</param>
internal readonly record struct CurvePair(DeviceCertificate Before, DeviceCertificate Now)
{
    /// <summary>Why nothing can be said of the change; null where the curves can be read.</summary>
    public string? Unread(CurveShelf curves) =>
        Now.Issued.Curve is null ? $"the certificate of {Now.Day:yyyy-MM-dd} holds no curve"
        : Before.Issued.Curve is null ? $"the certificate of {Before.Day:yyyy-MM-dd} holds no curve"
        : curves.Read(Now.Issued.Curve) is null ? $"the curve of {Now.Day:yyyy-MM-dd} cannot be read here"
        : curves.Read(Before.Issued.Curve) is null ? $"the curve of {Before.Day:yyyy-MM-dd} cannot be read here"
        : null;

    /// <summary>The change, angle by angle; null where a curve is missing.</summary>
    public IReadOnlyList<AngleChange>? Change(CurveShelf curves) =>
        Now.Issued.Curve is { } now && Before.Issued.Curve is { } before ? curves.Change(now, before) : null;

    /// <summary>All pairs of a quantity, oldest first in each series; work that makes another device of it parts them.</summary>
    public static IEnumerable<CurvePair> All(DeviceState device, string quantity)
    {
        foreach (var series in Series(device, quantity))
        {
            foreach (var (last, found) in series.Zip(series.Skip(1)))
            {
                if (!device.IsAnotherBetween(last, found)) yield return new(last, found);
            }
        }
    }

    /// <summary>
    /// The pairs that end with the newest certificates: one for each series that was measured on the newest day, as where there is a
    /// certificate for each angle.
    /// </summary>
    public static IReadOnlyList<CurvePair> Last(DeviceState device, string quantity) =>
        CalibrationSeries.Newest(device, quantity) is { } newest
            ? [.. All(device, quantity).Where(p => p.Now.Day == newest.Day)]
            : [];

    /// <summary>
    /// Whether earlier certificates of a quantity are there and none of them can be held against the newest, since they were measured in
    /// another way; work that made another device of it in between is no such case.
    /// </summary>
    public static bool IsAlone(DeviceState device, string quantity) =>
        CalibrationSeries.Newest(device, quantity) is { } newest && Last(device, quantity).Count == 0
            && device.Certificates.Any(c => c.Issued.Quantity == quantity && c.Day < newest.Day && device.ReliesOn(c)
                && !device.IsAnotherBetween(c, newest));

    // Of several on one day the one in force.
    private static IEnumerable<List<DeviceCertificate>> Series(DeviceState device, string quantity) =>
        device.Certificates.Where(c => c.Issued.Quantity == quantity && device.ReliesOn(c)).GroupBy(c => SeriesKey.Of(c.Issued))
            .Select(g => g.GroupBy(c => c.Day).OrderBy(d => d.Key).Select(d => d.MaxBy(c => (device.RankOf(c), c.Fact))!).ToList());
}

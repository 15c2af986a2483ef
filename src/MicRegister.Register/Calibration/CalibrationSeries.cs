using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>
/// The results of one device that can be compared with each other and with the certificate in use: those of the newest
/// certificate's series, in segments that begin anew after a repair, an adjustment or a step that a person confirmed.
/// </summary>
public sealed class CalibrationSeries
{
    private CalibrationSeries(SeriesKey key, IReadOnlyList<Segment> segments, int withoutUncertainty, double inUseDb, DateOnly inUseDay)
    {
        InUseDb = inUseDb;
        InUseDay = inUseDay;
        Key = key;
        Segments = segments;
        WithoutUncertainty = withoutUncertainty;
    }

    public SeriesKey Key { get; }

    /// <summary>Oldest first; the last one holds the certificate in use.</summary>
    public IReadOnlyList<Segment> Segments { get; }

    /// <summary>Level of the certificate in use, in dB, in reference conditions where they can be worked out; also where it states no uncertainty.</summary>
    public double InUseDb { get; }

    /// <summary>Day of the certificate in use.</summary>
    public DateOnly InUseDay { get; }

    /// <summary>Results that stated no uncertainty, so that they say nothing about drift.</summary>
    public int WithoutUncertainty { get; }

    /// <summary>The results from which a forecast is made.</summary>
    public Segment Current => Segments[^1];

    /// <summary>The newest certificate of a quantity that counts and was not found to be a bad result; null where there is none.</summary>
    public static DeviceCertificate? Newest(DeviceState device, string quantity) => device.Certificates
        .Where(c => !c.IsAnnulled && c.Issued.Quantity == quantity && device.Reviews.GetValueOrDefault(c.Fact.ToString())?.Decision != AlarmDecision.BadResult).MaxBy(c => c.Day);

    /// <summary>The series of the certificate in use.</summary>
    /// <returns>Null where no result of the quantity states an uncertainty.</returns>
    public static CalibrationSeries? Of(DeviceState device, string quantity)
    {
        if (Newest(device, quantity) is not { } newest) return null;
        var key = SeriesKey.Of(newest.Issued);
        var segments = new List<List<SeriesPoint>> { new() };
        var without = 0;
        var restarts = device.Services.Where(s => s.What.BeginsAnew).Select(s => s.Day).ToList();
        DateOnly? before = null;
        foreach (var certificate in device.Certificates.Where(c => !c.IsAnnulled && SeriesKey.Of(c.Issued) == key).OrderBy(c => c.Day))
        {
            var review = device.Reviews.GetValueOrDefault(certificate.Fact.ToString())?.Decision;
            if (review == AlarmDecision.BadResult) continue;
            if (review == AlarmDecision.LastingStep || restarts.Any(r => before < r && r <= certificate.Day)) Begin(segments);
            before = certificate.Day;

            if (Point(device, certificate, certificate.Found) is { } found) segments[^1].Add(found);
            else without++;
            if (!certificate.WasAdjusted) continue;
            Begin(segments);
            if (Point(device, certificate, certificate.InForce) is { } left) segments[^1].Add(left);
        }
        segments.RemoveAll(s => s.Count == 0);
        if (segments.Count == 0) return null;
        var last = segments[^1].MaxBy(p => p.Day)!;
        var inUse = newest.InForce is { } force && ResultLevel.Of(force) is { } level ? AtReference(device, newest, level.LevelDb) : last.LevelDb;
        return new(key, [.. segments.Select(s => new Segment([.. s.OrderBy(p => p.Day)]))], without, inUse, newest.Day);
    }

    private static void Begin(List<List<SeriesPoint>> segments)
    {
        if (segments[^1].Count > 0) segments.Add([]);
    }

    private static SeriesPoint? Point(DeviceState device, DeviceCertificate certificate, CalibrationResult? result)
    {
        if (result is null || ResultLevel.Of(result) is not { StandardUncertaintyDb: { } u } level) return null;
        return new(certificate.Fact.ToString(), certificate.Day, AtReference(device, certificate, level.LevelDb), u);
    }

    /// <summary>A level as it would be in reference conditions, where the device's coefficients and the conditions are known.</summary>
    internal static double AtReference(DeviceState device, DeviceCertificate certificate, double levelDb)
    {
        if (certificate.Issued.Quantity != "sensitivity" || certificate.Issued.Air is not { PressureKPa: { } p, TemperatureC: { } t, HumidityPercent: { } h }) return levelDb;
        var own = new EnvironmentCoefficients(
            device.Number(DeviceField.PressureCoefficient) ?? 0, device.Number(DeviceField.TemperatureCoefficient) ?? 0, device.Number(DeviceField.HumidityCoefficient) ?? 0);
        return own.ToReference(new(levelDb), new(p, t, h)).Decibels;
    }
}

/// <summary>One result of a series, in reference conditions where they can be worked out.</summary>
public sealed record SeriesPoint(string Certificate, DateOnly Day, double LevelDb, double StandardUncertaintyDb);

/// <summary>Results between two new beginnings, oldest first.</summary>
public sealed class Segment
{
    internal Segment(IReadOnlyList<SeriesPoint> points)
    {
        Points = points;
        History = new([.. points.Select(p => (double)p.Day.DayNumber)], [.. points.Select(p => p.LevelDb)], [.. points.Select(p => p.StandardUncertaintyDb)]);
    }

    public IReadOnlyList<SeriesPoint> Points { get; }

    public ResultHistory History { get; }

    public SeriesPoint Newest => Points[^1];
}

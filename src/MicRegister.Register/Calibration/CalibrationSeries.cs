using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Sensitivities;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>
/// The results of one device that can be compared with each other and with the certificate in use: those of the newest
/// certificate's series. A repair that makes it another device begins a new life; an adjustment, or a step that a person
/// confirmed, begins a new level within it.
/// </summary>
public sealed class CalibrationSeries
{
    private const double SameDb = 1e-6;

    private CalibrationSeries(SeriesKey key, IReadOnlyList<Life> lives, IReadOnlyList<SeriesPoint> leftOut, int withoutUncertainty, double inUseDb, DateOnly inUseDay, DateOnly? begunAnewOn)
    {
        BegunAnewOn = begunAnewOn;
        InUseDb = inUseDb;
        InUseDay = inUseDay;
        Key = key;
        Lives = lives;
        LeftOut = leftOut;
        WithoutUncertainty = withoutUncertainty;
    }

    public SeriesKey Key { get; }

    /// <summary>Oldest first; the last one holds the newest result.</summary>
    public IReadOnlyList<Life> Lives { get; }

    /// <summary>Results that a person found to be bad: shown, not used.</summary>
    public IReadOnlyList<SeriesPoint> LeftOut { get; }

    /// <summary>Level of the certificate in use, in dB, in reference conditions where they can be worked out; also where it states no uncertainty.</summary>
    public double InUseDb { get; }

    /// <summary>Day of the certificate in use.</summary>
    public DateOnly InUseDay { get; }

    /// <summary>Day of a repair after the newest result with which results begin anew: nothing on file tells of the device as it is now.</summary>
    public DateOnly? BegunAnewOn { get; }

    /// <summary>Results that stated no uncertainty, so that they say nothing about drift.</summary>
    public int WithoutUncertainty { get; }

    /// <summary>The results from which a forecast is made.</summary>
    public Life Current => Lives[^1];

    /// <summary>All results that count, oldest first.</summary>
    public IEnumerable<SeriesPoint> Points => Lives.SelectMany(l => l.Points);

    /// <summary>The same, cut where a new level is known to begin.</summary>
    public IEnumerable<IReadOnlyList<SeriesPoint>> Levels => Lives.SelectMany(l => l.Levels);

    /// <summary>The newest certificate of a quantity that counts and was not found to be a bad result; null where there is none.</summary>
    /// <remarks>
    /// Of several on one day: that of the series with the most results, then the one with the lowest frequency, then the one that a person
    /// chose, then the last by id. Readiness, traces and forecasts follow this one rule.
    /// </remarks>
    public static DeviceCertificate? Newest(DeviceState device, string quantity)
    {
        // Asked some twenty times for each device of a trace: most have one certificate on their last day, and nothing is made for it.
        DeviceCertificate? last = null;
        var isAlone = true;
        foreach (var c in device.Certificates)
        {
            if (c.Issued.Quantity != quantity || c.Day < last?.Day || !device.ReliesOn(c)) continue;
            (isAlone, last) = (last is null || c.Day > last.Day, c);
        }
        return isAlone ? last : NewestOf(device, quantity, last!.Day);
    }

    private static DeviceCertificate NewestOf(DeviceState device, string quantity, DateOnly last)
    {
        var all = device.Certificates.Where(c => c.Issued.Quantity == quantity && device.ReliesOn(c)).ToList();
        return all.Where(c => c.Day == last).GroupBy(c => SeriesKey.Of(c.Issued))
            .OrderByDescending(g => all.Count(c => SeriesKey.Of(c.Issued) == g.Key)).ThenBy(g => g.Key.FrequencyHz ?? 0)
            .ThenBy(g => g.Key.ToString(), StringComparer.Ordinal)
            .First().MaxBy(c => (device.RankOf(c), c.Fact))!;
    }

    /// <summary>
    /// Certificates beside the newest of its quantity, day and series that say otherwise, where nobody chose: empty where there is no doubt
    /// which is in force.
    /// </summary>
    public static IReadOnlyList<DeviceCertificate> Rivals(DeviceState device, string quantity)
    {
        if (Newest(device, quantity) is not { InForce: { } force } newest || device.RankOf(newest) >= 0) return [];
        if (ResultLevel.Of(force) is not { } level) return [];
        var key = SeriesKey.Of(newest.Issued);
        return [.. device.Certificates.Where(c => c.Day == newest.Day && c.Fact != newest.Fact && c.Issued.Quantity == quantity
            && SeriesKey.Of(c.Issued) == key && device.ReliesOn(c)
            && c.InForce is { } other && ResultLevel.Of(other) is { } rival && Math.Abs(rival.LevelDb - level.LevelDb) > SameDb)];
    }

    /// <summary>The series of the certificate in use.</summary>
    /// <returns>Null where no result of the quantity states an uncertainty.</returns>
    public static CalibrationSeries? Of(DeviceState device, string quantity)
    {
        if (Newest(device, quantity) is not { } newest) return null;
        var key = SeriesKey.Of(newest.Issued);
        var lives = new List<LifeBuilder> { new() };
        var leftOut = new List<SeriesPoint>();
        var without = 0;
        var repairs = device.Services.Where(s => s.What.BeginsAnew).Select(s => s.Day).ToList();
        DateOnly? before = null;
        // Of one day, the order of ids decides, so that the order in which they came does not.
        var own = device.Certificates.Where(c => !c.IsAnnulled && SeriesKey.Of(c.Issued) == key);
        foreach (var certificate in own.OrderBy(c => c.Day).ThenBy(device.RankOf).ThenBy(c => c.Fact))
        {
            var (found, left, review) = (Point(device, certificate, certificate.Found), Point(device, certificate, certificate.InForce), Review(device, certificate));
            if (review == AlarmDecision.BadResult)
            {
                if (found is not null) leftOut.Add(found);
                continue;
            }
            if (repairs.Any(r => before < r && r <= certificate.Day) && lives[^1].Points.Count > 0) lives.Add(new());
            before = certificate.Day;

            if (review == AlarmDecision.LastingStep) lives[^1].BeginLevel();
            if (found is null) without++;
            else lives[^1].Add(found, isReviewed: review is not null);
            if (!certificate.WasAdjusted) continue;
            lives[^1].BeginLevel();
            if (left is not null) lives[^1].Add(left, isReviewed: review is not null);
        }
        var begunAnew = repairs.Where(r => r > before).Cast<DateOnly?>().Max();
        lives.RemoveAll(l => l.Points.Count == 0);
        if (lives.Count == 0) return null;
        var last = lives[^1].Points[^1];
        var inUse = newest.InForce is { } force && ResultLevel.Of(force) is { } level ? AtReference(device, newest, level.LevelDb) : last.LevelDb;
        return new(key, [.. lives.Select(l => l.Build())], leftOut, without, inUse, newest.Day, begunAnew);
    }

    /// <summary>What a certificate that is not entered yet would add to a series: its result as found.</summary>
    /// <returns>Null where it states no uncertainty.</returns>
    public static SeriesPoint? Stated(DeviceState device, CertificateIssued issued, DateOnly day)
    {
        var certificate = new DeviceCertificate(default, day, issued, [device.Id], false);
        return Point(device, certificate, certificate.Found);
    }

    /// <summary>Level of a certificate's result as found, in dB, in reference conditions where they can be worked out; whether or not it
    /// states an uncertainty.</summary>
    /// <returns>Null where it states no result that is a level.</returns>
    public static double? LevelOf(DeviceState device, CertificateIssued issued, DateOnly day)
    {
        var certificate = new DeviceCertificate(default, day, issued, [device.Id], false);
        return certificate.Found is { } found && ResultLevel.Of(found) is { } level
            ? AtReference(device, certificate, level.LevelDb) : null;
    }

    private static AlarmDecision? Review(DeviceState device, DeviceCertificate certificate) => device.Reviews.GetValueOrDefault(certificate.Fact.ToString())?.Decision;

    private static SeriesPoint? Point(DeviceState device, DeviceCertificate certificate, CalibrationResult? result)
    {
        // Facts from elsewhere may state what nobody may enter here.
        if (result is null || ResultLevel.Of(result) is not { StandardUncertaintyDb: { } u and >= ResultLevel.LeastUncertaintyDb } level || !(Math.Abs(level.LevelDb) <= 1e6) || !(u <= 1e3)) return null;
        return new(certificate.Fact.ToString(), certificate.Day, AtReference(device, certificate, level.LevelDb), u, certificate.Issued.Laboratory);
    }

    /// <summary>A level as it would be in reference conditions, where the device's coefficients and the conditions are known.</summary>
    internal static double AtReference(DeviceState device, DeviceCertificate certificate, double levelDb)
    {
        if (certificate.Issued.Quantity != "sensitivity" || certificate.Issued.Air is not { } air) return levelDb;
        var own = new EnvironmentCoefficients(
            device.Number(DeviceField.PressureCoefficient) ?? 0, device.Number(DeviceField.TemperatureCoefficient) ?? 0, device.Number(DeviceField.HumidityCoefficient) ?? 0);
        // What was not written down is taken as in reference conditions; what was is put right.
        var reference = AirConditions.Reference;
        return own.ToReference(new(levelDb), new(air.PressureKPa ?? reference.PressureKPa, air.TemperatureC ?? reference.TemperatureC, air.HumidityPercent ?? reference.HumidityPercent)).Decibels;
    }

    private sealed class LifeBuilder
    {
        private readonly List<int> _restarts = [];
        private readonly List<int> _reviewed = [];
        private bool _begins;

        public List<SeriesPoint> Points { get; } = [];

        public void BeginLevel() => _begins = Points.Count > 0;

        public void Add(SeriesPoint point, bool isReviewed)
        {
            if (_begins) _restarts.Add(Points.Count);
            if (isReviewed) _reviewed.Add(Points.Count);
            _begins = false;
            Points.Add(point);
        }

        public Life Build() => new(Points, _restarts, _reviewed);
    }
}

/// <summary>One result of a series, in reference conditions where they can be worked out.</summary>
public sealed record SeriesPoint(string Certificate, DateOnly Day, double LevelDb, double StandardUncertaintyDb, string? Laboratory = null);

/// <summary>Results between two repairs that made another device of it, oldest first.</summary>
public sealed class Life
{
    internal Life(IReadOnlyList<SeriesPoint> points, IReadOnlyList<int> restarts, IReadOnlyList<int> reviewed)
    {
        Points = points;
        History = new([.. points.Select(p => (double)p.Day.DayNumber)], [.. points.Select(p => p.LevelDb)], [.. points.Select(p => p.StandardUncertaintyDb)], restarts, reviewed);
    }

    public IReadOnlyList<SeriesPoint> Points { get; }

    public ResultHistory History { get; }

    public SeriesPoint Newest => Points[^1];

    /// <summary>Results cut where a new level is known to begin.</summary>
    public IEnumerable<IReadOnlyList<SeriesPoint>> Levels
    {
        get
        {
            var from = 0;
            foreach (var restart in History.Restarts.Append(Points.Count))
            {
                yield return [.. Points.Skip(from).Take(restart - from)];
                from = restart;
            }
        }
    }
}

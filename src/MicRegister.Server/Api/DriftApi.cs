using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Drift: of one device, of all models, and whether a new result fits.</summary>
internal static class DriftApi
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/api/devices/{id}/forecast", Forecast).Produces<DriftView>().WithTags("drift");
        app.MapGet("/api/devices/{id}/entry-check", Check).Produces<EntryView>().WithTags("drift");
        app.MapGet("/api/drift", (Desk desk, double? limitDb, int? offset, int? limit) => Wrong(limitDb) ?? Answers.Paged(
            ModelView.All(desk.Now.Drift(desk.Today), desk.Today, limitDb ?? Usual(desk)), offset, limit))
            .Produces<Page<ModelView>>().WithTags("drift");
    }

    /// <summary>The drift limit of the usual profile, in dB.</summary>
    public static double Usual(Desk desk) => desk.Now.Profile(BuiltInProfiles.Usual)?.Value(LimitKey.DriftDb) ?? 0.3;

    private static IResult Forecast(HttpContext context, Desk desk, string id, DateOnly? on, double? limitDb)
    {
        if (Wrong(limitDb) is { } wrong) return wrong;
        if (desk.Now.Device(id) is not { } device) return Answers.NotFound($"There is no device {id}.");
        if (desk.Now.Drift(desk.Today).Of(device.Id) is not { } drift)
            return Answers.NotFound($"{device.Name} has no result with an uncertainty, so that nothing can be forecast.");
        return Answers.Read(
            context, FormattableString.Invariant($"\"{desk.Now.Count}-{desk.Now.DriftMemory.Version}-{desk.Today:yyyyMMdd}\""),
            () => Results.Ok(DriftView.Of(drift, on ?? desk.Today, limitDb ?? Usual(desk))));
    }

    private static IResult Check(Desk desk, string id, DateOnly day, double levelDb, double standardUncertaintyDb)
    {
        if (desk.Now.Device(id) is not { } device) return Answers.NotFound($"There is no device {id}.");
        if (!(standardUncertaintyDb is >= ResultHistory.LeastUncertaintyDb and <= 1000) || !(Math.Abs(levelDb) <= 1e6))
            return Answers.Invalid($"Level '{levelDb}' with standard uncertainty '{standardUncertaintyDb}': allowed are a finite level "
                + $"and an uncertainty from {ResultHistory.LeastUncertaintyDb} to 1000 dB.");
        if (desk.Now.Drift(desk.Today).Of(device.Id) is not { } drift)
            return Answers.NotFound($"{device.Name} has no result with an uncertainty to compare with.");
        if (day.DayNumber < drift.Forecast.NewestDay)
            return Answers.Invalid($"Day '{day:yyyy-MM-dd}': a result older than the newest one, "
                + $"{drift.Series.Current.Newest.Day:yyyy-MM-dd}, is judged by looking through the whole history once it is entered.");
        var check = drift.Forecast.Check(day.DayNumber, levelDb, standardUncertaintyDb);
        return Results.Ok(new EntryView(
            check.ExpectedDb, check.DeviationDb, check.StandardDeviationDb, check.Z, check.Fits, EntryCheck.Limit));
    }

    private static IResult? Wrong(double? limitDb) => limitDb is { } l && !(l is > 0 and <= 100)
        ? Answers.Invalid($"Limit '{limitDb}': allowed is a number above 0 up to 100 dB.")
        : null;
}

/// <summary>A new result against what was to be expected.</summary>
/// <param name="Fits">Whether |z| is at most the limit; 1 % of good results exceed it.</param>
public sealed record EntryView(double ExpectedDb, double DeviationDb, double StandardDeviationDb, double Z, bool Fits, double Limit);

/// <summary>What is known of a device's drift, on one day.</summary>
/// <param name="Device">Id.</param>
/// <param name="Name">Words that people know it by.</param>
/// <param name="On">Day of the forecast; the newest result's where that is later.</param>
/// <param name="CertifiedDb">Level of the certificate in use, in dB.</param>
/// <param name="LevelDb">Expected level in dB.</param>
/// <param name="StandardDeviationDb">Its standard deviation in dB.</param>
/// <param name="LowDb">2.5 % quantile in dB.</param>
/// <param name="HighDb">97.5 % quantile in dB.</param>
/// <param name="LimitDb">Limit asked about, in dB.</param>
/// <param name="Probability">Probability to be within the limit of the certificate in use.</param>
/// <param name="ProbabilityIfNewestIsWrong">While the newest result is open: the probability if it is wrong; null otherwise.</param>
/// <param name="ProbabilityIfItChanged">While the newest result is open: the probability if the device changed; null otherwise.</param>
/// <param name="Results">Results of its own behind it.</param>
/// <param name="Devices">Devices of its model behind it.</param>
/// <param name="ModelResults">Results of its model behind it.</param>
/// <param name="Basis">Which assumption decides.</param>
/// <param name="Findings">Steps and bad results.</param>
/// <param name="IntervalDays">Days from the newest result to the next calibration; 0 is due now.</param>
/// <param name="IntervalReason">Why.</param>
/// <param name="Staircase">What the staircase would take; empty where there is no last interval.</param>
/// <param name="SteadySlopeDbPerYear">
/// Where a straight line explains the results at least as well as a step: its slope in dB per year; null otherwise.
/// </param>
/// <param name="SteadyDeviationDb">And where that line would be on the day, from the certificate in use, in dB.</param>
/// <param name="Pool">Version of the pool that answered.</param>
public sealed record DriftView(
    string Device, string Name, DateOnly On, double CertifiedDb, double LevelDb, double StandardDeviationDb, double LowDb,
    double HighDb, double LimitDb, double Probability, double? ProbabilityIfNewestIsWrong, double? ProbabilityIfItChanged, int Results,
    int Devices, int ModelResults, string Basis, IReadOnlyList<FindingView> Findings, int IntervalDays, string IntervalReason,
    string Staircase, double? SteadySlopeDbPerYear, double? SteadyDeviationDb, string Pool)
{
    /// <summary>Probability asked for where no profile says.</summary>
    public const double Target = 0.95;

    public static DriftView Of(DeviceDrift drift, DateOnly on, double limitDb)
    {
        var day = on.DayNumber < drift.Forecast.NewestDay ? drift.Series.Current.Newest.Day : on;
        var (forecast, reference) = (drift.At(day), drift.Series.InUseDb);
        var (low, high) = forecast.Band();
        var halves = drift.Forecast.Halves(day.DayNumber);
        // While nobody knows what the newest result is, no interval can be promised.
        var interval = drift.Forecast.IsNewestOpen
            ? new(0, Metrology.Intervals.IntervalReason.OpenNewest)
            : ForecastInterval.Of(drift.Forecast, reference, limitDb, Target, ForecastInterval.CapOf(drift.Forecast.History));
        return new(
            drift.Device.Id, drift.Device.Name, day, reference, forecast.LevelDb, forecast.StandardDeviationDb, low, high, limitDb,
            forecast.ProbabilityWithin(reference, limitDb), halves?.LeftOut.ProbabilityWithin(reference, limitDb),
            halves?.BeganAnew.ProbabilityWithin(reference, limitDb), drift.Results, drift.ModelDevices, drift.Fleet.Pool.Results,
            DriftWords.Basis(drift, day, limitDb), [.. drift.Findings.Select(f => FindingView.Of(drift, f.Finding, f.Point, f.Life))],
            interval.Days, DriftWords.Interval(interval, limitDb, Target) + DriftWords.SteadyLeaves(drift, limitDb),
            DriftWords.NextByStaircase(drift, limitDb, Target), drift.Steady?.SlopeDbPerYear,
            drift.Steady is { } steady ? steady.Line.At(day.DayNumber) - reference : null, drift.PoolVersion);
    }
}

/// <summary>A step or a bad result.</summary>
/// <param name="Kind">lasting step, bad result, step or bad result, newest result open, first result open.</param>
/// <param name="Day">Day of the result with which it begins.</param>
/// <param name="Certificate">Id of its certificate.</param>
/// <param name="SizeDb">Its size in dB.</param>
/// <param name="Z">Its size in standard deviations.</param>
/// <param name="Threshold">What |z| had to exceed.</param>
/// <param name="IsCertain">Whether it stands out in the whole fleet.</param>
/// <param name="Text">The finding as a sentence.</param>
public sealed record FindingView(
    string Kind, DateOnly Day, string Certificate, double SizeDb, double Z, double Threshold, bool IsCertain, string Text)
{
    public static FindingView Of(
        DeviceDrift drift, DriftFinding f, Register.Calibration.SeriesPoint point, Register.Calibration.Life life) =>
        new(
            DriftWords.Kind(f.Kind), point.Day, point.Certificate, f.SizeDb, f.Z, f.Threshold,
            f.IsCertain(drift.Fleet.Pool.Devices, life.Points.Count), DriftWords.Found(drift, f, point, life));
}

/// <summary>The devices of one model together.</summary>
/// <param name="Kind">Key of the kind.</param>
/// <param name="Model">Maker and model, or the device where its model is not known.</param>
/// <param name="Quantity">What is forecast, with its frequency.</param>
/// <param name="Devices">How many.</param>
/// <param name="Results">Results behind it.</param>
/// <param name="Walk">Walk in dB per square root of a year.</param>
/// <param name="SlopeSpread">Slope spread in dB per year.</param>
/// <param name="Scatter">Scatter of results as a multiple of their stated standard uncertainty.</param>
/// <param name="IsOutsideTried">Whether it drifts more than the forecasts were tried with.</param>
/// <param name="MeanProbability">Mean probability to be within the limit a year from today.</param>
/// <param name="Found">Devices in which something was found.</param>
/// <param name="ProvenMonths">
/// Interval that the in/out-of-tolerance record proves for 95 % with 95 % confidence, in months; null where there is none.
/// </param>
/// <param name="Record">That record in words.</param>
/// <param name="Pool">Version of the pool.</param>
public sealed record ModelView(
    string Kind, string Model, string Quantity, int Devices, int Results, double Walk, double SlopeSpread, double Scatter,
    bool IsOutsideTried, double MeanProbability, int Found, double? ProvenMonths, string Record, string Pool)
{
    public static IReadOnlyList<ModelView> All(DriftBook book, DateOnly today, double limitDb) =>
        [.. book.Models.Select(m => Of(m, today, limitDb))];

    public static ModelView Of(ModelDrift model, DateOnly today, double limitDb)
    {
        var pool = model.Fleet.Pool;
        var record = ToleranceRecord.Of(model.Devices, limitDb);
        var first = model.Devices[0];
        var name = model.Key.Alone is null ? $"{first.Device.Maker} {first.Device.Model}".Trim() : first.Device.Name;
        var frequency = model.Key.Series.FrequencyHz is { } hz ? FormattableString.Invariant($", {hz:0.#} Hz") : "";
        return new(
            model.Key.Kind, name, model.Key.Series.Quantity + frequency, model.Devices.Count, pool.Results, pool.Walk,
            pool.SlopeSpread, pool.Scatter, pool.IsOutsideTried,
            model.Devices.Average(d => d.At(today.AddYears(1)).ProbabilityWithin(d.Series.InUseDb, limitDb)),
            model.Devices.Count(d => d.Findings.Count > 0), record.ProvenMonths, record.Words, DeviceDrift.Version(model.Fleet));
    }
}

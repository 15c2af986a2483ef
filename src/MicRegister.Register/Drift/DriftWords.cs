using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;

namespace MicRegister.Register.Drift;

/// <summary>What the drift model says, in sentences for people: the figure, where it comes from, and which assumption decides.</summary>
public static class DriftWords
{
    /// <summary>A probability as people read it: what is nearly sure is not printed as sure.</summary>
    public static string Probability(double p) => p is > 0.9995 and < 1 ? "over 0.999" : p is < 0.0005 and > 0 ? "under 0.001" : FormattableString.Invariant($"{p:0.000}");

    /// <summary>Who stands behind a forecast.</summary>
    public static string Behind(DeviceDrift drift) =>
        $"from {Count(drift.Results, "result")} of its own and {Count(drift.ModelDevices, "device")} with {Count(drift.Fleet.Pool.Results, "result")} of its model, pool {drift.PoolVersion}";

    /// <summary>Which assumption decides how wide the forecast is.</summary>
    /// <param name="drift">The device.</param>
    /// <param name="day">Day of the forecast.</param>
    /// <param name="limitDb">Limit asked about, in dB; null where none is.</param>
    public static string Basis(DeviceDrift drift, DateOnly day, double? limitDb) => Decides(drift, day, limitDb)
        + (drift.Fleet.Pool.IsOutsideTried
            ? $"; its model walks {QuantityText.Of(drift.Fleet.Pool.Walk, "dB", 3)} a square root of a year, "
                + "more than the forecast was tried with, so the figure may be too good"
            : "");

    private static string Decides(DeviceDrift drift, DateOnly day, double? limitDb)
    {
        var forecast = drift.Forecast;
        switch (forecast.Basis(Math.Max(day.DayNumber, forecast.NewestDay)))
        {
            case ForecastBasis.OpenNewest:
                var (leftOut, anew) = forecast.Halves(Math.Max(day.DayNumber, forecast.NewestDay))!.Value;
                return limitDb is { } limit
                    ? FormattableString.Invariant($"the newest result deviates and decides: {Probability(leftOut.ProbabilityWithin(drift.Series.InUseDb, limit))} if it is wrong, {Probability(anew.ProbabilityWithin(drift.Series.InUseDb, limit))} if the device changed")
                    : "the newest result deviates and decides";
            case ForecastBasis.Certificate:
                return limitDb is { } l && Tolerance.Around(0, l).Probability(0, drift.Series.Current.Newest.StandardUncertaintyDb) < 0.96
                    ? "the certificate's own uncertainty decides: it is too coarse for this limit, the device need not have drifted"
                    : "the certificate's own uncertainty decides";
            case ForecastBasis.Priors:
                return "with so few results, what is assumed of any model's drift decides";
            default:
                return $"the drift of its model decides: walk {QuantityText.Of(drift.Fleet.Pool.Walk, "dB", 3)} a square root of a year, "
                    + $"slopes {QuantityText.Of(drift.Fleet.Pool.SlopeSpread, "dB", 3)} a year";
        }
    }

    /// <summary>What was found, as a sentence.</summary>
    public static string Found(DeviceDrift drift, DriftFinding finding, SeriesPoint point, Life life)
    {
        var certain = finding.IsCertain(drift.Fleet.Pool.Devices, life.Points.Count) ? "" : FormattableString.Invariant($"; among {drift.Fleet.Pool.Devices} healthy histories about {0.01 * drift.Fleet.Pool.Devices:0.##} show the like by chance");
        var where = FormattableString.Invariant($"result of {point.Day:yyyy-MM-dd}{(point.Laboratory is { } lab ? " by " + lab : "")}");
        var size = QuantityText.Change(finding.SizeDb, "dB", 3)
            + FormattableString.Invariant($", {Math.Abs(finding.Z):0.0} standard deviations ")
            + FormattableString.Invariant($"where {finding.Threshold:0.0} would be scatter{certain}");
        return finding.Kind switch
        {
            DriftFindingKind.LastingStep => $"it changed for good with its {where} ({size}).",
            DriftFindingKind.BadResult => $"its {where} is most likely wrong ({size}); the forecast leaves it out.",
            DriftFindingKind.NewestOpen => $"its newest {where} deviates ({size}); only another calibration can tell whether the device changed or the result is wrong. The forecast is half the one, half the other.",
            DriftFindingKind.FirstOpen => $"its first {where} deviates from all later ones ({size}); the forecast leaves it out.",
            _ => $"with its {where} it changed or that result is wrong, which cannot be told ({size}); the forecast takes it as a change.",
        };
    }

    /// <summary>That a steady drift explains a history as well as a step, and where it would lead; empty where it does not.</summary>
    /// <param name="drift">The device.</param>
    /// <param name="day">Day to which the drift is carried on.</param>
    public static string Steady(DeviceDrift drift, DateOnly day)
    {
        if (drift.Steady is not { } steady) return "";
        var deviation = steady.Line.At(day.DayNumber) - drift.Series.InUseDb;
        return $"A steady drift of {QuantityText.Change(steady.SlopeDbPerYear, "dB", 3)} a year explains its results about as well: "
            + $"if it goes on so, it deviates by {QuantityText.Change(deviation, "dB", 3)} "
            + FormattableString.Invariant($"on {day:yyyy-MM-dd}, which the forecast from its model does not expect.");
    }

    /// <summary>On which day a steady drift would leave a limit; empty where there is none, or where it is long until then.</summary>
    public static string SteadyLeaves(DeviceDrift drift, double limitDb)
    {
        if (drift.Steady is not { SlopeDbPerYear: not 0 } steady) return "";
        var newest = drift.Forecast.NewestDay;
        var years = (limitDb - (Math.Sign(steady.SlopeDbPerYear) * (steady.Line.At(newest) - drift.Series.InUseDb))) / Math.Abs(steady.SlopeDbPerYear);
        return years is >= 0 and < 20 ? FormattableString.Invariant($"; but if it goes on drifting steadily it leaves the limit on {DateOnly.FromDayNumber((int)(newest + (years * 365.25))):yyyy-MM-dd}") : "";
    }

    /// <summary>Short words for a finding.</summary>
    public static string Kind(DriftFindingKind kind) => kind switch
    {
        DriftFindingKind.LastingStep => "lasting step",
        DriftFindingKind.BadResult => "bad result",
        DriftFindingKind.NewestOpen => "newest result open",
        DriftFindingKind.FirstOpen => "first result open",
        _ => "step or bad result",
    };

    /// <summary>Why an interval is what it is.</summary>
    public static string Interval(ForecastInterval interval, double limitDb, double target) => interval.Why switch
    {
        IntervalReason.Cap => FormattableString.Invariant($"{interval.Days} days: until then the probability to stay within ±{limitDb} dB does not fall under {target}, and the data bear no longer interval"),
        IntervalReason.CoarseCertificate => FormattableString.Invariant($"due now: the certificate is too coarse for ±{limitDb} dB; the device need not have drifted"),
        IntervalReason.OpenNewest => "due now: the newest result deviates, and only another can tell why",
        _ when interval.Days == 0 => FormattableString.Invariant($"due now: the probability to stay within ±{limitDb} dB falls under {target} in less than {ForecastInterval.FloorDays} days"),
        _ => FormattableString.Invariant($"{interval.Days} days: then the probability to stay within ±{limitDb} dB falls under {target}"),
    };

    /// <summary>What the staircase would take for the next interval, from the last one and how the device was found; empty where there is no last one.</summary>
    /// <remarks>ILAC-G24:2022 / OIML D 10:2022, 6.2.</remarks>
    public static string NextByStaircase(DeviceDrift drift, double limitDb, double target)
    {
        if (drift.Series.Current.Levels.Last() is not [.., var before, var newest] || newest.Day == before.Day) return "";
        var (days, deviation) = (newest.Day.DayNumber - before.Day.DayNumber, newest.LevelDb - before.LevelDb);
        var next = Staircase.Next(days, deviation, limitDb, target, ForecastInterval.FloorDays, ForecastInterval.CapOf(drift.Forecast.History));
        var off = QuantityText.Change(deviation, "dB", 3);
        return FormattableString.Invariant(
            $"By the staircase: the last interval of {days} days ended {off} off, so the next would be {next:0} days");
    }

    private static string Count(int n, string one) => n == 1 ? $"1 {one}" : $"{n} {one}s";
}

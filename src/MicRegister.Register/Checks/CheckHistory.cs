using MicRegister.Metrology.Charts;

namespace MicRegister.Register.Checks;

/// <summary>One check in a device's chart.</summary>
/// <param name="Record">The check.</param>
/// <param name="DeviationDb">Chain against its certificates, in dB.</param>
/// <param name="CommonDb">What all chains of that day and calibrator have in common, in dB; null where too few were checked.</param>
/// <param name="OwnDb">The rest, which is charted.</param>
/// <param name="Average">The weighted average with its limits; null where there are too few checks.</param>
/// <param name="Alarms">What the charts say of it; empty where they say nothing.</param>
public sealed record CheckPoint(CheckRecord Record, double DeviationDb, double? CommonDb, double OwnDb, EwmaPoint? Average, IReadOnlyList<string> Alarms);

/// <summary>The checks of one device over time, with an individuals chart and a weighted average of what is its own.</summary>
/// <param name="Points">Oldest first.</param>
/// <param name="Individuals">The chart; null under <see cref="LeastChecks"/>.</param>
public sealed record CheckHistory(IReadOnlyList<CheckPoint> Points, IndividualsChart? Individuals)
{
    /// <summary>Whether what all chains of a day have in common could be taken out.</summary>
    public bool IsCommonOut => Points.Count > 0 && Points.All(p => p.CommonDb is not null);

    /// <summary>Fewer checks make no chart.</summary>
    public const int LeastChecks = 6;

    /// <summary>Weight of the newest check in the average.</summary>
    public const double Lambda = 0.2;

    /// <summary>The history of a device: of all checks that compare with certificates.</summary>
    public static CheckHistory Of(Register register, string device, DateOnly? until = null)
    {
        var checks = CheckBook.OfDevice(register, register.EntriesOf(device)[0], until).Where(c => c.Check.DeviationDb is not null).ToList();
        var days = checks.Select(c => c.Campaign).OfType<string>().Distinct().ToDictionary(id => id, id => CheckDay.Of(CheckBook.OfCampaign(register, id, until), null));
        double[] common = [.. checks.Select(c => c.Campaign is { } id ? days[id].FirstOrDefault(d => d.Day == c.Day && d.Moment == c.Check.Moment && d.Calibrator == c.Check.Calibrator)?.Shift?.CommonDb ?? double.NaN : double.NaN)];
        // A calibrator's own deviation must not be charted as the microphone's: where it is known for some checks, only those are charted.
        if (common.Any(c => !double.IsNaN(c)) && common.Any(double.IsNaN))
        {
            checks = [.. checks.Where((_, i) => !double.IsNaN(common[i]))];
            common = [.. common.Where(c => !double.IsNaN(c))];
        }
        double[] own = [.. checks.Select((c, i) => c.Check.DeviationDb!.Value - (double.IsNaN(common[i]) ? 0 : common[i]))];
        IndividualsChart? chart = own.Length < LeastChecks ? null : IndividualsChart.Of(own);
        var sigma = (chart?.MeanRange ?? 0) / IndividualsChart.D2;
        var average = sigma > 0 ? EwmaChart.Of(own, chart!.Value.Mean, sigma, Lambda) : null;
        return new([.. checks.Select((c, i) => new CheckPoint(c, c.Check.DeviationDb!.Value, double.IsNaN(common[i]) ? null : common[i], own[i], average?.Points[i], Alarms(chart, average, own, i)))], chart);
    }

    private static List<string> Alarms(IndividualsChart? chart, EwmaChart? average, double[] own, int i)
    {
        var alarms = new List<string>();
        if (chart is { } c && !c.Holds(own[i])) alarms.Add("outside the limits of single values");
        if (chart is { } r && i > 0 && !Metrology.Conformity.DecisionLimit.AtMost(Math.Abs(own[i] - own[i - 1]), r.UpperRange)) alarms.Add("a greater step than the moving range allows");
        if (average is not null && !average.Points[i].Holds) alarms.Add("its weighted average left its limits: a small shift or a drift");
        return alarms;
    }
}

using MicRegister.Metrology.Checks;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>
/// All chains that were checked on one day, or in one stated session of it, at one moment with one calibrator: what they have in common is
/// not theirs.
/// </summary>
/// <param name="Day">Local day.</param>
/// <param name="Moment">Before or after.</param>
/// <param name="Calibrator">Id of the calibrator.</param>
/// <param name="Shift">What all have in common; null where there are too few.</param>
/// <param name="Checks">The last check of each chain; those without a deviation are not in the shift.</param>
public sealed record CheckDay(DateOnly Day, CheckMoment Moment, string Calibrator, DayShift? Shift, IReadOnlyList<JudgedCheck> Checks)
{
    /// <summary>Id of the fact that stated the session they were made in; null where they were made in none.</summary>
    public FactId? Session { get; init; }

    /// <summary>The test that they belong to.</summary>
    public TestTime Test => new(Day, Session);

    /// <summary>The days of a campaign, oldest first.</summary>
    public static IReadOnlyList<CheckDay> Of(IReadOnlyList<CheckRecord> checks, ProfileState? profile)
    {
        // A day that has sessions is told in the order of time; otherwise what was checked before comes first.
        var parted = checks.Where(c => c.Session is not null).Select(c => c.Day).ToHashSet();
        return
        [
            .. checks.GroupBy(c => (c.Test, c.Check.Moment, c.Check.Calibrator))
                .Select(g => Of(g.Key.Test, g.Key.Moment, g.Key.Calibrator, [.. g], checks, profile))
                .OrderBy(d => d.Day).ThenBy(d => parted.Contains(d.Day) ? d.Checks.Max(c => c.Record.Instant) : 0)
                .ThenBy(d => d.Moment).ThenBy(d => d.Calibrator, StringComparer.Ordinal),
        ];
    }

    /// <summary>Deviation of a check from what all have in common, in dB; its whole deviation where that is not known.</summary>
    public double? OwnDb(CheckRecord record) => Deviation(record) - (Shift?.CommonDb ?? 0);

    /// <summary>Whether a check stands out from the others of its day.</summary>
    public bool StandsOut(CheckRecord record) => Shift is { } shift && OwnDb(record) is { } own && Math.Abs(own) > shift.Limit * shift.ScatterDb;

    private static CheckDay Of(
        TestTime test, CheckMoment moment, string calibrator, List<CheckRecord> own, IReadOnlyList<CheckRecord> all, ProfileState? profile)
    {
        // A chain that is checked twice counts once, with what was stated last: a check that is entered anew for a day stands in for the one it corrects.
        List<CheckRecord> last = [.. own.GroupBy(c => $"{c.Check.Station} {string.Join(' ', c.Check.Devices.Order(StringComparer.Ordinal))}").Select(g => g.MaxBy(c => (c.Occurred.IsInstant ? 0 : 1, c.Sequence))!).OrderBy(c => c.Check.Station, StringComparer.Ordinal)];
        double[] deviations = [.. last.Select(Deviation).OfType<double>()];
        return new(test.Day, moment, calibrator, DayShift.Of(deviations), [.. last.Select(c => CheckJudge.Judge(profile, c, all))])
        {
            Session = test.Session,
        };
    }

    private static double? Deviation(CheckRecord record) => record.Check.DeviationDb ?? record.Check.IndicatedDb;
}

using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>
/// What a profile asks of the checks of one chain by the clock, whatever day or session they belong to: the one answer for plan, board and
/// trace. Instants are UTC, so that a change of the site's clock makes no check nearer or farther; a limit holds at itself.
/// </summary>
/// <param name="IntervalMinutes">Longest time between two checks, in minutes; null where nothing limits it.</param>
/// <param name="ToEventMinutes">Longest time from a check to what was recorded, in minutes; null where nothing limits it.</param>
/// <param name="VariationDb">Greatest difference of any two checks of a day, in dB; null where nothing limits it.</param>
/// <param name="Rule">How that difference is held against it.</param>
public sealed record CheckClock(double? IntervalMinutes, double? ToEventMinutes, double? VariationDb, DecisionRule Rule)
{
    private const double MinuteMs = 60_000;

    /// <summary>What a profile asks.</summary>
    public static CheckClock Of(ProfileState? profile) => new(
        profile?.Value(LimitKey.CheckIntervalMinutes), profile?.Value(LimitKey.CheckToEventMinutes),
        profile?.Value(LimitKey.CheckVariationDb),
        DecisionRule.Of(profile?.Limit(LimitKey.DecisionRule)?.Text, profile?.Value(LimitKey.DecisionProbability)));

    /// <summary>Whether it asks anything.</summary>
    public bool IsAsked => IntervalMinutes is not null || ToEventMinutes is not null || VariationDb is not null;

    /// <summary>Whether two checks, or a check and what was recorded, lie further apart than a limit.</summary>
    /// <param name="apartMs">Time between them, in ms.</param>
    /// <param name="minutes">The limit; null allows any.</param>
    public static bool IsTooFar(long apartMs, double? minutes) => minutes is { } most && apartMs > most * MinuteMs;

    /// <summary>Neighbouring checks further apart than the limit, with a part of a stretch of time between them.</summary>
    /// <param name="checks">Checks of one chain, oldest first; those of a bare day are passed over, since their time is not known.</param>
    /// <param name="from">Begin of the stretch, in milliseconds since 1970.</param>
    /// <param name="to">Its end; a check at an end of the stretch bounds it.</param>
    public IEnumerable<CheckGap> GapsAround(IEnumerable<CheckRecord> checks, long from, long to) =>
        Neighbours(checks).Where(g => IsTooFar(g.ApartMs, IntervalMinutes) && g.Earlier.Instant < to && g.Later.Instant > from);

    /// <summary>Neighbouring checks further apart than the limit within one testing: none lies after its check after.</summary>
    /// <param name="checks">Checks of one chain, oldest first.</param>
    public IEnumerable<CheckGap> GapsWithin(IEnumerable<CheckRecord> checks) => Neighbours(checks).Where(g =>
        IsTooFar(g.ApartMs, IntervalMinutes) && g.Earlier.Check.Moment != CheckMoment.After && IsOfOneDay(g.Earlier, g.Later.Test));

    /// <summary>When the next check is due at the latest, in milliseconds since 1970.</summary>
    /// <param name="newest">The newest check of the chain; null where there is none.</param>
    /// <returns>Null where nothing limits it, testing ended with a check after, or the time of the newest is not known.</returns>
    public long? NextDue(CheckRecord? newest) =>
        IntervalMinutes is { } most && newest is { Occurred.IsInstant: true, Check.Moment: not CheckMoment.After }
            ? newest.Instant + (long)(most * MinuteMs)
            : null;

    /// <summary>How many checks a time of testing takes at least: one at its begin, one at its end, and those in between.</summary>
    /// <param name="minutes">Length of the testing, above 0.</param>
    /// <returns>Null where nothing limits the time between them.</returns>
    public int? ChecksFor(double minutes) => IntervalMinutes is { } most ? (int)Math.Ceiling(minutes / most) + 1 : null;

    /// <summary>The two checks of a day, or of a session that was stated, that lie furthest from each other.</summary>
    /// <param name="checks">Checks of one chain; those of another method, range or unit cannot be compared, and the worst counts.</param>
    /// <param name="test">The day and session.</param>
    /// <returns>Null where nothing limits it, or no two checks can be compared.</returns>
    public CheckVariation? VariationOf(IEnumerable<CheckRecord> checks, TestTime test)
    {
        if (VariationDb is not { } limit) return null;
        CheckVariation? worst = null;
        var alike = checks.Where(k => IsOfOneDay(k, test)).GroupBy(k => (
            k.Check.Method, k.Check.SensitivityUnit, k.Check.RangeV,
            Parts: string.Join(' ', k.Check.Devices.Order(StringComparer.Ordinal))));
        foreach (var group in alike.Where(g => g.Count() > 1))
        {
            var (low, high) = (group.MinBy(LevelDb)!, group.MaxBy(LevelDb)!);
            if (high.Since(low) is not { } by || by <= (worst?.DifferenceDb ?? -1)) continue;
            var budget = high.SinceBudget(low);
            worst = new(low, high, by, limit, Rule.Decide(Tolerance.Around(0, limit), by, budget.Standard, budget.Expanded()));
        }
        return worst;
    }

    /// <summary>Checks by chain: of one station and of the same sounding parts, oldest first.</summary>
    public static IEnumerable<IReadOnlyList<CheckRecord>> ByChain(Register register, IEnumerable<CheckRecord> checks) => checks
        .GroupBy(k => (k.Check.Station, Parts: string.Join(' ', k.Check.Devices
            .Where(d => DeviceKind.MakesSound(register.Device(d)?.Kind)).Order(StringComparer.Ordinal))))
        .OrderBy(g => g.Key.Station, StringComparer.Ordinal).ThenBy(g => g.Key.Parts, StringComparer.Ordinal)
        .Select(g => g.OrderBy(k => k.Instant).ToList());

    private static double? LevelDb(CheckRecord k) => k.Check.SensitivityDb ?? k.Check.IndicatedDb;

    // A day by the site's clock, or a session that runs on: whichever of them both share.
    private static bool IsOfOneDay(CheckRecord k, TestTime test) =>
        k.Day == test.Day || (k.Session is { } session && session == test.Session);

    private static IEnumerable<CheckGap> Neighbours(IEnumerable<CheckRecord> checks)
    {
        CheckRecord? earlier = null;
        foreach (var k in checks.Where(k => k.Occurred.IsInstant))
        {
            if (earlier is not null) yield return new(earlier, k);
            earlier = k;
        }
    }
}

/// <summary>Two neighbouring checks of one chain.</summary>
public sealed record CheckGap(CheckRecord Earlier, CheckRecord Later)
{
    /// <summary>Time between them, in ms.</summary>
    public long ApartMs => Later.Instant - Earlier.Instant;
}

/// <summary>The two checks of a day that lie furthest from each other.</summary>
/// <param name="Low">The one that shows the lower level.</param>
/// <param name="High">The one that shows the higher level.</param>
/// <param name="DifferenceDb">How far apart they lie, not negative, in dB.</param>
/// <param name="LimitDb">The limit in dB; it holds at itself.</param>
/// <param name="Verdict">By the profile's decision rule.</param>
public sealed record CheckVariation(CheckRecord Low, CheckRecord High, double DifferenceDb, double LimitDb, ConformityVerdict Verdict);

using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Checks;

/// <summary>
/// Which checks belong to what was recorded, and to each other: the one place that says so, for plan, trace, doubts and comparisons in place.
/// </summary>
/// <param name="Ms">Longest time in ms from a check to what was recorded.</param>
/// <param name="By">What else holds them together.</param>
public readonly record struct CheckSpan(long Ms, CheckTie By)
{
    private const long HourMs = 3_600_000;

    /// <summary>A session that nobody stated lasts hardly longer than this: a check after it belongs to no check before it.</summary>
    public static readonly TimeSpan LongestSession = TimeSpan.FromHours(18);

    /// <summary>What holds where no profile says anything.</summary>
    public static CheckSpan Usual { get; } = new(24 * HourMs, CheckTie.DayOrSession);

    /// <summary>The span between checks and what was recorded.</summary>
    public static CheckSpan Of(ProfileState? profile)
    {
        var hours = OfHours(profile?.Value(LimitKey.CheckSpanHours));
        // Words that nobody here knows are taken as the stricter ones.
        if (profile?.Limit(LimitKey.CheckTestDay) is null) return hours;
        return new(hours.By == CheckTie.Hours ? hours.Ms : TestSessions.LongestHours * HourMs, CheckTie.TestDay);
    }

    /// <summary>The span between comparisons in place and what was recorded: that of checks, unless it has hours of its own.</summary>
    public static CheckSpan InPlace(ProfileState? profile)
    {
        if (profile?.Value(LimitKey.InPlaceHours) is { } hours) return OfHours(hours);
        // Hours of checks say nothing of what is compared between them.
        return Of(profile) is { By: not CheckTie.Hours } span ? span : Usual;
    }

    /// <summary>In words that go on after "checked before it,".</summary>
    public string Words => By switch
    {
        CheckTie.TestDay => "in the testing of the same day at the site, or in the same stated session",
        CheckTie.DayOrSession => "on the same day or in the same session",
        _ => FormattableString.Invariant($"within {Ms / (double)HourMs:0.#} h"),
    };

    /// <summary>Whether a check lies before an instant, near enough. One of a bare day says so by its moment.</summary>
    /// <param name="k">The check.</param>
    /// <param name="from">The instant.</param>
    /// <param name="test">The test that what was recorded belongs to.</param>
    public bool IsBefore(CheckRecord k, long from, TestTime test) =>
        k.Occurred.IsInstant ? k.Instant <= from && IsNear(k.Test, test, from - k.Instant)
        : k.Day == test.Day && k.Check.Moment == CheckMoment.Before;

    /// <summary>Whether a check lies after an instant, near enough.</summary>
    public bool IsAfter(CheckRecord k, long to, TestTime test) =>
        k.Occurred.IsInstant ? k.Instant >= to && IsNear(k.Test, test, k.Instant - to)
        : k.Day == test.Day && k.Check.Moment == CheckMoment.After;

    /// <summary>Whether two instants belong together.</summary>
    /// <param name="a">The test of the one.</param>
    /// <param name="b">The test of the other.</param>
    /// <param name="apartMs">Time between them in ms, not negative.</param>
    public bool IsNear(TestTime a, TestTime b, long apartMs) => apartMs <= Ms && By switch
    {
        CheckTie.TestDay => a.IsSameTest(b),
        CheckTie.DayOrSession => IsDayOrSession(a, b, apartMs),
        _ => true,
    };

    /// <summary>The check before of one after, among earlier ones of the same chain, oldest first; null where there is none.</summary>
    public CheckRecord? BeforeOf(CheckRecord record, IReadOnlyList<CheckRecord> earlier)
    {
        if (record.Check.Moment != CheckMoment.After) return null;
        // The last one before with none after in between; what belongs to another test does not lie between.
        var (span, own) = (this, earlier);
        if (By == CheckTie.TestDay) own = [.. earlier.Where(o => span.IsOfOneTest(o, record))];
        var last = own.LastOrDefault(o => o.Check.Moment != CheckMoment.Other);
        // Who checks after twice corrects himself.
        if (last?.Check.Moment == CheckMoment.After)
            last = own.LastOrDefault(o => o.Check.Moment == CheckMoment.Before && span.IsOfOneTest(o, record));
        return last is not null && IsPair(last, record) ? last : null;
    }

    /// <summary>Whether something recorded between a check before and one after could lean on both.</summary>
    public bool IsPair(CheckRecord before, CheckRecord after)
    {
        if (IsOfOneTest(before, after)) return true;
        if (By == CheckTie.TestDay || !before.Occurred.IsInstant || !after.Occurred.IsInstant) return false;
        return before.Test.IsSameTest(after.Test) || after.Instant - before.Instant <= MostApartMs;
    }

    /// <summary>
    /// How far a check after may lie from one before of another day or session, in ms; none does where each day's testing is asked for.
    /// </summary>
    public long MostApartMs => By switch
    {
        CheckTie.TestDay => -1,
        CheckTie.Hours => Math.Max(2 * Ms, (long)LongestSession.TotalMilliseconds),
        _ => (long)LongestSession.TotalMilliseconds,
    };

    /// <summary>Whether a check after one before can still come on some day, or one before could be entered for it.</summary>
    /// <param name="record">The check.</param>
    /// <param name="today">The day.</param>
    /// <param name="lastDay">Last day of the campaign.</param>
    /// <param name="sessions">Sessions of the campaign.</param>
    /// <param name="dayOf">Local day of an instant.</param>
    public bool IsOpen(CheckRecord record, DateOnly today, DateOnly lastDay, TestSessions sessions, Func<long, DateOnly> dayOf)
    {
        if (record.Day >= today) return true;
        if (today > lastDay || !record.Occurred.IsInstant) return false;
        if (By == CheckTie.Hours) return record.Check.Moment == CheckMoment.Before && dayOf(record.Instant + (2 * Ms)) >= today;
        return sessions.At(record.Instant) is { } session && dayOf(session.ToMs) >= today;
    }

    private bool IsOfOneTest(CheckRecord a, CheckRecord b) =>
        By == CheckTie.TestDay && a.Occurred.IsInstant && b.Occurred.IsInstant ? a.Test.IsSameTest(b.Test) : a.Day == b.Day;

    private static bool IsDayOrSession(TestTime a, TestTime b, long apartMs) =>
        a.Day == b.Day || (a.Session is not null && a.Session == b.Session) || apartMs <= LongestSession.TotalMilliseconds;

    private static CheckSpan OfHours(double? hours) => hours is { } h ? new((long)(h * HourMs), CheckTie.Hours) : Usual;
}

/// <summary>What holds a check and what was recorded together, beside the time between them.</summary>
public enum CheckTie
{
    /// <summary>Nothing else.</summary>
    Hours,

    /// <summary>The day at the site, a stated session, or a session's usual length.</summary>
    DayOrSession,

    /// <summary>The day at the site, or a stated session where one of both lies in one.</summary>
    TestDay,
}

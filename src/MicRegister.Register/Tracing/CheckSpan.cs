using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;

namespace MicRegister.Register.Tracing;

/// <summary>
/// How far a check may lie from what was recorded: by hours where a profile says so, otherwise by the local test day or one session.
/// </summary>
/// <param name="Ms">Longest time in ms.</param>
/// <param name="IsByDay">Whether the local day counts beside a session's length.</param>
internal readonly record struct CheckSpan(long Ms, bool IsByDay)
{
    private const long HourMs = 3_600_000;

    public static CheckSpan Of(ProfileState? profile) => Of(profile?.Value(LimitKey.CheckSpanHours));

    public static CheckSpan Of(double? hours) => hours is { } h ? new((long)(h * HourMs), false) : new(24 * HourMs, true);

    public string Words => IsByDay ? "on the same day or in the same session" : FormattableString.Invariant($"within {Ms / (double)HourMs:0.#} h");

    /// <summary>Whether a check lies before an instant, near enough. One of a bare day says so by its moment.</summary>
    public bool IsBefore(CheckRecord k, long from, DateOnly day) =>
        k.Occurred.IsInstant ? k.Instant <= from && IsNear(k, from - k.Instant, day) : k.Day == day && k.Check.Moment == CheckMoment.Before;

    /// <summary>Whether a check lies after an instant, near enough.</summary>
    public bool IsAfter(CheckRecord k, long to, DateOnly day) =>
        k.Occurred.IsInstant ? k.Instant >= to && IsNear(k, k.Instant - to, day) : k.Day == day && k.Check.Moment == CheckMoment.After;

    private bool IsNear(CheckRecord k, long apart, DateOnly day) =>
        apart <= Ms && (!IsByDay || k.Day == day || apart <= CheckJudge.LongestSession.TotalMilliseconds);
}

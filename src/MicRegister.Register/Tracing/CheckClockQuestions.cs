using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;

namespace MicRegister.Register.Tracing;

/// <summary>Whether checks stand around the event as a profile asks by the clock, over the day, and for the air of the day.</summary>
internal static class CheckClockQuestions
{
    /// <summary>Checks too far apart, or too far from the event: as doubtful as one that is missing.</summary>
    public static IEnumerable<TraceReason> TooFar(TracedChain c)
    {
        var clock = CheckClock.Of(c.Profile);
        if (clock is { IntervalMinutes: null, ToEventMinutes: null }) yield break;
        foreach (var timeless in c.Checks.Where(k => !k.Occurred.IsInstant))
        {
            yield return new(
                TraceVerdict.Doubtful,
                $"The check {Word(c, timeless)} was stated for a day without a time: how far from the event it was made is not known.",
                Source(c, clock.IntervalMinutes is null ? LimitKey.CheckToEventMinutes : LimitKey.CheckIntervalMinutes, timeless));
        }
        if (c is { Before: { } before, After: { } after })
        {
            List<CheckRecord> around = [before, .. c.Around.Where(k => k.Instant > before.Instant && k.Instant < after.Instant), after];
            foreach (var gap in clock.GapsAround(around, c.FromMs, c.ToMs))
            {
                yield return new(
                    TraceVerdict.Doubtful,
                    $"Between the checks of {CheckWords.ClockTime(gap.Earlier.Instant)} and "
                        + $"{CheckWords.ClockTime(gap.Later.Instant)} around it lie {CheckWords.Apart(gap.ApartMs)}; "
                        + $"the profile allows {CheckWords.Minutes(clock.IntervalMinutes!.Value)}.",
                    Source(c, LimitKey.CheckIntervalMinutes, gap.Earlier, gap.Later));
            }
        }
        foreach (var check in c.Checks.Where(k => k.Occurred.IsInstant))
        {
            var apart = ReferenceEquals(check, c.Before) ? c.FromMs - check.Instant : check.Instant - c.ToMs;
            if (!CheckClock.IsTooFar(apart, clock.ToEventMinutes)) continue;
            yield return new(
                TraceVerdict.Doubtful,
                $"The check {Word(c, check)} lies {CheckWords.Apart(apart)} from it; "
                    + $"the profile allows {CheckWords.Minutes(clock.ToEventMinutes!.Value)}.",
                Source(c, LimitKey.CheckToEventMinutes, check));
        }
    }

    /// <summary>A chain that moved over the day is as wrong as one whose check is rejected.</summary>
    public static IEnumerable<TraceReason> MovedOverDay(TracedChain c)
    {
        if (CheckClock.Of(c.Profile).VariationOf(c.Around, c.Shared.Test) is not { } moved) yield break;
        if (moved.Verdict is not (ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided)) yield break;
        var isUndecided = moved.Verdict == ConformityVerdict.Undecided;
        yield return new(
            isUndecided ? TraceVerdict.Doubtful : TraceVerdict.NotValid,
            $"Checks of its day differ by {QuantityText.Of(moved.DifferenceDb, "dB", 3)}; "
                + $"{QuantityText.UpTo(moved.LimitDb, 3)} dB are allowed over a day{(isUndecided ? ", which cannot be decided" : "")}.",
            Source(c, LimitKey.CheckVariationDb, moved.Low, moved.High));
    }

    /// <summary>What was not read is doubtful; a coefficient that nobody stored is said, without weight.</summary>
    public static IEnumerable<TraceReason> AirOfDay(TracedChain c)
    {
        foreach (var check in c.Checks)
        {
            if (CheckAir.Unread(c.Profile, check.Check) is { Count: > 0 } unread)
            {
                yield return new(
                    TraceVerdict.Doubtful,
                    $"At the check {Word(c, check)} no {string.Join(" and no ", unread)} of the day was read, which the profile asks for "
                        + "the calibrator's level.",
                    Source(c, LimitKey.CheckAir, check));
            }
            if (CheckAir.IsWithoutTemperature(c.Profile, check.Check))
            {
                var name = c.Shared.Device(check.Check.Calibrator)?.Name ?? check.Check.Calibrator;
                yield return new(
                    TraceVerdict.Valid, $"Check {Word(c, check)}: {CheckAir.NotCorrected(name)}", Source(c, LimitKey.CheckAir, check));
            }
        }
    }

    private static string Word(TracedChain c, CheckRecord check) => ReferenceEquals(check, c.Before) ? "before" : "after";

    private static string Source(TracedChain c, string key, params CheckRecord[] checks) =>
        $"{(checks.Length > 1 ? "facts" : "fact")} {string.Join(", ", checks.Select(k => k.Fact))}, profile {c.Profile?.Id}, {key}";
}

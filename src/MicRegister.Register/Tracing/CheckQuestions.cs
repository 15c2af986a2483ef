using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>Whether checks with a calibrator stand around the event, and hold.</summary>
internal static class CheckQuestions
{
    private const string BeforeIt = "before";
    private const string AfterIt = "after";

    public static IEnumerable<TraceReason> MissingBefore(TracedChain c) => Missing(c, c.Before, BeforeIt, c.AgainSinceBefore);

    public static IEnumerable<TraceReason> MissingAfter(TracedChain c) => Missing(c, c.After, AfterIt, c.AgainUntilAfter);

    public static IEnumerable<TraceReason> JudgedBefore(TracedChain c) =>
        c.Before is { } before ? Judged(c, before, CheckJudge.Judge(c.Profile, before, [before]), BeforeIt) : [];

    public static IEnumerable<TraceReason> JudgedAfter(TracedChain c)
    {
        if (c.After is not { } after) return [];
        // Whatever moment they were made for: to this event one is before and the other after.
        var judged = c.Before is { } before
            ? CheckJudge.Judge(
                c.Profile, As(after, CheckMoment.After), [As(before, CheckMoment.Before), As(after, CheckMoment.After)],
                before.Since(after) is null ? null : As(before, CheckMoment.Before))
            : CheckJudge.Judge(c.Profile, after, [after]);
        return Judged(c, after, judged, AfterIt);
    }

    public static IEnumerable<TraceReason> RangeBefore(TracedChain c) => Range(c, c.Before, BeforeIt);

    public static IEnumerable<TraceReason> RangeAfter(TracedChain c) => Range(c, c.After, AfterIt);

    /// <summary>Nobody may have written down the adapter: it is doubtful, and no more.</summary>
    public static IEnumerable<TraceReason> KitFits(TracedChain c)
    {
        if (c.First(DeviceKind.Microphone)?.Number(DeviceField.SizeMm) is not { } size) yield break;
        foreach (var (check, kit) in c.Checks.Zip(c.StandingKits))
        {
            if (kit.Fits(size)) continue;
            yield return new(
                TraceVerdict.Doubtful,
                $"Nothing that the check {(ReferenceEquals(check, c.Before) ? BeforeIt : AfterIt)} was made with fits "
                    + FormattableString.Invariant($"a {size:0.##} mm capsule; through which adapter it was made nobody says."),
                $"fact {check.Fact}");
        }
    }

    public static IEnumerable<TraceReason> SwappedSinceCheck(TracedChain c)
    {
        if (c.Before is { Occurred.IsInstant: true } before && before.Instant < c.Stood.From && c.Stood.Said.Swap is not null)
            yield return new(TraceVerdict.Doubtful, "A part was swapped between the check before and the event.", c.PlacedBy);
    }

    public static IEnumerable<TraceReason> WorkBetweenChecks(TracedChain c)
    {
        var (since, until) = (c.Before?.Instant ?? c.FromMs, c.After?.Instant ?? c.ToMs);
        foreach (var device in c.Chain)
        {
            foreach (var service in device.Services.Where(s => s.Day >= c.Shared.DayOf(since) && s.Day <= c.Shared.DayOf(until)))
            {
                if (Tracer.InstantOf(c.Register, service.Fact) is { } instant && (instant < since || instant > until)) continue;
                yield return new(TraceVerdict.Doubtful, $"Between the checks: {device.Name}, {service.What.Text}.", $"fact {service.Fact}");
            }
        }
    }

    private static IEnumerable<TraceReason> Missing(TracedChain c, CheckRecord? check, string word, SetUpAgain? again)
    {
        if (check is not null) yield break;
        if (again is { } stood)
        {
            yield return new(
                TraceVerdict.Doubtful,
                $"The chain was not checked {word} it as it stood: between the event and that check it was taken away at "
                    + $"{Tracer.Time(stood.AwayMs)} and set up again at {Tracer.Time(stood.AgainMs)}.",
                "common practice, no source");
            yield break;
        }
        var (profile, span) = (c.Profile, c.Shared.Span);
        var key = span.By == CheckTie.TestDay ? LimitKey.CheckTestDay
            : profile?.Value(LimitKey.CheckSpanHours) is null ? null : LimitKey.CheckSpanHours;
        var unsound = Unsound(c, word).ToList();
        yield return new(
            TraceVerdict.Doubtful,
            $"The chain was not checked {word} it, {span.Words}, with the same parts."
                + (unsound.Count == 0 ? "" : $" What was written down of a check of {Named(unsound)} lacks readings, devices or a budget, "
                    + "so that nothing can rest on it."),
            (key is null ? "common practice, no source" : $"profile {profile!.Id}, {key}")
                + (unsound.Count == 0 ? "" : $"; facts {string.Join(", ", unsound.Select(u => u.Fact))}"));
    }

    // Checks of the day on that side that nobody can work with.
    private static IEnumerable<UnsoundCheck> Unsound(TracedChain c, string word) => CheckBook.Unsound(c.Register, c.Campaign.Id).Where(u =>
        u.Station == c.Station && (u.Occurred.IsInstant
            ? c.Shared.DayOf(u.Instant) == c.Shared.Day && (word == BeforeIt ? u.Instant <= c.FromMs : u.Instant >= c.ToMs)
            : u.Occurred.Day == c.Shared.Day));

    private static string Named(List<UnsoundCheck> unsound) =>
        string.Join(", ", unsound.Select(u => u.Occurred.IsInstant ? Tracer.Time(u.Instant) : u.Occurred.ToString()));

    private static IEnumerable<TraceReason> Judged(TracedChain c, CheckRecord check, JudgedCheck judged, string word)
    {
        foreach (var k in judged.Comparisons)
        {
            if (k.Verdict is not (ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided)) continue;
            var isUndecided = k.Verdict == ConformityVerdict.Undecided;
            var became = isUndecided ? "cannot be decided" : "is rejected";
            yield return new(
                isUndecided ? TraceVerdict.Doubtful : TraceVerdict.NotValid,
                $"The check {word} {became}: {QuantityText.Change(k.DifferenceDb, "dB", 3)} {k.What}, "
                    + $"{QuantityText.UpTo(k.LimitDb, 3)} dB allowed.",
                $"fact {check.Fact}, profile {c.Profile?.Id}, {k.Key}");
        }
    }

    private static IEnumerable<TraceReason> Range(TracedChain c, CheckRecord? check, string word)
    {
        if (check?.Check.RangeV is not { } range || c.Stood.Said.RangeV is not { } set || range == set) yield break;
        yield return new(
            TraceVerdict.Doubtful,
            FormattableString.Invariant($"The check {word} was made at a range of {range} V, the chain was placed at {set} V."),
            $"facts {check.Fact}, {c.Stood.Fact}");
    }

    private static CheckRecord As(CheckRecord record, CheckMoment moment) => record with { Check = record.Check with { Moment = moment } };
}

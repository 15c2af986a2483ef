using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>
/// A recorder's clock: from what it showed to when that was. A shown time is first taken to UTC through the scale that the clock
/// was set to, then the clock's offset is taken off: what it showed, taken so, minus the truth, as somebody checked it.
/// </summary>
/// <remarks>
/// Between two checks the offset is linear in the shown time (the clock drifts evenly). Outside them it is that of the nearest
/// check, and 20 ppm of the distance, 1.7 s a day, is added to the uncertainty (common practice for a quartz, no source).
/// </remarks>
public sealed class RecorderClock
{
    /// <summary>Taken where a check does not state its uncertainty, in s: read from a display by eye (common practice, no source).</summary>
    public const double UnstatedUncertaintyS = 1;

    /// <summary>What a quartz may drift that nobody looked at (common practice, no source).</summary>
    private const double DriftOutside = 20e-6;

    /// <summary>No quartz drifts so much, 43 s a day: somebody set the clock (common practice, no source).</summary>
    private const double MostDrift = 500e-6;

    private const double MsPerHour = 3_600_000;

    private readonly TimeScale _scale;
    private readonly IReadOnlyList<ZoneOffset> _offsets;
    private readonly Dictionary<long, bool> _chosen = [];
    private readonly List<Check> _checks = [];
    private readonly List<string> _unused = [];

    private RecorderClock(TimeScale scale, IReadOnlyList<ZoneOffset> offsets) => (_scale, _offsets) = (scale, offsets);

    /// <summary>The clock of one recorder.</summary>
    /// <param name="scale">The time that it shows.</param>
    /// <param name="offsets">
    /// Of the zone of a local clock, oldest first; the first holds for all times before; none is UTC. Other scales ignore them.
    /// </param>
    /// <param name="checks">Checks of this recorder, in any order.</param>
    /// <param name="chosen">Choices for this recorder, oldest first; the last for a shown time counts.</param>
    public static RecorderClock Of(
        TimeScale scale, IReadOnlyList<ZoneOffset> offsets, IReadOnlyList<RecorderTimeChecked> checks, IReadOnlyList<HourChosen> chosen)
    {
        var clock = new RecorderClock(scale, offsets);
        foreach (var choice in chosen)
        {
            if (ShownTime.TryParse(choice.Shown, out var shown)) clock._chosen[shown] = choice.IsFirst;
            else clock._unused.Add($"The choice of an hour for '{choice.Shown}' is not used: that is no shown time such as 2026-05-04T10:11:12.345.");
        }
        foreach (var check in checks) clock.Take(check);
        // By the shown time, which is what will be looked up.
        clock._checks.Sort((a, b) => a.ScaledMs != b.ScaledMs ? a.ScaledMs.CompareTo(b.ScaledMs) : a.OffsetMs.CompareTo(b.OffsetMs));
        return clock;
    }

    /// <summary>Which checks and choices could not be used and why, a sentence each.</summary>
    public IReadOnlyList<string> Unused => _unused;

    /// <summary>When a shown time was.</summary>
    /// <param name="shown">What the recorder showed, <c>yyyy-MM-ddTHH:mm:ss.fff</c>; anything else gives a reading without an instant.</param>
    public ClockReading Read(string shown)
    {
        if (!ShownTime.TryParse(shown, out var ms)) return new(shown, null, 0, null, $"'{shown}' is no shown time such as 2026-05-04T10:11:12.345.");
        var scaled = Scaled(ms);
        if (scaled.Length == 0)
        {
            var meant = Corrected(LocalTimes.MeantBy(ms, _offsets));
            var skipped = $"{shown} did not exist in local time, clocks were put forward over it: {InWords(meant)}. ";
            return new(shown, null, 0, null, skipped + "Perhaps the recorder did not follow the change.")
            {
                Skipped = true,
                Candidates = meant,
            };
        }
        if (scaled.Length == 1) return At(shown, scaled[0]);
        if (_chosen.TryGetValue(ms, out var isFirst)) return At(shown, isFirst ? scaled[0] : scaled[^1]);
        var candidates = Corrected(scaled);
        var twice = $"{shown} occurred twice in local time, clocks were put back over it: {InWords(candidates)}. ";
        return new(shown, null, 0, null, twice + "Choose the first or the second.") { Ambiguous = true, Candidates = candidates };
    }

    private void Take(RecorderTimeChecked check)
    {
        var why = Reason(check, out var scaled, out var truth);
        if (why is null) _checks.Add(new(scaled, scaled - truth, check.UncertaintyS ?? UnstatedUncertaintyS));
        else _unused.Add($"The check of the clock at {check.TrueUtc}, when it showed {check.Shown}, is not used: {why}.");
    }

    private string? Reason(RecorderTimeChecked check, out long scaledMs, out long trueMs)
    {
        (scaledMs, trueMs) = (0, 0);
        if (!ShownTime.TryParse(check.Shown, out var shown)) return "what it showed is no time such as 2026-05-04T10:11:12.345";
        if (!Occurred.TryParse(check.TrueUtc, out var truth) || !truth.IsInstant)
            return "when that was is no instant such as 2026-05-04T10:11:12.345Z";
        if (check.UncertaintyS is { } u && (!double.IsFinite(u) || u < 0)) return "its uncertainty is not zero or more seconds";
        var candidates = Scaled(shown);
        if (candidates.Length == 0) return "local clocks were put forward over what it showed";
        var t = trueMs = truth.UnixMilliseconds;
        // A person's choice comes first: a clock that is hours off would be nearer to the wrong hour.
        scaledMs = candidates.Length > 1 && _chosen.TryGetValue(shown, out var isFirst)
            ? (isFirst ? candidates[0] : candidates[^1])
            : candidates.MinBy(c => Math.Abs(c - t));
        return null;
    }

    private long[] Scaled(long shownMs) => _scale switch
    {
        TimeScale.Gps => [GpsTime.ToUtc(shownMs)],
        TimeScale.Local => LocalTimes.InstantsOf(shownMs, _offsets),
        _ => [shownMs],
    };

    private ClockReading At(string shown, long scaledMs)
    {
        var c = CorrectionAt(scaledMs);
        var instant = Minus(scaledMs, c);
        return new(shown, instant, c.OffsetMs / 1000, c.UncertaintyS, Sentence(shown, instant, c))
        {
            IsUnchecked = c.UncertaintyS is null,
            HoursBeyond = Math.Abs(c.BeyondMs) / MsPerHour,
            WasSetBetween = c.SetByMs > 0,
        };
    }

    private Correction CorrectionAt(long scaledMs)
    {
        if (_checks.Count == 0) return new(0, null, 0, 0);
        var next = _checks.FindIndex(c => c.ScaledMs > scaledMs);
        if (next == 0) return Outside(_checks[0], scaledMs);
        var a = next < 0 ? _checks[^1] : _checks[next - 1];
        if (next < 0 || a.ScaledMs == scaledMs) return Outside(a, scaledMs);

        var b = _checks[next];
        var w = (double)(scaledMs - a.ScaledMs) / (b.ScaledMs - a.ScaledMs);
        var change = (double)(b.OffsetMs - a.OffsetMs);
        // Both checks may be off the same way, so their uncertainties are not taken as independent.
        var u = ((1 - w) * a.UncertaintyS) + (w * b.UncertaintyS);
        var wasSet = Math.Abs(change) > (MostDrift * (b.ScaledMs - a.ScaledMs)) + (1000 * (a.UncertaintyS + b.UncertaintyS));
        return wasSet
            ? new(a.OffsetMs + (w * change), Math.Max(u, Math.Abs(change) / 1000), 0, Math.Abs(change))
            : new(a.OffsetMs + (w * change), u, 0, 0);
    }

    private static Correction Outside(Check nearest, long scaledMs)
    {
        var beyond = (double)(scaledMs - nearest.ScaledMs);
        return new(nearest.OffsetMs, nearest.UncertaintyS + (DriftOutside * Math.Abs(beyond) / 1000), beyond, 0);
    }

    private long[] Corrected(IReadOnlyList<long> scaled) => [.. scaled.Select(s => Minus(s, CorrectionAt(s)))];

    private static long Minus(long scaledMs, Correction c) => scaledMs - (long)Math.Round(c.OffsetMs);

    private static string InWords(long[] candidates) => candidates.Length == 0
        ? "what was meant is not known"
        : "it may have been " + string.Join(" or ", candidates.Select(ShownTime.Instant));

    private string Sentence(string shown, long instant, Correction c)
    {
        var scale = _scale switch
        {
            TimeScale.Gps => "GPS time",
            TimeScale.Local => "local time",
            _ => "UTC",
        };
        var start = $"{shown} in {scale} on the recorder was {ShownTime.Instant(instant)}";
        if (c.UncertaintyS is not { } u) return start + "; nobody checked its clock, it is taken to be right.";
        var offset = Math.Abs(c.OffsetMs) < 0.5
            ? "its clock was right"
            : $"its clock was {ShownTime.Length(c.OffsetMs / 1000)} {(c.OffsetMs > 0 ? "ahead" : "behind")}";
        var known = c.BeyondMs switch
        {
            < 0 => $"by its first check, {ShownTime.Length(c.BeyondMs / 1000)} later",
            > 0 => $"by its last check, {ShownTime.Length(c.BeyondMs / 1000)} before",
            _ when c.SetByMs > 0 => $"but between two checks it changed by {ShownTime.Length(c.SetByMs / 1000)}, "
                + "more than a clock drifts: somebody probably set it",
            _ => "by its checks",
        };
        return $"{start}, within {ShownTime.Length(u)}; {offset}, {known}.";
    }

    private readonly record struct Check(long ScaledMs, long OffsetMs, double UncertaintyS);

    /// <param name="OffsetMs">To be taken off.</param>
    /// <param name="UncertaintyS">Null where there is no check.</param>
    /// <param name="BeyondMs">How long after the last check; negative before the first; 0 between.</param>
    /// <param name="SetByMs">How much the offset changed where the clock was probably set; otherwise 0.</param>
    private readonly record struct Correction(double OffsetMs, double? UncertaintyS, double BeyondMs, double SetByMs);
}

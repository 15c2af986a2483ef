using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>Which instants a local time may be. Milliseconds since 1970 throughout: of the instant, or on the local clock.</summary>
internal static class LocalTimes
{
    /// <summary>The instants at which a local clock shows a time: none where it was skipped, two where clocks were put back over it.</summary>
    /// <param name="localMs">What the local clock shows.</param>
    /// <param name="offsets">Oldest first; the first holds for all times before as well; none is UTC.</param>
    /// <returns>Earliest first.</returns>
    public static long[] InstantsOf(long localMs, IReadOnlyList<ZoneOffset> offsets)
    {
        if (offsets.Count == 0) return [localMs];
        return [.. offsets.Select(o => o.Minutes).Distinct().Select(m => localMs - Milliseconds(m))
            .Where(t => ZoneOffsets.LocalOf(t, offsets) == localMs).Order()];
    }

    /// <summary>The two instants that a skipped local time may have meant: by the offset after the change, and by the one before.</summary>
    /// <returns>Earliest first; empty where the time was not skipped.</returns>
    public static long[] MeantBy(long skippedMs, IReadOnlyList<ZoneOffset> offsets)
    {
        for (var i = 1; i < offsets.Count; i++)
        {
            var (before, after) = (Milliseconds(offsets[i - 1].Minutes), Milliseconds(offsets[i].Minutes));
            if (Occurred.TryParse(offsets[i].FromUtc, out var from) && from.UnixMilliseconds + before <= skippedMs
                && skippedMs < from.UnixMilliseconds + after)
            {
                return [skippedMs - after, skippedMs - before];
            }
        }
        return [];
    }

    private static long Milliseconds(int minutes) => minutes * 60_000L;
}

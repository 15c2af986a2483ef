namespace MicRegister.Register.Events;

/// <summary>
/// GPS time: it agreed with UTC when it began on 1980-01-06 and knows no leap seconds since. It runs 19 s behind TAI, so it is
/// ahead of UTC by TAI - UTC - 19 s.
/// </summary>
/// <remarks>
/// Dates and TAI - UTC: IERS Bulletin C, as in its leap-seconds.list (20 s from 1981-07-01 to 37 s from 2017-01-01), compared date by
/// date with copies of that list of 2016 to 2023 (seen). No leap second has been announced since; one that is takes one
/// more line here. That GPS - TAI is -19 s: seen in two public libraries (IS-GPS-200 and BIPM Circular T, from memory).
/// </remarks>
public static class GpsTime
{
    // Newest first: times of today are found at once.
    private static readonly (long FromUtcMs, int AheadS)[] Table =
    [
        (Month(2017, 1), 18), (Month(2015, 7), 17), (Month(2012, 7), 16), (Month(2009, 1), 15), (Month(2006, 1), 14), (Month(1999, 1), 13),
        (Month(1997, 7), 12), (Month(1996, 1), 11), (Month(1994, 7), 10), (Month(1993, 7), 9), (Month(1992, 7), 8), (Month(1991, 1), 7),
        (Month(1990, 1), 6), (Month(1988, 1), 5), (Month(1985, 7), 4), (Month(1983, 7), 3), (Month(1982, 7), 2), (Month(1981, 7), 1),
    ];

    /// <summary>The instant at which a clock in GPS time shows a time.</summary>
    /// <param name="shownMs">What it shows, in milliseconds since 1970-01-01T00:00 on that clock; before July 1981 it is UTC.</param>
    /// <returns>Milliseconds since 1970, in which a leap second cannot be told from the second before it: both give that second.</returns>
    public static long ToUtc(long shownMs)
    {
        foreach (var (from, ahead) in Table)
        {
            var utc = shownMs - (ahead * 1000L);
            if (utc >= from) return utc;
            // The leap second itself: by the lead before it would already be the next day.
            if (shownMs - ((ahead - 1) * 1000L) >= from) return utc;
        }
        return shownMs;
    }

    private static long Month(int year, int month) => new DateTimeOffset(year, month, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds();
}

using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>This machine's zone data, asked once when a plan is stated.</summary>
public static class ZoneData
{
    /// <summary>IANA names that this machine knows, such as Europe/Lisbon, in their order; asked once.</summary>
    public static IReadOnlyList<string> Names { get; } =
        [.. TimeZoneInfo.GetSystemTimeZones().Select(z => z.Id).Where(id => id.Contains('/', StringComparison.Ordinal))
            .Append("UTC").Order(StringComparer.Ordinal)];

    /// <summary>A zone's offsets from UTC over some days, oldest first.</summary>
    /// <param name="zone">IANA name.</param>
    /// <param name="first">First local day.</param>
    /// <param name="last">Last local day.</param>
    /// <returns>Null where this machine does not know the zone.</returns>
    public static IReadOnlyList<ZoneOffset>? Offsets(string zone, DateOnly first, DateOnly last)
    {
        TimeZoneInfo info;
        try
        {
            info = TimeZoneInfo.FindSystemTimeZoneById(zone);
        }
        catch (Exception e) when (e is TimeZoneNotFoundException or InvalidTimeZoneException or System.Security.SecurityException)
        {
            return null;
        }
        var offsets = new List<ZoneOffset>();
        var from = new DateTimeOffset(first.AddDays(-1), TimeOnly.MinValue, TimeSpan.Zero);
        for (var hour = from; hour <= from.AddDays(last.DayNumber - first.DayNumber + 3); hour = hour.AddMinutes(30))
        {
            var minutes = (int)info.GetUtcOffset(hour).TotalMinutes;
            if (offsets.Count == 0 || offsets[^1].Minutes != minutes) offsets.Add(new(Occurred.At(hour).ToString(), minutes));
        }
        return offsets;
    }
}

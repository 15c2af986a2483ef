using System.Collections.Frozen;

namespace MicRegister.Register.Facts;

/// <summary>
/// How great a number, how late a day, how long a text or a list of a fact may be: the one table, found by the member's name, which
/// carries its unit. A bound keeps work bounded and is far beyond what a campaign has; what is sensible is narrower and asked by the
/// decisions.
/// </summary>
/// <param name="Least">Least number, itself allowed; of a list, of each item. Null where there is none.</param>
/// <param name="Greatest">Greatest number, itself allowed.</param>
/// <param name="First">First day, itself allowed.</param>
/// <param name="Last">Last day, itself allowed.</param>
/// <param name="Letters">Most characters of a text; of a list, of each item.</param>
/// <param name="Items">Most items of a list.</param>
/// <remarks>
/// Limits of latitude, longitude and absolute zero are exact; all others are common practice without a source, chosen wide.
/// </remarks>
public sealed record Bound(
    double? Least = null, double? Greatest = null, DateOnly? First = null, DateOnly? Last = null, int? Letters = null, int? Items = null)
{
    /// <summary>Most characters of a text that is no name: ten times what a desk or a table takes.</summary>
    public const int MostLetters = 20_000;

    /// <summary>Most characters of a name, an id or a time: sixteen times what a desk takes for a station.</summary>
    public const int MostOfName = 1000;

    private const double Whole = 9_007_199_254_740_992; // 2^53: beyond it a number of a fact is no longer exact

    private static readonly Bound Plain = new(-1e12, 1e12);
    private static readonly Bound Degrees = new(-360, 360);
    private static readonly Bound Count = new(0, 1e9);

    private static readonly FrozenDictionary<string, Bound> Numbers = new Dictionary<string, Bound>
    {
        ["LatitudeDeg"] = new(-90, 90),
        ["LongitudeDeg"] = new(-180, 180),
        ["AltitudeM"] = new(-12_000, 100_000),
        ["HeightM"] = new(-1000, 10_000),
        ["AccuracyM"] = new(0, 1e8), // a phone without a fix says half the earth
        ["WindMs"] = new(0, 1000),
        ["GustMs"] = new(0, 1000),
        ["HorizontalStandardM"] = new(0, 1e8),
        ["VerticalStandardM"] = new(0, 1e8),
        ["TemperatureC"] = new(-273.15, 10_000),
        ["OffsetMs"] = new(-1e13, 1e13), // three hundred years
        ["UncertaintyS"] = new(0, 1e9),
        ["Seconds"] = new(-1e9, 1e9),
        ["FromSeconds"] = new(-1e9, 1e9),
        ["ToSeconds"] = new(-1e9, 1e9),
        ["Minutes"] = new(-1440, 1440), // no zone is a day off
        ["RangeV"] = new(-1e6, 1e6),
        ["CoverageFactor"] = new(0, 1000),
        ["DegreesOfFreedom"] = new(-1e18, 1e18),
        ["Distortion"] = Plain,
        ["PermittedLosses"] = Count,
        ["SparesWanted"] = Count,
        ["Rows"] = Count,
        ["Facts"] = Count,
        ["Channel"] = Count,
        ["Channels"] = Count,
        ["Bytes"] = new(0, Whole),
        ["FromCounter"] = new(0, Whole),
        // In a unit that is told beside them.
        ["Value"] = Plain,
        ["ExpandedUncertainty"] = Plain,
        ["StandardUncertainty"] = Plain,
        ["Sensitivity"] = Plain,
        ["Readings"] = Plain,
        ["Resolution"] = Plain,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    // The longer ending comes first where one ends with another.
    private static readonly (string Ending, Bound Bound)[] Units =
    [
        ("Deg", Degrees), ("Db", new(-1000, 1000)), ("Hz", new(0, 1e9)), ("Percent", new(0, 200)),
            // air holds more than 100 % for a while, and instruments say so
        ("KPa", new(0, 10_000)), ("Mm", new(-1e6, 1e6)), ("Days", new(0, 36_500)),
    ];

    private static readonly FrozenSet<string> Names = new[]
    {
        "Station", "Keep", "Other", "Target", "Code", "Sha256", "Digest", "Calibrator", "CalibratorCertificate", "Adapter", "Certificate",
        "ReferenceDevice", "RegisterId", "Client", "Device", "Devices", "Missing", "UnknownLabels", "Events", "Event", "Out", "In",
        "Profile", "Campaign", "Recorder", "HomeZone", "Zone", "FromUtc", "StartUtc", "StopUtc", "TrueUtc", "Shown", "RecorderStart",
        "RecorderTime", "At", "Key", "Name",
    }.ToFrozenSet(StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, int> Longer = new Dictionary<string, int>
    {
        [""] = 10_000, // a body that is a list itself
        ["Devices"] = 10_000,
        ["Events"] = 10_000,
        ["Chains"] = 10_000,
        ["Channels"] = 10_000,
        ["Readings"] = 10_000,
        ["Checks"] = 10_000,
        ["Recordings"] = 10_000,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private const int UsualItems = 1000;

    /// <summary>The bound of a member of a fact, or of a body that becomes one.</summary>
    /// <param name="member">Its name in the record.</param>
    /// <param name="type">Its type.</param>
    /// <returns>
    /// Null where it has none: it can take a few values only (a word of a list, yes or no), it has members of its own,
    /// or nobody has put one into the table.
    /// </returns>
    public static Bound? Of(string member, Type type)
    {
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (type == typeof(string)) return new(Letters: Names.Contains(member) ? MostOfName : MostLetters);
        if (type == typeof(double) || type == typeof(int) || type == typeof(long)) return Number(member);
        if (type == typeof(DateOnly)) return member is "FirstDay" or "LastDay" ? new(First: new(1950, 1, 1), Last: new(2200, 12, 31))
            : new(First: new(1800, 1, 1), Last: DateOnly.MaxValue); // 9999-12-31 stands for never
        if (type == typeof(FieldValue)) return Plain with { Letters = MostLetters };
        return ItemOf(type) is { } item ? (Of(member, item) ?? new()) with { Items = Longer.GetValueOrDefault(member, UsualItems) } : null;
    }

    /// <summary>Type of the items of a list, or of the values of a table by name; null where it is neither.</summary>
    public static Type? ItemOf(Type type) => type == typeof(string) ? null
        : type.IsArray ? type.GetElementType()
        : type.IsGenericType && typeof(System.Collections.IEnumerable).IsAssignableFrom(type) ? type.GetGenericArguments()[^1] : null;

    /// <summary>What is allowed, in words.</summary>
    public string AllowedNumber => FormattableString.Invariant($"a number from {Least} to {Greatest}");

    private static Bound? Number(string member)
    {
        if (Numbers.TryGetValue(member, out var own)) return own;
        foreach (var (ending, bound) in Units)
        {
            if (member.EndsWith(ending, StringComparison.Ordinal)) return bound;
        }
        return null;
    }
}

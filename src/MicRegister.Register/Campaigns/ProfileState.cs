namespace MicRegister.Register.Campaigns;

/// <summary>A requirement profile: what a campaign is judged by.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Written">Its last version.</param>
/// <param name="Confirmed">Who compared it with the current text of its source, if anybody did since it was last written.</param>
/// <param name="IsBuiltIn">Whether it came with the program and nobody changed it.</param>
/// <param name="WrittenByNewer">Whether facts about it cannot be read here.</param>
public sealed record ProfileState(string Id, ProfileWritten Written, ProfileConfirmed? Confirmed, bool IsBuiltIn, bool WrittenByNewer = false)
{
    /// <summary>What is shown beside a profile that nobody compared with its source.</summary>
    public const string Unchecked = "unchecked against the current text";

    /// <summary>The edition that counts, <see cref="ProfileEdition.Key"/>; empty where facts speak of it and none wrote it.</summary>
    public string Edition { get; init; } = "";

    /// <summary>Id of the person who compared it; null where nobody did.</summary>
    public string? ConfirmedBy { get; init; }

    /// <summary>Day on which they did.</summary>
    public DateOnly? ConfirmedOn { get; init; }

    /// <summary>What must be said beside it as long as nobody compared it; null where somebody did.</summary>
    public string? Caution => Confirmed is null ? Unchecked : null;

    public ProfileLimit? Limit(string key) => Written.Limits.FirstOrDefault(l => l.Key == key);

    public double? Value(string key) => Limit(key)?.Value;

    /// <summary>The words of a list limit; empty where the profile does not limit it.</summary>
    public IReadOnlyList<string> Words(string key) => WordsOf(Limit(key));

    internal static IReadOnlyList<string> WordsOf(ProfileLimit? limit) =>
        limit?.Text?.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries) ?? [];

    /// <summary>Limits on the age of calibrations of a kind of device.</summary>
    public IEnumerable<(string Quantity, ProfileLimit Limit)> Intervals(string kind)
    {
        foreach (var limit in Written.Limits)
        {
            if (limit.Value is not null && IsOf(limit.Key, kind)) yield return (limit.Key[(limit.Key.LastIndexOf('/') + 1)..], limit);
        }
    }

    // Asked for each device of each trace, so that no text is made for it.
    private static bool IsOf(string key, ReadOnlySpan<char> kind)
    {
        var rest = key.AsSpan();
        if (rest.StartsWith(LimitKey.IntervalMonths, StringComparison.Ordinal)) rest = rest[LimitKey.IntervalMonths.Length..];
        else if (rest.StartsWith(LimitKey.IntervalDays, StringComparison.Ordinal)) rest = rest[LimitKey.IntervalDays.Length..];
        else return false;
        return rest.Length > kind.Length && rest[kind.Length] == '/' && rest.StartsWith(kind, StringComparison.Ordinal);
    }
}

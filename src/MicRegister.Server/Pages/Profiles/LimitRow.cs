using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register.Campaigns;

namespace MicRegister.Server.Pages.Profiles;

/// <summary>One limit of a profile as it is being edited.</summary>
/// <param name="key">Its key.</param>
/// <param name="before">As it stands; null where it is being added.</param>
public sealed class LimitRow(string key, ProfileLimit? before)
{
    private const string Own = "own";

    public string Key => key;

    public ProfileLimit? Before => before;

    /// <summary>Words for people.</summary>
    public string Label => LimitKey.Find(key)?.Label ?? key;

    public string Unit => LimitKey.Find(key)?.Unit ?? "";

    public string? Value { get; set; } = Text(before);

    public string? Source { get; set; } = before?.Source;

    /// <summary>From when an interval is counted, in the words of <see cref="LimitKey"/>; empty through the last day.</summary>
    public string Counted { get; set; } = before?.Text ?? "";

    /// <summary>Whether it is an interval, which can be counted in several ways.</summary>
    public bool IsInterval => key.StartsWith(LimitKey.IntervalDays, StringComparison.Ordinal)
        || key.StartsWith(LimitKey.IntervalMonths, StringComparison.Ordinal);

    /// <summary>Whether it is to be left out.</summary>
    public bool IsOut { get; set; }

    public bool IsChanged => IsOut || before is null || Value != Text(before) || IsCountedAnew || Source != before.Source;

    /// <summary>The limit as edited; a figure that was changed is the user's own, unless they name its source.</summary>
    /// <returns>Null where a number is asked and none stands there.</returns>
    public ProfileLimit? Read()
    {
        if (before is not null && Value == Text(before) && !IsCountedAnew)
            return Source == before.Source ? before : new(key, before.Value, before.Text, Source ?? "", Own);
        var source = before is not null && Source == before.Source ? $"own, in place of {before.Source}"
            : Source is { Length: > 0 } said ? said
            : Own;
        // A list of words stays one; whatever else is new is a number.
        if (IsUntilDamaged) return new(key, null, CertificateLimits.UntilDamaged, source, Own);
        if ((before is { Value: null } && !IsMakersData) || (before is null && LimitKey.IsList(key)))
            return new(key, null, Value, source, Own);
        return MeasuredText.TryRead(Value ?? "", out var value, out _) ? new(key, value, Beside, source, Own) : null;
    }

    private bool IsCountedAnew => IsInterval && Counted != (before?.Text ?? "");

    // What stands beside the number.
    private string? Beside => IsInterval ? (Counted.Length > 0 ? Counted : null) : IsMakersData ? null : before?.Text;

    private bool IsMakersData => key.StartsWith(CertificateLimits.MakersData, StringComparison.Ordinal);

    // A number of months, or these words.
    private bool IsUntilDamaged => IsMakersData && Value?.Trim() == CertificateLimits.UntilDamaged;

    private static string? Text(ProfileLimit? limit) => limit?.Value?.ToString("R", CultureInfo.InvariantCulture) ?? limit?.Text;
}

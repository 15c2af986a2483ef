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

    /// <summary>Whether it is to be left out.</summary>
    public bool IsOut { get; set; }

    public bool IsChanged => IsOut || before is null || Value != Text(before) || Source != before.Source;

    /// <summary>The limit as edited; a figure that was changed is the user's own, unless they name its source.</summary>
    /// <returns>Null where a number is asked and none stands there.</returns>
    public ProfileLimit? Read()
    {
        if (before is not null && Value == Text(before))
            return Source == before.Source ? before : before with { Source = Source ?? "", Certainty = Own };
        var source = before is not null && Source == before.Source ? $"own, in place of {before.Source}"
            : Source is { Length: > 0 } said ? said
            : Own;
        // A list of words stays one; whatever else is new is a number.
        if (before is { Value: null } || (before is null && IsOfWords))
            return new(key, null, Value, source, Own);
        return MeasuredText.TryRead(Value ?? "", out var value, out _) ? new(key, value, before?.Text, source, Own) : null;
    }

    private bool IsOfWords => key is LimitKey.Mounts or LimitKey.CalibratorClasses or LimitKey.DecisionRule or LimitKey.CheckTestDay;

    private static string? Text(ProfileLimit? limit) => limit?.Value?.ToString("R", CultureInfo.InvariantCulture) ?? limit?.Text;
}

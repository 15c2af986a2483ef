namespace MicRegister.Register.Readiness;

/// <summary>Something that stands against relying on a device or a plan.</summary>
/// <param name="Rule">Key of the rule in <see cref="ReadinessRules.All"/>.</param>
/// <param name="Gravity">How grave it is.</param>
/// <param name="Device">Id of the device; null where it is about none.</param>
/// <param name="DeviceName">Words that people know the device by.</param>
/// <param name="Station">Name of the station; null where it is about none.</param>
/// <param name="BitesOn">First campaign day on which it matters.</param>
/// <param name="Text">What is the matter, in a sentence.</param>
/// <param name="Figures">The figures behind it.</param>
/// <param name="Clearing">What would clear it.</param>
/// <param name="LatestStart">
/// Day by which clearing has to start, so that it is done before the campaign; null where the campaign is over.
/// </param>
/// <param name="IsTooLate">Whether that day is past.</param>
public sealed record Finding(
    string Rule, Gravity Gravity, string? Device, string? DeviceName, string? Station, DateOnly BitesOn, string Text, IReadOnlyList<Figure> Figures,
    Clearing Clearing, DateOnly? LatestStart, bool IsTooLate);

/// <summary>A figure with its unit.</summary>
public sealed record Figure(string Name, double Value, string Unit);

/// <summary>How grave a finding is.</summary>
public enum Gravity
{
    /// <summary>Worth knowing; nothing is lost.</summary>
    Note,

    /// <summary>May cost results.</summary>
    Risks,

    /// <summary>Must not be used like this.</summary>
    Stops,
}

/// <summary>What clears a finding.</summary>
public enum Clearing
{
    /// <summary>Send the device to a laboratory, or calibrate it in the house.</summary>
    Calibrate,

    /// <summary>Take another device.</summary>
    Swap,

    /// <summary>Look at the device, measure, put it right.</summary>
    Inspect,

    /// <summary>A person looks at it and says what it is.</summary>
    Decide,

    /// <summary>Complete or correct what the register holds.</summary>
    Enter,

    /// <summary>Change the plan of the campaign.</summary>
    Plan,
}

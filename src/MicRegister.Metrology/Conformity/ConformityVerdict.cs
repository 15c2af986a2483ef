namespace MicRegister.Metrology.Conformity;

/// <summary>What a measured figure with its uncertainty says about a tolerance.</summary>
public enum ConformityVerdict
{
    /// <summary>Inside the acceptance interval.</summary>
    Conforms,

    /// <summary>Neither accepted nor rejected: undecidable with this uncertainty.</summary>
    Undecided,

    /// <summary>Outside the tolerance, by the rule's guard band where it has one.</summary>
    DoesNotConform,
}

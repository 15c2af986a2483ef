namespace MicRegister.Server.Pages.Parts;

/// <summary>Where a figure comes from.</summary>
/// <param name="Title">What it is.</param>
/// <param name="Value">The figure with its unit and, where it has one, its uncertainty.</param>
/// <param name="Formula">How it is worked out, in symbols or words; null where it was read off.</param>
/// <param name="Inputs">What went into it: name, value with unit, and where that comes from.</param>
/// <param name="Source">The rule, standard or practice behind the formula; null where there is none.</param>
/// <param name="Facts">What was said, by whom and when, with the address where it stands.</param>
/// <param name="Doubt">What is assumed, unknown or from memory about it; null where nothing is.</param>
public sealed record Derivation(
    string Title, string Value, string? Formula, IReadOnlyList<DerivationInput> Inputs, string? Source,
    IReadOnlyList<DerivationFact> Facts, string? Doubt = null);

/// <summary>One thing that went into a figure.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Value">Its value with unit.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record DerivationInput(string Name, string Value, string? Source);

/// <summary>Something said that a figure stands on.</summary>
/// <param name="Words">What was said, in words.</param>
/// <param name="Address">Where it stands; null where it has no page.</param>
public sealed record DerivationFact(string Words, string? Address);

/// <summary>The side of one person's screen on which figures are explained.</summary>
public sealed class FigureDesk
{
    /// <summary>What is explained; null where nothing is.</summary>
    public Derivation? Shown { get; private set; }

    /// <summary>Raised when something else is to be shown.</summary>
    public event Action? Changed;

    /// <summary>Explains a figure.</summary>
    public void Open(Derivation from)
    {
        Shown = from;
        Changed?.Invoke();
    }

    /// <summary>Shuts it.</summary>
    public void Close()
    {
        Shown = null;
        Changed?.Invoke();
    }
}

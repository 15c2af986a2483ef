namespace MicRegister.Register.Facts;

/// <summary>What is beyond its bound.</summary>
/// <param name="Field">Where it stands, as the text of the fact names it: <c>position.latitudeDeg</c>, <c>chains[2].levelDb</c>.</param>
/// <param name="Value">The number or day; of a text or list, how long it is.</param>
/// <param name="Allowed">What is allowed.</param>
public sealed record BoundBreach(string Field, string Value, string Allowed)
{
    /// <summary>A sentence for people.</summary>
    public string Text => $"{Field} '{Value}': allowed is {Allowed}.";

    internal BoundBreach Within(string path) =>
        this with { Field = Field.Length == 0 ? path : Field[0] == '[' ? path + Field : path + "." + Field };
}

/// <summary>Something that was to be stated is beyond its bound.</summary>
/// <param name="breach">What it is.</param>
public sealed class BeyondBoundException(BoundBreach breach) : FormatException(breach.Text)
{
    public BoundBreach Breach { get; } = breach;
}

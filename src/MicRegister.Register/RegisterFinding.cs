namespace MicRegister.Register;

/// <summary>Something in the facts themselves that a person should settle.</summary>
/// <param name="Rule">Short stable key.</param>
/// <param name="Subjects">What it is about.</param>
/// <param name="Text">What was found, for people.</param>
/// <param name="Facts">Ids of the facts behind it.</param>
public sealed record RegisterFinding(string Rule, IReadOnlyList<string> Subjects, string Text, IReadOnlyList<string> Facts);

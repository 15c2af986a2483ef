using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>A fact as a fold meets it.</summary>
/// <param name="Fact">The fact; null for traffic, which is counted without being read.</param>
/// <param name="Counts">Whether it counts; an annulled result is still shown.</param>
/// <param name="Kind">Its stored kind.</param>
internal readonly record struct FoldedFact(Fact? Fact, bool Counts, string Kind);

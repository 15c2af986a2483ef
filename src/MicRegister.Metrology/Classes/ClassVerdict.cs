namespace MicRegister.Metrology.Classes;

/// <summary>Whether a class suffices, and why.</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Why">Why, as the end of a sentence.</param>
/// <param name="IsOwnReading">Whether no standard says so, and it is this program's own reading of both editions.</param>
public sealed record ClassVerdict(ClassAnswer Answer, string Why, bool IsOwnReading = false);

/// <summary>Whether a class suffices.</summary>
public enum ClassAnswer
{
    Meets,

    /// <summary>Editions cannot be compared, or something is not known: a person decides.</summary>
    Undecided,

    Misses,
}

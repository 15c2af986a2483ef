namespace MicRegister.Register;

/// <summary>What a decision gives: what was wanted, or why not.</summary>
public abstract record Result<T>
{
    private Result()
    {
    }

    public sealed record Accepted(T Value) : Result<T>;

    public sealed record Rejected(Rejection Why) : Result<T>;

    public static implicit operator Result<T>(Rejection why) => new Rejected(why);
}

/// <summary>Why something was not done, for people.</summary>
/// <param name="Sort">What sort of reason.</param>
/// <param name="Text">The field and its value, and what is allowed.</param>
public sealed record Rejection(RejectionSort Sort, string Text);

public enum RejectionSort
{
    NotFound,
    Invalid,
    Conflict,

    /// <summary>Who asks may not.</summary>
    Forbidden,
}

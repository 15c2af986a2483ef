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

    /// <summary>What follows from it, whichever it is.</summary>
    /// <param name="accepted">Of what was wanted.</param>
    /// <param name="rejected">Of the reason why not.</param>
    public TOut Match<TOut>(Func<T, TOut> accepted, Func<Rejection, TOut> rejected) => this switch
    {
        Accepted a => accepted(a.Value),
        Rejected r => rejected(r.Why),
        _ => throw new InvalidOperationException("A result is one of two."),
    };
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

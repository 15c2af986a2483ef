namespace MicRegister.Register.Facts;

/// <summary>Where a log stands.</summary>
/// <param name="Sequence">Sequence of the newest fact; 0 when there is none.</param>
/// <param name="Chain">SHA-256, in hexadecimal, chained over all receipts and facts.</param>
public sealed record LogHead(int Sequence, string Chain)
{
    /// <summary>Chain hash before the first fact.</summary>
    public static LogHead Start { get; } = new(0, new string('0', 64));

    /// <summary>As it is printed and typed: sequence, colon, hash.</summary>
    public override string ToString() => FormattableString.Invariant($"{Sequence}:{Chain}");
}

/// <summary>A fact on its way into a log.</summary>
/// <param name="Fact">The fact.</param>
/// <param name="Door">Through which door it came: a word and, where it helps, an id.</param>
public readonly record struct IncomingFact(Fact Fact, string Door);

/// <summary>What became of a fact that was to be appended.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Result">What became of it.</param>
/// <param name="Sequence">Its sequence in this log.</param>
public sealed record AppendOutcome(FactId Id, AppendResult Result, int Sequence);

/// <summary>What became of a fact that was to be appended.</summary>
public enum AppendResult
{
    /// <summary>It is new and on the disk.</summary>
    Stored,

    /// <summary>The same fact was there already.</summary>
    Duplicate,

    /// <summary>Another fact has this id; nothing was stored, a person has to look.</summary>
    Conflict,
}

/// <summary>A fact with the receipt that belongs to this log alone.</summary>
public sealed record LoggedFact(int Sequence, DateTimeOffset Recorded, string Door, string Chain, Fact Fact);

/// <summary>A question to the log; parts left out do not matter.</summary>
/// <param name="Subject">A subject, whole.</param>
/// <param name="Author">Id of a person.</param>
/// <param name="Kind">Stored kind.</param>
/// <param name="From">First day of occurrence.</param>
/// <param name="To">Last day of occurrence.</param>
public sealed record FactQuery(string? Subject = null, string? Author = null, string? Kind = null, DateOnly? From = null, DateOnly? To = null);

/// <summary>A store cannot be opened or written; the message says why and what can be done.</summary>
public class StoreException : IOException
{
    public StoreException(string message)
        : base(message)
    {
    }

    public StoreException(string message, Exception inner)
        : base(message, inner)
    {
    }

    public StoreException()
    {
    }
}

/// <summary>Another program holds the store.</summary>
public sealed class StoreInUseException : StoreException
{
    public StoreInUseException(string message, string? address)
        : base(message) => Address = address;

    public StoreInUseException(string message)
        : base(message)
    {
    }

    public StoreInUseException(string message, Exception inner)
        : base(message, inner)
    {
    }

    public StoreInUseException()
    {
    }

    /// <summary>Where the server that holds it listens, if it said so.</summary>
    public string? Address { get; }
}

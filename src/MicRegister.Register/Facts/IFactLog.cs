namespace MicRegister.Register.Facts;

/// <summary>
/// A log of facts that is the only truth: what it acknowledged is there after any crash. One writer; readers take no lock.
/// </summary>
public interface IFactLog : IFactSource, IDisposable
{
    /// <summary>Sequence and chain hash of the newest acknowledged fact.</summary>
    LogHead Head { get; }

    /// <summary>The register of all acknowledged facts, to carry on from. Called once, before the first append.</summary>
    Register Load();

    /// <summary>Appends facts as one batch: all of them or, after a crash, none. Returns when they are on the disk.</summary>
    /// <param name="facts">Facts that the log does not hold yet; <see cref="LiveRegister"/>, the one writer, sees to that.</param>
    /// <exception cref="StoreException">The log cannot be written; it stays stopped until it is opened again.</exception>
    void Append(IReadOnlyList<IncomingFact> facts);

    /// <summary>Lets the log keep what makes the next start quicker, when enough facts came since the last time or when asked to.</summary>
    /// <param name="register">A register of this log's facts, up to any of them.</param>
    /// <param name="always">Whether to do it however few facts came.</param>
    void Settle(Register register, bool always = false);

    /// <summary>Facts with their receipts, in sequence.</summary>
    /// <param name="sequence">First sequence wanted, from 1.</param>
    IEnumerable<LoggedFact> ReadFrom(int sequence);

    /// <summary>Sequences of the facts that fit all given parts of a question, ascending.</summary>
    IReadOnlyList<int> Find(FactQuery query);

    /// <summary>Keeps an attachment; keeping it twice keeps it once.</summary>
    /// <param name="content">At most <see cref="MaxAttachmentBytes"/>.</param>
    /// <returns>Its SHA-256 in hexadecimal, when it is on the disk.</returns>
    string KeepAttachment(Stream content);

    /// <summary>An attachment; null where it is not here yet.</summary>
    Stream? OpenAttachment(string sha256);

    /// <summary>Greatest size of an attachment.</summary>
    const int MaxAttachmentBytes = 25 * 1024 * 1024;
}

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

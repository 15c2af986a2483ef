namespace MicRegister.Register.Facts;

/// <summary>
/// A statement that something happened, by its author, never edited. Two facts are the same when their bytes are.
/// Made and read by <see cref="FactText"/> alone.
/// </summary>
public sealed class Fact : IEquatable<Fact>
{
    internal Fact(FactEnvelope envelope, FactBody body, ReadOnlyMemory<byte> bytes)
    {
        Id = envelope.Id;
        Occurred = envelope.Occurred;
        Client = envelope.Client;
        Counter = envelope.Counter;
        Author = envelope.Author;
        Kind = envelope.Kind;
        Version = envelope.Version;
        Subjects = envelope.Subjects;
        Replaces = envelope.Replaces;
        Body = body;
        Bytes = bytes;
    }

    public FactId Id { get; }

    /// <summary>When it happened, by the clock of its client.</summary>
    public Occurred Occurred { get; }

    /// <summary>The device or program on which it was stated.</summary>
    public string Client { get; }

    /// <summary>How many facts that client had stated before.</summary>
    public long Counter { get; }

    /// <summary>Id of the person who stated it, or <c>import</c> for rows taken over from a file.</summary>
    public string Author { get; }

    public string Kind { get; }

    public int Version { get; }

    /// <summary>What it is about, in the author's order; never empty.</summary>
    public IReadOnlyList<string> Subjects { get; }

    /// <summary>The earlier fact that this one stands in for, if any.</summary>
    public FactId? Replaces { get; }

    public FactBody Body { get; }

    /// <summary>The canonical bytes that id, equality and digest stand for.</summary>
    public ReadOnlyMemory<byte> Bytes { get; }

    public bool Equals(Fact? other) => other is not null && Bytes.Span.SequenceEqual(other.Bytes.Span);

    public override bool Equals(object? obj) => Equals(obj as Fact);

    public override int GetHashCode() => Id.GetHashCode();

    public override string ToString() => $"{Kind} {Id}";
}

/// <summary>All of a fact but its body.</summary>
public sealed record FactEnvelope(
    FactId Id, Occurred Occurred, string Client, long Counter, string Author, string Kind, int Version,
    IReadOnlyList<string> Subjects, FactId? Replaces);

namespace MicRegister.Register.Facts;

/// <summary>All that there is to know of one kind and version of fact, in one row.</summary>
public sealed class FactKind
{
    private readonly Func<FactBody, string?> _words;
    private readonly Func<FactBody, PhoneReach> _phone;
    private readonly Func<FactBody, IEnumerable<string>>? _alsoAbout;

    private FactKind(
        string name, int version, FactReading reading, FactReach reach, Duties statedBy, Func<FactBody, PhoneReach> phone, FactBody example,
        Func<FactBody, string?> words, Func<FactBody, IEnumerable<string>>? alsoAbout)
    {
        (Name, Version, Reading, Reach, StatedBy, Example) = (name, version, reading, reach, statedBy, example);
        (_phone, _words, _alsoAbout) = (phone, words, alsoAbout);
    }

    /// <summary>Stored name. A name once written is never given another meaning.</summary>
    public string Name { get; }

    /// <summary>Stored version, from 1; a changed meaning gets the next one.</summary>
    public int Version { get; }

    /// <summary>Type of the body.</summary>
    public Type Body => Example.GetType();

    /// <summary>Whether folding a subject reads it.</summary>
    public FactReading Reading { get; }

    /// <summary>What was worked out before it came and holds no longer.</summary>
    public FactReach Reach { get; }

    /// <summary>Duties of which one is needed to state it, through whichever door; an owner may state all.</summary>
    public Duties StatedBy { get; }

    /// <summary>A body as somebody would state it.</summary>
    public FactBody Example { get; }

    /// <summary>Makes the row of a kind.</summary>
    /// <param name="name">Stored name.</param>
    /// <param name="version">Stored version.</param>
    /// <param name="reading">Whether folding a subject reads it.</param>
    /// <param name="reach">What it makes obsolete.</param>
    /// <param name="statedBy">Duties of which one is needed.</param>
    /// <param name="phone">What a phone may state it of.</param>
    /// <param name="example">A body as somebody would state it.</param>
    /// <param name="words">What a body says, short enough for a line; null where the kind alone says it.</param>
    /// <param name="alsoAbout">Further timelines under which it is found, beside those of its subjects.</param>
    public static FactKind Of<TBody>(
        string name, int version, FactReading reading, FactReach reach, Duties statedBy, Func<TBody, PhoneReach> phone, TBody example,
        Func<TBody, string?> words, Func<TBody, IEnumerable<string>>? alsoAbout = null)
        where TBody : FactBody =>
        new(name, version, reading, reach, statedBy, b => phone((TBody)b), example, b => words((TBody)b),
            alsoAbout is null ? null : b => alsoAbout((TBody)b));

    /// <summary>What a body of this kind says, short enough for a line; null where the kind alone says it.</summary>
    public string? Words(FactBody body) => _words(body);

    /// <summary>What a phone may state a body of this kind of.</summary>
    public PhoneReach Phone(FactBody body) => _phone(body);

    /// <summary>Further timelines under which a fact of this kind is found.</summary>
    internal IEnumerable<string> AlsoAbout(FactBody body) => _alsoAbout?.Invoke(body) ?? [];
}

/// <summary>Whether folding a subject reads the facts of a kind.</summary>
public enum FactReading
{
    /// <summary>Each is read.</summary>
    Whole,

    /// <summary>They come by the hundred thousand: folding counts them without reading.</summary>
    Counted,
}

/// <summary>What was worked out before a fact came and holds no longer.</summary>
public enum FactReach
{
    /// <summary>Answers about its own subjects.</summary>
    OwnSubjects,

    /// <summary>Any answer: it can change what is said of subjects that it does not name.</summary>
    Everything,
}

/// <summary>What a phone may state a kind of fact of.</summary>
public enum PhoneReach
{
    /// <summary>Nothing: it is stated at the desk.</summary>
    Nothing,

    /// <summary>The person who joined with it.</summary>
    OwnPerson,

    /// <summary>Its campaign; devices that nobody planned may be named along, which is flagged.</summary>
    Campaign,

    /// <summary>Devices that are planned for its campaign.</summary>
    PlannedDevices,

    /// <summary>Also devices that nobody planned, once they were placed, taken in or checked there.</summary>
    DevicesThere,
}

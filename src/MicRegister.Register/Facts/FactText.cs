using System.Buffers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace MicRegister.Register.Facts;

/// <summary>
/// The one codec of facts: canonical UTF-8 JSON (RFC 8785) with the keys at, author, body, client, counter, id, kind, replaces
/// (only where it replaces), subjects, version. Absent details are left out, never null.
/// </summary>
public static class FactText
{
    /// <summary>Greatest size of one fact, in bytes.</summary>
    public const int MaxBytes = 1 << 20;

    private const int MaxSubjects = 10_000;

    private static readonly JsonSerializerOptions Bodies = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { RequireWhatCannotBeAbsent, InOrderOfNames } },
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    };

    /// <summary>States a fact under a given id.</summary>
    /// <exception cref="FormatException">A number is not finite, a text is no Unicode, or the whole exceeds <see cref="MaxBytes"/>.</exception>
    /// <exception cref="BeyondBoundException">A number, day, text or list is beyond its <see cref="Bound"/>.</exception>
    public static Fact Write(FactId id, FactStamp stamp, FactBody body, IReadOnlyList<string> subjects, FactId? replaces = null)
    {
        var kind = FactKinds.Of(body);
        var envelope = Checked(new(id, stamp.Occurred, stamp.Client, stamp.Counter, stamp.Author, kind.Name, kind.Version, subjects,
            replaces));
        return new(envelope, body, Assemble(envelope, BodyBytes(body, kind)));
    }

    /// <summary>States a fact whose id follows from all that it says, so that saying it again is the same fact.</summary>
    public static Fact WriteDerived(FactStamp stamp, FactBody body, IReadOnlyList<string> subjects, FactId? replaces = null)
    {
        var kind = FactKinds.Of(body);
        var bodyBytes = BodyBytes(body, kind);
        var content = new ArrayBufferWriter<byte>(bodyBytes.Length + 256);
        content.Write(Encoding.UTF8.GetBytes(
            FormattableString.Invariant($"{stamp.Occurred}\n{stamp.Author}\n{stamp.Client}\n{stamp.Counter}\n{kind.Name}\n{kind.Version}\n")
            + FormattableString.Invariant($"{string.Join('\n', subjects)}\n{replaces}\n")));
        content.Write(bodyBytes);
        var id = FactId.Derive(stamp.Occurred, content.WrittenSpan);
        var envelope = Checked(new(id, stamp.Occurred, stamp.Client, stamp.Counter, stamp.Author, kind.Name, kind.Version, subjects,
            replaces));
        return new(envelope, body, Assemble(envelope, bodyBytes));
    }

    /// <summary>Reads a fact that was checked when it came in: what its bytes say, without asking whether they are canonical.</summary>
    /// <exception cref="FormatException">It is no fact: not JSON, or a part of the envelope is missing or out of shape.</exception>
    public static Fact Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            var (envelope, body, holdsNull) = ReadEnvelope(bytes.Span);
            return new(envelope, ReadBody(envelope, bytes.Span[body], holdsNull), bytes);
        }
        catch (JsonException e)
        {
            throw new FormatException("It is not JSON: " + e.Message, e);
        }
        catch (InvalidOperationException e)
        {
            throw new FormatException("A part of it is out of shape: " + e.Message, e);
        }
    }

    /// <summary>Reads a fact at the door: the bytes must be canonical too.</summary>
    /// <exception cref="FormatException">It is no fact, too large, or not in canonical form.</exception>
    public static Fact ReadCanonical(ReadOnlyMemory<byte> bytes)
    {
        if (bytes.Length > MaxBytes) throw new FormatException($"A fact has at most {MaxBytes} bytes; this one has {bytes.Length}.");
        try
        {
            using var document = JsonDocument.Parse(bytes);
            if (!CanonicalJson.Write(document.RootElement).AsSpan().SequenceEqual(bytes.Span))
                throw new FormatException("The text is not in canonical form (RFC 8785).");
        }
        catch (JsonException e)
        {
            throw new FormatException("It is not JSON: " + e.Message, e);
        }
        catch (InvalidOperationException e)
        {
            throw new FormatException("A part of it is out of shape: " + e.Message, e);
        }
        return Read(bytes);
    }

    /// <summary>
    /// A text in the body of a fact, by its member's name, also of one that cannot be used here: whatever else a newer version says,
    /// a station is likely to be called so still. Null where there is none.
    /// </summary>
    internal static string? BodyText(Fact fact, string member)
    {
        using var document = JsonDocument.Parse(fact.Bytes);
        return document.RootElement.GetProperty("body").TryGetProperty(member, out var text) && text.ValueKind == JsonValueKind.String
            ? text.GetString()
            : null;
    }

    // One pass over the text: a million facts are read when a register is folded anew.
    private static (FactEnvelope Envelope, Range Body, bool HoldsNull) ReadEnvelope(ReadOnlySpan<byte> bytes)
    {
        var reader = new Utf8JsonReader(bytes);
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject) throw new FormatException("A fact is a JSON object.");
        string? id = null, at = null, client = null, author = null, kind = null, replaces = null;
        var (counter, version) = (-1L, 0);
        var (isReplacing, holdsNull) = (false, false);
        IReadOnlyList<string>? subjects = null;
        Range? body = null;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            if (reader.ValueTextEquals("body"u8)) body = ReadPlace(ref reader, out holdsNull);
            else if (reader.ValueTextEquals("subjects"u8)) subjects = ReadSubjects(ref reader);
            else if (reader.ValueTextEquals("id"u8)) id = ReadText(ref reader);
            else if (reader.ValueTextEquals("at"u8)) at = ReadText(ref reader);
            else if (reader.ValueTextEquals("client"u8)) client = ReadText(ref reader);
            else if (reader.ValueTextEquals("author"u8)) author = ReadText(ref reader);
            else if (reader.ValueTextEquals("kind"u8)) kind = ReadText(ref reader);
            else if (reader.ValueTextEquals("replaces"u8)) (isReplacing, replaces) = (true, ReadText(ref reader));
            else if (reader.ValueTextEquals("counter"u8))
                counter = reader.Read() && reader.TokenType == JsonTokenType.Number && reader.TryGetInt64(out var n) ? n : -1;
            else if (reader.ValueTextEquals("version"u8))
                version = reader.Read() && reader.TokenType == JsonTokenType.Number && reader.TryGetInt32(out var v) ? v : 0;
            else reader.Skip();
            // A list or an object in the place of a text or a number.
            if (reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray) reader.Skip();
        }
        if (reader.Read()) throw new FormatException("A fact is one JSON object.");
        var envelope = new FactEnvelope(
            FactId.TryParse(id ?? throw TextShape("id"), out var ulid) ? ulid : throw Shape("id", "26 characters of a ULID"),
            Occurred.TryParse(at ?? throw TextShape("at"), out var occurred)
                ? occurred
                : throw Shape("at", "a day or an instant in UTC with milliseconds"),
            client ?? throw TextShape("client"),
            counter >= 0 ? counter : throw Shape("counter", "a whole number from 0"),
            author ?? throw TextShape("author"),
            kind ?? throw TextShape("kind"),
            version > 0 ? version : throw Shape("version", "a whole number from 1"),
            subjects ?? throw Shape("subjects", "a list of 1 to 10000 texts"),
            isReplacing
                ? FactId.TryParse(replaces ?? throw TextShape("replaces"), out var r) ? r : throw Shape("replaces", "the id of a fact")
                : null);
        return (envelope, body ?? throw Shape("body", "an object"), holdsNull);
    }

    // Where an object stands in the text, and whether a null stands in it; null where it is no object.
    private static Range? ReadPlace(ref Utf8JsonReader reader, out bool holdsNull)
    {
        holdsNull = false;
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject) return null;
        var (from, depth) = ((int)reader.TokenStartIndex, reader.CurrentDepth);
        while (reader.Read() && !(reader.TokenType == JsonTokenType.EndObject && reader.CurrentDepth == depth))
            holdsNull |= reader.TokenType == JsonTokenType.Null;
        return from..(int)reader.BytesConsumed;
    }

    private static string? ReadText(ref Utf8JsonReader reader) =>
        reader.Read() && reader.TokenType == JsonTokenType.String && reader.GetString() is { } text && IsText(text) ? text : null;

    private static List<string>? ReadSubjects(ref Utf8JsonReader reader)
    {
        if (!reader.Read() || reader.TokenType != JsonTokenType.StartArray) return null;
        var subjects = new List<string>(8);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            if (subjects.Count == MaxSubjects) throw Shape("subjects", "a list of 1 to 10000 texts");
            subjects.Add(reader.TokenType == JsonTokenType.String && reader.GetString() is { } text && IsSubject(text)
                ? text
                : throw Shape("subjects", "texts of the form sort:id"));
        }
        return subjects.Count > 0 ? subjects : throw Shape("subjects", "a list of 1 to 10000 texts");
    }

    private static FactBody ReadBody(FactEnvelope envelope, ReadOnlySpan<byte> body, bool holdsNull)
    {
        var kind = FactKinds.Find(envelope.Kind, envelope.Version);
        if (kind is null) return new UnreadBody($"{envelope.Kind} version {envelope.Version} is not known here");
        try
        {
            var read = Fitting(body, holdsNull, kind);
            // What no campaign can have is kept and passed on like what does not fit,
            // so that it can break nothing that is worked out of it.
            return BodyBounds.Find(read) is { } breach ? new UnreadBody($"the body of {envelope.Kind} does not fit: {breach.Text}") : read;
        }
        catch (JsonException e)
        {
            return new UnreadBody($"the body of {envelope.Kind} does not fit: {UnfitJson.Words(e)}");
        }
    }

    // Nothing is ever written as null, so a null stands for a part that is missing.
    private static FactBody Fitting(ReadOnlySpan<byte> body, bool holdsNull, FactKind kind) =>
        holdsNull ? throw new JsonException("a part of it is null") : (FactBody)JsonSerializer.Deserialize(body, kind.Body, Bodies)!;

    private static bool HoldsNull(ReadOnlySpan<byte> body)
    {
        var reader = new Utf8JsonReader(body);
        while (reader.Read())
        {
            if (reader.TokenType == JsonTokenType.Null) return true;
        }
        return false;
    }

    private static byte[] BodyBytes(FactBody body, FactKind kind)
    {
        try
        {
            var plain = JsonSerializer.SerializeToUtf8Bytes(body, kind.Body, Bodies);
            // What could not be read again must not be written.
            if (BodyBounds.Find(Fitting(plain, HoldsNull(plain), kind)) is { } breach) throw new BeyondBoundException(breach);
            if (HiddenSigns.Find(plain) is { } hidden) throw new BeyondBoundException(hidden);
            if (CanonicalJson.IsSurely(plain)) return plain;
            using var document = JsonDocument.Parse(plain);
            return CanonicalJson.Write(document.RootElement);
        }
        catch (JsonException e)
        {
            throw new FormatException($"A part of {kind.Name} is missing or out of shape: {e.Message}", e);
        }
        catch (ArgumentException e)
        {
            throw new FormatException($"The body of {kind.Name} cannot be written: {e.Message}", e);
        }
    }

    private static byte[] Assemble(FactEnvelope e, byte[] body)
    {
        var to = new ArrayBufferWriter<byte>(body.Length + 384);
        to.Write("{\"at\":"u8);
        Quote(e.Occurred.ToString(), to);
        to.Write(",\"author\":"u8);
        Quote(e.Author, to);
        to.Write(",\"body\":"u8);
        to.Write(body);
        to.Write(",\"client\":"u8);
        Quote(e.Client, to);
        to.Write(",\"counter\":"u8);
        to.Write(Encoding.ASCII.GetBytes(CanonicalJson.Number(e.Counter)));
        to.Write(",\"id\":"u8);
        Quote(e.Id.ToString(), to);
        to.Write(",\"kind\":"u8);
        Quote(e.Kind, to);
        if (e.Replaces is { } replaced)
        {
            to.Write(",\"replaces\":"u8);
            Quote(replaced.ToString(), to);
        }
        to.Write(",\"subjects\":["u8);
        for (var i = 0; i < e.Subjects.Count; i++)
        {
            if (i > 0) to.Write(","u8);
            Quote(e.Subjects[i], to);
        }
        to.Write("],\"version\":"u8);
        to.Write(Encoding.ASCII.GetBytes(CanonicalJson.Number(e.Version)));
        to.Write("}"u8);
        return to.WrittenCount <= MaxBytes
            ? to.WrittenSpan.ToArray()
            : throw new FormatException($"A fact has at most {MaxBytes} bytes; this one would have {to.WrittenCount}.");
    }

    private static void Quote(string text, ArrayBufferWriter<byte> to) => CanonicalJson.WriteString(text, to);

    /// <summary>Makes a reader refuse an object that lacks a part which cannot be absent.</summary>
    public static void RequireWhatCannotBeAbsent(JsonTypeInfo type)
    {
        if (type.Type.Namespace?.StartsWith("MicRegister",
            StringComparison.Ordinal) != true) return; // other people's types have rules of their own
        foreach (var property in type.Properties.Where(p => p.Set is not null || p.AssociatedParameter is not null))
            property.IsRequired = property.PropertyType.IsValueType
                ? Nullable.GetUnderlyingType(property.PropertyType) is null
                : !property.IsSetNullable;
    }

    // Members stand in the order that the canonical form wants, so that most bodies need not be written twice.
    private static void InOrderOfNames(JsonTypeInfo type)
    {
        foreach (var (property, at) in type.Properties.OrderBy(p => p.Name, StringComparer.Ordinal).Select((p, at) => (p, at)).ToList())
            property.Order = at;
    }

    // What is written is held to the same rules as what is read: a fact that cannot be read again must never reach a log.
    private static FactEnvelope Checked(FactEnvelope e)
    {
        if (!IsText(e.Client)) throw Shape("client", "a text of 1 to 200 characters");
        if (!IsText(e.Author)) throw Shape("author", "a text of 1 to 200 characters");
        if (e.Counter < 0) throw Shape("counter", "a whole number from 0");
        if (e.Subjects.Count is 0 or > MaxSubjects || !e.Subjects.All(IsSubject))
            throw Shape("subjects", "1 to 10000 texts of the form sort:id, of at most 200 characters");
        return e;
    }

    private static bool IsText(string? text) => text is { Length: > 0 and <= 200 };

    private static bool IsSubject(string? text) => text is { Length: > 2 and <= 200 } && text.Contains(':', StringComparison.Ordinal);

    private static FormatException TextShape(string part) => Shape(part, "a text of 1 to 200 characters");

    private static FormatException Shape(string part, string allowed) =>
        new($"The part '{part}' of a fact is missing or out of shape; allowed is {allowed}.");
}

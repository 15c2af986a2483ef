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
public static partial class FactText
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

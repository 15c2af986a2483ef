using System.Text.Json;

namespace MicRegister.Register.Facts;

/// <content>Reads facts.</content>
public static partial class FactText
{
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
}

using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace MicRegister.Register.Facts;

/// <summary>
/// The identity of a fact: 48 bits of milliseconds since 1970 and 80 further bits, written as 26 characters (ULID, Crockford
/// base 32). Ids order as their texts do. The default is all zeros, which no fact has.
/// </summary>
[JsonConverter(typeof(Converter))]
public readonly record struct FactId(UInt128 Value) : IComparable<FactId>
{
    /// <summary>Number of characters of the text.</summary>
    public const int TextLength = 26;

    private const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const long MaxMilliseconds = (1L << 48) - 1;

    /// <summary>An id made at the edge, from its clock and ten random bytes.</summary>
    /// <param name="unixMilliseconds">Milliseconds since 1970, clamped to 0 .. 2^48 - 1.</param>
    /// <param name="random">Exactly ten bytes.</param>
    public static FactId Create(long unixMilliseconds, ReadOnlySpan<byte> random)
    {
        if (random.Length != 10) throw new ArgumentException($"An id takes ten random bytes, not {random.Length}.", nameof(random));
        Span<byte> all = stackalloc byte[16];
        var time = Math.Clamp(unixMilliseconds, 0, MaxMilliseconds);
        BinaryPrimitives.WriteInt64BigEndian(all, time << 16);
        random.CopyTo(all[6..]);
        return FromBytes(all);
    }

    /// <summary>An id that follows from what the fact says, so that the same statement made twice is one fact.</summary>
    /// <param name="occurred">When it occurred: the first 48 bits.</param>
    /// <param name="content">All that the fact says beside its id: SHA-256 of them gives the other 80 bits.</param>
    public static FactId Derive(Occurred occurred, ReadOnlySpan<byte> content)
    {
        Span<byte> hash = stackalloc byte[32];
        SHA256.HashData(content, hash);
        return Create(occurred.UnixMilliseconds, hash[..10]);
    }

    /// <summary>The id of 16 big-endian bytes.</summary>
    public static FactId FromBytes(ReadOnlySpan<byte> bytes) => new(BinaryPrimitives.ReadUInt128BigEndian(bytes));

    /// <summary>Reads an id's text, in capitals as it is written.</summary>
    /// <returns>False when it has another length, a letter that does not occur, or more than 128 bits.</returns>
    public static bool TryParse(ReadOnlySpan<char> text, out FactId id)
    {
        id = default;
        if (text.Length != TextLength || text[0] > '7') return false;
        UInt128 value = 0;
        foreach (var c in text)
        {
            var digit = Alphabet.IndexOf(c, StringComparison.Ordinal);
            if (digit < 0) return false;
            value = (value << 5) | (uint)digit;
        }
        id = new(value);
        return true;
    }

    /// <summary>Reads an id's text.</summary>
    /// <exception cref="FormatException">It is not an id.</exception>
    public static FactId Parse(string text) => TryParse(text, out var id) ? id : throw new FormatException($"'{text}' is not the id of a fact.");

    /// <summary>Writes 16 big-endian bytes.</summary>
    public void CopyTo(Span<byte> destination) => BinaryPrimitives.WriteUInt128BigEndian(destination, Value);

    public int CompareTo(FactId other) => Value.CompareTo(other.Value);

    public static bool operator <(FactId a, FactId b) => a.Value < b.Value;

    public static bool operator >(FactId a, FactId b) => a.Value > b.Value;

    public static bool operator <=(FactId a, FactId b) => a.Value <= b.Value;

    public static bool operator >=(FactId a, FactId b) => a.Value >= b.Value;

    public override string ToString() => string.Create(TextLength, Value, (span, value) =>
    {
        for (var i = TextLength - 1; i >= 0; i--)
        {
            span[i] = Alphabet[(int)(value & 31)];
            value >>= 5;
        }
    });

    /// <summary>A text of 5-bit digits of a hash, for identities that are no facts.</summary>
    internal static string HashText(ReadOnlySpan<byte> content, int characters)
    {
        Span<byte> hash = stackalloc byte[32];
        SHA256.HashData(content, hash);
        var value = BinaryPrimitives.ReadUInt128BigEndian(hash);
        var text = new char[characters];
        for (var i = 0; i < characters; i++) text[i] = Alphabet[(int)((value >> (123 - (5 * i))) & 31)];
        return new(text);
    }

    internal sealed class Converter : JsonConverter<FactId>
    {
        public override FactId Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            TryParse(reader.GetString(), out var id) ? id : throw new JsonException("It is not the id of a fact.");

        public override void Write(Utf8JsonWriter writer, FactId value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
    }
}

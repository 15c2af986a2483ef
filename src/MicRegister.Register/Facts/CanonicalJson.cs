using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace MicRegister.Register.Facts;

/// <summary>Writes JSON in its one canonical form, so that the same statement has the same bytes everywhere (RFC 8785).</summary>
internal static class CanonicalJson
{
    private const int MostDepth = 32;
    private const int MostDigits = 15;
    private static readonly SearchValues<byte> OfNumber = SearchValues.Create("-.0123456789"u8);
    private static readonly SearchValues<char> Unescaped =
        SearchValues.Create([.. Enumerable.Range(' ', 0x7F - ' ').Select(c => (char)c).Where(c => c is not ('"' or '\\'))]);

    /// <summary>The canonical UTF-8 bytes of a parsed text.</summary>
    /// <exception cref="FormatException">A number is not finite, a key stands twice, or a text holds half a surrogate pair.</exception>
    public static byte[] Write(JsonElement element)
    {
        var writer = new ArrayBufferWriter<byte>(512);
        Write(element, writer);
        return writer.WrittenSpan.ToArray();
    }

    /// <summary>
    /// Whether a text without blanks is surely in canonical form already. One that is not may be so all the same: texts with escapes and
    /// numbers with exponents are left to <see cref="Write(JsonElement)"/>.
    /// </summary>
    public static bool IsSurely(ReadOnlySpan<byte> json)
    {
        Span<(int From, int Length)> names = stackalloc (int, int)[MostDepth];
        var reader = new Utf8JsonReader(json);
        while (reader.Read())
        {
            if (reader.CurrentDepth >= MostDepth - 1) return false;
            switch (reader.TokenType)
            {
                case JsonTokenType.StartObject:
                    names[reader.CurrentDepth + 1] = default;
                    break;
                case JsonTokenType.PropertyName:
                    var (from, length) = names[reader.CurrentDepth];
                    if (reader.ValueIsEscaped || !Ascii.IsValid(reader.ValueSpan)) return false;
                    if (length > 0 && json.Slice(from, length).SequenceCompareTo(reader.ValueSpan) >= 0) return false;
                    names[reader.CurrentDepth] = ((int)reader.TokenStartIndex + 1, reader.ValueSpan.Length);
                    break;
                case JsonTokenType.String when reader.ValueIsEscaped:
                case JsonTokenType.Number when !IsPlainNumber(reader.ValueSpan):
                    return false;
                default:
                    break;
            }
        }
        return true;
    }

    // Digits with a point, as short as they can be: a number that is printed in one way only.
    private static bool IsPlainNumber(ReadOnlySpan<byte> number)
    {
        if (number.Length > MostDigits || number.ContainsAnyExcept(OfNumber)) return false;
        var point = number.IndexOf((byte)'.');
        if (point >= 0 && number[^1] == '0') return false;
        var digits = number.TrimStart((byte)'-');
        // "-0" is 0, and 0.0000001 has an exponent.
        return !(number[0] == '-' && digits[0] == '0' && digits.IndexOfAnyExcept("0."u8) < 0) && !digits.StartsWith("0.00000"u8);
    }

    private static void Write(JsonElement element, ArrayBufferWriter<byte> to)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object: WriteObject(element, to); break;
            case JsonValueKind.Array: WriteArray(element, to); break;
            case JsonValueKind.String: WriteString(element.GetString()!, to); break;
            case JsonValueKind.Number: to.Write(Encoding.ASCII.GetBytes(Number(element.GetDouble()))); break;
            case JsonValueKind.True: to.Write("true"u8); break;
            case JsonValueKind.False: to.Write("false"u8); break;
            default: to.Write("null"u8); break;
        }
    }

    private static void WriteObject(JsonElement element, ArrayBufferWriter<byte> to)
    {
        var members = element.EnumerateObject().ToArray();
        // RFC 8785, 3.2.3: sorted by UTF-16 code units, which is what an ordinal comparison of strings does.
        Array.Sort(members, (a, b) => string.CompareOrdinal(a.Name, b.Name));
        to.Write("{"u8);
        for (var i = 0; i < members.Length; i++)
        {
            if (i > 0)
            {
                if (members[i].Name == members[i - 1].Name) throw new FormatException($"The key '{members[i].Name}' stands twice.");
                to.Write(","u8);
            }
            WriteString(members[i].Name, to);
            to.Write(":"u8);
            Write(members[i].Value, to);
        }
        to.Write("}"u8);
    }

    private static void WriteArray(JsonElement element, ArrayBufferWriter<byte> to)
    {
        to.Write("["u8);
        var first = true;
        foreach (var item in element.EnumerateArray())
        {
            if (!first) to.Write(","u8);
            first = false;
            Write(item, to);
        }
        to.Write("]"u8);
    }

    internal static void WriteString(string text, ArrayBufferWriter<byte> to)
    {
        if (!text.AsSpan().ContainsAnyExcept(Unescaped))
        {
            var plain = to.GetSpan(text.Length + 2);
            plain[0] = (byte)'"';
            Encoding.ASCII.GetBytes(text, plain[1..]);
            plain[text.Length + 1] = (byte)'"';
            to.Advance(text.Length + 2);
            return;
        }
        var escaped = new StringBuilder(text.Length + 2).Append('"');
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (char.IsSurrogate(c) && !(char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])))
            {
                throw new FormatException("A text holds half a surrogate pair.");
            }
            if (char.IsHighSurrogate(c))
            {
                escaped.Append(c).Append(text[++i]);
                continue;
            }
            _ = c switch
            {
                '"' => escaped.Append("\\\""),
                '\\' => escaped.Append("\\\\"),
                '\b' => escaped.Append("\\b"),
                '\f' => escaped.Append("\\f"),
                '\n' => escaped.Append("\\n"),
                '\r' => escaped.Append("\\r"),
                '\t' => escaped.Append("\\t"),
                < ' ' => escaped.Append("\\u").Append(((int)c).ToString("x4", CultureInfo.InvariantCulture)),
                _ => escaped.Append(c),
            };
        }
        to.Write(Encoding.UTF8.GetBytes(escaped.Append('"').ToString()));
    }

    /// <summary>A number as ECMAScript prints it: shortest digits that read back, exponent from 1e21 up and under 1e-6.</summary>
    /// <remarks>RFC 8785, 3.2.2.3; the digits come from the framework's shortest round-trip form.</remarks>
    internal static string Number(double value)
    {
        if (!double.IsFinite(value)) throw new FormatException("A number must be finite.");
        if (value == 0) return "0"; // also -0

        var shortest = Math.Abs(value).ToString("R", CultureInfo.InvariantCulture);
        var e = shortest.IndexOf('E', StringComparison.Ordinal);
        var mantissa = e < 0 ? shortest : shortest[..e];
        var dot = mantissa.IndexOf('.', StringComparison.Ordinal);
        var all = mantissa.Replace(".", "", StringComparison.Ordinal);
        var unpadded = all.TrimStart('0');
        var digits = unpadded.TrimEnd('0');

        // The value is 0.digits · 10^point.
        var point = (dot < 0 ? mantissa.Length : dot) - (all.Length - unpadded.Length)
            + (e < 0 ? 0 : int.Parse(shortest.AsSpan(e + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture));
        var body = point switch
        {
            > 21 => Exponential(digits, "+", point - 1),
            > 0 when digits.Length <= point => digits.PadRight(point, '0'),
            > 0 => $"{digits[..point]}.{digits[point..]}",
            > -6 => $"0.{new string('0', -point)}{digits}",
            _ => Exponential(digits, "-", 1 - point),
        };
        return value < 0 ? "-" + body : body;
    }

    private static string Exponential(string digits, string sign, int exponent) => digits.Length == 1
        ? string.Create(CultureInfo.InvariantCulture, $"{digits}e{sign}{exponent}")
        : string.Create(CultureInfo.InvariantCulture, $"{digits[0]}.{digits[1..]}e{sign}{exponent}");
}

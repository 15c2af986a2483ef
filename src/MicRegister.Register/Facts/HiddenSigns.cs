using System.Globalization;
using System.Text;
using System.Text.Json;

namespace MicRegister.Register.Facts;

/// <summary>
/// Signs that cannot be seen and change what is read: control signs other than tab and line ends, and those that turn the direction of
/// a text (Unicode 15.0, table 23-2 and UAX #9, 2). Nobody states them on purpose; what was stored with them stays as it is.
/// </summary>
public static class HiddenSigns
{
    /// <summary>Whether a sign is one of them.</summary>
    public static bool Holds(char sign) => sign switch
    {
        '\t' or '\n' or '\r' => false,
        >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069' => true,
        _ => char.IsControl(sign),
    };

    /// <summary>The first text of a JSON value that holds one; null where none does.</summary>
    internal static BoundBreach? Find(ReadOnlySpan<byte> json)
    {
        var reader = new Utf8JsonReader(json);
        var (from, length) = (0, 0);
        while (reader.Read())
        {
            var isName = reader.TokenType == JsonTokenType.PropertyName;
            if (!isName && reader.TokenType != JsonTokenType.String) continue;
            if (isName) (from, length) = ((int)reader.TokenStartIndex + 1, reader.ValueSpan.Length);
            // Without escapes and beyond ASCII there is nothing that cannot be seen.
            if (!reader.ValueIsEscaped && Ascii.IsValid(reader.ValueSpan) && reader.ValueSpan.IndexOf((byte)0x7F) < 0) continue;
            var text = reader.GetString()!;
            foreach (var sign in text)
            {
                if (Holds(sign)) return new(isName ? text : Encoding.UTF8.GetString(json.Slice(from, length)), Name(sign),
                    "a text without control signs and signs of direction");
            }
        }
        return null;
    }

    private static string Name(char sign) => string.Create(CultureInfo.InvariantCulture, $"U+{(int)sign:X4}");
}

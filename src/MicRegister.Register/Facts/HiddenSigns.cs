using System.Globalization;
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
        var member = "";
        while (reader.Read())
        {
            if (reader.TokenType is not (JsonTokenType.PropertyName or JsonTokenType.String)) continue;
            var text = reader.GetString()!;
            if (reader.TokenType == JsonTokenType.PropertyName) member = text;
            foreach (var sign in text)
            {
                if (Holds(sign)) return new(member, Name(sign), "a text without control signs and signs of direction");
            }
        }
        return null;
    }

    private static string Name(char sign) => string.Create(CultureInfo.InvariantCulture, $"U+{(int)sign:X4}");
}

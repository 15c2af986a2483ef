using System.Text.Json;

namespace MicRegister.Register.Facts;

/// <summary>
/// What a fact's body holds of texts, whatever its kind: also one that this version cannot read names others by their ids.
/// </summary>
internal static class BodyTexts
{
    /// <summary>Longer texts are no ids.</summary>
    private const int MostBytes = 400;

    /// <summary>All texts and names of a body that can be ids.</summary>
    public static IReadOnlyList<string> Of(Fact fact)
    {
        var found = new List<string>();
        var reader = new Utf8JsonReader(fact.Bytes.Span);
        while (reader.Read())
        {
            var isName = reader.TokenType == JsonTokenType.PropertyName;
            if (isName && reader.CurrentDepth == 1 && !reader.ValueTextEquals("body"u8)) reader.Skip();
            else if ((isName || reader.TokenType == JsonTokenType.String) && reader.ValueSpan.Length <= MostBytes)
                found.Add(reader.GetString()!);
        }
        return found;
    }
}

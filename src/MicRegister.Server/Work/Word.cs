using System.Text.Json;

namespace MicRegister.Server.Work;

/// <summary>
/// A value of an enumeration in an address, in the word that JSON has for it. The framework would read the name that the program has for it.
/// </summary>
/// <param name="Value">The value.</param>
internal readonly record struct Word<T>(T Value)
    where T : struct, Enum
{
    /// <summary>Reads a word; the framework asks for this by its name.</summary>
    public static bool TryParse(string? text, out Word<T> word)
    {
        foreach (var value in Enum.GetValues<T>())
        {
            if (WordsOfEnumerations.Of(value) != text) continue;
            word = new(value);
            return true;
        }
        word = default;
        return false;
    }
}

/// <summary>The words that the API has for enumerations.</summary>
internal static class WordsOfEnumerations
{
    /// <summary>The word for a value.</summary>
    public static string Of(Enum value) => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    /// <summary>All words of an enumeration.</summary>
    public static IEnumerable<string> Of(Type enumeration) => Enum.GetValues(enumeration).Cast<Enum>().Select(Of);
}

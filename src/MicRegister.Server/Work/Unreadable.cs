using System.Text.Json;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Work;

/// <summary>Says for people why a request could not be read; the framework's own words name types of the program.</summary>
internal static class Unreadable
{
    /// <summary>A sentence with the part of the body or the question, and its value.</summary>
    public static string Words(BadHttpRequestException why) => why.InnerException switch
    {
        JsonException json => $"The body does not fit: {UnfitJson.Words(json)}.",
        { } other => other.Message,
        null => why.Message.Split('"') switch
        {
            // The framework's words: Failed to bind parameter "Nullable<int> sequence" from "abc".
            ["Failed to bind parameter ", var parameter, " from ", var value, ..] =>
                $"{Name(parameter)} '{value}': {(Allowed(parameter) is { } words ? $"allowed are {words}." : "it cannot be read.")}",
            ["Required parameter ", var parameter, ..] => $"{Name(parameter)} is missing.",
            _ => why.Message,
        },
    };

    // The framework names the type that it could not make: Word<DeviceStatus> is one of its words.
    private static string? Allowed(string parameter)
    {
        var begin = parameter.IndexOf("Word<", StringComparison.Ordinal);
        if (begin < 0) return null;
        var name = parameter[(begin + 5)..parameter.IndexOf('>', begin)];
        var enumeration = typeof(FactId).Assembly.GetTypes().FirstOrDefault(t => t.IsEnum && t.IsPublic && t.Name == name);
        return enumeration is null ? null : string.Join(", ", WordsOfEnumerations.Of(enumeration));
    }

    private static string Name(string parameter) => parameter[(parameter.LastIndexOf(' ') + 1)..];
}

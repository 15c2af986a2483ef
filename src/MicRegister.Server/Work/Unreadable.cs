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
            ["Failed to bind parameter ", var parameter, " from ", var value, ..] => $"{Name(parameter)} '{value}': it cannot be read.",
            ["Required parameter ", var parameter, ..] => $"{Name(parameter)} is missing.",
            _ => why.Message,
        },
    };

    private static string Name(string parameter) => parameter[(parameter.LastIndexOf(' ') + 1)..];
}

using System.Text.Json;

namespace MicRegister.Register.Facts;

/// <summary>Says for people why JSON does not fit what it should be; the framework's own words name types of the program.</summary>
public static class UnfitJson
{
    /// <summary>The end of a sentence: which part is missing, not known, null or of another sort.</summary>
    public static string Words(JsonException why)
    {
        var part = why.Path is { Length: > 2 } path ? $"the part '{path[2..]}'" : "it";
        if (why.Message.Split("missing required properties including: ") is [_, var missing]) return $"{part} lacks {missing.TrimEnd('.')}";
        if (why.Message.Contains("could not be mapped to any .NET member", StringComparison.Ordinal)) return $"{part} is not known there";
        if (why.Message.Contains("doesn't allow null values", StringComparison.Ordinal)) return $"{part} is null";
        return why.Message.Contains("could not be converted to", StringComparison.Ordinal)
            ? $"{part} is of another sort than is allowed there"
            : why.Message.Split(" Path: $")[0].TrimEnd('.');
    }
}

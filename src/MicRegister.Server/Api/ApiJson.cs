using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>How answers are written as JSON, by the API and by commands alike.</summary>
internal static class ApiJson
{
    private static readonly JsonSerializerOptions Indented = Made();

    /// <summary>Sets it up.</summary>
    public static void Set(JsonSerializerOptions options)
    {
        options.TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { FactText.RequireWhatCannotBeAbsent } };
        options.RespectNullableAnnotations = true;
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
    }

    /// <summary>An answer as a command prints it.</summary>
    public static string Text<T>(T answer) => JsonSerializer.Serialize(answer, Indented);

    /// <summary>What an answer, or a body as the API takes it, says; null where it is the word null.</summary>
    /// <exception cref="JsonException">It is no such text.</exception>
    public static T? Read<T>(string text) => JsonSerializer.Deserialize<T>(text, Indented);

    private static JsonSerializerOptions Made()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web) { WriteIndented = true };
        Set(options);
        return options;
    }
}

using System.Text.Json;
using System.Text.Json.Serialization;

namespace MicRegister.Server.Commands;

/// <summary>How commands write JSON: the words of enumerations as the interface writes them, and nothing for what is not known.</summary>
internal static class CommandJson
{
    /// <summary>On one line.</summary>
    public static JsonSerializerOptions OneLine { get; } = Make(isIndented: false);

    /// <summary>On many lines.</summary>
    public static JsonSerializerOptions Indented { get; } = Make(isIndented: true);

    private static JsonSerializerOptions Make(bool isIndented) => new(JsonSerializerDefaults.Web)
    {
        WriteIndented = isIndented,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };
}

using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace MicRegister.Register.Facts;

/// <summary>A detail of a device: a number in the unit of its field, or a text. The default is an empty text.</summary>
[JsonConverter(typeof(Converter))]
public readonly record struct FieldValue
{
    private FieldValue(double? number, string? text)
    {
        Number = number;
        Text = text;
    }

    /// <summary>The number, where it is one.</summary>
    public double? Number { get; }

    /// <summary>The text, where it is no number.</summary>
    public string? Text { get; }

    public static FieldValue Of(double number) => new(number, null);

    public static FieldValue Of(string text) => new(null, text);

    /// <summary>The value for people and comparisons, numbers invariant.</summary>
    public override string ToString() => Number is { } n ? n.ToString("R", CultureInfo.InvariantCulture) : Text ?? "";

    internal sealed class Converter : JsonConverter<FieldValue>
    {
        public override FieldValue Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.TokenType switch
        {
            JsonTokenType.Number => Of(reader.GetDouble()),
            JsonTokenType.String => Of(reader.GetString()!),
            _ => throw new JsonException("A detail is a number or a text."),
        };

        public override void Write(Utf8JsonWriter writer, FieldValue value, JsonSerializerOptions options)
        {
            if (value.Number is { } n) writer.WriteNumberValue(n);
            else writer.WriteStringValue(value.Text ?? "");
        }
    }
}

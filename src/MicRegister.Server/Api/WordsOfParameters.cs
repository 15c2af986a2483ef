using System.Text.Json.Nodes;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Mvc.Infrastructure;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace MicRegister.Server.Api;

/// <summary>Says in the API's document which words a part of an address or a question may be.</summary>
internal static class WordsOfParameters
{
    /// <summary>Writes the words of an operation's parameters.</summary>
    public static Task Say(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancel)
    {
        foreach (var parameter in context.Description.ParameterDescriptions)
        {
            if (EnumerationOf(parameter.ParameterDescriptor as IParameterInfoParameterDescriptor) is not { } enumeration) continue;
            if (operation.Parameters?.OfType<OpenApiParameter>().FirstOrDefault(p => p.Name == parameter.Name) is not { } stated) continue;
            stated.Schema = new OpenApiSchema
            {
                Type = JsonSchemaType.String,
                Enum = [.. WordsOfEnumerations.Of(enumeration).Select(w => (JsonNode)JsonValue.Create(w)!)],
            };
        }
        return Task.CompletedTask;
    }

    private static Type? EnumerationOf(IParameterInfoParameterDescriptor? parameter) =>
        parameter?.ParameterInfo.ParameterType is { } type
        && (Nullable.GetUnderlyingType(type) ?? type) is { IsGenericType: true } own && own.GetGenericTypeDefinition() == typeof(Word<>)
            ? own.GetGenericArguments()[0]
            : null;
}

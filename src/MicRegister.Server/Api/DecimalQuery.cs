using System.Reflection;
using System.Text.Json;

namespace MicRegister.Server.Api;

/// <summary>Numbers of a query have a decimal point: a comma would be read as one that groups thousands, so that 1,2 would be 12.</summary>
internal static class DecimalQuery
{
    /// <summary>Refuses numbers with a comma, before anything is answered with them.</summary>
    public static EndpointFilterDelegate Filter(EndpointFilterFactoryContext factory, EndpointFilterDelegate next)
    {
        string[] numbers = [.. factory.MethodInfo.GetParameters().SelectMany(Named).Distinct(StringComparer.OrdinalIgnoreCase)];
        if (numbers.Length == 0) return next;
        return async context =>
        {
            var query = context.HttpContext.Request.Query;
            return Array.Find(numbers, n => query[n].ToString().Contains(',', StringComparison.Ordinal)) is { } wrong
                ? Answers.Invalid($"{wrong} '{query[wrong]}': allowed is a number with a decimal point, such as 0.5.")
                : await next(context);
        };
    }

    private static IEnumerable<string> Named(ParameterInfo parameter) =>
        parameter.GetCustomAttribute<AsParametersAttribute>() is not null
            ? parameter.ParameterType.GetProperties().Where(p => IsNumber(p.PropertyType)).Select(p => JsonNamingPolicy.CamelCase.ConvertName(p.Name))
            : IsNumber(parameter.ParameterType) && parameter.Name is { } name ? [name] : [];

    private static bool IsNumber(Type type) => (Nullable.GetUnderlyingType(type) ?? type) == typeof(double);
}

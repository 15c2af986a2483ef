using System.Collections;
using System.Collections.Concurrent;
using System.Reflection;

namespace MicRegister.Server.Api;

/// <summary>Refuses a body in which an item of a list is null: the serializer holds members to what may be absent, but not items.</summary>
internal static class NoNullItems
{
    private static readonly ConcurrentDictionary<Type, PropertyInfo[]> Members = new();

    public static async ValueTask<object?> Filter(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        foreach (var argument in context.Arguments)
        {
            // A body may be a list itself.
            foreach (var item in argument is Array list && IsOurs(list.GetType().GetElementType()!) ? list.Cast<object?>() : [])
            {
                if (item is null) return Answers.Invalid("The list holds null: leave it out instead.");
                if (Where(item, "") is { } inner) return Answers.Invalid($"{inner} holds null: leave it out instead.");
            }
            if (argument is not null && IsOurs(argument.GetType()) && Where(argument, "") is { } where)
                return Answers.Invalid($"{where} holds null: leave it out instead.");
        }
        return await next(context);
    }

    private static bool IsOurs(Type type) =>
        type is { IsClass: true, Namespace: { } space } && space.StartsWith("MicRegister", StringComparison.Ordinal)
        && type.GetMethod("<Clone>$") is not null;

    private static string? Where(object value, string path)
    {
        var members = Members.GetOrAdd(value.GetType(), t => [.. t.GetProperties().Where(p => p.GetIndexParameters().Length == 0)]);
        foreach (var member in members)
        {
            var name = path + char.ToLowerInvariant(member.Name[0]) + member.Name[1..];
            if (member.PropertyType == typeof(string) || member.PropertyType.IsPrimitive) continue;
            switch (member.GetValue(value))
            {
                case IDictionary: break;
                case IEnumerable items:
                    foreach (var item in items)
                    {
                        if (item is null) return name;
                        if (item is not string && IsOurs(item.GetType()) && Where(item, name + ".") is { } inner) return inner;
                    }
                    break;
                case { } single when IsOurs(single.GetType()):
                    if (Where(single, name + ".") is { } deeper) return deeper;
                    break;
                default: break;
            }
        }
        return null;
    }
}

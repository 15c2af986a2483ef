using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;
using MicRegister.Register.Facts;
using Microsoft.AspNetCore.Mvc.ApiExplorer;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace MicRegister.Server.Api;

/// <summary>Holds what is sent against the bounds of facts, and says them in the API's document: both from <see cref="Bound"/>.</summary>
internal static class BoundsOfBodies
{
    private static readonly ConditionalWeakTable<IApiDescriptionGroupCollectionProvider, HashSet<Type>> Sent = [];

    /// <summary>Refuses a body with a member beyond its bound, before anything is worked out of it.</summary>
    public static async ValueTask<object?> Filter(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        foreach (var argument in context.Arguments)
        {
            if (argument is not null && (argument is Array || BodyBounds.IsOurs(argument.GetType())) && BodyBounds.Find(argument)
                is { } breach) return Answers.Invalid(breach);
        }
        return await next(context);
    }

    /// <summary>
    /// Writes a member's bound into its schema, where it is a member of a body that is sent or of a fact: of those the bound always holds.
    /// </summary>
    public static Task Say(OpenApiSchema schema, OpenApiSchemaTransformerContext context, CancellationToken cancel)
    {
        if (context.JsonTypeInfo.Type == typeof(FieldValue)) Say(schema, Bound.Of("", typeof(FieldValue))!);
        if (context.JsonPropertyInfo is not { AttributeProvider: PropertyInfo member } || !Types(context.ApplicationServices)
            .Contains(member.DeclaringType!)) return Task.CompletedTask;
        if (Bound.Of(member.Name, member.PropertyType) is not { } bound) return Task.CompletedTask;
        if (bound.Items is not { } items)
        {
            Say(schema, bound);
            return Task.CompletedTask;
        }
        if (schema.AdditionalProperties is null) schema.MaxItems = items;
        else schema.MaxProperties = items;
        if (schema.Items is OpenApiSchema item) Say(item, bound);
        return Task.CompletedTask;
    }

    /// <summary>All records whose members come from outside: bodies of requests, kinds of facts, and what both hold.</summary>
    internal static HashSet<Type> Types(IServiceProvider services) =>
        Sent.GetValue(services.GetRequiredService<IApiDescriptionGroupCollectionProvider>(), descriptions =>
    {
        var types = new HashSet<Type>();
        foreach (var kind in FactKinds.All) Add(kind.Body);
        foreach (var body in descriptions.ApiDescriptionGroups.Items.SelectMany(g => g.Items).SelectMany(d => d.ParameterDescriptions)
            .Where(p => p.Source.Id == "Body")) Add(body.Type);
        return types;

        void Add(Type type)
        {
            if (Bound.ItemOf(type) is { } item) Add(item);
            else if (BodyBounds.IsOurs(type) && types.Add(type)) BodyBounds.Members(type).ToList().ForEach(m => Add(m.PropertyType));
        }
    });

    private static void Say(OpenApiSchema schema, Bound bound)
    {
        schema.Minimum = bound.Least?.ToString("R", CultureInfo.InvariantCulture);
        schema.Maximum = bound.Greatest?.ToString("R", CultureInfo.InvariantCulture);
        schema.MaxLength = bound.Letters;
        if (bound is { First: { } first, Last: { } last }) schema.Description = string.Create(CultureInfo.InvariantCulture,
            $"{schema.Description} From {first:yyyy-MM-dd} to {last:yyyy-MM-dd}.").Trim();
    }
}

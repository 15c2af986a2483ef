using Mono.Cecil;

namespace MicRegister.Server.Tests.House;

/// <summary>
/// Which folder of a project knows which, read from what the compiler made: signatures, fields, attributes and bodies of methods.
/// </summary>
internal static class FolderArrows
{
    /// <summary>Arrows between the namespaces of one assembly, each with the types that draw it.</summary>
    /// <param name="assembly">Path of the assembly.</param>
    /// <param name="root">Its root namespace; what lies in it stands as ".".</param>
    public static IReadOnlyDictionary<(string From, string To), SortedSet<string>> Of(string assembly, string root)
    {
        using var module = ModuleDefinition.ReadModule(assembly);
        var arrows = new Dictionary<(string, string), SortedSet<string>>();
        foreach (var type in module.GetTypes())
        {
            if (Folder(type, root) is not { } from) continue;
            foreach (var used in Used(type))
            {
                if (used.Scope != module || Folder(used, root) is not { } to || from == to) continue;
                if (!arrows.TryGetValue((from, to), out var who)) arrows[(from, to)] = who = new(StringComparer.Ordinal);
                who.Add($"{Outer(type).Name} knows {Outer(used).Name}");
            }
        }
        return arrows;
    }

    /// <summary>A circle of folders; empty where there is none.</summary>
    public static IReadOnlyList<string> Circle(IEnumerable<(string From, string To)> arrows)
    {
        var next = arrows.ToLookup(a => a.From, a => a.To, StringComparer.Ordinal);
        var done = new HashSet<string>(StringComparer.Ordinal);
        var path = new List<string>();
        foreach (var start in next.Select(g => g.Key).Order(StringComparer.Ordinal))
        {
            if (Walk(start)) return path;
        }
        return [];

        bool Walk(string at)
        {
            if (path.IndexOf(at) is var known and >= 0)
            {
                path.RemoveRange(0, known);
                path.Add(at);
                return true;
            }
            if (!done.Add(at)) return false;
            path.Add(at);
            if (next[at].Order(StringComparer.Ordinal).Any(Walk)) return true;
            path.RemoveAt(path.Count - 1);
            return false;
        }
    }

    private static string? Folder(TypeReference type, string root)
    {
        var space = Outer(type).Namespace;
        if (space == root) return ".";
        return space.StartsWith(root + ".", StringComparison.Ordinal) ? space[(root.Length + 1)..].Replace('.', '/') : null;
    }

    private static TypeReference Outer(TypeReference type)
    {
        while (type.DeclaringType is { } outer) type = outer;
        return type;
    }

    private static IEnumerable<TypeReference> Used(TypeDefinition type)
    {
        IEnumerable<TypeReference?> direct =
        [
            type.BaseType,
            .. type.Interfaces.Select(i => i.InterfaceType),
            .. type.CustomAttributes.SelectMany(Of),
            .. type.GenericParameters.SelectMany(g => g.Constraints.Select(c => c.ConstraintType)),
            .. type.Fields.Select(f => f.FieldType),
            .. type.Properties.Select(p => p.PropertyType),
            .. type.Properties.SelectMany(p => p.CustomAttributes.SelectMany(Of)),
            .. type.Methods.SelectMany(Of),
        ];
        return direct.OfType<TypeReference>().SelectMany(Parts);
    }

    private static IEnumerable<TypeReference?> Of(CustomAttribute attribute) =>
        attribute.ConstructorArguments.Select(a => a.Value).OfType<TypeReference>().Prepend(attribute.AttributeType);

    private static IEnumerable<TypeReference?> Of(MethodDefinition method)
    {
        IEnumerable<TypeReference?> signature =
        [
            method.ReturnType,
            .. method.Parameters.Select(p => p.ParameterType),
            .. method.GenericParameters.SelectMany(g => g.Constraints.Select(c => c.ConstraintType)),
        ];
        if (!method.HasBody) return signature;
        var body = method.Body.Variables.Select(v => v.VariableType).Concat(method.Body.Instructions.SelectMany(i => i.Operand switch
        {
            TypeReference t => (IEnumerable<TypeReference?>)[t],
            MethodReference m =>
            [
                m.DeclaringType, m.ReturnType, .. m.Parameters.Select(p => p.ParameterType),
                .. (m as GenericInstanceMethod)?.GenericArguments ?? [],
            ],
            FieldReference f => [f.DeclaringType, f.FieldType],
            _ => [],
        }));
        return signature.Concat(body);
    }

    // List<Device[]> speaks of List and of Device.
    private static IEnumerable<TypeReference> Parts(TypeReference type) => type switch
    {
        GenericParameter => [],
        GenericInstanceType g => g.GenericArguments.SelectMany(Parts).Prepend(g.ElementType),
        TypeSpecification s => Parts(s.ElementType),
        _ => [type],
    };
}

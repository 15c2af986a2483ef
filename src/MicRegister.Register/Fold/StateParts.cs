using System.Collections.Immutable;

namespace MicRegister.Register.Fold;

/// <summary>What other folders keep of a subject beside its own state: one part a type.</summary>
internal sealed record StateParts
{
    private readonly ImmutableDictionary<Type, object> _parts = ImmutableDictionary<Type, object>.Empty;

    /// <summary>No part yet.</summary>
    public static StateParts None { get; } = new();

    private StateParts()
    {
    }

    private StateParts(ImmutableDictionary<Type, object> parts) => _parts = parts;

    /// <summary>The part of a type; null where nothing was said of it.</summary>
    public T? Of<T>()
        where T : class => (T?)_parts.GetValueOrDefault(typeof(T));

    /// <summary>The parts with one of them changed.</summary>
    public StateParts With<T>(T part)
        where T : class => new(_parts.SetItem(typeof(T), part));
}

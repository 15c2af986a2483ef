using System.Collections.Concurrent;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// What was worked out of the register, as far as it was asked for; each sort is named by its type, by whoever works it out. It is
/// handed on from state to state while new facts can only change what they speak of; a fact that reaches further begins it anew.
/// </summary>
internal sealed class RegisterMemory
{
    private readonly ConcurrentDictionary<Type, object> _shelves = new();

    /// <summary>The shelf of a sort, empty where nobody asked for it yet.</summary>
    public T Of<T>()
        where T : class, new() => (T)_shelves.GetOrAdd(typeof(T), static _ => new T());

    /// <summary>Whether what was worked out before a batch still holds after it, but for the subjects of the batch.</summary>
    public static bool Outlives(IReadOnlyList<Fact> batch, Corrections corrections) => batch.All(f =>
        // What nobody here can read has no effect beyond its own subjects.
        (f.Body is UnreadBody || FactKinds.Find(f.Kind, f.Version)?.Reach == FactReach.OwnSubjects)
        && Corrections.Target(f) is null
        && !corrections.PointersAt.ContainsKey(f.Id));
}

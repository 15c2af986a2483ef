using System.Collections.Concurrent;

namespace MicRegister.Register.Fold;

/// <summary>Answers about subjects, each with the number of facts that it was worked out of.</summary>
internal sealed class Shelf<T>
{
    private readonly ConcurrentDictionary<string, Known> _known = new(StringComparer.Ordinal);

    /// <summary>The answer, worked out anew where there are more facts about the subject by now.</summary>
    /// <param name="id">Id of the subject.</param>
    /// <param name="version">Number of facts about it.</param>
    /// <param name="work">Works it out.</param>
    /// <param name="further">Number of facts about what else the answer looked at; null where it looked at nothing else.</param>
    public T Of(string id, int version, Func<string, T> work, Func<T, int>? further = null)
    {
        if (_known.TryGetValue(id, out var known) && known.Version == version
            && known.Further == (further?.Invoke(known.Answer) ?? 0))
        {
            return known.Answer;
        }
        var answer = work(id);
        _known[id] = new(version, further?.Invoke(answer) ?? 0, answer);
        return answer;
    }

    private sealed record Known(int Version, int Further, T Answer);
}

namespace MicRegister.Server.Work;

/// <summary>
/// What people typed and did not store yet, so that a reload, a lost connection or a step back costs nothing. It is held in memory:
/// stopping the server forgets it.
/// </summary>
public sealed class DraftShelf(TimeProvider time)
{
    /// <summary>Most drafts at once; the oldest goes.</summary>
    public const int Most = 500;

    private readonly Lock _lock = new();
    private readonly Dictionary<(string Person, string Place), (object What, DateTimeOffset At)> _drafts = [];

    /// <summary>Keeps what a person has typed at a place; it stands for what stood there.</summary>
    public void Put(string person, string place, object what)
    {
        lock (_lock)
        {
            _drafts[(person, place)] = (what, time.GetUtcNow());
            if (_drafts.Count > Most) _drafts.Remove(_drafts.MinBy(d => d.Value.At).Key);
        }
    }

    /// <summary>What a person typed at a place, and when last; null where nothing is kept.</summary>
    public (T What, DateTimeOffset At)? Of<T>(string person, string place)
        where T : class
    {
        lock (_lock) return _drafts.TryGetValue((person, place), out var draft) && draft.What is T what ? (what, draft.At) : null;
    }

    /// <summary>Forgets it: it is stored, or left.</summary>
    public void Drop(string person, string place)
    {
        lock (_lock) _drafts.Remove((person, place));
    }
}

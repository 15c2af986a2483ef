namespace MicRegister.Server.Tests.Pages;

/// <summary>A clock whose timers ring when a test says so: nothing is drawn anew between finding an element and acting on it.</summary>
internal sealed class RungTime : TimeProvider
{
    private readonly List<Bell> _bells = [];

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var bell = new Bell(() => callback(state)) { IsSet = dueTime != Timeout.InfiniteTimeSpan };
        lock (_bells) _bells.Add(bell);
        return bell;
    }

    /// <summary>Rings all that are set.</summary>
    public void Ring()
    {
        Bell[] set;
        lock (_bells) set = [.. _bells.Where(b => b.IsSet)];
        foreach (var bell in set) bell.Ring();
    }

    private sealed class Bell(Action act) : ITimer
    {
        public bool IsSet { get; set; }

        public void Ring()
        {
            IsSet = false;
            act();
        }

        public bool Change(TimeSpan dueTime, TimeSpan period) => IsSet = dueTime != Timeout.InfiniteTimeSpan;

        public void Dispose() => IsSet = false;

        public ValueTask DisposeAsync()
        {
            Dispose();
            return default;
        }
    }
}

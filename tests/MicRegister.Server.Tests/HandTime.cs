namespace MicRegister.Server.Tests;

/// <summary>A clock that goes on only when a test moves it, with the timers that hang on it.</summary>
internal sealed class HandTime(DateTimeOffset begin) : TimeProvider
{
    private readonly Lock _lock = new();
    private readonly List<Timer> _timers = [];
    private DateTimeOffset _now = begin;

    public override DateTimeOffset GetUtcNow()
    {
        lock (_lock) return _now;
    }

    public void Advance(TimeSpan by)
    {
        List<Timer> due;
        lock (_lock)
        {
            _now += by;
            due = [.. _timers.Where(t => t.Due <= _now)];
            foreach (var timer in due) timer.Due = null;
        }
        due.ForEach(t => t.Fire());
    }

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = new Timer(this, callback, state);
        timer.Change(dueTime, period);
        lock (_lock) _timers.Add(timer);
        return timer;
    }

    // Fires once: nothing here asks for more.
    private sealed class Timer(HandTime time, TimerCallback callback, object? state) : ITimer
    {
        public DateTimeOffset? Due { get; set; }

        public void Fire() => callback(state);

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            lock (time._lock) Due = dueTime < TimeSpan.Zero ? null : time._now + dueTime;
            return true;
        }

        public void Dispose()
        {
            lock (time._lock) time._timers.Remove(this);
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}

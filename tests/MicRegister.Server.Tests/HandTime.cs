namespace MicRegister.Server.Tests;

/// <summary>A clock that stands where a test puts it, with the timers that hang on it.</summary>
internal sealed class HandTime(DateTimeOffset begin) : TimeProvider
{
    private readonly Lock _lock = new();
    private readonly List<Timer> _timers = [];
    private DateTimeOffset _now = begin;
    private long _looks;

    /// <summary>What it shows; setting it fires the timers that are due by then.</summary>
    public DateTimeOffset Now
    {
        get
        {
            lock (_lock) return _now;
        }

        set
        {
            List<Timer> due;
            lock (_lock)
            {
                _now = value;
                due = [.. _timers.Where(t => t.Due <= _now)];
                foreach (var timer in due) timer.Due = null;
            }
            due.ForEach(t => t.Fire());
        }
    }

    /// <summary>Whether each look at the stopwatch comes a second after the last, so that all work seems long.</summary>
    public bool IsHasty { get; set; }

    public override long TimestampFrequency => 1_000;

    public override DateTimeOffset GetUtcNow() => Now;

    public override long GetTimestamp() => IsHasty ? Interlocked.Add(ref _looks, 1_000) : Environment.TickCount64;

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

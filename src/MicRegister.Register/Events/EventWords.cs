namespace MicRegister.Register.Events;

/// <summary>Words for what was recorded, in one place for all who read them; written so that they can stand within a sentence.</summary>
public static class EventWords
{
    extension(EventKind kind)
    {
        /// <summary>What happened over or beside the array.</summary>
        public string InWords => kind switch
        {
            EventKind.FlyOver => "fly-over",
            EventKind.Run => "run",
            EventKind.Hover => "hover",
            EventKind.Ambient => "background",
            EventKind.Other => "other",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };
    }

    extension(TimeScale scale)
    {
        /// <summary>The time that a clock shows.</summary>
        public string InWords => scale switch
        {
            TimeScale.Utc => "UTC",
            TimeScale.Gps => "GPS time",
            TimeScale.Local => "site time",
            _ => throw new ArgumentOutOfRangeException(nameof(scale), scale, null),
        };
    }
}

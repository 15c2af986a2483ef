namespace MicRegister.Server.Tests;

/// <summary>
/// The system's clock, for which a moment lasts a hundred times as long: a page asked once, without a circuit, then tells what it works
/// out instead of that it does, however busy the machine.
/// </summary>
internal sealed class PatientTime : TimeProvider
{
    /// <inheritdoc/>
    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        System.CreateTimer(callback, state, Long(dueTime), Long(period));

    // Nothing, and for ever, stay what they are.
    private static TimeSpan Long(TimeSpan time) => time > TimeSpan.Zero ? 100 * time : time;
}

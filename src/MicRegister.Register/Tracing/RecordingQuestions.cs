using MicRegister.Register.Checks;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>Whether the stated files hold the event, where the register knows of files at all.</summary>
internal static class RecordingQuestions
{
    public static IEnumerable<TraceReason> Recorded(TracedChain c)
    {
        var coverage = c.Shared.Coverage;
        var (recorder, number) = c.First(DeviceKind.RecorderChannel) is { } channel ? RecorderOf(c, channel) : ("", 0);
        return coverage.Against(recorder, number).Select(f => new TraceReason(
            f.IsNote ? TraceVerdict.Valid : TraceVerdict.Doubtful, f.Text, $"fact {c.Shared.Event.Fact}, rule {f.Rule}"));
    }

    // What only a serial number lets guess counts where files name such a recorder.
    private static (string Recorder, int Number) RecorderOf(TracedChain c, DeviceState channel)
    {
        var told = ChannelMatch.RecorderOf(channel);
        return channel.Text(DeviceField.Recorder) is not null || c.Shared.Coverage.Recorders.Contains(told.Recorder, StringComparer.OrdinalIgnoreCase)
            ? told
            : ("", 0);
    }
}

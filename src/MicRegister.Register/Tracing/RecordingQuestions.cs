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

    /// <summary>
    /// The recorder and channel that the chain was recorded with, as far as the register knows: by the entry or the serial number of the
    /// channel, then by the files of the event where one recorder made them all, and by the recorded tone of a check.
    /// </summary>
    internal static (string? Recorder, int? Channel) ChannelOf(TracedChain c)
    {
        (string Recorder, int Number) told = c.First(DeviceKind.RecorderChannel) is { } channel ? ChannelMatch.RecorderOf(channel) : ("", 0);
        var recorder = told.Recorder.Length > 0 ? told.Recorder : c.Shared.Coverage.Recorders.ToList() is [{ Length: > 0 } only] ? only : null;
        var number = told.Number > 0 ? told.Number : c.Checks.Select(k => k.Check.Tone?.Channel).FirstOrDefault(n => n is not null);
        return (recorder, number);
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

using System.Globalization;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;

namespace MicRegister.Server.Api;

/// <summary>One channel of a batch of recordings with the station that it stands for.</summary>
/// <param name="Recording">The recording.</param>
/// <param name="Channel">The channel.</param>
/// <param name="Station">The station; null where none was found.</param>
/// <param name="Why">Why that one, or why none.</param>
public sealed record ToneRow(RecordingView Recording, ChannelView Channel, string? Station, string Why)
{
    /// <summary>The tone as it is stored with a check; null where there is none.</summary>
    public RecordedTone? Tone =>
        Channel is { Usable: true, FrequencyHz: { } hz, Distortion: { } d, FluctuationDb: { } f, SignalToNoiseDb: { } snr }
        && Recording is { Bytes: { } bytes, Sha256: { } sha }
            ? new(
                Recording.File, bytes, sha, Channel.Channel, hz, d, f, snr, Channel.FromSeconds, Channel.ToSeconds,
                Recording.Broadcast is { Day: { } day, Time: { } time }
                    ? string.Create(CultureInfo.InvariantCulture, $"{day:yyyy-MM-dd} {time:HH:mm:ss}")
                    : null)
            : null;
}

/// <summary>Recordings of many chains at once.</summary>
public static class ToneBatch
{
    /// <summary>Matches all channels with the chains of a campaign.</summary>
    public static IReadOnlyList<ToneRow> Match(
        Register.Register register, CampaignState campaign, IReadOnlyList<RecordingView> recordings,
        IReadOnlyList<ChannelMapping> mappings)
    {
        var rows = recordings.SelectMany(r => r.Channels.Select(c => (Recording: r, Channel: c))).ToList();
        var recorded = rows.Select(r => new RecordedChannel(
            r.Recording.File, r.Recording.Broadcast?.Originator ?? "", r.Channel.Channel, r.Recording.Channels.Count));
        var matched = ChannelMatch.Of(register, campaign, [.. recorded], mappings);
        return [.. rows.Select((r, i) => new ToneRow(r.Recording, r.Channel, matched[i].Station, matched[i].Why))];
    }

    /// <summary>Entries of all channels that are usable and stand for a station.</summary>
    /// <param name="rows">The channels.</param>
    /// <param name="conditions">What all have in common: calibrator, adapter, air, moment.</param>
    public static IReadOnlyList<CheckEntry> Entries(IReadOnlyList<ToneRow> rows, CheckEntry conditions) =>
        [.. rows.Select(r => MeasuredTone.Of(r.Recording, r.Channel).Entry(r.Station, conditions)).OfType<CheckEntry>()];
}

/// <summary>What was measured of one recorded channel, as far as a check needs it.</summary>
/// <param name="File">Name of the recording.</param>
/// <param name="Recorder">What the recorder calls itself; empty where it does not say.</param>
/// <param name="Channel">From 1.</param>
/// <param name="Channels">How many channels the recording has.</param>
/// <param name="Value">Root mean square of the fundamental in parts of full scale; null where there is no tone.</param>
/// <param name="Tone">The tone as it is stored with a check; null where there is none.</param>
/// <param name="Reasons">Why the channel cannot be used; empty where it can.</param>
public sealed record MeasuredTone(
    string File, string Recorder, int Channel, int Channels, double? Value, RecordedTone? Tone, IReadOnlyList<string> Reasons)
{
    public static MeasuredTone Of(RecordingView recording, ChannelView channel) => new(
        recording.File, recording.Broadcast?.Originator ?? "", channel.Channel, recording.Channels.Count, channel.Rms,
        new ToneRow(recording, channel, null, "").Tone, channel.Reasons);

    /// <summary>The entry of a check; null where the channel is not usable, or stands for no station.</summary>
    public CheckEntry? Entry(string? station, CheckEntry conditions) => station is null || Tone is null || Value is not { } value ? null
        : conditions with { Station = station, Method = CheckMethod.Recording, Readings = [value], Tone = Tone };
}

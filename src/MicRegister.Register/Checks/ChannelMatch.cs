using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>One channel of a recording, as it is to be matched with a chain.</summary>
/// <param name="File">Name of the file.</param>
/// <param name="Recorder">What the recorder calls itself in the file; empty where it does not say.</param>
/// <param name="Channel">Channel, from 1.</param>
/// <param name="Channels">How many the file has.</param>
public sealed record RecordedChannel(string File, string Recorder, int Channel, int Channels);

/// <summary>Which station a recorded channel belongs to, and why.</summary>
/// <param name="Station">The station; null where none fits, or several do.</param>
/// <param name="Why">In words.</param>
public sealed record MatchedChannel(RecordedChannel Recorded, string? Station, string Why);

/// <summary>One row of a mapping that a person wrote: it comes before what entries say.</summary>
/// <param name="File">Name of the file, or the part of it before its last dot; empty holds for all.</param>
/// <param name="Channel">Channel, from 1; null for a file of one channel.</param>
public sealed record ChannelMapping(string File, int? Channel, string Station);

/// <summary>Matches the channels of recordings with the chains of a campaign, by the entries of their recorder channels.</summary>
public static class ChannelMatch
{
    private static readonly char[] Separators = ['-', '.', '/', ':', '_', '#', ' '];

    /// <summary>Matches all channels; no two get the same station.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">The campaign.</param>
    /// <param name="recorded">The channels.</param>
    /// <param name="mappings">Rows that a person wrote.</param>
    public static IReadOnlyList<MatchedChannel> Of(Register register, CampaignState campaign, IReadOnlyList<RecordedChannel> recorded, IReadOnlyList<ChannelMapping> mappings)
    {
        var places = campaign.Chains.SelectMany(c => c.Value.Select(id => register.Device(id)).Where(d => d?.Kind == DeviceKind.RecorderChannel.Key).Select(d => Place.Of(c.Key, d!))).ToList();
        var recorders = places.Select(p => p.Recorder).Where(r => r.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        var matched = recorded.Select(r => One(campaign, places, recorders, r, mappings)).ToList();
        var twice = matched.Where(m => m.Station is not null).GroupBy(m => m.Station).Where(g => g.Count() > 1).ToDictionary(g => g.Key!, g => g.Count());
        return [.. matched.Select(m => m.Station is { } s && twice.TryGetValue(s, out var n) ? m with { Station = null, Why = $"{n} channels would be {s}; choose one" } : m)];
    }

    /// <summary>
    /// The recorder that a channel belongs to, and its number there, as its entry says; otherwise a serial number such as C01-3 is
    /// channel 3 of C01. Empty and 0 where neither says.
    /// </summary>
    internal static (string Recorder, int Number) RecorderOf(DeviceState channel)
    {
        var serial = channel.Serial ?? "";
        var cut = Array.FindLastIndex(serial.ToCharArray(), c => Separators.Contains(c));
        var isBehind = int.TryParse(
            serial.AsSpan(cut + 1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n);
        var (name, number) = cut > 0 && isBehind ? (serial[..cut], n) : ("", 0);
        return (channel.Text(DeviceField.Recorder) ?? name, (int)(channel.Number(DeviceField.ChannelNumber) ?? number));
    }

    private static MatchedChannel One(CampaignState campaign, List<Place> places, List<string> recorders, RecordedChannel r, IReadOnlyList<ChannelMapping> mappings)
    {
        var stem = Path.GetFileNameWithoutExtension(r.File);
        if (mappings.FirstOrDefault(m => (m.File.Length == 0 || Same(m.File, r.File) || Same(m.File, stem)) && (m.Channel == r.Channel || (m.Channel is null && r.Channels == 1))) is { } mapping)
            return campaign.Stations.ContainsKey(mapping.Station) ? new(r, mapping.Station, "as mapped") : new(r, null, $"mapped to {mapping.Station}, which is no station of {campaign.Name}");

        var words = stem.Split(Separators, StringSplitOptions.RemoveEmptyEntries);
        if (r.Channels == 1)
        {
            // A file of one channel is mostly named after its station or its channel.
            if (campaign.Stations.Keys.Where(s => Same(s, stem) || words.Any(w => Same(w, s))).ToList() is [var station]) return new(r, station, "the file is named after it");
            if (places.Where(p => stem.Contains(p.Serial, StringComparison.OrdinalIgnoreCase)).ToList() is [var named]) return new(r, named.Station, $"the file is named after channel {named.Serial}");
        }
        var recorder = recorders.Where(name => Same(name, r.Recorder)).ToList();
        if (recorder.Count == 0) recorder = [.. recorders.Where(name => words.Any(w => Same(w, name)))];
        if (recorder.Count == 0 && recorders.Count == 1) recorder = recorders;
        if (recorder.Count != 1) return new(r, null, recorder.Count == 0 ? "neither the file's name nor the recorder's own says which recorder it is" : $"its name fits {string.Join(" and ", recorder)}");
        return places.Where(p => Same(p.Recorder, recorder[0]) && p.Channel == r.Channel).ToList() switch
        {
            [var place] => new(r, place.Station, $"channel {r.Channel} of recorder {recorder[0]}"),
            [] => new(r, null, $"channel {r.Channel} of recorder {recorder[0]} is in no chain"),
            var several => new(r, null, $"channel {r.Channel} of recorder {recorder[0]} is in the chains of {string.Join(" and ", several.Select(p => p.Station))}"),
        };
    }

    private static bool Same(string a, string b) => string.Equals(a.Trim(), b.Trim(), StringComparison.OrdinalIgnoreCase);

    private sealed record Place(string Station, string Serial, string Recorder, int Channel)
    {
        public static Place Of(string station, DeviceState channel)
        {
            var (recorder, number) = RecorderOf(channel);
            return new(station, channel.Serial is { Length: > 0 } serial ? serial : channel.Id, recorder, number);
        }
    }
}

using MicRegister.Metrology.Tones;

namespace MicRegister.Documents.Recordings;

/// <summary>The tones of all channels of a recording.</summary>
/// <param name="Header">What the recording is.</param>
/// <param name="Channels">One report a channel.</param>
/// <param name="IsWhole">Whether all of it was looked at; otherwise only its first twenty minutes.</param>
public sealed record RecordingAnalysis(WaveHeader Header, IReadOnlyList<ToneReport> Channels, bool IsWhole)
{
    /// <summary>Samples of all channels that are held at once.</summary>
    private const int SamplesAtOnce = 1 << 19;

    private const int Looks = 9;
    private const int HarmonicStretches = 4;
    private const double HarmonicSeconds = 0.1;

    /// <summary>Analyses a recording: once through it, with a few looks ahead to find each channel's frequency.</summary>
    /// <param name="stream">A stream that can seek.</param>
    /// <param name="limits">What the tones are asked to be.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="RecordingException">It cannot be read.</exception>
    public static RecordingAnalysis Of(Stream stream, ToneLimits limits, CancellationToken cancel = default)
    {
        var header = WaveHeader.Read(stream);
        var frequencies = Frequencies(stream, header, limits, cancel);
        ToneTrack[] tracks = [.. frequencies.Select(f => new ToneTrack(f, header.SampleRate))];
        // Pieces have one length unless tones are very low: one pass for each length.
        var lengths = tracks.Select(t => t.PieceLength).Distinct().Order().ToList();
        foreach (var length in lengths) Pass(stream, header, tracks, length, cancel);
        var reports = new ToneReport[header.Channels];
        var wanted = new List<(int Channel, long Frame)>();
        var samples = tracks.Select(_ => new List<double[]>()).ToList();
        var size = Math.Min((int)(HarmonicSeconds * header.SampleRate), (int)Math.Min(header.Frames, 1 << 18));
        for (var c = 0; c < tracks.Length; c++)
        {
            if (ToneAnalysis.Stretch(tracks[c]) is not { } stretch) continue;
            for (var k = 0; k < HarmonicStretches; k++)
            {
                var at = (long)((stretch.FromSeconds + ((stretch.ToSeconds - stretch.FromSeconds) * (k + 0.5) / HarmonicStretches)) * header.SampleRate);
                wanted.Add((c, Math.Min(at, header.Frames - size)));
            }
        }
        // Many channels have the same stretch: each place is read once.
        var reader = new WaveReader(stream, header, size);
        var block = Arrays(header.Channels, size);
        foreach (var place in wanted.GroupBy(w => w.Frame).OrderBy(g => g.Key))
        {
            cancel.ThrowIfCancellationRequested();
            reader.Seek(place.Key);
            reader.Read(size, block);
            foreach (var (channel, _) in place) samples[channel].Add([.. block[channel]]);
        }
        for (var c = 0; c < tracks.Length; c++) reports[c] = ToneAnalysis.Measure(tracks[c], limits, samples[c]);
        return new(header, reports, tracks.All(t => t.Count < ToneTrack.MostPieces));
    }

    private static void Pass(Stream stream, WaveHeader header, ToneTrack[] tracks, int length, CancellationToken cancel)
    {
        var pieces = Math.Clamp(SamplesAtOnce / header.Channels / length, 1, 64);
        var reader = new WaveReader(stream, header, length * pieces);
        var piece = new double[length];
        var mine = Enumerable.Range(0, tracks.Length).Where(c => tracks[c].PieceLength == length).ToList();
        reader.Seek(0);
        var left = Math.Min(header.Frames / length, ToneTrack.MostPieces);
        while (left > 0)
        {
            cancel.ThrowIfCancellationRequested();
            var now = (int)Math.Min(left, pieces);
            reader.Take(now * length);
            foreach (var c in mine)
            {
                // Piece by piece, so that the samples stay near.
                for (var k = 0; k < now; k++)
                {
                    reader.Channel(c, k * length, piece);
                    tracks[c].Add(piece);
                }
            }
            left -= now;
        }
    }

    // The strongest tone of each channel, where it is loudest of a few looks.
    private static double[] Frequencies(Stream stream, WaveHeader header, ToneLimits limits, CancellationToken cancel)
    {
        var size = ToneFinder.Length(header.SampleRate);
        while (size > 256 && (size > header.Frames || (long)size * header.Channels > 4 * SamplesAtOnce)) size /= 2;
        var found = new double[header.Channels];
        Array.Fill(found, limits.ExpectedHz ?? 250);
        if (size > header.Frames) return found;
        var (loudest, reader, block) = (new double[header.Channels], new WaveReader(stream, header, size), Arrays(header.Channels, size));
        for (var look = 0; look < Looks; look++)
        {
            cancel.ThrowIfCancellationRequested();
            reader.Seek((header.Frames - size) * look / (Looks - 1));
            reader.Read(size, block);
            for (var c = 0; c < header.Channels; c++)
            {
                double energy = 0;
                foreach (var x in block[c]) energy += x * x;
                // Only where it is louder by half again: the first good look serves.
                if (!(energy > 1.5 * loudest[c]) || !double.IsFinite(energy)) continue;
                loudest[c] = energy;
                if (ToneFinder.Find(block[c], header.SampleRate) is var f and > 0) found[c] = f;
            }
        }
        return found;
    }

    private static double[][] Arrays(int channels, int length) => [.. Enumerable.Range(0, channels).Select(_ => new double[length])];
}

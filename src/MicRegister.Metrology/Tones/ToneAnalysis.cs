using MicRegister.Metrology.Quantities;

namespace MicRegister.Metrology.Tones;

/// <summary>Finds the usable stretch of a tone and measures it.</summary>
/// <remarks>
/// Pieces of a fiftieth of a second are turned to a common phase and averaged over about a tenth of a second; those blocks are combined by
/// energy, so that a frequency that wanders costs nothing. The frequency is the slope of the unwrapped phase.
/// </remarks>
public static class ToneAnalysis
{
    private const int PiecesPerBlock = 5;
    private const double PlateauDb = 0.5;
    private const double NearGreatestDb = 6;
    private const double LowestDb = -100;
    private const double LeastShare = 0.5;
    private const double LongestSeconds = 60;
    private const double FluctuationSeconds = 20;
    private const double FastSeconds = 0.125;
    private const double FullScale = 0.9999;
    private const int TrimBlocks = 2;
    private const int Harmonics = 10;

    /// <summary>Least noise that can be told beside a tone, as a share of its energy: what is less is lost in the difference of squares.</summary>
    private const double LeastNoise = 1e-15;

    /// <summary>The stretch whose samples tell harmonics: their seconds, few and spread over it.</summary>
    /// <param name="track">The channel's course.</param>
    /// <returns>Null where there is no stretch.</returns>
    public static (double FromSeconds, double ToSeconds)? Stretch(ToneTrack track)
    {
        var blocks = Blocks(track);
        return Find(track, blocks) is { } s ? (s.From * BlockSeconds(track), s.To * BlockSeconds(track)) : null;
    }

    /// <summary>Measures a tone.</summary>
    /// <param name="track">The channel's course.</param>
    /// <param name="limits">What it is asked to be.</param>
    /// <param name="samples">A few stretches of samples from within the usable stretch, for harmonics; none leaves them unknown.</param>
    public static ToneReport Measure(ToneTrack track, ToneLimits limits, IReadOnlyList<double[]> samples)
    {
        var blocks = Blocks(track);
        var (step, peak) = (BlockSeconds(track), track.Count == 0 ? 0 : track.Pieces.Max(p => p.Peak));
        float[] levels = [.. blocks.Select(b => (float)b.LevelDb)];
        var reasons = new List<string>();
        if (track.Pieces.Any(p => !float.IsFinite(p.Rest)))
            return Nothing("holds values that are no numbers", peak, levels, step);
        if (Find(track, blocks) is not { } stretch)
        {
            return Nothing(blocks.Any(b => b.IsTone) ? Clipped(blocks) ? "clipped: it reaches full scale" : FormattableString.Invariant($"no steady tone of {limits.LeastSeconds:0.#} s")
                : "no tone", peak, levels, step);
        }

        var used = blocks[stretch.From..stretch.To];
        var seconds = used.Length * step;
        var frequency = Frequency(track, stretch.From * PiecesPerBlock, stretch.To * PiecesPerBlock);
        var (distortion, noise) = samples.Count > 0 ? Spectrum(samples, frequency, track.SampleRate) : (double.NaN, used.Average(b => b.Rest));
        // Noise adds its own energy to each block's amplitude: two of its share that falls to a block's samples.
        var square = Math.Max(0, used.Average(b => b.ToneSquare) - (2 * noise / (PiecesPerBlock * track.PieceLength)));
        var rms = Math.Sqrt(square);
        var signalToNoise = 10 * Math.Log10(square / Math.Max(square * LeastNoise, noise));
        var fluctuation = Fluctuation(track, stretch.From * PiecesPerBlock, stretch.To * PiecesPerBlock);

        if (seconds < limits.LeastSeconds) reasons.Add(FormattableString.Invariant($"too short: {seconds:0.0} s are steady, {limits.LeastSeconds:0.#} s are wanted"));
        if (limits.ExpectedHz is { } expected && Math.Abs(frequency - expected) > limits.FrequencyShare * expected) reasons.Add(FormattableString.Invariant($"wrong frequency: {frequency:0.00} Hz, {expected:0.##} Hz ± {100 * limits.FrequencyShare:0.#} % is expected"));
        if (Holes(blocks, stretch) is var holes and > 0) reasons.Add(holes == 1 ? "a drop-out within the tone" : $"{holes} drop-outs within the tone");
        if (Clipped(blocks)) reasons.Add("clipped: it reaches full scale");
        if (fluctuation > limits.FluctuationDb)
        {
            reasons.Add($"unsteady: its level fluctuates by ±{QuantityText.Of(fluctuation, "dB", 2)}, "
                + $"±{QuantityText.UpTo(limits.FluctuationDb, 2)} dB are allowed");
        }
        if (distortion > limits.Distortion) reasons.Add(FormattableString.Invariant($"distorted: {100 * distortion:0.0} % harmonics, {100 * limits.Distortion:0.#} % are allowed"));
        if (signalToNoise < limits.SignalToNoiseDb)
        {
            reasons.Add($"too noisy: {QuantityText.Of(signalToNoise, "dB", 0)} signal to noise, "
                + $"{QuantityText.Of(limits.SignalToNoiseDb, "dB", 0)} are wanted");
        }
        return new(reasons, rms, frequency, fluctuation, distortion, signalToNoise, used.Average(b => b.Mean), peak, stretch.From * step, stretch.To * step, levels, step);
    }

    private static ToneReport Nothing(string reason, double peak, float[] levels, double step) => new([reason], double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, peak, 0, 0, levels, step);

    private readonly record struct Block(double ToneSquare, double Mean, double Rest, double Peak)
    {
        public double LevelDb => Math.Max(LowestDb - 100, 10 * Math.Log10(Math.Max(1e-30, ToneSquare)));

        public bool IsTone => LevelDb > LowestDb && ToneSquare > LeastShare * (ToneSquare + Rest);

        public bool IsClipped => Peak >= FullScale;
    }

    private static double Loss(double slope) => Math.Abs(slope) < 1e-9 ? 1 : Math.Sin(slope / 2) / (slope / 2);

    private static double PieceSeconds(ToneTrack track) => track.PieceLength / track.SampleRate;

    private static double BlockSeconds(ToneTrack track) => PiecesPerBlock * PieceSeconds(track);

    private static Block[] Blocks(ToneTrack track)
    {
        var pieces = track.Pieces;
        var blocks = new Block[pieces.Count / PiecesPerBlock];
        var turn = 2 * Math.PI * track.FrequencyHz * PieceSeconds(track);
        for (var b = 0; b < blocks.Length; b++)
        {
            double re = 0, im = 0, mean = 0, squares = 0, peak = 0;
            var slope = LocalSlope(pieces, b * PiecesPerBlock, turn);
            for (var k = 0; k < PiecesPerBlock; k++)
            {
                var p = pieces[(b * PiecesPerBlock) + k];
                // cos and sin amplitudes are a phasor; turned back by what the table and the tone have run on since the block began.
                var (sin, cos) = Math.SinCos(-k * (turn + slope));
                re += (p.Cos * cos) + (p.Sin * sin);
                im += (-p.Sin * cos) + (p.Cos * sin);
                mean += p.Mean;
                squares += p.Rest;
                peak = Math.Max(peak, p.Peak);
            }
            // Within a piece the tone runs away from the table: a sinc of the phase that it gains.
            var amplitude = Math.Sqrt((re * re) + (im * im)) / PiecesPerBlock / Loss(slope);
            blocks[b] = new(amplitude * amplitude / 2, mean / PiecesPerBlock, squares / PiecesPerBlock, peak);
        }
        return blocks;
    }

    // Phase that the tone gains on the table from one piece to the next, as the mean of the turns of neighbours.
    private static double LocalSlope(IReadOnlyList<ToneTrack.Piece> pieces, int from, double turn)
    {
        double re = 0, im = 0;
        for (var k = 0; k + 1 < PiecesPerBlock; k++)
        {
            var (a, b) = (pieces[from + k], pieces[from + k + 1]);
            re += ((double)a.Cos * b.Cos) + ((double)a.Sin * b.Sin);
            im += ((double)a.Sin * b.Cos) - ((double)a.Cos * b.Sin);
        }
        var gained = Math.Atan2(im, re) - turn;
        return gained - (2 * Math.PI * Math.Round(gained / (2 * Math.PI)));
    }

    private static (int From, int To)? Find(ToneTrack track, Block[] blocks)
    {
        var present = blocks.Where(b => b is { IsTone: true, IsClipped: false }).Select(b => b.LevelDb).ToList();
        if (present.Count == 0) return null;
        var greatest = present.Max();
        var near = present.Where(l => l > greatest - NearGreatestDb).Order().ToList();
        var plateau = near[near.Count / 2];
        var (best, from) = ((From: 0, To: 0), -1);
        for (var b = 0; b <= blocks.Length; b++)
        {
            var isGood = b < blocks.Length && blocks[b] is { IsTone: true, IsClipped: false } block && Math.Abs(block.LevelDb - plateau) <= PlateauDb;
            if (isGood && from < 0) from = b;
            if (isGood || from < 0) continue;
            if (b - from > best.To - best.From) best = (from, b);
            from = -1;
        }
        best = (best.From + TrimBlocks, Math.Min(best.To - TrimBlocks, best.From + TrimBlocks + (int)(LongestSeconds / BlockSeconds(track))));
        return best.To - best.From >= 5 ? best : null;
    }

    private static int Holes(Block[] blocks, (int From, int To) stretch)
    {
        // Tone of the same level directly before or after the stretch, with a hole of under a second between.
        bool IsAlike(int b) => b >= 0 && b < blocks.Length && blocks[b].IsTone && Math.Abs(blocks[b].LevelDb - blocks[stretch.From].LevelDb) <= PlateauDb;
        var holes = 0;
        foreach (var (edge, direction) in new[] { (stretch.From - TrimBlocks - 1, -1), (stretch.To + TrimBlocks, 1) })
        {
            if (edge < 0 || edge >= blocks.Length || IsAlike(edge)) continue;
            if (Enumerable.Range(1, 10).Any(k => IsAlike(edge + (direction * k)) && IsAlike(edge + (direction * (k + 1))))) holes++;
        }
        return holes;
    }

    private static bool Clipped(Block[] blocks) => blocks.Count(b => b is { IsTone: true, IsClipped: true }) > 0.02 * blocks.Count(b => b.IsTone);

    // Slope of the unwrapped phase by least squares over the stretch.
    private static double Frequency(ToneTrack track, int from, int to)
    {
        var turn = 2 * Math.PI * track.FrequencyHz * PieceSeconds(track);
        double gained = 0, last = 0, sumT = 0, sumP = 0, sumTt = 0, sumTp = 0;
        for (var k = from; k < to; k++)
        {
            var phase = Math.Atan2(-track.Pieces[k].Sin, track.Pieces[k].Cos) - ((k - from) * turn);
            if (k > from)
            {
                var change = phase - last;
                gained += change - (2 * Math.PI * Math.Round(change / (2 * Math.PI)));
            }
            last = phase;
            double t = k - from;
            sumT += t;
            sumP += gained;
            sumTt += t * t;
            sumTp += t * gained;
        }
        double n = to - from;
        var slope = ((n * sumTp) - (sumT * sumP)) / ((n * sumTt) - (sumT * sumT));
        return track.FrequencyHz + (slope / (2 * Math.PI * PieceSeconds(track)));
    }

    private static double Fluctuation(ToneTrack track, int from, int to)
    {
        var step = PieceSeconds(track);
        var last = Math.Min(to, from + (int)(FluctuationSeconds / step));
        var weight = 1 - Math.Exp(-step / FastSeconds);
        double weighted = 0, least = double.PositiveInfinity, greatest = 0;
        // The weighting starts at the mean of its first tenth of a second.
        for (var k = from; k < Math.Min(from + PiecesPerBlock, last); k++) weighted += track.Pieces[k].Square / PiecesPerBlock;
        for (var k = from; k < last; k++)
        {
            weighted += weight * (track.Pieces[k].Square - weighted);
            least = Math.Min(least, weighted);
            greatest = Math.Max(greatest, weighted);
        }
        return 5 * Math.Log10(greatest / least);
    }

    // From the phases of both halves: a step of the fit with four parameters, which is all it takes so near.
    private static double OwnFrequency(double[] stretch, double frequency, double sampleRate)
    {
        var half = stretch.Length / 2;
        var gained = SineFit.Three(stretch.AsSpan(half), frequency, sampleRate).PhaseRad - SineFit.Three(stretch.AsSpan(0, half), frequency, sampleRate).PhaseRad - (2 * Math.PI * frequency / sampleRate * half);
        return frequency + ((gained - (2 * Math.PI * Math.Round(gained / (2 * Math.PI)))) * sampleRate / (2 * Math.PI * half));
    }

    // Harmonics and the rest from a few stretches, each at the frequency that it has itself.
    private static (double Distortion, double NoiseSquare) Spectrum(IReadOnlyList<double[]> samples, double frequency, double sampleRate)
    {
        double fundamental = 0, others = 0, noise = 0;
        foreach (var stretch in samples)
        {
            var own = OwnFrequency(stretch, frequency, sampleRate);
            var fit = SineFit.WithHarmonics(stretch, Math.Abs(own - frequency) < 0.01 * frequency ? own : frequency, Harmonics, sampleRate, out var amplitudes);
            fundamental += amplitudes[0] * amplitudes[0];
            others += amplitudes.Skip(1).Sum(a => a * a);
            noise += fit.ResidualRms * fit.ResidualRms / samples.Count;
        }
        return (Math.Sqrt(others / fundamental), noise);
    }
}

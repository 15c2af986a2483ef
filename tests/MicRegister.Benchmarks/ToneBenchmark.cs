using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Recordings;
using MicRegister.Documents.Tests.Recordings;
using MicRegister.Metrology.Tones;

namespace MicRegister.Benchmarks;

/// <summary>Recorded calibrator tones: 64 files of 20 s, 24 bits, 51.2 kHz, beside C, sox and ffmpeg on the same files.</summary>
internal static partial class ToneBenchmark
{
    private const int Files = 64;
    private const int Rate = 51_200;

    public static void Run(string work)
    {
        string[] files = [.. Enumerable.Range(0, Files).Select(k => Made(work, k))];
        double sum = 0;
        var whole = Measure.Median(5, () =>
        {
            sum = 0;
            foreach (var file in files)
            {
                using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
                sum += RecordingAnalysis.Of(stream, new(250)).Channels[0].Rms;
            }
        });
        var level = Measure.Median(5, () =>
        {
            foreach (var file in files) Level(file);
        });
        var c = Yardstick.Compile("tone", work) is { } program ? Yardstick.Run(program, files) : null;
        if (c is not null)
        {
            if (Math.Abs((sum / c[1]) - 1) > 1e-4) throw new InvalidOperationException($"The tones differ: {sum} here, {c[1]} in C.");
            Measure.Line("level pass of a recorded tone of 20 s at a known frequency", FormattableString.Invariant($"{1000 * level / Files:0.00} ms a file"), FormattableString.Invariant($"{level / c[0]:0.00} × the C tone limit ({1000 * c[0] / Files:0.00} ms)"), "≤ 1.5 ×");
            Measure.Line("whole analysis of it", FormattableString.Invariant($"{1000 * whole / Files:0.00} ms a file"), FormattableString.Invariant($"{whole / c[0]:0.00} × the C tone limit"), "≤ 4 ×");
        }
        if (Other("sox", f => [f, "-n", "sinc", "225-275", "stats"], files) is { } sox)
            Measure.Line("", FormattableString.Invariant($"{1000 * whole / Files:0.00} ms a file"), FormattableString.Invariant($"{sox / (whole / Files):0} × faster than sox band-pass and stats, its start taken off"), "≥ 10 ×");
        if (Yardstick.Run("/usr/bin/python3", [Yardstick.Script("tone.py"), .. files]) is { } numpy)
        {
            Measure.Line("", FormattableString.Invariant($"{1000 * whole / Files:0.00} ms a file"), FormattableString.Invariant($"{numpy[0] / whole:0} × faster than a numpy script"), "≥ 100 ×");
            Agree("numpy", [.. numpy.Skip(1).Where((_, i) => i % 2 == 0)], [.. numpy.Skip(1).Where((_, i) => i % 2 == 1)], files, 0.002, 0.005);
        }
        Agree("sox", Levels("sox", f => [f, "-n", "stats"], SoxLevel(), files), [], files, 0.006, 0); // two decimals
        Agree("ffmpeg", Levels("ffmpeg", f => ["-nostdin", "-i", f, "-af", "astats", "-f", "null", "-"], FfmpegLevel(), files), [], files, 0.001, 0);
    }

    // Others measure the whole file, noise and all; within their own limits they must say the same.
    private static void Agree(string who, double[] rms, double[] hertz, string[] files, double withinDb, double withinHz)
    {
        if (rms.Length == 0) return;
        double worstDb = 0, worstHz = 0;
        for (var i = 0; i < rms.Length; i++)
        {
            using var stream = new FileStream(files[i], FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
            var mine = RecordingAnalysis.Of(stream, new(250)).Channels[0];
            worstDb = Math.Max(worstDb, Math.Abs(20 * Math.Log10(mine.Rms / rms[i])));
            if (hertz.Length > 0) worstHz = Math.Max(worstHz, Math.Abs(mine.FrequencyHz - hertz[i]));
        }
        if (worstDb > withinDb || worstHz > withinHz) throw new InvalidOperationException($"{who} measures {worstDb} dB and {worstHz} Hz otherwise.");
        Measure.Line("", "agrees with " + who, FormattableString.Invariant($"{worstDb:0.0000} dB{(hertz.Length > 0 ? FormattableString.Invariant($", {worstHz:0.0000} Hz") : "")} at most apart over {rms.Length} files"), FormattableString.Invariant($"≤ {withinDb} dB{(hertz.Length > 0 ? FormattableString.Invariant($", {withinHz} Hz") : "")}"));
    }

    private static double[] Levels(string program, Func<string, string[]> args, Regex level, string[] files)
    {
        try
        {
            return [.. files.Take(16).Select(f =>
            {
                var info = new ProcessStartInfo(program) { RedirectStandardError = true, RedirectStandardOutput = true };
                foreach (var arg in args(f)) info.ArgumentList.Add(arg);
                using var process = Process.Start(info)!;
                var text = process.StandardError.ReadToEnd();
                process.WaitForExit();
                return Math.Pow(10, double.Parse(level.Match(text).Groups[1].ValueSpan, CultureInfo.InvariantCulture) / 20);
            })];
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Console.Error.WriteLine($"{program} is not installed.");
            return [];
        }
    }

    [GeneratedRegex(@"RMS lev dB\s+(-?[\d.]+)")]
    private static partial Regex SoxLevel();

    [GeneratedRegex(@"RMS level dB: (-?[\d.]+)")]
    private static partial Regex FfmpegLevel();

    private static void Level(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
        var header = WaveHeader.Read(stream);
        var track = new ToneTrack(250, header.SampleRate);
        const int Pieces = 16;
        var reader = new WaveReader(stream, header, track.PieceLength * Pieces);
        var piece = new double[track.PieceLength];
        reader.Seek(0);
        for (var left = header.Frames / track.PieceLength; left > 0; left -= Pieces)
        {
            var now = (int)Math.Min(left, Pieces);
            reader.Take(now * track.PieceLength);
            for (var k = 0; k < now; k++)
            {
                reader.Channel(0, k * track.PieceLength, piece);
                track.Add(piece);
            }
        }
        if (ToneAnalysis.Measure(track, new(250), []).Rms is not > 0) throw new InvalidOperationException("A tone was lost.");
    }

    // Median seconds a file, less those of a start that does nothing.
    private static double? Other(string program, Func<string, string[]> args, string[] files)
    {
        double Time(params string[] with)
        {
            var start = Stopwatch.GetTimestamp();
            var info = new ProcessStartInfo(program) { RedirectStandardError = true, RedirectStandardOutput = true };
            foreach (var arg in with) info.ArgumentList.Add(arg);
            using var process = Process.Start(info)!;
            process.StandardError.ReadToEnd();
            process.WaitForExit();
            return Stopwatch.GetElapsedTime(start).TotalSeconds;
        }
        try
        {
            double[] took = [.. files.Take(15).Select(f => Time(args(f))).Order()], starts = [.. Enumerable.Range(0, 15).Select(_ => Time("--version")).Order()];
            return took[7] - starts[7];
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Console.Error.WriteLine($"{program} is not installed.");
            return null;
        }
    }

    private static string Made(string work, int k)
    {
        var path = Path.Combine(work, string.Create(CultureInfo.InvariantCulture, $"tone-{k:00}.wav"));
        if (File.Exists(path)) return path;
        var random = new Random(60942 + k);
        double rms = 0.05 + (0.15 * random.NextDouble()), hertz = 250 * (1 + (0.004 * ((2 * random.NextDouble()) - 1)));
        File.WriteAllBytes(path, MadeRecording.Of([MadeRecording.Tone(20, Rate, rms, hertz, noise: 5e-5, seed: k)], Rate, SampleFormat.Pcm24));
        return path;
    }
}

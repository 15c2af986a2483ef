using MicRegister.Documents.Recordings;
using MicRegister.Metrology.Tones;
using static MicRegister.Documents.Tests.Recordings.MadeRecording;

namespace MicRegister.Documents.Tests.Recordings;

public sealed class RecordingTests
{
    private static RecordingAnalysis Analyse(byte[] file, double? expectedHz = null) => RecordingAnalysis.Of(new MemoryStream(file), new(expectedHz), TestContext.Current.CancellationToken);

    private static ToneReport One(double[] samples, int rate = 48_000, double? expectedHz = 250) => Assert.Single(Analyse(Of([samples], rate, SampleFormat.Pcm24), expectedHz).Channels);

    // The truth is what was made: rms within 0.001 dB, frequency within 0.001 Hz, also where it drifts by 0.1 Hz in 20 s.
    [Theory]
    [InlineData(8_000, 159.2, 0, SampleFormat.Pcm24)]
    [InlineData(8_000, 250, 0.1, SampleFormat.Pcm24)]
    [InlineData(44_100, 1000, 0.1, SampleFormat.Pcm24)]
    [InlineData(48_000, 250, 0, SampleFormat.Pcm16)]
    [InlineData(48_000, 250.37, 0.1, SampleFormat.Float32)]
    [InlineData(51_200, 159.2, 0.1, SampleFormat.Pcm32)]
    [InlineData(96_000, 1000.8, 0, SampleFormat.Float64)]
    [InlineData(192_000, 1000, 0.1, SampleFormat.Pcm24)]
    [InlineData(192_000, 159.2, 0, SampleFormat.Pcm24)]
    public void A_tone_is_measured_as_it_was_made(int rate, double hertz, double drift, SampleFormat format)
    {
        var channel = Assert.Single(Analyse(Of([Tone(20, rate, 0.1, hertz, drift, noise: 1e-4, second: 0.002, offset: 0.01)], rate, format, isExtensible: rate == 96_000)).Channels);

        Assert.Empty(channel.Reasons);
        Assert.InRange(20 * Math.Log10(channel.Rms / 0.1), -0.001, 0.001);
        // The stretch is cut alike at both ends, so that the mean of a steady drift stays.
        Assert.InRange(channel.FrequencyHz - hertz, -0.001, 0.001);
        Assert.InRange(channel.Distortion, 0.0018, 0.0022);
        Assert.InRange(channel.SignalToNoiseDb, 59, format == SampleFormat.Pcm16 ? 61 : 60.5);
        Assert.InRange(channel.Offset, 0.0099, 0.0101);
        Assert.InRange(channel.FluctuationDb, 0, 0.005);
    }

    [Theory]
    [InlineData("RIFF")]
    [InlineData("RF64")]
    [InlineData("BW64")]
    public void Channels_are_told_apart_and_the_recorders_note_is_read(string outer)
    {
        double[][] channels = [Tone(5, 48_000, 0.1, 250), new double[240_000], Tone(5, 48_000, 0.02, 1000)];
        // 12:34:56 at 48 kHz is 2174208000 samples (hand algebra); a field that is full has no end mark.
        var analysis = Analyse(Of(channels, 48_000, SampleFormat.Pcm24, outer, broadcast: Broadcast(new string('x', 256), "van 2", "2026-08-03", "12-34-56", 2_174_208_000)));

        Assert.Equal((3, 48_000, 240_000L), (analysis.Header.Channels, analysis.Header.SampleRate, analysis.Header.Frames));
        Assert.Equal(new BroadcastNote(new string('x', 256), "van 2", new DateOnly(2026, 8, 3), new TimeOnly(12, 34, 56), 2_174_208_000), analysis.Header.Broadcast);
        Assert.Equal([true, false, true], analysis.Channels.Select(c => c.IsUsable));
        Assert.Equal("no tone", Assert.Single(analysis.Channels[1].Reasons));
        Assert.Equal(1000, analysis.Channels[2].FrequencyHz, 3);
    }

    public static TheoryData<string, string> Troubles => new()
    {
        { "noise alone", "no tone" }, { "clipped", "clipped" }, { "two seconds", "too short" }, { "other frequency", "wrong frequency" }, { "hole", "drop-out" },
        { "unsteady", "unsteady" }, { "distorted", "distorted" }, { "noisy", "too noisy" }, { "no numbers", "no numbers" },
    };

    [Theory]
    [MemberData(nameof(Troubles))]
    public void A_channel_that_is_refused_says_why(string trouble, string says)
    {
        var samples = trouble switch
        {
            "noise alone" => Tone(10, 48_000, 0, 250, noise: 0.1),
            "clipped" => [.. Tone(10, 48_000, 0.9, 250).Select(x => Math.Clamp(x, -1, 1))],
            "two seconds" => Tone(2, 48_000, 0.1, 250),
            "other frequency" => Tone(10, 48_000, 0.1, 1000),
            "hole" => [.. Tone(10, 48_000, 0.1, 250).Select((x, i) => i is > 240_000 and < 260_000 ? 0 : x)],
            "unsteady" => [.. Tone(10, 48_000, 0.1, 250).Select((x, i) => x * (1 + (0.03 * Math.Sin(2 * Math.PI * 0.5 * i / 48_000))))],
            "distorted" => Tone(10, 48_000, 0.1, 250, second: 0.06),
            "noisy" => Tone(10, 48_000, 0.1, 250, noise: 0.02),
            _ => Tone(10, 48_000, 0.1, 250),
        };
        var file = trouble == "no numbers" ? Of([[.. samples.Select((x, i) => i == 1000 ? double.NaN : x)]], 48_000, SampleFormat.Float64) : Of([samples], 48_000, SampleFormat.Pcm24);

        var channel = Assert.Single(Analyse(file, 250).Channels);

        Assert.False(channel.IsUsable);
        Assert.Contains(channel.Reasons, r => r.Contains(says, StringComparison.Ordinal));
    }

    [Fact]
    public void The_usable_stretch_is_found_between_handling()
    {
        // 3 s of handling, 12 s of tone, a louder second, 4 s of nothing.
        double[] samples = [.. Tone(3, 48_000, 0.0, 250, noise: 0.05, seed: 2), .. Tone(12, 48_000, 0.1, 250), .. Tone(1, 48_000, 0.15, 250), .. new double[192_000]];

        var channel = One(samples);

        Assert.Empty(channel.Reasons);
        Assert.InRange(channel.FromSeconds, 3, 3.5);
        Assert.InRange(channel.ToSeconds, 14.5, 15);
        Assert.InRange(20 * Math.Log10(channel.Rms / 0.1), -0.001, 0.001);
        Assert.Equal(200, channel.LevelsDb.Count, 2.0);
    }

    // Half of the difference of the greatest and least level: ±0.05 dB in a slow wave of 4 s, which the weighting hardly smooths.
    [Fact]
    public void Fluctuation_is_half_of_what_lies_between_the_levels()
    {
        var channel = One([.. Tone(20, 48_000, 0.1, 250).Select((x, i) => x * Math.Pow(10, 0.05 * Math.Sin(2 * Math.PI * 0.25 * i / 48_000) / 20))]);
        Assert.InRange(channel.FluctuationDb, 0.047, 0.0505);
    }

    [Theory]
    [InlineData("cut", "it is cut: its header states 28800 bytes of samples, 28000 are there")]
    [InlineData("no format", "come before their format")]
    [InlineData("no data", "no data chunk")]
    [InlineData("not a recording", "no WAV, RF64 or BW64")]
    [InlineData("tiny", "it has 3 bytes")]
    [InlineData("300 channels", "it states 300 channels; 1 to 256")]
    [InlineData("block", "bytes for a sample of all channels")]
    [InlineData("12 bits", "have format 1 with 12 bits")]
    [InlineData("endless", "does not state how long it is")]
    [InlineData("chunk", "states 4000000000 bytes")]
    public void A_header_that_does_not_fit_is_told(string trouble, string says)
    {
        var file = Of([Tone(0.2, 48_000, 0.1, 250)], 48_000, SampleFormat.Pcm24);
        var (fmt, data) = (Find(file, "fmt "), Find(file, "data"));
        switch (trouble)
        {
            case "cut": file = file[..^800]; break;
            case "no format": file[fmt] = (byte)'x'; break;
            case "no data": file[data] = (byte)'x'; break;
            case "not a recording": file[0] = (byte)'x'; break;
            case "tiny": file = file[..3]; break;
            case "300 channels": BitConverter.TryWriteBytes(file.AsSpan(fmt + 10), (ushort)300); break;
            case "block": BitConverter.TryWriteBytes(file.AsSpan(fmt + 20), (ushort)4); break;
            case "12 bits": BitConverter.TryWriteBytes(file.AsSpan(fmt + 22), (ushort)12); break;
            case "endless": BitConverter.TryWriteBytes(file.AsSpan(data + 4), 0xFFFFFFFF); break;
            default: BitConverter.TryWriteBytes(file.AsSpan(fmt + 4), 4_000_000_000u); break;
        }
        Assert.Contains(says, Assert.Throws<RecordingException>(() => Analyse(file)).Message, StringComparison.Ordinal);
    }

    // Ten thousand headers with bytes turned over: always an answer, never much memory, whatever they state.
    [Fact]
    public void Hostile_headers_get_an_answer_and_little_memory()
    {
        var random = new Random(20261125);
        byte[][] files =
        [
            Of([Tone(0.5, 8_000, 0.1, 250), Tone(0.5, 8_000, 0.1, 250)], 8_000, SampleFormat.Pcm16, broadcast: Broadcast("d", "o", "2026-01-01", "00:00:00", 1)),
            Of([Tone(0.5, 8_000, 0.1, 250)], 8_000, SampleFormat.Float32, "RF64", isExtensible: true),
        ];
        var (answered, refused) = (0, 0);
        for (var n = 0; n < 10_000; n++)
        {
            var file = (byte[])files[n % 2].Clone();
            var header = Find(file, "data") + 8;
            for (var k = 1 + random.Next(6); k > 0; k--) file[random.Next(header)] = random.Next(3) switch { 0 => 0xFF, 1 => 0, _ => (byte)random.Next(256) };
            if (random.Next(4) == 0) file = file[..random.Next(file.Length)];
            var before = GC.GetAllocatedBytesForCurrentThread();
            try
            {
                var analysis = Analyse(file);
                Assert.All(analysis.Channels, c => Assert.True(c.IsUsable || c.Reasons.Count > 0));
                Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, (64L << 20) + ((long)analysis.Header.Channels << 20));
                answered++;
            }
            catch (RecordingException e)
            {
                Assert.NotEmpty(e.Message);
                Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 64L << 20);
                refused++;
            }
        }
        Assert.Equal(10_000, answered + refused);
        Assert.True(answered > 100 && refused > 1000, $"{answered} answered, {refused} refused");
    }

    private static int Find(byte[] file, string id) => file.AsSpan().IndexOf(System.Text.Encoding.ASCII.GetBytes(id));
}

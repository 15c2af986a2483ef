using MicRegister.Documents.Recordings;
using MicRegister.Metrology.Tones;

namespace MicRegister.Server.Api;

/// <summary>Measures a recorded calibrator tone; nothing is stored.</summary>
internal static class TonesApi
{
    public const long MaxBytes = 512L << 20;

    public static void Map(IEndpointRouteBuilder app) =>
        app.MapPost("/api/tones", Measure).Produces<RecordingView>().WithTags("tones")
            .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MaxBytes));

    // Body: the recording itself. Query: its name, hz=the frequency that is expected.
    private static async Task<IResult> Measure(HttpContext context, string? name, double? hz)
    {
        if (hz is { } expected && !(expected is >= 20 and <= 100_000))
            return Answers.Invalid($"Frequency '{hz}': allowed is a number from 20 to 100000 Hz.");
        try
        {
            var fileName = name is { Length: > 0 and <= 200 } ? Path.GetFileName(name) : "recording";
            return Results.Ok(await Take(context.Request.Body, fileName, hz, context.RequestAborted));
        }
        catch (RecordingException e)
        {
            return Answers.Invalid($"The recording cannot be read: {e.Message}.");
        }
    }

    /// <summary>Measures a recording that arrives as a stream, by way of a file that is gone afterwards.</summary>
    /// <exception cref="RecordingException">It cannot be read.</exception>
    public static async Task<RecordingView> Take(Stream content, string name, double? expectedHz, CancellationToken cancel)
    {
        await using var file = new FileStream(Path.Combine(Path.GetTempPath(), Path.GetRandomFileName()), new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.ReadWrite,
            Share = FileShare.None,
            Options = FileOptions.DeleteOnClose | FileOptions.Asynchronous,
        });
        await content.CopyToAsync(file, cancel);
        return await Task.Run(() => Measured(file, name, expectedHz, cancel), cancel);
    }

    /// <summary>Measures a recording and says which bytes it was.</summary>
    /// <param name="file">A stream that can seek.</param>
    /// <exception cref="RecordingException">It cannot be read.</exception>
    public static RecordingView Measured(Stream file, string name, double? expectedHz, CancellationToken cancel)
    {
        var view = RecordingView.Of(name, RecordingAnalysis.Of(file, new(expectedHz), cancel));
        file.Position = 0;
        return view with { Bytes = file.Length, Sha256 = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(file)) };
    }
}

/// <summary>A recording with what was measured in it.</summary>
/// <param name="File">Its name.</param>
/// <param name="SampleRate">Samples a second.</param>
/// <param name="Format">How samples are stored.</param>
/// <param name="Seconds">How long it is.</param>
/// <param name="LookedAtAll">Whether all of it was looked at; otherwise only its first twenty minutes.</param>
/// <param name="Broadcast">What the recorder wrote about it; null where it did not.</param>
/// <param name="Channels">One a channel.</param>
public sealed record RecordingView(
    string File, int SampleRate, string Format, double Seconds, bool LookedAtAll, BroadcastNote? Broadcast,
    IReadOnlyList<ChannelView> Channels)
{
    /// <summary>Its size; null where it was not asked for.</summary>
    public long? Bytes { get; init; }

    /// <summary>SHA-256 of its bytes in hexadecimal; null where it was not asked for.</summary>
    public string? Sha256 { get; init; }

    public static RecordingView Of(string file, RecordingAnalysis a) => new(
        file, a.Header.SampleRate, a.Header.Format.ToString(), a.Header.Seconds, a.IsWhole, a.Header.Broadcast,
        [.. a.Channels.Select((c, i) => ChannelView.Of(i + 1, c))]);
}

/// <summary>The tone of one channel; figures are null where there is no tone.</summary>
/// <param name="Channel">From 1.</param>
/// <param name="Usable">Whether it can be used.</param>
/// <param name="Reasons">Why not; empty where it can.</param>
/// <param name="Rms">Root mean square of the fundamental in parts of full scale.</param>
/// <param name="FrequencyHz">Frequency in Hz.</param>
/// <param name="FluctuationDb">Half of greatest minus least F-weighted level, in dB.</param>
/// <param name="Distortion">Harmonics 2 to 10 over the fundamental, as a share.</param>
/// <param name="SignalToNoiseDb">In dB.</param>
/// <param name="Offset">Mean in parts of full scale.</param>
/// <param name="Peak">Greatest magnitude in parts of full scale.</param>
/// <param name="FromSeconds">Where the usable stretch begins.</param>
/// <param name="ToSeconds">Where it ends.</param>
public sealed record ChannelView(
    int Channel, bool Usable, IReadOnlyList<string> Reasons, double? Rms, double? FrequencyHz, double? FluctuationDb,
    double? Distortion, double? SignalToNoiseDb, double? Offset, double? Peak, double FromSeconds, double ToSeconds)
{
    /// <summary>The report itself, for drawings.</summary>
    internal ToneReport Report { get; private init; } = null!;

    public static ChannelView Of(int channel, ToneReport c) => new(
        channel, c.IsUsable, c.Reasons, Finite(c.Rms), Finite(c.FrequencyHz), Finite(c.FluctuationDb), Finite(c.Distortion),
        Finite(c.SignalToNoiseDb), Finite(c.Offset), Finite(c.Peak), c.FromSeconds, c.ToSeconds)
    { Report = c };

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}

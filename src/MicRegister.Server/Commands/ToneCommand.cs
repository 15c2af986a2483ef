using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Documents.Recordings;
using MicRegister.Metrology.Quantities;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Measures recorded calibrator tones; needs no register.</summary>
internal static class ToneCommand
{
    private static readonly JsonSerializerOptions Names = new(JsonSerializerDefaults.Web);

    public static Command Make()
    {
        var files = new Argument<string[]>("file") { Description = "Recordings: WAV, RF64 or BW64.", Arity = ArgumentArity.OneOrMore };
        var expected = new Option<double?>("--hz")
        { Description = "Frequency that is expected, for example 250; otherwise whatever is found." };
        var json = CommonOptions.Json();
        var command = new Command(
            "tone",
            "For each file and channel: rms in parts of full scale, frequency, distortion, fluctuation, signal to noise, "
                + "the usable stretch, and whether it is usable or why not.")
        { files, expected, json };
        command.SetAction((parsed, cancel) => CommandExit.Run(() => Task.FromResult(Run(
            parsed.GetValue(files)!, parsed.GetValue(expected), parsed.GetValue(json), cancel))));
        return command;
    }

    private static int Run(string[] files, double? expectedHz, bool asJson, CancellationToken cancel)
    {
        if (expectedHz is { } hz && !(hz is >= 20 and <= 100_000))
            throw new BadUseException(FormattableString.Invariant($"--hz {hz}: allowed is a number from 20 to 100000."));
        var (answers, isGood) = (new JsonArray(), true);
        foreach (var file in files)
        {
            if (!File.Exists(file)) throw new BadUseException($"There is no file {file}.");
            var answer = new JsonObject { ["file"] = Path.GetFileName(file) };
            answers.Add((JsonNode)answer);
            try
            {
                using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 0);
                var analysis = RecordingAnalysis.Of(stream, new(expectedHz), cancel);
                isGood &= analysis.Channels.All(c => c.IsUsable);
                answers[^1] = JsonSerializer.SerializeToNode(RecordingView.Of(Path.GetFileName(file), analysis), Names);
                if (!asJson) Write(Path.GetFileName(file), analysis);
            }
            catch (RecordingException e)
            {
                isGood = false;
                answer["problem"] = e.Message;
                if (!asJson) Console.WriteLine($"{Path.GetFileName(file)}: {e.Message}.");
            }
        }
        if (asJson) Console.WriteLine(new JsonObject { ["files"] = answers }.ToJsonString());
        return isGood ? CommandExit.Good : CommandExit.NotReady;
    }

    private static void Write(string file, RecordingAnalysis a)
    {
        for (var i = 0; i < a.Channels.Count; i++)
        {
            var c = a.Channels[i];
            Console.WriteLine(c.IsUsable || double.IsFinite(c.Rms)
                ? FormattableString.Invariant($"{file}, channel {i + 1}: {c.Rms:0.0000000} of full scale rms at {c.FrequencyHz:0.000} Hz, ")
                    + $"fluctuation ±{QuantityText.Of(c.FluctuationDb, "dB", 3)}, "
                    + FormattableString.Invariant($"harmonics {100 * c.Distortion:0.00} %, ")
                    + $"signal to noise {QuantityText.Of(c.SignalToNoiseDb, "dB", 0)}, "
                    + FormattableString.Invariant($"from {c.FromSeconds:0.0} to {c.ToSeconds:0.0} s: ")
                    + (c.IsUsable ? "usable" : string.Join("; ", c.Reasons))
                : $"{file}, channel {i + 1}: {string.Join("; ", c.Reasons)}");
        }
    }
}

using MicRegister.Documents.Recordings;
using MicRegister.Documents.Tests.Recordings;
using MicRegister.Register.Checks;
using MicRegister.Register.People;

namespace MicRegister.Server.Tests.Remote;

/// <summary>Checks from recordings through a running server are those of the folder; the recordings stay here.</summary>
[Collection(OfTheProcess.Name)]
public sealed class CheckThroughServerTests
{
    [Fact]
    public async Task Recorded_tones_are_checked_and_stored_alike_and_the_person_of_the_token_answers()
    {
        await using var twin = await Twin.Open(Duties.Bench, withDemo: true);
        var args = await Recorded(twin);
        var before = twin.Server.Live.Now.Count;

        Assert.Contains("Nothing was stored; --store does.", (await twin.Both(args)).Out, StringComparison.Ordinal);
        await twin.Both([.. args, "--json"]);
        Assert.Equal(before, twin.Server.Live.Now.Count);
        var (exit, said, _) = await twin.Both([.. args, "--store"]);
        Assert.Equal(1, exit); // one channel is not usable
        Assert.Contains("5 checks stored.", said, StringComparison.Ordinal);

        var stored = CheckBook.OfCampaign(twin.Server.Live.Now, "QUILLMERE-26");
        Assert.Equal(5, stored.Count);
        Assert.All(stored, c => Assert.Equal(PersonState.IdOf("bench"), c.Author));
        // The next one is held against it, and the same one again stands already.
        await twin.Both([.. args, "--json"]);
        var (again, _, why) = await twin.Both([.. args, "--store"]);
        Assert.Equal(2, again);
        Assert.Contains("stands for a check already", why, StringComparison.Ordinal);
        twin.HoldTheSame(atLeast: 1000);
    }

    [Fact]
    public async Task Options_mean_the_same_and_what_cannot_be_is_said_alike()
    {
        await using var twin = await Twin.Open(Duties.Field, withDemo: true);
        var args = await Recorded(twin);
        var map = twin.Write("map.csv", "file,channel,station\nC01-before.wav,1,S02\nC01-before.wav,2,S01\n");
        var bad = twin.Write("bad.csv", "C01-before.wav,nought,S02\n");
        var before = twin.Server.Live.Now.Count;

        Assert.NotEqual(await twin.Both(args), await twin.Both([.. args, "--map", map]));
        Assert.Contains("not taken", (await twin.Both([.. args, "--hz", "1000"])).Out, StringComparison.Ordinal);
        foreach (var (option, value, says) in new[]
        {
            ("--campaign", "NOWHERE", "allowed are LAPWING-FEN-26, QUILLMERE-26"),
            ("--calibrator", "K999", "K501"),
            ("--adapter", "A999", "Adapter A999: allowed is one of"),
            ("--pressure-kpa", "1013", "30 to 120 kPa"),
            ("--at", "noon", "noon"),
            ("--map", "nothing.csv", "There is no file"),
            ("--map", bad, "bad.csv, row 1"),
        })
        {
            var at = Array.IndexOf(args, option);
            string[] changed = at < 0 ? [.. args, option, value] : [.. args[..(at + 1)], value, .. args[(at + 2)..]];
            var (exit, _, error) = await twin.Both([.. changed, "--store"]);
            Assert.Equal(2, exit);
            Assert.Contains(says, error, StringComparison.Ordinal);
        }
        Assert.Equal(before, twin.Server.Live.Now.Count);
    }

    [Fact]
    public async Task Whoever_only_looks_stores_nothing()
    {
        await using var twin = await Twin.Open(Duties.Look, withDemo: true);
        var args = await Recorded(twin);
        var before = twin.Server.Live.Now.Count;

        await twin.Both(args);
        var (exit, said, error) = await CommandLine.Run([.. args, "--store", .. twin.Through()]);

        Assert.Equal((2, ""), (exit, said));
        Assert.Contains("needs one of the duties field, bench; you hold look. Nothing was stored.", error, StringComparison.Ordinal);
        Assert.Equal(before, twin.Server.Live.Now.Count);
    }

    [Fact]
    public async Task A_lost_answer_is_told_and_the_same_command_again_stores_nothing_twice()
    {
        await using var twin = await Twin.Open(Duties.Field, withDemo: true);
        var args = await Recorded(twin);
        await using var net = await Between.HandingOn(twin.Address, lost: 2);

        var (exit, said, why) = await CommandLine.Run([.. args, "--store", .. twin.Through(net.Address)]);
        Assert.Equal((3, ""), (exit, said));
        Assert.Contains("not known whether it was stored", why, StringComparison.Ordinal);
        Assert.Equal(5, CheckBook.OfCampaign(twin.Server.Live.Now, "QUILLMERE-26").Count);

        var again = await CommandLine.Run([.. args, "--store", .. twin.Through(net.Address)]);
        Assert.Equal(2, again.Exit);
        Assert.Contains("stands for a check already", again.Error, StringComparison.Ordinal);
        Assert.Equal(5, CheckBook.OfCampaign(twin.Server.Live.Now, "QUILLMERE-26").Count);
    }

    // Channels 1 to 6 are in the chains of S01 to S06; the fifth is silent.
    private static async Task<string[]> Recorded(Twin twin)
    {
        var channels = Enumerable.Range(1, 6).Select(i => i == 5
            ? new double[40_000]
            : MadeRecording.Tone(5, 8000, 0.03 * Math.Pow(10, 0.01 * i / 20), 250)).ToArray();
        Directory.CreateDirectory(twin.At("wav"));
        await File.WriteAllBytesAsync(twin.At("wav/C01-before.wav"), MadeRecording.Of(
            channels, 8000, SampleFormat.Float32, broadcast: MadeRecording.Broadcast("before", "C01", "2026-09-02", "08:10:00", 0)));
        await File.WriteAllTextAsync(twin.At("wav/none.wav"), "no recording at all");
        return
        [
            "check", twin.At("wav"), "--campaign", "QUILLMERE-26", "--calibrator", "K501", "--pressure-kpa", "99.8", "--range-v", "10",
            "--moment", "before", "--at", "2026-08-02T08:15:00.000Z",
        ];
    }
}

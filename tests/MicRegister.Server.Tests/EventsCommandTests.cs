using System.Text.Json.Nodes;
using MicRegister.Documents.Tests;
using MicRegister.Register;
using MicRegister.Register.Tracing;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests;

/// <summary>The command's list and the API's say of each event what its trace says.</summary>
public sealed class EventsCommandTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Command_and_api_say_the_same_verdict_and_counts_as_the_trace()
    {
        MicRegister.Register.Facts.Fact[] facts = [.. LargeArray.Facts(6, 3, [4], [5, 6])];
        using var folder = new TemporaryFolder();
        await using (var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder.Path), TimeProvider.System))) await live.Submit(facts, "test", Cancel);
        await using var server = await ServerUnderTest.Open();
        await server.Live.Submit(facts, "test", Cancel);

        var (exit, text, _) = await CommandLine.Run("events", "--data", folder.Path);
        Assert.Equal(0, exit);
        Assert.Equal(
            Enumerable.Range(0, 3).Select(i => $"FEN-26.RUN-{i}: Run {i}, 2026-06-02 10:0{i}:00 UTC: doubtful, of 6 stations 3 valid, 1 doubtful, 0 undecided, 2 not valid"),
            text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));

        var (_, json, _) = await CommandLine.Run("events", "--campaign", LargeArray.C, "--day", "2026-06-02", "--data", folder.Path, "--json");
        var listed = (await server.Get($"/api/campaigns/{LargeArray.C}/events"))["items"]!.AsArray();
        Assert.Equal(3, listed.Count);
        // What is null is left out by the command.
        foreach (var (own, other) in JsonNode.Parse(json)!.AsArray().Zip(listed))
        {
            foreach (var (name, value) in own!.AsObject()) Assert.True(JsonNode.DeepEquals(value, other![name]), $"{name}: {value} and {other![name]}.");
            Assert.Equal("""{"all":6,"valid":3,"doubtful":1,"undecided":0,"notValid":2}""", own["stations"]!.ToJsonString());
            var trace = await server.Get($"/api/events/{(string)own["id"]!}/trace");
            Assert.Equal((string)trace["verdict"]!, (string)own["verdict"]!);
            Assert.Equal(TraceVerdict.Doubtful.InWords, (string)own["verdict"]!);
        }
        Assert.Contains("No event was stated.", (await CommandLine.Run("events", "--day", "2026-06-03", "--data", folder.Path)).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_list_without_verdicts_works_none_out()
    {
        await using var server = await ServerUnderTest.Open();
        await server.Live.Submit([.. LargeArray.Facts(2, 3)], "test", Cancel);

        var bare = (await server.Get($"/api/campaigns/{LargeArray.C}/events?verdicts=false"))["items"]!.AsArray();
        Assert.Equal(3, bare.Count);
        Assert.All(bare, e => Assert.Null(e!["verdict"]));
        Assert.All(bare, e => Assert.Null(EventVerdict.IfKnown(server.Live.Now, (string)e!["id"]!)));
        // Of a page, only its own.
        Assert.Equal("valid", (string)Assert.Single((await server.Get($"/api/campaigns/{LargeArray.C}/events?offset=1&limit=1"))["items"]!.AsArray())!["verdict"]!);
        Assert.Equal([false, true, false], bare.Select(e => EventVerdict.IfKnown(server.Live.Now, (string)e!["id"]!) is not null));
    }

    [Theory]
    [InlineData("--campaign", "NOWHERE", "--campaign NOWHERE: there is no such campaign.")]
    [InlineData("--day", "yesterday", "--day yesterday is no day; write it as 2026-05-04.")]
    public async Task What_cannot_be_is_refused_with_the_value(string option, string value, string says)
    {
        using var folder = new TemporaryFolder();
        await using (var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder.Path), TimeProvider.System))) await live.Submit([.. LargeArray.Facts(1, 1)], "test", Cancel);

        var (exit, _, error) = await CommandLine.Run("events", option, value, "--data", folder.Path);
        Assert.Equal(2, exit);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }
}

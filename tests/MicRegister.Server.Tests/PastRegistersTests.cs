using System.Net;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests;

/// <summary>
/// Earlier states of the log cost much and are asked for by anyone who may look: they are shared, few at a time, and given up.
/// </summary>
public sealed class PastRegistersTests : IDisposable
{
    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);

    private readonly HandTime _time = new(new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero));
    private readonly GatedFacts _facts;
    private readonly Register.Register _register;
    private readonly PastRegisters _past;

    public PastRegistersTests()
    {
        var list = new FactList();
        var facts = Enumerable.Range(0, 40)
            .Select(i => FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", i), new DeviceNoted("n" + i), ["device:D1"])).ToList();
        facts.ForEach(list.Add);
        _facts = new(list);
        _register = Register.Register.Empty(_facts).With(facts);
        _past = new(() => _register, _time);
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_third_asker_waits_ten_seconds_for_one_of_two_to_be_done_and_no_longer()
    {
        _facts.Shut();
        var (one, two) = (_past.At(1, Cancel), _past.At(2, Cancel));
        var (third, fourth) = (_past.At(3, Cancel), _past.At(4, CancellationToken.None));
        await Stopped(2);

        _time.Now += PastRegisters.Patience - Second;
        Assert.False(third.IsCompleted);
        _time.Now += Second;
        Assert.Null(await third.WaitAsync(TimeSpan.FromMinutes(1), Cancel));
        Assert.Null(await fourth.WaitAsync(TimeSpan.FromMinutes(1), Cancel));
        Assert.False(one.IsCompleted || two.IsCompleted); // whose work was begun has patience
        Assert.Equal(0, _facts.Stopped.CurrentCount);

        _facts.Open();
        Assert.Equal((1, 2), ((await one)!.Count, (await two)!.Count));
        Assert.Equal(3, (await _past.At(3, Cancel))!.Count);
    }

    [Fact]
    public async Task A_third_asker_is_served_when_one_of_two_is_done_in_time()
    {
        _facts.Shut();
        Task<Register.Register?>[] asked = [_past.At(1, Cancel), _past.At(2, Cancel), _past.At(3, Cancel)];
        await Stopped(2);
        _time.Now += PastRegisters.Patience - Second;
        _facts.Open();

        Assert.Equal([1, 2, 3], (await Task.WhenAll(asked)).Select(r => r!.Count));
    }

    [Fact]
    public async Task Ten_who_ask_for_one_sequence_at_once_share_the_work_and_it_is_kept()
    {
        _facts.Shut();
        var asked = Enumerable.Range(0, 10).Select(_ => _past.At(30, Cancel)).ToList();
        await Stopped(1);
        _facts.Open();
        var found = await Task.WhenAll(asked);

        Assert.All(found, r => Assert.Same(found[0], r));
        Assert.Same(found[0], await _past.At(30, Cancel));
        Assert.Equal(1, _facts.Reads[40]); // read for the digest, each time that it is worked out
        Assert.Equal(FactList.RegisterOf(Enumerable.Range(1, 30).Select(_facts.Read)).Digest, found[0]!.Digest);
        Assert.Same(_register, await _past.At(40, Cancel));
    }

    [Fact]
    public async Task What_nobody_asks_for_any_more_is_given_up_and_what_somebody_does_is_not()
    {
        using var leaving = new CancellationTokenSource();
        _facts.Shut();
        var (alone, both, stays) = (_past.At(10, leaving.Token), _past.At(12, leaving.Token), _past.At(12, Cancel));
        var waits = _past.At(14, leaving.Token);
        await Stopped(2);
        await leaving.CancelAsync();
        foreach (var left in new[] { alone, both, waits }) await Assert.ThrowsAnyAsync<OperationCanceledException>(() => left);
        _facts.Open();

        Assert.Equal(12, (await stays)!.Count);
        Assert.Equal(16, (await _past.At(16, Cancel))!.Count); // the turns are free again
        // Each reads its facts from the first on: of 10 the first alone was read, and 14 was never begun.
        Assert.Equal(2, _facts.Reads[10]);
        Assert.Equal(1, _facts.Reads[14]);
    }

    [Fact]
    public async Task Few_are_kept_those_asked_for_last()
    {
        var first = await _past.At(21, Cancel);
        for (var sequence = 22; sequence <= 20 + PastRegisters.MostKept; sequence++) await _past.At(sequence, Cancel);
        Assert.Same(first, await _past.At(21, Cancel));
        var second = await _past.At(22, Cancel);
        await _past.At(30, Cancel);

        Assert.Same(second, await _past.At(22, Cancel));
        Assert.Same(first, await _past.At(21, Cancel));
        await _past.At(31, Cancel);
        await _past.At(32, Cancel);
        await _past.At(33, Cancel);
        Assert.NotSame(first, await _past.At(21, Cancel));
    }

    [Fact]
    public async Task Who_asks_for_too_many_earlier_tables_is_told_when_to_come_again_and_others_are_answered_meanwhile()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        var store = JournalStore.Open(new DiskFiles(folder.Path), TimeProvider.System);
        var newest = store.Head.Sequence + 1;
        var facts = new GatedFacts(store, newest); // it is read for the digest of any state shortly before it, and for nothing else
        await using var live = new LiveRegister(facts);
        await using var app = RegisterServer.Build(live, _time, new DateOnly(2026, 8, 3), 0);
        await app.StartAsync(Cancel);
        var lone = FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", 0), new DeviceNoted("by itself"), ["device:LONE"]);
        await live.Submit([lone], "test", Cancel);
        using var client = new HttpClient { BaseAddress = new(app.Urls.First()) };
        string Table(int sequence) => $"/api/campaigns/QUILLMERE-26/analysis.csv?sequence={sequence}";

        facts.Shut();
        var (one, two) = (client.GetAsync(Table(newest - 1), Cancel), client.GetAsync(Table(newest - 2), Cancel));
        for (var n = 0; n < 2; n++) Assert.True(await facts.Stopped.WaitAsync(TimeSpan.FromMinutes(1), Cancel));
        var third = client.GetAsync(Table(newest - 3), Cancel);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/api/campaigns", Cancel)).StatusCode);
        while (!third.IsCompleted)
        {
            _time.Now += Second;
            await Task.Yield();
        }

        var refused = await third;
        Assert.Equal(HttpStatusCode.TooManyRequests, refused.StatusCode);
        Assert.Equal("10", Assert.Single(refused.Headers.GetValues("Retry-After")));
        Assert.Equal("application/problem+json", refused.Content.Headers.ContentType?.MediaType);
        Assert.Equal(429, (int)JsonNode.Parse(await refused.Content.ReadAsStringAsync(Cancel))!["status"]!);
        facts.Open();
        Assert.Equal(HttpStatusCode.OK, (await one).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await two).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync(Table(newest - 3), Cancel)).StatusCode);
        await app.StopAsync(Cancel);
    }

    public void Dispose() => _facts.Dispose();

    private async Task Stopped(int readers)
    {
        for (var n = 0; n < readers; n++)
            Assert.True(await _facts.Stopped.WaitAsync(TimeSpan.FromMinutes(1), Cancel), "Nothing is being worked out.");
    }
}

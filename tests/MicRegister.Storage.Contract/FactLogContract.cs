using System.Text;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.Contract;

/// <summary>What every store has to do. A store's tests derive from it and say how to open one.</summary>
public abstract class FactLogContract
{
    /// <summary>Opens the store of this test, new at first, the same one afterwards.</summary>
    protected abstract IFactLog Open();

    /// <summary>Waits until whatever is written behind the log has caught up.</summary>
    protected abstract Task CaughtUp(IFactLog log);

    [Fact]
    public async Task What_was_acknowledged_is_there_after_opening_again()
    {
        var facts = Enumerable.Range(1, 50).Select(Moved).ToList();
        LogHead head;
        await using (var live = new LiveRegister(Open()))
        {
            foreach (var chunk in facts.Chunk(7)) Assert.All(await Submitted(live, chunk), o => Assert.Equal(AppendResult.Stored, o.Result));
            head = live.Log.Head;
        }

        await using var again = new LiveRegister(Open());

        Assert.Equal(50, head.Sequence);
        Assert.Equal(head, again.Log.Head);
        Assert.Equal(facts, again.Log.ReadFrom(1).Select(l => l.Fact));
        Assert.Equal(FactList.RegisterOf(facts).Digest, again.Now.Digest);
        Assert.Equal("place 49", again.Now.Device("D1")!.Place);
        Assert.Equal("place 50", again.Now.Device("D2")!.Place);
    }

    [Fact]
    public async Task A_fact_sent_twice_is_stored_once_and_another_under_its_id_is_a_conflict()
    {
        await using var live = new LiveRegister(Open());
        var fact = Moved(1);
        var other = FactText.Write(fact.Id, new(fact.Occurred, "P1", "desk", 0), new DeviceMoved("elsewhere"), fact.Subjects);

        Assert.Equal(AppendResult.Stored, (await Submitted(live, [fact])).Single().Result);
        Assert.Equal([AppendResult.Duplicate, AppendResult.Stored, AppendResult.Duplicate, AppendResult.Conflict],
            (await Submitted(live, [fact, Moved(2), Moved(2), other])).Select(o => o.Result));
        Assert.Equal(2, live.Log.Head.Sequence);
    }

    [Fact]
    public async Task Receipts_chain_and_name_the_door()
    {
        await using var live = new LiveRegister(Open());
        await Submitted(live, [Moved(1)], "desk");
        await Submitted(live, [Moved(2)], "field phone-2");

        var logged = live.Log.ReadFrom(1).ToList();

        Assert.Equal([1, 2], logged.Select(l => l.Sequence));
        Assert.Equal(["desk", "field phone-2"], logged.Select(l => l.Door));
        Assert.Equal(live.Log.Head.Chain, logged[1].Chain);
        Assert.NotEqual(logged[0].Chain, logged[1].Chain);
    }

    [Fact]
    public async Task Questions_are_answered_by_subject_person_kind_and_time()
    {
        await using var live = new LiveRegister(Open());
        await Submitted(live, [.. Enumerable.Range(1, 30).Select(Moved)]);
        var noted = FactText.WriteDerived(new(Occurred.On(new(2026, 5, 1)), "P9", "desk", 0), new DeviceNoted("x"), ["device:D1"]);
        await Submitted(live, [noted]);
        await CaughtUp(live.Log);
        await Submitted(live, [Moved(31)]); // may not be indexed yet; the answer must not depend on it

        Assert.Equal([1, 3, 5], live.Log.Find(new(Subject: "device:D1")).Take(3));
        Assert.Equal(17, live.Log.Find(new(Subject: "device:D1")).Count);
        Assert.Equal([31], live.Log.Find(new(Author: "P9")));
        Assert.Equal([31], live.Log.Find(new(Kind: "device-noted")));
        Assert.Equal([31], live.Log.Find(new(From: new(2026, 5, 1), Author: "P9")));
        Assert.Equal([2, 3, 4], live.Log.Find(new(From: new(2024, 1, 3), To: new(2024, 1, 5))));
        Assert.Empty(live.Log.Find(new(Subject: "device:D1", Author: "nobody")));
        Assert.Equal(32, live.Log.Find(new()).Count);
    }

    [Fact]
    public async Task Many_at_once_are_all_stored_and_each_decides_on_the_newest_state()
    {
        await using var live = new LiveRegister(Open());
        await Submitted(live, [Moved(1)]);

        // Each adds its note only if it counts exactly the notes before it; with a stale state some would meet.
        var answers = await Task.WhenAll(Enumerable.Range(0, 200).Select(i => Task.Run(() => live.Submit(
            register => new Result<IReadOnlyList<Fact>>.Accepted([Note(register.Device("D1")!.Notes.Length)]), "desk"))));

        Assert.All(answers, a => Assert.Equal(AppendResult.Stored, Assert.IsType<Result<IReadOnlyList<AppendOutcome>>.Accepted>(a).Value.Single().Result));
        Assert.Equal(200, live.Now.Device("D1")!.Notes.Length);
        Assert.Equal(201, live.Log.Head.Sequence);
    }

    [Fact]
    public async Task A_rejected_decision_stores_nothing()
    {
        await using var live = new LiveRegister(Open());

        var answer = await live.Submit(_ => new Rejection(RejectionSort.Conflict, "changed meanwhile"), "desk");

        Assert.Equal("changed meanwhile", Assert.IsType<Result<IReadOnlyList<AppendOutcome>>.Rejected>(answer).Why.Text);
        Assert.Equal(0, live.Log.Head.Sequence);
    }

    [Fact]
    public async Task A_decision_that_fails_is_its_callers_trouble_alone()
    {
        await using var live = new LiveRegister(Open());

        await Assert.ThrowsAsync<InvalidTimeZoneException>(() => live.Submit(_ => throw new InvalidTimeZoneException(), "desk"));
        await Assert.ThrowsAsync<ArgumentException>(() => live.Submit([Moved(1)], "a\tb"));
        Assert.Equal(AppendResult.Stored, (await Submitted(live, [Moved(1)])).Single().Result);
    }

    [Fact]
    public async Task Kinds_of_the_future_are_kept_byte_for_byte()
    {
        var bytes = Encoding.UTF8.GetBytes("""{"at":"2030-01-01","author":"P1","body":{"x":[1,2]},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"device-weighed","subjects":["device:D1"],"version":3}""");
        await using (var live = new LiveRegister(Open())) await Submitted(live, [FactText.ReadCanonical(bytes)]);

        await using var again = new LiveRegister(Open());

        Assert.Equal(bytes, again.Log.Read(1).Bytes.ToArray());
        Assert.Single(again.Now.Device("D1")!.WrittenByNewer);
    }

    [Fact]
    public void Attachments_are_kept_once_by_their_content()
    {
        using var log = Open();
        log.Load();

        var sha = log.KeepAttachment(new MemoryStream("curve"u8.ToArray()));

        // SHA-256 of "curve", sha256sum (GNU coreutils 9.1).
        Assert.Equal("80c1018a4c8f1d7fe7502bb5936f986b4cbe43cfe7e4dca7967aefb370518007", sha);
        Assert.Equal(sha, log.KeepAttachment(new MemoryStream("curve"u8.ToArray())));
        using var back = new StreamReader(log.OpenAttachment(sha)!);
        Assert.Equal("curve", back.ReadToEnd());
        Assert.Null(log.OpenAttachment(new string('0', 64)));
        Assert.Null(log.OpenAttachment("../journal"));
        Assert.Throws<ArgumentException>(() => log.KeepAttachment(new MemoryStream(new byte[IFactLog.MaxAttachmentBytes + 1])));
    }

    protected static async Task<IReadOnlyList<AppendOutcome>> Submitted(LiveRegister live, IReadOnlyList<Fact> facts, string door = "desk") =>
        Assert.IsType<Result<IReadOnlyList<AppendOutcome>>.Accepted>(await live.Submit(facts, door)).Value;

    protected static Fact Moved(int i) => FactText.WriteDerived(
        new(Occurred.On(new DateOnly(2024, 1, 1).AddDays(i)), "P1", "desk", i), new DeviceMoved("place " + i), ["device:D" + (i % 2 == 1 ? 1 : 2)]);

    private static Fact Note(int i) => FactText.WriteDerived(new(Occurred.On(new(2024, 6, 1)), "P1", "desk", i), new DeviceNoted("note " + i), ["device:D1"]);
}

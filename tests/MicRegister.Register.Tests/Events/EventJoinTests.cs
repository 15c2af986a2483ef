using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Events;

/// <summary>Files that are joined with an event one after the other, each time stating it anew.</summary>
public sealed class EventJoinTests
{
    // What was replaced replaces nothing: without a word of its own, each second statement before would count again.
    [Fact]
    public void An_event_that_is_stated_anew_with_each_file_counts_once_with_all_of_them()
    {
        string[] names = ["a.wav", "b.wav", "c.wav", "d.wav"];
        List<Fact> facts = [.. Heath.Base, Heath.Event("E1", "06-02 10:00", "06-02 10:01")];
        for (var n = 1; n <= names.Length; n++)
        {
            facts.AddRange(Joined(FactList.RegisterOf(facts), names[n - 1], n));

            var register = FactList.RegisterOf(facts);
            Assert.Equal(names[..n], Files(Assert.Single(Counting(register))));
            Assert.Equal(names[..n], EventBook.Find(register, "E1")!.Recordings.Select(f => f.File));
            Assert.Equal(names[..n], Assert.Single(EventBook.OfCampaign(register, Heath.C)).Recordings.Select(f => f.File));
        }
        Assert.Equal(names.Length + 1, facts.Count(f => f.Body is EventHappened));
    }

    [Fact]
    public void Where_the_last_join_is_taken_back_the_one_before_counts_alone()
    {
        List<Fact> facts = [.. Heath.Base, Heath.Event("E1", "06-02 10:00", "06-02 10:01")];
        foreach (var (name, counter) in new[] { ("a.wav", 1), ("b.wav", 2), ("c.wav", 3) })
            facts.AddRange(Joined(FactList.RegisterOf(facts), name, counter));

        var register = FactList.RegisterOf([.. facts, Make.Annulling(facts.Last(f => f.Body is EventHappened))]);

        Assert.Equal(["a.wav", "b.wav"], Files(Assert.Single(Counting(register))));
    }

    // All begin with the event, by a clock that shows UTC, and last as long.
    private static IReadOnlyList<Fact> Joined(Register register, string file, int counter)
    {
        var recording = new EventRecording(file, 1000, new string((char)('0' + counter), 64), "R1", "2026-06-02T10:00:00.000", 60, [1]);
        var saying = new Saying(new(Heath.At("07-01 08:00"), "P1", "desk", counter));
        return Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(
            EventDecisions.Join(register, saying, Heath.C, [recording], makesEvents: false)).Value;
    }

    private static List<Fact> Counting(Register register) =>
        [.. register.Facts(Subject.Event("E1")).Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is EventHappened)];

    private static IEnumerable<string> Files(Fact fact) => ((EventHappened)fact.Body).Recordings.Select(f => f.File);
}

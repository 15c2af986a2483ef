using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Fold;

/// <summary>A notice of a client's clock holds from the fact on that it was noticed with.</summary>
public sealed class ClockNoticeTests
{
    private const long HourMs = 3_600_000;

    // A phone that runs two hours behind says 08:00, 09:00 and 10:00 with its counters 4, 5 and 6: from 5 on it is put right.
    [Fact]
    public void The_fact_that_carried_the_notice_is_put_right_itself_and_the_one_before_is_not()
    {
        Fact[] said = [Moved("one", "08:00", 4), Moved("two", "09:00", 5), Moved("three", "10:00", 6)];
        var register = FactList.RegisterOf([.. said, Notice("phone-1.ABCD", 5, 2 * HourMs)]);

        Assert.Equal([Ms("08:00"), Ms("11:00"), Ms("12:00")], said.Select(register.Instant));
    }

    [Fact]
    public void A_later_notice_takes_over_at_its_own_fact_and_clients_do_not_share_clocks()
    {
        Fact[] said =
        [
            Moved("one", "08:00", 5), Moved("two", "09:00", 6), Moved("three", "10:00", 7), Moved("four", "10:00", 7, "phone-2.ABCD"),
        ];
        var register = FactList.RegisterOf([Notice("phone-1.ABCD", 7, HourMs), .. said, Notice("phone-1.ABCD", 5, 2 * HourMs)]);

        Assert.Equal([Ms("10:00"), Ms("11:00"), Ms("11:00"), Ms("10:00")], said.Select(register.Instant));
    }

    // Said at 09:00 by a phone two hours behind, which is 11:00; the desk said "hall" at 10:00. What was last is the phone's "van".
    [Fact]
    public void Taken_together_with_its_notice_it_is_folded_in_its_right_place()
    {
        Fact desk = Moved("hall", "10:00", 1, "desk"), phone = Moved("van", "09:00", 5), notice = Notice("phone-1.ABCD", 5, 2 * HourMs);
        var list = new FactList();
        foreach (var fact in new[] { desk, phone, notice }) list.Add(fact);
        var before = Register.Empty(list).With([desk]);
        Assert.Equal("hall", before.Device("M1")!.Place);

        Assert.Equal("van", before.With([phone, notice]).Device("M1")!.Place);
    }

    private static Fact Moved(string place, string time, int counter, string client = "phone-1.ABCD") =>
        FactText.WriteDerived(new(Make.On($"2026-06-02T{time}:00.000Z"), "P1", client, counter), new DeviceMoved(place), ["device:M1"]);

    private static Fact Notice(string client, int fromCounter, long offsetMs) =>
        FactText.WriteDerived(
            new(Make.On("2026-06-02T12:00:00.000Z"), "P1", "server", fromCounter),
            new ClientClockNoticed(client, fromCounter, offsetMs), [Subject.TheRegister]);

    private static long Ms(string time) => Make.On($"2026-06-02T{time}:00.000Z").UnixMilliseconds;
}

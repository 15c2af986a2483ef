using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests;

/// <summary>What was said by one act, and its taking back.</summary>
public sealed class ActBookTests
{
    private static readonly StationPlanned New = new("S7", 53.007, 1, Mount.Pole, 10);

    private static Saying At(int counter) => new(new(Make.On("2026-05-05"), "P2", "desk", counter));

    [Fact]
    public void A_sheet_of_stations_is_one_act_and_what_came_beside_it_is_another()
    {
        var (register, facts) = Planned();

        Assert.All(facts, f => Assert.Equal(
            facts.Select(x => x.Id), ActBook.Of(register, register.Find(f.Id)).Select(n => register.Source.Read(n).Id)));
        Assert.Equal([register.Count], ActBook.Of(register, register.Count));
    }

    [Fact]
    public void It_is_taken_back_as_one_and_that_can_be_taken_back_as_one()
    {
        var (register, facts) = Planned();
        var before = register.Campaign(Heath.C)!;

        var back = Accepted(ActBook.TakeBack(register, At(21), facts[0].Id.ToString(), "the wrong field"));
        var without = register.WhatIf(back);
        var again = Accepted(ActBook.TakeBack(without, At(22), back[0].Id.ToString(), "it was the right one"));

        Assert.Equal(3, back.Count);
        Assert.Equal(["S1", "S2", "S3", "S9"], without.Campaign(Heath.C)!.Stations.Keys);
        Assert.False(without.Campaign(Heath.C)!.Chains.ContainsKey("S7"));
        Assert.Equal(before.Stations, without.WhatIf(again).Campaign(Heath.C)!.Stations);
        Assert.Equal(before.Chains["S7"].AsSpan(), without.WhatIf(again).Campaign(Heath.C)!.Chains["S7"].AsSpan());
    }

    [Fact]
    public void What_does_not_count_any_more_is_left_and_nothing_is_taken_back_twice_or_without_a_reason()
    {
        var (register, facts) = Planned();
        var one = register.WhatIf([Make.Annulling(facts[1])]);

        var rest = Accepted(ActBook.TakeBack(one, At(21), facts[0].Id.ToString(), "the wrong field"));

        Assert.Equal([facts[2].Id.ToString(), facts[0].Id.ToString()], rest.Select(f => ((FactAnnulled)f.Body).Target));
        Assert.Equal(RejectionSort.Conflict, Why(ActBook.TakeBack(one.WhatIf(rest), At(22), facts[0].Id.ToString(), "again")).Sort);
        Assert.Equal(RejectionSort.Invalid, Why(ActBook.TakeBack(register, At(22), facts[0].Id.ToString(), " ")).Sort);
        Assert.Equal(RejectionSort.NotFound, Why(ActBook.TakeBack(register, At(22), "01JD8XK3ZZ0000000000000009", "x")).Sort);
        var old = At(22) with { SawVersion = register.Version(Subject.Campaign(Heath.C)) - 1 };
        Assert.Equal(RejectionSort.Conflict, Why(ActBook.TakeBack(register, old, facts[0].Id.ToString(), "seen before")).Sort);
    }

    [Fact]
    public void What_was_taken_over_goes_with_its_file_and_not_as_an_act()
    {
        var row = FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), New, [Subject.Campaign(Heath.C)]);
        var other = FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), New with { Station = "S8" }, [Subject.Campaign(Heath.C)]);
        var register = Heath.With(row, other);

        Assert.Equal([register.Find(row.Id)], ActBook.Of(register, register.Find(row.Id)));
    }

    // S7 with its chain and S8 by one act; S9 by the next.
    private static (Register Register, IReadOnlyList<Fact> Facts) Planned()
    {
        var register = Heath.With();
        var facts = Accepted(StationPlans.Plan(register, At(9), Heath.C, [new(New, ["M1"]), new(New with { Station = "S8" }, null)], [], ""));
        var next = Accepted(StationPlans.Plan(register, At(10), Heath.C, [new(New with { Station = "S9" }, null)], [], ""));
        return (FactList.RegisterOf([.. Heath.Base, .. facts, .. next]), facts);
    }

    private static IReadOnlyList<Fact> Accepted(Result<IReadOnlyList<Fact>> said) =>
        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(said).Value;

    private static Rejection Why(Result<IReadOnlyList<Fact>> said) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(said).Why;
}

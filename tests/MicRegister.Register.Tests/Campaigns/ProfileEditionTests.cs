using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.People;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>Editions of a profile, and which confirmation counts for which.</summary>
public sealed class ProfileEditionTests
{
    private const string Id = BuiltInProfiles.Usual;

    private static readonly Fact First = Written(0.2, "2026-02-01"), Second = Written(0.25, "2026-03-01");

    private static Register With(params Fact[] facts) => FactList.RegisterOf(facts);

    [Fact]
    public void The_built_in_is_the_first_edition_and_every_version_one_more()
    {
        var editions = With(Second, First).ProfileEditions(Id);

        Assert.Equal([ProfileEdition.BuiltIn, First.Id.ToString(), Second.Id.ToString()], editions.Select(e => e.Key));
        Assert.Equal([false, false, true], editions.Select(e => e.IsInForce));
        Assert.Equal(("P1", new DateOnly(2026, 3, 1)), (editions[2].Author, editions[2].Day));
        Assert.True(Assert.Single(With().ProfileEditions(Id)).IsInForce);
        Assert.Empty(With().ProfileEditions("nowhere"));
        Assert.Equal(ProfileEdition.BuiltIn, With().Profile(Id)!.Edition);
        Assert.Equal(Second.Id.ToString(), With(First, Second).Profile(Id)!.Edition);
    }

    [Fact]
    public void A_confirmation_counts_until_the_profile_is_written_anew()
    {
        var confirmed = Confirmed(First, "2026-02-10");

        var state = With(First, confirmed).Profile(Id)!;
        Assert.Equal(("third edition", "P1", new DateOnly(2026, 2, 10)), (state.Confirmed?.Edition, state.ConfirmedBy, state.ConfirmedOn));
        Assert.Null(With(First, confirmed, Second).Profile(Id)!.Confirmed);
        Assert.NotNull(With(First, confirmed, Second).ProfileEditions(Id)[1].Confirmed);
        Assert.Null(With(First, confirmed, Make.Annulling(confirmed)).Profile(Id)!.Confirmed);
    }

    [Fact]
    public void A_confirmation_of_other_figures_does_not_count_whenever_it_was_said()
    {
        Assert.Null(With(First, Second, Confirmed(First, "2026-03-10")).Profile(Id)!.Confirmed);
        Assert.NotNull(With(First, Second, Confirmed(Second, "2026-03-10")).Profile(Id)!.Confirmed);
        // The program that asks other figures now is not the one that was confirmed.
        var other = (ProfileConfirmed)Confirmed(First, "2026-03-10").Body;
        Assert.Null(With(Make.Of(other, "2026-01-10", Subject.Profile(Id))).Profile(Id)!.Confirmed);
        var same = other with { Digest = ProfileEdition.DigestOf(BuiltInProfiles.Find(Id)!.Written) };
        Assert.NotNull(With(Make.Of(same, "2026-01-10", Subject.Profile(Id))).Profile(Id)!.Confirmed);
    }

    [Fact]
    public void Annulling_a_version_brings_back_the_earlier_one_with_its_own_confirmation()
    {
        Fact ofFirst = Confirmed(First, "2026-02-10", "of the first"), ofSecond = Confirmed(Second, "2026-03-10", "of the second");
        Assert.Equal("of the second", With(First, ofFirst, Second, ofSecond).Profile(Id)!.Confirmed?.Edition);

        var back = With(First, ofFirst, Second, ofSecond, Annulled(Second, "2026-04-01"));

        Assert.Equal((0.2, "of the first"), (back.Profile(Id)!.Value(LimitKey.DriftDb), back.Profile(Id)!.Confirmed?.Edition));
        Assert.Equal([true, true, false], back.ProfileEditions(Id).Select(e => e.Counts));
        Assert.Equal([false, true, false], back.ProfileEditions(Id).Select(e => e.IsInForce));
        Assert.Equal(0.2, With(First, Annulled(First, "2026-02-02"), Written(0.2, "2026-02-03")).Profile(Id)!.Value(LimitKey.DriftDb));
        Assert.True(With(First, Annulled(First, "2026-02-02")).Profile(Id)!.IsBuiltIn);
    }

    [Fact]
    public void What_confirmed_before_digests_were_written_speaks_of_the_version_before_it()
    {
        Fact earlier = Old("2026-02-10"), later = Old("2026-03-10"), last = Old("2026-05-01");

        Assert.NotNull(With(First, earlier).Profile(Id)!.Confirmed);
        // It was of the second, which does not count any more.
        Assert.Null(With(First, Second, later, Annulled(Second, "2026-04-01")).Profile(Id)!.Confirmed);
        // After the annulment it can only be of the first.
        Assert.NotNull(With(First, Second, Annulled(Second, "2026-04-01"), last).Profile(Id)!.Confirmed);
    }

    [Fact]
    public void A_digest_is_of_what_is_asked_in_any_order()
    {
        ProfileWritten a = new("A", "", [new("drift-db", 0.3, null, "s", "own"), new("gap-mm", 7, null, "s", "own")]);
        var digest = ProfileEdition.DigestOf(a);

        Assert.Equal(26, digest.Length);
        Assert.Equal(digest, ProfileEdition.DigestOf(new("B", "other", [a.Limits[1], a.Limits[0] with { Certainty = "seen" }])));
        foreach (var other in (ProfileLimit[])
            [a.Limits[0] with { Value = 0.31 }, a.Limits[0] with { Source = "t" }, a.Limits[0] with { Text = "to the first day" },
                a.Limits[0] with { Key = "flatness-mm" }])
        {
            Assert.NotEqual(digest, ProfileEdition.DigestOf(a with { Limits = [other, a.Limits[1]] }));
        }
        Assert.NotEqual(digest, ProfileEdition.DigestOf(a with { Limits = [a.Limits[0]] }));
    }

    [Fact]
    public void Confirming_writes_down_what_was_compared_and_asks_for_a_day_that_was()
    {
        var register = With(First);
        var saying = new Saying(new(Occurred.On(new(2026, 6, 1)), "P1", "desk", 1));
        Result<IReadOnlyList<Fact>> Say(ProfileConfirmed said, string id = Id) => CampaignDecisions.Confirm(register, saying, id, said);
        string Why(ProfileConfirmed said, string id = Id) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(Say(said, id)).Why.Text;

        var said = (ProfileConfirmed)Assert.Single(
            Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(
                Say(new("third edition", null) { EditionDay = new(2026, 6, 1) })).Value).Body;
        Assert.Equal((new DateOnly(2026, 6, 1), ProfileEdition.DigestOf((ProfileWritten)First.Body)), (said.EditionDay, said.Digest));
        Assert.Contains("Edition is missing", Why(new(" ", null)), StringComparison.Ordinal);
        Assert.Contains("Day of the text '2026-06-02': allowed is a day from 1800 to 2026-06-01",
            Why(new("x", null) { EditionDay = new(2026, 6, 2) }), StringComparison.Ordinal);
        Assert.Contains("'1799-12-31'", Why(new("x", null) { EditionDay = new(1799, 12, 31) }), StringComparison.Ordinal);
        Assert.Contains("changed meanwhile", Why(new("x", null) { Digest = "00000000000000000000000000" }), StringComparison.Ordinal);
        Assert.Contains("no profile nowhere", Why(new("x", null), "nowhere"), StringComparison.Ordinal);
    }

    [Fact]
    public void Words_say_who_compared_it_with_which_text_or_that_nobody_did()
    {
        var register = With(First, Confirmed(First, "2026-02-10"), Make.Of(new PersonNamed("Ada"), "2026-01-01", Subject.Person("P1")));

        Assert.Equal(
            "compared with third edition, text of 2025-07-01, by Ada on 2026-02-10",
                ProfileWords.Checked(register, register.ProfileEditions(Id)[1]));
        Assert.Equal("compared with third edition, text of 2025-07-01, by Ada on 2026-02-10",
            ProfileWords.Checked(register, register.Profile(Id)!));
        Assert.Equal(ProfileState.Unchecked, ProfileWords.Checked(register, register.ProfileEditions(Id)[0]));
        var old = With(Old("2026-02-10"));
        Assert.Equal(
            "compared with 2024, day of the text not stated, by P1 on 2026-02-10; which figures stood there then was not written down",
            ProfileWords.Checked(old, old.ProfileEditions(Id)[0]));
    }

    private static Fact Written(double driftDb, string day) => Make.Of(
        new ProfileWritten("Own", "Invented.", [new(LimitKey.DriftDb, driftDb, null, "invented", "own")]), day, Subject.Profile(Id));

    private static Fact Confirmed(Fact version, string day, string edition = "third edition") => Make.Of(
        new ProfileConfirmed(edition, null)
        {
            EditionDay = new(2025, 7, 1),
            Digest = ProfileEdition.DigestOf((ProfileWritten)version.Body),
        },
        day, 9, Subject.Profile(Id));

    private static Fact Old(string day) => Make.Of(new ProfileConfirmed("2024", "agrees"), day, 9, Subject.Profile(Id));

    private static Fact Annulled(Fact target, string day) =>
        Make.Of(new FactAnnulled(target.Id.ToString(), "wrong"), day, [.. target.Subjects]);
}

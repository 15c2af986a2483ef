using System.Text.Json;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.People;

/// <summary>Names that a person could take for each other.</summary>
public sealed class NameLookTests
{
    // skeletons.json: 412 texts with NFD, NFKD and skeleton as ICU 72.1 (Debian libicu72 72.1-3, Unicode 15.0) gives them; look_alikes.py
    // beside it.
    [Fact]
    public void Decompositions_and_skeletons_are_those_of_another_implementation()
    {
        var file = Path.Combine(AppContext.BaseDirectory, "People", "skeletons.json");
        var cases = JsonSerializer.Deserialize<string[][]>(File.ReadAllText(file))!;

        Assert.Equal(412, cases.Length);
        Assert.All(cases, c => Assert.Equal(
            string.Join('\n', c[1..]), string.Join('\n', Decomposed(c[0], false), Decomposed(c[0], true), LookAlikes.Skeleton(c[0]))));
    }

    [Theory]
    [InlineData("Olive", "Оlive")] // a Cyrillic O
    [InlineData("Olive", "Ｏｌｉｖｅ")] // full width
    [InlineData("Dodo", "Ｄｏｄｏ")] // full width, of which UTS #39 has no prototype for the D
    [InlineData("Olive", "𝐎𝐥𝐢𝐯𝐞")] // mathematical
    [InlineData("Olive", "Ol\u0001ive")] // a character of control
    [InlineData("Olive", "Ol\u200Bive")] // a blank of no width
    [InlineData("Olive", "Ol\u00ADive")] // a hyphen that is not seen
    [InlineData("Olive", "O\u0301live")] // a mark
    [InlineData("Olive", "Óliv\u00E8")]
    [InlineData("Olive", "OLIVE")]
    [InlineData("Olive", "0live")]
    [InlineData("Ivan", "lvan")]
    [InlineData("IVAN", "ivan")]
    [InlineData("HANNA", "ΗΑΝΝΑ")] // Greek capitals
    [InlineData("hanna", "ΗΑΝΝΑ")]
    [InlineData("Crew west", "Crew   West")]
    [InlineData("Crew west", "Crew\u00A0west")]
    [InlineData("Corn", "Com")] // UTS #39: m is taken for rn
    [InlineData("Soren", "Søren")] // a stroke
    [InlineData("Pasha", "Раѕhа")]
    public void Names_that_look_alike_are_told(string one, string other)
    {
        Assert.True(NameLook.Of(one).IsLike(NameLook.Of(other)));
        Assert.True(NameLook.Of(other).IsLike(NameLook.Of(one)));
    }

    [Theory]
    [InlineData("Olive", "Oliver")]
    [InlineData("Crew north", "Crew south")]
    [InlineData("Crew 2", "Crew 3")]
    [InlineData("Crew-west", "Crew west")]
    [InlineData("Анна", "Алла")]
    [InlineData("한국", "한글")]
    [InlineData("कि", "की")] // vowel signs are letters
    public void Other_names_are_others(string one, string other) => Assert.False(NameLook.Of(one).IsLike(NameLook.Of(other)));

    // U+0E38 is of class 103, U+0E48 and U+0E49 are of class 107 (UnicodeData.txt 15.0); none of them is left out of a look.
    [Fact]
    public void Marks_of_two_classes_may_come_in_any_order_and_those_of_one_class_may_not()
    {
        var name = Marked("\u0E48\u0E38\u0E49");
        var ordered = "\u0E01" + new string('\u0E38', 333) + string.Concat(Enumerable.Repeat("\u0E48\u0E49", 333));

        Assert.Equal(1000, name.Length);
        Assert.All([Decomposed(name, false), Decomposed(name, true), LookAlikes.Skeleton(name)], n => Assert.Equal(ordered, n));
        foreach (var alike in new[] { Marked("\u0E38\u0E48\u0E49"), Marked("\u0E48\u0E49\u0E38"), ordered })
        {
            Assert.NotEqual(name, alike);
            Assert.True(NameLook.Of(name).IsLike(NameLook.Of(alike)));
            Assert.True(NameLook.Of(alike).IsLike(NameLook.Of(name)));
        }
        // All of them the other way round, and the last two alone.
        foreach (var other in new[] { Marked("\u0E49\u0E38\u0E48"), name[..^3] + "\u0E49\u0E38\u0E48" })
        {
            Assert.False(NameLook.Of(name).IsLike(NameLook.Of(other)));
            Assert.False(NameLook.Of(other).IsLike(NameLook.Of(name)));
        }
    }

    // U+0327 and U+0328 are of class 202, U+0323 and U+0331 of 220, U+0300 and U+0301 of 230 (UnicodeData.txt 15.0). Sorted by hand.
    [Fact]
    public void Marks_stand_in_the_order_of_their_classes_and_within_one_as_they_came()
    {
        const string Nine = "\u0301\u0323\u0328\u0300\u0331\u0328\u0301\u0323\u0327";
        var came = string.Concat(Enumerable.Repeat(Nine, 111));
        string[] classes = ["\u0328\u0328\u0327", "\u0323\u0331\u0323", "\u0301\u0300\u0301"];
        var ordered = string.Concat(classes.Select(c => string.Concat(Enumerable.Repeat(c, 111))));

        Assert.Equal("e" + ordered, Decomposed("e" + came, false));
        // Letters between them are never passed, whether one mark stands before or many do.
        Assert.Equal($"a\u0301e{ordered}x{ordered}", Decomposed($"a\u0301e{came}x{came}", false));
    }

    // Each mark moved past all before it that are of a greater class would be 4 · 10^10 steps, which take minutes.
    [Fact]
    public async Task A_long_run_of_marks_is_ordered_at_once()
    {
        const int Each = 200_000;
        var (greater, lesser) = (new string('\u0E48', Each), new string('\u0E38', Each));

        var work = Task.Run(() => Decomposed("\u0E01" + greater + lesser, false));

        Assert.Equal("\u0E01" + lesser + greater, await work.WaitAsync(TimeSpan.FromSeconds(20)));
    }

    [Fact]
    public void A_name_of_nothing_that_can_be_seen_is_blank()
    {
        Assert.All(["", " ", "\u200B\u2060", "\u0301", "\u3164"], n => Assert.True(NameLook.Of(n).IsBlank));
        Assert.False(NameLook.Of("x").IsBlank);
    }

    [Fact]
    public void The_same_person_is_no_other()
    {
        Assert.Null(NameLook.Other("Olive", [Person("olive"), Person(" OLIVE "), Person("Oliver")]));
        Assert.Equal("Оlive", NameLook.Other("Olive", [Person("Oliver"), Person("Оlive")])!.Name);
        // One who took that name under an id of another is another.
        Assert.NotNull(NameLook.Other("Olive", [new("ANOTHER", "Olive")]));
    }

    // Recomputed with Python 3.11: SHA-256 of "person", a line feed and OLIVE, its first 60 bits in the 32 letters of a fact's id.
    [Fact]
    public void The_id_of_a_name_stays_what_it_was()
    {
        Assert.Equal("5BWM0681A0BP", PersonState.IdOf(" Olive "));
        Assert.NotEqual(PersonState.IdOf("Olive"), PersonState.IdOf("Оlive"));
    }

    [Fact]
    public void Two_people_whose_names_look_alike_are_a_finding_and_never_refused()
    {
        var (olive, other, oliver) = (Named("Olive"), Named("Ｏｌｉｖｅ"), Named("Oliver"));
        var finding = Assert.Single(FactList.RegisterOf([olive, other, oliver]).Findings(new(2026, 8, 1)));

        Assert.Equal(("names-alike", 2), (finding.Rule, finding.Facts.Count));
        Assert.Equal([.. new[] { olive, other }.SelectMany(f => f.Subjects).Order()], finding.Subjects.Order());
        Assert.Contains("“Olive”", finding.Text, StringComparison.Ordinal);
        Assert.Contains("“Ｏｌｉｖｅ”", finding.Text, StringComparison.Ordinal);
        // Once one of them has another name it is settled.
        var renamed = Make.Of(new PersonNamed("Olive of the lab"), "2026-07-02", [.. other.Subjects]);
        Assert.Empty(FactList.RegisterOf([olive, other, oliver, renamed]).Findings(new(2026, 8, 1)));
        Assert.Empty(FactList.RegisterOf([olive, other, oliver, Make.Annulling(other)]).Findings(new(2026, 8, 1)));
    }

    // One letter and 999 marks.
    private static string Marked(string three) => "\u0E01" + string.Concat(Enumerable.Repeat(three, 333));

    private static string Decomposed(string text, bool isCompatible) => LookAlikes.Decompose(text, isCompatible);

    private static PersonState Person(string name) => new(PersonState.IdOf(name), name);

    private static Fact Named(string name) => Make.Of(new PersonNamed(name), "2026-07-01", Subject.Person(PersonState.IdOf(name)));
}

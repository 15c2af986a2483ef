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

    private static string Decomposed(string text, bool isCompatible) => LookAlikes.Decompose(text, isCompatible);

    private static PersonState Person(string name) => new(PersonState.IdOf(name), name);

    private static Fact Named(string name) => Make.Of(new PersonNamed(name), "2026-07-01", Subject.Person(PersonState.IdOf(name)));
}

using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Facts;

/// <summary>One row tells all about a kind of fact, and each row is whole.</summary>
public sealed class FactKindTests
{
    public static TheoryData<string, int> Rows => [.. FactKinds.All.Select(k => (k.Name, k.Version))];

    [Theory]
    [MemberData(nameof(Rows))]
    public void The_example_of_a_row_loads_again_and_has_words(string name, int version)
    {
        var kind = FactKinds.Find(name, version)!;
        var written = FactText.WriteDerived(new(Occurred.On(new(2026, 5, 4)), "P1", "desk", 7), kind.Example, ["device:A1"]);

        var read = FactText.ReadCanonical(written.Bytes);
        Assert.Equal((name, version), (read.Kind, read.Version));
        Assert.IsType(kind.Body, read.Body);
        Assert.False(string.IsNullOrWhiteSpace(FactKinds.Words(read.Body)), $"{name} {version} says nothing.");
        Assert.NotEqual(Duties.None, kind.StatedBy);
        Assert.True(Enum.IsDefined(kind.Phone(read.Body)));
    }

    [Fact]
    public void Every_body_is_in_one_row()
    {
        var bodies = typeof(FactBody).Assembly.GetTypes()
            .Where(t => t is { IsAbstract: false } && t.IsAssignableTo(typeof(FactBody)) && t != typeof(UnreadBody));

        Assert.Equal(
            bodies.OrderBy(t => t.FullName, StringComparer.Ordinal),
            FactKinds.All.Select(k => k.Body).OrderBy(t => t.FullName, StringComparer.Ordinal));
        Assert.Equal(FactKinds.All.Count, FactKinds.All.Select(k => (k.Name, k.Version)).Distinct().Count());
    }

    [Fact]
    public void Versions_of_a_kind_agree_on_what_holds_for_the_kind() => Assert.All(FactKinds.All.GroupBy(k => k.Name), versions =>
    {
        Assert.Single(versions.Select(k => k.StatedBy).Distinct());
        Assert.Single(versions.Select(k => k.Reading).Distinct());
        Assert.Single(versions.Select(k => k.Reach).Distinct());
        Assert.Equal(Enumerable.Range(1, versions.Count()), versions.Select(k => k.Version).Order());
    });

    [Fact]
    public void What_nobody_knows_says_nothing() => Assert.Null(FactKinds.Words(new UnreadBody("a newer version")));
}

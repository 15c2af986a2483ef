using MicRegister.Server.Work;

namespace MicRegister.Server.Tests;

/// <summary>What was typed and not stored, kept by person and place.</summary>
public sealed class DraftShelfTests
{
    private readonly HandTime _time = new(new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero));

    [Fact]
    public void Each_person_finds_what_they_typed_at_a_place_and_nobody_elses()
    {
        var shelf = new DraftShelf(_time);
        shelf.Put("A", "plan 1", "first");
        _time.Now += TimeSpan.FromMinutes(1);
        shelf.Put("A", "plan 1", "second");
        shelf.Put("B", "plan 1", "other");

        Assert.Equal(("second", _time.Now), shelf.Of<string>("A", "plan 1"));
        Assert.Equal("other", shelf.Of<string>("B", "plan 1")!.Value.What);
        Assert.Null(shelf.Of<string>("A", "plan 2"));
        Assert.Null(shelf.Of<Uri>("A", "plan 1")); // of another shape
        shelf.Drop("A", "plan 1");
        Assert.Null(shelf.Of<string>("A", "plan 1"));
    }

    [Fact]
    public void The_oldest_goes_where_there_are_too_many()
    {
        var shelf = new DraftShelf(_time);
        for (var i = 0; i <= DraftShelf.Most; i++)
        {
            shelf.Put("A", $"place {i}", "text");
            _time.Now += TimeSpan.FromSeconds(1);
        }

        Assert.Null(shelf.Of<string>("A", "place 0"));
        Assert.NotNull(shelf.Of<string>("A", "place 1"));
    }
}

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What a few answers of a person who knows the list make of it; only counts are told.</summary>
public sealed class AnsweredTests(ITestOutputHelper output)
{
    [Fact]
    public void Three_answers_make_as_many_lists_whole_as_on_record()
    {
        var answered = Answered.Try(Shapes.All, 20260601);
        output.WriteLine(Answered.Told(answered));

        Assert.Equal(Shapes.All.Count * 12, answered.Count);
        Assert.Equal("", Floors.Held([.. answered.Select(a => a.AsTried)], "answered"));
    }

    [Fact]
    public void Three_answers_make_as_many_lists_whole_that_nobody_foresaw()
    {
        var answered = Answered.Try(LastShapes.All, 57_830_419);
        output.WriteLine(Answered.Told(answered));

        Assert.Equal(LastShapes.All.Count * 12, answered.Count);
        Assert.Equal("", Floors.Held([.. answered.Select(a => a.AsTried)], "answered-last"));
    }
}

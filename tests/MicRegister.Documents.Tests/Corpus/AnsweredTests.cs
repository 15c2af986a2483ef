namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What a few answers of a person who knows the list make of it; only counts are told.</summary>
public sealed class AnsweredTests(ITestOutputHelper output)
{
    [Fact]
    public void Three_answers_make_as_many_lists_whole_as_on_record()
    {
        // Each eighth shape: reading a list up to four times takes its time.
        List<Shape> some = [.. Shapes.All.Where((s, i) => Environment.GetEnvironmentVariable("CORPUS_SHAPES") is { } names
            ? names.Split(',').Any(n => s.Name.StartsWith(n, StringComparison.Ordinal)) : i % 8 == 0)];
        var answered = Answered.Try(some, 20260601);
        output.WriteLine(Answered.Told(answered));
        if (Environment.GetEnvironmentVariable("CORPUS_ANSWERS") is { } path) File.WriteAllText(path, Answered.Asked(answered));

        Assert.Equal(some.Count * 12, answered.Count);
        Assert.Equal("", Floors.Held([.. answered.Select(a => a.AsTried)], "answered"));
    }

    [Fact]
    public void Three_answers_make_as_many_lists_whole_that_nobody_foresaw()
    {
        var answered = Answered.Try(LastShapes.All, 71_905_263);
        output.WriteLine(Answered.Told(answered));

        Assert.Equal(LastShapes.All.Count * 12, answered.Count);
        Assert.Equal("", Floors.Held([.. answered.Select(a => a.AsTried)], "answered-last"));
    }
}

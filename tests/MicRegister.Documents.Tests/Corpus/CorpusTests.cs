namespace MicRegister.Documents.Tests.Corpus;

public sealed class CorpusTests(ITestOutputHelper output)
{
    [Fact]
    public void One_seed_gives_the_same_files_and_another_gives_others()
    {
        var files = CorpusFile.All(Shapes.All, 7).ToList();

        Assert.Equal(files.Select(f => f.Name), CorpusFile.All(Shapes.All, 7).Select(f => f.Name));
        Assert.All(files.Zip(CorpusFile.All(Shapes.All, 7)), p => Assert.Equal(p.First.Bytes, p.Second.Bytes));
        Assert.DoesNotContain(files.Zip(CorpusFile.All(Shapes.All, 8)), p => p.First.Bytes.AsSpan().SequenceEqual(p.Second.Bytes));
    }

    [Fact]
    public void Nothing_more_is_wrong_and_no_less_is_whole_than_on_record()
    {
        var tried = CorpusReport.Try(Shapes.All, 20260601);
        output.WriteLine(CorpusReport.Table(tried));
        if (Environment.GetEnvironmentVariable("CORPUS_REPORT") is { } path) File.WriteAllText(path, CorpusReport.Failures(tried));

        Assert.True(tried.Count > 1000, "the corpus has shrunk");
        Assert.Equal("", Floors.Held(tried));
    }

    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    public void Other_fleets_fare_no_worse_than_on_record(int seed)
    {
        var tried = CorpusReport.Try(Shapes.All, (ulong)seed * 1_000_000, every: 5);
        output.WriteLine(CorpusReport.Table(tried));

        Assert.Equal("", Floors.Held(tried, $"seed-{seed}"));
    }

    [Fact]
    public void Shapes_and_damages_have_names_of_their_own()
    {
        Assert.Equal(50, Shapes.All.Select(s => s.Name).Distinct().Count());
        Assert.Equal(Damages.All.Count, Damages.All.Select(d => d.Name).Distinct().Count());
        Assert.Empty(Damages.All.Select(d => d.Name).Except(CorpusFile.All(Shapes.All, 7).Select(f => f.Damage)));
    }
}

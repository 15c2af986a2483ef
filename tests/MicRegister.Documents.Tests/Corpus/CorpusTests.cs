using System.Globalization;

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
        if (Environment.GetEnvironmentVariable("CORPUS_FILES") is { } folder) CorpusReport.Write(tried, folder);

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
    public void A_reader_without_fault_is_whole_on_every_file()
    {
        CorpusFile[] files = [.. CorpusFile.All(Shapes.All, 7), .. CorpusFile.All(LastShapes.All, 8)];

        Assert.Empty(files.Where(f => Fault(f, ["a question"]).Fate != Fate.Whole).Select(f => f.Name));
        // Where nothing is for a person, nobody need be asked.
        var certain = files.Where(f => !f.Truth.NeedsPerson && f.Truth.DoubtfulSheets.Count == 0
            && f.Truth.Devices.All(d => !d.IsDoubtful)).ToList();
        Assert.True(certain.Count > 1000, "hardly any file is certain");
        Assert.Empty(certain.Where(f => Fault(f, []).Fate != Fate.Whole).Select(f => f.Name));

        static Verdict Fault(CorpusFile file, IReadOnlyList<string> questions) =>
            Comparer.Compare(file.Truth, Perfect.Of(file.Truth), questions, []);
    }

    [Fact]
    public void What_a_cell_means_is_what_it_shows()
    {
        var cells = CorpusFile.All([.. Shapes.All, .. LastShapes.All], 9).Where(f => f.Damage is null)
            .SelectMany(f => f.Draft.Grids.SelectMany(g => g.Lines).SelectMany(l => l.Cells)).ToList();
        var numbers = cells.Where(c => c.Means is [{ Value.Number: not null, What: not Said.Size }]).ToList();
        var names = cells.Where(c => c.Means
            .Any(m => m.What is Said.Maker or Said.Model or Said.Serial or Said.Code or Said.Place or Said.Lab))
            .ToList();

        Assert.True(numbers.Count > 10_000 && names.Count > 10_000, "hardly anything is said");
        Assert.Empty(numbers.Where(c => Number(c.Text) != c.Means[0].Value.Number || (c.Typed ?? Number(c.Text)) != Number(c.Text))
            .Select(c => c.Text));
        // A kind stands in the words of the language, and a day in the spelling of the list; what anything may be made of is no name.
        Assert.Empty(names.Where(c => c.Means.Any(m => m.What is not (Said.Kind or Said.Day) && m.Value != Stated.Anything
                && !c.Text.Contains(m.Value.Text ?? "", StringComparison.Ordinal)))
            .Select(c => c.Text));

        static double Number(string text) => double.Parse(text.Split(' ')[0].Replace(',', '.'), CultureInfo.InvariantCulture);
    }

    [Fact]
    public void Shapes_and_damages_have_names_of_their_own()
    {
        Assert.Equal(124, Shapes.All.Select(s => s.Name).Distinct().Count());
        Assert.Equal(Damages.All.Count, Damages.All.Select(d => d.Name).Distinct().Count());
        Assert.Empty(Damages.All.Select(d => d.Name).Except(CorpusFile.All(Shapes.All, 7).Select(f => f.Damage)));
    }
}

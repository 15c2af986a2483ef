namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What nobody foresaw: only the counts are told, so that no reader is made by them.</summary>
public sealed class LastShapeTests(ITestOutputHelper output)
{
    [Fact]
    public void Shapes_that_no_reader_was_made_by_fare_no_worse_than_on_record()
    {
        var tried = CorpusReport.Try(LastShapes.All, 71_905_263);
        output.WriteLine(CorpusReport.Table(tried));

        Assert.Equal(10, LastShapes.All.Count);
        Assert.Equal("", Floors.Held(tried));
    }
}

using MicRegister.Documents.Import;
using MicRegister.Register;

namespace MicRegister.Documents.Tests.Exports;

public sealed class FleetTablesTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 12)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void What_leaves_and_comes_back_changes_nothing(int seed)
    {
        var register = FactList.RegisterOf(new RandomFleet(seed).State().Facts);

        var (facts, rows) = Roundtrip.Import(register, Roundtrip.Csv(register));

        Assert.Empty(facts.Select(f => f.ToString()));
        Assert.All(rows, r => Assert.True(r.Sort == RowSort.AlreadyThere, $"{r.Sort}: {r.Text}"));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void An_empty_register_says_the_same_and_gives_the_same_files(int seed)
    {
        var register = FactList.RegisterOf(new RandomFleet(seed).State().Facts);
        var files = Roundtrip.Csv(register);

        var other = FactList.RegisterOf(Roundtrip.Import(Roundtrip.Empty, files).Facts);

        Assert.Equal(Roundtrip.Says(register), Roundtrip.Says(other));
        var again = Roundtrip.Csv(other);
        Assert.Equal(files.Select(f => f.Name), again.Select(f => f.Name));
        Assert.All(files.Zip(again), p => Assert.Equal(Text(p.First.Bytes), Text(p.Second.Bytes)));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_workbook_does_the_same(int seed)
    {
        var register = FactList.RegisterOf(new RandomFleet(seed).State().Facts);
        var workbook = Roundtrip.Workbook(register);

        Assert.Empty(Roundtrip.Import(register, ("r.xlsx", workbook)).Facts);
        var other = FactList.RegisterOf(Roundtrip.Import(Roundtrip.Empty, ("r.xlsx", workbook)).Facts);

        Assert.Equal(Roundtrip.Says(register), Roundtrip.Says(other));
        Assert.Equal(Roundtrip.Cells(workbook), Roundtrip.Cells(Roundtrip.Workbook(other)));
    }

    private static string Text(byte[] bytes) => System.Text.Encoding.UTF8.GetString(bytes);
}

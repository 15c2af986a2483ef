using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Server.Commands;
using MicRegister.Server.Imports;

namespace MicRegister.Server.Tests;

/// <summary>A person at a terminal answers what is asked together at once, or part by part.</summary>
public sealed class ImportDialogueTests
{
    private const string Columns = "Kind,Model,Serial,Zorp,Blick\nmic,A,1,Hall 9,gross\n";
    private const string Words = "Kind,Model,Serial,Status\nmic,A,1,grumpy\nmic,A,2,sleepy\n";

    private static readonly DateOnly Today = new(2026, 6, 1);

    [Theory]
    [InlineData(Columns, "1\n", "")]
    [InlineData(Columns, "3\n2\n\n", "column blick")]
    [InlineData(Words, "1\n2\n", "")]
    [InlineData(Words, "2\n\n", "word status sleepy")]
    [InlineData(Columns, "\n", "columns")]
    public async Task What_is_left_open_is_what_was_not_answered(string list, string typed, string open)
    {
        using var to = new StringWriter();

        var answer = await new ImportDialogue(new StringReader(typed), to).Ask(answers => Task.FromResult(Read(list, answers("f.csv"))));
        Assert.Equal(open, string.Join(',', Assert.Single(answer.Files).Questions.Select(q => q.Key)));
    }

    [Fact]
    public void A_command_is_told_an_option_for_each_part()
    {
        using var to = new StringWriter();
        ImportText.Write(Read(Columns, "").Files[0], everyRow: false, to);

        Assert.Contains("--answer '\"Zorp\" = noted' --answer '\"Blick\" = noted'", to.ToString(), StringComparison.Ordinal);
        Assert.Contains("Place: --answer '\"Blick\" = place'", to.ToString(), StringComparison.Ordinal);
    }

    private static ImportAnswer Read(string text, string legend)
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), Today);
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv",
            ImportMapping.Read(new StringReader(legend), "legend"));
        return new([ImportedFile.Of(report)], [], report.IsGood, null, Today, []);
    }
}

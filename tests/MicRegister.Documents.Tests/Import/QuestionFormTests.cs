using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Import;

/// <summary>What one act answers of a list is one question.</summary>
public sealed class QuestionFormTests
{
    private const string Unknown = "Kind,Model,Serial,Zorp,Blick\nmic,M1,71,Hall 2,gross\nmic,M1,72,Hall 3,klein\n";

    [Fact]
    public void Columns_that_nobody_understands_are_one_question_and_each_keeps_its_choices()
    {
        var asked = Assert.Single(Read(Unknown).Report.Questions);

        Assert.Equal(("columns", "", 2), (asked.Key, asked.Sheet, asked.Rows));
        Assert.Equal("2 columns are not understood: 'Zorp' (Hall 2), 'Blick' (gross). What do they hold?", asked.Text);
        Assert.Equal(["column zorp", "column blick"], asked.Parts.Select(p => p.Key));
        Assert.Equal([["Hall 2", "Hall 3"], ["gross", "klein"]], asked.Parts.Select(p => p.Examples));
        Assert.All(asked.Parts, p => Assert.Contains(p.Choices, c => c.Rule == $"\"{p.Name}\" = place"));
    }

    [Theory]
    [InlineData(0, new[] { "Zorp: Hall 2", "Blick: gross" })]
    [InlineData(1, new string[0])]
    public void One_answer_sets_all_of_them_aside(int choice, string[] notes)
    {
        var asked = Assert.Single(Read(Unknown).Report.Questions);

        var (report, register) = Read(Unknown, asked.RuleOf(asked.Choices[choice]));
        Assert.True(report.IsGood);
        Assert.Equal(notes, Device(register, "71").Notes.Select(n => n.What.Text));
    }

    [Fact]
    public void What_is_said_of_one_column_goes_before_what_is_said_of_the_rest()
    {
        var asked = Assert.Single(Read(Unknown).Report.Questions);

        var (report, register) = Read(Unknown, asked.Together(asked.Choices[0], ["\"Zorp\" = place"]));
        Assert.True(report.IsGood);
        Assert.Equal("Hall 2", Device(register, "71").Place);
        Assert.Equal("Blick: gross", Assert.Single(Device(register, "71").Notes).What.Text);
    }

    [Fact]
    public void What_is_left_open_is_asked_again()
    {
        var asked = Assert.Single(Read(Unknown).Report.Questions);

        Assert.Equal("column blick", Assert.Single(Read(Unknown, asked.Together(null, ["\"Zorp\" = place"])).Report.Questions).Key);
    }

    [Fact]
    public void Words_that_nobody_knows_are_one_question()
    {
        const string Text = "Kind,Serial,Status\ngizmo,71,sleepy\nmic,72,sleepy\nmic,73,grumpy\n";
        var asked = Assert.Single(Read(Text).Report.Questions);

        Assert.Equal(("words", 3), (asked.Key, asked.Rows));
        Assert.Equal(["word kind gizmo", "word status sleepy", "word status grumpy"], asked.Parts.Select(p => p.Key));
        Assert.Empty(asked.Choices);
        var (report, register) = Read(Text, asked.Together(null, ["word kind \"gizmo\" := cable", "word status \"sleepy\" := away",
            "word status \"grumpy\" := lost"]));
        Assert.True(report.IsGood);
        Assert.Equal(("cable", DeviceStatus.Away), (Device(register, "71").Kind, Device(register, "71").Status));
        Assert.Equal(DeviceStatus.Lost, Device(register, "73").Status);
    }

    [Fact]
    public void Columns_of_two_sheets_are_answered_together_each_for_its_own()
    {
        ImportQuestion Part(string header, string sheet) => new ImportQuestion($"column {header}", sheet, "?",
            [new("note", $"\"{header}\" = noted"), new("out", $"\"{header}\" = left-out")])
        { Name = header };

        var form = Assert.Single(QuestionForms.Of([Part("a", "One"), Part("b", "Two")]));
        Assert.Equal("[sheet One] \"a\" = noted\n[sheet Two] \"b\" = noted", form.RuleOf(form.Choices[0]));
        Assert.Equal("[sheet Two] \"b\" = noted\n[sheet One] \"a\" = model", form.Together(form.Choices[0], ["[sheet One] \"a\" = model"]));
    }

    [Fact]
    public void A_question_that_cannot_be_set_aside_stays_one_of_its_own()
    {
        ImportQuestion[] asked =
        [
            new("column a", "", "In which unit is 'a'?", [new("dB", "\"a\" = value [dB]")]),
            new("column b", "", "?", [new("note", "\"b\" = noted"), new("out", "\"b\" = left-out")]),
        ];

        Assert.Equal(asked, QuestionForms.Of(asked));
    }

    private static (FileReport Report, Register.Register Register) Read(string text, string legend = "")
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), new DateOnly(2026, 6, 1));
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv",
            ImportMapping.Read(new StringReader(legend), "legend"));
        return (report, FactList.RegisterOf([.. session.Facts]));
    }

    private static DeviceState Device(Register.Register register, string serial) =>
        register.DeviceIds.Select(id => register.Device(id)!).Single(d => d.Serial == serial);
}

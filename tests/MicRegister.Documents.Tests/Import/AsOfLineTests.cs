using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Documents.Tests.Import;

/// <summary>The day as of which a list speaks by a line above it, and states of use that are held as of that day.</summary>
public sealed class AsOfLineTests
{
    private const string Table = "Kind,Model,Serial,Location\nmic,A-12,101,Hall 1\n";

    private static readonly DateOnly Today = new(2026, 6, 1);
    private static readonly string Device101 = DeviceIdentity.IdOf("microphone", null, "A-12", "101");

    [Theory]
    [InlineData("Status as of 2025-03-01")]
    [InlineData("\"Inventory, as of 1 March 2025\"")]
    [InlineData("Microphones (as at 1 Mar 2025)")]
    [InlineData("Stand: 1.3.2025")]
    [InlineData("Stand,1.3.2025")]
    [InlineData("Inventarliste – Stand vom 01.03.2025")]
    [InlineData("État au 1er mars 2025")]
    [InlineData("Estado a 1/3/2025,,13/4/2024")]
    public void A_line_above_a_table_tells_the_day_of_the_list(string line)
    {
        // The last one needs a date that settles the order.
        var table = line.EndsWith("2024", StringComparison.Ordinal)
            ? "Kind,Model,Serial,Location,Inspected,Passed\nmic,A-12,101,Hall 1,13/4/2024,yes\n" : Table;

        var (_, report) = Take(line.Split(",,")[0] + "\n\n" + table);

        Assert.True(report.IsGood, string.Join(' ', report.Questions.Select(q => q.Text)));
        Assert.Equal((new DateOnly(2025, 3, 1), false, true), (report.AsOf!.Day, report.AsOf.IsStated, report.AsOf.IsOfLine));
        Assert.EndsWith("as a line above its table says", report.AsOf.InWords, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Microphone stands 1.3.2025")]
    [InlineData("Printed 1.3.2025")]
    [InlineData("Stand A1")]
    public void Other_lines_tell_no_day(string line) => Assert.Null(Take(line + "\n\n" + Table).Report.AsOf);

    [Fact]
    public void What_somebody_states_goes_before_the_line() => Assert.Equal(
        new AsOfDay(new(2025, 6, 30), true), Take("Stand: 1.3.2025\n\n" + Table, "as-of := 2025-06-30").Report.AsOf);

    [Fact]
    public void An_older_list_by_its_line_puts_nothing_back()
    {
        var (newer, _) = Take("Stand: 1.3.2025\n\n" + Table);

        var (after, report) = Take("Stand: 1.2.2025\n\n" + Table.Replace("Hall 1", "Van", StringComparison.Ordinal),
            into: Stored(newer, new(2025, 3, 1)));

        Assert.Equal(RowSort.NewerStands, report.Outcomes[^1].Sort);
        Assert.Equal("Hall 1", after.Device(Device101)!.Place);
    }

    [Theory]
    [InlineData("Stand: 03/04/2025", "", "2025-03-04 2025-04-03")]
    [InlineData("Stand: März 2025", "", "2025-03-01 2025-03-31")]
    [InlineData("Stand: 1.3.2025", "2025-05-04", "2025-03-01 2025-05-04")] // younger than the line
    public void A_line_that_leaves_the_day_open_is_asked_once(string line, string inspected, string days)
    {
        var text = $"{line}\n\nKind,Model,Serial,Location,Inspected,Passed\nmic,A-12,101,Hall 1,{inspected},{(inspected.Length > 0 ? "yes" : "")}\n";

        var asked = Assert.Single(Take(text).Report.Questions);

        Assert.Equal(days.Split(' ').Select(d => "as-of := " + d), asked.Choices.Select(c => asked.RuleOf(c)));
        Assert.All(asked.Choices, c => Assert.True(Take(text, asked.RuleOf(c)).Report.IsGood));
    }

    // The register that knows no state at all took a list over before this was kept.
    [Fact]
    public void In_service_of_a_newer_list_stands_against_an_older_one_that_says_lost()
    {
        const string Newer = "Kind,Model,Serial,Status,Date,Sensitivity\nmic,A-12,101,in service,2025-03-01,12.5 mV/Pa\n";
        const string Older = "Kind,Model,Serial,Status,Date,Sensitivity\nmic,A-12,101,lost,2024-03-01,12.5 mV/Pa\n";

        var (register, first) = Take(Newer);
        Assert.Equal(RowSort.New, first.Outcomes[0].Sort);
        var stored = Stored(register, new(2025, 3, 1));
        var (after, report) = Take(Older, into: stored);

        Assert.Contains("newer: in service as of 2025-03-01 stands", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Equal(DeviceStatus.InService, after.Device(Device101)!.Status);
        Assert.Equal(0, Take(Newer, into: stored).Register.Count - stored.Count);
        // A list that says nothing of it holds nothing against the older one.
        var silent = Stored(Take(Newer.Replace("in service", "", StringComparison.Ordinal)).Register, new(2025, 3, 1));
        Assert.Equal(DeviceStatus.Lost, Take(Older, into: silent).Register.Device(Device101)!.Status);
    }

    [Fact]
    public void A_known_device_is_held_in_service_by_a_list_that_brings_something_and_by_no_list_twice()
    {
        const string Newer = "Kind,Model,Serial,Status,Date,Sensitivity\nmic,A-12,101,in service,2025-03-01,12.5 mV/Pa\n";
        var known = Take("Kind,Model,Serial\nmic,A-12,101\n").Register;

        var (after, _) = Take(Newer, into: known);

        Assert.Equal("2025-03-01", Assert.Single(after.Device(Device101)!.Statuses)
            .Day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(after.Count, Take(Newer, into: after).Register.Count);
        Assert.Contains(
            "newer: in service since 2025-03-01", Take("Serial,Status,Date,Sensitivity\n101,lost,2024-03-01,12.5 mV/Pa\n", into: after)
                .Report.Outcomes[0].Text, StringComparison.Ordinal);
        // As an earlier release took it over: all of it is there but the state.
        var earlier = Take(Newer.Replace("in service", "", StringComparison.Ordinal), into: known).Register;
        Assert.Equal(earlier.Count, Take(Newer, into: earlier).Register.Count);
    }

    private static Register.Register Stored(Register.Register register, DateOnly asOf)
    {
        List<Fact> facts = [.. Enumerable.Range(1, register.Count).Select(register.Source.Read)];
        var digest = facts.Aggregate(default(SetDigest), (sum, f) => sum.With(f.Bytes.Span));
        Assert.True(Occurred.TryParse("2026-05-20T08:00:00.000Z", out var at));
        var accepted = new ImportAccepted("list.csv", new string('0', 64), 2, facts.Count, digest.ToString()) { AsOf = asOf };
        return FactList.RegisterOf([.. facts, FactText.WriteDerived(new(at, "ada", "command", 1), accepted, [Subject.TheRegister])]);
    }

    private static (Register.Register Register, FileReport Report) Take(string text, string rules = "", Register.Register? into = null)
    {
        var register = into ?? Register.Register.Empty(new FactList());
        var session = new ImportSession(register, Today);
        var report = session.Take(
            new MemoryStream(Encoding.UTF8.GetBytes(text)), "list.csv", ImportMapping.Read(new StringReader(rules), "rules"));
        return (FactList.RegisterOf([.. Enumerable.Range(1, register.Count).Select(register.Source.Read), .. session.Facts]), report);
    }
}

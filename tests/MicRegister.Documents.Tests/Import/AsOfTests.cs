using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Documents.Tests.Import;

public sealed class AsOfTests
{
    private const string Old = "Kind,Model,Serial,Size,Location,Status,Date,Sensitivity\n"
        + "mic,A-12,101,12.7,Hall 1,in service,2024-11-02,12.5 mV/Pa\n"
        + "mic,A-12,102,12.7,Hall 1,in service,2024-11-30,12.5 mV/Pa\n";

    private static readonly DateOnly Today = new(2026, 6, 1);
    private static readonly string Device101 = DeviceIdentity.IdOf("microphone", null, "A-12", "101");

    [Fact]
    public void An_old_list_taken_over_again_does_not_put_newer_facts_back()
    {
        var (before, _, _) = Import(Old);
        var lost = Said(before, "2026-05-04", new DeviceStatusChanged(DeviceStatus.Lost, null));

        var (after, report, facts) = Import(Old, lost);

        Assert.Empty(facts);
        Assert.Equal(DeviceStatus.Lost, after.Device(Device101)!.Status);
        Assert.Equal([RowSort.NewerStands, RowSort.AlreadyThere], report.Outcomes.Select(o => o.Sort));
        Assert.EndsWith("newer: lost since 2026-05-04 stands", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Equal((1, new AsOfDay(new(2024, 11, 30), false), false), (report.Newer, report.AsOf, report.AsksAsOf));
    }

    [Fact]
    public void A_change_that_is_taken_belongs_to_the_day_of_the_list()
    {
        var (before, _, _) = Import("Kind,Model,Serial,Size,Location\nmic,A-12,101,6.35,Van\n");

        var (after, report, facts) = Import(Old, before);

        Assert.Equal(RowSort.Changed, report.Outcomes[0].Sort);
        Assert.Equal(
            [("device-described", "2024-11-30"), ("device-moved", "2024-11-30")],
            facts.Where(f => f.Subjects[0] == Subject.Device(Device101) && f.Kind is "device-described" or "device-moved")
                .Where(f => f.Occurred != Occurred.Unknown).Select(f => (f.Kind, f.Occurred.ToString())));
        Assert.Equal(("Hall 1", 12.7), (after.Device(Device101)!.Place, after.Device(Device101)!.Number(DeviceField.SizeMm)));
        Assert.Null(after.Device(Device101, new(2024, 11, 29))!.Places.FirstOrDefault(p => p.What.Place == "Hall 1"));
    }

    [Fact]
    public void Each_part_of_a_row_is_held_against_the_day_of_what_stands()
    {
        var (before, _, _) = Import("Kind,Model,Serial,Size,Location\nmic,A-12,101,6.35,Van\n");
        var moved = Said(before, "2026-05-04T10:00:00.000Z", new DeviceMoved("Laboratory"));

        var (after, report, _) = Import(Old, moved);

        Assert.Equal(RowSort.Changed, report.Outcomes[0].Sort);
        Assert.Contains("size-mm 6.35 → 12.7", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Contains("newer: place Laboratory since 2026-05-04 10:00 UTC stands", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.True(report.Outcomes[0].NewerStands);
        Assert.Equal(("Laboratory", 12.7), (after.Device(Device101)!.Place, after.Device(Device101)!.Number(DeviceField.SizeMm)));
        Assert.Single(after.Device(Device101)!.Certificates);
    }

    [Fact]
    public void A_detail_that_was_found_wrong_later_does_not_come_back()
    {
        var (before, _, _) = Import(Old);
        var cleared = Said(before, "2025-02-01", new DeviceDescribed([], [DeviceField.SizeMm.Key]));

        var (after, report, _) = Import(Old, cleared);

        Assert.Contains("not known since 2025-02-01 stands", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Null(after.Device(Device101)!.Number(DeviceField.SizeMm));
    }

    // The day itself is not later; an hour of it is, since a bare day counts from its begin.
    [Theory]
    [InlineData("2024-11-29", "Hall 1")]
    [InlineData("2024-11-30", "Hall 1")]
    [InlineData("2024-11-30T00:00:00.001Z", "Laboratory")]
    [InlineData("2024-12-01", "Laboratory")]
    public void What_stands_is_newer_from_the_moment_after_the_list(string when, string place)
    {
        var moved = Said(Import(Old).Register, when, new DeviceMoved("Laboratory"));

        var (after, report, _) = Import(Old, moved);

        Assert.Equal(place, after.Device(Device101)!.Place);
        Assert.Equal(place == "Laboratory" ? RowSort.NewerStands : RowSort.Changed, report.Outcomes[0].Sort);
    }

    [Fact]
    public void A_day_that_a_person_states_goes_before_the_newest_date()
    {
        var lost = Said(Import(Old).Register, "2026-05-04", new DeviceStatusChanged(DeviceStatus.Lost, null));

        var (after, report, facts) = Import(Old, lost, ImportMapping.None with { AsOf = new(2026, 5, 31) });

        Assert.Equal(DeviceStatus.InService, after.Device(Device101)!.Status);
        Assert.Equal("2026-05-31", Assert.Single(facts).Occurred.ToString());
        Assert.Equal(new AsOfDay(new(2026, 5, 31), true), report.AsOf);
    }

    [Fact]
    public void A_list_without_a_date_is_asked_before_it_changes_anything()
    {
        const string Undated = "Serial,Location,Owner\n101,Van,\n102,Hall 1,House\n";
        var (before, _, _) = Import(Old);

        var (after, report, facts) = Import(Undated, before);

        Assert.Equal([RowSort.Questioned, RowSort.Changed], report.Outcomes.Select(o => o.Sort));
        Assert.StartsWith("As of which day does this list speak?", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Equal(("Location", "Van"), (report.Outcomes[0].Header, report.Outcomes[0].Value));
        Assert.True(report.AsksAsOf);
        Assert.False(report.IsGood);
        Assert.Single(facts);
        Assert.Equal("Hall 1", after.Device(Device101)!.Place);

        var (told, answered, _) = Import(Undated, before, ImportMapping.None with { AsOf = new(2025, 1, 1) });
        Assert.True(answered.IsGood);
        Assert.Equal("Van", told.Device(Device101)!.Place);
    }

    [Fact]
    public void A_list_without_a_date_that_changes_nothing_is_not_asked()
    {
        const string Undated = "Kind,Model,Serial,Location\nmic,A-12,101,Hall 1\nmic,A-12,103,Van\nmic,A-12,103,Van\n";

        var (_, report, _) = Import(Undated, Import(Old).Register);

        Assert.True(report.IsGood);
        Assert.False(report.AsksAsOf);
        Assert.Null(report.AsOf);
    }

    [Fact]
    public void Neither_due_days_nor_days_to_come_nor_years_say_as_of_which_day_a_list_speaks()
    {
        const string Text = "Serial,Date,Sensitivity,Due,2023\n"
            + "101,2024-03-01,12.5 mV/Pa,2026-03-01,\n102,2027-01-01,12.5 mV/Pa,,12.5 mV/Pa\n";

        Assert.Equal(new AsOfDay(new(2024, 3, 1), false), Import(Text, Import(Old).Register).Report.AsOf);
        Assert.Equal(
            new AsOfDay(new(2024, 4, 2), false), Import("Serial,Inspected,Passed\n101,2024-04-02,yes\n", Import(Old).Register).Report.AsOf);
    }

    [Fact]
    public void The_newest_date_counts_wherever_it_stands()
    {
        const string Text = "Serial,Date,Sensitivity\n101,2024-03-01,12.5 mV/Pa\n102,2023-01-01,12.5 mV/Pa\n";

        Assert.Equal(new DateOnly(2024, 3, 1), Import(Text, Import(Old).Register).Report.AsOf!.Day);
    }

    [Fact]
    public void A_device_that_is_new_in_a_list_without_a_date_is_told_by_several_rows()
    {
        var (after, report, _) = Import("Kind,Model,Serial,Status\nmic,A-12,9,\nmic,A-12,9,lost\n", Import(Old).Register);

        Assert.True(report.IsGood);
        Assert.Equal(DeviceStatus.Lost, after.Device(DeviceIdentity.IdOf("microphone", null, "A-12", "9"))!.Status);
    }

    [Fact]
    public void A_list_cannot_speak_as_of_a_day_to_come()
    {
        var mapping = ImportMapping.Read(new StringReader("as-of := 2026-06-02"), "m");

        var ahead = Assert.Throws<SheetException>(() => Import(Old, null, mapping));
        Assert.Contains("cannot speak as of 2026-06-02", ahead.Message, StringComparison.Ordinal);
        var wrong = Assert.Throws<SheetException>(() => ImportMapping.Read(new StringReader("as-of := last week"), "m"));
        Assert.Contains("allowed is a day such as 2024-11-30", wrong.Message, StringComparison.Ordinal);
    }

    // Rows without a date were said by a list; that list has a day.
    [Theory]
    [InlineData("2026-03-01", RowSort.NewerStands, "newer: place Hall 1 as of 2026-03-01 stands")]
    [InlineData("2024-12-31", RowSort.Changed, "place Hall 1 → Van")]
    public void What_a_list_said_without_a_date_is_as_old_as_that_list(string day, RowSort sort, string words)
    {
        var before = Stored(Import(Old).Facts, DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture));

        var (_, report, _) = Import("Serial,Location\n101,Van\n", before, ImportMapping.None with { AsOf = new(2025, 1, 1) });

        Assert.Equal(sort, Assert.Single(report.Outcomes).Sort);
        Assert.Contains(words, report.Outcomes[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_day_of_the_list_the_day_of_taking_it_over_counts()
    {
        var before = Stored(Import("Kind,Model,Serial,Location\nmic,A-12,101,Hall 1\n").Facts, null);

        var (_, report, _) = Import("Serial,Location\n101,Van\n", before, ImportMapping.None with { AsOf = new(2025, 1, 1) });

        Assert.Contains("newer: place Hall 1 taken over 2026-05-20 stands", Assert.Single(report.Outcomes).Text, StringComparison.Ordinal);
    }

    // The demo is judged as of a day of its own, before that of the clock.
    [Fact]
    public void Where_the_day_was_told_a_list_of_that_day_still_changes_what_was_taken_over()
    {
        var before = Stored(Import("Kind,Model,Serial,Location\nmic,A-12,101,Hall 1\n").Facts, null);
        var told = new DateOnly(2026, 5, 4);
        var session = new ImportSession(before, told);

        var report = session.Take(
            new MemoryStream("Serial,Location\n101,Van\n"u8.ToArray()), "f.csv", ImportMapping.None with { AsOf = told });

        Assert.Equal(RowSort.Changed, Assert.Single(report.Outcomes).Sort);
    }

    [Fact]
    public void Where_nothing_else_tells_the_day_of_the_record_counts()
    {
        var before = Import("Kind,Model,Serial,Location\nmic,A-12,101,Hall 1\n").Register;
        var session = new ImportSession(before, Today, recorded: _ => new(2026, 2, 3));

        var report = session.Take(
            new MemoryStream("Serial,Location\n101,Van\n"u8.ToArray()), "f.csv", ImportMapping.None with { AsOf = new(2025, 1, 1) });

        Assert.Contains("newer: place Hall 1 recorded 2026-02-03 stands", Assert.Single(report.Outcomes).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_two_lists_of_one_import_the_newer_one_stands()
    {
        var session = new ImportSession(Import(Old).Register, Today);
        foreach (var (text, day) in new[] { ("Serial,Location\n101,Van\n", 9), ("Serial,Location,Note\n101,Roof,x\n", 5) })
        {
            var report = session.Take(
                new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", ImportMapping.None with { AsOf = new(2025, day, 1) });
            if (day == 5)
                Assert.Contains("an earlier row of this import says otherwise", report.Outcomes[0].Text, StringComparison.Ordinal);
        }
        var last = session.Take(
            new MemoryStream("Serial,Location,Why,Checked\n101,Roof,,yes\n"u8.ToArray()), "g.csv",
            ImportMapping.None with { AsOf = new(2025, 5, 1) });
        Assert.Contains("newer: place Van as of 2025-09-01 stands", Assert.Single(last.Outcomes).Text, StringComparison.Ordinal);
    }

    private static Register.Register Said(Register.Register register, string when, FactBody body)
    {
        Assert.True(Occurred.TryParse(when, out var occurred));
        return With(register, FactText.WriteDerived(new(occurred, "ada", "desk", 9), body, [Subject.Device(Device101)]));
    }

    // As the server stores an import: the facts, then what says so.
    private static Register.Register Stored(IReadOnlyList<Fact> facts, DateOnly? asOf)
    {
        var digest = facts.Aggregate(default(SetDigest), (sum, f) => sum.With(f.Bytes.Span));
        Assert.True(Occurred.TryParse("2026-05-20T08:00:00.000Z", out var at));
        var accepted = new ImportAccepted("old.csv", new string('0', 64), 2, facts.Count, digest.ToString()) { AsOf = asOf };
        return FactList.RegisterOf([.. facts, FactText.WriteDerived(new(at, "ada", "command", 1), accepted, [Subject.TheRegister])]);
    }

    private static Register.Register With(Register.Register register, params Fact[] more) =>
        FactList.RegisterOf([.. Enumerable.Range(1, register.Count).Select(register.Source.Read), .. more]);

    private static (Register.Register Register, FileReport Report, IReadOnlyList<Fact> Facts) Import(
        string text, Register.Register? onto = null, ImportMapping? mapping = null)
    {
        var before = onto ?? Register.Register.Empty(new FactList());
        var session = new ImportSession(before, Today);
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", mapping ?? ImportMapping.None);
        return (With(before, [.. session.Facts]), report, session.Facts);
    }
}

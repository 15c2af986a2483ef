using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using static MicRegister.Documents.Tests.Import.SmallList;

namespace MicRegister.Documents.Tests.Import;

/// <summary>What keeps a list from being read as something that it is not. All lists are invented.</summary>
public sealed class ListGuardTests
{
    private const string Two = "mic,M1,71,2025-03-01,50.1 mV/Pa\nmic,M1,72,2025-03-02,50.2 mV/Pa\n";

    // "Value" beside a currency is a price, however much it looks like results with their decimals.
    [Theory]
    [InlineData("Value (EUR)")]
    [InlineData("Wert in CHF")]
    [InlineData("Valeur €")]
    public void Money_is_left_out_and_is_no_second_result(string header)
    {
        var (report, register) = Read($"Kind,Model,Serial,Date,Result,{header}\n" + Rows(Two, ",48.25", ",49.75"));

        Assert.True(report.IsGood, Told(report));
        Assert.Equal(50.1, Assert.Single(Device(register, "71").Certificates).Issued.Results[0].Value);
    }

    [Fact]
    public void Money_alone_is_no_result() =>
        Assert.Empty(Device(Read("Kind,Model,Serial,Date,Value [EUR]\nmic,M1,71,2025-03-01,48.25\nmic,M1,72,2025-03-02,49.75\n",
            "days-without-results := keep").Register, "71").Certificates.Single().Issued.Results);

    // The second card says no laboratory and no place: those of the first are not its own.
    [Fact]
    public void A_card_forgets_what_the_one_before_said()
    {
        var register = Good("Kind:,mic,Model:,M1,Serial no.:,71,Place:,Hall 2\nDate,Result\n2025-03-01,50.1 mV/Pa\n"
            + "Kind:,mic,Model:,M1,Serial no.:,72\nDate,Result\n2025-04-01,50.2 mV/Pa\n");

        Assert.Equal(("Hall 2", null), (Device(register, "71").Place, Device(register, "72").Place));
    }

    [Fact]
    public void A_card_whose_number_nobody_understands_gives_its_results_to_no_other()
    {
        const string Text = "Kind:,mic,Model:,M1,Zorp:,A-71\nDate,Result\n2025-03-01,50.1 mV/Pa\n"
            + "Kind:,mic,Model:,M1,Zorp:,A-72\nDate,Result\n2025-04-01,50.2 mV/Pa\n";
        var (report, register) = Read(Text);

        Assert.Empty(register.DeviceIds);
        Assert.Contains("column zorp", Parts(report));
        (report, register) = Read(Text, "Zorp = serial");
        Assert.True(report.IsGood, Told(report));
        Assert.Equal(new DateOnly(2025, 4, 1), Assert.Single(Device(register, "A-72").Certificates).Day);
    }

    [Fact]
    public void A_card_without_a_number_that_is_understood_does_not_speak_of_the_one_before()
    {
        var (report, register) = Read("Kind:,mic,Model:,M1,Serial:,A-71\nDate,Result\n2025-03-01,50.1 mV/Pa\n"
            + "Kind:,mic,Model:,M1,Zorp:,A-72\nDate,Result\n2025-04-01,50.2 mV/Pa\n");

        Assert.Contains("column zorp", Parts(report));
        Assert.All(register.DeviceIds, id => Assert.DoesNotContain(register.Device(id)!.Certificates, c => c.Day.Month == 4));
    }

    // Titles that are kinds stand above the columns of each; without them "Model" would stand twice.
    [Fact]
    public void Titles_of_kinds_part_two_columns_of_one_header()
    {
        var register = Good(",Microphone,,,Preamplifier,\nZorp,Model,Serial no.,Place,Model,Serial no.\n"
            + "a,M1,71,Hall 2,P1,31\nb,M1,72,Hall 3,P1,32\n", "Zorp = left-out\n\"Microphone Place\" = place");

        Assert.Equal(("M1", "microphone"), (Device(register, "71").Model, Device(register, "71").Kind));
        Assert.Equal(("P1", "preamplifier"), (Device(register, "31").Model, Device(register, "31").Kind));
    }

    // Cards with a header of their own each: the line of a card is made of words, and is no header of a further table.
    [Fact]
    public void The_line_of_a_card_is_no_header_of_the_next_table()
    {
        var register = Good("Kind:,mic,Model:,M1,Serial:,71\nDate,Result,Laboratory\n2025-03-01,50.1 mV/Pa,House\n"
            + "Kind:,mic,Model:,M1,Serial:,Kapsel\nDate,Result,Laboratory\n2025-04-01,50.2 mV/Pa,House\n");

        Assert.Equal(["71", "Kapsel"], register.DeviceIds.Select(id => register.Device(id)!.Serial).Order(StringComparer.Ordinal));
    }

    // "INV-A | microphone | place" is made of words of headers: under the columns of names it is a device.
    [Fact]
    public void A_row_of_words_that_names_a_device_begins_no_table()
    {
        var register = Good("Kind,Model,Serial,Place\nmic,M1,71,Hall 2\nmicrophone,Type,Serial,Store\nmic,M1,73,Hall 4\n");

        Assert.Equal(["71", "73", "Serial"], register.DeviceIds.Select(id => register.Device(id)!.Serial).Order(StringComparer.Ordinal));
    }

    // Of two columns of days that both lie a year after the calibrations nobody knows which one is the due day.
    [Fact]
    public void Of_two_days_that_may_be_due_neither_is_taken()
    {
        var rows = Rows(Two, ",2026-03-01,2026-03-05", ",2026-03-02,2026-03-06");
        var (report, register) = Read("Kind,Model,Serial,Date,Result,Zorp,Blift\n" + rows);

        Assert.Equal(["column zorp", "column blift"], Parts(report));
        Assert.All(register.DeviceIds, id => Assert.All(register.Device(id)!.Certificates, c => Assert.Null(c.Issued.DueDay)));
        register = Read("Kind,Model,Serial,Date,Result,Zorp\n" + Rows(Two, ",2026-03-01", ",2026-03-02")).Register;
        Assert.Equal(new DateOnly(2026, 3, 1), Assert.Single(Device(register, "71").Certificates).Issued.DueDay);
    }

    // The first table may hold the codes of its devices under a word that nobody knows; the second knows them by their codes alone.
    [Fact]
    public void A_table_of_codes_waits_while_the_codes_of_another_are_open()
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"mic,M1,{n}00,I-{n}\n"));
        var text = "Kind,Model,Serial,Zorp\n" + rows + "Log of repairs\nInventory no.,Kind,State,Place\nI-1,mic,broken,Hall 2\n";
        var (report, register) = Read(text);

        Assert.Contains("column zorp", Parts(report));
        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Serial is null);
        register = Read(text, "Zorp = inventory-code").Register;
        Assert.Equal(("100", "Hall 2"), (Device(register, "100").Serial, Device(register, "100").Place));
    }

    [Fact]
    public void What_has_no_bearing_is_kept_as_a_note_and_asks_nothing()
    {
        var register = Good("Kind,Maker,Model,Serial,Inventory no.,Status,Place,Date,Next calibration,Result,U [dB],Laboratory,"
            + "Certificate no.,Zorp,Blift\nmic,Orlevik,M1,71,I-1,ok,Hall 2,2025-03-01,2026-03-01,50.1 mV/Pa,0.1,House,C-1,red,yes\n"
            + "mic,Orlevik,M1,72,I-2,ok,Hall 2,2025-03-02,2026-03-02,50.2 mV/Pa,0.1,House,C-2,blue,no\n");

        Assert.Contains("Zorp: red", Device(register, "71").Notes.Select(n => n.What.Text));
    }

    [Fact]
    public void The_day_of_a_word_that_nobody_knows_is_no_day_of_calibration()
    {
        var (report, register) = Read("Kind,Model,Serial,Date of zorping,Result\n" + Two);

        Assert.Contains("column date of zorping", Parts(report));
        Assert.All(register.DeviceIds, id => Assert.Empty(register.Device(id)!.Certificates));
    }

    [Fact]
    public void A_person_who_says_what_a_column_of_one_kind_holds_says_it_of_that_kind()
    {
        var (_, register) = Read("Mic S/N,Mic model,Preamp Zorp,Preamp model\n71,M1,A-31,P1\n72,M1,A-32,P1\n", "\"Preamp Zorp\" = serial");

        Assert.Equal(("preamplifier", "P1"), (Device(register, "A-31").Kind, Device(register, "A-31").Model));
        Assert.Equal("microphone", Device(register, "71").Kind);
    }

    private static string Rows(string rows, string first, string second)
    {
        var lines = rows.Split('\n');
        return $"{lines[0]}{first}\n{lines[1]}{second}\n";
    }
}

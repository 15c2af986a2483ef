using MicRegister.Documents.Import;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using static MicRegister.Documents.Tests.Import.SmallList;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Where two readings of a list contend, a person is asked, and where one of them is certain,
/// it is taken. All lists are invented.</summary>
public sealed class ContendingColumnTests
{
    private const string Mics = "mic,M1,71,2025-03-01,50.1 mV/Pa\nmic,M1,72,2025-03-02,50.2 mV/Pa\n";

    // Each of these was taken for something else before, so that a wrong value would have been stored.
    [Theory]
    [InlineData("Kind,Model,Serial,Date,Result,Last calibration\n", ",2024-01-01", "column date,column last calibration")]
    [InlineData("Kind,Model,Serial,Date,Valeur avant,Valeur\n", ",49.9 mV/Pa", "column valeur avant")]
    [InlineData("Kind,Model,Serial,Date,Wert alt,Wert neu\n", ",50.9 mV/Pa", "column wert alt,column wert neu")]
    [InlineData("Kind,Reference,Serial,Date,Result\n", "", "column reference")]
    [InlineData("Kind,Model,Serial,Date,Result,Antes de\n", ",2026-03-01", "column antes de")]
    public void What_contends_is_asked(string header, string more, string keys)
    {
        var report = Read(header + Mics.Replace("\n", more + "\n", StringComparison.Ordinal)).Report;

        Assert.Equal(keys.Split(','), Parts(report).Where(k => k.StartsWith("column", StringComparison.Ordinal)));
    }

    [Fact]
    public void No_row_is_taken_while_two_columns_may_hold_its_day_and_one_answer_settles_both()
    {
        var text = "Kind,Model,Serial,Date,Result,Last calibration\n"
            + Mics.Replace("\n", ",2024-01-01\n", StringComparison.Ordinal);
        var (report, register) = Read(text);

        Assert.Empty(register.DeviceIds);
        var asked = Assert.Single(report.Questions);
        (report, register) = Read(text, asked.Together(asked.Choices[1], ["\"Date\" = day"]));
        Assert.True(report.IsGood);
        Assert.Equal(new DateOnly(2025, 3, 1), Assert.Single(Device(register, "71").Certificates).Day);
    }

    [Theory]
    [InlineData("Per day (EUR)")]
    [InlineData("Replacement value [EUR]")]
    [InlineData("Wert in CHF")]
    [InlineData("Tagessatz €")]
    public void Money_is_never_a_day_or_a_result(string header) => Assert.Equal("?none", HeaderReading.Of(header).Open);

    [Fact]
    public void A_pressure_is_no_barometer() => Assert.Equal(Column.Pressure, HeaderReading.Of("Barometer [kPa]").Column);

    [Theory]
    [InlineData("INV-2003")]
    [InlineData("SN-4411")]
    public void The_number_of_a_device_is_no_header(string text) => Assert.Null(HeaderReading.Of(text).Column);

    [Fact]
    public void A_class_that_all_share_is_no_model()
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"mic,{n}00,2310\n"));

        Assert.Equal(["column anlagentyp"], Parts(Read("Kind,Serial,Anlagentyp\n" + rows).Report));
    }

    // A reference that differs from device to device is a number, and one that repeats is a model.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_type_that_differs_in_each_row_is_asked(bool differs)
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"mic,{n}00,R-{(differs ? n : n % 2)}0\n"));
        var report = Read("Kind,Serial,Référence\n" + rows).Report;

        Assert.Equal(differs ? ["column référence"] : [], Parts(report));
    }

    [Fact]
    public void Maker_and_model_in_one_cell_are_parted_where_the_model_begins()
    {
        var register = Good("Kind,Maker / model,Serial\nmic,Orlevik MK-50,71\nmic,Tannsee Akustik TS 4,72\n");

        Assert.Equal(("Orlevik", "MK-50"), (Device(register, "71").Maker, Device(register, "71").Model));
        Assert.Equal(("Tannsee Akustik", "TS 4"), (Device(register, "72").Maker, Device(register, "72").Model));
    }

    [Fact]
    public void A_result_with_its_day_in_brackets_is_both()
    {
        var register = Good("Kind,Model,Serial,Result (date)\nmic,M1,71,50.1 mV/Pa (2025-03-01)\nmic,M1,72,50.2 mV/Pa (2025-03-02)\n");

        var certificate = Assert.Single(Device(register, "72").Certificates);
        Assert.Equal((new DateOnly(2025, 3, 2), 50.2), (certificate.Day, certificate.Issued.Results[0].Value));
    }

    [Fact]
    public void Lines_that_say_where_the_rows_below_them_stand_are_taken()
    {
        var register = Good("Kind,Model,Serial,Status\nLocation,Hall 2,,\nmic,M1,71,ok\nLocation,Hall 3,,\nmic,M1,72,ok\n");

        Assert.Equal(("Hall 2", "Hall 3"), (Device(register, "71").Place, Device(register, "72").Place));
    }

    [Fact]
    public void A_label_among_the_rows_that_nobody_understands_is_asked_once()
    {
        const string Text = "Kind,Model,Serial,Status\nZorp,Hall 2,,\nmic,M1,71,ok\nZorp,Hall 3,,\nmic,M1,72,ok\n";

        Assert.Equal(["column zorp"], Parts(Read(Text).Report));
        Assert.Equal("Hall 3", Device(Read(Text, "Zorp = place").Register, "72").Place);
    }

    [Fact]
    public void Headings_with_their_numbers_are_asked_once_and_are_no_devices()
    {
        var report = Read("Pos,Kind,Model,Serial\n1,Set 1,,\n1.1,mic,M1,71\n2,Set 2,,\n2.1,mic,M1,72\n").Report;

        Assert.Equal(["headings"], Parts(report));
        Assert.Equal(0, report.Count(RowSort.Refused));
    }

    [Fact]
    public void Months_among_the_rows_say_nothing_of_them() =>
        Assert.Equal(2, Good("Kind,Model,Serial,Date,Result\nMay 2025,,,,\nmic,M1,71,2025-05-01,50.1 mV/Pa\nJune 2025,,,,\n"
            + "mic,M1,72,2025-06-02,50.2 mV/Pa\n").DeviceIds.Count());

    [Fact]
    public void A_number_of_the_list_is_no_place() =>
        Assert.Null(Device(Good("Posizione,Kind,Serial,Model\n1.1,mic,71,M1\n1.2,mic,72,M1\n2.1,mic,73,M1\n"), "71").Place);

    [Fact]
    public void A_code_that_devices_share_is_asked()
    {
        var rows = string.Concat(Enumerable.Range(1, 8).Select(n => $"mic,M1,{n}00,6625-{n % 2}\n"));

        Assert.Equal(["column inventory no"], Parts(Read("Kind,Model,Serial,Inventory no\n" + rows).Report));
    }

    [Fact]
    public void Cards_of_one_file_do_not_speak_of_each_other()
    {
        var register = Good("Kind:,mic,Model:,M1,Serial no.:,71\nDate,Result,Laboratory\n2025-03-01,50.1 mV/Pa,House\n"
            + "Kind:,calibrator,Model:,C1,Serial no.:,81\nDate,Result,Laboratory\n2025-04-01,94.02 dB,House\n");

        Assert.Equal((new DateOnly(2025, 3, 1), "microphone"), (Assert.Single(Device(register, "71").Certificates).Day, Device(register, "71").Kind));
        Assert.Equal((new DateOnly(2025, 4, 1), "C1"), (Assert.Single(Device(register, "81").Certificates).Day, Device(register, "81").Model));
    }

    [Fact]
    public void Forms_with_two_entries_a_line_are_a_row_each()
    {
        var register = Good("Form 1,,,\nKind:,mic,Code:,I-1\nSerial no.:,71,Location:,Hall 2\nForm 2,,,\nKind:,mic,Code:,I-2\n"
            + "Serial no.:,72,Location:,\nForm 3,,,\nKind:,plate,Code:,I-3\nSerial no.:,73,Location:,Hall 4\n");

        Assert.Equal(["Hall 2", null, "Hall 4"], new[] { "71", "72", "73" }.Select(s => Device(register, s).Place));
    }

    [Fact]
    public void Titles_that_name_kinds_are_of_the_columns_below_them()
    {
        var register = Good(",Microphone,,,Preamplifier,\nMarke,Model,Serial no.,Sens. [mV/Pa],Model,Serial no.\n"
            + "x,M1,71,50.1,P1,31\nx,M1,72,50.2,P1,32\n", "Marke = left-out\nresults-without-days := leave-out");

        Assert.Equal(("M1", "P1"), (Device(register, "71").Model, Device(register, "31").Model));
    }

    [Theory]
    [InlineData("oui", true)]
    [InlineData("sí", true)]
    [InlineData("nee", false)]
    [InlineData("non", false)]
    public void Yes_and_no_are_known_in_six_languages(string word, bool is_) => Assert.Equal(is_, Words.YesNo(word));
}

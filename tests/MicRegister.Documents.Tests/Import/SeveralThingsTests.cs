using MicRegister.Documents.Import;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using static MicRegister.Documents.Tests.Import.SmallList;

namespace MicRegister.Documents.Tests.Import;

/// <summary>
/// Cells that hold several things, and columns of which the rows say something else than their headers. All lists are invented.
/// </summary>
public sealed class SeveralThingsTests
{
    private const string Mics = "mic,M1,71,2025-03-01,50.1 mV/Pa\nmic,M1,72,2025-03-02,50.2 mV/Pa\nmic,M1,73,2025-03-03,50.3 mV/Pa\n";

    [Theory]
    [InlineData("Mic preamplifier Orlevik VP-2", "preamplifier", "Orlevik", "VP-2")]
    [InlineData("Micrófono de condensador Tannsee Akustik TS 4", "microphone", "Tannsee Akustik", "TS 4")]
    [InlineData("Pistonphone, Orlevik PF 250", "sound-calibrator", "Orlevik", "PF 250")]
    public void A_thing_is_named_by_its_kind_its_maker_and_its_model(string text, string kind, string maker, string model)
    {
        var thing = ThingText.Of(text)!;

        Assert.Equal((kind, maker, model), (thing.Kind!.Key, thing.Says[Column.Maker], thing.Says[Column.Model]));
    }

    [Theory]
    [InlineData("Microphone Defective MK-50")]
    [InlineData("Microphone Free-field MK-50")]
    [InlineData("Microphone MK-50")]
    [InlineData("Hall 2")]
    public void What_stands_between_a_kind_and_a_model_may_be_no_maker(string text) => Assert.Null(ThingText.Of(text));

    [Fact]
    public void Kind_maker_and_model_of_one_cell_are_each_taken()
    {
        var register = Good("What it was,Serial,Date,Result\nMicrophone Orlevik MK-50,71,2025-03-01,50.1 mV/Pa\n"
            + "Microphone Orlevik MK-50,72,2025-03-01,50.2 mV/Pa\nSound calibrator Velmora C 4,81,2025-03-01,94.02 dB\n");

        Assert.Equal(("Orlevik", "MK-50"), (Device(register, "72").Maker, Device(register, "72").Model));
        Assert.Equal(("sound-calibrator", "Velmora"), (Device(register, "81").Kind, Device(register, "81").Maker));
    }

    [Fact]
    public void A_header_with_a_second_one_in_brackets_heads_two_things()
    {
        var register = Good("Kind,Model (manufacturer),Serial no. / Inventory no.,Certificate no. (calibration date),Result\n"
            + "mic,M1 (Orlevik),71 / I-1,K-1 (2025-03-01),50.1 mV/Pa\nmic,M1 (Orlevik),72 / I-2,K-2 (2025-03-02),50.2 mV/Pa\n");
        var device = Device(register, "72");

        Assert.Equal(("M1", "Orlevik"), (device.Model, device.Maker));
        Assert.Equal(("K-2", new DateOnly(2025, 3, 2)), (device.Certificates[0].Issued.Number, device.Certificates[0].Day));
    }

    // Whoever says that it is the serial number is asked which part of it.
    [Theory]
    [InlineData("")]
    [InlineData("\"Serial\" = serial")]
    public void A_number_of_two_parts_is_asked_and_its_parts_can_be_said(string legend)
    {
        const string Text = "Kind,Serial\nmic,71 / I-1\nmic,72 / I-2\nmic,73 / I-3\n";
        var (report, register) = Read(Text, legend);

        Assert.Empty(register.DeviceIds);
        Assert.Equal(["column serial"], Parts(report));
        Assert.Contains(report.Questions.SelectMany(q => q.Parts.Append(q)).SelectMany(q => q.Choices),
            c => c.Rule == "\"Serial\" = serial + inventory-code");
        Assert.Equal(3, Good(Text, "\"Serial\" = serial + inventory-code").DeviceIds.Count());
    }

    [Fact]
    public void A_model_with_more_behind_it_in_each_cell_is_asked()
    {
        var (report, register) = Read("Kind,Model,Serial\nmic,M1 (rack),71\nmic,M2 (rack),72\nmic,M1 (van),73\n");

        Assert.Equal(["column model"], Parts(report));
        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Model is { } model && model.Contains('('));
    }

    [Fact]
    public void A_certificate_with_a_day_in_brackets_is_asked_where_no_column_is_the_day()
    {
        var (report, register) = Read("Kind,Serial,Certificate,Result\nmic,71,K-1 (2025-03-01),50.1 mV/Pa\n"
            + "mic,72,K-2 (2025-03-02),50.2 mV/Pa\nmic,73,K-3 (2025-03-03),50.3 mV/Pa\n");

        Assert.Equal(["column certificate"], Parts(report));
        Assert.Empty(register.DeviceIds);
    }

    [Fact]
    public void Two_words_of_a_remark_are_no_remark_and_a_state()
    {
        var register = Good("Kind,Serial,Remarks / status\nmic,71,case missing\nmic,72,grid missing\nmic,73,box missing\n");

        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Status != DeviceStatus.InService);
    }

    [Fact]
    public void A_place_that_differs_in_the_rows_of_one_device_is_asked()
    {
        var rows = string.Concat(Enumerable.Range(0, 8).Select(n => $"mic,M1,{71 + (n % 4)},2025-03-{n + 1:00},50.{n} mV/Pa,Folder {n}\n"));
        var (report, register) = Read("Kind,Model,Serial,Date,Result,Location\n" + rows);

        Assert.Equal(["column location"], Parts(report));
        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Place is not null);
    }

    [Fact]
    public void The_number_of_a_device_with_several_rows_is_no_model()
    {
        var rows = string.Concat(Enumerable.Range(0, 12).Select(n => $"mic,{71 + (n % 4)},I-{n % 4},2025-03-{n + 1:00},50.{n} mV/Pa\n"));
        var register = Good("Kind,Serial,Device ID,Date,Result\n" + rows);

        Assert.Equal(("I-0", null), (Device(register, "71").Details[DeviceField.InventoryCode.Key].Text, Device(register, "71").Model));
    }

    [Fact]
    public void The_number_of_a_product_is_no_model()
    {
        var rows = string.Concat(Enumerable.Range(0, 12).Select(n => $"mic,{71 + n},10-{895 + (n % 4)}\n"));
        var (report, register) = Read("Kind,Serial,Device ID\n" + rows);

        Assert.Equal(["column device id"], Parts(report));
        Assert.DoesNotContain(register.DeviceIds, id => register.Device(id)!.Model is not null);
    }

    [Theory]
    [InlineData("barometer")]
    [InlineData("sound-calibrator")]
    public void One_kind_for_all_that_the_results_contradict_is_refused(string kind)
    {
        const string Text = "Model,Serial,Date,Result,Note\nM1,71,2025-03-01,50.1 mV/Pa,\nM1,72,2025-03-01,50.2 mV/Pa,\nP1,81,,,\n";
        var (report, register) = Read(Text, "kind := " + kind);

        Assert.Empty(register.DeviceIds);
        Assert.Contains(report.Outcomes, o => o.Text.Contains("results say otherwise", StringComparison.Ordinal));
        var asked = Read(Text).Report.Questions.Single(q => q.Key == "kind");
        Assert.Equal(["kind := microphone", "kind := reference-microphone"], asked.Choices.Select(c => c.Rule));
    }

    [Fact]
    public void A_time_of_day_is_no_day()
    {
        var register = Good("Heure,Date d'étalonnage,Kind,Model,Serial,Result\n9:53,2025-03-01,mic,M1,71,50.1 mV/Pa\n"
            + "10:15,2025-03-02,mic,M1,72,50.2 mV/Pa\n");

        Assert.Equal(new DateOnly(2025, 3, 1), Assert.Single(Device(register, "71").Certificates).Day);
    }

    [Fact]
    public void Running_numbers_of_records_are_no_numbers_of_the_house()
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"{1170 + n},EQ-{n * 7},mic,{n}00\n"));

        Assert.Equal("EQ-7", Device(Good("ID,Inventory no,Kind,Serial\n" + rows), "100").Details[DeviceField.InventoryCode.Key].Text);
    }

    [Fact]
    public void The_number_that_a_laboratory_gave_names_no_laboratory()
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"mic,M1,{n}00,EQ-{n * 7},2025-03-0{n},50.{n} mV/Pa\n"));
        var register = Good("Kind,Model,Serial,Laboratory,Date,Result\n" + rows);

        Assert.Null(Assert.Single(Device(register, "100").Certificates).Issued.Laboratory);
    }

    [Fact]
    public void A_line_a_product_holds_for_the_pieces_below_it()
    {
        var register = Good("Kind,Model,Inventory no,Serial,Date,Result\nmic,M1,,,,\n,,I-1,71,2025-03-01,50.1 mV/Pa\n"
            + ",,I-2,72,2025-03-02,50.2 mV/Pa\ncalibrator,C1,,,,\n,,I-3,81,2025-03-03,94.02 dB\n");

        Assert.Equal(("M1", "microphone"), (Device(register, "72").Model, Device(register, "72").Kind));
        Assert.Equal(("C1", "sound-calibrator"), (Device(register, "81").Model, Device(register, "81").Kind));
        Assert.Equal(3, register.DeviceIds.Count());
    }

    [Fact]
    public void A_column_of_states_in_which_none_is_known_is_asked_as_a_whole()
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"mic,M1,{n}00,{(n % 2 == 0 ? "golden" : "silver")}\n"));

        Assert.Equal(["column status"], Parts(Read("Kind,Model,Serial,Status\n" + rows).Report));
    }

    [Fact]
    public void A_column_of_models_under_a_word_for_kinds_leaves_the_kinds_to_another()
    {
        var rows = string.Concat(Enumerable.Range(1, 7).Select(n => $"microphone,MK-{n % 2}0,{n}00\n"));
        var device = Device(Good("Equipment,Device type,Serial\n" + rows), "100");

        Assert.Equal(("microphone", "MK-10"), (device.Kind, device.Model));
    }

    [Fact]
    public void A_title_and_the_number_of_its_form_say_nothing_of_the_devices()
    {
        var (report, register) = Read("Survey of equipment,,,Form 6.4\nRevision 7,,,Approved: 2026-01-19\n\n"
            + "Kind,Model,Serial,Date,Result\n" + Mics);

        Assert.Empty(report.Questions);
        Assert.Equal(3, register.DeviceIds.Count());
    }

    [Fact]
    public void A_line_that_nobody_can_read_ends_the_card_before_it()
    {
        var (_, register) = Read("Kind:,mic,Maker:,Orlevik,Serial no.:,71\nDate,Result,Laboratory\n2025-03-01,50.1 mV/Pa,House\n"
            + "Kind:,mic,Maker:,a\"b,Serial no.:,72\nDate,Result,Laboratory\n2025-04-01,49.1 mV/Pa,House\n");

        Assert.Equal(new DateOnly(2025, 3, 1), Assert.Single(Device(register, "71").Certificates).Day);
    }
}

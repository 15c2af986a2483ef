using System.Globalization;
using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Documents.Tests.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Tests.Import;

public sealed class ImportTests
{
    private const string Fleet = "Kind,Model,Serial,Size,Response,Nominal [mV/Pa],Date,Sensitivity,U [dB],k,Lab\n"
        + "mic,A-12,101,1/2\",pressure,12.5,2024-03-01,12.53 mV/Pa,0.06,2,House\n"
        + "mic,A-12,101,,,,2025-03-03,-38.04 dB,0.06,2,House\n"
        + "mic,A-12,102,1/2\",ff,12.5,4.3.2025,\"12,41 mV/Pa\",0.06,2,House\n";

    private static readonly DateOnly Today = new(2026, 6, 1);

    [Fact]
    public void A_first_import_registers_devices_with_their_histories()
    {
        var (register, report, _) = Imported(Fleet);

        Assert.All(report.Outcomes, o => Assert.Equal(RowSort.New, o.Sort));
        var device = Device(register, "101");
        Assert.Equal(("microphone", "A-12", 12.7, "pressure"), (device.Kind, device.Model, device.Number(DeviceField.SizeMm), device.Text(DeviceField.ResponseType)));
        Assert.Equal([new DateOnly(2024, 3, 1), new DateOnly(2025, 3, 3)], device.Certificates.Select(c => c.Day));
        Assert.Equal(new CalibrationResult(AdjustmentState.AsFoundAndLeft, 12.53, "mV/Pa", 0.06, "dB", 2), device.Certificates[0].InForce);
        Assert.Equal("dB re 1 V/Pa", device.Certificates[1].InForce!.Unit);
        Assert.Equal("free-field", Device(register, "102").Text(DeviceField.ResponseType));
        Assert.Equal(12.41, Device(register, "102").Certificates[0].InForce!.Value);
    }

    [Fact]
    public void The_same_file_again_adds_nothing_also_on_another_register()
    {
        var (register, _, facts) = Imported(Fleet);
        var (again, report, more) = Imported(Fleet, register);

        Assert.Empty(more);
        Assert.All(report.Outcomes, o => Assert.Equal(RowSort.AlreadyThere, o.Sort));
        Assert.Equal(register.Digest, again.Digest);
        Assert.Equal(facts.Select(f => f.Id), Imported(Fleet).Facts.Select(f => f.Id));
    }

    [Fact]
    public void What_a_later_file_adds_or_corrects_is_shown_as_a_change()
    {
        var (register, _, _) = Imported(Fleet);

        var (after, report, _) = Imported("Serial,Location,Owner,Status,Response\n101,Van,Hall 2,lost,free field\n", register);

        var outcome = Assert.Single(report.Outcomes);
        Assert.Equal(RowSort.Changed, outcome.Sort);
        Assert.Contains("response-type pressure → free-field", outcome.Text, StringComparison.Ordinal);
        var device = Device(after, "101");
        Assert.Equal(("Van", "Hall 2", DeviceStatus.Lost, "free-field"), (device.Place, device.Text(DeviceField.Owner), device.Status, device.Text(DeviceField.ResponseType)));
        Assert.Equal(Today, device.Statuses[^1].Day);
    }

    [Theory]
    [InlineData("103,2025-03-01,125 mV/Pa", "a factor of ten")]
    [InlineData("103,2025-03-01,50 V/Pa", "more than 1 V/Pa")]
    [InlineData("103,2025-03-01,38.06 dB re 1 V/Pa", "did the sign get lost")]
    [InlineData("103,2025-03-01,0.05 mV/Pa", "less than 0.1 mV/Pa")]
    [InlineData("103,2026-06-02,12.5 mV/Pa", "lies in the future")]
    [InlineData("1O1,2025-03-01,12.5 mV/Pa", "it looks like 101")]
    [InlineData("0101,2025-03-01,12.5 mV/Pa", "it looks like 101")]
    [InlineData("1 01,2025-03-01,12.5 mV/Pa", "it looks like 101")]
    [InlineData("101,2025-03-03,12.9 mV/Pa", "which is right")]
    public void What_cannot_be_is_questioned_until_a_person_looked(string row, string why)
    {
        var (register, _, _) = Imported(Fleet);
        var header = "Kind,Model,Serial,Date,Sensitivity,Nominal [mV/Pa],checked,why\n";

        var (_, report, facts) = Imported(header + $"mic,A-12,{row},12.5,,\n", register);
        var outcome = Assert.Single(report.Outcomes);
        Assert.Equal(RowSort.Questioned, outcome.Sort);
        Assert.Contains(why, outcome.Text, StringComparison.Ordinal);
        Assert.Empty(facts);

        var (_, seen, taken) = Imported(header + $"mic,A-12,{row},12.5,yes,\n", register);
        Assert.Contains(Assert.Single(seen.Outcomes).Sort, new[] { RowSort.New, RowSort.Changed });
        Assert.NotEmpty(taken);
    }

    [Fact]
    public void An_inspection_says_whether_a_windscreen_is_intact()
    {
        const string Header = "Kind,Serial,Inspected,Passed,Undamaged,Uncontaminated,Maker's data\n";

        var (register, _, _) = Imported(Header + "windscreen,W1,2026-05-01,,yes,yes,data sheet 3\nwindscreen,W2,2026-05-01,,yes,no,\nwindscreen,W3,2026-05-01,yes,,,\n");
        var seen = new[] { "W1", "W2", "W3" }.Select(s => Assert.Single(Device(register, s).Inspections).What).ToList();
        Assert.Equal([true, false, true], seen.Select(i => i.Passed));
        Assert.Equal([true, false, false], seen.Select(i => i.IsIntactWithMakersData));
        Assert.Equal(("data sheet 3", "contaminated"), (seen[0].MakersData, seen[1].Amiss));

        var (_, report, _) = Imported(Header + "windscreen,W4,2026-05-01,yes,no,yes,\nwindscreen,W5,,,yes,yes,data sheet\n");
        Assert.All(report.Outcomes, o => Assert.Equal(RowSort.Refused, o.Sort));
        Assert.Contains("damaged or contaminated", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Contains("without its day", report.Outcomes[1].Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("makers-data/windscreen/insertion-loss,,until damaged", true)]
    [InlineData("makers-data/windscreen/insertion-loss,12 months,", true)]
    [InlineData("makers-data/windscreen/insertion-loss,,for ever", false)]
    [InlineData("change-band/windscreen/insertion-loss,0.4 dB,", true)]
    [InlineData("change-band/windscreen/insertion-loss,,little", false)]
    [InlineData("error/attenuator/attenuation,0.1 dB,", true)]
    [InlineData("error/windscreen/insertion-loss,0.1 dB,", false)]
    [InlineData("change-band/teapot/insertion-loss,0.4 dB,", false)]
    public void Limits_on_what_certificates_state_are_taken(string limit, bool isTaken)
    {
        var (register, report, _) = Imported($"Profile,Limit,Value,Text,Source\nown,{limit},a rule\n");

        Assert.Equal(isTaken ? RowSort.New : RowSort.Refused, Assert.Single(report.Outcomes).Sort);
        Assert.Equal(isTaken, register.Profile("own")?.Limit(limit.Split(',')[0]) is not null);
    }

    [Theory]
    [InlineData("Serial,Date,Sensitivity\n101,03/04/2025,12.5 mV/Pa\n", "Date", "day-first or month-first")]
    [InlineData("Serial,Date,Sensitivity\n101,2025-03-01,twelve\n", "Sensitivity", "no number")]
    [InlineData("Serial,Date,Sensitivity\n101,2025-03-01,12.5\n", "Sensitivity", "unit is missing")]
    [InlineData("Serial,Date,Sensitivity\n101,2025-03-01,0 mV/Pa\n", "Sensitivity", "above 0")]
    [InlineData("Serial,Date,Sensitivity\n101,2025-03-01,#N/A\n", "Sensitivity", "no number")]
    [InlineData("Serial,Date,Sensitivity,U [dB]\n101,2025-03-01,12.5 mV/Pa,-0.1\n", "U [dB]", "above 0")]
    [InlineData("Serial,Date,Sensitivity,U\n101,2025-03-01,12.5 mV/Pa,0.1\n", "U", "unit is missing")]
    [InlineData("Serial,Date,Sensitivity\n101,,12.5 mV/Pa\n", "Date", "without a day")]
    [InlineData("Serial,Status\n101,sleepy\n", "Status", "allowed are")]
    [InlineData("Serial,Owner\n999,Hall 2\n", "Kind of device", "no kind is given")]
    [InlineData("Kind,Serial\nteapot,5\n", "Kind", "allowed are")]
    [InlineData("Serial,Thickness\n101,5\n", "Thickness", "has no such detail")]
    [InlineData("Serial,fmax [kHz]\n101,9999\n", "fmax [kHz]", "allowed is a number from 1 to 1000000 Hz")]
    [InlineData("Kind,Model,Owner,Serial\nmic,A-12,Hall 2,\n", "Serial", "serial number or an inventory code")]
    public void What_cannot_be_read_names_its_cell_and_what_is_allowed(string text, string header, string why)
    {
        var (register, _, _) = Imported(Fleet);

        var (_, report, facts) = Imported(text, register);

        var outcome = Assert.Single(report.Outcomes);
        // What one answer settles for many rows is asked; the rest is refused.
        Assert.Equal(report.Questions.Count > 0 ? RowSort.Questioned : RowSort.Refused, outcome.Sort);
        Assert.False(report.IsGood);
        Assert.Equal((2, header), (outcome.Row, outcome.Header));
        Assert.Contains(why, outcome.Text, StringComparison.Ordinal);
        Assert.Empty(facts);
    }

    [Fact]
    public void A_row_is_taken_whole_or_not_at_all()
    {
        var (register, _, _) = Imported(Fleet);

        var (after, _, facts) = Imported("Serial,Location,Date,Sensitivity\n101,Van,2025-05-01,nonsense\n102,Van,2025-05-01,12.4 mV/Pa\n", register);

        Assert.Null(Device(after, "101").Place);
        Assert.Equal("Van", Device(after, "102").Place);
        Assert.Equal(2, facts.Count);
    }

    [Fact]
    public void Rows_put_aside_come_back_from_the_file_to_mend()
    {
        var (register, report, _) = Imported(Fleet + "mic,A-12,103,1/2\",pressure,12.5,2025-03-01,125 mV/Pa,0.06,2,House\nmic,A-12,104,1/2\",pressure,12.5,03/04/2025,12.5 mV/Pa,0.06,2,=House\n");
        using var text = new StringWriter();
        Assert.Equal(2, MendFile.Write(report, 0, text));
        var mended = text.ToString().Replace("03/04/2025", "2025-04-03", StringComparison.Ordinal);
        Assert.Contains("'=House", mended, StringComparison.Ordinal); // no spreadsheet runs it

        var (after, second, _) = Imported(mended.Replace("125 mV/Pa", "12.5 mV/Pa", StringComparison.Ordinal), register);

        Assert.All(second.Outcomes, o => Assert.Equal(RowSort.New, o.Sort));
        Assert.Equal(12.5, Device(after, "103").Certificates[0].InForce!.Value);
        Assert.Equal("=House", Device(after, "104").Certificates[0].Issued.Laboratory);
        // A questioned row that is right is taken with a yes under 'checked'.
        var lines = text.ToString().Split("\r\n");
        var (_, third, _) = Imported($"{lines[0]}\r\n{lines[1].Replace(",,", ",yes,", StringComparison.Ordinal)}\r\n", register);
        Assert.Equal(RowSort.New, Assert.Single(third.Outcomes).Sort);
    }

    [Fact]
    public void Titles_units_repeated_headers_blanks_totals_and_footnotes_are_passed_over()
    {
        var (register, report, _) = Imported(
            "Our microphones;;;\n;;;\nArt;Seriennummer;Kalibriert am;Empfindlichkeit;Messunsicherheit (k = 2)\n;;;mV/Pa;dB\nMikrofon;201;01.03.2025;12,5;0,06\n;;;;\nArt;Seriennummer;Kalibriert am;Empfindlichkeit;Messunsicherheit (k = 2)\nMikrofon;202;02.03.2025;12,6;0,06\nSumme;2;;;\n* engraved;;;;\n");

        Assert.Equal((2, 0), (report.Count(RowSort.New), report.Count(RowSort.Refused)));
        Assert.Equal(new CalibrationResult(AdjustmentState.AsFoundAndLeft, 12.5, "mV/Pa", 0.06, "dB", 2), Device(register, "201").Certificates[0].InForce);
        Assert.Equal(2, register.DeviceIds.Count());
    }

    [Fact]
    public void A_column_a_year_is_a_history_and_meets_exact_dates_of_the_same_year()
    {
        var (register, _, _) = Imported(Fleet);

        var (after, report, _) = Imported("Serial,U [dB],Sens. 2022 [dB re 1 V/Pa],2023 (mV/Pa),Sens. 2024 [dB re 1 V/Pa]\n101,0.06,-38.05,12.52,-38.04\n102,0.06,-,12.44,\n", register);

        Assert.Equal(2, report.Count(RowSort.New));
        // 2024 is there with its day already: 12.53 mV/Pa is -38.041 dB, the same to the written digits.
        Assert.Equal([2022, 2023, 2024, 2025], Device(after, "101").Certificates.Select(c => c.Day.Year));
        Assert.Equal("only the year is known", Device(after, "101").Certificates[0].Issued.Remark);
        Assert.Equal(0.06, Device(after, "101").Certificates[1].InForce!.ExpandedUncertainty);
        var (_, clash, _) = Imported("Serial,Sens. 2024 [dB re 1 V/Pa]\n101,-38.20\n", register);
        Assert.Equal(RowSort.Questioned, Assert.Single(clash.Outcomes).Sort);
    }

    [Fact]
    public void A_fuller_statement_of_a_known_result_replaces_it()
    {
        var (register, _, _) = Imported("Kind,Serial,Date,Sensitivity\nmic,301,2025-01-02,12.5 mV/Pa\n");

        var (after, report, _) = Imported("Serial,Date,Sensitivity,U [dB],Lab,Pressure [hPa],Temp,RH\n301,2025-01-02,12.50 mV/Pa,0.06,House,1005,23,45\n", register);

        Assert.Equal(RowSort.Changed, Assert.Single(report.Outcomes).Sort);
        var certificate = Assert.Single(Device(after, "301").Certificates, c => !c.IsAnnulled);
        Assert.Equal(("House", new StatedAir(100.5, 23, 45), 0.06), (certificate.Issued.Laboratory, certificate.Issued.Air, certificate.InForce!.ExpandedUncertainty));
    }

    [Fact]
    public void As_found_and_as_left_are_kept_apart()
    {
        var (register, _, _) = Imported("Kind,Serial,Date,As found [dB],As left [dB],Uncertainty [dB]\ncalibrator,K1,2025-01-02,93.8,94.0,0.1\n");

        Assert.Equal([AdjustmentState.AsFound, AdjustmentState.AsLeft], Device(register, "K1").Certificates[0].Issued.Results.Select(r => r.State));
    }

    [Fact]
    public void Serials_are_told_apart_by_kind_and_model_and_joined_rows_say_which()
    {
        var (register, _, _) = Imported("Kind,Model,Serial\nmic,A,7\npreamp,P,7\nmic,B,7\n");
        Assert.Equal(3, register.DeviceIds.Count());

        var (_, unclear, _) = Imported("Serial,Location\n7,Van\n", register);
        Assert.Contains("fits 3 devices", Assert.Single(unclear.Outcomes).Text, StringComparison.Ordinal);
        var (after, clear, _) = Imported("Kind,Model,Serial,Location\nmic,B,7,Van\n", register);
        Assert.Equal(RowSort.New, Assert.Single(clear.Outcomes).Sort);
        Assert.Single(after.DeviceIds, id => after.Device(id)!.Place == "Van");
    }

    [Fact]
    public void A_mapping_names_headers_constants_and_the_order_of_dates()
    {
        var mapping = ImportMapping.Read(new StringReader("# ours\nNr = serial\nMessung = value [mV/Pa]\nTag = day\nkind := microphone\ndates := day-first\n"), "m.mapping");

        var (register, report, _) = Imported("Nr,Tag,Messung\n401,03/04/2025,12.5\n", mapping: mapping);

        Assert.Equal(RowSort.New, Assert.Single(report.Outcomes).Sort);
        Assert.Equal(new DateOnly(2025, 4, 3), Device(register, "401").Certificates[0].Day);
    }

    [Theory]
    [InlineData("Nr = nowhere", "line 1: there is no column 'nowhere'")]
    [InlineData("\nnonsense", "line 2: 'nonsense' is no rule")]
    [InlineData("dates := sometimes", "allowed are day-first and month-first")]
    public void A_wrong_mapping_names_its_line(string text, string why) =>
        Assert.Contains(why, Assert.Throws<SheetException>(() => ImportMapping.Read(new StringReader(text), "m.mapping")).Message, StringComparison.Ordinal);

    [Fact]
    public void A_column_that_is_not_understood_is_asked_about_once()
    {
        const string Text = "Kind,Serial,Glimmer,Date,Sensitivity [mV/Pa]\nmic,501,red,2025-01-01,12.5\n";
        var (_, report, _) = Imported(Text);

        var question = Assert.Single(report.Questions);
        Assert.Equal(("What stands under 'Glimmer'? (red)", 1), (question.Text, question.Rows));
        Assert.False(report.IsGood);
        var rule = question.Choices.Single(c => c.Words == Column.Noted.Meaning).Rule;
        var (register, answered, _) = Imported(Text, mapping: ImportMapping.Read(new StringReader(rule), "legend"));
        Assert.True(answered.IsGood);
        Assert.Equal("Glimmer: red", Assert.Single(Device(register, "501").Notes).What.Text);
    }

    [Fact]
    public void A_header_that_stands_twice_is_refused_since_its_second_column_would_be_lost()
    {
        var (_, report, _) = Imported("Kind,Serial,Date,Sensitivity [mV/Pa],Sensitivity [mV/Pa]\nmic,501,2025-01-01,12.5,12.4\n");

        Assert.False(report.IsGood);
        Assert.Contains("Sensitivity [mV/Pa]", Assert.Single(report.Problems), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Kind,Serial,Date,U [dB],Sensitivity\nmic,501,2025-01-01,0.1,-38,06\n", "more cells than the header")]
    [InlineData("Kind,Serial,fmax\nmic,501,\"20,000\"\n", "write 20000 or 20 kHz")]
    [InlineData("Kind,Serial,fmax [Hz]\nmic,501,20.000\n", "write 20000 or 20 kHz")]
    [InlineData("Kind,Serial,Date,Sensitivity [mV/Pa],U [kPa]\nmic,501,2025-01-01,12.5,0.1\n", "does not fit a result in mV/Pa")]
    public void What_could_be_two_things_is_refused(string text, string why) => Assert.Contains(why, Assert.Single(Imported(text).Report.Outcomes).Text, StringComparison.Ordinal);

    // 0.125 mV/Pa of 12.5 mV/Pa is 1 %; at k = 2 that is 0.0434 dB (hand algebra).
    [Theory]
    [InlineData("Sensitivity, mV/Pa,U [mV/Pa]\nmic,501,2025-01-01,12.5,0.125")]
    [InlineData("Sens mV/Pa,U [mV/Pa]\nmic,501,2025-01-01,12.5,0.125")]
    [InlineData("Sensitivity [V/Pa],U [mV/Pa]\nmic,501,2025-01-01,0.0125,0.125")]
    [InlineData("Sensitivity [dB re 1 V/Pa],U [mV/Pa]\nmic,501,2025-01-01,-38.0618,0.125")]
    public void An_uncertainty_in_another_unit_is_converted(string rest)
    {
        var header = rest.StartsWith("Sensitivity, mV/Pa", StringComparison.Ordinal) ? rest.Replace("Sensitivity, mV/Pa", "\"Sensitivity, mV/Pa\"", StringComparison.Ordinal) : rest;

        var (register, _, _) = Imported("Kind,Serial,Date," + header + "\n");

        Assert.Equal(0.043429448, ResultLevel.Of(Device(register, "501").Certificates[0].InForce!)!.Value.StandardUncertaintyDb!.Value, 5);
    }

    [Fact]
    public void Changes_of_one_day_count_in_the_order_in_which_they_were_made()
    {
        var (register, _, _) = Imported("Kind,Serial,Size,Location\nmic,501,12.7,Lab\n");
        foreach (var (size, place) in new[] { ("6.35", "Van"), ("12.7", "Lab"), ("6.35", "Van"), ("12.7", "Lab"), ("6.35", "Van") })
        {
            (register, var report, _) = Imported($"Serial,Size,Location\n501,{size},{place}\n", register);
            Assert.Equal(RowSort.Changed, Assert.Single(report.Outcomes).Sort);
            Assert.Equal((size, place), (Device(register, "501").Number(DeviceField.SizeMm)!.Value.ToString(CultureInfo.InvariantCulture), Device(register, "501").Place));
        }
    }

    [Fact]
    public void A_file_that_says_two_things_of_one_device_is_questioned()
    {
        var (_, report, _) = Imported("Kind,Serial,Location,Response\nmic,501,Lab,pressure\nmic,501,Van,pressure\nmic,501,Lab,free field\n");

        Assert.All(report.Outcomes, o => Assert.Equal(RowSort.Questioned, o.Sort));
        Assert.Contains("before 'Lab'", report.Outcomes[1].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_day_takes_the_place_of_a_year_in_whichever_order_the_tables_come()
    {
        const string Wide = "Kind,Serial,Sens. 2024 [dB re 1 V/Pa]\nmic,501,-38.04\n";
        const string Dated = "Kind,Serial,Date,Sensitivity [mV/Pa]\nmic,501,2024-03-01,12.53\n";

        foreach (var (first, second) in new[] { (Wide, Dated), (Dated, Wide) })
        {
            var (register, _, _) = Imported(second, Imported(first).Register);
            Assert.Equal(new DateOnly(2024, 3, 1), Assert.Single(Device(register, "501").Certificates, c => !c.IsAnnulled).Day);
        }
    }

    [Fact]
    public void A_checked_row_takes_the_place_of_the_wrong_result()
    {
        var (register, _, _) = Imported("Kind,Serial,Date,Sensitivity [mV/Pa]\nmic,501,2024-03-01,12.9\n");

        var (after, _, _) = Imported("Serial,Date,Sensitivity [mV/Pa],checked,why\n501,2024-03-01,12.5,yes,\n", register);

        Assert.Equal(12.5, Assert.Single(Device(after, "501").Certificates, c => !c.IsAnnulled).InForce!.Value);
    }

    // What was replaced replaces nothing: without a word of its own, each second one before would count again.
    [Fact]
    public void A_result_that_list_after_list_corrects_is_the_last_one_alone()
    {
        var (register, _, _) = Imported("Kind,Serial,Date,Sensitivity [mV/Pa]\nmic,501,2024-03-01,12.9\n");
        foreach (var value in new[] { 12.5, 12.7, 12.3, 12.9, 12.5 })
        {
            var list = Corrected(value);
            (register, var report, _) = Imported(list, register);

            Assert.Equal(RowSort.Changed, Assert.Single(report.Outcomes).Sort);
            Assert.Equal(value, Assert.Single(Device(register, "501").Certificates, c => !c.IsAnnulled).InForce!.Value);
            Assert.Empty(Imported(list, register).Facts);
        }
    }

    [Fact]
    public void Lists_of_one_import_that_correct_each_other_leave_the_last_one_alone()
    {
        var (register, _, _) = Imported("Kind,Serial,Date,Sensitivity [mV/Pa]\nmic,501,2024-03-01,12.9\n");
        var session = new ImportSession(register, Today);
        foreach (var value in new[] { 12.5, 12.7, 12.3 })
        {
            var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(Corrected(value))), "f.csv", ImportMapping.None);
            Assert.Equal(RowSort.Changed, Assert.Single(report.Outcomes).Sort);
        }

        var after = FactList.RegisterOf([.. Enumerable.Range(1, register.Count).Select(register.Source.Read), .. session.Facts]);

        Assert.Equal(12.3, Assert.Single(Device(after, "501").Certificates, c => !c.IsAnnulled).InForce!.Value);
    }

    [Fact]
    public void A_result_of_which_each_list_tells_more_counts_once_with_all_of_it()
    {
        var (register, _, _) = Imported("Kind,Serial,Date,Sensitivity\nmic,301,2025-01-02,12.5 mV/Pa\n");
        foreach (var (header, cell) in new[] { ("U [dB]", "0.06"), ("Lab", "House"), ("RH", "45") })
        {
            (register, var report, _) = Imported($"Serial,Date,Sensitivity,{header}\n301,2025-01-02,12.5 mV/Pa,{cell}\n", register);

            Assert.Equal(RowSort.Changed, Assert.Single(report.Outcomes).Sort);
            Assert.Single(Device(register, "301").Certificates, c => !c.IsAnnulled);
        }

        var last = Assert.Single(Device(register, "301").Certificates, c => !c.IsAnnulled);
        Assert.Equal((0.06, "House", 45.0), (last.InForce!.ExpandedUncertainty, last.Issued.Laboratory, last.Issued.Air!.HumidityPercent));
    }

    [Fact]
    public void A_day_without_a_result_adds_nothing_the_second_time()
    {
        const string Text = "Kind,Serial,Last calibration,Lab\nmic,501,2024-03-01,House\n";
        Assert.Equal("days-without-results", Assert.Single(Imported(Text).Report.Questions).Key);
        var keep = ImportMapping.Read(new StringReader("days-without-results := keep"), "legend");
        var (register, _, _) = Imported(Text, mapping: keep);

        Assert.Empty(Imported(Text, register, keep).Facts);
        Assert.Empty(Assert.Single(Device(register, "501").Certificates).Issued.Results);
        var (without, _, _) = Imported(Text, mapping: ImportMapping.Read(new StringReader("days-without-results := leave-out"), "legend"));
        Assert.Empty(Device(without, "501").Certificates);
    }

    [Theory]
    [InlineData("M40", "M-40", RowSort.Questioned)]
    [InlineData("12 (old)", "12 (new)", RowSort.Questioned)]
    [InlineData("M40", "M41", RowSort.New)]
    public void Models_are_one_only_when_they_are_written_alike(string first, string second, RowSort expected)
    {
        var (register, _, _) = Imported($"Kind,Model,Serial\nmic,{first},501\n");

        Assert.Equal(expected, Assert.Single(Imported($"Kind,Model,Serial\nmic,{second},501\n", register).Report.Outcomes).Sort);
    }

    [Fact]
    public void A_row_of_a_profile_that_is_put_aside_takes_nothing_with_it()
    {
        var (register, report, _) = Imported("Profile,Limit,Value,Source\nour-own,drift-db,0.4,x\nour-own,flush-step-mm,lots,x\n");
        Assert.Equal(RowSort.Refused, report.Outcomes[1].Sort);
        var (after, _, _) = Imported("Profile,Limit,Value,Source\nour-own,flush-step-mm,0.3,x\n", register);
        Assert.Equal(2, after.Profile("our-own")!.Written.Limits.Count);

        var (changed, _, _) = Imported("Profile,Limit,Value,Text,Source\nengineering-practice,drift-db,0.7,,x\nengineering-practice,spare-share,,none,x\n", after);
        var builtIn = BuiltInProfiles.Find("engineering-practice")!.Written.Limits.Count;
        Assert.Equal((0.7, builtIn - 1), (changed.Profile("engineering-practice")!.Value(LimitKey.DriftDb), changed.Profile("engineering-practice")!.Written.Limits.Count));
    }

    [Fact]
    public void Campaigns_are_told_apart_by_their_whole_names()
    {
        const string Head = "Campaign,First day,Last day,Time zone,Altitude [m],Source,Band from,Band to,Profile\n";
        string Row(string name) => $"{name},2026-10-20,2026-10-30,Atlantic/Azores,120,drone,50,16000,small-unmanned-flush\n";

        var (register, _, _) = Imported(Head + Row("Test (north)") + Row("Test (south)") + Row("Проба") + Row("試験"));
        Assert.Equal(["Test (north)", "Test (south)", "Проба", "試験"], register.CampaignIds.Select(id => register.Campaign(id)!.Name).Order(StringComparer.Ordinal));
        Assert.Equal([RowSort.New, RowSort.Refused], Imported(Head + Row("Same") + Row("Same")).Report.Outcomes.Select(o => o.Sort));
        Assert.Equal(RowSort.Refused, Assert.Single(Imported(Head + Row(new string('x', 250))).Report.Outcomes).Sort);
    }

    [Fact]
    public void A_file_without_a_table_is_refused() => Assert.Contains("no table that is understood", Assert.Throws<SheetException>(() => Imported("just,words\nand,more\n")).Message, StringComparison.Ordinal);

    [Fact]
    public void Several_sheets_of_a_workbook_are_read_and_prose_is_passed_over()
    {
        var workbook = Workbook.Of("<row r=\"1\"><c t=\"inlineStr\"><is><t>Ask first</t></is></c></row>", change: parts =>
        {
            parts["xl/workbook.xml"] = parts["xl/workbook.xml"].Replace("</sheets>", "<sheet name=\"Mics\" sheetId=\"2\" r:id=\"rId2\"/></sheets>", StringComparison.Ordinal);
            parts["xl/_rels/workbook.xml.rels"] = parts["xl/_rels/workbook.xml.rels"].Replace("</Relationships>", "<Relationship Id=\"rId2\" Type=\"t\" Target=\"/xl/worksheets/sheet2.xml\"/></Relationships>", StringComparison.Ordinal);
            parts["xl/worksheets/sheet2.xml"] = "<worksheet><sheetData>" + Row(1, "Kind", "Serial", "Cal date", "Sens [mV/Pa]") + "<row r=\"2\"><c t=\"inlineStr\"><is><t>mic</t></is></c><c><v>601</v></c><c s=\"2\"><v>45000</v></c><c><f>25/2</f><v>12.5</v></c></row></sheetData></worksheet>";
        });
        var session = new ImportSession(Register.Register.Empty(new FactList()), Today);

        var report = session.Take(workbook, "f.xlsx", ImportMapping.None);

        Assert.Contains("sheet Fleet: no header was understood", Assert.Single(report.Notices), StringComparison.Ordinal);
        Assert.Equal(("Mics", 2, RowSort.New), (report.Outcomes[0].Sheet, report.Outcomes[0].Row, report.Outcomes[0].Sort));
        Assert.Equal(new DateOnly(2023, 3, 15), Device(FactList.RegisterOf(session.Facts), "601").Certificates[0].Day);
    }

    [Fact]
    public void A_campaign_with_stations_and_kit_is_planned_from_tables()
    {
        var (fleet, _, _) = Imported(Fleet + "preamp,P-1,P1,,,,,,,,\nplate,G,G1,12.7,,,,,,,\ncalibrator,K,K1,,,,,,,,\n");
        const string Campaign = "Campaign,First day,Last day,Time zone,Altitude [m],Source,Band from,Band to,Profile,Permitted losses\nTrial 1,2026-10-20,2026-10-30,Atlantic/Azores,120,drone,50,16000,small-unmanned-flush,2\n";
        var (planned, report, _) = Imported(Campaign, fleet);
        Assert.Equal(RowSort.New, Assert.Single(report.Outcomes).Sort);

        var (stations, second, _) = Imported("Station,Lat,Lon,Mount,Microphone,Preamp,Plate\nS1,38.2,-30.5,flush,101,P1,G1\nS2,38.3,-30.5,flush,999,P1,G1\nS3,98.3,-30.5,flush,,,\n", planned);
        Assert.Equal([RowSort.New, RowSort.Refused, RowSort.Refused], second.Outcomes.Select(o => o.Sort));
        Assert.Contains("no microphone with that serial number", second.Outcomes[1].Text, StringComparison.Ordinal);
        var (kit, _, _) = Imported("Campaign,Purpose,Serial\nTrial 1,spare,102\nTrial 1,check,K1\n", stations);

        var campaign = kit.Campaign("TRIAL-1")!;
        Assert.Equal((SourceClass.SmallMultirotor, 16000, 2), (campaign.Plan!.Source, campaign.Plan.HighestHz, campaign.Plan.PermittedLosses));
        // The Azores leave summer time on 25 October 2026 at 01:00 UTC: 0 minutes before, -60 after (IANA zone data 2025).
        Assert.Equal([new("2026-10-19T00:00:00.000Z", 0), new ZoneOffset("2026-10-25T01:00:00.000Z", -60)], campaign.Plan.Offsets);
        Assert.Equal(3, campaign.Chains["S1"].Length);
        Assert.Single(campaign.KitOf(KitPurpose.Spare));
        Assert.Empty(Imported(Campaign, kit).Facts);
        Assert.Empty(Imported("Campaign,Purpose,Serial\nTrial 1,spare,102\nTrial 1,check,K1\n", kit).Facts);
    }

    [Theory]
    [InlineData("Trial,2026-10-30,2026-10-20,Atlantic/Azores,120,drone,50,16000,small-unmanned-flush,2", "before the first day")]
    [InlineData("Trial,2026-10-20,2026-10-30,Moon/Crater,120,drone,50,16000,small-unmanned-flush,2", "does not know the zone")]
    [InlineData("Trial,2026-10-20,2026-10-30,Atlantic/Azores,120,kite,50,16000,small-unmanned-flush,2", "allowed are jet")]
    [InlineData("Trial,2026-10-20,2026-10-30,Atlantic/Azores,120,drone,16000,50,small-unmanned-flush,2", "not above the lowest")]
    [InlineData("Trial,2026-10-20,2026-10-30,Atlantic/Azores,120,drone,50,16000,nowhere,2", "allowed are array-left-out, engineering-practice")]
    [InlineData("Trial,2026-10-20,2026-10-30,Atlantic/Azores,,drone,50,16000,small-unmanned-flush,2", "Altitude, m is missing")]
    public void A_campaign_that_cannot_be_is_refused(string row, string why)
    {
        var (_, report, facts) = Imported("Campaign,First day,Last day,Time zone,Altitude [m],Source,Band from,Band to,Profile,Permitted losses\n" + row + "\n");

        Assert.Contains(why, Assert.Single(report.Outcomes).Text, StringComparison.Ordinal);
        Assert.Empty(facts);
    }

    [Fact]
    public void A_profile_of_ones_own_and_settings_come_as_tables()
    {
        const string Limits = "Profile,Limit,Value,Text,Source\nour-own,drift-db,0.4,,House rule 3\nour-own,mounts,,\"flush-plate, pole\",House rule 4\nour-own,interval-months/microphone/sensitivity,18,to the first day,House rule 5\n";
        const string Days = "Setting,Value\nlaboratory-days,45\nshipping-days,7\n";

        var (register, report, _) = Imported(Limits);
        Assert.All(report.Outcomes, o => Assert.Equal(RowSort.New, o.Sort));
        var (after, settings, _) = Imported(Days, register);

        var profile = after.Profile("our-own")!;
        Assert.Equal((0.4, 2), (profile.Value(LimitKey.DriftDb), profile.Words(LimitKey.Mounts).Count));
        Assert.Equal("sensitivity", profile.Intervals("microphone").Single().Quantity);
        Assert.Equal(new SettingsChosen(45, 7, 2, 1), after.State.Settings);
        Assert.All(settings.Outcomes, o => Assert.Equal(RowSort.Changed, o.Sort));
        Assert.Empty(Imported(Limits, after).Facts);
        Assert.Empty(Imported(Days, after).Facts);
    }

    [Theory]
    [InlineData("Profile,Limit,Value,Source\nour-own,nonsense,1,x\n", "allowed are drift-db")]
    [InlineData("Profile,Limit,Value,Source\nOur Own,drift-db,1,x\n", "small letters")]
    [InlineData("Profile,Limit,Value,Source\nour-own,drift-db,,x\n", "Result is missing")]
    [InlineData("Profile,Limit,Value,Source\nour-own,mount-tolerance-db,0,x\n", "from 0.01 to 60 dB")]
    [InlineData("Profile,Limit,Value,Source\nour-own,interval-months/microphone/sensitivity,1000000,x\n", "from 1 to 600 months")]
    [InlineData("Setting,Value\nlaboratory-days,10.7\n", "whole number")]
    [InlineData("Profile,Limit,Value,Source\nour-own,drift-db,1,\n", "is missing")]
    [InlineData("Setting,Value\ntea-breaks,1\n", "allowed are laboratory-days")]
    [InlineData("Setting,Value\nlaboratory-days,many\n", "no number")]
    public void Rules_that_cannot_be_are_refused(string text, string why)
    {
        var (_, report, facts) = Imported(text);

        Assert.Contains(why, Assert.Single(report.Outcomes).Text, StringComparison.Ordinal);
        Assert.Empty(facts);
    }

    [Fact]
    public void Two_hundred_thousand_rows_stream_through()
    {
        using var file = new MemoryStream();
        using (var writer = new StreamWriter(file, Encoding.UTF8, leaveOpen: true))
        {
            writer.Write("Kind,Model,Serial,Date,Sensitivity [mV/Pa],U [dB]\n");
            for (var i = 0; i < 200_000; i++)
                writer.Write(string.Create(CultureInfo.InvariantCulture, $"mic,A,{10_000 + (i / 20)},{2005 + (i % 20)}-03-04,{12.5 + (0.001 * (i % 7)):0.000},0.06\n"));
        }
        var session = new ImportSession(Register.Register.Empty(new FactList()), Today);

        var report = session.Take(file, "big.csv", ImportMapping.None);

        Assert.Equal((200_000, 200_000), (report.Rows, report.Count(RowSort.New)));
        Assert.Equal(210_000, session.Facts.Count);
    }

    // A list that says of the microphone 501 what its result was, looked at by a person.
    private static string Corrected(double value) =>
        FormattableString.Invariant($"Serial,Date,Sensitivity [mV/Pa],checked,why\n501,2024-03-01,{value:0.0},yes,\n");

    private static string Row(int number, params string[] texts) =>
        $"<row r=\"{number}\">{string.Concat(texts.Select(t => $"<c t=\"inlineStr\"><is><t>{t}</t></is></c>"))}</row>";

    private static (Register.Register Register, FileReport Report, IReadOnlyList<Fact> Facts) Imported(string text, Register.Register? onto = null, ImportMapping? mapping = null)
    {
        var session = new ImportSession(onto ?? Register.Register.Empty(new FactList()), Today);
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", mapping ?? ImportMapping.None with { AsOf = Today });
        var before = onto is null ? [] : Enumerable.Range(1, onto.Count).Select(onto.Source.Read);
        return (FactList.RegisterOf([.. before, .. session.Facts]), report, session.Facts);
    }

    private static DeviceState Device(Register.Register register, string serial) => register.DeviceIds.Select(id => register.Device(id)!).Single(d => d.Serial == serial);
}

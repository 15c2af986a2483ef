using System.Text;
using MicRegister.Documents.Exports;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>What is hard to bring back, one by one: each comes back to the last sign, or is named as left behind.</summary>
public sealed class HardTablesTests
{
    private readonly List<Fact> _facts = [];
    private long _counter;

    private Register.Register Now => FactList.RegisterOf(_facts);

    [Theory]
    [InlineData("00123")]
    [InlineData("1E5")]
    [InlineData("2.5E+07")]
    [InlineData("=A1")]
    [InlineData("-38")]
    [InlineData("\"5\"; 6")]
    [InlineData("two\nlines")]
    [InlineData("Р-77")]
    [InlineData("総 9")]
    [InlineData("_x0041_")]
    [InlineData("microphone")]
    [InlineData("total")]
    [InlineData("||||||||||||||||||||||||||||||||||||||||||||||||||||||||||||")]
    public void A_serial_and_a_place_come_back_as_they_stand(string text)
    {
        Device("M", "microphone", "A-12", text);
        Say(new DeviceMoved(text), "2026-01-02", Subject.Device("M"));

        var back = There(Now).Device("M")!;

        Assert.Equal((text, text), (back.Serial, back.Place));
    }

    [Theory]
    [InlineData(0.1 + 0.2)]
    [InlineData(-38.0000000001)]
    [InlineData(1.234)]
    [InlineData(4.9406564584124654E-10)]
    [InlineData(1.0 / 3)]
    public void A_figure_comes_back_to_the_last_digit(double figure)
    {
        Device("P", "preamplifier", "V", "1");
        var result = new CalibrationResult(AdjustmentState.AsFoundAndLeft, figure, "dB", Math.Abs(figure) + 0.01, "dB", null);
        Certify("P", "2025-01-01", Issued("gain", result) with { FrequencyHz = 251.189 });

        var issued = There(Now).Device("P")!.Certificates.Single().Issued;

        Assert.Equal((result, 251.189), (issued.Results.Single(), issued.FrequencyHz));
    }

    [Fact]
    public void A_device_without_a_serial_number_comes_back_by_its_code_or_by_its_id_alone()
    {
        var code = new SortedDictionary<string, FieldValue> { ["inventory-code"] = FieldValue.Of("INV 7") };
        Say(new DeviceRegistered("cable", null, null, null, code), "2020-01-01", Subject.Device("C1"));
        Say(new DeviceRegistered("cable", "M", "X", null, []), "2020-01-01", Subject.Device("C2"));

        var back = There(Now);

        Assert.Equal(["C1", "C2"], back.DeviceIds);
        Assert.Equal("INV 7", back.Device("C1")!.Text(DeviceField.InventoryCode));
    }

    [Fact]
    public void Devices_of_one_serial_number_stay_several()
    {
        Device("A", "microphone", "A-12", "7");
        Device("B", "preamplifier", "A-12", "7");
        Device("C", "microphone", null, "7");
        Device("D", "microphone", "a 12", "7");
        Device("E", "microphone", "A-12", "O7");
        foreach (var id in new[] { "A", "C", "D" }) Certify(id, "2025-01-01", Issued("sensitivity", Figure(-38)));
        Say(Trial, "2026-01-01", Subject.Campaign("T"));
        Say(new StationPlanned("S1", 1, 2, Mount.Pole, null), "2026-01-01", Subject.Campaign("T"));
        Say(new ChainPlanned("S1", ["B", "D", "A"]), "2026-01-01", Subject.Campaign("T"), Subject.Device("A"));

        var back = There(Now);

        Assert.Equal(["A", "B", "C", "D", "E"], back.DeviceIds);
        Assert.Equal(["A", "B", "D"], back.Campaign("T")!.Chains["S1"].Order(StringComparer.Ordinal));
        Assert.All(new[] { "A", "C", "D" }, id => Assert.Single(back.Device(id)!.Certificates));
    }

    [Fact]
    public void Results_of_one_day_stay_several()
    {
        Device("M", "microphone", "A-12", "1");
        var issued = Issued("sensitivity", Figure(-38));
        Certify("M", "2025-01-01", issued with { Laboratory = "East" });
        Certify("M", "2025-01-01", issued with { Laboratory = "West" });
        Certify("M", "2025-01-01", issued with { Laboratory = "West", Number = "2" });
        Certify("M", "2025-01-01", issued with { Laboratory = "West", Number = "3", Results = [Figure(-38.001)] });
        Certify("M", "2025-01-01", issued with { Laboratory = "West", Results = [Figure(-39.5)] });
        Certify("M", "2025-01-01", issued);

        var back = There(Now).Device("M")!;

        Assert.Equal(6, back.Certificates.Length);
    }

    [Fact]
    public void Results_of_which_the_year_alone_is_known_stay_beside_those_of_days()
    {
        Device("M", "microphone", "A-12", "1");
        Certify("M", "2020-01-01", Issued("sensitivity", Figure(-38)) with { Remark = "only the year is known" });
        Certify("M", "2020-05-04", Issued("sensitivity", Figure(-38.001)));
        Certify("M", "2021-01-01", Issued("sensitivity", Figure(-38.002)) with { Remark = "only the year is known" });

        var back = There(Now).Device("M")!;

        Assert.Equal([true, false, true], back.Certificates.OrderBy(c => c.Day).Select(c => c.Issued.Remark == "only the year is known"));
        // Elsewhere a year counts as one: where its day is known, it is that result and no second one.
        var elsewhere = new HardTablesTests();
        elsewhere.Device("M", "microphone", "A-12", "1");
        elsewhere.Certify("M", "2021-07-01", Issued("sensitivity", Figure(-38.002)));
        Assert.DoesNotContain(
            Roundtrip.Import(elsewhere.Now, Roundtrip.Csv(Now)).Facts, f => f.Kind == "certificate-issued" && f.Occurred.Day.Year == 2021);
    }

    [Fact]
    public void What_does_not_count_does_not_leave_and_is_counted()
    {
        Device("M", "microphone", "A-12", "1");
        Certify("M", "2024-01-01", Issued("sensitivity", Figure(-38)));
        Certify("M", "2025-01-01", Issued("sensitivity", Figure(-38)));
        Say(new FactAnnulled(_facts[^1].Id.ToString(), "another device"), "2025-01-02", Subject.Device("M"));

        var back = There(Now).Device("M")!;

        Assert.Equal(new DateOnly(2024, 1, 1), Assert.Single(back.Certificates).Day);
        Assert.Equal(1, Roundtrip.Tables(Now).Left.Counts["results that were annulled or replaced"]);
    }

    [Fact]
    public void A_retired_device_stays_retired_and_why_is_named_as_left_behind()
    {
        Device("M", "microphone", "A-12", "1");
        Say(new DeviceStatusChanged(DeviceStatus.Lost, null), "2025-01-01", Subject.Device("M"));
        Say(new DeviceStatusChanged(DeviceStatus.Retired, "worn"), "2026-01-01", Subject.Device("M"));

        Assert.Equal(DeviceStatus.Retired, There(Now).Device("M")!.Status);
        var left = Roundtrip.Tables(Now).Left.Counts;
        Assert.Equal((1, 1), (left["reasons of states of use"], left["earlier states of use"]));
    }

    [Fact]
    public void What_is_found_and_left_comes_back_with_the_uncertainty_of_each()
    {
        Device("M", "microphone", "A-12", "1");
        List<CalibrationResult> results =
        [
            new(AdjustmentState.AsFound, 12.4, "mV/Pa", 0.8, "%", 2),
            new(AdjustmentState.AsLeft, -38.05, "dB re 1 V/Pa", 0.06, "dB", 1.96),
        ];
        Certify("M", "2025-01-01", Issued("sensitivity", Figure(0)) with { Results = results });

        Assert.Equal(results, There(Now).Device("M")!.Certificates.Single().Issued.Results);
    }

    [Fact]
    public void What_no_table_holds_is_named_with_its_count()
    {
        Device("M", "microphone", "A-12", "1");
        var sha = new string('a', 64);
        var result = Figure(0) with { Unit = "dB" };
        Certify("M", "2024-01-01", Issued("response", result) with { Curve = sha, Attachment = sha });
        Certify("M", "2025-01-01", Issued("gain", result) with { Results = [result, result, result] });
        Say(new DeviceNoted("bent"), "2025-01-01", Subject.Device("M"));
        Say(new DeviceMoved("unknown"), "2025-01-01", Subject.Device("M"));
        var (one, number) = (FieldValue.Of("1"), FieldValue.Of(1));
        var details = new SortedDictionary<string, FieldValue> { ["calibrator-class"] = one, ["of-the-future"] = number };
        Say(new DeviceDescribed(details, []), "2025-01-01", Subject.Device("M"));
        Say(new DeviceNoted("nobody"), "2025-01-01", Subject.Device("GHOST"));

        var left = Roundtrip.Tables(Now).Left;

        Assert.Equal(
            [
                ("attachments of certificates", 1), ("certificates with several results in one", 1),
                ("details that the device's kind does not have: calibrator-class", 1),
                ("details that the device's kind does not have: of-the-future", 1), ("devices that nobody registered", 1),
                ("facts of the kind device noted", 2), ("response curves of certificates", 1),
                ("texts that no cell holds, under place", 1),
            ],
            left.Counts.Select(c => (c.Key, c.Value)));
        Assert.Contains("Not in the tables: facts of the kind device noted (2).", left.InWords);
    }

    [Fact]
    public void What_an_import_refuses_is_left_out_and_named_with_the_reason()
    {
        Device("M", "microphone", "A-12", "1");
        Certify("M", "2025-01-01", Issued("sensitivity", Figure(0) with { Unit = "%", Value = 3 }));

        var tables = Roundtrip.Tables(Now);

        var (what, count) = Assert.Single(tables.Left.Counts);
        Assert.Equal(1, count);
        Assert.StartsWith(
            "sensitivity of Microphone A-12 1, 2025-01-01: value '3': the unit is missing or does not fit", what, StringComparison.Ordinal);
        Assert.DoesNotContain(tables.Tables, t => t.Name == "results");
    }

    // Whoever edits a row is still asked: only what would be asked of the register's own figures is marked.
    [Fact]
    public void Only_what_would_be_asked_is_marked_as_looked_at()
    {
        Device("M", "microphone", "A-12", "1");
        Certify("M", "2024-01-01", Issued("sensitivity", Figure(-38)));
        Certify("M", "2025-01-01", Issued("sensitivity", Figure(-47)));

        var table = Roundtrip.Tables(Now).Tables.Single(t => t.Name == "results").Table;
        var at = table.Columns.Select(c => c.Key).ToList().IndexOf("checked");
        Assert.Equal([null, "yes"], table.Rows.Select(r => r[at].Text));
        There(Now);

        var csv = Encoding.UTF8.GetString(Roundtrip.Csv(Now).Single(f => f.Name == "results.csv").Bytes)
            .Replace("-38,", "-8.3,", StringComparison.Ordinal);
        var session = new ImportSession(Now, Roundtrip.Today);
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(csv)), "results.csv", ImportMapping.None);
        Assert.Equal(RowSort.Questioned, report.Outcomes[0].Sort);
    }

    [Fact]
    public void An_id_of_another_device_than_the_row_says_is_refused()
    {
        Device("M", "microphone", "A-12", "1");
        const string Text = "kind,model,serial,micregister-id\nmicrophone,A-12,2,M\nmicrophone,B-1,1,M\nmicrophone,A-12,,M\ncable,,9,x y\n";

        var report = new ImportSession(Now, Roundtrip.Today)
            .Take(new MemoryStream(Encoding.UTF8.GetBytes(Text)), "d.csv", ImportMapping.None);

        Assert.Equal([RowSort.Refused, RowSort.Refused, RowSort.AlreadyThere, RowSort.Refused], report.Outcomes.Select(o => o.Sort));
        Assert.Contains("serial '2': the id is that of Microphone 1", report.Outcomes[0].Text, StringComparison.Ordinal);
        Assert.Contains("model 'B-1'", report.Outcomes[1].Text, StringComparison.Ordinal);
        Assert.Contains("1 to 60 letters, digits and dashes", report.Outcomes[3].Text, StringComparison.Ordinal);
    }

    // As a spreadsheet stores it again, without the fourth decimal that keeps it apart from thousands.
    [Fact]
    public void A_number_of_a_workbook_has_no_mark_of_thousands()
    {
        Device("M", "microphone", "A-12", "1");
        string[] keys = ["micregister-id", "lowest-hz"];
        var table = new ExportTable(
            "", [.. keys.Select((k, i) => new ExportColumn(k, k, i == 0 ? "" : "Hz", ""))], [[ExportCell.Of("M"), ExportCell.Of(31.585)]],
                []);
        using var content = new MemoryStream();
        XlsxExport.Write(table, content);

        var report = new ImportSession(Now, Roundtrip.Today).Take(content, "d.xlsx", ImportMapping.None with { AsOf = Roundtrip.Today });

        Assert.True(report.IsGood, string.Join(' ', report.Outcomes.Select(o => o.Text)));
        Assert.Contains("lowest-hz nothing → 31.585", report.Outcomes.Single().Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Blanks_around_a_text_are_no_change()
    {
        Device("M", "microphone", "A-12", "1");
        Say(new DeviceMoved(" Hall 1 "), "2026-01-02", Subject.Device("M"));
        Say(new DeviceDescribed(new() { ["owner"] = FieldValue.Of("House ") }, []), "2026-01-02", Subject.Device("M"));
        Say(new DeviceInspected(true, 0.1, null, null, "looks good "), "2026-01-02", Subject.Device("M"));

        Assert.Equal("Hall 1", There(Now).Device("M")!.Place);
    }

    [Fact]
    public void Entries_that_were_joined_stay_one_in_chains_and_kit()
    {
        Device("A", "microphone", "A-12", "1");
        Device("B", "microphone", "A-12", "01");
        Say(Trial, "2026-01-01", Subject.Campaign("T"));
        Say(new StationPlanned("S1", 1, 2, Mount.Pole, null), "2026-01-01", Subject.Campaign("T"));
        Say(new ChainPlanned("S1", ["B"]), "2026-01-01", Subject.Campaign("T"), Subject.Device("B"));
        Say(new KitPlanned(KitPurpose.Spare, ["B"]), "2026-01-01", Subject.Campaign("T"), Subject.Device("B"));
        Say(new DevicesJoined("A", "B", "one"), "2026-01-03", Subject.Device("A"), Subject.Device("B"));

        Assert.Equal(["A"], There(Now).Campaign("T")!.Chains["S1"]);
    }

    [Fact]
    public void A_device_that_is_known_under_another_id_is_that_device()
    {
        Device("M", "microphone", "A-12", "1");
        var other = new HardTablesTests();
        other.Device("ELSEWHERE", "microphone", "A-12", "1");

        Assert.Empty(Roundtrip.Import(Now, Roundtrip.Csv(other.Now)).Facts);
    }

    [Fact]
    public void Every_column_is_known_by_its_header_alone()
    {
        var register = FactList.RegisterOf(new RandomFleet(5).State(200).Facts);

        var columns = Roundtrip.Tables(register).Tables.SelectMany(t => t.Table.Columns).Select(c => c.Key).Distinct().ToList();

        Assert.True(columns.Count > 100, $"{columns.Count} columns");
        Assert.All(columns, c => Assert.Equal(c, Column.ByName(c)?.Key));
    }

    [Fact]
    public void The_limits_of_a_changed_built_in_profile_come_back_without_those_that_were_taken_out()
    {
        var builtIn = BuiltInProfiles.Find(BuiltInProfiles.Usual)!.Written;
        Say(builtIn with { Name = "Ours", Limits = [.. builtIn.Limits.Skip(2)] }, "2026-01-01", Subject.Profile(BuiltInProfiles.Usual));

        var back = There(Now).Profile(BuiltInProfiles.Usual)!;

        Assert.Equal("Ours", back.Written.Name);
        Assert.Equal(
            builtIn.Limits.Skip(2).OrderBy(l => l.Key, StringComparer.Ordinal),
            back.Written.Limits.OrderBy(l => l.Key, StringComparer.Ordinal));
    }

    // There and back: nothing changes here, an empty register says the same and gives the same files, as tables and as a workbook.
    private static Register.Register There(Register.Register register)
    {
        var files = Roundtrip.Csv(register);
        var (facts, rows) = Roundtrip.Import(register, files);
        Assert.Empty(facts);
        Assert.All(rows, r => Assert.True(r.Sort == RowSort.AlreadyThere, $"{r.Sort}: {r.Text}"));
        foreach (var device in FleetTables.OfDevices) Roundtrip.Import(Roundtrip.Empty, [.. files.Where(f => f.Name == device + ".csv")]);
        var there = FactList.RegisterOf(Roundtrip.Import(Roundtrip.Empty, files).Facts);
        Assert.Equal(Roundtrip.Says(register), Roundtrip.Says(there));
        Assert.Equal(Texts(files), Texts(Roundtrip.Csv(there)));
        var workbook = Roundtrip.Workbook(register);
        Assert.Empty(Roundtrip.Import(register, ("r.xlsx", workbook)).Facts);
        Assert.Equal(
            Roundtrip.Says(register), Roundtrip.Says(FactList.RegisterOf(Roundtrip.Import(Roundtrip.Empty, ("r.xlsx", workbook)).Facts)));
        return there;
    }

    private static IEnumerable<string> Texts(IEnumerable<(string Name, byte[] Bytes)> files) =>
        files.Select(f => f.Name + "\n" + Encoding.UTF8.GetString(f.Bytes));

    private static CampaignPlanned Trial => new(
        "Trial", new(2026, 7, 1), new(2026, 7, 9), "Atlantic/Azores", [], "Site", 10, SourceClass.Jet, 50, 10000, null, null,
        BuiltInProfiles.Usual, 0, null);

    private static CalibrationResult Figure(double value) => new(AdjustmentState.AsFoundAndLeft, value, "dB re 1 V/Pa", 0.06, "dB", 2);

    private static CertificateIssued Issued(string quantity, CalibrationResult result) =>
        new(quantity, null, null, null, null, null, null, null, [result], null, null, null, null, null, null, null);

    private void Device(string id, string kind, string? model, string serial) =>
        Say(new DeviceRegistered(kind, null, model, serial, []), "2020-01-01", Subject.Device(id));

    private void Certify(string device, string day, CertificateIssued issued) => Say(issued, day, Subject.Device(device));

    private void Say(FactBody body, string when, params IReadOnlyList<string> subjects)
    {
        Assert.True(Occurred.TryParse(when, out var occurred));
        _facts.Add(FactText.WriteDerived(new(occurred, "ada", "desk", ++_counter), body, subjects));
    }
}

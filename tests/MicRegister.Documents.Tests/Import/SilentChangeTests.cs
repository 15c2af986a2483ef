using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Documents.Tests.Sheets;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Import;

/// <summary>What a list says by other means than plain cells: asked or said, never taken without a word.</summary>
public sealed class SilentChangeTests
{
    private const string Style = "<fonts><font/><font><strike/></font><font><strike val=\"0\"/></font></fonts><fills/>"
        + "<cellXfs><xf numFmtId=\"0\" fontId=\"0\"/><xf numFmtId=\"0\" fontId=\"1\"/><xf numFmtId=\"0\" fontId=\"2\"/></cellXfs>";

    [Theory]
    [InlineData("0.25", "1")]
    [InlineData("1", "1")]
    public void Frequencies_that_are_hardly_hertz_are_asked_about(string one, string two)
    {
        var text = $"Kind,Serial,Date,Result,Frequency\nsound calibrator,7,2025-03-01,114.0 dB,{one}\nsound calibrator,8,2025-03-01,94.0 dB,{two}\n";

        var report = Take(text).Report;

        var asked = Assert.Single(report.Questions);
        Assert.Equal(["\"Frequency\" = calibration-hz [kHz]", "\"Frequency\" = calibration-hz [Hz]"], asked.Choices.Select(c => c.Rule));
        Assert.Equal(0, report.Facts);
        Assert.Equal(1000 * double.Parse(one, System.Globalization.CultureInfo.InvariantCulture),
            Of(Take(text, asked.RuleOf(asked.Choices[0])), "7").Certificates[0].Issued.FrequencyHz!.Value, 1e-9);
        Assert.Equal(double.Parse(one, System.Globalization.CultureInfo.InvariantCulture),
            Of(Take(text, asked.RuleOf(asked.Choices[1])), "7").Certificates[0].Issued.FrequencyHz);
    }

    [Theory]
    [InlineData("Frequency", "250", "1000")]
    [InlineData("Frequency", "16", "31.5")]
    [InlineData("Frequency [kHz]", "0.25", "1")]
    [InlineData("Frequency [Hz]", "2", "4")]
    [InlineData("Frequency", "0.25 kHz", "1 kHz")]
    public void Frequencies_that_can_be_hertz_or_say_their_unit_are_not(string header, string one, string two) => Assert.True(Take(
        $"Kind,Serial,Date,Result,{header}\nsound calibrator,7,2025-03-01,114.0 dB,{one}\nsound calibrator,8,2025-03-01,94.0 dB,{two}\n")
            .Report.IsGood);

    [Fact]
    public void Rows_struck_through_are_asked_about_once_a_sheet()
    {
        var report = Struck().Report;

        Assert.Equal((1, 2), (report.Count(RowSort.New), report.Count(RowSort.Questioned)));
        Assert.Equal(["struck-rows := leave-out", "struck-rows := take"], Assert.Single(report.Questions).Choices.Select(c => c.Rule));
        Assert.Equal("10 9", Serials(Struck("struck-rows := take")) is ['7', ' ', .. var rest] ? rest : "");
        Assert.Equal("7", Serials(Struck("struck-rows := leave-out")));
        Assert.Equal(2, Struck("struck-rows := leave-out").Report.Count(RowSort.PassedOver));
    }

    [Theory]
    [InlineData("ditto")]
    [InlineData("dito")]
    [InlineData("\"\"\"\"")]
    [InlineData("idem")]
    [InlineData("same")]
    public void A_mark_for_the_cell_above_is_asked_about_once_with_both_answers(string mark)
    {
        var text = $"Kind,Serial,Place\nmic,7,Hall 1\nmic,8,{mark}\nmic,9,{mark}\nmic,10,Van\n";

        var (report, register) = Take(text);
        Assert.Equal("ditto", Assert.Single(report.Questions).Key);
        Assert.Equal(2, register.DeviceIds.Count());
        Assert.Equal("Hall 1", Of(Take(text, "ditto := above"), "9").Place);
        Assert.Equal(mark[0] == '"' ? "\"" : mark, Of(Take(text, "ditto := keep"), "9").Place);
    }

    [Theory]
    [InlineData("Kind,Serial,Place\nmic,7,Hall 1\nmic,8,Hall 1\n")]
    [InlineData("Kind,Serial,Place\nmic,7,same\nmic,8,Hall 1\n")] // nothing above it
    [InlineData("Kind,Serial,Place\nmic,7,Hall 1\nmic,8,The same hall\n")]
    public void Other_cells_are_not_asked_about(string text) => Assert.True(Take(text).Report.IsGood);

    [Fact]
    public void A_due_day_before_its_calibration_is_asked_about()
    {
        const string Head = "Kind,Serial,Date,mV/Pa,Due";

        var report = Take(Head + "\nmic,7,2025-03-01,50,2024-03-01\nmic,8,2025-03-01,50,2026-03-01\nmic,9,2025-03-01,50,\n").Report;

        var asked = Assert.Single(report.Outcomes, o => o.Sort != RowSort.New);
        Assert.Equal((RowSort.Questioned, 2, "Due"), (asked.Sort, asked.Row, asked.Header));
        Assert.Contains("before the day of calibration, 2025-03-01", asked.Text, StringComparison.Ordinal);
        Assert.True(Take(Head + ",Why,Checked\nmic,7,2025-03-01,50,2024-03-01,,yes\n").Report.IsGood);
    }

    [Fact]
    public void It_is_said_which_cell_settles_the_order_of_days()
    {
        static string[] Said(string days, string rules = "") => [.. Take("Kind,Serial,mV/Pa,Date\n" + string.Concat(days.Split(' ')
            .Select((d, i) => $"mic,{i + 1},50,{d}\n")), rules).Report.Notices.Where(n =>
                n.Contains("since cell", StringComparison.Ordinal))];

        Assert.Equal(["f.csv: days such as 03/04/2025 are read as day/month, since cell D3 says 14/04/2025."],
            Said("03/04/2025 14/04/2025"));
        Assert.Equal(["f.csv: days such as 03/04/2025 are read as month/day, since cell D2 says 04/14/2025."],
            Said("04/14/2025 03/04/2025"));
        Assert.Empty(Said("13/04/2025 14/04/2025"));
        Assert.Empty(Said("2025-04-03 2025-04-14"));
        Assert.Empty(Said("03/04/2025 14/04/2025", "dates := day-first"));
    }

    [Theory]
    [InlineData("all uncertainties k=1", 1.0)]
    [InlineData("Alle Unsicherheiten mit k = 3", 3.0)]
    [InlineData("Microphones", null)]
    public void A_title_says_the_factor_of_all_uncertainties(string title, double? k) => Assert.Equal(
        k, Of(Take(title + "\n\nKind,Serial,Date,mV/Pa,U [dB]\nmic,7,2025-03-01,50,0.06\n"), "7").Certificates[0].InForce!.CoverageFactor);

    [Fact]
    public void Words_and_units_of_the_trade_are_not_asked_about()
    {
        Assert.Equal(DeviceStatus.OutOfService, Of(Take("Kind,Serial,Status\nmic,7,not in service\n"), "7").Status);
        // 760 mmHg is the standard atmosphere of 101.325 kPa.
        Assert.Equal(101.325, Of(Take("Kind,Serial,Date,mV/Pa,Pressure [mmHg]\nmic,7,2025-03-01,50,760\n"), "7")
            .Certificates[0].Issued.Air!.PressureKPa!.Value, 1e-3);
    }

    private static (FileReport Report, Register.Register Register) Struck(string rules = "")
    {
        static string Row(int number, int style, params string[] texts) => $"<row r=\"{number}\">"
            + string.Concat(texts.Select(t => $"<c t=\"inlineStr\" s=\"{style}\"><is><t>{t}</t></is></c>")) + "</row>";
        var data = Row(1, 0, "Kind", "Serial", "Place") + Row(2, 2, "mic", "7", "Hall 1") + Row(3, 1, "mic", "9", "Hall 1") + Row(4, 1,
            "mic", "10", "Van");
        using var book = Workbook.Of(data, change: p => p["xl/styles.xml"] =
            "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\">" + Style + "</styleSheet>");
        return Take(book, "f.xlsx", rules);
    }

    private static string Serials((FileReport Report, Register.Register Register) taken) =>
        string.Join(' ', taken.Register.DeviceIds.Select(id => taken.Register.Device(id)!.Serial)
            .OrderBy(s => s!.Length == 1 && s == "7" ? "" : s, StringComparer.Ordinal));

    private static DeviceState Of((FileReport Report, Register.Register Register) taken, string serial)
    {
        Assert.True(taken.Report.IsGood,
            string.Join(' ', taken.Report.Questions.Select(q => q.Text).Concat(taken.Report.Outcomes.Select(o => o.Text))));
        return taken.Register.DeviceIds.Select(id => taken.Register.Device(id)!).Single(d => d.Serial == serial);
    }

    private static (FileReport Report, Register.Register Register) Take(string text, string rules = "") =>
        Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", rules);

    private static (FileReport Report, Register.Register Register) Take(Stream file, string name, string rules)
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), new(2026, 6, 1));
        var report = session.Take(file, name, ImportMapping.Read(new StringReader(rules), "rules"));
        return (report, FactList.RegisterOf(session.Facts));
    }
}

using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Import;

/// <summary>What a table says without saying it, and what is asked of a person.</summary>
public sealed class UnderstandingTests
{
    private static readonly DateOnly Today = new(2026, 6, 1);

    // Headers as laboratories write them (common practice, no source).
    [Theory]
    [InlineData("Remark", "note")]
    [InlineData("Last cal", "day")]
    [InlineData("Cal due", "due")]
    [InlineData("Ser.-Nr.", "serial")]
    [InlineData("Anmerkung", "note")]
    [InlineData("Asset ID", "inventory-code")]
    [InlineData("U95", "uncertainty")]
    [InlineData("N° de série", "serial")]
    [InlineData("Date d'étalonnage", "day")]
    [InlineData("mV/Pa", "value")]
    [InlineData("dB re 1 V/Pa", "value")]
    [InlineData("Número de serie", "serial")]
    [InlineData("Data di taratura", "day")]
    [InlineData("Volgende kalibratie", "due")]
    [InlineData("Seriennumer", "serial")]
    public void Headers_are_known_by_their_words(string header, string key) => Assert.Equal(key, HeaderReading.Of(header).Column?.Key);

    [Theory]
    [InlineData("2023 mV/Pa")]
    [InlineData("2023, mV/Pa")]
    [InlineData("Sens. 2023 (mV/Pa)")]
    [InlineData("Kal. 2023 [mV/Pa]")]
    public void A_year_in_a_header_is_a_column_of_results(string header)
    {
        var reading = HeaderReading.Of(header);

        Assert.Equal(("value", new DateOnly(2023, 1, 1), "mV/Pa"), (reading.Column?.Key, reading.Year, reading.Unit));
    }

    [Theory]
    [InlineData("Messmikrofon 1/2\"", "microphone")]
    [InlineData("Schallkalibrator", "sound-calibrator")]
    [InlineData("Pistonfon", "sound-calibrator")]
    [InlineData("Aufnahmekanal", "recorder-channel")]
    [InlineData("Mikrofonkabel", "cable")]
    [InlineData("Mikrofonvorverstärker", "preamplifier")]
    [InlineData("Adapter for microphone 1/4\"", "calibration-adapter")]
    public void Kinds_are_known_by_their_words(string text, string kind) => Assert.Equal(kind, Words.Kind(text)?.Key);

    [Fact]
    public void A_column_of_a_bare_unit_holds_the_results()
    {
        var register = Good("Model,Serial,Date,mV/Pa\nM1,7,2025-03-01,49.7\n");

        Assert.Equal((49.7, "mV/Pa"), (Only(register).Certificates[0].InForce!.Value, Only(register).Certificates[0].InForce!.Unit));
        Assert.Equal("microphone", Only(register).Kind);
    }

    [Theory]
    [InlineData("Kind,Serial,Date,mV/Pa\nmic,7,2025-03-01,\nmic,8,2025-03-01,50\n", "missing-results")]
    [InlineData("Kind,Serial,Last cal\nmic,7,2025-03-01\n", "days-without-results")]
    [InlineData("Kind,Serial,Date,Sensitivity\nmic,7,2025-03-01,49.7\n", "unit Sensitivity")]
    [InlineData("Kind,Serial,Date,Sensitivity\nmic,7,2025-03-01,49.7 mV\n", "mV")]
    [InlineData("Model,Serial,Owner\nM1,7,Hall\n", "kind")]
    [InlineData("Kind,Serial,Date,mV/Pa\nmic,7,03/04/2025,50\n", "dates")]
    [InlineData("Kind,Serial,Date,mV/Pa\nmic,7,45000,50\n", "day-numbers")]
    [InlineData("Kind,Serial,Status\nmic,7,sleepy\nmic,8,sleepy\n", "word status sleepy")]
    [InlineData("Kind,Serial,Zweifel\nmic,7,gross\n", "column zweifel")]
    [InlineData("Kind,Serial\nmic,A\u201177\n", "odd-signs")]
    [InlineData("Kind,Serial\nmic,A-77\nmic,a-77\n", "capitals")]
    [InlineData("Kind,Serial,Date,mV/Pa,dB re 1 V/Pa\nmic,7,2025-03-01,50,-36.02\n", "second 4")]
    [InlineData("Colour,Model,Date,mV/Pa\nK1,M1,2025-03-01,50\nK2,M1,2025-03-01,51\nK3,M1,2025-03-01,51\n", "serial")]
    public void What_nobody_can_know_is_asked_once_and_each_answer_settles_it(string text, string key)
    {
        var asked = Assert.Single(Read(text).Report.Questions);

        Assert.Equal(key, asked.Key);
        Assert.NotEmpty(asked.Choices);
        Assert.All(asked.Choices, choice =>
        {
            var report = Read(text, asked.RuleOf(choice)).Report;
            Assert.DoesNotContain(report.Questions, q => q.Key == key);
        });
    }

    [Fact]
    public void One_day_beyond_the_twelfth_settles_a_column()
    {
        var register = Good("Kind,Serial,Date,mV/Pa\nmic,7,03/04/2025,50\nmic,8,04/14/2025,50\n");

        Assert.Equal(new DateOnly(2025, 3, 4), Device(register, "7").Certificates[0].Day);
        var both = Read("Kind,Serial,Date,mV/Pa\nmic,7,03/04/2025,50\nmic,8,04/14/2025,50\nmic,9,14/04/2025,50\n").Report;
        Assert.Equal("dates", Assert.Single(both.Questions).Key);
    }

    [Fact]
    public void A_negative_result_in_millivolts_is_no_level()
    {
        var (report, facts) = Read("Kind,Serial,Date,mV/Pa\nmic,7,2025-03-01,-49.7\nmic,8,2025-03-01,-26.07\n");

        Assert.Equal(2, report.Count(RowSort.Refused));
        Assert.Empty(facts);
    }

    [Fact]
    public void Siblings_of_a_model_say_which_result_is_ten_times_off()
    {
        var rows = string.Concat(Enumerable.Range(1, 29).Select(i => $"mic,M1,{i},2025-03-01,{(50 + (0.05 * i)).ToString("F2", System.Globalization.CultureInfo.InvariantCulture)}\n"));

        var report = Read("Kind,Model,Serial,Date,mV/Pa\n" + rows + "mic,M1,30,2025-03-01,500\nmic,M1,31,2025-03-01,5.01\n").Report;

        var asked = report.Outcomes.Where(o => o.Sort == RowSort.Questioned).ToList();
        Assert.Equal([31, 32], asked.Select(o => o.Row));
        Assert.All(asked, o => Assert.Contains("off the others of its model, a factor of ten", o.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_stray_quote_costs_its_row_alone()
    {
        var (report, facts) = Read("Kind,Serial,Place\nmic,7,\"Hall 2\nmic,8,Hall 3\nmic,9,\"Hall \"\"4\"\"\"\nmic,10,a\"b\nmic,11,Hall 5\n");

        Assert.Equal([2, 5], report.Outcomes.Where(o => o.Sort == RowSort.Refused).Select(o => o.Row));
        Assert.Equal(["8", "9", "11"], facts.Select(f => f.Body).OfType<DeviceRegistered>().Select(d => d.Serial!));
    }

    [Fact]
    public void Results_of_two_laboratories_and_two_certificates_of_one_day_are_all_kept()
    {
        var register = Good("Kind,Serial,Date,mV/Pa,Lab,Certificate\nmic,7,2025-03-01,50.0,North,1\nmic,7,2025-03-01,50.4,South,2\nmic,7,2025-03-01,50.2,South,3\n");

        Assert.Equal([50.0, 50.2, 50.4], Only(register).Certificates.Select(c => c.InForce!.Value).Order());
    }

    [Fact]
    public void A_row_a_quantity_is_one_certificate()
    {
        var register = Good("Serial,Date,Parameter,Value,Unit\n7,2025-03-01,Sensitivity,50.1,mV/Pa\n7,2025-03-01,Static pressure,101.2,kPa\n"
            + "7,2025-03-01,Temperature,22.5,°C\n7,2025-03-01,Uncertainty,0.08,dB\n7,2025-03-01,Capacitance,18.4,pF\n");

        var issued = Assert.Single(Only(register).Certificates).Issued;
        Assert.Equal((101.2, 22.5, 0.08), (issued.Air!.PressureKPa, issued.Air.TemperatureC, issued.Results[0].ExpandedUncertainty));
        Assert.Equal("Capacitance: 18.4 pF", Assert.Single(Only(register).Notes).What.Text);
    }

    [Fact]
    public void Two_devices_of_a_row_are_both_taken_and_say_of_each_other()
    {
        var register = Good("Mic model,Mic S/N,Preamp model,Preamp S/N,Date,mV/Pa\nM1,7,P1,31,2025-03-01,50\n");

        Assert.Equal(["microphone", "preamplifier"], register.DeviceIds.Select(id => register.Device(id)!.Kind!).Order());
        Assert.Equal("Listed together with Preamplifier 31.", Assert.Single(Device(register, "7").Notes).What.Text);
        Assert.Empty(Device(register, "31").Certificates);
    }

    [Fact]
    public void Headings_say_the_kind_of_the_rows_below_and_one_that_nobody_knows_is_asked()
    {
        var (report, facts) = Read("Model,Serial\nMicrophones 1/2\",\nM1,7\nGizmos,\nG1,8\n");

        var registered = Assert.Single(facts.Select(f => f.Body).OfType<DeviceRegistered>());
        Assert.Equal(("microphone", "7", 12.7), (registered.Kind, registered.Serial, registered.Details["size-mm"].Number));
        Assert.Equal("word kind gizmos", Assert.Single(report.Questions).Key);
    }

    [Fact]
    public void A_legend_of_a_sheet_is_of_that_sheet_alone()
    {
        var legend = ImportMapping.Read(new StringReader("kind := microphone\n[sheet Amps] kind := preamplifier\n\"a = b [x]\" = serial\n"), "l");

        Assert.Equal("preamplifier", legend.For("AMPS").Constants[Column.Kind]);
        Assert.Equal("microphone", legend.For("Mics").Constants[Column.Kind]);
        Assert.Equal(Column.Serial, legend.OfHeader("A = B [x]")?.Column);
        Assert.Null(legend.OfHeader("A = B [y]"));
    }

    private static Register.Register Good(string text)
    {
        var (report, facts) = Read(text);
        Assert.True(report.IsGood, string.Join("\n", report.Questions.Select(q => q.Text).Concat(report.Outcomes.Select(o => o.Text))));
        return FactList.RegisterOf(facts);
    }

    private static (FileReport Report, IReadOnlyList<Fact> Facts) Read(string text, string legend = "")
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), Today);
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", ImportMapping.Read(new StringReader(legend), "legend"));
        return (report, session.Facts);
    }

    private static DeviceState Only(Register.Register register) => register.Device(Assert.Single(register.DeviceIds))!;

    private static DeviceState Device(Register.Register register, string serial) => register.DeviceIds.Select(id => register.Device(id)!).Single(d => d.Serial == serial);
}

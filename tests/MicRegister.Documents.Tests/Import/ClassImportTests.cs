using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Classes of instruments and least classes as tables hold them.</summary>
public sealed class ClassImportTests
{
    private const string Header = "Kind,Model,Serial,Class,Edition\n";

    [Theory]
    [InlineData("1L,", "1L", null)]
    [InlineData("1/L,", "1L", null)]
    [InlineData("1 L (1997),", "1L", null)]
    [InlineData("\"class 1, IEC 60942:2017\",", "1", "2017")]
    [InlineData("Klasse 1,2017", "1", "2017")]
    [InlineData("1/C,", "1/C", null)]
    [InlineData("1,", "1", null)]
    [InlineData("0,", "0", null)]
    public void A_class_comes_in_as_people_write_it(string cells, string name, string? edition)
    {
        var (register, report, _) = Imported($"{Header}calibrator,K,501,{cells}\n");

        Assert.Equal(RowSort.New, Assert.Single(report.Outcomes).Sort);
        var device = register.Device(register.DeviceIds.Single())!;
        // Where the letter tells the edition, none is stored beside it.
        Assert.Equal(name, device.Text(DeviceField.CalibratorClass));
        Assert.Equal(edition, device.Text(DeviceField.CalibratorEdition));
        Assert.Equal(RowSort.AlreadyThere, Assert.Single(Imported($"{Header}calibrator,K,501,{cells}\n", register).Report.Outcomes).Sort);
    }

    [Theory]
    [InlineData("gold,", "Class", "Class 'gold': 'gold' names no class of a sound calibrator; allowed is such as '1L'")]
    [InlineData("1L,2017", "Class", "class 1L of IEC 60942:1997 is not of the edition '2017'; allowed are IEC 942:1988 (0, 1, 2)")]
    [InlineData(",2018", "Edition", "Edition '2018': '2018' names no edition that is known")]
    public void What_is_no_class_is_refused_with_its_cell(string cells, string header, string says)
    {
        var (_, report, facts) = Imported($"{Header}calibrator,K,501,{cells}\n");

        var outcome = Assert.Single(report.Outcomes);
        Assert.Equal((RowSort.Refused, 2, header), (outcome.Sort, outcome.Row, outcome.Header));
        Assert.Contains(says, outcome.Text, StringComparison.Ordinal);
        Assert.Empty(facts);
    }

    [Fact]
    public void An_edition_that_the_register_holds_is_asked_too()
    {
        var (register, _, _) = Imported(Header + "calibrator,K,501,1/C,\n");

        var outcome = Assert.Single(Imported("Kind,Model,Serial,Edition\ncalibrator,K,501,2017\n", register).Report.Outcomes);

        Assert.Equal((RowSort.Refused, "Edition"), (outcome.Sort, outcome.Header));
    }

    [Fact]
    public void Recorder_channels_have_classes_of_filters_and_meters()
    {
        var (register, _, _) = Imported(
            "Kind,Model,Serial,Filter class,Meter type\nchannel,R,301,\"class 1, IEC 61260:1995\",Type 1 IEC 651\n");

        var device = register.Device(register.DeviceIds.Single())!;
        Assert.Equal("class 1 of IEC 61260:1995", device.Text(DeviceField.FilterClass));
        Assert.Equal("type 1 of IEC 651:1979", device.Text(DeviceField.MeterClass));
    }

    [Fact]
    public void A_least_class_comes_in_with_its_profile_or_is_refused()
    {
        const string header = "Profile,Limit,Limit text,Value,Source\n";
        var (register, _, _) = Imported(header + "own-rules,calibrator-class-least,IEC 60942:1997 1L or later,,house rule\n");
        Assert.Equal("IEC 60942:1997 1L or later", register.Profile("own-rules")!.Limit(LimitKey.CalibratorClassLeast)!.Text);

        var refused = Assert.Single(Imported(header + "own-rules,calibrator-class-least,1 or later,,house rule\n").Report.Outcomes);
        Assert.Equal((RowSort.Refused, "Limit text"), (refused.Sort, refused.Header));
        Assert.Contains("a least class names its edition", refused.Text, StringComparison.Ordinal);

        refused = Assert.Single(Imported(header + "own-rules,meter-class-least,,1,house rule\n").Report.Outcomes);
        Assert.Equal((RowSort.Refused, "Value"), (refused.Sort, refused.Header));

        Assert.Null(Imported(header + "own-rules,calibrator-class-least,none,,house rule\n", register).Register
            .Profile("own-rules")!.Limit(LimitKey.CalibratorClassLeast));
    }

    private static (Register.Register Register, FileReport Report, IReadOnlyList<Fact> Facts) Imported(
        string text, Register.Register? onto = null)
    {
        var session = new ImportSession(onto ?? Register.Register.Empty(new FactList()), new(2026, 6, 1));
        var report = session.Take(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", ImportMapping.None);
        var before = onto is null ? [] : Enumerable.Range(1, onto.Count).Select(onto.Source.Read);
        return (FactList.RegisterOf([.. before, .. session.Facts]), report, session.Facts);
    }
}

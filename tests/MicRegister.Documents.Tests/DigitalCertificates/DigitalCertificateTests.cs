using System.Text;
using MicRegister.Documents.DigitalCertificates;

namespace MicRegister.Documents.Tests.DigitalCertificates;

/// <summary>Invented certificates, written by hand after the elements of DCC 3.1 to 3.3 and D-SI 2.1 and 2.2.</summary>
public sealed class DigitalCertificateTests
{
    private const string Unit = @"<si:unit>\volt\pascal\tothe{-1}</si:unit>";

    // 0.0125 V/Pa is 20 lg 0.0125 = -38.0618 dB; 20 lg(1 + 0.00014 / 0.0125) = 0.09674 dB (Python 3.11).
    [Theory]
    [InlineData("3.1.2", "<si:expandedUnc><si:uncertainty>0.00014</si:uncertainty><si:coverageFactor>2</si:coverageFactor>"
        + "<si:coverageProbability>0.95</si:coverageProbability></si:expandedUnc>", "to 2.1")]
    [InlineData("3.3.0", "<si:measurementUncertaintyUnivariate><si:expandedMU><si:valueExpandedMU>0.00014</si:valueExpandedMU>"
        + "<si:coverageFactor>2</si:coverageFactor><si:coverageProbability>0.95</si:coverageProbability></si:expandedMU>"
        + "</si:measurementUncertaintyUnivariate>", "from 2.2")]
    public void Both_forms_of_an_expanded_uncertainty_are_read(string version, string uncertainty, string where)
    {
        var read = Read(version, $"<si:real><si:value>0.0125</si:value>{Unit}{uncertainty}</si:real>");
        var value = Assert.Single(Assert.Single(read.Quantities).Values);

        Assert.Equal((0.0125, "V/Pa", 0.00014, 2.0), (value.Value, value.Unit, value.Expanded!.Value, value.CoverageFactor!.Value));
        Assert.Equal(-38.0618, value.LevelDb!.Value, 1e-4);
        Assert.Equal(0.09674, value.ExpandedDb!.Value, 1e-5);
        Assert.EndsWith(where, value.Remark, StringComparison.Ordinal);
        Assert.Empty(read.Notes);
    }

    [Theory]
    [InlineData("<si:measurementUncertaintyUnivariate><si:standardMU><si:valueStandardMU>0.00007</si:valueStandardMU>"
        + "</si:standardMU></si:measurementUncertaintyUnivariate>", 0.00007, 1)]
    [InlineData("<si:coverageInterval><si:standardUnc>0.00007</si:standardUnc><si:intervalMin>0.0124</si:intervalMin>"
        + "<si:intervalMax>0.0126</si:intervalMax><si:coverageProbability>0.95</si:coverageProbability>"
        + "</si:coverageInterval>", 0.00007, 1)]
    // The greater half, 0.0127 - 0.0125, by the smallest factor of a 95 % interval, 0.95 sqrt 3 (JCGM 100:2008, G.1.3, of a rectangular
    // distribution).
    [InlineData("<si:measurementUncertaintyUnivariate><si:coverageIntervalMU><si:intervalMin>0.0124</si:intervalMin>"
        + "<si:intervalMax>0.0127</si:intervalMax><si:coverageProbability>0.95</si:coverageProbability></si:coverageIntervalMU>"
        + "</si:measurementUncertaintyUnivariate>", 0.0002, 1.6454)]
    public void Standard_uncertainties_and_intervals_are_read(string uncertainty, double expanded, double factor)
    {
        var value = Read("3.3.0", $"<si:real><si:value>0.0125</si:value>{Unit}{uncertainty}</si:real>").Quantities[0].Values[0];

        Assert.Equal(expanded, value.Expanded!.Value, 1e-12);
        Assert.Equal(factor, value.CoverageFactor!.Value, 1e-3);
    }

    [Theory]
    [InlineData("", "U not read: none was found")]
    [InlineData("<si:measurementUncertaintyNew><si:u>1</si:u></si:measurementUncertaintyNew>",
        "U not read: it stands in measurementUncertaintyNew, which is not known")]
    [InlineData("<si:measurementUncertaintyUnivariate><si:otherMU>1</si:otherMU></si:measurementUncertaintyUnivariate>",
        "U not read: it stands in otherMU")]
    [InlineData("<si:expandedUnc><si:uncertainty>0</si:uncertainty><si:coverageFactor>2</si:coverageFactor></si:expandedUnc>",
        "not above 0")]
    [InlineData("<si:expandedUnc><si:uncertainty>0.1</si:uncertainty></si:expandedUnc>", "no coverage factor")]
    [InlineData("<si:expandedUnc><si:uncertainty>0.1</si:uncertainty><si:coverageFactor>0.5</si:coverageFactor></si:expandedUnc>",
        "beyond 1 to 10")]
    [InlineData("<si:coverageInterval><si:intervalMin>0.0124</si:intervalMin><si:intervalMax>0.0126</si:intervalMax>"
        + "<si:coverageProbability>0.68</si:coverageProbability></si:coverageInterval>", "none of 95 %")]
    [InlineData("<si:coverageInterval><si:intervalMin>0.0126</si:intervalMin><si:intervalMax>0.0127</si:intervalMax>"
        + "<si:coverageProbability>0.95</si:coverageProbability></si:coverageInterval>", "does not contain its value")]
    public void A_value_whose_uncertainty_is_not_read_is_never_exact(string uncertainty, string says)
    {
        var read = Read("3.3.0", $"<si:real><si:value>0.0125</si:value>{Unit}{uncertainty}</si:real>");
        var value = read.Quantities[0].Values[0];

        Assert.Equal((null, null), (value.Expanded, value.CoverageFactor));
        Assert.StartsWith(DigitalValue.NotRead, value.Remark, StringComparison.Ordinal);
        Assert.Contains(says, value.Remark, StringComparison.Ordinal);
        Assert.Contains(read.Notes, n => n.Contains(DigitalValue.NotRead, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("<si:expandedUncXMLList><si:uncertaintyXMLList>0.1 0.2 "
        + "0.3</si:uncertaintyXMLList><si:coverageFactorXMLList>2</si:coverageFactorXMLList></si:expandedUncXMLList>")]
    [InlineData("<si:measurementUncertaintyUnivariateXMLList><si:expandedMUXMLList><si:valueExpandedMUXMLList>0.1 0.2 "
        + "0.3</si:valueExpandedMUXMLList><si:coverageFactorXMLList>2 2 "
        + "2</si:coverageFactorXMLList></si:expandedMUXMLList></si:measurementUncertaintyUnivariateXMLList>")]
    public void One_unit_or_factor_holds_for_all_of_a_list(string uncertainty)
    {
        var read = Read("3.2.1",
            $@"<si:realListXMLList><si:valueXMLList>-0.1 0 "
                + $@"0.4</si:valueXMLList><si:unitXMLList>\decibel</si:unitXMLList>{uncertainty}</si:realListXMLList>");

        Assert.Equal([(-0.1, "dB", 0.1, 2.0), (0, "dB", 0.2, 2), (0.4, "dB", 0.3, 2)],
            read.Quantities[0].Values.Select(v => (v.Value, v.Unit, v.Expanded!.Value, v.CoverageFactor!.Value)));
    }

    [Fact]
    public void Lists_that_do_not_fit_are_refused() =>
        Assert.Contains("2 uncertainties stand beside 3 values", Assert.Throws<FormatException>(() => Read(
        "3.2.1", "<si:realListXMLList><si:valueXMLList>1 2 "
            + "3</si:valueXMLList><si:unitXMLList>\\hertz</si:unitXMLList><si:expandedUncXMLList>"
            + "<si:uncertaintyXMLList>1 2</si:uncertaintyXMLList><si:coverageFactorXMLList>2</si:coverageFactorXMLList>"
                + "</si:expandedUncXMLList></si:realListXMLList>"))
        .Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("NaN")]
    [InlineData("-Infinity")]
    public void A_value_of_a_list_that_is_no_number_is_left_out_and_said(string word)
    {
        var quantity = "<si:realListXMLList><si:valueXMLList>0.01 " + word + " 0.02</si:valueXMLList>" + Unit + "</si:realListXMLList>";

        var read = Read("3.3.0", quantity);
        Assert.Equal([0.01, 0.02], Assert.Single(read.Quantities).Values.Select(v => v.Value));
        Assert.Contains(read.Notes, n => n.EndsWith("value 2 is no number and is left out.", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_a_hybrid_one_form_is_taken()
    {
        var form = "<si:real><si:value>{0}</si:value><si:unit>{1}</si:unit></si:real>";
        var read = Read("3.1.2",
            "<si:hybrid>" + string.Format(null, form, "12.5", @"\strange") + string.Format(null, form, "0.0125", @"\volt\per\pascal")
                + "</si:hybrid>");

        Assert.Equal((0.0125, "V/Pa"), (Assert.Single(read.Quantities[0].Values).Value, read.Quantities[0].Values[0].Unit));
    }

    [Theory]
    [InlineData("3.0.0", null)]
    [InlineData("3.3.0", null)]
    [InlineData("3.4.0", "Version 3.4.0 of the schema is not known")]
    [InlineData("4.0.0", "Version 4.0.0 of the schema is not known")]
    [InlineData("", "does not say which version")]
    public void A_version_that_is_not_known_is_said(string version, string? says)
    {
        var notes = Read(version, $"<si:real><si:value>1</si:value>{Unit}</si:real>").Notes.Where(
            n => n.Contains("schema", StringComparison.Ordinal));
        Assert.StartsWith(says ?? "", Assert.Single(notes.DefaultIfEmpty("")).Replace("It ", "", StringComparison.Ordinal),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Head_and_item_are_read_and_limits_beside_results_are_not()
    {
        var read = Read("3.1.2", $"<si:real><si:value>1</si:value>{Unit}</si:real>");

        Assert.Equal(("DCC-26-1", new DateOnly(2026, 5, 4), "House of measurement"), (read.Number, read.Begin!.Value, read.Laboratory));
        Assert.Equal(new DigitalItem("Microphone", "Maker", "M-1", "41001"), Assert.Single(read.Items));
        Assert.Equal(("Sensitivity", "basic_measuredValue"), (Assert.Single(read.Quantities).Name, read.Quantities[0].RefType));
    }

    // A result of one of several devices must not be taken for another's without a word.
    [Fact]
    public void A_certificate_for_several_items_says_so()
    {
        var text = InventedCertificate.Text("3.1.2", $"<si:real><si:value>1</si:value>{Unit}</si:real>");
        var two = text.Replace(
            "</dcc:items>", "<dcc:item><dcc:name><dcc:content>Preamplifier</dcc:content></dcc:name></dcc:item></dcc:items>",
            StringComparison.Ordinal);

        Assert.Equal(2, Read(two).Items.Count);
        Assert.Contains("It is for 2 items; which result is whose is not read.", Read(two).Notes);
        Assert.DoesNotContain(Read(text).Notes, n => n.Contains("items", StringComparison.Ordinal));

        static DigitalCertificate Read(string xml) => DigitalCertificateFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(xml)), "c.xml");
    }

    [Theory]
    [InlineData("<a/>", "begins with a")]
    [InlineData("<digitalCalibrationCertificate/>", "begins with digitalCalibrationCertificate")]
    [InlineData("<digitalCalibrationCertificate xmlns=\"urn:other\"/>", "begins with digitalCalibrationCertificate")]
    [InlineData("no xml", "is no XML")]
    [InlineData("<!DOCTYPE x [<!ENTITY e \"e\">]><x>&e;</x>", "is no XML")]
    public void What_is_no_certificate_is_told(string text, string says) =>
        Assert.Contains(says,
            Assert.Throws<FormatException>(
                () => DigitalCertificateFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "x.xml")).Message,
                    StringComparison.Ordinal);

    [Fact]
    public void What_nests_too_deep_is_refused()
    {
        var deep = string.Concat(Enumerable.Repeat("<dcc:list>", 100)) + string.Concat(Enumerable.Repeat("</dcc:list>", 100));
        Assert.Contains("nests more than 64", Assert.Throws<FormatException>(() => Read("3.1.2", deep)).Message, StringComparison.Ordinal);
    }

    private static DigitalCertificate Read(string version, string quantity) => DigitalCertificateFile.Read(
        new MemoryStream(Encoding.UTF8.GetBytes(InventedCertificate.Text(version, quantity))), "c.xml");
}

using System.Text;
using MicRegister.Documents.DigitalCertificates;

namespace MicRegister.Documents.Tests.DigitalCertificates;

/// <summary>Invented certificates whose figures contradict each other, and those beside them that do not.</summary>
public sealed class ContradictingCertificateTests
{
    private const string Unit = @"<si:unit>\volt\pascal\tothe{-1}</si:unit>";

    [Theory]
    [InlineData(2, 0.99)]
    [InlineData(2, 0.68)]
    [InlineData(1, 0.95)]
    [InlineData(2, 95)]
    [InlineData(2, 1)]
    public void A_factor_and_a_probability_that_contradict_leave_no_uncertainty(double k, double p)
    {
        var to21 = Value(Expanded("0.00014", k, p));
        var from22 = Value(string.Concat($"<si:measurementUncertaintyUnivariate><si:expandedMU><si:valueExpandedMU>0.00014"
            + $"</si:valueExpandedMU><si:coverageFactor>{k}</si:coverageFactor><si:coverageProbability>{p}</si:coverageProbability>"
            + $"</si:expandedMU></si:measurementUncertaintyUnivariate>"));

        Assert.All([to21, from22], v =>
        {
            Assert.Null(v.Expanded);
            Assert.StartsWith(DigitalValue.NotRead, v.Remark, StringComparison.Ordinal);
            Assert.Contains("coverage probability of", v.Remark, StringComparison.Ordinal);
        });
    }

    // Normal: 1 at 68 %, 1.96 at 95 %, 2.576 at 99 %; rectangular 1.65 at 95 %; t with 4 degrees of freedom 2.87 at 95.45 % (JCGM 100:2008,
    // tables G.1 and G.2).
    [Theory]
    [InlineData(2, 0.95)]
    [InlineData(2, 0.9545)]
    [InlineData(1.96, 0.95)]
    [InlineData(1.65, 0.95)]
    [InlineData(2.87, 0.9545)]
    [InlineData(2.576, 0.99)]
    [InlineData(1, 0.68)]
    public void A_factor_and_a_probability_that_fit_are_read(double k, double p) =>
        Assert.Equal((0.00014, k), (Value(Expanded("0.00014", k, p)).Expanded!.Value, Value(Expanded("0.00014", k, p)).CoverageFactor!.Value));

    [Fact]
    public void Two_uncertainties_of_one_value_must_say_the_same()
    {
        // 0.00014 at k = 2 and 0.0002 at k = 2 are 0.00007 and 0.0001; 0.00021 at k = 3 is 0.00007 again.
        var differing = Value(Expanded("0.00014", 2, 0.95) + Expanded("0.0002", 2, 0.95));
        var standard = "<si:measurementUncertaintyUnivariate><si:standardMU><si:valueStandardMU>{0}</si:valueStandardMU></si:standardMU>"
            + "</si:measurementUncertaintyUnivariate>";

        Assert.Null(differing.Expanded);
        Assert.Contains("contradict each other", differing.Remark, StringComparison.Ordinal);
        Assert.Null(Value(Expanded("0.00014", 2, 0.95) + standard.Replace("{0}", "0.00014", StringComparison.Ordinal)).Expanded);
        Assert.Null(Value(Expanded("0.00014", 2, 0.95) + Interval("0.0122", "0.0128")).Expanded);
        Assert.Equal(0.00014, Value(Expanded("0.00014", 2, 0.95) + Expanded("0.00021", 3, 0.997)).Expanded);
        Assert.Equal(0.00014, Value(Expanded("0.00014", 2, 0.95) + standard.Replace("{0}", "0.00007", StringComparison.Ordinal)).Expanded);
        Assert.Equal(0.00014, Value(Expanded("0.00014", 2, 0.95) + Interval("0.01236", "0.01264")).Expanded);
    }

    [Fact]
    public void An_interval_beside_its_value_or_its_standard_uncertainty_is_not_read()
    {
        var outside = Value(Interval("0.0126", "0.0127", "<si:standardUnc>0.00005</si:standardUnc>"));
        // Half of 0.0128 - 0.0122 is 0.0003, six times 0.00005, where 95 % is about two; 0.0001 is twice that.
        var wide = Value(Interval("0.0122", "0.0128", "<si:standardUnc>0.00005</si:standardUnc>"));
        var good = Value(Interval("0.0124", "0.0126", "<si:standardUnc>0.00005</si:standardUnc>"));

        Assert.Equal((null, $"{DigitalValue.NotRead}: coverageInterval of D-SI to 2.1 does not contain its value"), (outside.Expanded, outside.Remark));
        Assert.Null(wide.Expanded);
        Assert.Contains("contradict each other", wide.Remark, StringComparison.Ordinal);
        Assert.Equal(0.00005, good.Expanded);
    }

    [Theory]
    [InlineData("<x:real xmlns:x=\"https://ptb.de/other\"><x:value>1</x:value></x:real>", "element real stands in the namespace 'https://ptb.de/other'")]
    [InlineData("<si:real><x:value xmlns:x=\"https://ptb.de/si/2\">1</x:value></si:real>", "element value stands in the namespace 'https://ptb.de/si/2'")]
    [InlineData("<si:real><dcc:value>1</dcc:value></si:real>", "allowed is https://ptb.de/si.")]
    [InlineData("<si:real><si:value>1</si:value><si:value>2</si:value></si:real>", "value stands twice")]
    [InlineData("<si:real><si:value>1</si:value><si:unit>\\hertz \\pascal</si:unit></si:real>", "2 units stand beside 1 values")]
    [InlineData("<si:realListXMLList><si:valueXMLList>1 2 3</si:valueXMLList><si:unitXMLList>\\hertz \\hertz</si:unitXMLList></si:realListXMLList>",
        "2 units stand beside 3 values")]
    [InlineData("<si:realListXMLList><si:valueXMLList>1 2 3</si:valueXMLList><si:expandedUncXMLList><si:uncertaintyXMLList>1</si:uncertaintyXMLList>"
        + "<si:coverageFactorXMLList>2</si:coverageFactorXMLList><si:coverageProbabilityXMLList>0.95 0.95</si:coverageProbabilityXMLList>"
        + "</si:expandedUncXMLList></si:realListXMLList>", "2 coverage probabilities stand beside 3 values")]
    public void What_does_not_belong_together_is_refused(string quantity, string says) =>
        Assert.Contains(says, Assert.Throws<FormatException>(() => Read(quantity)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("100 200 300", "-0.1 0 0.1", false)]
    [InlineData("100 200 300", "-0.1 0", true)]
    [InlineData("100 200 300", "-0.1", false)] // one value beside a list is no column of it
    [InlineData("100 200 300", "-0.1 NaN 0.1", false)]
    public void Columns_of_different_length_are_said_beside_their_values(string hertz, string decibel, bool isSaid)
    {
        var read = Read($@"<si:realListXMLList><si:valueXMLList>{hertz}</si:valueXMLList><si:unitXMLList>\hertz</si:unitXMLList>"
            + "</si:realListXMLList></dcc:quantity><dcc:quantity><dcc:name><dcc:content>Response</dcc:content></dcc:name>"
            + $@"<si:realListXMLList><si:valueXMLList>{decibel}</si:valueXMLList><si:unitXMLList>\decibel</si:unitXMLList></si:realListXMLList>");

        Assert.Equal(isSaid, read.Notes.Any(n => n.Contains("Sensitivity: 3, Response: 2", StringComparison.Ordinal)));
        Assert.All(read.Quantities.SelectMany(q => q.Values),
            v => Assert.Equal(isSaid, v.Remark.Contains("lists of different length", StringComparison.Ordinal)));
    }

    private static string Expanded(string u, double k, double p) => string.Concat(
        $"<si:expandedUnc><si:uncertainty>{u}</si:uncertainty><si:coverageFactor>{k}</si:coverageFactor>"
        + $"<si:coverageProbability>{p}</si:coverageProbability></si:expandedUnc>");

    private static string Interval(string from, string to, string standard = "") =>
        $"<si:coverageInterval>{standard}<si:intervalMin>{from}</si:intervalMin><si:intervalMax>{to}</si:intervalMax>"
        + "<si:coverageProbability>0.95</si:coverageProbability></si:coverageInterval>";

    private static DigitalValue Value(string uncertainty) =>
        Read($"<si:real><si:value>0.0125</si:value>{Unit}{uncertainty}</si:real>").Quantities[0].Values[0];

    private static DigitalCertificate Read(string quantity) => DigitalCertificateFile.Read(
        new MemoryStream(Encoding.UTF8.GetBytes(InventedCertificate.Text("3.3.0", quantity))), "c.xml");
}

using System.Text;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Curves;

/// <summary>Where a curve file would give a wrong curve, or an uncertainty that is too small, it is refused or asked about.</summary>
public sealed class CurveGuardTests
{
    // Without it the uncertainty behind the last level would be the only one of the table, and count for all.
    [Fact]
    public void An_empty_uncertainty_leaves_its_level_without_one_and_lends_it_no_other()
    {
        var reading = Read("Hz;0° [dB];U [dB];30° [dB];U [dB]\n250;0;;0;0.2\n1000;0.1;;0.4;0.2\n");

        Assert.Equal([(0, null), (30, 0.2)], reading.Curves.Select(c => (c.AngleDeg, c.Curve.Points[0].ExpandedDb)));
    }

    [Fact]
    public void Curves_in_several_sound_fields_are_asked_about_where_their_angles_differ_too()
    {
        const string Text = "Hz;Free field 0° [dB];Pressure 30° [dB]\n250;0;0\n1000;0.1;0.4\n";

        Assert.Equal(
            "columns 2, 3 are responses in several sound fields. Which one is it? Leave the others out.",
            Assert.Single(Read(Text).Questions).Text);
        Assert.Equal("free-field", Assert.Single(Read(Text, "3=ignore").Curves).Field);
    }

    [Fact]
    public void A_standard_uncertainty_with_another_factor_than_1_is_asked_about()
    {
        static string Headed(string header) => $"Hz;Level [dB];{header}\n250;0;0.1\n1000;0.1;0.1\n";

        Assert.Contains(
            "speaks of a standard uncertainty and of a factor",
            Assert.Single(Read(Headed("Standard uncertainty (k=2) [dB]")).Questions).Text, StringComparison.Ordinal);
        // Standard is k = 1: kept with k = 2 it is twice as great.
        Assert.Equal(0.2, Read(Headed("Standard uncertainty (k=1) [dB]")).Curves[0].Curve.Points[0].ExpandedDb);
        Assert.Equal(0.2, Read(Headed("Standard uncertainty [dB]")).Curves[0].Curve.Points[0].ExpandedDb);
    }

    [Theory]
    [InlineData("Sensitivity re 250 Hz [dB re 1 V/Pa]", "has two references")]
    [InlineData("Sensitivity [dB]", "is a sensitivity without a unit or a reference")]
    [InlineData("Phase level", "speaks of a phase and of a level")]
    [InlineData("Phase [dB]", "speaks of a phase and of a level")]
    [InlineData("Level, k [dB]", "speaks of a coverage factor")]
    [InlineData("Level [%]", "has a unit that is none of a level")]
    [InlineData("Level [dB, %]", "has a unit that is none of a level")]
    public void A_header_that_may_be_of_something_else_than_a_level_is_asked_about(string header, string why) => Assert.Contains(
        why, Assert.Single(Read($"Hz;{header}\n250;0\n1000;0.1\n").Questions).Text, StringComparison.Ordinal);

    [Theory]
    [InlineData("0.1 %")]
    [InlineData("0.1 Hz")]
    public void A_figure_in_another_unit_than_its_column_is_refused(string figure) =>
        Refuses($"Hz;Level [dB]\n250;0 dB\n1000;{figure}\n", "row 3, column 2 (level)", $"'{figure}': allowed is a number");

    // U = 0.1 dB with k = 1 is 0.2 dB with k = 2, with k = 5 it is 0.04 dB (GUM, 6.2.1).
    [Theory]
    [InlineData("1", 0.2)]
    [InlineData("5", 0.04)]
    [InlineData("0.9", null)]
    [InlineData("0.5", null)]
    [InlineData("0", null)]
    [InlineData("5.1", null)]
    [InlineData("-2", null)]
    [InlineData("-", null)]
    public void A_column_of_coverage_factors_holds_numbers_from_1_to_5(string factor, double? expandedDb)
    {
        var text = $"Hz;Level [dB];U [dB];k\n250;0;0.1;2\n1000;0.1;0.1;{factor}\n";

        if (expandedDb is { } u) Assert.Equal(u, Read(text).Curves[0].Curve.Points[1].ExpandedDb!.Value, 1e-12);
        else Refuses(text, "row 3, column 4", $"'{factor}': allowed is a number from 1 to 5");
    }

    [Theory]
    [InlineData("0.5")]
    [InlineData("6")]
    [InlineData("9")]
    public void A_coverage_factor_of_a_header_or_of_the_text_above_lies_from_1_to_5(string factor)
    {
        const string Rows = "\n250;0;0.1\n1000;0.1;0.1\n";

        Refuses($"Hz;Level [dB];U (k={factor}) [dB]{Rows}", $"coverage factor {factor} of column 3", "a number from 1 to 5");
        Refuses($"# k = {factor}\nHz;Level [dB];U [dB]{Rows}", $"coverage factor {factor} of column 3", "a number from 1 to 5");
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-50.2")]
    public void A_sensitivity_that_is_not_above_0_is_refused(string value) =>
        Refuses($"Hz;Sensitivity [mV/Pa]\n250;50\n1000;{value}\n", "row 3, column 2", $"'{value}': allowed is a sensitivity above 0");

    // Divided by a level of 0.1 dB, an uncertainty of 0.1 mV/Pa would come out as any number.
    [Fact]
    public void An_uncertainty_in_the_unit_of_a_sensitivity_is_refused_beside_levels_in_dB() => Refuses(
        "Hz;Level [dB];U\n250;0.1;0.1\n1000;0.2;0.1\n", ["3=u-linear"],
        "row 2, column 3", "allowed is an uncertainty in dB or %, beside levels in dB");

    private static void Refuses(string text, params string[] words) => Refuses(text, [], words);

    private static void Refuses(string text, string[] columns, params string[] words)
    {
        var why = Assert.Throws<SheetException>(() => Read(text, columns)).Message;
        Assert.All(words, w => Assert.Contains(w, why, StringComparison.Ordinal));
    }

    private static CurveReading Read(string text, params string[] columns) =>
        CurveFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "c.csv", new(CurveAnswers.OfColumns(columns)));
}

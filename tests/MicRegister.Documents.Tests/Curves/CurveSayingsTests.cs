using System.Text;
using MicRegister.Documents.Curves;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Curves;

/// <summary>What text and headers can say against a table of plain levels in dB with U at k = 2, and what lies near and is none of it.</summary>
public sealed class CurveSayingsTests
{
    private const string Table = "Hz;Level [dB]\n250;0\n1000;0.1\n";

    [Theory]
    [InlineData("Relative to 0°")]
    [InlineData("re 0 deg")]
    [InlineData("dB re 0° incidence")]
    [InlineData("difference to 0° [dB]")]
    [InlineData("rel. 0° [dB]")]
    [InlineData("30° re 0° [dB]")]
    [InlineData("30° relative to 0° [dB]")]
    [InlineData("30° - 0° [dB]")]
    [InlineData("30° minus 0° [dB]")]
    [InlineData("30°/0° [dB]")]
    [InlineData("30° normalised to frontal incidence [dB]")]
    [InlineData("Diffuse re free field [dB]")]
    [InlineData("Free field relative to pressure [dB]")]
    public void A_difference_between_angles_or_fields_is_no_response(string header)
    {
        var reading = Read($"Hz;{header}\n250;0\n1000;0.1\n");

        Assert.Equal([2], Assert.Single(reading.Questions).Columns);
        Assert.Empty(reading.Curves);
    }

    [Theory]
    [InlineData("Relative response at 30° [dB]", 30.0)]
    [InlineData("Relative level [dB] 0°", 0.0)]
    [InlineData("0° [dB re 250 Hz]", 0.0)]
    [InlineData("Level re 1 kHz, 30°", 30.0)]
    [InlineData("Relative free-field response [dB]", null)]
    [InlineData("dB rel. 250 Hz", null)]
    public void A_relative_response_at_an_angle_is_one(string header, double? angle) =>
        Assert.Equal(angle, Assert.Single(Read($"Hz;{header}\n250;0\n1000;0.1\n").Curves).AngleDeg);

    [Fact]
    public void A_difference_beside_a_response_is_asked_alone_and_can_be_left_out()
    {
        const string Text = "Hz;0° [dB];30° re 0° [dB]\n250;0;0\n1000;0.1;-0.4\n";

        Assert.Equal([3], Assert.Single(Read(Text).Questions).Columns);
        Assert.Equal([0.0], Read(Text, "3=ignore").Curves.Select(c => c.AngleDeg!.Value));
    }

    [Theory]
    [InlineData("Levels relative to 0° incidence", "differences between angles")]
    [InlineData("Normalised to the response at 0 deg", "differences between angles")]
    [InlineData("Differences to the level at 0°", "differences between angles")]
    [InlineData("Pegeldifferenz zu 0 Grad", "differences between angles")]
    [InlineData("re on-axis", "differences between angles")]
    [InlineData("Free field minus pressure", "differences between angles of incidence or fields")]
    [InlineData("Levels in units of 0.1 dB", "another unit than dB")]
    [InlineData("Level in 1/10 dB", "another unit than dB")]
    [InlineData("levels in centibel", "another unit than dB")]
    [InlineData("tenths of a dB", "another unit than dB")]
    [InlineData("Pegel in Zehntel dB", "another unit than dB")]
    [InlineData("values x 10", "another unit than dB")]
    [InlineData("All values multiplied by 100", "another unit than dB")]
    [InlineData("opposite sign: subtract", "to be subtracted from readings are a response (level)")]
    [InlineData("to be subtracted", "to be subtracted from readings are a response (level)")]
    [InlineData("Subtract from reading", "to be subtracted from readings are a response (level)")]
    [InlineData("given with opposite sign", "a turned sign")]
    [InlineData("The signs are reversed.", "a turned sign")]
    [InlineData("umgekehrtes Vorzeichen", "a turned sign")]
    public void What_the_text_says_against_plain_levels_is_asked(string line, string says)
    {
        foreach (var text in new[] { $"{line}\n{Table}", $"# {line}\n{Table}", $"{Table}# {line}\n", $"{Table}{line}\n" })
        {
            var question = Assert.Single(Read(text).Questions);
            Assert.Equal([2], question.Columns);
            Assert.Contains(says, question.Text, StringComparison.Ordinal);
            Assert.Equal(0.1, Read(text, "2=level").Curves[0].Curve.At(1000)!.Value, 1e-12);
        }
    }

    [Theory]
    [InlineData("Levels relative to 250 Hz, 0° incidence")]
    [InlineData("Angles of incidence from 0° to 90°")]
    [InlineData("Free-field response at 0°")]
    [InlineData("Air at minus 10 °C, rel. humidity 50 %")]
    [InlineData("Referred to 23 °C and to pressure 101.325 kPa")]
    [InlineData("No difference to the certificate of last year")]
    [InlineData("Resolution 0.1 dB, uncertainty 0.1 dB")]
    [InlineData("Levels in decibels, 1/3 octaves; room 10 x 10 m")]
    [InlineData("in tenths octaves")]
    [InlineData("Signed by the head of the laboratory, on the opposite page")]
    [InlineData("Relative humidity 68 %, uncertainty of temperature 0.5 K")]
    public void What_is_near_and_says_nothing_against_them_is_read(string line)
    {
        Assert.Equal(0.1, Assert.Single(Read($"{line}\n{Table}").Curves).Curve.At(1000)!.Value, 1e-12);
        Assert.Empty(Read($"# {line}\n{Table}").Questions);
    }

    [Theory]
    [InlineData("Expanded uncertainty, 99 %", "U [dB]")]
    [InlineData("Coverage probability 68 %", "U [dB]")]
    [InlineData("P = 99.7 %", "U [dB]")]
    [InlineData("P = 0.68", "U [dB]")]
    [InlineData("level of confidence 0.99", "U [dB]")]
    [InlineData("standard uncertainty", "U [dB]")]
    [InlineData("Uncertainties are 1 sigma", "U [dB]")]
    [InlineData("coverage factor as in the certificate", "U [dB]")]
    [InlineData("k = 2, coverage probability 99 %", "U [dB]")]
    [InlineData("k = 1, coverage probability 95 %", "U [dB]")]
    [InlineData("k = 1", "U (k=2)")]
    [InlineData("coverage probability 68 %", "U (k=2)")]
    [InlineData("Levels and U in units of 0.1 dB", "U [dB]")]
    [InlineData("", "U 99 % [dB]")]
    [InlineData("", "U (68 %) [dB]")]
    [InlineData("", "U [dB], P = 99.7 %")]
    [InlineData("", "U (k=2, 99 %)")]
    [InlineData("", "U (k=1, 95 %)")]
    public void An_uncertainty_of_another_coverage_is_asked_unless_its_factor_is_known(string line, string header)
    {
        var text = $"# {line}\nHz;Level [dB];{header}\n250;0;0.06\n";

        Assert.Contains(Read(text).Questions, q => q.Columns.SequenceEqual([3]));
        // The figure that was 0.06 at k = 2.58 is 0.06 · 2 / 2.58 at k = 2 (GUM, 6.2.1: U = k · u).
        Assert.Equal(0.06 * 2 / 2.58, Read(text, "2=level", "3=u:2.58").Curves[0].Curve.Points[0].ExpandedDb!.Value, 1e-12);
    }

    // U = k · u (GUM, 6.2.1): 0.06 at k = 2.58 is 0.04651 at k = 2, at k = 1 it is 0.12.
    [Theory]
    [InlineData("Expanded uncertainty, 95 %", "U [dB]", 0.06)]
    [InlineData("P = 95.45 %", "U [dB]", 0.06)]
    [InlineData("The expanded uncertainty is the standard uncertainty multiplied by the coverage factor k = 2, about 95 %", "U [dB]", 0.06)]
    [InlineData("k = 2.58, coverage probability 99 %", "U [dB]", 0.04651)]
    [InlineData("k = 1, coverage probability 68 %", "U [dB]", 0.12)]
    [InlineData("k = 2", "U (k=2, 95 %)", 0.06)]
    [InlineData("p = 101.3 kPa, 60 % r.h.; U is expanded", "U [dB]", 0.06)]
    [InlineData("Uncertainty at a relative humidity of 60 %", "U [dB]", 0.06)]
    [InlineData("", "U 95 % [dB]", 0.06)]
    [InlineData("", "U (k=2.58, 99 %) [dB]", 0.04651)]
    [InlineData("", "Standard uncertainty (68 %) [dB]", 0.12)]
    public void An_uncertainty_whose_factor_is_known_is_kept_with_factor_two(string line, string header, double u) => Assert.Equal(
        u, Assert.Single(Read($"# {line}\nHz;Level [dB];{header}\n250;0;0.06\n").Curves).Curve.Points[0].ExpandedDb!.Value, 1e-5);

    [Fact]
    public void Two_factors_of_one_row_that_differ_are_refused()
    {
        Assert.Equal(0.06, Read("Hz;dB;U (k=2);k\n250;0;0.06;2\n").Curves[0].Curve.Points[0].ExpandedDb);
        Assert.Contains("allowed is the k = 2 that the header of", Assert.Throws<SheetException>(
            () => Read("Hz;dB;U (k=2);k\n250;0;0.06;3\n")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_without_a_unit_is_taken_in_decibels_and_that_is_said()
    {
        Assert.Contains("No unit is stated for column 2 (Level): dB is taken.", Read("Hz;Level\n250;0\n1000;0.1\n").Notes);
        Assert.DoesNotContain(Read(Table).Notes, n => n.Contains("No unit", StringComparison.Ordinal));
    }

    private static CurveReading Read(string text, params string[] columns) => CurveFile.Read(
        new MemoryStream(Encoding.UTF8.GetBytes(text)), "c.csv", new(CurveAnswers.OfColumns(columns)));
}

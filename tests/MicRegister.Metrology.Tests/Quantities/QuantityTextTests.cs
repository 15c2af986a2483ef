using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using MicRegister.Metrology.Quantities;

namespace MicRegister.Metrology.Tests.Quantities;

public sealed class QuantityTextTests
{
    // JCGM 100:2008, 7.2.6 (from memory, unchecked): 10.47 mΩ is rounded up to 11 mΩ, 28.05 kHz down to 28 kHz;
    // with u = 27 mΩ, 10.057 62 Ω becomes 10.058 Ω.
    [Theory]
    [InlineData(10.47, "11")]
    [InlineData(28.05, "28")]
    public void The_uncertainties_of_the_guide_are_rounded_as_it_says(double expanded, string shown) =>
        Assert.Equal(shown, QuantityText.Expanded(expanded, "days"));

    [Fact]
    public void The_result_of_the_guide_is_rounded_to_the_digit_of_its_uncertainty() =>
        Assert.Equal("10.058", QuantityText.Result(10.05762, 0.027, "dB"));

    // Hand algebra: two digits, up where more than a tenth of the last is cut, one digit where the second is a nought beyond the unit's
    // usual digits.
    [Theory]
    [InlineData(101.3125, 0.03, "kPa", "101.31 kPa ± 0.03 kPa")]
    [InlineData(101.3125, 0.031, "kPa", "101.313 kPa ± 0.031 kPa")]
    [InlineData(-26.0206, 0.12, "dB re 1 V/Pa", "−26.02 dB re 1 V/Pa ± 0.12 dB")]
    [InlineData(-26.0206, 0.121, "dB re 1 V/Pa", "−26.02 dB re 1 V/Pa ± 0.12 dB")]
    [InlineData(-26.0206, 0.1211, "dB re 1 V/Pa", "−26.02 dB re 1 V/Pa ± 0.13 dB")]
    [InlineData(-26.0206, 0.0996, "dB", "−26.02 dB ± 0.10 dB")]
    [InlineData(-26.0206, 0.1, "dB", "−26.02 dB ± 0.10 dB")]
    [InlineData(-26.0206, 0.02, "dB", "−26.02 dB ± 0.02 dB")]
    [InlineData(-26.0206, 0.0021, "dB", "−26.0206 dB ± 0.0021 dB")]
    [InlineData(114.06, 1.5, "dB", "114.1 dB ± 1.5 dB")]
    [InlineData(-26.05, 2.5, "dB", "−26.1 dB ± 2.5 dB")]
    [InlineData(1234.5, 120, "Hz", "1230 Hz ± 120 Hz")]
    [InlineData(-0.004, 0.12, "dB", "0.00 dB ± 0.12 dB")]
    [InlineData(12, 0.14, "mV/Pa", "12.00 mV/Pa ± 0.14 mV/Pa")]
    [InlineData(20.04, 0, "°C", "20.0 °C ± 0.0 °C")]
    public void A_result_stands_as_far_as_its_uncertainty(double value, double expanded, string unit, string text) =>
        Assert.Equal(text, QuantityText.With(value, expanded, unit));

    [Theory]
    [InlineData(12, "mV/Pa", "12.000 mV/Pa")]
    [InlineData(101.3, "kPa", "101.30 kPa")]
    [InlineData(-7.25, "°C", "−7.3 °C")]
    [InlineData(-26, "dB", "−26.00 dB")]
    [InlineData(45, "°", "45°")]
    public void Without_an_uncertainty_a_result_has_the_usual_digits_of_its_unit(double value, string unit, string text) =>
        Assert.Equal(text, QuantityText.With(value, null, unit));

    [Theory]
    [InlineData(12, "mV/Pa", "12.000")]
    [InlineData(12.34567, "mV/Pa", "12.34567")]
    [InlineData(0.0125, "V/Pa", "0.012500")]
    [InlineData(-38.3, "dB", "−38.30")]
    [InlineData(250, "Hz", "250")]
    [InlineData(251.19, "Hz", "251.19")]
    [InlineData(0.00000123, "V/Pa", "0.00000123")]
    public void What_was_stated_keeps_every_digit(double value, string unit, string text) =>
        Assert.Equal(text, QuantityText.Stated(value, unit));

    [Theory]
    [InlineData(-0.004, 2, "0.00", "0.00")]
    [InlineData(-0.005, 2, "−0.01", "−0.01")]
    [InlineData(0.004, 2, "0.00", "0.00")]
    [InlineData(0, 2, "0.00", "0.00")]
    [InlineData(1.005, 2, "1.01", "+1.01")]
    [InlineData(0.35, 2, "0.35", "+0.35")]
    [InlineData(-0.35, 3, "−0.350", "−0.350")]
    [InlineData(-0.4, 0, "0", "0")]
    [InlineData(double.NaN, 2, "–", "–")]
    [InlineData(double.NegativeInfinity, 2, "−∞", "−∞")]
    [InlineData(double.PositiveInfinity, 2, "∞", "+∞")]
    public void A_difference_has_a_sign_and_a_nought_has_none(double value, int decimals, string number, string signed)
    {
        Assert.Equal(number, QuantityText.Number(value, decimals));
        Assert.Equal(signed, QuantityText.Signed(value, decimals));
    }

    [Theory]
    [InlineData(0.04, 0.12, "+0.04")]
    [InlineData(-0.04, 0.12, "−0.04")]
    [InlineData(0.004, 0.12, "0.00")]
    [InlineData(104, 120, "+100")]
    public void A_difference_stands_as_far_as_its_uncertainty(double value, double expanded, string text) =>
        Assert.Equal(text, QuantityText.Difference(value, expanded, "dB"));

    [Theory]
    [InlineData(7, 2, "7")]
    [InlineData(-7.10, 2, "−7.1")]
    [InlineData(100, 2, "100")]
    [InlineData(-0.001, 2, "0")]
    public void Noughts_at_the_end_are_left_out_where_that_is_asked(double value, int most, string number) =>
        Assert.Equal(number, QuantityText.UpTo(value, most));

    [Fact]
    public void What_is_not_known_has_no_figure() =>
        Assert.Equal(("–", "–", "–"), (QuantityText.Number(null, 2), QuantityText.Signed(null, 2), QuantityText.Expanded(null, "dB")));

    [Fact]
    public void No_uncertainty_is_negative() => Assert.Throws<ArgumentOutOfRangeException>(() => ShownUncertainty.Of(-0.1, 2));

    // A tenth of the last of two digits is at most 1 % of the uncertainty; rounding 10.1... up to 11 adds less than 9 %.
    [Fact]
    public void An_uncertainty_is_hardly_ever_shown_smaller() => Holds(Prop.ForAll(Uncertainties, u =>
    {
        var shown = (double)ShownUncertainty.Of(u, 2).Value;
        return shown >= u * (1 - 0.01) && shown < u * 1.09;
    }));

    [Fact]
    public void A_result_reads_back_within_half_a_digit_of_its_uncertainty() => Holds(Prop.ForAll(Uncertainties, Values, (u, value) =>
    {
        var step = Math.Pow(10, -ShownUncertainty.Of(u, 2).Decimals);
        return Math.Abs(Read(QuantityText.Result(value, u, "dB")) - value) <= (step / 2) + 1e-9;
    }));

    [Fact]
    public void An_uncertainty_has_two_significant_digits_at_most() => Holds(Prop.ForAll(Uncertainties, u =>
    {
        // What is rounded to tens has noughts at its end.
        var digits = QuantityText.Expanded(u, "dB").Replace(".", "", StringComparison.Ordinal).TrimStart('0');
        return digits.Length <= 2 || digits[2..].All(c => c == '0');
    }));

    [Fact]
    public void A_tenfold_quantity_moves_the_point_only() => Holds(Prop.ForAll(Gen.Choose(1001, 9999).ToArbitrary(), n =>
        ShownUncertainty.Of(n / 10.0, 0).Value == 10 * ShownUncertainty.Of(n / 100.0, 0).Value));

    [Fact]
    public void A_number_and_its_opposite_differ_in_their_sign_alone() => Holds(Prop.ForAll(Values, x =>
        QuantityText.Signed(-Math.Abs(x), 3) == QuantityText.Signed(Math.Abs(x), 3).Replace('+', QuantityText.Minus)));

    private static Arbitrary<double> Uncertainties =>
        Gen.Choose(1, 999_999).SelectMany(n => Gen.Choose(-4, 3).Select(e => n / 1e5 * Math.Pow(10, e))).ToArbitrary();

    private static Arbitrary<double> Values => Gen.Choose(-1_000_000, 1_000_000).Select(i => i / 7.0).ToArbitrary();

    private static void Holds(Property property) => Check.One(Config.QuickThrowOnFailure.WithMaxTest(2000), property);

    private static double Read(string text) => double.Parse(text.Replace(QuantityText.Minus, '-'), CultureInfo.InvariantCulture);
}

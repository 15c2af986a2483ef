using System.Globalization;

namespace MicRegister.Metrology.Quantities;

/// <summary>An expanded uncertainty rounded for people, and the step to which the result beside it is rounded.</summary>
/// <param name="Value">Rounded, in the unit of the uncertainty.</param>
/// <param name="Decimals">Digits behind the point of uncertainty and result; below 0 both are rounded to tens, hundreds and so on.</param>
/// <remarks>
/// At most two significant digits, as JCGM 100:2008, 7.2.6 asks. It is rounded up, unless no more than a tenth of the last digit is cut
/// off: so both examples of that clause (from memory, unchecked) come out as it gives them, 10.47 mΩ as 11 mΩ, 28.05 kHz as 28 kHz.
/// What is shown is never smaller by more than 1 % of the uncertainty, and never larger by 9 % or more. A second digit that is a nought
/// is left out where it lies beyond the usual digits of the unit.
/// </remarks>
public readonly record struct ShownUncertainty(decimal Value, int Decimals)
{
    private const decimal MostCut = 0.1m;

    /// <summary>Below this nothing is told apart from none, so that <see cref="decimal"/> holds every step.</summary>
    private const double Least = 1e-12;

    private const double Most = 1e15;

    /// <summary>Rounds an expanded uncertainty.</summary>
    /// <param name="expanded">From 0 to 1e15 in any unit; 0, and anything under 1e-12, is none and keeps the usual digits.</param>
    /// <param name="usualDecimals">Usual digits behind the point of a result in that unit, from 0 to 9.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is negative, above 1e15 or no number.</exception>
    public static ShownUncertainty Of(double expanded, int usualDecimals)
    {
        if (!(expanded >= 0 && expanded <= Most))
        {
            throw new ArgumentOutOfRangeException(nameof(expanded), expanded, "an expanded uncertainty is from 0 to 1e15");
        }
        if (expanded < Least) return new(0, usualDecimals);

        var exact = Decimal(expanded);
        var decimals = 1 - (int)Math.Floor(Math.Log10(expanded));
        var digits = exact / Step(decimals);
        // Logarithms of powers of ten may fall on either side.
        if (digits < 10) digits = exact / Step(++decimals);
        if (digits >= 100) digits = exact / Step(--decimals);

        var whole = Math.Floor(digits);
        if (digits - whole > MostCut) whole++;
        if (whole == 100) (whole, decimals) = (10, decimals - 1);
        var value = whole * Step(decimals);
        if (whole % 10 == 0 && decimals > usualDecimals) decimals--;
        return new(value, decimals);
    }

    /// <summary>A result rounded as far as its uncertainty; halves away from 0.</summary>
    /// <param name="result">Finite, in the unit of the uncertainty, under 1e15.</param>
    public decimal Round(double result) => Math.Round(Decimal(result) / Step(Decimals), MidpointRounding.AwayFromZero) * Step(Decimals);

    /// <summary>A number as people read it off: to fifteen digits, so that 1.005 is 1.005.</summary>
    internal static decimal Decimal(double value) =>
        decimal.Parse(value.ToString("E14", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture);

    private static decimal Step(int decimals)
    {
        var step = 1m;
        for (var i = 0; i < Math.Abs(decimals); i++) step *= 10;
        return decimals > 0 ? 1 / step : step;
    }
}

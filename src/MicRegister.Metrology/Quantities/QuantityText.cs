using System.Globalization;

namespace MicRegister.Metrology.Quantities;

/// <summary>
/// Quantities, units and uncertainties as people read them, in one place for pages, findings, reports and the command line. What machines
/// read (CSV, JSON, facts) is written elsewhere, invariant and with a hyphen.
/// </summary>
/// <remarks>
/// The minus is U+2212 everywhere. Halves are rounded away from 0, counted on fifteen digits. A number that is rounded to 0 has no sign.
/// A result stands as far as its uncertainty, see <see cref="ShownUncertainty"/>; where none is known it has the usual digits of its
/// unit. What is no number reads <see cref="None"/>. The digits of each unit are common practice, no source.
/// </remarks>
public static class QuantityText
{
    /// <summary>The minus sign.</summary>
    public const char Minus = '\u2212';

    /// <summary>Stands where there is no figure.</summary>
    public const string None = "–";

    private const int MostStated = 9;
    private const double Greatest = 1e15;

    /// <summary>Usual digits behind the point of a result in a unit.</summary>
    public static int UsualDecimals(string unit) => unit switch
    {
        "mV/Pa" or "V" => 3,
        "V/Pa" => 6,
        "°C" or "K" or "m" or "s" or "%" or "m/s" => 1,
        "Hz" or "°" or "months" or "years" or "days" => 0,
        _ => 2,
    };

    /// <summary>A number with as many digits behind the point as are asked for, from 0 to 15; <see cref="None"/> for null.</summary>
    public static string Number(double? value, int decimals) => value is { } v ? Sign(v, decimals, "") : None;

    /// <summary>A number with at most so many digits behind the point, and no noughts at its end.</summary>
    public static string UpTo(double? value, int most)
    {
        var text = Number(value, most);
        return text.Contains('.', StringComparison.Ordinal) && !text.Contains('E', StringComparison.Ordinal)
            ? text.TrimEnd('0').TrimEnd('.')
            : text;
    }

    /// <summary>A difference: with its sign, + as well, unless it is rounded to 0.</summary>
    public static string Signed(double? difference, int decimals) => difference is { } d ? Sign(d, decimals, "+") : None;

    /// <summary>
    /// A quantity with its unit and, unless others are asked for, the usual digits of that unit; <see cref="None"/> for null.
    /// </summary>
    public static string Of(double? value, string unit, int? decimals = null) =>
        value is null ? None : Number(value, decimals ?? UsualDecimals(unit)) + Behind(unit);

    /// <summary>A difference of two quantities with its sign and unit.</summary>
    public static string Change(double? difference, string unit, int? decimals = null) =>
        difference is null ? None : Signed(difference, decimals ?? UsualDecimals(unit)) + Behind(unit);

    /// <summary>A number that somebody stated: every digit that is stored, up to nine behind the point, at least the usual ones.</summary>
    public static string Stated(double value, string unit)
    {
        if (!(Math.Abs(value) < Greatest)) return Number(value, 0);
        var digits = ShownUncertainty.Decimal(value).ToString("0.#########", CultureInfo.InvariantCulture);
        var point = digits.IndexOf('.', StringComparison.Ordinal);
        return Number(value, Math.Clamp(point < 0 ? 0 : digits.Length - point - 1, UsualDecimals(unit), MostStated));
    }

    /// <summary>
    /// A result with its unit and expanded uncertainty, such as <c>101.31 kPa ± 0.03 kPa</c>; without one, with the usual digits.
    /// </summary>
    /// <param name="value">In <paramref name="unit"/>.</param>
    /// <param name="expanded">In <paramref name="unit"/>; null where it is not known. It is for the caller to tell k.</param>
    /// <param name="unit">Such as dB, kPa or dB re 1 V/Pa; of a level, the uncertainty is told in dB.</param>
    public static string With(double value, double? expanded, string unit)
    {
        if (expanded is not { } u) return Of(value, unit);
        return Result(value, u, unit) + Behind(unit) + " ± " + Expanded(u, unit) + Behind(Plain(unit));
    }

    /// <summary>
    /// The number of a result alone, as far as its expanded uncertainty; with the usual digits where that is not known or none.
    /// </summary>
    public static string Result(double value, double? expanded, string unit)
    {
        if (!IsShown(expanded) || !(Math.Abs(value) < Greatest)) return Number(value, UsualDecimals(unit));
        var shown = ShownUncertainty.Of(expanded!.Value, UsualDecimals(unit));
        return Number((double)shown.Round(value), Math.Max(0, shown.Decimals));
    }

    /// <summary>The number of a difference alone with its sign, as far as its expanded uncertainty.</summary>
    public static string Difference(double value, double? expanded, string unit) =>
        (Result(value, expanded, unit) is var text && value > 0 && text.AsSpan().IndexOfAnyInRange('1', '9') >= 0 ? "+" : "") + text;

    /// <summary>The number of an expanded uncertainty alone, to at most two significant digits.</summary>
    public static string Expanded(double? expanded, string unit)
    {
        if (!IsShown(expanded)) return Number(expanded, UsualDecimals(unit));
        var shown = ShownUncertainty.Of(expanded!.Value, UsualDecimals(unit));
        return Number((double)shown.Value, Math.Max(0, shown.Decimals));
    }

    private static bool IsShown(double? expanded) => expanded is >= 0 and <= Greatest;

    // An uncertainty of a level has no reference.
    private static string Plain(string unit) => unit.StartsWith("dB re ", StringComparison.Ordinal) ? "dB" : unit;

    private static string Behind(string unit) => unit.Length == 0 ? "" : unit == "°" ? unit : " " + unit;

    private static string Sign(double value, int decimals, string plus)
    {
        var sign = value < 0 ? Minus.ToString() : plus;
        if (double.IsNaN(value)) return None;
        if (double.IsInfinity(value)) return sign + "∞";
        if (Math.Abs(value) >= Greatest) return sign + Math.Abs(value).ToString("0.##############E0", CultureInfo.InvariantCulture);
        var size = Math.Round(Math.Abs(ShownUncertainty.Decimal(value)), decimals, MidpointRounding.AwayFromZero);
        return (size == 0 ? "" : sign) + size.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
    }
}

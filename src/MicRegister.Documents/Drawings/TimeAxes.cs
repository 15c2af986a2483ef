using System.Globalization;
using MicRegister.Metrology.Quantities;

namespace MicRegister.Documents.Drawings;

/// <summary>Days to the right, deviations upward around nought: the frame that plots of results share.</summary>
/// <param name="Width">Width in mm.</param>
/// <param name="Height">Height in mm, labels included.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="ExtremeDb">Greatest deviation to either side, in <paramref name="Unit"/>, above 0.</param>
/// <param name="Unit">What stands above the axis.</param>
public sealed record TimeAxes(double Width, double Height, DateOnly From, DateOnly To, double ExtremeDb, string Unit = "dB")
{
    public const double Left = 14;
    public const double Right = 6;
    public const double Top = 6;
    public const double Bottom = 10;
    private const double TextMm = 2.8;
    private static readonly double[] Steps = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10];

    public double X(DateOnly day) => X((double)day.DayNumber);

    public double X(double dayNumber) => Left + ((Width - Left - Right) * (dayNumber - From.DayNumber) / Math.Max(1.0, To.DayNumber - From.DayNumber));

    public double Y(double db) => Top + ((Height - Top - Bottom) * (0.5 - (db / (2 * ExtremeDb))));

    /// <summary>Lines and labels of the frame.</summary>
    public IEnumerable<Shape> Shapes()
    {
        var step = Steps.FirstOrDefault(s => ExtremeDb / s <= 5, ExtremeDb / 5);
        for (var k = -(int)(ExtremeDb / step); k <= (int)(ExtremeDb / step); k++)
        {
            yield return new Line(k == 0 ? Role.Axis : Role.Grid, [(Left, Y(k * step)), (Width - Right, Y(k * step))]);
            yield return new Label(Role.Quiet, Left - 1.5, Y(k * step) + 1, QuantityText.Signed(k * step, k == 0 ? 0 : 2), 1, TextMm);
        }
        yield return new Label(Role.Quiet, 1, Top - 2, Unit, -1, TextMm);
        var every = Math.Max(1, (To.Year - From.Year + 10) / 11);
        for (var year = From.Year + 1; year <= To.Year; year += every)
        {
            var at = X(new DateOnly(year, 1, 1));
            yield return new Line(Role.Grid, [(at, Top), (at, Height - Bottom)]);
            yield return new Label(Role.Quiet, at, Height - 4, year.ToString(CultureInfo.InvariantCulture), 0, TextMm);
        }
    }
}

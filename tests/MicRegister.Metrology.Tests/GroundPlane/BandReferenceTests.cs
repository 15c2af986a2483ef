using System.Globalization;
using MicRegister.Metrology.GroundPlane;
using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.GroundPlane;

/// <summary>The closed form of third-octave averages against Reference/ground-plane-bands.csv, which a numerical integration gave.</summary>
public sealed class BandReferenceTests
{
    // The file has nine decimals, and its integration agrees with itself to 1e-12.
    private const double Db = 1e-7;

    [Fact]
    public void Every_band_is_that_of_the_numerical_integration()
    {
        var rows = ReferenceTable.Rows("ground-plane-bands.csv");

        Assert.Equal(720, rows.Count);
        foreach (var row in rows)
        {
            double Of(string name) => ReferenceTable.Number(row[name]);
            var receiver = new PlaneReceiver(Of("height_m"), 90 - Of("angle_deg"), Of("speed_of_sound"), Of("reflection"));
            var band = new ThirdOctave(int.Parse(row["index"], CultureInfo.InvariantCulture));
            AssertClose.Absolute(Of("level_db"), receiver.BandDb(band), Db);
        }
    }

    // IEC 61260-1:2014, base ten: the band of 8 kHz has its middle at 7943.28 Hz; edges 1000 · 10^(9 ∓ 0.5)/10 by hand.
    [Fact]
    public void Bands_lie_side_by_side_in_base_ten()
    {
        var band = new ThirdOctave(9);

        AssertClose.Absolute(7943.28, band.MiddleHz, 5e-3);
        AssertClose.Relative(7079.458, band.LowHz, 1e-7);
        AssertClose.Relative(8912.509, band.HighHz, 1e-7);
        Assert.Equal(new ThirdOctave(10).LowHz, band.HighHz);
    }
}

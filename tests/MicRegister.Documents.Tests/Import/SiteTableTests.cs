using MicRegister.Documents.Import;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Tables from the site: surveys and weather loggers.</summary>
public sealed class SiteTableTests
{
    // Two hours ahead of UTC, one from 25 October 2026 on.
    private static readonly ZoneOffset[] Site = [new("2020-01-01T00:00:00.000Z", 120), new("2026-10-25T01:00:00.000Z", 60)];

    [Theory]
    [InlineData("Station;Latitude;Longitude;Horizontal uncertainty [m];Height [m];Vertical uncertainty [m];Method|S1;53.5;10.1;0.02;0.007;0.001;total station")]
    [InlineData("Messpunkt;Breite;Länge;Lageunsicherheit [cm];Membranhöhe [mm];Höhenunsicherheit [mm];Verfahren|S1;53,5;10,1;2;7;1;total station")]
    public void A_survey_is_read_in_english_and_german_with_points_and_commas(string text)
    {
        var table = SurveyTable.Read(Cells(text), null);

        Assert.Empty(table.Bad);
        var said = Assert.Single(table.Good);
        Assert.Equal(("S1", 53.5, 10.1, "total station"), (said.Station, said.LatitudeDeg, said.LongitudeDeg, said.Method));
        Assert.Equal(0.02, said.HorizontalStandardM, 1e-12);
        Assert.Equal(0.007, said.HeightM!.Value, 1e-12);
        Assert.Equal(0.001, said.VerticalStandardM!.Value, 1e-12);
        Assert.Null(said.AltitudeM);
    }

    [Theory]
    [InlineData("station;latitude;longitude|S1;53.5;10.1", 1, "horizontal", "", "horizontal uncertainty")]
    [InlineData("station;latitude;longitude;horizontal [ft]|S1;53.5;10.1;1", 1, "horizontal [ft]", "ft", "m, cm or mm")]
    [InlineData("station;latitude;longitude;horizontal|S1;fifty;10.1;0.02", 2, "latitude", "fifty", "a number")]
    [InlineData("station;latitude;longitude;horizontal|S1;1,234.5;10.1;0.02", 2, "latitude", "1,234.5", "a number")]
    [InlineData("station;latitude;longitude;horizontal|S1;;10.1;0.02", 2, "latitude", "", "a number from -90 to 90")]
    [InlineData("station;latitude;longitude;horizontal|S1;95;10.1;0.02", 2, "station", "S1", "Latitude '95'")]
    [InlineData("station;latitude;longitude;horizontal|S1;53.5;10.1;0", 2, "station", "S1", "no place is exact")]
    [InlineData("station;latitude;longitude;horizontal;height|S1;53.5;10.1;0.02;1.2", 2, "station", "S1", "Vertical uncertainty is missing")]
    [InlineData("station;latitude;longitude;horizontal|S1;53.5;10.1;0.02|S1;53.5;10.1;0.02", 3, "station", "S1", "stands in row 2 too")]
    [InlineData("station;latitude;longitude;horizontal|;53.5;10.1;0.02", 2, "station", "", "the name of a station")]
    [InlineData("station;latitude;longitude;horizontal", 2, "station", "", "at least one row")]
    [InlineData("station;latitude;lat;longitude;horizontal|S1;1;2;3;4", 1, "lat", "lat", "latitude is another")]
    public void What_is_wrong_with_a_survey_is_told_by_row_field_and_value(string text, int row, string field, string value, string allowed)
    {
        var table = SurveyTable.Read(Cells(text), "total station");

        var bad = Assert.Single(table.Bad);
        Assert.Equal((row, field, value), (bad.Row, bad.Field, bad.Value));
        Assert.Contains(allowed, bad.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void A_survey_without_a_method_is_refused() =>
        Assert.Contains("Method", Assert.Single(SurveyTable.Read(Cells("station;lat;lon;horizontal|S1;1;2;3"), null).Bad).Allowed, StringComparison.Ordinal);

    [Theory]
    [InlineData("Time (UTC);Wind [m/s];Gust [m/s];Wind direction [°];Temperature [°C];Humidity [%];Pressure [kPa]|2026-06-02 10:00;5;10;270;20;60;100")]
    [InlineData("Zeitpunkt (UTC);Windgeschwindigkeit [km/h];Böe [km/h];Windrichtung [°];Lufttemperatur [°C];Luftfeuchte [%];Luftdruck [hPa]|02.06.2026 10:00:00;18,0;36,0;270;20,0;60;1000,0")]
    [InlineData("utc;Wind, m/s;Gust, m/s;Direction;Temp, °F;RH;Pressure, Pa|2026-06-02T10:00:00Z;5;10;270;68;60;100000")]
    [InlineData("Date;Time of day (site);Wind (m/s);Gust (m/s);Direction (deg);Temp (K);RH (%);Pressure (mbar)|2026/06/02;12:00;5;10;270;293.15;60;1000")]
    public void Units_zones_and_decimal_signs_come_to_one_reading(string text)
    {
        var table = WeatherTable.Read(Cells(text), null, Site);

        Assert.Empty(table.Bad);
        var reading = Assert.Single(table.Good);
        Assert.Equal("2026-06-02T10:00:00.000Z", reading.At);
        Assert.Equal([270, 5, 10, 20, 60, 100], new[]
        {
            reading.WindFromDeg, reading.WindMs, reading.GustMs, reading.TemperatureC, reading.HumidityPercent, reading.PressureKPa,
        }.Select(v => Math.Round(v!.Value, 9)));
    }

    [Theory]
    [InlineData("kt", 12, 6.173333)] // 1852 m an hour
    [InlineData("mph", 10, 4.4704)] // 1609.344 m
    public void Wind_comes_in_other_units_too(string unit, double value, double metres)
    {
        var table = WeatherTable.Read(Cells(FormattableString.Invariant($"time (UTC);wind [{unit}]|2026-06-02 10:00;{value}")), null, Site);

        Assert.Equal(metres, Assert.Single(table.Good).WindMs!.Value, 1e-6);
    }

    [Theory]
    [InlineData(true, "2026-06-02T10:00:00.000Z")]
    [InlineData(false, "2026-06-02T08:00:00.000Z")]
    public void The_zone_may_be_stated_beside_the_table(bool isUtc, string at) => Assert.Equal(
        at, Assert.Single(WeatherTable.Read(Cells("time;wind [m/s]|2026-06-02 10:00;5"), isUtc, Site).Good).At);

    [Theory]
    [InlineData("time;wind [m/s]|2026-06-02 10:00;5", 2, "time", "2026-06-02 10:00", "whether times are UTC or the site's")]
    [InlineData("time (site);wind [m/s]|2026-10-25 02:30;5", 2, "time (site)", "2026-10-25 02:30", "came twice")]
    [InlineData("time (UTC);wind|2026-06-02 10:00;5", 1, "wind", "", "m/s, km/h, kt or mph")]
    [InlineData("time (UTC);temperature [R]|2026-06-02 10:00;5", 1, "temperature [R]", "r", "°C, °F or K")]
    [InlineData("time (UTC);pressure [psi]|2026-06-02 10:00;5", 1, "pressure [psi]", "psi", "kPa, hPa, mbar, Pa or mmHg")]
    [InlineData("time (UTC);rain [mm]|2026-06-02 10:00;5", 1, "wind", "", "at least one of wind")]
    [InlineData("time (UTC);wind [m/s];max gust [m/s];rain [mm];dew point temperature [°C]|2026-06-02 10:00;2;22;0;9", 1, "max gust [m/s]", "max gust [m/s]", "one of")]
    [InlineData("wind [m/s]|5", 1, "time", "", "a column time")]
    [InlineData("time (UTC);wind [m/s]|2026-06-02 10:00;strong", 2, "wind [m/s]", "strong", "a number")]
    [InlineData("time (UTC);wind [m/s]|2026-06-02 10:00;-1", 2, "time (UTC)", "2026-06-02 10:00", "Wind '-1'")]
    [InlineData("time (UTC);pressure [kPa]|2026-06-02 10:00;1013", 2, "time (UTC)", "2026-06-02 10:00", "Static pressure '1013'")]
    [InlineData("time (UTC);wind [m/s]|2026-06-02 10:00;1|2026-06-02 10:00;2", 3, "time (UTC)", "2026-06-02 10:00", "stands in row 2 too")]
    [InlineData("time (UTC);wind [m/s]|2026-06-02 10:00;", 2, "time (UTC)", "", "at least one reading")]
    public void What_is_wrong_with_weather_is_told_by_row_field_and_value(string text, int row, string field, string value, string allowed)
    {
        var bad = Assert.Single(WeatherTable.Read(Cells(text), null, Site).Bad);

        Assert.Equal((row, field, value), (bad.Row, bad.Field, bad.Value));
        Assert.Contains(allowed, bad.Allowed, StringComparison.Ordinal);
        Assert.StartsWith($"Row {row}, {field} '{value}': allowed is ", bad.InWords, StringComparison.Ordinal);
    }

    [Fact]
    public void Readings_come_in_the_order_of_time_and_gaps_are_none()
    {
        var table = WeatherTable.Read(
            Cells("time (UTC);wind [m/s];humidity [%]|2026-06-02 10:01;2;|2026-06-02 10:00;1;NaN|2026-06-02 10:02;-;–|;;"), null, Site);

        Assert.Empty(table.Bad);
        Assert.Equal([1, 2], table.Good.Select(g => g.WindMs!.Value));
        Assert.All(table.Good, g => Assert.Null(g.HumidityPercent));
    }

    private static List<IReadOnlyList<string>> Cells(string text) => [.. text.Split('|').Select(r => (IReadOnlyList<string>)r.Split(';'))];
}

using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>
/// What a weather logger at the site read on one local day, or on a part of it. Subject: the campaign. Notes of people stand beside it.
/// </summary>
/// <param name="File">Name of the file that it came in, without folder.</param>
/// <param name="Sha256">SHA-256 of the file, in hexadecimal: a file is taken once.</param>
/// <param name="Readings">In the order of time.</param>
/// <param name="Remark">Which instrument, where and how high it stood; null where nothing was written down.</param>
public sealed record WeatherLogged(string File, string Sha256, IReadOnlyList<LoggedWeather> Readings, string? Remark)
    : FactBody, IObservation;

/// <summary>One reading of a weather logger.</summary>
/// <param name="At">When, as text of an instant.</param>
/// <param name="WindFromDeg">Direction that the wind comes from, in ° clockwise from north.</param>
/// <param name="WindMs">Mean of its speed since the reading before, in m/s.</param>
/// <param name="GustMs">Greatest speed since the reading before, in m/s.</param>
/// <param name="TemperatureC">Temperature in °C.</param>
/// <param name="HumidityPercent">Relative humidity in %.</param>
/// <param name="PressureKPa">Static pressure at the place in kPa, not reduced to sea level.</param>
public sealed record LoggedWeather(
    string At, double? WindFromDeg, double? WindMs, double? GustMs, double? TemperatureC, double? HumidityPercent, double? PressureKPa);

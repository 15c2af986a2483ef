using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>A station was surveyed as it stood; the last survey of a station counts as a whole. Subject: the campaign.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="LatitudeDeg">WGS84 latitude in °.</param>
/// <param name="LongitudeDeg">WGS84 longitude in °.</param>
/// <param name="AltitudeM">Altitude of the ground there above sea level, in m; null where it was not measured.</param>
/// <param name="HeightM">Height of the diaphragm above the ground or plate, in m; null where it was not measured.</param>
/// <param name="HorizontalStandardM">Standard uncertainty of the place, in m: of each of both coordinates.</param>
/// <param name="VerticalStandardM">Standard uncertainty of altitude and height, in m; null where neither was measured.</param>
/// <param name="Method">How it was surveyed.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record StationSurveyed(
    string Station, double LatitudeDeg, double LongitudeDeg, double? AltitudeM, double? HeightM, double HorizontalStandardM,
    double? VerticalStandardM, string Method, string? Remark) : FactBody, IObservation;

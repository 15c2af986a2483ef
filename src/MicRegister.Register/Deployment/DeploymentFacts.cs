using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>A chain stands at its station; what stood there before stands there no longer. Subjects: the campaign, the devices, those labels that nobody knew.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="Devices">Ids of the devices.</param>
/// <param name="UnknownLabels">Codes that were scanned and on nothing that the phone knew; a binding said later tells what they are on.</param>
/// <param name="GapMm">Gap of an inverted capsule as measured, in mm.</param>
/// <param name="IsFlush">Whether the diaphragm was found flush; null where it was not looked at.</param>
/// <param name="Position">Where it stands by the phone.</param>
/// <param name="RangeV">Peak voltage that the channel was set to; null where it was not stated.</param>
/// <param name="Swap">What was taken out for what, where a part was swapped.</param>
/// <param name="Concerns">What the phone warned of when it was placed all the same.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record ChainPlaced(
    string Station, IReadOnlyList<string> Devices, IReadOnlyList<string> UnknownLabels, double? GapMm, bool? IsFlush, PhonePosition? Position, double? RangeV, PartSwap? Swap,
    IReadOnlyList<string> Concerns, string? Remark) : FactBody, IOutdoorStep, IStay;

/// <summary>A chain stands at its station, with nothing but its parts. Subjects: the campaign, then the devices.</summary>
public sealed record ChainPlacedBriefly(string Station, IReadOnlyList<string> Devices, double? GapMm) : FactBody, IOutdoorStep, IStay;

/// <summary>A chain was taken in from its station. Subjects: the campaign, the devices, those that were missing.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="Devices">Ids of the devices that came back.</param>
/// <param name="Missing">Ids of those that should have and were not there.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record ChainTakenIn(string Station, IReadOnlyList<string> Devices, IReadOnlyList<string> Missing, string? Remark)
    : FactBody, IOutdoorStep, IStay;

/// <summary>
/// A calibrator's tone went on the recorder, to be joined with its recording later.
/// Subjects: the campaign, the devices, the calibrator, the adapter.
/// </summary>
public sealed record ToneNoted(
    string Station, CheckMoment Moment, IReadOnlyList<string> Devices, string Calibrator, string? Adapter,
    Calibration.StatedAir? Air, string? Remark)
    : FactBody, IOutdoorStep;

/// <summary>A photo was taken. Subjects: the campaign, then the devices on it. The photo itself is an attachment, which may come later.</summary>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal.</param>
/// <param name="MediaType">Such as image/jpeg.</param>
/// <param name="Text">What it shows.</param>
/// <param name="Station">Name of the station.</param>
/// <param name="LatitudeDeg">Where it was taken; only where the person wanted it kept.</param>
/// <param name="LongitudeDeg">Where it was taken.</param>
public sealed record PhotoTaken(
    string Sha256, string MediaType, string? Text, string? Station, double? LatitudeDeg, double? LongitudeDeg)
    : FactBody, IOutdoorStep;

/// <summary>The weather at the site, as read there. Subject: the campaign.</summary>
/// <param name="WindFromDeg">Direction that the wind comes from, in ° clockwise from north.</param>
/// <param name="WindMs">Its speed in m/s.</param>
/// <param name="TemperatureC">Temperature in °C.</param>
/// <param name="HumidityPercent">Relative humidity in %.</param>
/// <param name="PressureKPa">Static pressure at the place in kPa, not reduced to sea level.</param>
public sealed record WeatherNoted(
    double? WindFromDeg, double? WindMs, double? TemperatureC, double? HumidityPercent, double? PressureKPa)
    : FactBody, IOutdoorStep;

/// <summary>A position by a phone.</summary>
/// <param name="LatitudeDeg">WGS84 latitude in °.</param>
/// <param name="LongitudeDeg">WGS84 longitude in °.</param>
/// <param name="AccuracyM">Radius that the phone trusts it within, in m.</param>
public sealed record PhonePosition(double LatitudeDeg, double LongitudeDeg, double AccuracyM)
{
    /// <summary>Distance to another place in m, on a plane through both: good to a thousandth over some kilometres.</summary>
    public double MetresTo(double latitudeDeg, double longitudeDeg) =>
        StationPlace.Metres(LatitudeDeg, LongitudeDeg, latitudeDeg, longitudeDeg);
}

/// <summary>A part that was swapped.</summary>
/// <param name="Out">Id of the device that was taken out.</param>
/// <param name="In">Id of the one that stands in for it.</param>
/// <param name="Reason">Why.</param>
public sealed record PartSwap(string Out, string In, string Reason);

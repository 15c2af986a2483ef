using MicRegister.Register.Facts;

namespace MicRegister.Register.Campaigns;

/// <summary>A campaign was planned or planned anew; the last plan counts as a whole. Subject: the campaign.</summary>
/// <param name="Name">Name for headings.</param>
/// <param name="FirstDay">First local day of the series.</param>
/// <param name="LastDay">Last local day, inclusive.</param>
/// <param name="Zone">IANA name of the site's zone.</param>
/// <param name="Offsets">The zone's offsets from UTC over the campaign, oldest first.</param>
/// <param name="Site">Name of the site.</param>
/// <param name="AltitudeM">Altitude of the site in m above sea level.</param>
/// <param name="Source">What flies.</param>
/// <param name="LowestHz">Lower end of the band of interest in Hz.</param>
/// <param name="HighestHz">Upper end of the band of interest in Hz.</param>
/// <param name="LowestLevelDb">Lowest level that matters, in dB re 20 µPa.</param>
/// <param name="HighestLevelDb">Highest level to be expected at the microphones, in dB re 20 µPa, peaks included.</param>
/// <param name="Profile">Id of the requirement profile.</param>
/// <param name="PermittedLosses">How many stations may fail without the campaign being lost.</param>
/// <param name="SparesWanted">How many spare microphones should go along; null asks the profile.</param>
public sealed record CampaignPlanned(
    string Name, DateOnly FirstDay, DateOnly LastDay, string Zone, IReadOnlyList<ZoneOffset> Offsets, string Site, double AltitudeM,
    SourceClass Source, double LowestHz, double HighestHz, double? LowestLevelDb, double? HighestLevelDb, string Profile,
    int PermittedLosses, int? SparesWanted) : FactBody
{
    /// <summary>Direction of the track over the array, in ° clockwise from north, either way along it; null where none was stated.</summary>
    public double? TrackDeg { get; init; }
}

/// <summary>A station got its place. Subject: the campaign.</summary>
/// <param name="Station">Name of the station, unique in the campaign.</param>
/// <param name="LatitudeDeg">WGS84 latitude in °.</param>
/// <param name="LongitudeDeg">WGS84 longitude in °.</param>
/// <param name="Mount">How the microphone stands.</param>
/// <param name="HeightM">Height of the diaphragm above the ground or plate in m; null takes the mount's usual one.</param>
public sealed record StationPlanned(string Station, double LatitudeDeg, double LongitudeDeg, Mount Mount, double? HeightM) : FactBody;

/// <summary>Devices were allocated to a station; the last allocation counts as a whole. Subjects: the campaign, then the devices.</summary>
public sealed record ChainPlanned(string Station, IReadOnlyList<string> Devices) : FactBody;

/// <summary>Devices go along beside the chains; the last list for a purpose counts as a whole. Subjects: the campaign, then the devices.</summary>
public sealed record KitPlanned(KitPurpose Purpose, IReadOnlyList<string> Devices) : FactBody;

/// <summary>How the sensitivity of a campaign's recordings is told was chosen; the last choice counts. Subject: the campaign.</summary>
public sealed record SensitivityRuleChosen(SensitivityRule Rule, string Reason) : FactBody;

/// <summary>Which sensitivity is applied to a recording.</summary>
public enum SensitivityRule
{
    /// <summary>Mean of the checks before and after, in dB.</summary>
    MeanOfChecks,

    /// <summary>What the certificates of the parts let expect.</summary>
    Certificate,

    /// <summary>On a straight line in time between the microphone's certificate before and the result as found after.</summary>
    LinearBetween,
}

/// <summary>What flies.</summary>
public enum SourceClass
{
    Jet,
    Propeller,
    SmallMultirotor,
    Other,
}

/// <summary>How a microphone stands at a station.</summary>
public enum Mount
{
    /// <summary>Diaphragm flush in a plate on the ground: +6 dB re free field.</summary>
    FlushPlate,

    /// <summary>Capsule upside down over a plate, usually 7 mm: +6 dB at low frequency.</summary>
    InvertedPlate,

    /// <summary>On a stand, usually 1.2 m above the ground: +3 dB as an average.</summary>
    GroundStand,

    /// <summary>On a pole of 6 to 10 m: taken as free field.</summary>
    Pole,
}

/// <summary>Why a device goes along.</summary>
public enum KitPurpose
{
    /// <summary>Stands in for what fails.</summary>
    Spare,

    /// <summary>Serves the checks: calibrators, adapters, barometer, noise source, attenuators.</summary>
    Check,
}

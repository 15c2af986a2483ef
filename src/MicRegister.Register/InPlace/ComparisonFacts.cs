using MicRegister.Register.Facts;

namespace MicRegister.Register.InPlace;

/// <summary>
/// Chains were held against each other in place, for one sound that reached all of them. It shows which of them moved against the others, not
/// what all have in common. Subjects: the campaign, then the devices of the chains.
/// </summary>
/// <param name="Source">What sounded, such as a fly-over or a distant loudspeaker.</param>
/// <param name="FrequencyHz">Frequency, or middle of the band, in Hz; null where a weighted level was taken.</param>
/// <param name="Chains">Each station once.</param>
/// <param name="ExpandedDb">U (k = 2) of one level against what was to be expected there, in dB; null takes the scatter of the chains.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record ChainsCompared(
    string Source, double? FrequencyHz, IReadOnlyList<ComparedChain> Chains, double? ExpandedDb, string? Remark)
    : FactBody, IObservation;

/// <summary>One chain of a comparison.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="Devices">Ids of the devices of the chain that stood there.</param>
/// <param name="LevelDb">Level by the chain, with its sensitivity of the check before applied, in dB re 20 µPa.</param>
/// <param name="ExpectedDb">What the place makes of it, against the other stations, in dB: by distance, by mount. 0 where all are alike.</param>
public sealed record ComparedChain(string Station, IReadOnlyList<string> Devices, double LevelDb, double ExpectedDb);

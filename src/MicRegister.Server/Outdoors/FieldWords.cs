using System.Text.Json;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Outdoors;

/// <summary>The register's words for people as a phone takes them along, by the keys that facts and kits hold.</summary>
/// <param name="Mounts">How a microphone stands.</param>
/// <param name="Statuses">States of use.</param>
/// <param name="Moments">When a check is made.</param>
/// <param name="States">How far a station is.</param>
/// <param name="Verdicts">Verdicts of devices.</param>
/// <param name="Services">Sorts of work.</param>
/// <param name="Kinds">Kinds of devices.</param>
internal sealed record FieldWords(
    IReadOnlyDictionary<string, string> Mounts, IReadOnlyDictionary<string, string> Statuses, IReadOnlyDictionary<string, string> Moments,
    IReadOnlyDictionary<string, string> States, IReadOnlyDictionary<string, string> Verdicts, IReadOnlyDictionary<string, string> Services,
    IReadOnlyDictionary<string, string> Kinds)
{
    /// <summary>All words, the same in every kit.</summary>
    public static FieldWords All { get; } = new(
        Of<Mount>(x => x.InWords), Of<DeviceStatus>(x => x.InWords), Of<CheckMoment>(x => x.InWords), Of<StationState>(x => x.InWords),
            Of<ReadinessVerdict>(x => x.InWords),
        Of<ServiceKind>(x => x.InWords), DeviceKind.All.ToDictionary(k => k.Key, k => k.Label));

    private static Dictionary<string, string> Of<T>(Func<T, string> words)
        where T : struct, Enum =>
        Enum.GetValues<T>().ToDictionary(v => JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()), words);
}

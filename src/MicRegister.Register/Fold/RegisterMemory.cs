using System.Collections.Concurrent;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Fold;

/// <summary>
/// What was worked out of the register, as far as it was asked for. It is handed on from state to state while new facts can only change
/// what they speak of; a correction, a clock, a join, a plan or a profile begins it anew.
/// </summary>
internal sealed class RegisterMemory
{
    // Facts that change nothing but the timelines of their own subjects.
    private static readonly HashSet<string> Plain =
    [
        "person-named", "device-moved", "device-status-changed", "device-noted", "device-serviced", "device-inspected", "certificate-issued", "alarm-reviewed", "coupling-stated", "doubt-settled", "incidence-stated",
        "chain-placed", "chain-taken-in", "tone-noted", "photo-taken", "weather-noted", "chain-checked", "chains-compared", "event-recorded", "recorder-clock-set", "recorder-time-checked", "recorder-hour-chosen",
    ];

    /// <summary>What stands where, by campaign.</summary>
    public Shelf<ArrayDeployment> Deployments { get; } = new();

    /// <summary>Chains compared in place, by campaign.</summary>
    public Shelf<IReadOnlyList<ArrayComparison>> Comparisons { get; } = new();

    /// <summary>What is in doubt, by device.</summary>
    public Shelf<IReadOnlyList<Doubt>> Doubts { get; } = new();

    /// <summary>Keys of devices' kinds, by their ids.</summary>
    public ConcurrentDictionary<string, string?> Kinds { get; } = new(StringComparer.Ordinal);

    /// <summary>Which devices carry which serial number; null where nobody asked yet.</summary>
    public Devices.SerialIndex? Serials { get; set; }

    /// <summary>Checks that were read, by sequence; null where one cannot be worked with.</summary>
    public ConcurrentDictionary<int, CheckRecord?> CheckRecords { get; } = new();

    /// <summary>Whether what was worked out before a batch still holds after it, but for the subjects of the batch.</summary>
    public static bool Outlives(IReadOnlyList<Fact> batch, Corrections corrections) =>
        batch.All(f => Plain.Contains(f.Kind) && Corrections.Target(f) is null && !corrections.PointersAt.ContainsKey(f.Id));

    /// <summary>Answers about subjects, each with the number of facts that it was worked out of.</summary>
    internal sealed class Shelf<T>
    {
        private readonly ConcurrentDictionary<string, (int Version, T Answer)> _known = new(StringComparer.Ordinal);

        /// <summary>The answer, worked out anew where there are more facts about the subject by now.</summary>
        public T Of(string id, int version, Func<string, T> work)
        {
            if (_known.TryGetValue(id, out var known) && known.Version == version) return known.Answer;
            var answer = work(id);
            _known[id] = (version, answer);
            return answer;
        }
    }
}

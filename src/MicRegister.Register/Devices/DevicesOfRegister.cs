using System.Collections.Concurrent;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Devices;

/// <summary>The devices of a register.</summary>
public static class DevicesOfRegister
{
    extension(Register register)
    {
        /// <summary>
        /// Ids of all devices, joined ones under the entry that was kept, in ordinal order; not those of which all was taken back.
        /// </summary>
        public IEnumerable<string> DeviceIds
        {
            get
            {
                var joined = register.Joined();
                return register.StandingIds("device", "device-registered").Where(id => !joined.ContainsKey(id));
            }
        }

        /// <summary>A device; null where no fact speaks of it.</summary>
        /// <param name="id">Its id; that of a joined entry leads to the one that was kept.</param>
        /// <param name="day">As it was true at the end of that day; null for all that is known.</param>
        public DeviceState? Device(string id, DateOnly? day = null)
        {
            var entries = register.EntriesOf(id);
            var kept = entries[0];
            if (entries.Count == 1)
                return register.Fold<DeviceState>(Subject.Device(kept), day, facts => DeviceState.Fold(kept, facts), null);
            // People said that they are one.
            return register.FoldTogether(
                entries.Select(Subject.Device), day, facts => DeviceState.Fold(kept, facts) with { Contradictions = [] });
        }

        /// <summary>Key of a device's kind, as its state says, without reading its other facts; null where nobody registered it.</summary>
        internal string? KindOf(string id)
        {
            var known = register.Memory.Of<KindMemory>();
            if (known.TryGetValue(id, out var kind)) return kind;
            // Nothing else speaks of the kind; of joined entries the state itself tells.
            kind = register.EntriesOf(id) is [var own]
                ? DeviceState.Fold(own, register.FactsOfKinds(Subject.Device(own), "device-registered", "device-described")).Kind
                : register.Device(id)?.Kind;
            return known[id] = kind;
        }
    }

    /// <summary>Keys of devices' kinds, by their ids.</summary>
    private sealed class KindMemory() : ConcurrentDictionary<string, string?>(StringComparer.Ordinal);
}

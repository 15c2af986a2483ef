using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Devices;

/// <summary>Which fact stated what stands of a device, so that it can be told what is newer.</summary>
public static class DeviceStatements
{
    /// <summary>Key of the place among the statements about a device.</summary>
    public const string Place = "place";

    /// <summary>Key of the state of use among the statements about a device.</summary>
    public const string Status = "status";

    extension(Register register)
    {
        /// <summary>
        /// The facts that state what stands of a device now, by keys of its details, kind, maker, model, serial, place and status. A
        /// detail that was cleared names the fact that cleared it; what nobody stated is not there.
        /// </summary>
        /// <param name="device">Its id; that of a joined entry leads to the one that was kept.</param>
        public IReadOnlyDictionary<string, Fact> StatementsOf(string device) =>
            register.FoldTogether(register.EntriesOf(device).Select(Subject.Device), null, Fold) ?? [];

        /// <summary>The instant from which a fact of a bare day counts, in milliseconds since 1970: the day's begin at home.</summary>
        public long StartOf(DateOnly day) => ZoneOffsets.StartOfDay(day, register.Basis.Founded?.Offsets ?? []);
    }

    // As the state of a device is folded: the last description counts, and a registration fills what is left open.
    private static Dictionary<string, Fact> Fold(IEnumerable<FoldedFact> facts)
    {
        var by = new Dictionary<string, Fact>(StringComparer.Ordinal);
        var held = new HashSet<string>(StringComparer.Ordinal);
        var isRegistered = false;
        foreach (var fact in Register.Counting(facts))
        {
            switch (fact.Body)
            {
                case DeviceRegistered r:
                    foreach (var key in r.Details.Keys.Concat(isRegistered ? [] : Named(r)).Where(held.Add)) by[key] = fact;
                    isRegistered = true;
                    break;
                case DeviceDescribed d:
                    foreach (var key in d.Clear) by[key] = fact;
                    held.ExceptWith(d.Clear);
                    foreach (var key in d.Set.Keys) by[key] = fact;
                    held.UnionWith(d.Set.Keys);
                    break;
                case DeviceMoved: by[Place] = fact; break;
                case DeviceStatusChanged: by[Status] = fact; break;
                default: break;
            }
        }
        return by;
    }

    private static IEnumerable<string> Named(DeviceRegistered registered) =>
        new[] { ("kind", registered.Kind), ("maker", registered.Maker), ("model", registered.Model), ("serial", registered.Serial) }
            .Where(n => n.Item2 is not null).Select(n => n.Item1);
}

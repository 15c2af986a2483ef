using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>How far a doubt reaches: the device itself, and what was measured against it while it lasted.</summary>
/// <param name="Doubt">The doubt as it is about that device: its key, text and settling stay those of its cause.</param>
/// <param name="Through">Names of certificates in between, nearest to the device first; empty for the device itself.</param>
internal sealed record DoubtReach(Doubt Doubt, IReadOnlyList<string> Through)
{
    private const int MostSteps = 10;

    /// <summary>What was found, and through which certificates it comes here.</summary>
    public string Text =>
        Through.Count == 0 ? Doubt.Text : $"{Doubt.Text} {string.Join(", ", Through)} {(Through.Count == 1 ? "rests" : "rest")} on it.";

    /// <summary>All doubts that reach a device: its own, and those of what its certificates were measured against.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="device">Id of the device.</param>
    /// <param name="state">Its state; null where nobody registered it.</param>
    /// <param name="profile">Limits that raise them; null takes what is usual.</param>
    public static IReadOnlyList<DoubtReach> Of(Register register, string device, DeviceState? state, ProfileState? profile) =>
        Of(register, device, state, profile, 0);

    private static List<DoubtReach> Of(Register register, string device, DeviceState? state, ProfileState? profile, int steps)
    {
        var doubts = DoubtBook.OfDevice(register, device, profile);
        List<DoubtReach> own = doubts.Count == 0 ? [] : [.. doubts.Select(d => new DoubtReach(d, []))];
        if (steps == MostSteps || state is null) return own;
        foreach (var certificate in state.Certificates)
        {
            if (certificate.Issued.ReferenceDevice is null || !state.ReliesOn(certificate)) continue;
            var reference = register.EntriesOf(certificate.Issued.ReferenceDevice!)[0];
            if (reference == state.Id) continue;
            own.AddRange(Of(register, reference, register.Device(reference), profile, steps + 1).Where(r => Lasted(register, r.Doubt, certificate))
                .Select(r => r.Over(register, state, certificate)));
        }
        return own;
    }

    /// <summary>All devices that a doubt reaches, the device itself first.</summary>
    public static IReadOnlyList<DoubtReach> From(Register register, Doubt doubt)
    {
        var all = new List<DoubtReach> { new(doubt, []) };
        for (var (i, steps) = (0, 1); i < all.Count && steps <= MostSteps; steps++)
        {
            // One step at a time, so that a circle of references ends.
            for (var end = all.Count; i < end; i++)
            {
                var from = all[i];
                foreach (var sequence in register.MeasuredAgainst(from.Doubt.Device).Where(register.Counts))
                {
                    var fact = register.Source.Read(sequence);
                    var holders = fact.Subjects.Where(Subject.IsDevice).Select(s => register.Device(Subject.Id(s))).OfType<DeviceState>();
                    foreach (var holder in holders.DistinctBy(d => d.Id))
                    {
                        if (holder.Id != from.Doubt.Device && holder.Certificates.FirstOrDefault(c => c.Fact == fact.Id) is { } certificate
                            && holder.ReliesOn(certificate) && Lasted(register, from.Doubt, certificate))
                        {
                            all.Add(from.Over(register, holder, certificate));
                        }
                    }
                }
            }
        }
        return all;
    }

    // Whether a certificate was measured while the doubt lasted; a day stands for all of it.
    private static bool Lasted(Register register, Doubt doubt, DeviceCertificate certificate) =>
        DoubtBook.StartOf(register, certificate.Day.AddDays(1)) > doubt.FromMs
        && DoubtBook.StartOf(register, certificate.Day) <= doubt.ToMs;

    // From the day of the certificate until the next one of its quantity.
    private DoubtReach Over(Register register, DeviceState device, DeviceCertificate certificate)
    {
        var next = device.Certificates
            .Where(c => device.ReliesOn(c) && c.Issued.Quantity == certificate.Issued.Quantity && c.Day > certificate.Day)
            .Select(c => (DateOnly?)c.Day).Min();
        return new(
            Doubt with
            {
                Device = device.Id,
                FromMs = DoubtBook.StartOf(register, certificate.Day),
                ToMs = next is { } day ? DoubtBook.StartOf(register, day) - 1 : long.MaxValue,
                IsOfChecks = DoubtBook.IsForChecks(register, device),
                Through = certificate.Fact.ToString(),
            },
            [$"The {certificate.Issued.Quantity} certificate of {certificate.Day:yyyy-MM-dd} of {device.Name}", .. Through]);
    }
}

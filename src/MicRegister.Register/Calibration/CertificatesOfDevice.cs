using System.Collections.Immutable;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>What was certified of a device, and what people said of it.</summary>
public static class CertificatesOfDevice
{
    extension(DeviceState device)
    {
        /// <summary>All certificates, oldest first; annulled ones stay visible.</summary>
        public ImmutableArray<DeviceCertificate> Certificates => device.Certified.Certificates;

        /// <summary>What people said of alarms, by id of the certificate.</summary>
        public ImmutableSortedDictionary<string, AlarmReviewed> Reviews => device.Certified.Reviews;

        /// <summary>Ids of the certificates that people chose among those of one day, the last word last.</summary>
        public ImmutableArray<string> Chosen => device.Certified.Chosen;

        /// <summary>
        /// Where a certificate stands among those of its quantity and day: what people chose comes before what nobody spoke of,
        /// the last word first; otherwise the last by id is in force.
        /// </summary>
        internal int RankOf(DeviceCertificate certificate) =>
            device.Certified.Chosen.IsEmpty ? -1 : device.Certified.Chosen.LastIndexOf(certificate.Fact.ToString());

        /// <summary>Whether a certificate of it counts: it was not annulled, and nobody found its result to be bad.</summary>
        public bool ReliesOn(DeviceCertificate certificate) =>
            !certificate.IsAnnulled
            && (device.Reviews.IsEmpty || device.Reviews.GetValueOrDefault(certificate.Fact.ToString())?.Decision != AlarmDecision.BadResult);

        /// <summary>The device with the certificates up to a day, inclusive: what was certified later says nothing of that day.</summary>
        public DeviceState CertifiedBy(DateOnly day) => device.Certificates.All(c => c.Day <= day)
            ? device
            : device.With(device.Certified with { Certificates = [.. device.Certificates.Where(c => c.Day <= day)] });

        /// <summary>
        /// Whether work between two certificates made another device of it, so that both say nothing of a change of one: what was found on
        /// the day of the work and then adjusted is how it was before.
        /// </summary>
        internal bool IsAnotherBetween(DeviceCertificate last, DeviceCertificate found) => device.Services.Any(w =>
            w.What.BeginsAnew && last.Day < w.Day && w.Day <= found.Day && !found.TellsBefore(w));

        internal DeviceState With(DeviceCertificate certificate) =>
            device.With(device.Certified with { Certificates = device.Certificates.Add(certificate) });

        internal DeviceState With(AlarmReviewed said) =>
            device.With(device.Certified with { Reviews = device.Reviews.SetItem(said.Certificate, said) });

        internal DeviceState With(CertificateChosen said) =>
            device.With(device.Certified with { Chosen = device.Certified.Chosen.Remove(said.Certificate).Add(said.Certificate) });

        private CertifiedPart Certified => device.Parts.Of<CertifiedPart>() ?? CertifiedPart.None;

        private DeviceState With(CertifiedPart part) => device with { Parts = device.Parts.With(part) };
    }

    extension(Register register)
    {
        /// <summary>Sequences of the certificates that were measured against a device, in their order; joined entries are one.</summary>
        internal IReadOnlyList<int> MeasuredAgainst(string device) =>
            [.. register.EntriesOf(device).SelectMany(e => register.Facts(CertificateIssued.MeasuredAgainst(e))).Distinct()];
    }

    /// <summary>What calibration keeps of a device.</summary>
    private sealed record CertifiedPart(
        ImmutableArray<DeviceCertificate> Certificates, ImmutableSortedDictionary<string, AlarmReviewed> Reviews,
        ImmutableArray<string> Chosen)
    {
        public static CertifiedPart None { get; } =
            new([], ImmutableSortedDictionary.Create<string, AlarmReviewed>(StringComparer.Ordinal), []);
    }
}

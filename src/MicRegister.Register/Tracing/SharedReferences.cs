using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>
/// Parts the uncertainty of certificates that were measured against a device of the register: what comes from that reference is common to
/// all that was measured against it, and the rest is the certificate's own.
/// </summary>
/// <remarks>
/// u² = u(reference)² + rest², so that a certificate keeps what it states. The reference's part is what its own certificate in force on that
/// day states, and never more than the certificate measured against it states. What is common makes a mean of two such results less certain.
/// </remarks>
internal sealed class SharedReferences(Register register, Func<string, DeviceState?> device)
{
    /// <summary>Begin of the identity of what a certificate states.</summary>
    public const string Certificate = "certificate ";

    // A circle of references ends there too.
    private const int MostReferences = 10;

    private readonly Dictionary<string, Reference?> _known = new(StringComparer.Ordinal);

    /// <summary>Contributions with those of certificates parted; the sum of the squares of each certificate stays.</summary>
    public List<UncertaintyComponent> Parted(IEnumerable<UncertaintyComponent> components) => [.. components.SelectMany(c => Parts(c))];

    private IEnumerable<UncertaintyComponent> Parts(UncertaintyComponent whole)
    {
        var rest = whole;
        for (var depth = 0; depth < MostReferences; depth++)
        {
            if (Of(rest.Source) is not { } reference) break;
            var (u, common) = (rest.StandardUncertainty, Math.Min(reference.StandardDb, rest.StandardUncertainty));
            if (common < u) yield return rest with { StandardUncertainty = Math.Sqrt((u * u) - (common * common)) };
            rest = rest with { Name = reference.Name, Source = reference.Source, StandardUncertainty = common };
        }
        yield return rest;
    }

    private Reference? Of(string source)
    {
        if (!source.StartsWith(Certificate, StringComparison.Ordinal)) return null;
        if (!_known.TryGetValue(source, out var known)) _known[source] = known = Find(source[Certificate.Length..]);
        return known;
    }

    private Reference? Find(string certificate)
    {
        if (!FactId.TryParse(certificate, out var id) || register.Find(id) is not (var sequence and > 0)) return null;
        var fact = register.Source.Read(sequence);
        if (fact.Body is not CertificateIssued { ReferenceDevice: { } against } || device(against) is not { } reference) return null;
        if (DeviceKind.Find(reference.Kind)?.Calibrated is not { } quantity) return null;
        var own = CalibrationSeries.Newest(reference.CertifiedBy(fact.Occurred.Day), quantity);
        if (own?.InForce is not { } force || ResultLevel.Of(force)?.StandardUncertaintyDb is not { } u) return null;
        return new("reference standard " + reference.Name, Certificate + own.Fact, u);
    }

    private sealed record Reference(string Name, string Source, double StandardDb);
}

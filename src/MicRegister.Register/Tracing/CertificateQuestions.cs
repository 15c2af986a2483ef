
namespace MicRegister.Register.Tracing;

/// <summary>Whether what its certificates rest on was certified too.</summary>
internal static class CertificateQuestions
{
    public static IEnumerable<TraceReason> NoCertificate(TracedChain c) => c.Links
        .Where(l => l.Certificate is null && l.Depth > 0)
        .Select(l => new TraceReason(
            TraceVerdict.NotValid, $"{l.Device.Name} had no certificate on {l.Day:yyyy-MM-dd}.", "no certificate"));
}

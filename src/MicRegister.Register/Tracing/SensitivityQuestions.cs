using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Tracing;

/// <summary>Whether the sensitivity could be told by the campaign's rule, or at all.</summary>
internal static class SensitivityQuestions
{
    public static IEnumerable<TraceReason> CertificatesForChecks(TracedChain c)
    {
        if (c.Applied is { Rule: SensitivityRule.Certificate } && c.Campaign.Rule == SensitivityRule.MeanOfChecks)
        {
            yield return new(
                TraceVerdict.Doubtful, "Its certificates are applied, since no check tells its sensitivity.",
                "campaign's rule: mean of the checks");
        }
    }

    public static IEnumerable<TraceReason> NoCertificateAfter(TracedChain c)
    {
        if (c.Applied is { Rule: SensitivityRule.Certificate } && c.Campaign.Rule == SensitivityRule.LinearBetween)
        {
            yield return new(
                TraceVerdict.Doubtful, "There is no certificate after it yet, so the one before is applied.",
                "campaign's rule: linear between certificates");
        }
    }

    public static IEnumerable<TraceReason> NoSensitivity(TracedChain c)
    {
        if (c.Applied is null)
            yield return new(TraceVerdict.NotValid, "No sensitivity is known: neither a check nor a certificate tells it.", "no result");
    }
}

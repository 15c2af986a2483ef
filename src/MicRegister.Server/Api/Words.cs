using MicRegister.Register.Readiness;

namespace MicRegister.Server.Api;

/// <summary>Shapes beside the words of <c>InWords</c>: in black and white nothing is lost.</summary>
public static class Words
{
    /// <summary>Shape and word of a verdict.</summary>
    public static (string Shape, string Word) Verdict(ReadinessVerdict verdict) => (verdict switch
    {
        ReadinessVerdict.Ready => "●",
        ReadinessVerdict.AtRisk => "▲",
        ReadinessVerdict.NotReady => "■",
        _ => "◇",
    }, verdict.InWords);

    /// <summary>Shape and word of a finding's gravity.</summary>
    public static (string Shape, string Word) Gravity(Gravity gravity) => (gravity switch
    {
        Register.Readiness.Gravity.Stops => "■",
        Register.Readiness.Gravity.Risks => "▲",
        _ => "○",
    }, gravity.InWords);
}

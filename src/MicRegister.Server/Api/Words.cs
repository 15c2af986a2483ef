using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

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
        ReadinessVerdict.Over => "□",
        _ => "◇",
    }, verdict.InWords);

    /// <summary>Shape, style and word of what a recording is worth.</summary>
    public static (string Shape, string Style, string Word) Verdict(TraceVerdict verdict) => verdict switch
    {
        TraceVerdict.Valid => ("●", "", verdict.InWords),
        TraceVerdict.Doubtful => ("▲", "risks", verdict.InWords),
        TraceVerdict.Undecided => ("◇", "undecided", verdict.InWords),
        _ => ("■", "stops", verdict.InWords),
    };

    /// <summary>Shape and word of a finding's gravity.</summary>
    public static (string Shape, string Word) Gravity(Gravity gravity) => (gravity switch
    {
        Register.Readiness.Gravity.Stops => "■",
        Register.Readiness.Gravity.Risks => "▲",
        _ => "○",
    }, gravity.InWords);
}

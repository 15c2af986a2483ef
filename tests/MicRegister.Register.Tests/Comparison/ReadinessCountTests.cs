using MicRegister.Register.Comparison;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Comparison;

public sealed class ReadinessCountTests
{
    [Theory]
    [InlineData(ReadinessVerdict.Over, 0, 0, 0, 0, 0, "over (no finding)")]
    [InlineData(ReadinessVerdict.Over, 0, 0, 0, 0, 2, "over (findings: 2 to note)")]
    [InlineData(ReadinessVerdict.Ready, 3, 0, 0, 0, 0, "ready (stations: 3 ready; no finding)")]
    [InlineData(ReadinessVerdict.NotReady, 1, 1, 1, 1, 1, "not ready (stations: 1 ready, 1 not ready; findings: 1 stops, 1 risks, 1 to note)")]
    [InlineData(ReadinessVerdict.NotReady, 0, 2, 3, 2, 0, "not ready (stations: 2 not ready; findings: 3 stop, 2 risk)")]
    public void Counts_are_said_where_there_are_some(
        ReadinessVerdict verdict, int ready, int notReady, int stops, int risks, int notes, string says) =>
        Assert.Equal(says, new ReadinessCount(verdict, ready, 0, notReady, 0, stops, risks, notes).InWords);
}

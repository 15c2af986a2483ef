using System.Collections.Concurrent;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Fold;

/// <summary>What was worked out of one state of the register, as far as it was asked for.</summary>
internal sealed class RegisterMemory
{
    /// <summary>What stands where, by campaign.</summary>
    public ConcurrentDictionary<string, ArrayDeployment> Deployments { get; } = new(StringComparer.Ordinal);

    /// <summary>Chains compared in place, by campaign.</summary>
    public ConcurrentDictionary<string, IReadOnlyList<ArrayComparison>> Comparisons { get; } = new(StringComparer.Ordinal);

    /// <summary>What is in doubt, by device.</summary>
    public ConcurrentDictionary<string, IReadOnlyList<Doubt>> Doubts { get; } = new(StringComparer.Ordinal);

    /// <summary>Checks that were read, by sequence; null where one cannot be worked with.</summary>
    public ConcurrentDictionary<int, CheckRecord?> CheckRecords { get; } = new();
}

using System.Globalization;
using MicRegister.Register.Facts;

namespace MicRegister.Register.InPlace;

/// <summary>Kinds of facts about comparisons in place.</summary>
internal sealed class InPlaceKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("chains-compared", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Bench, _ => PhoneReach.Campaign,
            new ChainsCompared(
                "distant loudspeaker", 250, [.. Enumerable.Range(1, 5).Select(i => new ComparedChain($"S0{i}", ["A1"], 70, 0))], 0.4, null),
            f => string.Create(CultureInfo.InvariantCulture, $"{f.Chains.Count} chains, {f.Source}")),
    ];
}

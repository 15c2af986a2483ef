using MicRegister.Register.InPlace;

namespace MicRegister.Server.Api;

/// <summary>A comparison of chains in place.</summary>
/// <param name="CommonDb">What all have in common, in dB: the median of level minus expected.</param>
/// <param name="StandardDb">Standard uncertainty of one chain's own part, in dB.</param>
public sealed record ComparisonView(
    string Fact, DateTimeOffset At, string Author, string Source, double? FrequencyHz, double CommonDb, double StandardDb,
    IReadOnlyList<ComparisonView.Chain> Chains, string? Remark)
{
    public static ComparisonView Of(ArrayComparison k) => new(
        k.Fact.ToString(), DateTimeOffset.FromUnixTimeMilliseconds(k.Instant), k.Author, k.Said.Source, k.Said.FrequencyHz,
        k.Shift.CommonDb, k.StandardDb,
        [.. k.Said.Chains.Select((c, i) => new Chain(
            c.Station, c.Devices, c.LevelDb, c.ExpectedDb, k.OwnDb(i), k.Shift.StandsOut(i)))],
        k.Said.Remark);

    /// <summary>A chain of it.</summary>
    /// <param name="OwnDb">How far it lies from the others, in dB.</param>
    /// <param name="StandsOut">Whether that is more than chance lets expect of so many.</param>
    public sealed record Chain(
        string Station, IReadOnlyList<string> Devices, double LevelDb, double ExpectedDb, double OwnDb, bool StandsOut);
}

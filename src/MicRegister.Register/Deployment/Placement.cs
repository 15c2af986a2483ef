using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>A chain at a station, from when it was placed until it was taken in or another was placed there.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Campaign">Id of the campaign.</param>
/// <param name="Station">Name of the station.</param>
/// <param name="Devices">Ids of its devices: joined entries under the one that was kept, labels that became known under their device.</param>
/// <param name="UnknownLabels">Codes that are on nothing known to this day.</param>
/// <param name="Occurred">When it was placed, as said.</param>
/// <param name="From">The same in milliseconds since 1970, its client's clock put right.</param>
/// <param name="Until">When it stood there no longer; null while it stands.</param>
/// <param name="End">What ended it; null while it stands.</param>
/// <param name="EndFact">Id of the fact that ended it.</param>
/// <param name="Author">Id of who placed it.</param>
/// <param name="Said">What was said.</param>
/// <param name="Sequence">Where it stands in this log.</param>
public sealed record Placement(
    FactId Fact, string Campaign, string Station, IReadOnlyList<string> Devices, IReadOnlyList<string> UnknownLabels, Occurred Occurred, long From, long? Until, PlacementEnd? End, FactId? EndFact, string Author, ChainPlaced Said, int Sequence)
{
    /// <summary>Whether it stood at an instant: begin inclusive, end exclusive.</summary>
    public bool StoodAt(long instant) => From <= instant && (Until is not { } until || instant < until);

    /// <summary>Whether two stood at once for any time.</summary>
    public bool Overlaps(Placement other) => From < (other.Until ?? long.MaxValue) && other.From < (Until ?? long.MaxValue);

    public bool Stands => Until is null;
}

/// <summary>What ended a placement.</summary>
public enum PlacementEnd
{
    TakenIn,

    /// <summary>A part was swapped: the chain goes on as another.</summary>
    Swapped,

    /// <summary>Another chain was placed there, or the same anew.</summary>
    PlacedAnew,
}

using MicRegister.Register.Deployment;

namespace MicRegister.Documents.Import;

/// <summary>
/// Which chain stood at which station when: as the register holds it, and as rows say that are being taken in the order of time.
/// </summary>
internal sealed class StandingChains
{
    private readonly Dictionary<string, List<Step>> _steps = new(StringComparer.Ordinal);

    public StandingChains(Register.Register register, string campaign)
    {
        var deployment = ArrayDeployment.Of(register, campaign);
        foreach (var p in deployment.Placements) Of(p.Station).Add(new(p.From, p.Devices, false, true));
        foreach (var (fact, said, _) in deployment.TakenIn) Of(said.Station).Add(new(register.Instant(fact), [], false, false));
    }

    /// <summary>
    /// What stood at a station just before an instant, and after the rows of that instant that were taken already; empty where nothing did.
    /// </summary>
    public IReadOnlyList<string> Before(string station, long instant) =>
        Of(station).Where(s => s.At < instant || (s.At == instant && s.IsOwn)).OrderBy(s => s.At).LastOrDefault()?.Devices ?? [];

    /// <summary>The chain that the register holds as placed at that very instant; null where it holds none.</summary>
    public IReadOnlyList<string>? PlacedAt(string station, long instant) =>
        Of(station).LastOrDefault(s => s.At == instant && !s.IsOwn && s.IsPlaced)?.Devices;

    /// <summary>Whether the register holds that it was taken in at that very instant.</summary>
    public bool IsTakenIn(string station, long instant) => Of(station).Exists(s => s.At == instant && !s.IsOwn && !s.IsPlaced);

    /// <summary>How many rows of that very instant placed something there already.</summary>
    public int PlacedNow(string station, long instant) => Of(station).Count(s => s.At == instant && s.IsOwn && s.IsPlaced);

    public void Place(string station, long instant, IReadOnlyList<string> devices) => Of(station).Add(new(instant, devices, true, true));

    public void TakeIn(string station, long instant) => Of(station).Add(new(instant, [], true, false));

    private List<Step> Of(string station)
    {
        if (!_steps.TryGetValue(station, out var steps)) _steps[station] = steps = [];
        return steps;
    }

    private sealed record Step(long At, IReadOnlyList<string> Devices, bool IsOwn, bool IsPlaced);
}

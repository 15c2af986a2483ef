using MicRegister.Register.Facts;
using MicRegister.Register.Fold;
using MicRegister.Register.Labels;

namespace MicRegister.Register.Deployment;

/// <summary>What stands where in a campaign, and what stood there before.</summary>
/// <param name="Campaign">Id of the campaign.</param>
/// <param name="Placements">All of them in the order of time.</param>
/// <param name="TakenIn">Takings in, with the placement that each ended; null where nothing had been placed.</param>
/// <param name="Tones">Calibrator tones that went on a recorder, in the order of time.</param>
/// <param name="Photos">Photos, in the order of time.</param>
/// <param name="Weather">The newest weather; null where none was noted.</param>
/// <param name="Seen">Who spoke, the last first.</param>
public sealed record ArrayDeployment(
    string Campaign, IReadOnlyList<Placement> Placements, IReadOnlyList<(Fact Fact, ChainTakenIn Said, Placement? Ended)> TakenIn, IReadOnlyList<(Fact Fact, ToneNoted Said, long Instant)> Tones,
    IReadOnlyList<(Fact Fact, PhotoTaken Said)> Photos, (Fact Fact, WeatherNoted Said)? Weather, IReadOnlyList<ClientSeen> Seen)
{
    /// <summary>Tones that went on a recorder and that no check of a recording stands for yet: of the same station and moment, at most a day apart.</summary>
    public IEnumerable<(Fact Fact, ToneNoted Said, long Instant)> Unjoined(IReadOnlyList<Checks.CheckRecord> checks)
    {
        const long DayMs = 86_400_000;
        return Tones.Where(t => !checks.Any(k => k.Check.Method == Checks.CheckMethod.Recording && k.Check.Station == t.Said.Station && k.Check.Moment == t.Said.Moment && Math.Abs(k.Instant - t.Instant) < DayMs));
    }

    /// <summary>What stands at a station now; null where nothing does.</summary>
    public Placement? At(string station) => Placements.LastOrDefault(p => p.Station == station && p.Stands);

    /// <summary>What stood at a station at an instant; null where nothing did.</summary>
    public Placement? At(string station, long instant) => Placements.LastOrDefault(p => p.Station == station && p.StoodAt(instant));

    /// <summary>What crews said of a campaign, folded once a state.</summary>
    public static ArrayDeployment Of(Register register, string campaign) => register.Memory.Of<Shelf<ArrayDeployment>>().Of(
        campaign, register.Version(Subject.Campaign(campaign)), id => Fold(register, id),
        d => d.HasUnknownLabels ? register.Version(LabelBook.AllBindings) : 0);

    /// <summary>Devices that were taken away and set up again, by their ids: each time, in the order of time.</summary>
    internal IReadOnlyDictionary<string, List<SetUpAgain>> SetUpAgain { get; private init; } = new Dictionary<string, List<SetUpAgain>>();

    // Labels were scanned that the phone did not know: a binding says later what they are on.
    private bool HasUnknownLabels { get; init; }

    private static ArrayDeployment Fold(Register register, string campaign)
    {
        var log = DeploymentLog.Of(register, campaign);
        var placements = new List<Placement>();
        var open = new Dictionary<string, int>(StringComparer.Ordinal);
        var takenIn = new List<(Fact, ChainTakenIn, Placement?)>();
        var tones = new List<(Fact, ToneNoted, long)>();
        var photos = new List<(Fact, PhotoTaken)>();
        (Fact, WeatherNoted)? weather = null;
        var hasUnknownLabels = false;
        var away = new Dictionary<string, long>(StringComparer.Ordinal);
        var again = new Dictionary<string, List<SetUpAgain>>(StringComparer.Ordinal);
        foreach (var step in log.Steps)
        {
            switch (step.Fact.Body)
            {
                case ChainPlaced placed:
                    Place(step, placed);
                    break;
                case ChainPlacedBriefly brief:
                    Place(step, new(brief.Station, brief.Devices, [], brief.GapMm, null, null, null, null, [], null));
                    break;
                case ChainTakenIn taken:
                    takenIn.Add((step.Fact, taken, End(taken.Station, step, PlacementEnd.TakenIn)));
                    Leave(taken.Devices.Concat(taken.Missing).Select(d => register.EntriesOf(d)[0]).Concat(takenIn[^1].Item3?.Devices ?? []), step);
                    break;
                case ToneNoted tone:
                    tones.Add((step.Fact, tone, step.Instant));
                    break;
                case PhotoTaken photo:
                    photos.Add((step.Fact, photo));
                    break;
                case WeatherNoted noted:
                    weather = (step.Fact, noted);
                    break;
            }
        }
        return new(campaign, placements, takenIn, tones, photos, weather, log.Seen) { HasUnknownLabels = hasUnknownLabels, SetUpAgain = again };

        void Place(DeploymentStep step, ChainPlaced said)
        {
            var before = End(said.Station, step, said.Swap is null ? PlacementEnd.PlacedAnew : PlacementEnd.Swapped);
            var devices = said.Devices.Select(d => register.EntriesOf(d)[0]).ToList();
            var unknown = new List<string>();
            foreach (var label in said.UnknownLabels)
            {
                var isCode = LabelCode.TryRead(label, out var code, out _);
                hasUnknownLabels |= isCode;
                if (isCode && LabelBook.Of(register, code) is [{ Device: { } device }]) devices.Add(device);
                else unknown.Add(label);
            }
            // What another chain replaced, or a swap took out, stands there no longer.
            if (before is not null) Leave(before.Devices.Except(devices), step);
            foreach (var device in devices)
            {
                if (!away.Remove(device, out var since)) continue;
                if (!again.TryGetValue(device, out var known)) again[device] = known = [];
                known.Add(new(since, step.Instant));
            }
            open[said.Station] = placements.Count;
            placements.Add(new(step.Fact.Id, campaign, said.Station, [.. devices.Distinct(StringComparer.Ordinal)], unknown, step.Fact.Occurred, step.Instant, null, null, null, step.Fact.Author, said, step.Sequence));
        }

        void Leave(IEnumerable<string> devices, DeploymentStep step)
        {
            foreach (var device in devices) away[device] = step.Instant;
        }

        Placement? End(string station, DeploymentStep step, PlacementEnd end)
        {
            if (!open.Remove(station, out var at)) return null;
            return placements[at] = placements[at] with { Until = step.Instant, End = end, EndFact = step.Fact.Id };
        }
    }
}

using System.Collections.Immutable;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Campaigns;

/// <summary>What the facts say of one campaign.</summary>
public sealed record CampaignState(string Id)
{
    /// <summary>The plan; null where only parts of it are here yet.</summary>
    public CampaignPlanned? Plan { get; init; }

    /// <summary>Stations by name.</summary>
    public ImmutableSortedDictionary<string, StationPlanned> Stations { get; init; } =
        ImmutableSortedDictionary.Create<string, StationPlanned>(StringComparer.Ordinal);

    /// <summary>Surveys in force, by name of the station.</summary>
    public ImmutableSortedDictionary<string, StationSurvey> Surveys { get; init; } =
        ImmutableSortedDictionary.Create<string, StationSurvey>(StringComparer.Ordinal);

    /// <summary>Ids of the devices allocated to each station, by its name.</summary>
    public ImmutableSortedDictionary<string, ImmutableArray<string>> Chains { get; init; } =
        ImmutableSortedDictionary.Create<string, ImmutableArray<string>>(StringComparer.Ordinal);

    /// <summary>Ids of the devices that go along, by purpose.</summary>
    public ImmutableSortedDictionary<KitPurpose, ImmutableArray<string>> Kit { get; init; } =
        ImmutableSortedDictionary<KitPurpose, ImmutableArray<string>>.Empty;

    /// <summary>Which sensitivity is applied to its recordings.</summary>
    public SensitivityRule Rule { get; init; }

    /// <summary>Facts about it that this version cannot read.</summary>
    public ImmutableArray<string> WrittenByNewer { get; init; } = [];

    /// <summary>How many placements, checks and events it has.</summary>
    public int TrafficCount { get; init; }

    /// <summary>What other folders keep of it.</summary>
    internal StateParts Parts { get; init; } = StateParts.None;

    public string Name => Plan?.Name ?? Id;

    /// <summary>Where a station is; null where it was not planned.</summary>
    public StationPlace? PlaceOf(string station) => Stations.GetValueOrDefault(station) is { } plan
        ? new(plan, Surveys.GetValueOrDefault(station))
        : null;

    public ImmutableArray<string> KitOf(KitPurpose purpose) => Kit.GetValueOrDefault(purpose, []);

    /// <summary>Every device that the plan names, each once, in ordinal order.</summary>
    public IEnumerable<string> Devices =>
        Chains.Values.Concat(Kit.Values).SelectMany(d => d).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);

    internal static CampaignState Fold(string id, IEnumerable<FoldedFact> facts)
    {
        var state = new CampaignState(id);
        foreach (var (fact, counts, _) in facts.Where(f => f.Counts))
        {
            state = fact?.Body switch
            {
                null => state with { TrafficCount = state.TrafficCount + 1 },
                CampaignPlanned f => state with { Plan = f },
                StationPlanned f => state with { Stations = state.Stations.SetItem(f.Station, f) },
                StationSurveyed f => state with
                {
                    Surveys = state.Surveys.SetItem(f.Station, new(fact.Id.ToString(), fact.Occurred.ToString(), f)),
                },
                ChainPlanned f => state with
                {
                    Chains = f.Devices.Count == 0 ? state.Chains.Remove(f.Station) : state.Chains.SetItem(f.Station, [.. f.Devices]),
                },
                ICampaignFact other => other.ApplyTo(state),
                SensitivityRuleChosen f => state with { Rule = f.Rule },
                KitPlanned f => state with { Kit = state.Kit.SetItem(f.Purpose, [.. f.Devices]) },
                UnreadBody => state with { WrittenByNewer = state.WrittenByNewer.Add(fact.Id.ToString()) },
                _ => state,
            };
        }
        return state;
    }
}

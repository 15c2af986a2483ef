using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tracing;

/// <summary>All that the questions of a trace look at: one chain at its station, for as long as it stood there during an event.</summary>
/// <param name="Register">The facts.</param>
/// <param name="Profile">Limits of the campaign; null where it has none.</param>
/// <param name="Chain">The devices; empty where nothing stood there.</param>
/// <param name="FromMs">Begin of the part of the event, in milliseconds since 1970.</param>
/// <param name="ToMs">Its end.</param>
/// <param name="Shared">What all stations of the event have in common.</param>
/// <param name="Station">Name of the station.</param>
/// <param name="Placement">What stood there; null where nothing did.</param>
internal sealed record TracedChain(
    Register Register, ProfileState? Profile, IReadOnlyList<DeviceState> Chain, long FromMs, long ToMs,
    TraceContext Shared, string Station, Placement? Placement)
{
    /// <summary>The nearest check before it; null where none is within the span.</summary>
    public CheckRecord? Before { get; init; }

    /// <summary>The nearest check after it; null where none is within the span.</summary>
    public CheckRecord? After { get; init; }

    /// <summary>All checks of its sounding parts at its station some days around it, oldest first.</summary>
    public IReadOnlyList<CheckRecord> Around { get; init; } = [];

    /// <summary>That the chain was set up again since the nearest check before it, which therefore does not serve; otherwise null.</summary>
    public SetUpAgain? AgainSinceBefore { get; init; }

    /// <summary>That the chain was set up again until the nearest check after it, which therefore does not serve; otherwise null.</summary>
    public SetUpAgain? AgainUntilAfter { get; init; }

    /// <summary>What each of the checks was worked out from, in their order.</summary>
    public IReadOnlyList<IReadOnlyList<CheckBasis>> Bases { get; init; } = [];

    /// <summary>Certificates that the result rests on, and what they rest on.</summary>
    public IReadOnlyList<TraceLink> Links { get; init; } = [];

    /// <summary>What the rules of a chain at an instant look at; null where its station was not planned.</summary>
    public StandingChain? Standing { get; init; }

    /// <summary>What the rules of a device at an instant look at: the chain's, then what it was checked with.</summary>
    public IReadOnlyList<StandingDevice> StandingDevices { get; init; } = [];

    /// <summary>What the rules of a kit look at: one for each of the checks, in their order.</summary>
    public IReadOnlyList<StandingKit> StandingKits { get; init; } = [];

    /// <summary>Comparisons in place around it.</summary>
    public IReadOnlyList<InPlaceEvidence> InPlace { get; init; } = [];

    /// <summary>The sensitivity that applies; null where none is known.</summary>
    public AppliedSensitivity? Applied { get; init; }

    /// <summary>What stood there, for questions that are asked of a chain alone.</summary>
    public Placement Stood => Placement ?? throw new InvalidOperationException($"Nothing stood at {Station}.");

    /// <summary>What placed it, as a source.</summary>
    public string PlacedBy => $"fact {Stood.Fact}";

    /// <summary>Local day of the event's begin.</summary>
    public DateOnly Day => Shared.Day;

    public CampaignState Campaign => Shared.Campaign;

    /// <summary>How the station was planned; null where it was not.</summary>
    public StationPlanned? Plan => Campaign.Stations.GetValueOrDefault(Station);

    /// <summary>Where it stood: as surveyed, otherwise as planned; null where the station was not planned.</summary>
    public StationPlace? Place => Campaign.PlaceOf(Station);

    /// <summary>The checks before and after it, as far as there are any.</summary>
    public IReadOnlyList<CheckRecord> Checks => (Before, After) switch
    {
        ({ } before, { } after) => [before, after],
        ({ } before, null) => [before],
        (null, { } after) => [after],
        _ => [],
    };

    /// <summary>Ids of what the checks were made with, each once.</summary>
    public IEnumerable<string> CheckKit => Checks.SelectMany(k => k.Kit).Distinct(StringComparer.Ordinal);

    /// <summary>Its first device of a kind; null where it has none.</summary>
    public DeviceState? First(DeviceKind kind) => Chain.FirstOrDefault(d => d.Kind == kind.Key);
}

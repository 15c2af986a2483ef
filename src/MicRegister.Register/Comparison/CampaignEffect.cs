using MicRegister.Register.Doubts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Comparison;

/// <summary>What a proposed profile changes in one campaign.</summary>
/// <param name="Campaign">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="Profile">Id of the profile that it names; null where it has no plan.</param>
/// <param name="Before">Whether it is ready as things are; null where no plan is known on that day.</param>
/// <param name="After">Whether it would be.</param>
/// <param name="Events">How many events it has.</param>
/// <param name="EventsLeft">How many of them were not worked out: neither count holds them.</param>
/// <param name="EventsBefore">What its events are worth as things are.</param>
/// <param name="EventsAfter">What they would be worth.</param>
/// <param name="Changed">Events in which the verdict of a station changes, by their begin.</param>
/// <param name="Arising">Doubts about its devices that the profile would raise, and that are not raised now.</param>
/// <param name="Vanishing">Doubts about its devices that are raised now, and would not be.</param>
public sealed record CampaignEffect(
    string Campaign, string Name, string? Profile, ReadinessCount? Before, ReadinessCount? After, int Events, int EventsLeft,
    EventCount EventsBefore, EventCount EventsAfter, IReadOnlyList<ChangedEvent> Changed, IReadOnlyList<Doubt> Arising,
    IReadOnlyList<Doubt> Vanishing)
{
    /// <summary>Whether anything of it changes, as far as it was worked out.</summary>
    public bool IsChanged => Before != After || Changed.Count > 0 || Arising.Count > 0 || Vanishing.Count > 0;
}

/// <summary>Whether a campaign is ready, and how many stations and findings are what.</summary>
/// <param name="Verdict">The answer.</param>
/// <param name="Ready">Stations that are ready; of a campaign that is over none is counted.</param>
/// <param name="AtRisk">Stations at risk.</param>
/// <param name="NotReady">Stations that are not ready.</param>
/// <param name="Undecided">Stations that are undecided.</param>
/// <param name="Stops">Findings that stop something.</param>
/// <param name="Risks">Findings that may cost results.</param>
/// <param name="Notes">Findings worth knowing.</param>
public sealed record ReadinessCount(
    ReadinessVerdict Verdict, int Ready, int AtRisk, int NotReady, int Undecided, int Stops, int Risks, int Notes)
{
    /// <summary>The figures of a report; null without one.</summary>
    public static ReadinessCount? Of(ReadinessReport? report)
    {
        if (report is null) return null;
        int Stations(ReadinessVerdict verdict) => report.Stations.Count(s => s.Verdict == verdict);
        int Findings(Gravity gravity) => report.Findings.Count(f => f.Gravity == gravity);
        return new(
            report.Verdict, Stations(ReadinessVerdict.Ready), Stations(ReadinessVerdict.AtRisk), Stations(ReadinessVerdict.NotReady),
            Stations(ReadinessVerdict.Undecided), Findings(Gravity.Stops), Findings(Gravity.Risks), Findings(Gravity.Note));
    }

    /// <summary>The verdict with its counts; it stands within a sentence.</summary>
    public string InWords
    {
        get
        {
            (int Count, string Word)[] stations =
                [(Ready, "ready"), (AtRisk, "at risk"), (NotReady, "not ready"), (Undecided, "undecided")];
            var counted = string.Join(", ", stations.Where(s => s.Count > 0).Select(s => $"{s.Count} {s.Word}"));
            (int Count, string Word)[] findings =
                [(Stops, Stops == 1 ? "stops" : "stop"), (Risks, Risks == 1 ? "risks" : "risk"), (Notes, "to note")];
            var found = string.Join(", ", findings.Where(f => f.Count > 0).Select(f => $"{f.Count} {f.Word}"));
            return $"{Verdict.InWords} ({(counted.Length > 0 ? $"stations: {counted}; " : "")}"
                + $"{(found.Length > 0 ? $"findings: {found}" : "no finding")})";
        }
    }
}

/// <summary>How many events are worth what.</summary>
/// <param name="Valid">Events of which every station is valid.</param>
/// <param name="Doubtful">Doubtful events.</param>
/// <param name="Undecided">Undecided events.</param>
/// <param name="NotValid">Events that cannot be used.</param>
public sealed record EventCount(int Valid, int Doubtful, int Undecided, int NotValid)
{
    /// <summary>The same with one event more.</summary>
    public EventCount With(TraceVerdict verdict) => verdict switch
    {
        TraceVerdict.Valid => this with { Valid = Valid + 1 },
        TraceVerdict.Doubtful => this with { Doubtful = Doubtful + 1 },
        TraceVerdict.Undecided => this with { Undecided = Undecided + 1 },
        _ => this with { NotValid = NotValid + 1 },
    };

    /// <summary>It stands within a sentence.</summary>
    public string InWords => $"{Valid} valid, {Doubtful} doubtful, {Undecided} undecided, {NotValid} not valid";
}

/// <summary>An event in which the verdict of a station changes.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">Its name.</param>
/// <param name="StartMs">Its begin, in milliseconds since 1970.</param>
/// <param name="Before">What it is worth as things are.</param>
/// <param name="After">What it would be worth.</param>
public sealed record ChangedEvent(string Id, string Name, long StartMs, EventVerdict Before, EventVerdict After);

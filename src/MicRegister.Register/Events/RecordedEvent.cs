using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>Something that was recorded, as it was last stated.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Campaign">Id of its campaign.</param>
/// <param name="Name">Name as people call it.</param>
/// <param name="StartMs">When it began, in milliseconds since 1970.</param>
/// <param name="StopMs">When it ended; not before it began.</param>
/// <param name="Kind">What sort of event it was.</param>
/// <param name="Source">What flew; null where nothing was written down.</param>
/// <param name="Recordings">Files that hold it.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record RecordedEvent(
    string Id, FactId Fact, string Campaign, string Name, long StartMs, long StopMs, EventKind Kind, string? Source,
    IReadOnlyList<EventRecording> Recordings, string? Remark)
{
    /// <summary>Local day at its begin.</summary>
    public DateOnly DayAt(IReadOnlyList<ZoneOffset> offsets) => ZoneOffsets.LocalDay(StartMs, offsets);

    /// <summary>An event as its fact states it; null where its times cannot be.</summary>
    internal static RecordedEvent? Of(Fact fact)
    {
        if (fact.Subjects.FirstOrDefault(Subject.IsEvent) is not { } subject
            || fact.Subjects.FirstOrDefault(Subject.IsCampaign) is not { } campaign)
        {
            return null;
        }
        // An id that names its campaign names this one: nobody takes over the event of another.
        if (subject.Contains('.', StringComparison.Ordinal)
            && !Subject.Id(subject).StartsWith(Subject.Id(campaign) + ".", StringComparison.Ordinal))
        {
            return null;
        }
        var (name, startText, stopText) = fact.Body switch
        {
            EventHappened e => (e.Name, e.StartUtc, e.StopUtc),
            EventRecorded e => (e.Name, e.StartUtc, e.StopUtc),
            _ => ("", "", ""),
        };
        if (!Occurred.TryParse(startText, out var start) || !start.IsInstant
            || !Occurred.TryParse(stopText, out var stop) || !stop.IsInstant
            || stop.UnixMilliseconds < start.UnixMilliseconds)
        {
            return null;
        }
        var said = fact.Body as EventHappened;
        return new(
            Subject.Id(subject), fact.Id, Subject.Id(campaign), name, start.UnixMilliseconds, stop.UnixMilliseconds,
            said?.Kind ?? EventKind.Other, said?.Source, said?.Recordings ?? [], said?.Remark);
    }
}

/// <summary>What was recorded.</summary>
public static class EventBook
{
    /// <summary>So many events are named where many have the same matter.</summary>
    private const int MostNamed = 20;

    /// <summary>Events of a campaign, by their begin.</summary>
    public static IReadOnlyList<RecordedEvent> OfCampaign(Register register, string campaign) => EventLog.Of(register, campaign).Events;

    /// <summary>Those that overlap a span; both ends inclusive.</summary>
    public static IEnumerable<RecordedEvent> Between(Register register, string campaign, long fromMs, long toMs) =>
        OfCampaign(register, campaign).Where(e => e.StartMs <= toMs && e.StopMs >= fromMs);

    /// <summary>An event by its id, the last statement of it that counts; null where there is none.</summary>
    public static RecordedEvent? Find(Register register, string id)
    {
        var facts = register.Facts(Subject.Event(id));
        for (var i = facts.Count - 1; i >= 0; i--)
        {
            if (register.IsOfKind(facts[i], "event-recorded") && register.Counts(facts[i])
                && RecordedEvent.Of(register.Source.Read(facts[i])) is { } found)
            {
                return found;
            }
        }
        return null;
    }

    /// <summary>What a recorder's clock was set to, as it was last stated; null where nobody said.</summary>
    public static RecorderClockSet? SetOf(Register register, string campaign, string recorder) =>
        EventLog.Of(register, campaign).Clocks.OfType<RecorderClockSet>().LastOrDefault(c => c.Recorder == recorder);

    /// <summary>The clock of a recorder in a campaign, as far as it was stated.</summary>
    public static RecorderClock Clock(Register register, string campaign, string recorder)
    {
        var said = EventLog.Of(register, campaign).Clocks;
        var set = SetOf(register, campaign, recorder);
        var checks = said.OfType<RecorderTimeChecked>().Where(c => c.Recorder == recorder);
        var chosen = said.OfType<HourChosen>().Where(c => c.Recorder == recorder);
        return RecorderClock.Of(set?.Scale ?? TimeScale.Utc, set?.Offsets ?? [], [.. checks], [.. chosen]);
    }

    /// <summary>
    /// Findings: overlaps, events outside of the campaign's days, events of which nothing stood anywhere,
    /// files that hold their event in part, not at all, or at a time that is in doubt.
    /// </summary>
    public static IReadOnlyList<RegisterFinding> Findings(Register register, string campaign)
    {
        var events = OfCampaign(register, campaign);
        var findings = new List<RegisterFinding>();
        if (events.Count == 0 || register.Campaign(campaign) is not { } state) return findings;
        var placements = Deployment.ArrayDeployment.Of(register, campaign).Placements;
        RecordedEvent? before = null;
        var unrecorded = new List<RecordedEvent>();
        var unproven = new Dictionary<string, List<RecordedEvent>>(StringComparer.OrdinalIgnoreCase);
        foreach (var e in events)
        {
            string[] subjects = [Subject.Event(e.Id), Subject.Campaign(campaign)];
            if (before is not null && e.StartMs < before.StopMs)
            {
                findings.Add(new(
                    "event-overlap", subjects,
                    $"{e.Name} begins while {before.Name} still goes on: one of their times is wrong, or they are one.",
                    [before.Fact.ToString(), e.Fact.ToString()]));
            }
            if (state.Plan is { } plan && e.DayAt(plan.Offsets) is var day && (day < plan.FirstDay || day > plan.LastDay))
            {
                findings.Add(new(
                    "event-outside", subjects, $"{e.Name} lies on {day:yyyy-MM-dd}, outside of the campaign's days.", [e.Fact.ToString()]));
            }
            if (!placements.Any(p => p.From < e.StopMs && e.StartMs < (p.Until ?? long.MaxValue)))
                findings.Add(new("event-unplaced", subjects, $"Nothing stood at any station during {e.Name}.", [e.Fact.ToString()]));
            var coverage = EventCoverage.Of(register, e);
            foreach (var (recorder, fault) in coverage.Recorders.SelectMany(r => coverage.Against(r).Where(f => !f.IsNote).Select(f => (r, f))))
            {
                if (fault.Rule == CoverageFault.Unchecked) Note(unproven, recorder, e);
                else findings.Add(new(fault.Rule, subjects, fault.Text, [e.Fact.ToString()]));
            }
            if (coverage.Files.Count == 0 && coverage.Against(null).Count > 0) unrecorded.Add(e);
            before = before is null || e.StopMs > before.StopMs ? e : before;
        }
        if (unrecorded.Count > 0)
        {
            findings.Add(Together(
                CoverageFault.Unrecorded, campaign, unrecorded,
                $"No file is stated of {Named(unrecorded)}, though files are stated of other events: whether {Them(unrecorded)} is not known."));
        }
        foreach (var (recorder, timed) in unproven.OrderBy(u => u.Key, StringComparer.Ordinal))
        {
            findings.Add(Together(
                CoverageFault.Unchecked, campaign, timed,
                $"Nobody checked the clock of recorder {recorder}: what its files hold of {Named(timed)} rests on it alone."));
        }
        return findings;

        static void Note(Dictionary<string, List<RecordedEvent>> all, string recorder, RecordedEvent e)
        {
            if (!all.TryGetValue(recorder, out var known)) all[recorder] = known = [];
            known.Add(e);
        }
    }

    // Of many events that have the same matter one finding tells, however many there are.
    private static RegisterFinding Together(string rule, string campaign, List<RecordedEvent> events, string text) => new(
        rule, [Subject.Campaign(campaign), .. events.Take(MostNamed).Select(e => Subject.Event(e.Id))], text,
        [.. events.Take(MostNamed).Select(e => e.Fact.ToString())]);

    private static string Named(List<RecordedEvent> events)
    {
        var names = string.Join(", ", events.Take(MostNamed).Select(e => e.Name));
        return events.Count <= MostNamed ? names : FormattableString.Invariant($"{names} and {events.Count - MostNamed} further events");
    }

    private static string Them(List<RecordedEvent> events) => events.Count == 1 ? "it was recorded" : "they were recorded";

    /// <summary>An instant to the minute, as people read it.</summary>
    internal static string Minute(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).Minute;

    internal static string Text(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).ToString();
}

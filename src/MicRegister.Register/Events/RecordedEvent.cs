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

    /// <summary>The clock of a recorder in a campaign, as far as it was stated.</summary>
    public static RecorderClock Clock(Register register, string campaign, string recorder)
    {
        var said = EventLog.Of(register, campaign).Clocks;
        var set = said.OfType<RecorderClockSet>().LastOrDefault(c => c.Recorder == recorder);
        var checks = said.OfType<RecorderTimeChecked>().Where(c => c.Recorder == recorder);
        var chosen = said.OfType<HourChosen>().Where(c => c.Recorder == recorder);
        return RecorderClock.Of(set?.Scale ?? TimeScale.Utc, set?.Offsets ?? [], [.. checks], [.. chosen]);
    }

    /// <summary>
    /// Findings: overlaps, events outside of the campaign's days, events of which nothing stood anywhere,
    /// files whose clocks say another time.
    /// </summary>
    public static IReadOnlyList<RegisterFinding> Findings(Register register, string campaign)
    {
        var events = OfCampaign(register, campaign);
        var findings = new List<RegisterFinding>();
        if (events.Count == 0 || register.Campaign(campaign) is not { } state) return findings;
        var placements = Deployment.ArrayDeployment.Of(register, campaign).Placements;
        RecordedEvent? before = null;
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
            foreach (var file in e.Recordings) findings.AddRange(OfFile(register, campaign, e, file, subjects));
            before = before is null || e.StopMs > before.StopMs ? e : before;
        }
        return findings;
    }

    private static IEnumerable<RegisterFinding> OfFile(Register register, string campaign, RecordedEvent e, EventRecording file, string[] subjects)
    {
        if (file is not { Recorder: { } recorder, RecorderStart: { } shown }) yield break;
        if (!(file.Seconds is >= 0 and <= EventDecisions.MostSeconds))
        {
            yield return new("file-time", subjects, $"{file.File} of {e.Name} states a duration that cannot be.", [e.Fact.ToString()]);
            yield break;
        }
        var reading = Clock(register, campaign, recorder).Read(shown);
        if (reading.UnixMilliseconds is not { } begin)
        {
            yield return new("file-time", subjects, $"{file.File} of {e.Name}: {reading.Sentence}", [e.Fact.ToString()]);
            yield break;
        }
        var end = begin + (long)(file.Seconds * 1000);
        if (end <= e.StartMs || begin >= e.StopMs)
        {
            yield return new(
                "file-outside", subjects,
                $"{file.File} runs from {Text(begin)} to {Text(end)} by its recorder's clock, outside of {e.Name}.",
                [e.Fact.ToString()]);
        }
        else if (begin > e.StartMs || end < e.StopMs)
        {
            yield return new(
                "file-gap", subjects, $"{file.File} holds {e.Name} in part only: it runs from {Text(begin)} to {Text(end)}.",
                [e.Fact.ToString()]);
        }
    }

    /// <summary>An instant to the minute, as people read it.</summary>
    internal static string Minute(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).Minute;

    internal static string Text(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).ToString();
}

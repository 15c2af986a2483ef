using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>What people say of events and of the clocks that timed them.</summary>
public static class EventDecisions
{
    /// <summary>Most events that are taken at once.</summary>
    public const int MostAtOnce = 5000;

    /// <summary>Longest recording, in s: a month.</summary>
    public const double MostSeconds = 31 * 86_400;

    /// <summary>Id of an event: its campaign's, a dot, and its name in capitals.</summary>
    public static string IdOf(string campaign, string name) => $"{campaign}.{EventTable.IdOf(name)}";

    /// <summary>Records events: all of them or none.</summary>
    public static Result<IReadOnlyList<Fact>> Record(Register register, Saying saying, string campaign, IReadOnlyList<EventHappened> events)
    {
        if (register.Campaign(campaign) is null) return Missing(campaign);
        if (events.Count is 0 or > MostAtOnce) return Saying.Invalid($"Events: 1 to {MostAtOnce} are allowed, not {events.Count}.");
        var facts = new List<Fact>();
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var e in events)
        {
            if (EventTable.IdOf(e.Name).Length == 0 || e.Name.Length > 200)
                return Saying.Invalid(
                    $"Name '{e.Name}': allowed are 1 to 200 characters, at least one of them a letter from A to Z or a digit.");
            if (!Occurred.TryParse(e.StartUtc, out var start) || !start.IsInstant)
                return Saying.Invalid($"{e.Name}: start '{e.StartUtc}': allowed is an instant in UTC such as 2026-05-04T10:11:12.000Z.");
            if (!Occurred.TryParse(e.StopUtc, out var stop) || !stop.IsInstant)
                return Saying.Invalid($"{e.Name}: stop '{e.StopUtc}': allowed is an instant in UTC such as 2026-05-04T10:12:42.000Z.");
            if (stop.UnixMilliseconds <= start.UnixMilliseconds)
                return Saying.Invalid($"{e.Name}: it stops at {e.StopUtc}, which is not after its start {e.StartUtc}.");
            if (e.Recordings.FirstOrDefault(f => !(f.Seconds is >= 0 and <= MostSeconds)) is { } odd)
            {
                return Saying.Invalid(FormattableString.Invariant(
                    $"{odd.File}: duration '{odd.Seconds}': allowed is a number from 0 to {MostSeconds} s."));
            }
            var id = IdOf(campaign, e.Name);
            if (!ids.Add(id) || EventBook.Find(register, id) is not null)
                return new Rejection(
                    RejectionSort.Conflict, $"There is an event {e.Name} already; annul it, or give this one another name.");
            facts.Add(FactText.WriteDerived(saying.Stamp with { Occurred = start }, e, [Subject.Event(id), Subject.Campaign(campaign)]));
        }
        return new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }

    /// <summary>
    /// Joins files with the events that they hold, by their recorders' clocks;
    /// a file that holds none begins an event of its own where asked.
    /// </summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="files">Files with what their recorders' clocks showed.</param>
    /// <param name="makesEvents">Whether a file without an event makes one, named as the file.</param>
    public static Result<IReadOnlyList<Fact>> Join(
        Register register, Saying saying, string campaign, IReadOnlyList<EventRecording> files, bool makesEvents)
    {
        if (register.Campaign(campaign) is null) return Missing(campaign);
        if (files.Count is 0 or > MostAtOnce) return Saying.Invalid($"Files: 1 to {MostAtOnce} are allowed, not {files.Count}.");
        var (facts, joined) = (new List<Fact>(), new Dictionary<string, (RecordedEvent Event, List<EventRecording> Files)>(StringComparer.Ordinal));
        var made = new List<Made>();
        foreach (var file in files)
        {
            if (!(file.Seconds is >= 0 and <= MostSeconds))
            {
                return Saying.Invalid(FormattableString.Invariant(
                    $"{file.File}: duration '{file.Seconds}': allowed is a number from 0 to {MostSeconds} s."));
            }
            if (file.RecorderStart is not { } shown) return Saying.Invalid($"{file.File}: it does not say when it begins.");
            var reading = EventBook.Clock(register, campaign, file.Recorder ?? "").Read(shown);
            // Which of two hours it was is asked, never guessed.
            if (reading.UnixMilliseconds is not { } begin) return new Rejection(RejectionSort.Conflict, $"{file.File}: {reading.Sentence}");
            var end = begin + (long)(file.Seconds * 1000);
            var hit = EventBook.Between(register, campaign, begin, end).ToList();
            foreach (var e in hit)
            {
                if (!joined.TryGetValue(e.Id, out var entry)) joined[e.Id] = entry = (e, [.. e.Recordings]);
                if (entry.Files.All(f => f.Sha256 != file.Sha256)) entry.Files.Add(file);
            }
            if (hit.Count > 0) continue;
            if (!makesEvents)
                return Saying.Invalid($"{file.File} runs from {EventBook.Text(begin)} to {EventBook.Text(end)}, and no event lies there.");
            // Several recorders hold one pass: what overlaps is one event, named by the first file.
            if (made.FirstOrDefault(m => m.Begin <= end && begin <= m.End) is { } known) known.Files.Add(file);
            else made.Add(new(Path(file.File), begin, end, [file], reading.IsUnchecked));
        }
        if (made.Count > 0)
        {
            var recorded = Record(register, saying, campaign, [.. made.Select(m => new EventHappened(
                m.Name, EventBook.Text(m.Begin), EventBook.Text(m.End), EventKind.Other, null, m.Files,
                m.IsUnchecked ? "timed by an unchecked recorder clock" : null))]);
            if (recorded is Result<IReadOnlyList<Fact>>.Rejected rejected) return rejected.Why;
            facts.AddRange(((Result<IReadOnlyList<Fact>>.Accepted)recorded).Value);
        }
        foreach (var (e, all) in joined.Values.Where(j => j.Files.Count > j.Event.Recordings.Count))
        {
            var stamp = saying.Stamp with { Occurred = Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(e.StartMs)) };
            var anew = new EventHappened(e.Name, EventBook.Text(e.StartMs), EventBook.Text(e.StopMs), e.Kind, e.Source, all, e.Remark);
            var stated = FactText.WriteDerived(stamp, anew, [Subject.Event(e.Id), Subject.Campaign(campaign)], e.Fact);
            facts.AddRange(CorrectionDecisions.InPlaceOf(register.Source.Read(register.Find(e.Fact)), stated, saying.Stamp));
        }
        return facts.Count == 0
            ? new Rejection(RejectionSort.Conflict, "All of these files are joined with their events already.")
            : new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }

    /// <summary>Says what time a recorder's clock shows.</summary>
    public static Result<IReadOnlyList<Fact>> SetClock(Register register, Saying saying, string campaign, RecorderClockSet set)
    {
        if (register.Campaign(campaign) is null) return Missing(campaign);
        if (DeviceDecisions.Text(set.Recorder, "Recorder") is { } wrong) return wrong;
        if (set.Scale == TimeScale.Local && set.Offsets.Count == 0) return Saying.Invalid("A local clock needs its zone's offsets from UTC.");
        if (set.Scale != TimeScale.Local && (set.Zone is not null || set.Offsets.Count > 0))
            return Saying.Invalid($"A clock that shows {set.Scale.InWords} has no zone: leave zone and offsets out.");
        if (ZoneOffsets.Wrong(set.Offsets) is { } wrongOffset) return Saying.Invalid(wrongOffset);
        return saying.Of(register, set, Subject.Campaign(campaign));
    }

    /// <summary>States a comparison of a recorder's clock with a true time.</summary>
    public static Result<IReadOnlyList<Fact>> CheckTime(Register register, Saying saying, string campaign, RecorderTimeChecked check)
    {
        if (register.Campaign(campaign) is null) return Missing(campaign);
        if (DeviceDecisions.Text(check.Recorder, "Recorder") is { } wrong) return wrong;
        if (!ShownTime.TryParse(check.Shown, out _))
            return Saying.Invalid($"Shown '{check.Shown}': allowed is a time such as 2026-05-04T10:11:12.000, without a zone.");
        if (!Occurred.TryParse(check.TrueUtc, out var at) || !at.IsInstant)
            return Saying.Invalid($"True time '{check.TrueUtc}': allowed is an instant in UTC such as 2026-05-04T10:11:12.000Z.");
        return check.UncertaintyS is { } u && !(u is >= 0 and <= 3600) ? Saying.Invalid($"Uncertainty '{u}': allowed is a number from 0 to 3600 s.")
            : (saying with { Stamp = saying.Stamp with { Occurred = at } }).Of(register, check, Subject.Campaign(campaign));
    }

    /// <summary>Says which of two hours a shown time was.</summary>
    public static Result<IReadOnlyList<Fact>> ChooseHour(Register register, Saying saying, string campaign, HourChosen chosen) =>
        register.Campaign(campaign) is null ? Missing(campaign)
        : !EventBook.Clock(register, campaign, chosen.Recorder).Read(chosen.Shown).Ambiguous
            ? Saying.Invalid($"'{chosen.Shown}' of {chosen.Recorder} is no time that came twice.")
        : DeviceDecisions.Text(chosen.Reason, "Reason") is { } wrong ? wrong : saying.Of(register, chosen, Subject.Campaign(campaign));

    /// <summary>Chooses which sensitivity is applied.</summary>
    public static Result<IReadOnlyList<Fact>> ChooseRule(Register register, Saying saying, string campaign, SensitivityRuleChosen chosen) =>
        register.Campaign(campaign) is null
            ? Missing(campaign)
            : DeviceDecisions.Text(chosen.Reason, "Reason") is { } wrong ? wrong : saying.Of(register, chosen, Subject.Campaign(campaign));

    private static string Path(string file) => file.LastIndexOf('.') is var dot and > 0 ? file[..dot] : file;

    private sealed record Made(string Name, long Begin, long End, List<EventRecording> Files, bool IsUnchecked);

    private static Rejection Missing(string campaign) => new(RejectionSort.NotFound, $"There is no campaign {campaign}.");
}

using System.Globalization;
using MicRegister.Metrology.Quantities;

namespace MicRegister.Register.Events;

/// <summary>What the stated files hold of an event: the one answer for findings and traces.</summary>
public sealed class EventCoverage
{
    /// <summary>Files are stated to the millisecond, both ends rounded: so far apart, two of them still follow each other.</summary>
    private const long RoundedMs = 2;

    private readonly RecordedEvent _event;
    private readonly bool _hasFilesElsewhere;
    private readonly Dictionary<(string Recorder, int Channel), IReadOnlyList<CoverageFault>> _known = [];

    private EventCoverage(RecordedEvent e, bool hasFilesElsewhere, IReadOnlyList<FileCoverage> files) =>
        (_event, _hasFilesElsewhere, Files) = (e, hasFilesElsewhere, files);

    /// <summary>Its files, in the order in which they were stated.</summary>
    public IReadOnlyList<FileCoverage> Files { get; }

    /// <summary>What is known of an event's recording.</summary>
    public static EventCoverage Of(Register register, RecordedEvent e)
    {
        var clocks = new Dictionary<string, RecorderClock>(StringComparer.Ordinal);
        RecorderClock Clock(string recorder)
        {
            if (!clocks.TryGetValue(recorder, out var clock)) clocks[recorder] = clock = EventBook.Clock(register, e.Campaign, recorder);
            return clock;
        }

        return new(e, EventLog.Of(register, e.Campaign).HasFiles, [.. e.Recordings.Select(f => FileCoverage.Of(e, f, Clock))]);
    }

    /// <summary>What is known of its recording as a whole, in a sentence.</summary>
    public string Words => Files.Count > 0
        ? Recorders.SelectMany(r => Against(r)).ToList() switch
        {
            [] => "Its files hold all of it.",
            var said when said.All(f => f.IsNote) => "Its files hold all of it, as far as was said: when some begin is not known.",
            _ => "What its files hold is in doubt.",
        }
        : _hasFilesElsewhere
            ? "No file is stated of it, though files are stated of other events: whether it was recorded is not known."
            : "No file is stated of any event of this campaign: whether it was recorded is not known.";

    /// <summary>Names of the recorders that files are stated of, as the first file names each; empty for files that name none.</summary>
    public IEnumerable<string> Recorders => Files.Select(f => f.File.Recorder ?? "").Distinct(StringComparer.OrdinalIgnoreCase);

    /// <summary>What stands against the recording of one channel.</summary>
    /// <param name="recorder">Name of its recorder; null or empty where that is not known: then all files may be its.</param>
    /// <param name="channel">Its number in the recorder's files; null or 0 where that is not known.</param>
    public IReadOnlyList<CoverageFault> Against(string? recorder, int? channel = null)
    {
        var key = (Recorder: (recorder ?? "").Trim().ToUpperInvariant(), Channel: channel ?? 0);
        if (!_known.TryGetValue(key, out var known)) _known[key] = known = [.. Faults(recorder?.Trim() ?? "", key.Channel)];
        return known;
    }

    private IEnumerable<CoverageFault> Faults(string recorder, int channel)
    {
        if (Files.Count == 0)
        {
            // Where nobody states files, their absence says nothing.
            return _hasFilesElsewhere ? [new(CoverageFault.Unrecorded, Words)] : [];
        }
        if (recorder.Length == 0)
        {
            List<string> all = [.. Recorders];
            var faults = all.SelectMany(OfGroup).DistinctBy(f => f.Text);
            return all.Count == 1
                ? faults
                : faults.Select(f => f with { Text = f.Text + " Which of its recorders the channel belongs to is not known." });
        }
        // A file that names no recorder may be any one's.
        var own = Recorders.Where(r => r.Equals(recorder, StringComparison.OrdinalIgnoreCase)).ToList();
        if (own.Count == 0 && Recorders.Contains("")) own = [""];
        if (own.Count == 0)
        {
            return [new(
                CoverageFault.Unrecorded,
                $"No file of its recorder {recorder} is stated of the event, though files of others are: "
                    + "whether it was recorded there is not known.")];
        }
        // A file of one channel numbers it from 1, whichever channel of the recorder it was.
        List<FileCoverage> files = [.. Group(own[0]).Where(f =>
            channel == 0 || f.File.Channels.Count < 2 || f.File.Channels.Contains(channel))];
        return files.Count > 0
            ? Of(recorder, files)
            : [new(
                CoverageFault.Unrecorded,
                string.Create(CultureInfo.InvariantCulture, $"The files of recorder {recorder} hold no channel {channel}: ")
                    + "whether it was recorded is not known.")];

        IEnumerable<CoverageFault> OfGroup(string name) => Of(name, [.. Group(name)]);
    }

    private IEnumerable<FileCoverage> Group(string recorder) =>
        Files.Where(f => (f.File.Recorder ?? "").Equals(recorder, StringComparison.OrdinalIgnoreCase));

    // Files of one recorder: what they hold together.
    private IEnumerable<CoverageFault> Of(string recorder, List<FileCoverage> files)
    {
        List<FileCoverage> timed = [.. files.Where(f => f.FromMs is not null).OrderBy(f => f.FromMs)];
        var (heldMs, parts) = Held(timed);
        var wholeMs = Math.Max(_event.StopMs - _event.StartMs, 0);
        var isWhole = timed.Exists(f => f.Hold == FileHold.All) || (wholeMs > 0 && heldMs >= wholeMs - RoundedMs);
        if (!isWhole)
        {
            foreach (var f in files.Where(f => f.FromMs is null)) yield return Untimed(f, wholeMs);
            foreach (var f in timed.Where(f => f.Hold == FileHold.Nothing))
                yield return new(CoverageFault.Outside, $"{f.File.File} runs {Span(f)} by its recorder's clock, outside of {_event.Name}.");
            if (timed.Exists(f => f.Hold == FileHold.Part))
            {
                var names = string.Join(", ", timed.Where(f => f.Hold == FileHold.Part).Select(f => f.File.File));
                var verb = timed.Count(f => f.Hold == FileHold.Part) == 1 ? "holds" : "hold";
                yield return new(
                    CoverageFault.Gap,
                    $"{names} {verb} {Seconds(heldMs)} of the {Seconds(wholeMs)} s of {_event.Name} only, {string.Join(" and ", parts)}.");
            }
        }
        List<FileCoverage> used = [.. timed.Where(f => f.Hold is FileHold.All or FileHold.Part)];
        if (used.FirstOrDefault(f => f.Reading!.IsUnchecked) is { } uncheckedFile)
        {
            yield return new(
                CoverageFault.Unchecked,
                $"Nobody checked the clock of recorder {recorder}: that {uncheckedFile.File.File} holds {_event.Name} rests on it alone.");
        }
        foreach (var f in used.Where(f => f.Reading!.WasSetBetween))
            yield return new(CoverageFault.Time, $"{f.File.File}: {f.Reading!.Sentence}");
        if (isWhole && Doubtful(used) is { } doubtful)
        {
            yield return new(
                CoverageFault.Gap,
                $"{doubtful.File.File} may hold {_event.Name} in part only: it runs {Span(doubtful)}, "
                    + $"and its time is known within {ShownTime.Length(doubtful.Reading!.UncertaintyS!.Value)}.");
        }
    }

    // What would leave a part out if its clock were off as far as it may be; an event that a file timed moves with it.
    private FileCoverage? Doubtful(List<FileCoverage> used)
    {
        if (used.Exists(f => IsSafe(f) || (f.FromMs == _event.StartMs && f.ToMs == _event.StopMs))) return null;
        var first = used.MinBy(f => f.FromMs);
        var last = used.MaxBy(f => f.ToMs);
        return first is not null && first.FromMs + Margin(first) > _event.StartMs ? first
            : last is not null && last.ToMs - Margin(last) < _event.StopMs ? last
            : null;
    }

    private bool IsSafe(FileCoverage f) => f.FromMs + Margin(f) <= _event.StartMs && f.ToMs - Margin(f) >= _event.StopMs;

    // One whose clock nobody checked is told by itself, as is one that was set.
    private static long Margin(FileCoverage f) =>
        f.Reading is { UncertaintyS: { } u, WasSetBetween: false } ? (long)Math.Ceiling(u * 1000) : 0;

    // How much of the event files hold together, and from when to when.
    private (long Ms, List<string> Parts) Held(List<FileCoverage> timed)
    {
        var (sum, parts) = (0L, new List<string>());
        (long From, long To)? open = null;
        foreach (var f in timed.Where(f => f.Hold is FileHold.All or FileHold.Part))
        {
            long from = Math.Max(f.FromMs!.Value, _event.StartMs), to = Math.Min(f.ToMs!.Value, _event.StopMs);
            if (open is { } o && from <= o.To + RoundedMs) open = (o.From, Math.Max(o.To, to));
            else
            {
                Close();
                open = (from, to);
            }
        }
        Close();
        return (sum, parts);

        void Close()
        {
            if (open is not { } o) return;
            sum += o.To - o.From;
            parts.Add($"from {ShownTime.Instant(o.From)} to {ShownTime.Instant(o.To)}");
        }
    }

    // A file that is long enough holds its event because a person said so; one that is shorter cannot.
    private CoverageFault Untimed(FileCoverage f, long wholeMs)
    {
        if (f.Hold == FileHold.Unbounded) return new(CoverageFault.Time, $"{f.File.File} of {_event.Name} states a duration that cannot be.");
        if (f.Hold == FileHold.Untold) return new(CoverageFault.Time, $"{f.File.File} of {_event.Name}: {f.Reading!.Sentence}");
        var missing = f.File.Recorder is null ? "which recorder made it" : "when it begins";
        var heldMs = (long)(f.File.Seconds * 1000);
        return heldMs >= wholeMs - RoundedMs
            ? new(CoverageFault.Time, $"{f.File.File} does not say {missing}: that it holds {_event.Name} is as it was stated.") { IsNote = true }
            : new(
                CoverageFault.Gap,
                $"{f.File.File} holds at most {Seconds(heldMs)} of the {Seconds(wholeMs)} s of {_event.Name}, and does not say {missing}.");
    }

    private static string Span(FileCoverage f) => $"from {ShownTime.Instant(f.FromMs!.Value)} to {ShownTime.Instant(f.ToMs!.Value)}";

    private static string Seconds(long ms) => QuantityText.UpTo(ms / 1000.0, 3);
}

/// <summary>Something that stands against what files hold of an event.</summary>
/// <param name="Rule">Which sort of thing, by a stable key.</param>
/// <param name="Text">What it is, in a sentence.</param>
public sealed record CoverageFault(string Rule, string Text)
{
    /// <summary>Whether it is only to be known, and nothing stands against what was stated.</summary>
    public bool IsNote { get; init; }

    /// <summary>No file is stated where files of others are.</summary>
    public const string Unrecorded = "event-unrecorded";

    /// <summary>When a file begins is not known, or in doubt.</summary>
    public const string Time = "file-time";

    /// <summary>A file lies outside of its event.</summary>
    public const string Outside = "file-outside";

    /// <summary>Files hold their event in part only.</summary>
    public const string Gap = "file-gap";

    /// <summary>Nobody checked the clock of the recorder.</summary>
    public const string Unchecked = "clock-unchecked";
}

using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Microphones that a log puts at two stations at the same time: nobody knows at which one they stood.</summary>
internal static class DoubleStays
{
    /// <summary>Puts aside the rows that contradict each other.</summary>
    public static void PutAside(IReadOnlyList<Step> steps, IReadOnlyList<ZoneOffset> offsets, Func<string, string> nameOf)
    {
        var stays = steps.Where(s => !s.IsEnd).SelectMany(s => s.Microphones.Select(m => (Microphone: m, From: s, Until: EndOf(s, steps))))
            .Where(s => !s.From.Rows[0].Reader.IsChecked).ToList();
        foreach (var own in stays.GroupBy(s => s.Microphone, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            var inOrder = own.OrderBy(s => s.From.At.UnixMilliseconds).ToList();
            for (var i = 0; i < inOrder.Count; i++)
            {
                foreach (var later in inOrder.Skip(i + 1).Where(l => l.From.Station != inOrder[i].From.Station))
                {
                    if (!Overlap(inOrder[i].From, inOrder[i].Until, later.From, offsets)) continue;
                    Tell(inOrder[i].From, later.From);
                    Tell(later.From, inOrder[i].From);
                }
            }

            void Tell(Step step, Step other)
            {
                foreach (var row in step.Rows.Where(r => r.IsOpen))
                {
                    row.Became(new RowProblem(
                        RowSort.Questioned,
                        FormattableString.Invariant(
                            $"{nameOf(own.Key)} stands at {other.Station} too, by row {other.Rows[0].Number} from {other.At} on; leave the right one, or write when it was taken in"),
                        null, step.Station));
                }
            }
        }
    }

    // A stay that nobody ended is one of its day: a night later the chain may have been moved without a word.
    private static bool Overlap(Step first, Step? until, Step second, IReadOnlyList<ZoneOffset> offsets) => until is not null
        ? second.At.UnixMilliseconds < until.At.UnixMilliseconds
        : ZoneOffsets.LocalDay(first.At.UnixMilliseconds, offsets) == ZoneOffsets.LocalDay(second.At.UnixMilliseconds, offsets);

    private static Step? EndOf(Step stay, IReadOnlyList<Step> steps) => steps
        .Where(s => s.Station == stay.Station && s.At.UnixMilliseconds > stay.At.UnixMilliseconds
            && (s.IsEnd || !s.IsSwap || s.Microphones.Count > 0))
        .MinBy(s => s.At.UnixMilliseconds);

    /// <summary>What rows did at a station.</summary>
    internal sealed record Step(
        string Station, Occurred At, bool IsEnd, bool IsSwap, IReadOnlyList<string> Microphones, IReadOnlyList<DiaryRow> Rows);
}

using System.Text;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>A table of events, read row by row: a bad row spoils no other.</summary>
/// <param name="Good">Rows that can be recorded, in their order.</param>
/// <param name="Bad">What is wrong with the others, a line for each field, in their order.</param>
public sealed record EventTable(IReadOnlyList<EventRow> Good, IReadOnlyList<BadEventRow> Bad)
{
    /// <summary>Most characters of an event's id.</summary>
    public const int IdLength = 60;

    private const long DayMs = 86_400_000;
    private const string ATime =
        "a time such as 2026-05-04 9:10, 2026-05-04 10:11:12.345 or 2026-05-04T10:11:12Z, of the years 1970 to 9998";

    private static readonly string[] Required = ["event", "start", "stop"];

    /// <summary>Reads a table.</summary>
    /// <param name="rows">
    /// Cells by row. The first row names the columns, in any order and case: event, start and stop, which must be there, and kind,
    /// source, remark and zone (utc or site); others are passed over, as are blank rows. A time that ends in Z is UTC whatever its
    /// zone says; a row with no zone is UTC where its start ends in Z, and bad otherwise. A stop without a day is on the day of
    /// the start, or on the next where its time of day is earlier.
    /// </param>
    /// <param name="siteOffsets">Offsets of the site's zone, oldest first; the first holds for all times before; none is UTC.</param>
    /// <param name="isUtc">What rows without a zone are; null where that was not said, so that they are bad.</param>
    public static EventTable Read(
        IReadOnlyList<IReadOnlyList<string>> rows, IReadOnlyList<ZoneOffset> siteOffsets, bool? isUtc = null)
    {
        var columns = Columns(rows.Count == 0 ? [] : rows[0]);
        var absent = Required.Where(c => !columns.ContainsKey(c)).ToList();
        if (absent.Count > 0)
        {
            const string allowed =
                "a first row that names the columns event, start and stop, and kind, source, remark and zone where they are there";
            return new([], [.. absent.Select(c => new BadEventRow(1, c, "", allowed))]);
        }

        var lines = new List<Line>();
        for (var i = 1; i < rows.Count; i++)
        {
            if (rows[i].Any(c => !string.IsNullOrWhiteSpace(c))) lines.Add(new(i + 1, rows[i], columns));
        }
        // None of several is known to be the right one.
        var repeated = lines.GroupBy(l => IdOf(l["event"]), StringComparer.Ordinal).Where(g => g.Key.Length > 0 && g.Count() > 1)
            .ToDictionary(g => g.Key, g => string.Join(", ", g.Select(l => l.Number)), StringComparer.Ordinal);

        var good = new List<EventRow>();
        var bad = new List<BadEventRow>();
        foreach (var line in lines)
        {
            if (Row(line, siteOffsets, isUtc, repeated, bad) is { } row) good.Add(row);
        }
        return new(good, bad);
    }

    /// <summary>
    /// The id of an event by its name: letters A to Z in capitals and digits, and a dash for all that stands between them.
    /// </summary>
    /// <param name="name">Name as people call it.</param>
    /// <returns>At most 60 characters, with no dash at either end; empty where the name has no such letter or digit.</returns>
    public static string IdOf(string name)
    {
        var id = new StringBuilder();
        foreach (var c in name)
        {
            if (id.Length == IdLength) break;
            if (char.IsAsciiLetterOrDigit(c)) id.Append(char.ToUpperInvariant(c));
            else if (id.Length > 0 && id[^1] != '-') id.Append('-');
        }
        return id.ToString().TrimEnd('-');
    }

    /// <summary>Reads one time as a table states it.</summary>
    /// <param name="text">With its day, such as 2026-05-04 10:11:12.</param>
    /// <param name="isUtc">Whether it is UTC, rather than what clocks at the site show; a Z at its end says so too.</param>
    /// <param name="offsets">The site's offsets from UTC.</param>
    /// <param name="allowed">What is allowed, where it cannot be read.</param>
    /// <returns>The instant as facts state it; null where it cannot be read, or did not come exactly once at the site.</returns>
    public static string? Time(string text, bool isUtc, IReadOnlyList<ZoneOffset> offsets, out string? allowed)
    {
        string? why = ATime;
        var instant = TypedTime.Of(text.Trim()) is { HasDay: true } stated
            ? Instant("time", stated.Ms, stated.EndsInZ || isUtc, offsets, (_, says) => why = says)
            : null;
        allowed = instant is null ? why : null;
        return instant is { } ms ? ShownTime.Instant(ms) : null;
    }

    private static EventRow? Row(
        Line line, IReadOnlyList<ZoneOffset> offsets, bool? isUtc, Dictionary<string, string> repeated, List<BadEventRow> bad)
    {
        var before = bad.Count;
        void Say(string field, string allowed) => bad.Add(new(line.Number, field, line[field], allowed));

        var id = IdOf(line["event"]);
        if (id.Length == 0) Say("event", "a name with at least one letter A to Z or digit");
        else if (repeated.TryGetValue(id, out var numbers)) Say("event", $"a name once; {id} stands in rows {numbers}");

        var kind = KindOf(line["kind"]);
        if (kind is null) Say("kind", "fly-over, run, hover, ambient or other; nothing is other");

        if (Times(line, offsets, isUtc, Say) is not { } times || bad.Count > before || kind is not { } k) return null;
        return new(
            line.Number, id,
            new(
                line["event"], ShownTime.Instant(times.Start), ShownTime.Instant(times.Stop), k, NullIfBlank(line["source"]), [],
                NullIfBlank(line["remark"])));
    }

    private static (long Start, long Stop)? Times(
        Line line, IReadOnlyList<ZoneOffset> offsets, bool? usually, Action<string, string> say)
    {
        var (from, to) = (TypedTime.Of(line["start"]), TypedTime.Of(line["stop"]));
        if (from is null or { HasDay: false }) say("start", ATime);
        if (to is null) say("stop", ATime + "; or a time alone, such as 00:01:10");
        bool? rowIsUtc = line["zone"].ToUpperInvariant() switch
        {
            "UTC" => true,
            "SITE" => false,
            "" when from is { EndsInZ: true } => true,
            "" => usually,
            _ => null,
        };
        if (rowIsUtc is null) say("zone", "utc or site; nothing only where the start ends in Z");
        if (from is not { HasDay: true } f || to is not { } t || rowIsUtc is not { } isUtc) return null;

        if (Instant("start", f.Ms, f.EndsInZ || isUtc, offsets, say) is not { } start) return null;
        var stopIsUtc = t.EndsInZ || isUtc;
        var stopMs = t.HasDay ? t.Ms : After(start, t.Ms, stopIsUtc ? [] : offsets);
        if (Instant("stop", stopMs, stopIsUtc, offsets, say) is not { } stop) return null;
        if (stop > start) return (start, stop);
        say("stop", "later than the start; only a time alone, such as 00:01:10, is taken as the next day where it is earlier");
        return null;
    }

    /// <summary>The local time that follows a start and has a time of day.</summary>
    private static long After(long start, long timeOfDayMs, IReadOnlyList<ZoneOffset> offsets)
    {
        var local = ZoneOffsets.LocalOf(start, offsets);
        var sameDay = ((long)Math.Floor(local / (double)DayMs) * DayMs) + timeOfDayMs;
        if (sameDay >= local) return sameDay;
        // Clocks that are put back show an earlier time a little later, on the same day.
        return LocalTimes.InstantsOf(sameDay, offsets).Any(i => i > start) ? sameDay : sameDay + DayMs;
    }

    private static long? Instant(string field, long ms, bool isUtc, IReadOnlyList<ZoneOffset> offsets, Action<string, string> say)
    {
        if (isUtc) return ms;
        var instants = LocalTimes.InstantsOf(ms, offsets);
        if (instants.Length == 1) return instants[0];
        var wasSkipped = instants.Length == 0;
        var meant = string.Join(" or ", (wasSkipped ? LocalTimes.MeantBy(ms, offsets) : instants).Select(ShownTime.Instant));
        var became = wasSkipped ? "was skipped when they were put forward" : "came twice when they were put back";
        say(field, $"a time that the site's clocks show once; {ShownTime.Text(ms)} {became}: write {meant}");
        return null;
    }

    private static EventKind? KindOf(string text) => new string([.. text.Where(char.IsAsciiLetter).Select(char.ToUpperInvariant)]) switch
    {
        "FLYOVER" => EventKind.FlyOver,
        "RUN" => EventKind.Run,
        "HOVER" => EventKind.Hover,
        "AMBIENT" => EventKind.Ambient,
        "OTHER" => EventKind.Other,
        "" when text.Length == 0 => EventKind.Other,
        _ => null,
    };

    private static Dictionary<string, int> Columns(IReadOnlyList<string> header)
    {
        var columns = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < header.Count; i++) columns.TryAdd(header[i].Trim(), i);
        return columns;
    }

    private static string? NullIfBlank(string cell) => cell.Length == 0 ? null : cell;

    private sealed record Line(int Number, IReadOnlyList<string> Cells, Dictionary<string, int> Columns)
    {
        /// <summary>A cell without the blanks around it; empty where the row or the table has none.</summary>
        public string this[string column] => Columns.TryGetValue(column, out var i) && i < Cells.Count ? Cells[i].Trim() : "";
    }
}

/// <summary>A row that can be recorded.</summary>
/// <param name="Row">Its number, the header being 1.</param>
/// <param name="Id">Id of the event, by its name.</param>
/// <param name="Happened">What is to be recorded, without recordings.</param>
public sealed record EventRow(int Row, string Id, EventHappened Happened);

/// <summary>What is wrong with a row.</summary>
/// <param name="Row">Its number, the header being 1.</param>
/// <param name="Field">Column.</param>
/// <param name="Value">What stands there.</param>
/// <param name="Allowed">What may stand there.</param>
public sealed record BadEventRow(int Row, string Field, string Value, string Allowed);

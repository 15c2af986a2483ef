using System.Globalization;
using System.Text;

namespace MicRegister.Documents.Exports;

/// <summary>Writes a calendar that other programs subscribe to (iCalendar).</summary>
/// <remarks>
/// RFC 5545: lines end with CRLF and are folded at 75 octets between two characters (3.1), texts escaped (3.3.11), the end of an entry is
/// the day after its last (3.6.1), and DTSTAMP is, in a calendar without METHOD, when the entry was last revised (3.8.7.2); these were
/// looked up in copies, dates (3.3.4), instants in UTC (3.3.5) and TRANSP (3.8.2.7) are from memory. RFC 7986: REFRESH-INTERVAL (5.7) and
/// NAME (5.1), looked up. Entries take up no time for those who look whether somebody is free. A calendar without an entry has no component,
/// which the grammar of 3.6 asks for: a feed that is empty today still has to be answered, and what is subscribed to is then empty too.
/// </remarks>
public static class CalendarFeed
{
    private const int LineOctets = 75;
    private const string LineEnd = "\r\n";

    /// <summary>Writes a calendar.</summary>
    /// <param name="entries">Its entries, each with an identifier of its own; they are written in this order.</param>
    /// <param name="name">Its name, for people.</param>
    /// <param name="productId">What made it, such as -//Example//MicRegister//EN.</param>
    /// <param name="madeAt">When it was made; stands in for the change of an entry of which that is not known.</param>
    /// <returns>The whole file, to be sent as UTF-8.</returns>
    /// <exception cref="ArgumentException">Two entries have one identifier or an entry has none, ends before it begins or on the last day there is, or its address is not http or https.</exception>
    public static string Write(IReadOnlyList<CalendarEntry> entries, string name, string productId, DateTimeOffset madeAt)
    {
        var calendar = new StringBuilder();
        Line(calendar, "BEGIN:VCALENDAR");
        Line(calendar, "VERSION:2.0");
        Line(calendar, "PRODID:" + Escaped(productId));
        Line(calendar, "NAME:" + Escaped(name));
        Line(calendar, "REFRESH-INTERVAL;VALUE=DURATION:PT6H");
        var uids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in entries)
        {
            if (string.IsNullOrWhiteSpace(entry.Uid)) throw new ArgumentException($"An entry has no identifier: {entry.Summary}.", nameof(entries));
            if (!uids.Add(entry.Uid)) throw new ArgumentException($"Two entries have the identifier {entry.Uid}.", nameof(entries));
            if (entry.Last < entry.First) throw new ArgumentException($"Entry {entry.Uid} ends on {Day(entry.Last)}, before it begins on {Day(entry.First)}.", nameof(entries));
            if (entry.Last == DateOnly.MaxValue) throw new ArgumentException($"Entry {entry.Uid} ends on {Day(entry.Last)}, after which there is no day.", nameof(entries));
            Event(calendar, entry, madeAt);
        }
        Line(calendar, "END:VCALENDAR");
        return calendar.ToString();
    }

    private static void Event(StringBuilder calendar, CalendarEntry entry, DateTimeOffset madeAt)
    {
        Line(calendar, "BEGIN:VEVENT");
        Line(calendar, "UID:" + Escaped(entry.Uid));
        Line(calendar, "DTSTAMP:" + Instant(entry.Changed ?? madeAt));
        if (entry.Changed is { } changed) Line(calendar, "LAST-MODIFIED:" + Instant(changed));
        Line(calendar, "DTSTART;VALUE=DATE:" + Day(entry.First));
        Line(calendar, "DTEND;VALUE=DATE:" + Day(entry.Last.AddDays(1)));
        Line(calendar, "SUMMARY:" + Escaped(entry.Summary));
        if (!string.IsNullOrEmpty(entry.Description)) Line(calendar, "DESCRIPTION:" + Escaped(entry.Description));
        if (entry.Category.Length > 0) Line(calendar, "CATEGORIES:" + Escaped(entry.Category));
        Line(calendar, "TRANSP:TRANSPARENT");
        if (entry.Url is not null) Line(calendar, "URL:" + Address(entry));
        Line(calendar, "END:VEVENT");
    }

    private static string Day(DateOnly day) => day.ToString("yyyyMMdd", CultureInfo.InvariantCulture);

    private static string Instant(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);

    // An address is no text and is not escaped; its normal form has neither line breaks nor letters beyond ASCII.
    private static string Address(CalendarEntry entry) =>
        Uri.TryCreate(entry.Url, UriKind.Absolute, out var uri) && (uri.Scheme == Uri.UriSchemeHttp || uri.Scheme == Uri.UriSchemeHttps)
            ? uri.AbsoluteUri
            : throw new ArgumentException($"The address '{entry.Url}' of entry {entry.Uid} is not http or https.", nameof(entry));

    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            switch (text[i])
            {
                case '\\' or ';' or ',':
                    escaped.Append('\\').Append(text[i]);
                    break;
                case '\r' when i + 1 < text.Length && text[i + 1] == '\n':
                    break; // the line feed that follows is the break
                case '\n' or '\r' or '\u0085' or '\u2028' or '\u2029':
                    escaped.Append("\\n"); // some readers split lines at each of these
                    break;
                case var c:
                    // No control character but the tab may stand in a text (3.1 CONTROL, 3.3.11 TSAFE-CHAR).
                    escaped.Append(char.IsControl(c) && c != '\t' ? '\uFFFD' : c);
                    break;
            }
        }
        return escaped.ToString();
    }

    private static void Line(StringBuilder calendar, string content)
    {
        Span<char> character = stackalloc char[2];
        var octets = 0;
        foreach (var rune in content.EnumerateRunes())
        {
            if (octets + rune.Utf8SequenceLength > LineOctets)
            {
                calendar.Append(LineEnd).Append(' ');
                octets = 1; // the blank counts
            }
            var length = rune.EncodeToUtf16(character);
            calendar.Append(character[..length]);
            octets += rune.Utf8SequenceLength;
        }
        calendar.Append(LineEnd);
    }
}

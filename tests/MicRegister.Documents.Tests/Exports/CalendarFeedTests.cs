using System.Globalization;
using System.Text;
using MicRegister.Documents.Exports;

namespace MicRegister.Documents.Tests.Exports;

public sealed class CalendarFeedTests
{
    private const string Product = "-//Quillmere//MicRegister//EN";
    private static readonly DateTimeOffset MadeAt = new(2026, 5, 4, 9, 30, 15, TimeSpan.FromHours(2));

    [Fact]
    public void A_calendar_is_written_as_the_standard_says() => Assert.Equal(
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Quillmere//MicRegister//EN\r\nNAME:Quillmere\\, due\r\nREFRESH-INTERVAL;VALUE=DURATION:PT6H\r\n" +
        "BEGIN:VEVENT\r\nUID:due-41001@register.example\r\nDTSTAMP:20260503T220000Z\r\nLAST-MODIFIED:20260503T220000Z\r\nDTSTART;VALUE=DATE:20260504\r\n" +
        "DTEND;VALUE=DATE:20260505\r\nSUMMARY:41001 is due\r\nDESCRIPTION:Rack 3\\; shelf 2\\nbehind C:\\\\\r\nCATEGORIES:Calibration\r\nTRANSP:TRANSPARENT\r\n" +
        "URL:https://register.example/d/41001\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
        CalendarFeed.Write(
            [new("due-41001@register.example", new(2026, 5, 4), new(2026, 5, 4), "41001 is due", "Rack 3; shelf 2\nbehind C:\\", "Calibration", "https://register.example/d/41001", new(2026, 5, 4, 0, 0, 0, TimeSpan.FromHours(2)))],
            "Quillmere, due", Product, MadeAt));

    [Fact]
    public void What_is_not_known_is_left_out()
    {
        var lines = Lines(CalendarFeed.Write([Entry("a") with { Category = "" }], "n", Product, MadeAt));

        Assert.Contains("DTSTAMP:20260504T073015Z", lines); // 09:30:15 at two hours east of UTC
        Assert.DoesNotContain(lines, l => l.StartsWith("LAST-MODIFIED", StringComparison.Ordinal) || l.StartsWith("DESCRIPTION", StringComparison.Ordinal)
            || l.StartsWith("URL", StringComparison.Ordinal) || l.StartsWith("CATEGORIES", StringComparison.Ordinal) || l.StartsWith("SEQUENCE", StringComparison.Ordinal)
            || l.StartsWith("METHOD", StringComparison.Ordinal) || l.StartsWith("X-", StringComparison.Ordinal));
    }

    // The end is the first day that no longer belongs to the entry (RFC 5545, 3.6.1).
    [Theory]
    [InlineData("2026-05-04", "2026-05-04", "20260504", "20260505")]
    [InlineData("2028-02-28", "2028-02-28", "20280228", "20280229")]
    [InlineData("2027-02-28", "2027-02-28", "20270228", "20270301")]
    [InlineData("2028-01-01", "2028-12-31", "20280101", "20290101")] // 366 days, over a 29 February
    [InlineData("2028-02-29", "2029-02-28", "20280229", "20290301")]
    public void The_end_is_the_day_after_the_last(string first, string last, string start, string end)
    {
        var lines = Lines(CalendarFeed.Write([Entry("a") with { First = Day(first), Last = Day(last) }], "n", Product, MadeAt));

        Assert.Contains("DTSTART;VALUE=DATE:" + start, lines);
        Assert.Contains("DTEND;VALUE=DATE:" + end, lines);
    }

    [Fact]
    public void A_line_is_folded_at_75_octets_and_never_within_a_character()
    {
        // SUMMARY: takes 8 octets. With 0 to 9 letters before them, characters of 2, 3 and 4 octets stand at every place about the boundary.
        foreach (var letter in new[] { "x", "ü", "–", "🎤" })
        {
            for (var before = 0; before < 10; before++)
            {
                var summary = new string('a', before) + string.Concat(Enumerable.Repeat(letter, 100));

                var octets = Encoding.UTF8.GetBytes(CalendarFeed.Write([Entry("a") with { Summary = summary }], "n", Product, MadeAt));

                var physical = Physical(octets);
                Assert.All(physical, l => Assert.InRange(l.Length, 1, 75));
                // Each line alone is whole UTF-8; half a character would be read as U+FFFD.
                Assert.All(physical, l => Assert.DoesNotContain("\uFFFD", Encoding.UTF8.GetString(l), StringComparison.Ordinal));
                // Folded as late as can be: the next character would not have fitted.
                Assert.InRange(physical.Single(l => l.AsSpan().StartsWith("SUMMARY"u8)).Length, 75 - Encoding.UTF8.GetByteCount(letter) + 1, 75);
                Assert.Contains("SUMMARY:" + summary, Lines(Encoding.UTF8.GetString(octets)));
            }
        }
    }

    [Fact]
    public void A_line_of_75_octets_is_not_folded_and_one_of_76_is()
    {
        Assert.Contains("SUMMARY:" + new string('a', 67) + "\r\nTRANSP", CalendarFeed.Write([Entry("a") with { Summary = new string('a', 67), Category = "" }], "n", Product, MadeAt), StringComparison.Ordinal);
        Assert.Contains("SUMMARY:" + new string('a', 67) + "\r\n a\r\nTRANSP", CalendarFeed.Write([Entry("a") with { Summary = new string('a', 68), Category = "" }], "n", Product, MadeAt), StringComparison.Ordinal);
    }

    [Fact]
    public void Another_reader_gets_the_entries_back()
    {
        CalendarEntry[] entries =
        [
            Entry("a, b; c\\d@register.example") with { Summary = "Commas, semicolons; back\\slashes, \\n and \\\\ and \"quotes\": all", Description = "one\ntwo\n\n three" },
            Entry("year") with { First = new(2028, 1, 1), Last = new(2028, 12, 31), Summary = "Jahresprüfung – " + string.Concat(Enumerable.Repeat("Größe 🎤; ", 30)), Category = "Lent, abroad" },
            Entry("changed") with { Url = "https://register.example/d/41001?a=1,2;b", Changed = new(2026, 5, 3, 22, 0, 1, TimeSpan.Zero) },
            Entry("tail") with { Summary = "ends with a backslash\\", Description = "\tBEGIN:VEVENT" },
        ];

        Assert.Equal(entries, Parsed(CalendarFeed.Write(entries, "Quillmere", Product, MadeAt)));
    }

    [Theory]
    [InlineData("a\r\nb", "a\\nb")]
    [InlineData("a\rb", "a\\nb")]
    [InlineData("a\n\rb", "a\\n\\nb")]
    [InlineData("a\u2028b\u2029c\u0085d", "a\\nb\\nc\\nd")]
    [InlineData("a\0b\u001Bc\u007F", "a\uFFFDb\uFFFDc\uFFFD")]
    [InlineData("x\r\nEND:VEVENT", "x\\nEND:VEVENT")]
    [InlineData("a\tb:\"c\"", "a\tb:\"c\"")]
    public void No_text_breaks_a_line(string summary, string written) =>
        Assert.Contains("SUMMARY:" + written, Lines(CalendarFeed.Write([Entry("a") with { Summary = summary }], "n", Product, MadeAt)));

    [Fact]
    public void A_calendar_can_be_empty() => Assert.Equal(
        ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:" + Product, "NAME:n", "REFRESH-INTERVAL;VALUE=DURATION:PT6H", "END:VCALENDAR"],
        Lines(CalendarFeed.Write([], "n", Product, MadeAt)));

    [Fact]
    public void An_entry_that_cannot_be_is_refused()
    {
        Refused("Two entries have the identifier a", Entry("a"), Entry("b"), Entry("a"));
        Refused("no identifier", Entry(" "));
        Refused("before it begins", Entry("a") with { Last = new(2026, 5, 3) });
        Refused("after which there is no day", Entry("a") with { Last = DateOnly.MaxValue });
        Refused("not http or https", Entry("a") with { Url = "javascript:alert(1)" });
        Refused("not http or https", Entry("a") with { Url = "/d/41001" });
    }

    private static void Refused(string why, params CalendarEntry[] entries) =>
        Assert.Contains(why, Assert.Throws<ArgumentException>(() => CalendarFeed.Write(entries, "n", Product, MadeAt)).Message, StringComparison.Ordinal);

    private static CalendarEntry Entry(string uid) => new(uid, new(2026, 5, 4), new(2026, 5, 4), "due", null, "Calibration", null, null);

    private static DateOnly Day(string text) => DateOnly.ParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>Lines as they are sent, in octets; each ends with CRLF and holds neither CR nor LF.</summary>
    private static List<byte[]> Physical(byte[] octets)
    {
        var lines = new List<byte[]>();
        var start = 0;
        for (var i = 0; i < octets.Length; i++)
        {
            Assert.False(octets[i] == '\n' && (i == 0 || octets[i - 1] != '\r'), "a line feed stands alone");
            if (octets[i] != '\r') continue;
            Assert.True(octets[i + 1] == '\n', "a carriage return stands alone");
            lines.Add(octets[start..i]);
            start = i + 2;
        }
        Assert.Equal(octets.Length, start);
        return lines;
    }

    /// <summary>Unfolded lines: a line that begins with a blank goes on the one before it.</summary>
    private static List<string> Lines(string calendar)
    {
        var lines = new List<string>();
        foreach (var octets in Physical(Encoding.UTF8.GetBytes(calendar)))
        {
            var line = Encoding.UTF8.GetString(octets);
            if (line[0] is ' ' or '\t') lines[^1] += line[1..];
            else lines.Add(line);
        }
        return lines;
    }

    private static List<CalendarEntry> Parsed(string calendar)
    {
        var entries = new List<CalendarEntry>();
        var entry = Entry("");
        foreach (var line in Lines(calendar))
        {
            var colon = line.IndexOf(':', StringComparison.Ordinal);
            var value = line[(colon + 1)..];
            switch (line[..colon])
            {
                case "BEGIN" when value == "VEVENT": entry = Entry("") with { Category = "" }; break;
                case "END" when value == "VEVENT": entries.Add(entry); break;
                case "UID": entry = entry with { Uid = Unescaped(value) }; break;
                case "SUMMARY": entry = entry with { Summary = Unescaped(value) }; break;
                case "DESCRIPTION": entry = entry with { Description = Unescaped(value) }; break;
                case "CATEGORIES": entry = entry with { Category = Unescaped(value) }; break;
                case "URL": entry = entry with { Url = value }; break;
                case "DTSTART;VALUE=DATE": entry = entry with { First = DateOnly.ParseExact(value, "yyyyMMdd", CultureInfo.InvariantCulture) }; break;
                case "DTEND;VALUE=DATE": entry = entry with { Last = DateOnly.ParseExact(value, "yyyyMMdd", CultureInfo.InvariantCulture).AddDays(-1) }; break;
                case "LAST-MODIFIED":
                    entry = entry with { Changed = DateTimeOffset.ParseExact(value, "yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal) };
                    break;
                default: break;
            }
        }
        return entries;
    }

    // One character after the other: replacing \n and \\ one after the other would take the n of \\n for a line break.
    private static string Unescaped(string value)
    {
        var text = new StringBuilder();
        for (var i = 0; i < value.Length; i++)
        {
            if (value[i] != '\\')
            {
                Assert.False(value[i] is ',' or ';', "a comma or semicolon stands without its backslash");
                text.Append(value[i]);
                continue;
            }
            i++;
            text.Append(value[i] switch { 'n' or 'N' => '\n', '\\' or ';' or ',' => value[i], var c => throw new FormatException($"\\{c} is no escape") });
        }
        return text.ToString();
    }
}

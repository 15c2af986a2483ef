using MicRegister.Register.Events;

namespace MicRegister.Register.Tests.Events;

public sealed class EventTableTests
{
    [Fact]
    public void A_row_becomes_an_event()
    {
        var table = Read("event;start;stop;kind;source;remark;zone", "Run 7;2026-05-04 10:11:12,345;2026-05-04 10:12:00;Fly-over;hexacopter;gusts;utc");

        Assert.Empty(table.Bad);
        var row = Assert.Single(table.Good);
        Assert.Equal((2, "RUN-7"), (row.Row, row.Id));
        Assert.Equal(("Run 7", "2026-05-04T10:11:12.345Z", "2026-05-04T10:12:00.000Z"), (row.Happened.Name, row.Happened.StartUtc, row.Happened.StopUtc));
        Assert.Equal((EventKind.FlyOver, "hexacopter", "gusts"), (row.Happened.Kind, row.Happened.Source, row.Happened.Remark));
        Assert.Empty(row.Happened.Recordings);
    }

    [Theory]
    [InlineData("2026-05-04 10:11:12", "utc", "2026-05-04T10:11:12.000Z")]
    [InlineData("2026-05-04 10:11:12.3", "utc", "2026-05-04T10:11:12.300Z")]
    [InlineData("2026-05-04 9:10", "utc", "2026-05-04T09:10:00.000Z")] // as people type it
    [InlineData("2026-05-04 09:10", "utc", "2026-05-04T09:10:00.000Z")]
    [InlineData("2026-05-04 9:10:00", "utc", "2026-05-04T09:10:00.000Z")]
    [InlineData("2026-05-04 09:10:00.5", "utc", "2026-05-04T09:10:00.500Z")]
    [InlineData("2026-05-04T9:10Z", "", "2026-05-04T09:10:00.000Z")]
    [InlineData("2026-05-04T10:11:12,345678", "UTC", "2026-05-04T10:11:12.345Z")] // what is finer is cut off
    [InlineData("2026-05-04T10:11:12Z", "", "2026-05-04T10:11:12.000Z")]
    [InlineData("2026-05-04T10:11:12Z", "site", "2026-05-04T10:11:12.000Z")] // Z is UTC whatever the zone says
    [InlineData("2026-05-04 10:11:12", "Site", "2026-05-04T08:11:12.000Z")]
    [InlineData("2026-01-04 10:11:12", "site", "2026-01-04T09:11:12.000Z")]
    [InlineData("2026-05-04 00:00:00", "site", "2026-05-03T22:00:00.000Z")]
    [InlineData("2028-02-29 12:00:00", "utc", "2028-02-29T12:00:00.000Z")]
    public void Times_are_read(string start, string zone, string utc)
    {
        var table = Read("event;start;stop;zone", $"A;{start};2030-01-01 00:00:00;{zone}");
        Assert.Empty(table.Bad);
        Assert.Equal(utc, Assert.Single(table.Good).Happened.StartUtc);
    }

    [Theory]
    [InlineData("2026-05-04 23:59:30", "00:01:10", "utc", "2026-05-05T00:01:10.000Z")] // over midnight
    [InlineData("2026-05-04 23:58:00", "23:59:10,5", "utc", "2026-05-04T23:59:10.500Z")]
    [InlineData("2026-05-04 9:10", "9:12", "utc", "2026-05-04T09:12:00.000Z")]
    [InlineData("2026-05-04 9:10", "9:12:30", "utc", "2026-05-04T09:12:30.000Z")]
    [InlineData("2028-02-28 23:59:30", "00:01:10", "utc", "2028-02-29T00:01:10.000Z")]
    [InlineData("2026-05-04 23:59:30", "00:01:10", "site", "2026-05-04T22:01:10.000Z")] // 00:01:10 on 5 May in summer time
    [InlineData("2026-10-24 23:59:30", "00:01:10", "site", "2026-10-24T22:01:10.000Z")]
    [InlineData("2026-05-04 00:30:00", "22:31:00Z", "site", "2026-05-03T22:31:00.000Z")] // the start is 22:30 UTC of the day before
    [InlineData("2026-10-25 23:00:00", "02:30:00", "site", "2026-10-26T01:30:00.000Z")] // the hour that came twice is long past
    public void A_stop_without_a_day_follows_the_start(string start, string stop, string zone, string utc)
    {
        var table = Read("event;start;stop;zone", $"A;{start};{stop};{zone}");
        Assert.Empty(table.Bad);
        Assert.Equal(utc, Assert.Single(table.Good).Happened.StopUtc);
    }

    [Theory]
    [InlineData("2026-05-04 23:59:30", "2026-05-04 00:01:10")] // a stop with a day is where it says
    [InlineData("2026-05-04 10:00:00", "2026-05-04 10:00:00")]
    [InlineData("2026-05-04 10:00:00", "10:00:00")]
    public void A_stop_that_is_not_later_is_bad(string start, string stop)
    {
        var table = Read("event;start;stop;zone", $"A;{start};{stop};utc");
        Assert.Empty(table.Good);
        var bad = Assert.Single(table.Bad);
        Assert.Equal((2, "stop", stop), (bad.Row, bad.Field, bad.Value));
    }

    [Theory]
    [InlineData("2026-10-25 02:30:00", "2026-10-25T00:30:00.000Z or 2026-10-25T01:30:00.000Z")] // twice
    [InlineData("2026-03-29 02:30:00", "2026-03-29T00:30:00.000Z or 2026-03-29T01:30:00.000Z")] // never
    public void A_site_time_that_is_not_one_instant_is_bad_and_both_are_said(string start, string both)
    {
        var bad = Assert.Single(Read("event;start;stop;zone", $"A;{start};2026-12-01 00:00:00;site").Bad);
        Assert.Equal((2, "start", start), (bad.Row, bad.Field, bad.Value));
        Assert.Contains(both, bad.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stop_without_a_day_in_the_hour_that_comes_twice_is_not_put_on_the_next_day()
    {
        // It began at 02:59:50 summer time, said in UTC, and ended at 02:00:20 winter time.
        var bad = Assert.Single(Read("event;start;stop;zone", "A;2026-10-25T00:59:50Z;02:00:20;site").Bad);
        Assert.Equal("stop", bad.Field);
        Assert.Contains("2026-10-25T01:00:20.000Z", bad.Allowed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-02-29 10:00:00")]
    [InlineData("2026-05-04 24:00:00")]
    [InlineData("2026-05-04 24:00")]
    [InlineData("2026-05-04 9:1")]
    [InlineData("2026-05-04 9:10:0")]
    [InlineData("2026-05-04 9")]
    [InlineData("2026-05-04 910")]
    [InlineData("2026-05-04 10:00:00.")]
    [InlineData("04.05.2026 10:00:00")]
    [InlineData("1969-12-31 10:00:00")]
    [InlineData("10:00:00")] // a start has a day
    [InlineData("")]
    public void A_start_that_is_no_time_is_bad(string start)
    {
        var table = Read("event;start;stop;zone", $"A;{start};2026-06-01 10:00:00;utc", "B;2026-05-04 10:00:00;10:01:00;utc");
        Assert.Equal("B", Assert.Single(table.Good).Id);
        var bad = Assert.Single(table.Bad);
        Assert.Equal((2, "start", start), (bad.Row, bad.Field, bad.Value));
    }

    [Fact]
    public void All_that_is_wrong_with_a_row_is_said_at_once()
    {
        var table = Read("event;start;stop;kind;zone", "?;soon;later;picnic;mars");
        Assert.Equal([(2, "event", "?"), (2, "kind", "picnic"), (2, "start", "soon"), (2, "stop", "later"), (2, "zone", "mars")], table.Bad.Select(b => (b.Row, b.Field, b.Value)));
    }

    [Fact]
    public void A_row_with_no_zone_is_bad_unless_its_start_ends_in_z()
    {
        var table = Read("event;start;stop", "A;2026-05-04 10:00:00;10:01:00", "B;2026-05-04T10:00:00Z;10:01:00");
        Assert.Equal("2026-05-04T10:01:00.000Z", Assert.Single(table.Good).Happened.StopUtc);
        Assert.Equal((2, "zone"), (table.Bad[0].Row, table.Bad[0].Field));
    }

    [Fact]
    public void One_id_in_several_rows_makes_all_of_them_bad()
    {
        var table = Read("event;start;stop;zone", "Run 7;2026-05-04 10:00:00;10:01:00;utc", "Run 8;2026-05-04 11:00:00;11:01:00;utc", "run-7;2026-05-04 12:00:00;12:01:00;utc");
        Assert.Equal("RUN-8", Assert.Single(table.Good).Id);
        Assert.Equal([(2, "event"), (4, "event")], table.Bad.Select(b => (b.Row, b.Field)));
        Assert.All(table.Bad, b => Assert.Contains("rows 2, 4", b.Allowed, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Run 7", "RUN-7")]
    [InlineData("  run   7 ", "RUN-7")]
    [InlineData("1.2", "1-2")] // not 12, which is another run
    [InlineData("--", "")]
    [InlineData("飛行", "")]
    [InlineData("", "")]
    public void An_id_follows_from_the_name(string name, string id) => Assert.Equal(id, EventTable.IdOf(name));

    [Fact]
    public void An_id_has_sixty_characters_at_most_and_no_dash_at_its_end()
    {
        Assert.Equal(new string('A', 60), EventTable.IdOf(new string('a', 61)));
        Assert.Equal(new string('A', 59), EventTable.IdOf(new string('a', 59) + " b"));
    }

    [Theory]
    [InlineData("fly over", EventKind.FlyOver)]
    [InlineData("FlyOver", EventKind.FlyOver)]
    [InlineData("run", EventKind.Run)]
    [InlineData("Hover", EventKind.Hover)]
    [InlineData("AMBIENT", EventKind.Ambient)]
    [InlineData("other", EventKind.Other)]
    [InlineData("", EventKind.Other)]
    public void Kinds_are_read(string text, EventKind kind) =>
        Assert.Equal(kind, Assert.Single(Read("event;start;stop;zone;kind", $"A;2026-05-04 10:00:00;10:01:00;utc;{text}").Good).Happened.Kind);

    [Fact]
    public void Columns_may_come_in_any_order_blank_rows_count_but_are_passed_over_and_short_rows_are_no_fault()
    {
        var table = Read(" ZONE ;Stop;Event;Start;pilot;remark", "", ";;;", "utc;10:01:00;A;2026-05-04 10:00:00");
        Assert.Empty(table.Bad);
        var row = Assert.Single(table.Good);
        Assert.Equal((4, "A", (string?)null), (row.Row, row.Id, row.Happened.Remark));
    }

    [Fact]
    public void A_table_without_its_columns_says_which_are_missing()
    {
        Assert.Equal(["event", "start", "stop"], EventTable.Read([], RecorderClockTests.Berlin).Bad.Select(b => b.Field));
        Assert.Equal([(1, "stop")], Read("event;start", "A;2026-05-04 10:00:00").Bad.Select(b => (b.Row, b.Field)));
    }

    private static EventTable Read(params string[] lines) => EventTable.Read([.. lines.Select(l => l.Split(';'))], RecorderClockTests.Berlin);

    [Theory]
    [InlineData("2026-06-02 10:11:12", false, "2026-06-02T08:11:12.000Z", null)]
    [InlineData("2026-06-02 10:11:12", true, "2026-06-02T10:11:12.000Z", null)]
    [InlineData("2026-06-02T10:11:12Z", false, "2026-06-02T10:11:12.000Z", null)]
    [InlineData("2026-06-02 10:11:12+02:00", true, "2026-06-02T08:11:12.000Z", null)] // an offset says which instant it is
    [InlineData("2026-06-02T10:11 -0330", false, "2026-06-02T13:41:00.000Z", null)]
    [InlineData("2026-06-02 10:11+19:00", true, null, "such as")]
    [InlineData("2026-06-02 10:11+02:00Z", true, null, "such as")]
    [InlineData("10:11+02:00", true, null, "such as")]
    [InlineData("10:11", true, null, "such as")]
    [InlineData("noon", true, null, "such as")]
    [InlineData("2026-06-02 9:10", true, "2026-06-02T09:10:00.000Z", null)]
    [InlineData(" 2026-06-02 9:10:00.25 ", true, "2026-06-02T09:10:00.250Z", null)]
    public void One_time_is_read_alone(string text, bool isUtc, string? instant, string? says)
    {
        Assert.Equal(instant, EventTable.Time(text, isUtc, [new("2020-01-01T00:00:00.000Z", 120)], out var allowed));
        if (says is null) Assert.Null(allowed);
        else Assert.Contains(says, allowed, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, "2026-05-04T10:11:12.000Z")]
    [InlineData(false, "2026-05-04T08:11:12.000Z")]
    public void Rows_without_a_zone_are_what_was_said_beside_the_table(bool isUtc, string at)
    {
        string[][] rows = [["event", "start", "stop", "zone"], ["Run 1", "2026-05-04 10:11:12", "10:12:00", ""]];

        Assert.Equal(at, Assert.Single(EventTable.Read(rows, RecorderClockTests.Berlin, isUtc).Good).Happened.StartUtc);
        Assert.Equal("zone", Assert.Single(EventTable.Read(rows, RecorderClockTests.Berlin).Bad).Field);
    }
}

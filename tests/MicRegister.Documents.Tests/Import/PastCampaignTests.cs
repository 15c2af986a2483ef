using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Logs of a campaign of the year before, as they were typed up, become the facts that phones and the API write.</summary>
public sealed class PastCampaignTests
{
    private static readonly Lazy<(Register.Register Register, IReadOnlyList<FileReport> Reports, int Facts)> Taken =
        new(() => PastCampaign.Imported(null, PastCampaign.Files));

    private static Register.Register Register => Taken.Value.Register;

    /// <summary>
    /// By hand. At 94.00 dB a chain of -38.06 dB and -0.1 dB that indicates 94.02 dB has -38.16 + 0.02 dB; of two checks the mean is applied.
    /// Run 1: S2 by its old capsule, S3 and S4 without an evening's reading. Run 2: S2 by its new one. Run 3: S4 was taken in the day before.
    /// </summary>
    [Theory]
    [InlineData("RUN-1", "S1", TraceVerdict.Valid, "101", -38.16, "")]
    [InlineData("RUN-1", "S2", TraceVerdict.Valid, "102", -38.115, "")]
    [InlineData("RUN-1", "S3", TraceVerdict.Doubtful, "103", -38.15, "check-after-missing")]
    [InlineData("RUN-1", "S4", TraceVerdict.Doubtful, "104", -38.13, "check-after-missing")]
    [InlineData("RUN-2", "S2", TraceVerdict.Valid, "105", -38.195, "")]
    [InlineData("RUN-3", "S1", TraceVerdict.Valid, "101", -38.15, "")]
    [InlineData("RUN-3", "S3", TraceVerdict.Valid, "103", -38.155, "")]
    [InlineData("RUN-3", "S4", TraceVerdict.NotValid, null, null, "nothing-placed")]
    public void The_trace_says_what_the_papers_say(string run, string station, TraceVerdict verdict, string? microphone, double? levelDb,
        string reasons)
    {
        var trace = Assert.Single(Tracer.Of(Register, $"{PastCampaign.C}.{run}", station)!.Stations);

        Assert.Equal(verdict, trace.Verdict);
        Assert.Equal(microphone, trace.Of(DeviceKind.Microphone)?.Serial);
        Assert.Equal(reasons, string.Join(' ', trace.Reasons.Select(r => r.Question)));
        // Levels of facts are kept to 1e-6 dB; of two the mean.
        if (levelDb is { } level) Assert.Equal(level, trace.Applied!.VoltsDb, 1e-6);
        else Assert.Null(trace.Applied);
    }

    [Fact]
    public void A_deviation_without_a_reading_is_named_where_it_is_missed()
    {
        string Why(string station) => Assert.Single(Assert.Single(Tracer.Of(Register, PastCampaign.C + ".RUN-1",
            station)!.Stations).Reasons).Text;

        // 18:15 at the site.
        Assert.Contains("a check of 16:15:00 UTC lacks readings, devices or a budget", Why("S4"), StringComparison.Ordinal);
        Assert.DoesNotContain("lacks", Why("S3"), StringComparison.Ordinal);
    }

    [Fact]
    public void Events_begin_when_clocks_at_the_site_said() => Assert.Equal(
        ["RUN-1 2025-06-03T08:00:00.000Z FlyOver", "RUN-2 2025-06-03T11:30:00.000Z FlyOver", "RUN-3 2025-06-04T08:00:00.000Z Ambient"],
        EventBook.OfCampaign(Register, PastCampaign.C)
            .Select(e => $"{e.Id[(PastCampaign.C.Length + 1)..]} {DateTimeOffset.FromUnixTimeMilliseconds(e.StartMs):yyyy-MM-dd'T'HH:mm:ss.fff'Z'} {e.Kind}"));

    [Fact]
    public void A_swap_and_takings_in_are_the_facts_that_phones_write()
    {
        var deployment = ArrayDeployment.Of(Register, PastCampaign.C);
        string Id(string serial) => Register.DeviceIds.Single(d => Register.Device(d)!.Serial == serial);

        var swapped = deployment.Placements.Single(p => p.Said.Swap is not null);
        Assert.Equal(new PartSwap(Id("102"), Id("105"), "knistert"), swapped.Said.Swap);
        Assert.Equal([Id("105"), Id("202"), Id("302")], swapped.Devices);
        Assert.Equal("by Ada", swapped.Said.Remark);
        Assert.Equal([("S4", "2025-06-03T17:00:00.000Z"), ("S1", "2025-06-04T17:00:00.000Z")],
            deployment.TakenIn.Select(t => (t.Said.Station, t.Fact.Occurred.ToString())));
        Assert.All(deployment.TakenIn, t => Assert.NotNull(t.Ended));
        Assert.Equal(["S2", "S3"], deployment.Placements.Where(p => p.Stands).Select(p => p.Station).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void What_was_not_read_stays_unread()
    {
        var checks = CheckBook.OfCampaign(Register, PastCampaign.C);

        // Nine rows hold fourteen readings and one deviation.
        Assert.Equal(14, checks.Count);
        Assert.All(checks, c => Assert.Null(c.Check.Air));
        Assert.All(checks, c => Assert.False(c.Check.PressureIsEstimated));
        Assert.Equal("S4", Assert.Single(CheckBook.Unsound(Register, PastCampaign.C)).Station);
    }

    [Fact]
    public void Weather_survey_and_clocks_stand_in_the_campaign()
    {
        // 1008.0 hPa and 18.5 °C at 9:50 of clocks that run two hours ahead.
        var sample = WeatherLog.Of(Register, PastCampaign.C).Samples[0];
        Assert.Equal(("2025-06-03T07:50:00.000Z", 100.8, 18.5, 2.5),
            (DateTimeOffset.FromUnixTimeMilliseconds(sample.Instant).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'"),
                sample.Said.PressureKPa!.Value,
                sample.Said.TemperatureC!.Value, sample.Said.WindMs!.Value));
        var survey = Register.Campaign(PastCampaign.C)!.Surveys["S1"].Said;
        Assert.Equal((53.00101, 0.02, "total station"), (survey.LatitudeDeg, survey.HorizontalStandardM, survey.Method));
        // Two seconds ahead at seven, four at nineteen: three at thirteen, eleven o'clock UTC.
        var reading = EventBook.Clock(Register, PastCampaign.C, "REC-A").Read("2025-06-03T13:00:03.000");
        Assert.Equal(DateTimeOffset.Parse("2025-06-03T11:00:00Z", System.Globalization.CultureInfo.InvariantCulture)
            .ToUnixTimeMilliseconds(), reading.UnixMilliseconds!.Value, 2.0);
        Assert.Equal(TimeScale.Local, EventBook.SetOf(Register, PastCampaign.C, "REC-A")!.Scale);
    }

    [Fact]
    public void Every_row_is_good_and_the_same_files_again_add_nothing()
    {
        Assert.All(Taken.Value.Reports, r => Assert.True(r.IsGood, r.Name));
        Assert.All(Taken.Value.Reports.SelectMany(r => r.Outcomes), o => Assert.Equal(RowSort.New, o.Sort));

        var (after, reports, facts) = PastCampaign.Imported(Register, PastCampaign.Files);

        Assert.Equal(0, facts);
        Assert.Equal(Register.Digest, after.Digest);
        Assert.All(reports.SelectMany(r => r.Outcomes), o => Assert.Equal(RowSort.AlreadyThere, o.Sort));
    }

    [Fact]
    public void In_whichever_order_the_files_come_the_facts_are_the_same()
    {
        // Rules stand before the campaign that follows them, as before.
        var (register, reports, _) = PastCampaign.Imported(null, [PastCampaign.Files[0], .. PastCampaign.Files.Skip(1).Reverse()]);

        Assert.All(reports, r => Assert.True(r.IsGood, r.Name + " " + r.Outcomes.FirstOrDefault(o => o.Sort != RowSort.New)));
        Assert.Equal(Register.Digest, register.Digest);
        // One by one, each into what the others brought.
        var one = PastCampaign.Files.Aggregate(FactList.RegisterOf([]), (known, file) => PastCampaign.Imported(known, [file]).Register);
        Assert.Equal(Register.Digest, one.Digest);
    }

    [Theory]
    [InlineData("Station,Time,Microphone\nS1,2025-06-04 20:00,101\nS2,2025-06-04 20:00,999\n",
        "999': no microphone with that serial number is known")]
    [InlineData("Station,Time,Microphone\nS1,2025-06-04 20:00,101\nS9,2025-06-04 20:00,102\n", "S9': Marsh 25 has no such station")]
    [InlineData("Station,Time,Microphone\nS1,2025-06-04 20:00,101\nS2,2025-06-04,102\n", "2025-06-04': a time of day is missing")]
    [InlineData("Station,Time,Microphone\nS1,2025-06-04 20:00,101\nS2,2025-06-04 25:00,102\n", "2025-06-04 25:00")]
    [InlineData("Station,Time,Microphone\nS1,2025-06-04 20:00,101\nS2,2025-06-04 20:00,\n", "no device is named")]
    [InlineData("Station,Time,Out,In\nS2,2025-06-04 08:00,105,104\nS3,2025-06-04 08:00,104,102\n", "it did not stand at S3")]
    [InlineData("Station,Time,Action\nS3,2025-06-04 20:00,taken in\nS4,2025-06-04 20:00,taken in\n", "nothing stood at S4")]
    [InlineData("Station,Time,Action\nS3,2025-06-04 20:00,taken in\nS2,2025-06-04 20:00,painted\n",
        "painted': allowed are placed, swapped, taken in")]
    [InlineData("Station,Time,Moment,Calibrator,Reading\nS2,2025-06-04 09:00,before,501,94.0 dB\nS2,2025-06-04 09:10,before,502,94.0 dB\n",
        "502': no sound calibrator")]
    [InlineData("Station,Time,Moment,Calibrator,Reading\nS2,2025-06-04 09:00,before,501,94.0 dB\nS4,2025-06-04 09:10,before,501,94.0 dB\n",
        "nothing stood there")]
    [InlineData("Station,Time,Moment,Calibrator,Reading\nS2,2025-06-04 09:00,before,501,12.4 mV\nS3,2025-06-04 09:10,before,501,32000 counts\n", "32000 counts': allowed are levels in dB")]
    [InlineData("Station,Serial,Time,Moment,Calibrator,Reading\nS2,105,2025-06-04 09:00,before,501,94.0 dB\nS2,102,2025-06-04 09:10,before,501,94.0 dB\n", "does not hold it")]
    [InlineData("Station,Time,Moment,Calibrator,Reading\nS2,2025-06-03 20:00,before,501,94.0 dB\nS2,2025-06-03,before,501,94.0 dB\n",
        "write the time of the check")]
    [InlineData("Event,Start,End\nRun 8,2025-06-04 11:00,11:01\nRun 9,2025-06-04 11:10,2025-06-04 11:09\n", "later than the start")]
    [InlineData("Event,Start,End\nRun 8,2025-06-04 11:00,11:01\nRun 1,2025-06-04 11:10,11:11\n", "There is an event Run 1 already")]
    [InlineData("Station,Latitude,Longitude,Horizontal uncertainty [m],Method\nS2,53.0,10.0,0.02,total station\nS3,53.0,10.0,0,total station\n", "no place is exact")]
    [InlineData("Time,Wind [m/s]\n2025-06-04 11:00,3\n2025-06-04 11:10,strong\n", "a number")]
    [InlineData("Recorder,Shown,True time\nREC-B,2025-06-04 11:00,2025-06-04 11:00\nREC-B,2025-06-04 11:10,noon\n", "noon")]
    public void A_bad_row_is_refused_by_itself(string text, string why)
    {
        var (_, reports, facts) = PastCampaign.Imported(Register, ("more.csv", text));

        var report = Assert.Single(reports);
        Assert.Equal([RowSort.New, report.Outcomes[1].Question is null ? RowSort.Refused : RowSort.Questioned],
            report.Outcomes.Select(o => o.Sort));
        Assert.Contains(why, report.Outcomes[1].Text, StringComparison.Ordinal);
        Assert.Equal(1, facts);
        Assert.False(report.IsGood);
    }

    [Fact]
    public void Which_campaign_is_asked_once_where_two_can_be_meant()
    {
        var (register, _, _) = PastCampaign.Imported(Register, (
            "second.csv",
            "Campaign,First day,Last day,Time zone,UTC offset,Altitude [m],Source,Band from [Hz],Band to [Hz],Profile\n"
            + "Fen 25,2025-06-01,2025-06-30,Zone/Marsh,+02:00,20,propeller,20,10000,marsh-rules\n"));
        var file = ("more.csv", "Event,Start,End\nRun 8,2025-06-04 11:00,11:01\nRun 9,2025-06-04 12:00,12:01\n");

        var (_, asked, none) = PastCampaign.Imported(register, file);

        var question = Assert.Single(asked[0].Questions);
        Assert.Equal(("campaign", 2), (question.Key, question.Rows));
        Assert.Equal(["campaign := FEN-25", "campaign := MARSH-25"], question.Choices.Select(c => c.Rule));
        Assert.All(asked[0].Outcomes, o => Assert.Equal(RowSort.Questioned, o.Sort));
        Assert.Equal(0, none);

        var (after, answered, two) = PastCampaign.Imported(register, "campaign := FEN-25", file);
        Assert.True(answered[0].IsGood);
        Assert.Equal(2, two);
        Assert.Equal(2, EventBook.OfCampaign(after, "FEN-25").Count);
        // By its days alone the later event can be of one campaign only.
        Assert.True(PastCampaign.Imported(register, ("late.csv", "Event,Start,End\nRun 7,2025-06-20 11:00,11:01\n")).Reports[0].IsGood);
    }

    [Fact]
    public void Times_that_no_campaign_holds_are_asked_about()
    {
        var (_, reports, facts) = PastCampaign.Imported(Register, ("more.csv", "Event,Start,End\nRun 8,2025-07-04 11:00,11:01\n"));

        Assert.Equal("campaign := MARSH-25", Assert.Single(Assert.Single(reports[0].Questions).Choices).Rule);
        Assert.Equal(0, facts);
    }

    [Theory]
    [InlineData("2025-06-04 11:00", "", "2025-06-04T09:00:00.000Z")]
    [InlineData("2025-06-04T11:00Z", "", "2025-06-04T11:00:00.000Z")]
    [InlineData("2025-06-04 11:00+01:00", "", "2025-06-04T10:00:00.000Z")]
    [InlineData("4.6.2025 11.00 Uhr", "", "2025-06-04T09:00:00.000Z")]
    [InlineData("4 June 2025 1:05 pm", "", "2025-06-04T11:05:00.000Z")]
    [InlineData("04/06/2025 11:00", "dates := day-first", "2025-06-04T09:00:00.000Z")]
    [InlineData("2025-06-04 11:00", "times := utc", "2025-06-04T11:00:00.000Z")]
    public void Times_are_the_sites_unless_they_say_otherwise(string start, string rules, string at)
    {
        var (after, reports, _) = PastCampaign.Imported(Register, rules, [("more.csv", $"Event,Start,End\nRun 8,{start},23:00Z\n")]);

        Assert.True(reports[0].IsGood, string.Join(' ', reports[0].Outcomes));
        Assert.Equal(DateTimeOffset.Parse(at, System.Globalization.CultureInfo.InvariantCulture).ToUnixTimeMilliseconds(),
            EventBook.Find(after, "MARSH-25.RUN-8")!.StartMs);
    }

    [Fact]
    public void A_day_with_slashes_is_asked_about()
    {
        var (_, reports, _) = PastCampaign.Imported(Register, ("more.csv", "Event,Start,End\nRun 8,04/06/2025 11:00,11:01\n"));

        Assert.Contains("dates := day-first", reports[0].Questions.SelectMany(q => q.Choices).Select(c => c.Rule));
    }
}

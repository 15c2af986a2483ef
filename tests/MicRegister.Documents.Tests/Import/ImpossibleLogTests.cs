using MicRegister.Documents.Import;
using MicRegister.Register.Events;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Logs that cannot be as they are written.</summary>
public sealed class ImpossibleLogTests
{
    private const string Head = "Station,Time,Taken in,Microphone,Preamplifier,Channel\n";
    private const string Checks = "Station,Date,Calibrator,Time before,Before [dB],Time after,After [dB]\n";
    private const string CheckRows = "Station,Time,Calibrator,Moment,Reading [dB]\n";

    [Theory]
    [InlineData("S1,2025-06-03 07:00,2025-06-03 19:00,101,201,301\nS2,2025-06-03 08:00,2025-06-03 19:00,101,202,302\nS3,2025-06-03 07:00,,103,203,303\n", "2 3")]
    [InlineData("S1,2025-06-03 07:00,,101,201,301\nS2,2025-06-03 07:05,,101,202,302\nS3,2025-06-03 07:00,,103,203,303\n", "2 3")]
    [InlineData("S1,2025-06-03 07:00,2025-06-04 19:00,101,201,301\nS2,2025-06-04 08:00,,101,202,302\n", "2 3")]
    [InlineData("S1,2025-06-03 07:00,2025-06-03 12:00,101,201,301\nS2,2025-06-03 12:30,,101,201,301\n", "")] // moved at noon
    [InlineData("S1,2025-06-03 07:00,,101,201,301\nS2,2025-06-04 07:00,,101,201,301\n", "")] // moved overnight, without a word
    [InlineData("S1,2025-06-03 07:00,,101,201,301\nS1,2025-06-03 12:00,,103,201,301\nS2,2025-06-03 13:00,,101,202,302\n",
        "")] // another one stands there since
    public void A_microphone_at_two_stations_at_once_is_asked_about(string rows, string asked)
    {
        var report = Take(Head + rows, 4);

        Assert.Equal(asked, string.Join(' ', report.Outcomes.Where(o => o.Sort == RowSort.Questioned).Select(o => o.Row)));
        Assert.Equal(asked.Length == 0, report.IsGood);
        if (asked.Length > 0) Assert.Contains("stands at S2 too, by row 3", report.Outcomes[0].Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Checks + "S1,2025-06-03,501,18:00,94.02,07:40,93.98\nS2,2025-06-03,501,07:45,94.05,11:50,94.04\n", "2")]
    [InlineData(CheckRows + "S1,2025-06-03 18:00,501,before,94.02\nS2,2025-06-03 07:45,501,before,94.05\nS1,2025-06-03 07:40,501,after,93.98\n", "2 4")]
    [InlineData(CheckRows + "S1,2025-06-03 07:40,501,before,94.02\nS1,2025-06-03 18:00,501,after,93.98\n", "")]
    [InlineData(CheckRows + "S2,2025-06-03 11:50,501,after,94.02\nS2,2025-06-03 12:10,501,before,94.00\nS2,2025-06-03 18:00,501,after,93.98\n", "")] // the morning's is missing
    public void A_check_after_before_its_check_before_is_asked_about(string text, string asked)
    {
        var report = Take(text, 5);

        Assert.Equal(asked, string.Join(' ', report.Outcomes.Where(o => o.Sort == RowSort.Questioned).Select(o => o.Row)));
        Assert.Equal(asked.Length == 0, report.IsGood);
    }

    [Fact]
    public void A_duration_tells_the_end_and_is_not_asked_about()
    {
        var before = PastCampaign.Imported(null, PastCampaign.Files.Take(5)).Register;
        var (register, reports, _) = PastCampaign.Imported(before, ("e.csv",
            "Event,Start,Duration [s],Kind\nRun 1,2025-06-03 10:00:00,90,fly-over\n"));
        Assert.True(reports[0].IsGood, string.Join(' ', reports[0].Outcomes.Select(o => o.Text)));
        var run = Assert.Single(EventBook.OfCampaign(register, PastCampaign.C));
        Assert.Equal(90_000, run.StopMs - run.StartMs);

        var both = PastCampaign.Imported(before, ("e.csv",
            "Event,Start,End,Duration [s],Kind\nRun 1,2025-06-03 10:00:00,10:01:30,90,fly-over\n")).Reports[0];
        Assert.True(both.IsGood);
        Assert.Empty(both.Questions);
    }

    private static FileReport Take(string text, int files) =>
        PastCampaign.Imported(PastCampaign.Imported(null, PastCampaign.Files.Take(files)).Register, ("log.csv", text)).Reports[0];
}

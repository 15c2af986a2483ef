using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Of rows that contradict each other none is stored, whichever comes first; the others of the file are.</summary>
public sealed class TornRowTests
{
    private const string Head = "Kind,Model,Serial,Location,Status,Date,Sensitivity\n";

    [Theory]
    [InlineData("mic,A,7,Hall 1,,,\nmic,A,8,Van,,,\nmic,A,7,Hall 2,,,\n", "2 4", "8")]
    [InlineData("mic,A,7,,lost,,\nmic,A,8,Van,,,\nmic,A,7,,away,,\n", "2 4", "8")]
    [InlineData("mic,A,7,,,2025-03-01,12.5 mV/Pa\nmic,A,8,Van,,,\nmic,A,7,,,2025-03-01,12.9 mV/Pa\n", "2 4", "8")]
    [InlineData("mic,A,7,Hall 1,,,\nmic,A,7,Hall 2,,,\nmic,A,7,Hall 1,,,\nmic,A,8,Hall 1,,,\n", "2 3 4", "8")] // two against one
    [InlineData("mic,A,7,Hall 1,,,\nmic,A,7,Hall 2,,,\nmic,A,7,,,2025-03-01,12.5 mV/Pa\n", "2 3", "7")] // the third says nothing of it
    [InlineData("mic,A,7,Hall 1,,2024-03-01,12.5 mV/Pa\nmic,A,7,Hall 1,,2025-03-01,12.5 mV/Pa\n", "", "7")]
    [InlineData("mic,A,7,Hall 1,,2025-03-01,12.5 mV/Pa\nmic,A,7,Hall 1,,2025-03-01,12.5 mV/Pa\n", "", "7")] // one row twice
    public void Neither_row_is_stored(string rows, string aside, string stored)
    {
        var (register, report) = Take(Head + rows);

        Assert.Equal(aside, string.Join(' ', report.Outcomes.Where(o => o.Sort == RowSort.Questioned).Select(o => o.Row)));
        Assert.Equal(stored, string.Join(' ', register.DeviceIds.Select(id => register.Device(id)!.Serial)));
        Assert.Equal(rows.Count(c => c == '\n'), report.Rows);
        if (aside.Length == 0) return;
        Assert.All(register.DeviceIds.Select(id => register.Device(id)!), d => Assert.Equal(d.Serial == "8", d.Place is not null));
        Assert.All(report.Outcomes.Where(o => o.Sort == RowSort.Questioned).SkipLast(1).Take(1),
            o => Assert.Contains("contradicts it", o.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void What_the_register_holds_is_as_before_and_rows_of_other_files_stand()
    {
        var (before, _) = Take(Head + "mic,A,7,Hall 9,,,\n");

        var (after, report) = Take(Head + "mic,A,7,Hall 1,,2025-03-01,12.5 mV/Pa\nmic,A,7,Hall 2,,,\n", before);

        Assert.Equal(2, report.Count(RowSort.Questioned));
        Assert.Equal(before.Digest, after.Digest);
    }

    [Fact]
    public void The_facts_of_the_other_rows_are_those_of_a_list_without_the_contradiction()
    {
        const string Others = "mic,A,8,Van,lost,2025-03-01,12.5 mV/Pa\nmic,A,9,,,2025-03-02,12.6 mV/Pa\n";

        var (torn, _) = Take(Head + "mic,A,7,Hall 1,,,\n" + Others + "mic,A,7,Hall 2,,,\n");
        var (clean, _) = Take(Head + Others);

        Assert.Equal(clean.Digest, torn.Digest);
    }

    [Fact]
    public void A_row_that_somebody_looked_at_is_taken()
    {
        const string Own = "Kind,Model,Serial,Location,Why,Checked\n";

        Assert.Equal("Hall 2", Only(Take(Own + "mic,A,7,Hall 1,,\nmic,A,7,Hall 2,,yes\n")).Place);
        var (register, report) = Take(Own + "mic,A,7,Hall 1,,yes\nmic,A,7,Hall 2,,\n");
        Assert.Equal("Hall 1", Only((register, report)).Place);
        Assert.Equal([3], report.Outcomes.Where(o => o.Sort == RowSort.Questioned).Select(o => o.Row));
    }

    [Fact]
    public void Two_campaigns_of_one_name_two_limits_and_two_settings_are_both_put_aside()
    {
        var (register, report) = Take("Setting,Value\nlaboratory-days,21\nshipping-days,9\nlaboratory-days,22\n");
        Assert.Equal((2, 1), (report.Count(RowSort.Questioned), report.Count(RowSort.Changed)));
        Assert.Equal(9, register.State.Settings.ShippingDays);

        (register, report) = Take("Profile,Limit,Value,Text,Source\nown,drift-db,0.4,,x\nown,drift-db,0.5,,x\nown,check-deviation-db,0.3,,x\n");
        Assert.Equal("check-deviation-db", Assert.Single(register.Profile("own")!.Written.Limits).Key);
    }

    [Fact]
    public void Two_places_of_one_station_and_two_surveys_of_it_are_both_put_aside()
    {
        var campaign = PastCampaign.Imported(null, PastCampaign.Files.Take(3)).Register;

        var (register, reports, _) = PastCampaign.Imported(campaign, ("s.csv",
            "Station,Latitude,Longitude,Mount\nS1,53.001,10.001,flush\nS2,53.002,10.001,flush\nS1,53.005,10.001,flush\n"));
        Assert.Equal(2, reports[0].Count(RowSort.Questioned));
        Assert.Equal(["S2"], register.Campaign(PastCampaign.C)!.Stations.Keys);

        (register, reports, _) = PastCampaign.Imported(PastCampaign.Imported(null, PastCampaign.Files.Take(4)).Register, ("u.csv",
            "Station,Latitude,Longitude,Horizontal uncertainty [m],Method\nS1,53.0011,10.001,0.02,t\nS2,53.0021,10.001,0.02,t\nS1,53.0012,10.001,0.02,t\n"));
        Assert.Equal(2, reports[0].Count(RowSort.Questioned));
        Assert.Equal(["S2"], register.Campaign(PastCampaign.C)!.Surveys.Keys);
    }

    [Fact]
    public void Two_chains_at_one_station_and_time_are_both_put_aside()
    {
        var campaign = PastCampaign.Imported(null, PastCampaign.Files.Take(4)).Register;

        var (register, reports, _) = PastCampaign.Imported(campaign, ("p.csv",
            "Station,Time,Microphone,Preamplifier\nS1,2025-06-03 07:00,101,201\nS2,2025-06-03 07:00,102,202\nS1,2025-06-03 07:00,103,203\n"));

        Assert.Equal([2, 4], reports[0].Outcomes.Where(o => o.Sort == RowSort.Refused).Select(o => o.Row));
        Assert.Equal(["S2"], ArrayDeployment.Of(register, PastCampaign.C).Placements.Select(p => p.Station));
    }

    private static DeviceState Only((Register.Register Register, FileReport Report) taken) =>
        taken.Register.Device(Assert.Single(taken.Register.DeviceIds))!;

    private static (Register.Register Register, FileReport Report) Take(string text, Register.Register? into = null)
    {
        var register = into ?? Register.Register.Empty(new FactList());
        var session = new ImportSession(register, new(2026, 6, 1));
        var report = session.Take(
            new MemoryStream(Encoding.UTF8.GetBytes(text)), "list.csv", ImportMapping.None with { AsOf = new(2026, 6, 1) });
        Assert.Equal(session.Facts.Count, report.Facts);
        return (FactList.RegisterOf([.. Enumerable.Range(1, register.Count).Select(register.Source.Read), .. session.Facts]), report);
    }
}

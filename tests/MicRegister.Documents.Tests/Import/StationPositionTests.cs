using MicRegister.Documents.Import;
using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Tests.Import;

/// <summary>Positions that cannot be meant: a station far from the others, or on the spot of another one.</summary>
public sealed class StationPositionTests
{
    private const string Head = "Station,Latitude,Longitude,Mount,Height\n";
    private const string Three = Head + "S1,53.001,10.001,flush,\nS2,53.002,10.001,flush,\nS3,53.003,10.001,flush,\n";
    private const string SurveyHead = "Station,Latitude,Longitude,Horizontal uncertainty [m],Method\n";

    // On a sphere of 6371.009 km a degree of latitude is 111.19 km. Swapped: h = sin²(21.5°) (1 + cos 53° cos 10°) = 0.2139, which is 6127
    // km.
    // The sign: h = (cos 53° sin 10°)² = 0.01092, which is 1334 km.
    [Theory]
    [InlineData("S4,10.001,53.004,flush,", 6127, "latitude and longitude swapped it would lie among them")]
    [InlineData("S4,53.004,-10.001,flush,", 1334, "other sign of its longitude it would lie among them")]
    [InlineData("S4,-53.004,10.001,flush,", 11787, "other sign of its latitude it would lie among them")] // 106.004° of latitude
    [InlineData("S4,5.3004,10.001,flush,", 5304, "swapped would not put it among them")] // 47.7° of latitude
    public void A_station_far_from_the_others_is_asked_about_and_the_others_are_not(string row, int km, string mend)
    {
        var report = Take(Three + row + "\n").Report;

        var asked = Assert.Single(report.Outcomes, o => o.Sort != RowSort.New);
        Assert.Equal((RowSort.Questioned, 5), (asked.Sort, asked.Row));
        Assert.StartsWith("S4 lies ", asked.Text, StringComparison.Ordinal);
        Assert.Contains(" km from the median of the 3 other stations", asked.Text, StringComparison.Ordinal);
        Assert.Contains(mend, asked.Text, StringComparison.Ordinal);
        Assert.InRange(int.Parse(asked.Text.Split(' ')[2], System.Globalization.CultureInfo.InvariantCulture), km - 3, km + 3);
        Assert.Equal("far-stations", Assert.Single(report.Questions).Key);
    }

    [Fact]
    public void Swapped_positions_are_swapped_back_or_kept_as_somebody_says()
    {
        const string Text = Three + "S4,10.001,53.004,flush,\n";
        var asked = Assert.Single(Take(Text).Report.Questions);
        Assert.Equal(["far-stations := swap", "far-stations := keep"], asked.Choices.Select(c => asked.RuleOf(c)));

        var (register, swapped) = Take(Text, "far-stations := swap");
        Assert.True(swapped.IsGood);
        var s4 = register.Campaign(PastCampaign.C)!.Stations["S4"];
        Assert.Equal((53.004, 10.001), (s4.LatitudeDeg, s4.LongitudeDeg));
        Assert.Equal(53.001, register.Campaign(PastCampaign.C)!.Stations["S1"].LatitudeDeg);
        var (kept, report) = Take(Text, "far-stations := keep");
        Assert.True(report.IsGood);
        Assert.Equal(10.001, kept.Campaign(PastCampaign.C)!.Stations["S4"].LatitudeDeg);
        Assert.True(Take((Three + "S4,10.001,53.004,flush,\n").Replace("\n", ",,\n", StringComparison.Ordinal)
            .Replace("Height,,", "Height,Why,Checked", StringComparison.Ordinal)
            .Replace("S4,10.001,53.004,flush,,,", "S4,10.001,53.004,flush,,,yes", StringComparison.Ordinal)).Report.IsGood);
    }

    [Fact]
    public void A_swap_is_not_offered_where_it_would_not_mend_all() => Assert.Equal(
        ["far-stations := keep"],
        Assert.Single(Take(Three + "S4,10.001,53.004,flush,\nS5,5.3,10.001,flush,\n").Report.Questions).Choices.Select(c => c.Rule));

    [Fact]
    public void Two_stations_on_one_spot_are_asked_about()
    {
        const string Text = Three + "S4,53.0030000,10.0010001,flush,\n"; // 7 mm

        var report = Take(Text).Report;

        Assert.Equal([4, 5], report.Outcomes.Where(o => o.Sort == RowSort.Questioned).Select(o => o.Row));
        Assert.Contains("S4 stands on the spot of S3", report.Outcomes[^1].Text, StringComparison.Ordinal);
        Assert.Equal("one-spot", Assert.Single(report.Questions).Key);
        Assert.True(Take(Text, "one-spot := keep").Report.IsGood);
    }

    [Theory]
    [InlineData("S4,53.40,10.001,flush,")] // 44 km off: a wide campaign
    [InlineData("S4,53.00302,10.001,flush,")] // two metres apart
    [InlineData("S4,53.003,10.001,pole,")] // a pole beside the plate
    [InlineData("S4,53.003,10.001,flush,0.02")]
    public void What_can_be_meant_is_not_asked(string row) => Assert.True(Take(Three + row + "\n").Report.IsGood);

    [Fact]
    public void A_campaign_over_fifty_kilometres_is_not_asked() => Assert.True(
        Take(Head + "S1,53.0,10.0,flush,\nS2,53.2,10.3,flush,\nS3,53.4,10.1,pole,\nS4,53.1,10.7,flush,\n").Report.IsGood);

    [Fact]
    public void One_station_alone_is_not_asked_and_of_two_nobody_knows_which()
    {
        Assert.True(Take(Head + "S1,10.001,53.001,flush,\n").Report.IsGood);
        var two = Take(Head + "S1,10.001,53.001,flush,\nS2,53.002,10.001,flush,\n").Report;

        Assert.Equal(2, two.Count(RowSort.Questioned));
        Assert.Contains("km from S2", two.Outcomes[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Stations_of_the_register_count_among_the_others_and_what_it_holds_is_not_asked_again()
    {
        var (register, _) = Take(Three + "S4,10.001,53.004,flush,\n", "far-stations := keep");

        Assert.True(Take(Three + "S4,10.001,53.004,flush,\n", into: register).Report.IsGood);
        Assert.Equal(1, Take(Head + "S5,10.001,53.005,flush,\n", into: register).Report.Count(RowSort.Questioned));
        Assert.True(Take(Head + "S5,53.005,10.001,flush,\n", into: register).Report.IsGood);
    }

    [Fact]
    public void Surveys_are_asked_about_in_the_same_way()
    {
        var (register, _) = Take(Three);
        const string Swapped = SurveyHead + "S1,53.00101,10.00101,0.02,total station\nS2,10.00101,53.00201,0.02,total station\n";

        var report = Take(Swapped, into: register).Report;

        var asked = Assert.Single(report.Outcomes, o => o.Sort == RowSort.Questioned);
        Assert.Equal(3, asked.Row);
        Assert.Contains("swapped it would lie among them", asked.Text, StringComparison.Ordinal);
        var (mended, good) = Take(Swapped, "far-stations := swap", register);
        Assert.True(good.IsGood);
        Assert.Equal(53.00201, mended.Campaign(PastCampaign.C)!.Surveys["S2"].Said.LatitudeDeg);
        Assert.Equal(RowSort.AlreadyThere, Take(Swapped, "far-stations := swap", mended).Report.Outcomes[^1].Sort);
    }

    [Fact]
    public void A_survey_on_the_spot_of_another_station_is_asked_about()
    {
        var (register, _) = Take(Three);

        var report = Take(SurveyHead + "S2,53.001,10.001,0.02,total station\nS3,53.00301,10.001,0.02,total station\n", into: register)
            .Report;

        Assert.Equal("one-spot", Assert.Single(report.Questions).Key);
        Assert.Equal(1, report.Count(RowSort.New));
    }

    private static (Register.Register Register, FileReport Report) Take(string text, string rules = "", Register.Register? into = null)
    {
        var register = into ?? PastCampaign.Imported(null, PastCampaign.Files.Take(3)).Register;
        var (after, reports, _) = PastCampaign.Imported(register, rules, ("stations.csv", text));
        return (after, reports[0]);
    }
}

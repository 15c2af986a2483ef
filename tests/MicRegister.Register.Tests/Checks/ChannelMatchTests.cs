using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Checks;

public sealed class ChannelMatchTests
{
    [Theory]
    [InlineData("C01_2026-07-02.wav", "", 2, 8, "S2")] // the file names the recorder
    [InlineData("take7.wav", "C02", 1, 8, "S3")] // the recorder names itself
    [InlineData("S3.wav", "", 1, 1, "S3")] // a file of one channel is named after the station
    [InlineData("morning-s2-before.wav", "", 1, 1, "S2")]
    [InlineData("C01-1.wav", "", 1, 1, "S1")] // or after the channel
    [InlineData("east.wav", "East tower", 4, 8, "S4")] // as its entry says, whatever its serial number is
    [InlineData("C01.wav", "", 7, 8, null)]
    [InlineData("take7.wav", "", 1, 8, null)]
    [InlineData("C01 and C02.wav", "", 1, 8, null)]
    public void A_channel_finds_its_chain(string file, string recorder, int channel, int channels, string? station)
    {
        var matched = Assert.Single(Match([new(file, recorder, channel, channels)]));

        Assert.Equal(station, matched.Station);
        Assert.NotEmpty(matched.Why);
    }

    [Fact]
    public void A_mapping_comes_before_what_entries_say()
    {
        var matched = Match([new("C01.wav", "", 1, 2), new("C01.wav", "", 2, 2)], new ChannelMapping("C01", 1, "S4"), new ChannelMapping("", 2, "nowhere"));

        Assert.Equal(["S4", null], matched.Select(m => m.Station));
        Assert.Contains("no station", matched[1].Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_channels_never_stand_for_one_station()
    {
        var matched = Match([new("C01.wav", "", 1, 8), new("C01 again.wav", "", 1, 8), new("C01.wav", "", 2, 8)]);

        Assert.Equal([null, null, "S2"], matched.Select(m => m.Station));
        Assert.Contains("2 channels would be S1", matched[0].Why, StringComparison.Ordinal);
    }

    private static IReadOnlyList<MatchedChannel> Match(RecordedChannel[] recorded, params ChannelMapping[] mappings)
    {
        var facts = new List<Fact> { Make.Of(new CampaignPlanned("Trial", new(2026, 7, 1), new(2026, 7, 12), "Zone/Site", [], "Field", 100, SourceClass.Jet, 50, 10000, null, null, "engineering-practice", 1, 0), "2026-05-02", "campaign:C1") };
        foreach (var (i, serial) in new[] { (1, "C01-1"), (2, "C01-2"), (3, "C02-1"), (4, "X9") })
        {
            facts.Add(i == 4 ? Make.Registered("R4", serial, "recorder-channel", ("recorder", "East tower"), ("channel-number", 4)) : Make.Registered("R" + i, serial, "recorder-channel"));
            facts.Add(Make.Of(new StationPlanned("S" + i, 40, -8, Mount.FlushPlate, null), "2026-05-02", i, "campaign:C1"));
            facts.Add(Make.Of(new ChainPlanned("S" + i, ["R" + i]), "2026-05-03", i, "campaign:C1", "device:R" + i));
        }
        var register = FactList.RegisterOf(facts);
        return ChannelMatch.Of(register, register.Campaign("C1")!, recorded, mappings);
    }
}

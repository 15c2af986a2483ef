using MicRegister.Register.Readiness;
using MicRegister.Server.Pages.Shell;

namespace MicRegister.Server.Tests.Pages;

/// <summary>From wherever a finding is told, one act leads to where it is cleared.</summary>
public sealed class WhatClearsTests
{
    [Theory]
    [InlineData(Clearing.Calibrate, "bench?device=M%2F1", "enter its result")]
    [InlineData(Clearing.Inspect, "devices/M%2F1/where-it-was?enter=inspection", "inspect")]
    [InlineData(Clearing.Enter, "devices/M%2F1#certificates", "enter what is missing")]
    [InlineData(Clearing.Decide, "devices/M%2F1", "decide")]
    [InlineData(Clearing.Swap, "campaigns/C%201?station=S%2601", "try a spare")]
    [InlineData(Clearing.Plan, "plan/C%201?station=S%2601#station-S%2601", "change the plan")]
    public void Of_a_device_at_a_station(Clearing clearing, string address, string act)
    {
        var finding = Of(clearing, "M/1", "S&01");

        Assert.Equal((address, act), (WhatClears.Address(finding, "C 1"), WhatClears.Act(finding)));
    }

    [Theory]
    [InlineData(Clearing.Calibrate, "bench?device=M%2F1", "enter its result")]
    [InlineData(Clearing.Swap, "plan/C%201", "change the plan")]
    [InlineData(Clearing.Plan, "plan/C%201", "change the plan")]
    public void Of_a_device_that_stands_nowhere(Clearing clearing, string address, string act)
    {
        var finding = Of(clearing, "M/1", null);

        Assert.Equal((address, act), (WhatClears.Address(finding, "C 1"), WhatClears.Act(finding)));
    }

    // Nobody can calibrate, look at or decide about no device: the plan's row is where something can be done.
    [Theory]
    [InlineData(Clearing.Calibrate)]
    [InlineData(Clearing.Inspect)]
    [InlineData(Clearing.Enter)]
    [InlineData(Clearing.Decide)]
    [InlineData(Clearing.Plan)]
    public void Of_a_station_without_a_device_it_is_the_plans_row(Clearing clearing)
    {
        var (station, campaign) = (Of(clearing, null, "S1"), Of(clearing, null, null));

        Assert.Equal(("plan/C?station=S1#station-S1", "change the plan"), (WhatClears.Address(station, "C"), WhatClears.Act(station)));
        Assert.Equal(("plan/C", "change the plan"), (WhatClears.Address(campaign, "C"), WhatClears.Act(campaign)));
    }

    [Fact]
    public void All_that_are_cleared_alike_have_a_place_of_their_own()
    {
        Assert.Equal("campaigns/C%201#to-calibrate", WhatClears.Group(Clearing.Calibrate, "C 1"));
        var anchors = Enum.GetValues<Clearing>().Select(WhatClears.Anchor).ToList();
        Assert.Equal(anchors.Count, anchors.Distinct().Count());
    }

    private static Finding Of(Clearing clearing, string? device, string? station) =>
        new("due", Gravity.Stops, device, device, station, new(2026, 7, 1), "It is due.", [], clearing, null, false);
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// Where an inverted capsule sits over its plate: at 3/4 of the radius of a plate of 400 mm, 150 mm from its centre, and 10 mm off at most.
/// </summary>
public sealed class CapsulePlaceTests
{
    [Theory]
    [InlineData(400.0, 160.0, null)]
    [InlineData(400.0, 160.1, Gravity.Stops)]
    [InlineData(400.0, 140.0, null)]
    [InlineData(400.0, 139.9, Gravity.Stops)]
    [InlineData(400.0, 0.0, Gravity.Stops)]
    [InlineData(400.0, null, Gravity.Note)]
    [InlineData(null, 150.0, Gravity.Note)]
    public void It_may_sit_too_far_in_as_well_as_too_far_out(double? diameterMm, double? offsetMm, Gravity? gravity)
    {
        List<(string, object)> details = [];
        if (diameterMm is { } diameter) details.Add(("diameter-mm", diameter));
        if (offsetMm is { } offset) details.Add(("capsule-offset-mm", offset));
        var register = FactList.RegisterOf([Make.Registered("G1", "41", "ground-plate", [.. details])]);
        ProfileLimit[] limits =
            [new(LimitKey.CapsuleShare, 0.75, null, "invented", "own"), new(LimitKey.CapsuleToleranceMm, 10, null, "invented", "own")];
        var chain = new StandingChain(
            new("S1", new StationPlanned("S1", 53, 1, Mount.InvertedPlate, null), [register.Device("G1")!]),
            (CampaignPlanned)Heath.Planned().Body, new("own", new("Own", "Invented.", limits), null, false), id => id);

        var faults = ChainLimitRules.CapsulePlace(chain).ToList();

        Assert.Equal(gravity, faults.Count == 0 ? null : Assert.Single(faults).Gravity);
        if (gravity == Gravity.Stops) Assert.Equal((offsetMm, 150.0), (faults[0].Figures[0].Value, faults[0].Figures[1].Value));
    }
}

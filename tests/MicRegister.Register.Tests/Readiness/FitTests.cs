using MicRegister.Register.Campaigns;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// What suits what: diameters of one size (0.2 mm apart at most), response types and mounts (common practice, no source).
/// </summary>
public sealed class FitTests
{
    [Theory]
    [InlineData(12.7, 12.7, true)]
    [InlineData(12.7, 12.9, true)] // as doubles they lie 0.2000000000000018 apart
    [InlineData(12.7, 12.5, true)]
    [InlineData(12.7, 12.91, false)]
    [InlineData(12.7, 12.49, false)]
    [InlineData(12.7, 14.2, false)] // a bore that a capsule rattles in
    [InlineData(12.7, 9.8, false)]
    [InlineData(12.7, 6.35, false)]
    public void A_capsule_fits_its_partners_to_a_fifth_of_a_millimetre(double sizeMm, double fitsMm, bool doesFit)
    {
        (string Device, string Field, string Rule)[] partners =
            [("G1", "fits-mm", "parts-fit"), ("P1", "size-mm", "parts-fit"), ("K1", "fits-mm", "calibrator-fit")];
        foreach (var (device, field, rule) in partners)
        {
            var (one, other) = (ReadinessTests.Described("M1", ("size-mm", sizeMm)), ReadinessTests.Described(device, (field, fitsMm)));

            var report = ReadinessTests.Judge([.. ReadinessTests.Sound(), one, other]);

            Assert.Equal(doesFit, report.Findings.All(f => f.Rule != rule));
        }
    }

    // On a stand sound grazes, where a pressure type serves as well; on a pole it does not, and in or over a plate a free-field type never
    // does.
    [Theory]
    [InlineData(Mount.Pole, "free-field", null)]
    [InlineData(Mount.Pole, "pressure", Gravity.Stops)]
    [InlineData(Mount.Pole, "diffuse", Gravity.Stops)]
    [InlineData(Mount.GroundStand, "free-field", null)]
    [InlineData(Mount.GroundStand, "pressure", null)]
    [InlineData(Mount.GroundStand, "diffuse", Gravity.Stops)]
    [InlineData(Mount.FlushPlate, "pressure", null)]
    [InlineData(Mount.FlushPlate, "free-field", Gravity.Stops)]
    [InlineData(Mount.InvertedPlate, "pressure", null)]
    [InlineData(Mount.InvertedPlate, "free-field", Gravity.Stops)]
    public void A_response_type_suits_its_mount(Mount mount, string type, Gravity? gravity)
    {
        var described = ReadinessTests.Described("M1", ("response-type", type));

        var report = ReadinessTests.Judge([.. ReadinessTests.Sound("engineering-practice", mount), described]);

        Assert.Equal(gravity, report.Findings.SingleOrDefault(f => f.Rule == "response-type" && f.Device == "M1")?.Gravity);
    }
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Checks;

/// <summary>
/// The calibrator's level for the pressure and temperature of the test day, from the maker's data (14 CFR 36, A36.3.9.7, 2021 edition):
/// what was not read makes doubtful where the profile asks for it; a coefficient that nobody stored is said and never applied.
/// </summary>
public sealed class CheckAirTests
{
    [Theory]
    [InlineData("pressure, temperature", 99.5, 20.0, null)]
    [InlineData("pressure, temperature", 99.5, null, "no temperature of the day")]
    [InlineData("pressure, temperature", null, 20.0, "no static pressure of the day")]
    [InlineData("pressure, temperature", null, null, "no static pressure and no temperature of the day")]
    [InlineData("temperature", null, 20.0, null)]
    [InlineData("pressure", 99.5, null, null)]
    public void What_the_profile_asks_for_and_nobody_read_makes_doubtful(string asked, double? kPa, double? celsius, string? says)
    {
        var air = new StatedAir(kPa, celsius, null);
        Fact[] facts = [Heath.WrittenWords(LimitKey.CheckAir, asked), .. Stored, .. Heath.Flight(airBefore: air, airAfter: air)];
        // Worked out by the coefficient, 0 dB/K.
        facts = [.. facts[..2], facts[2], Again(facts[3], facts), facts[4], Again(facts[5], facts)];
        var trace = Heath.One(Heath.With(facts));

        var reasons = trace.Reasons.Where(r => r.Question == "check-air").ToList();

        Assert.Equal(says is null ? 0 : 2, reasons.Count);
        Assert.All(reasons, r => Assert.Equal(TraceVerdict.Doubtful, r.Weight));
        Assert.All(reasons, r => Assert.Contains(says!, r.Text, StringComparison.Ordinal));
        var found = CampaignReadiness.Judge(Heath.With(facts), Heath.C, new(2026, 6, 3))!.Findings
            .Where(f => f.Rule == "check-air" && f.Gravity == Gravity.Risks).ToList();
        Assert.Equal(says is null ? 0 : 1, found.Count);
        Assert.All(found, f => Assert.Contains(says + " was read", f.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void A_coefficient_that_nobody_stored_is_said_without_weight_and_not_applied()
    {
        var air = new StatedAir(99.5, 30, null);
        var register = Heath.With(
            [Heath.WrittenWords(LimitKey.CheckAir, "pressure, temperature"), .. Heath.Flight(airBefore: air, airAfter: air)]);

        var trace = Heath.One(register);

        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        Assert.Equal(2, trace.Reasons.Count);
        const string said = "no maker's coefficient of temperature was stored; nothing is added";
        Assert.All(trace.Reasons, r => Assert.Contains(said, r.Text, StringComparison.Ordinal));
        Assert.Equal(94.00, trace.Before!.Check.CalibratorDb, 1e-9);
    }

    // 94.00 dB at 23 °C and 0.01 dB/K: 94.07 dB at 30 °C.
    [Fact]
    public void A_coefficient_that_is_stored_is_applied_and_nothing_is_said()
    {
        var coefficient = Heath.Described("K1", ("temperature-db-per-k", 0.01));
        var entry = new CheckEntry
        {
            Campaign = Heath.C,
            Station = "S1",
            At = "2026-06-02T06:30:00.000Z",
            Moment = CheckMoment.Before,
            Devices = Heath.Chain("S1"),
            Calibrator = "K1",
            Readings = [0.0125],
            Air = new(99.5, 30, null),
        };
        var register = Heath.With(coefficient, Heath.WrittenWords(LimitKey.CheckAir, "pressure, temperature"));

        var check = ((Result<ChainChecked>.Accepted)CheckWork.Out(register, entry)).Value;

        Assert.Equal(94.07, check.CalibratorDb, 1e-9);
        Assert.Null(CheckAir.Of(register, register.Profile(Heath.Rules), check));
        Assert.Contains(
            "not worked out for the temperature",
            CheckAir.Of(register, register.Profile(Heath.Rules), check with { CalibratorTerms = [] }), StringComparison.Ordinal);
        Assert.Equal(
            "No temperature of the day was read, which the profile asks for the calibrator's level.",
            CheckAir.Of(register, register.Profile(Heath.Rules), check with { Air = new(99.5, null, null) }));
        Assert.Null(CheckAir.Of(register, null, check with { Air = null }));
    }

    [Fact]
    public void A_pressure_from_the_altitude_is_none_of_the_day()
    {
        var check = Make.Check("S1", CheckMoment.Before, 0, "M1");
        var profile = BuiltInProfiles.Find("transport-1200mm");

        Assert.Empty(CheckAir.Unread(profile, check));
        Assert.Equal(["static pressure"], CheckAir.Unread(profile, check with { PressureIsEstimated = true }));
        Assert.Equal(["static pressure", "temperature"], CheckAir.Unread(profile, check with { Air = null }));
        Assert.Empty(CheckAir.Unread(BuiltInProfiles.Find("small-unmanned-flush"), check with { Air = null }));
    }

    private static readonly Fact[] Stored = [Heath.Described("K1", ("temperature-db-per-k", 0))];

    private static Fact Again(Fact check, Fact[] facts)
    {
        var body = (ChainChecked)check.Body;
        var entry = new CheckEntry
        {
            Campaign = Heath.C,
            Station = "S1",
            At = check.Occurred.ToString(),
            Moment = body.Moment,
            Devices = body.Devices,
            Calibrator = "K1",
            Readings = body.Readings,
            Air = body.Air,
        };
        var answer = ((Result<ChainChecked>.Accepted)CheckWork.Out(Heath.With(facts[..2]), entry)).Value;
        return FactText.WriteDerived(new(check.Occurred, "P1", "phone-1.ABCD", 3), answer, check.Subjects);
    }
}

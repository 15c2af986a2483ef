using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Checks;

public sealed class UnreadAirTests
{
    [Theory]
    [InlineData(null, null, "No static pressure and no temperature was read, which the microphone follows:", "101.325 kPa, 23 °C,")]
    [InlineData(100.0, null, "No temperature was read, which the microphone follows:", "23 °C,")]
    [InlineData(null, 18.0, "No static pressure was read, which the microphone follows:", "101.325 kPa,")]
    [InlineData(100.0, 18.0, null, null)]
    public void What_the_microphone_follows_and_nobody_read_is_said(double? pressureKPa, double? temperatureC, string? says, string? taken)
    {
        var register = Heath.With(Heath.Described("M1", ("temperature-db-per-k", -0.02), ("pressure-db-per-kpa", 0.01)));

        var text = Said(register, new StatedAir(pressureKPa, temperatureC, null));
        if (says is null) Assert.Null(text);
        else Assert.StartsWith($"{says} what its certificates let expect holds for {taken}", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_what_it_does_not_follow_nothing_is_said()
    {
        Assert.Null(Said(Heath.With(), null));
        Assert.Null(Said(Heath.With(Heath.Described("M1", ("temperature-db-per-k", 0))), null));
        var humid = Heath.With(Heath.Described("M1", ("humidity-db-per-percent", 0.001)));
        Assert.StartsWith("No humidity was read", Said(humid, null), StringComparison.Ordinal);
    }

    [Fact]
    public void A_pressure_that_was_estimated_from_the_altitude_was_taken()
    {
        var register = Heath.With(Heath.Described("M1", ("pressure-db-per-kpa", 0.01)));
        var check = (ChainChecked)Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16, on: register).Body;

        Assert.NotNull(UnreadAir.Of(register, check));
        Assert.Null(UnreadAir.Of(register, check with { PressureIsEstimated = true }));
        Assert.Null(UnreadAir.Of(register, check with { ExpectedTerms = [] }));
    }

    private static string? Said(Register register, StatedAir? air) => UnreadAir.Of(
        register, (ChainChecked)Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16, air: air, on: register).Body);
}

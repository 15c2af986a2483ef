using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>One device on one day, as the phone shows it.</summary>
public sealed class DeviceOnDayTests
{
    private static readonly DateOnly LastDay = Make.Day("2026-07-10");

    // The microphone's certificate is of 1 March 2026 and the profile asks for 24 months: 1 March 2028 is the last good day.
    [Theory]
    [InlineData("2028-03-01", true)]
    [InlineData("2028-03-02", false)]
    public void A_device_is_in_date_through_its_due_day(string day, bool isInDate)
    {
        var on = Of("M1", Make.Day(day));

        Assert.Equal(isInDate, !on.Why.Contains("valid through 2028-03-01", StringComparison.Ordinal));
        if (!isInDate) Assert.Equal(ReadinessVerdict.NotReady, on.Verdict);
    }

    [Theory]
    [InlineData(DeviceStatus.Away, "it is away")]
    [InlineData(DeviceStatus.Lost, "it is lost")]
    [InlineData(DeviceStatus.Retired, "it is retired")]
    [InlineData(DeviceStatus.OutOfService, "it is out of service")]
    public void What_is_not_in_service_is_not_ready(DeviceStatus status, string why) => Assert.Equal(
        new DeviceOnDay(ReadinessVerdict.NotReady, why),
        Of("M1", LastDay, Make.Of(new DeviceStatusChanged(status, null), "2026-05-01", "device:M1")));

    [Fact]
    public void Quiet_devices_are_ready_and_what_is_not_calibrated_need_not_be()
    {
        Assert.Equal(new DeviceOnDay(ReadinessVerdict.Ready, ""), Of("M1", LastDay));
        Assert.Equal(new DeviceOnDay(ReadinessVerdict.Ready, ""), Of("G1", LastDay)); // plates have no calibration
        Assert.Equal(
            new DeviceOnDay(ReadinessVerdict.NotReady, "it has no sensitivity calibration"),
            Of("M9", LastDay, Make.Registered("M9", "19")));
        // Where no profile asks for a calibration, none is missed.
        var register = FactList.RegisterOf([Make.Registered("M9", "19")]);
        var asksNothing = new ProfileState("none", new("None", "", []), null, false);
        var on = DeviceOnDay.Judge(register.Drift(LastDay), register.Device("M9")!, asksNothing, LastDay);
        Assert.Equal(ReadinessVerdict.Ready, on.Verdict);
    }

    // Work on the day of the certificate went before it; work on the day after ends it.
    [Theory]
    [InlineData("2026-03-01", true)]
    [InlineData("2026-03-02", false)]
    public void Work_that_begins_anew_ends_an_older_certificate(string day, bool isReady)
    {
        var on = Of("M1", LastDay, Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), day, "device:M1"));

        Assert.Equal(isReady, !on.Why.Contains("begin anew", StringComparison.Ordinal));
        var repaired = Make.Of(new DeviceServiced(ServiceKind.Repair, "x", true), day, "device:M1");
        var report = ReadinessTests.Judge([.. ReadinessTests.Sound(), repaired]);
        Assert.Equal(isReady, report.Findings.All(f => f.Rule != "begun-anew"));
        var cleaned = Make.Of(new DeviceServiced(ServiceKind.Repair, "cleaned", false), day, "device:M1");
        Assert.DoesNotContain("begin anew", Of("M1", LastDay, cleaned).Why, StringComparison.Ordinal);
    }

    // One result with U = 0.4 dB lies within 0.3 dB with about 0.79, one with U = 1.6 dB with about 0.3: 0.95 is asked, 0.5 stops.
    [Theory]
    [InlineData(0.4, ReadinessVerdict.AtRisk)]
    [InlineData(1.6, ReadinessVerdict.NotReady)]
    public void A_forecast_under_what_is_asked_is_a_risk_and_under_one_half_it_stops(double expanded, ReadinessVerdict verdict)
    {
        var fine = Make.Certificate("R1", "2026-02-01", 0, 0.04, "gain", "dB");
        Fact[] coarse = [Make.Annulling(fine), Make.Certificate("R1", "2026-02-02", 0, expanded, "gain", "dB")];

        var on = Of("R1", LastDay, coarse);

        Assert.Equal(verdict, on.Verdict);
        Assert.StartsWith("it stays within its limit with probability 0.", on.Why, StringComparison.Ordinal);
        var finding = Assert.Single(ReadinessTests.Judge([.. ReadinessTests.Sound(), .. coarse]).Findings, f => f.Rule == "forecast");
        Assert.Equal(verdict == ReadinessVerdict.AtRisk ? Gravity.Risks : Gravity.Stops, finding.Gravity);
    }

    private static DeviceOnDay Of(string device, DateOnly day, params Fact[] more)
    {
        var register = FactList.RegisterOf([.. ReadinessTests.Sound(), .. more]);
        var profile = BuiltInProfiles.Find("small-unmanned-flush")!;
        return DeviceOnDay.Judge(register.Drift(Make.Day("2026-06-01")), register.Device(device)!, profile, day);
    }
}

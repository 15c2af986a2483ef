using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Tests;

/// <summary>One event over the demo's first station, worked out by hand from the figures that its certificates print.</summary>
public sealed class DemoTraceTests
{
    private const string C = "QUILLMERE-26";
    private const double PressureKPa = 99.8, BeforeV = 0.3960, AfterV = 0.3920, RangeV = 10;

    [Fact]
    public async Task An_event_over_the_demo_is_traced_figure_by_figure()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var demo = server.Live.Now;
        List<string> chain = [.. demo.Campaign(C)!.Chains["S01"]];
        var calibrator = demo.DeviceIds.Select(id => demo.Device(id)!).Single(d => d.Kind == "sound-calibrator" && d.Serial == "K501").Id;
        var (microphone, preamplifier, channel) = (Part(demo, chain, "microphone"), Part(demo, chain, "preamplifier"), Part(demo, chain, "recorder-channel"));

        await Store(server, _ => [Said("2026-09-02T07:00:00.000Z", 1, new ChainPlaced("S01", chain, [], null, true, null, RangeV, null, [], null), [Subject.Campaign(C), .. chain.Select(Subject.Device)])]);
        await Store(server, r => Checked(r, calibrator, CheckMoment.Before, BeforeV, "2026-09-02T07:30:00.000Z"));
        await Store(server, r => Checked(r, calibrator, CheckMoment.After, AfterV, "2026-09-02T16:00:00.000Z"));
        await Store(server, _ => [Said("2026-09-02T10:00:00.000Z", 2, new EventHappened("Pass 1", "2026-09-02T10:00:00.000Z", "2026-09-02T10:01:30.000Z", EventKind.FlyOver, "multirotor", [], null), [Subject.Event("PASS-1"), Subject.Campaign(C)])]);

        var trace = Assert.Single(Tracer.Of(server.Live.Now, "PASS-1", "S01")!.Stations);

        // Calibrator: the newest certificate says 124.01 dB at 101.325 kPa, U = 0.10 dB at k = 2.
        var (certified, certifiedU, certifiedK) = Newest(demo, calibrator);
        Assert.Equal((124.01, 0.10, 2.0), (certified, certifiedU, certifiedK));
        // A pistonphone follows static pressure: 20 lg(99.8 / 101.325) = -0.1317 dB.
        var levelDb = certified + (20 * Math.Log10(PressureKPa / 101.325));
        Assert.Equal(123.8783, levelDb, 1e-4);
        // Its sound pressure in Pa: 20 µPa · 10^(L/20), about 31.3 Pa.
        var pascal = 20e-6 * Math.Pow(10, levelDb / 20);
        // The chain in V/Pa, as read before and after, and as levels re 1 V/Pa.
        var (beforeDb, afterDb) = (20 * Math.Log10(BeforeV / pascal), 20 * Math.Log10(AfterV / pascal));
        // Applied is the mean of both levels; checks are stored to 1e-6 dB.
        var voltsDb = (beforeDb + afterDb) / 2;
        var applied = trace.Applied!;
        Assert.Equal(SensitivityRule.MeanOfChecks, applied.Rule);
        Assert.Equal(beforeDb, trace.Before!.Check.SensitivityDb!.Value, 1e-6);
        Assert.Equal(afterDb, trace.After!.Check.SensitivityDb!.Value, 1e-6);
        Assert.Equal(voltsDb, applied.VoltsDb, 1e-6);
        // Mean of levels: the geometric mean of both voltages over the pressure.
        Assert.Equal(Math.Sqrt(BeforeV * AfterV) / pascal, applied.VoltsPerPascal, 2e-9);

        // Full scale: the channel's gain by its certificate, and 10 V peak are 20 dB.
        var (gainDb, _, _) = Newest(demo, channel);
        Assert.Equal(voltsDb + gainDb - 20, applied.FullScaleDb!.Value, 2e-6);

        // The certificates let expect the microphone's mV/Pa as a level and the preamplifier's gain.
        var (millivolts, _, _) = Newest(demo, microphone);
        var expectedDb = (20 * Math.Log10(millivolts / 1000)) + Newest(demo, preamplifier).Value;
        Assert.Equal(beforeDb - expectedDb, trace.Before.Check.DeviationDb!.Value, 2e-6);

        // Uncertainty, in dB. Certificate 0.10 / 2, the same in both checks: whole.
        var ofCertificate = certifiedU / certifiedK;
        // Barometer 0.05 kPa, the same in both: d(20 lg p)/dp = 20 / ln 10 / p dB a kPa.
        var ofBarometer = 0.05 * 20 / Math.Log(10) / PressureKPa;
        // One insertion a check, 0.03 dB assumed: half of each in a mean, and they are not the same.
        var ofInsertions = Math.Sqrt((0.015 * 0.015) + (0.015 * 0.015));
        // The change between the checks may have happened at any time: half of it either way, rectangular.
        var ofChange = Math.Abs(afterDb - beforeDb) / 2 / Math.Sqrt(3);
        // The profile lets the mount lose 1 dB over the band: rectangular as well.
        var ofMount = 1 / Math.Sqrt(3);
        var standard = Math.Sqrt((ofCertificate * ofCertificate) + (ofBarometer * ofBarometer) + (ofInsertions * ofInsertions) + (ofChange * ofChange) + (ofMount * ofMount));
        Assert.Equal(standard, applied.StandardDb, 1e-6);
        // k for 95.45 % of a normal distribution is 2.
        Assert.Equal(2 * standard, applied.ExpandedDb, 1e-5);

        // Flush in a plate: twice the pressure, 20 lg 2 = 6.0206 dB, up to 20 kHz; the capsule reaches down to 10 Hz.
        Assert.Equal(-6.0206, applied.NormalisationDb, 1e-5);
        Assert.Equal((10.0, 20_000.0), (applied.UsableFromHz, applied.UsableToHz));

        // Each certificate is the newest up to that day.
        foreach (var device in new[] { microphone, preamplifier, channel, calibrator })
            Assert.Equal(Certificate(demo, device).Fact, Assert.Single(trace.Links, l => l.Device.Id == device).Certificate!.Fact);

        // The voltages were chosen so that the chain lies within 0.3 dB of its certificates and moved by 0.09 dB.
        Assert.Empty(trace.Reasons);
        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
    }

    private static async Task Store(ServerUnderTest server, Func<Register.Register, IReadOnlyList<Fact>> say)
    {
        var answer = await server.Live.Submit(r => new Result<IReadOnlyList<Fact>>.Accepted(say(r)), "test", TestContext.Current.CancellationToken);
        Assert.All(Assert.IsType<Result<IReadOnlyList<AppendOutcome>>.Accepted>(answer).Value, o => Assert.Equal(AppendResult.Stored, o.Result));
    }

    private static IReadOnlyList<Fact> Checked(Register.Register register, string calibrator, CheckMoment moment, double volts, string at)
    {
        var entry = new CheckEntry { Campaign = C, Station = "S01", At = at, Moment = moment, Calibrator = calibrator, Readings = [volts], RangeV = RangeV, Air = new(PressureKPa, null, null) };
        return Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(CheckDecisions.Record(register, new(new(Occurred.On(new(2026, 9, 2)), "P1", "desk", 3)), [entry], new(2026, 9, 2))).Value;
    }

    private static Fact Said(string at, int counter, FactBody body, IReadOnlyList<string> subjects) =>
        FactText.WriteDerived(new(Occurred.TryParse(at, out var occurred) ? occurred : default, "P1", "phone-1.ABCD", counter), body, subjects);

    private static string Part(Register.Register register, List<string> chain, string kind) => chain.Single(id => register.Device(id)!.Kind == kind);

    private static (double Value, double Expanded, double CoverageFactor) Newest(Register.Register register, string device)
    {
        var result = Assert.Single(Certificate(register, device).Issued.Results);
        return (result.Value, result.ExpandedUncertainty ?? 0, result.CoverageFactor ?? 2);
    }

    private static DeviceCertificate Certificate(Register.Register register, string device)
    {
        var state = register.Device(device)!;
        return state.Certificates.Where(c => !c.IsAnnulled && c.Day <= new DateOnly(2026, 9, 2) && c.Issued.Quantity == DeviceKind.Find(state.Kind)!.Calibrated).MaxBy(c => c.Day)!;
    }
}

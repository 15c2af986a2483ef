using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Tests.Recompute;

/// <summary>Two passes over all stations of the demo's campaign, with checks in the morning and in the evening. Stored nowhere.</summary>
internal static class DemoFlights
{
    public const string C = "QUILLMERE-26";
    public const string Morning = "PASS-1", Noon = "PASS-2";

    /// <summary>The demo's register, and what was flown.</summary>
    public static Register.Register Over(Register.Register demo)
    {
        string Calibrator(string serial) =>
            demo.DeviceIds.Single(id => demo.Device(id) is { Kind: "sound-calibrator" } d && d.Serial == serial);
        var (pistonphone, other) = (Calibrator("K501"), Calibrator("K503"));
        var facts = new List<Fact>();
        var counter = 0;
        foreach (var (station, devices) in demo.Campaign(C)!.Chains)
        {
            string[] chain = [.. devices];
            var number = counter / 3;
            var isRecorded = number % 4 == 3;
            var placed = new ChainPlaced(station, chain, [], null, true, null, number % 3 == 0 ? null : 10, null, [], null);
            facts.Add(Said("07:00", counter++, placed, [Subject.Campaign(C), .. chain.Select(Subject.Device)]));
            var checks = new[] { ("07:30", CheckMoment.Before, 0.396), ("16:00", CheckMoment.After, 0.3955 - (0.0001 * number)) };
            foreach (var (at, moment, volts) in checks)
            {
                var calibrator = number % 5 == 4 && moment == CheckMoment.After ? other : pistonphone;
                var reading = (calibrator == other ? volts / 31.6 : volts) / (isRecorded ? 10 : 1);
                var entry = new CheckEntry
                {
                    Campaign = C,
                    Station = station,
                    At = $"2026-09-02T{at}:00.000Z",
                    Moment = moment,
                    Devices = chain,
                    Calibrator = calibrator,
                    Method = isRecorded ? CheckMethod.Recording : CheckMethod.Voltage,
                    RangeV = 10,
                    Readings = number % 2 == 0 ? [reading] : [reading, 1.002 * reading, 0.999 * reading],
                    Resolution = number % 3 == 1 ? 0.0001 : null,
                    Air = new(99.8, 21, null),
                };
                var check = Assert.IsType<Result<ChainChecked>.Accepted>(CheckWork.Out(demo, entry)).Value;
                facts.Add(Said(at, counter++, check, [Subject.Campaign(C), .. chain.Select(Subject.Device), Subject.Device(calibrator)]));
            }
        }
        foreach (var (name, at) in new[] { (Morning, "08:10"), (Noon, "12:30") })
        {
            facts.Add(Said(at, counter++, new WeatherNoted(250, 3, 24, 60, 99.7), [Subject.Campaign(C)]));
            var flown = new EventHappened(
                name, $"2026-09-02T{at}:00.000Z", $"2026-09-02T{at}:45.000Z", EventKind.FlyOver, "multirotor", [], null);
            facts.Add(Said(at, counter++, flown, [Subject.Event(name), Subject.Campaign(C)]));
        }
        return demo.WhatIf(facts);
    }

    private static Fact Said(string at, int counter, FactBody body, IReadOnlyList<string> subjects) =>
        FactText.WriteDerived(
            new(Occurred.TryParse($"2026-09-02T{at}:00.000Z", out var occurred) ? occurred : default, "P1", "phone-1.ABCD", counter), body,
            subjects);
}

using System.Globalization;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Server.Tests.Recompute;

/// <summary>
/// The traffic of the heath with all that a figure may rest on: microphones that follow the air, calibrators that follow static pressure,
/// adapters, other mounts, units and limits, checks by all three methods with one or several insertions. Each seed gives one of its own.
/// </summary>
internal static class BusyHeath
{
    private const int Visits = 8;

    public static List<Fact> Of(int seed)
    {
        var random = new Random(seed);
        List<Fact> facts = [.. HeathTraffic.Sample(new Random(seed)), .. Kit(random), .. Said(random), .. Gains(new Random(-seed))];
        for (var i = 0; i < Visits; i++) Visit(facts, random, i);
        return [.. facts.DistinctBy(f => f.Id)];
    }

    private static double Near(Random random, double middle, double half) =>
        Math.Round(middle + (half * ((2 * random.NextDouble()) - 1)), 3);

    private static IEnumerable<Fact> Kit(Random random)
    {
        yield return Make.Registered(
            "K3", "503", "sound-calibrator", ("pressure-law", "adiabatic"), ("temperature-db-per-k", 0.002), ("frequency-hz", 250));
        yield return Make.Of(
            Make.Issued(Near(random, 94, 0.05), 0.09, "level", "dB") with
            {
                StatedForKPa = random.Next(2) == 0 ? 100 : null,
                FrequencyHz = null,
                Air = new(null, 21, null),
            },
            "2026-02-01", "device:K3");
        yield return Make.Registered("K4", "504", "sound-calibrator", ("pressure-law", "coefficient"), ("pressure-db-per-kpa", -0.006));
        yield return Make.Of(
            Make.Issued(94.02, 0.12, "level", "dB") with
            {
                Results = [new(AdjustmentState.AsFound, 94.2, "dB", 0.12, "dB", null), new(AdjustmentState.AsLeft, 94.02, "dB", 0.12, "dB", null)],
            },
            "2026-02-02", "device:K4");
        yield return Make.Registered("A1", "601", "adapter");
        foreach (var (calibrator, adapter, db) in new[] { ("K3", null, 0.03), ("K3", "A1", -0.02), ("K4", (string?)null, 0.01) })
        {
            yield return Make.Of(
                new CouplingStated("model", adapter, db, 0.04, -0.11, random.Next(2) == 0 ? 0.06 : null, "its papers"), "2026-02-03",
                adapter is null ? ["device:" + calibrator] : ["device:" + calibrator, "device:" + adapter]);
        }
    }

    private static IEnumerable<Fact> Said(Random random)
    {
        for (var i = 1; i <= 3; i++)
        {
            if (random.Next(4) == 0) continue;
            yield return Heath.Described(
                "M" + i, ("pressure-db-per-kpa", Near(random, -0.01, 0.01)), ("temperature-db-per-k", Near(random, 0, 0.02)),
                ("humidity-db-per-percent", Near(random, 0, 0.002)), ("lowest-hz", random.Next(5, 60)));
        }
        // Another unit, an uncertainty in per cent, and air that was not that of reference.
        yield return Make.Of(
            Make.Issued(Near(random, 12.4, 0.1), 0.8, "sensitivity", "mV/Pa") with
            {
                Results = [new(AdjustmentState.AsFoundAndLeft, Near(random, 12.4, 0.1), "mV/Pa", 0.8, "%", 1.96)],
                Air = new(Near(random, 100, 2), Near(random, 22, 2), random.Next(2) == 0 ? 40 : null),
                Loading = random.Next(2) == 0 ? "loaded" : null,
            },
            "2026-04-0" + random.Next(1, 9), "device:M" + random.Next(1, 4));
        if (random.Next(2) == 0)
            yield return Make.Certificate("M" + random.Next(1, 4), "2026-08-1" + random.Next(1, 9), Near(random, -38.06, 0.3));
        yield return Make.Of(
            new StationPlanned(
                "S" + random.Next(1, 4), 53.01, 1, (Mount)random.Next(4), random.Next(2) == 0 ? Near(random, 0.01, 0.008) : null),
            "2026-05-03", Subject.Campaign(Heath.C));
        if (random.Next(2) == 0)
        {
            yield return Heath.Written(
                (LimitKey.MountToleranceDb, Near(random, 0.8, 0.6)), (LimitKey.BandFromHz, 25), (LimitKey.BandToHz, Near(random, 9000, 6000)));
        }
        if (random.Next(3) == 0) yield return Make.Registered("W1", "701", "windscreen", ("highest-hz", 12_000), ("lowest-hz", 30));
        if (random.Next(3) == 0) yield return Heath.Chosen((SensitivityRule)random.Next(3));
        if (random.Next(2) == 0)
        {
            yield return Make.Of(
                new StationSurveyed(
                    "S" + random.Next(1, 4), 53.01, 1, 20, random.Next(2) == 0 ? Near(random, 0.5, 0.4) : null, 0.02, 0.03, "tape", null),
                "2026-06-01", Subject.Campaign(Heath.C));
        }
        if (random.Next(3) == 0) yield return Heath.Planned(altitudeM: random.Next(0, 900));
    }

    // Gains of channels that were measured against a reference of the register, with another factor, without an uncertainty, or never.
    private static IEnumerable<Fact> Gains(Random random)
    {
        for (var i = 1; i <= 3; i++)
        {
            var sort = random.Next(5);
            if (sort > 3) continue;
            yield return Make.Of(
                Make.Issued(Near(random, 0, 0.3), sort == 0 ? null : Near(random, 0.05, 0.02), "gain", "dB") with
                {
                    ReferenceDevice = sort == 1 ? "REF" : null,
                    Results = [new(
                        AdjustmentState.AsFoundAndLeft, Near(random, 0, 0.3), "dB", sort == 0 ? null : Near(random, 0.05, 0.02),
                        sort == 0 ? null : "dB", sort == 2 ? 1.96 : null)],
                },
                "2026-04-1" + random.Next(1, 9), "device:R" + i);
        }
    }

    // A station is set up, checked, flown over and checked again, each as a crew may.
    private static void Visit(List<Fact> facts, Random random, int number)
    {
        var begin = new DateTime(2026, 6, 5, 4, 0, 0, DateTimeKind.Utc).AddHours(5 * number);
        string At(double hours) => begin.AddHours(hours).ToString("MM-dd HH:mm", CultureInfo.InvariantCulture);
        var station = "S" + random.Next(1, 4);
        string[] chain = random.Next(4) == 0 ? [.. Heath.Chain(station), "W1"] : Heath.Chain(station);
        facts.Add(Heath.Placed(
            station, At(0), chain, rangeV: random.Next(2) == 0 ? 3.16 : null, gapMm: random.Next(3) == 0 ? Near(random, 7, 1) : null));
        var calibrator = "K" + random.Next(1, 5);
        foreach (var hours in new[] { 0.5, 2.5 })
        {
            if (random.Next(8) == 0) continue;
            if (random.Next(6) == 0) calibrator = "K" + random.Next(1, 5);
            var moment = hours < 1 ? CheckMoment.Before : CheckMoment.After;
            if (Checked(facts, random, station, At(hours), calibrator, moment) is { } check) facts.Add(check);
        }
        facts.Add(Heath.Event("V" + number, At(1.5), At(1.5 + (random.Next(30) / 60.0))));
        if (random.Next(4) > 0)
        {
            facts.Add(Heath.Weather(
                At(1.25), random.Next(2) == 0 ? random.Next(5, 30) : null, Near(random, 100, 2), random.Next(2) == 0 ? random.Next(20, 90) : null));
        }
        if (random.Next(4) == 0) facts.Add(Heath.Weather(At(0.75), random.Next(5, 30)));
        if (random.Next(4) == 0) facts.Add(Logged(random, number, begin));
    }

    private static Fact Logged(Random random, int number, DateTime begin) => Make.Of(
        new WeatherLogged(
            $"log-{number}.csv", new string((char)('a' + (number % 6)), 64),
            [.. Enumerable.Range(0, 9).Select(i => new LoggedWeather(
                begin.AddMinutes(20 * i).ToString("yyyy-MM-ddTHH:mm:ss.fffZ", CultureInfo.InvariantCulture), null, null, null,
                random.Next(3) == 0 ? null : random.Next(5, 30), random.Next(20, 90), Near(random, 100, 2)))],
            null),
        "2026-06-07", number, Subject.Campaign(Heath.C));

    private static Fact? Checked(List<Fact> facts, Random random, string station, string at, string calibrator, CheckMoment moment)
    {
        var devices = Heath.Chain(station);
        var method = (CheckMethod)random.Next(3);
        double Reading() => method switch
        {
            CheckMethod.Indicated => Near(random, 94, 0.2),
            CheckMethod.Voltage => Math.Round(0.01238 * (1 + (0.01 * random.NextDouble())), 6),
            _ => Math.Round(0.001238 * (1 + (0.01 * random.NextDouble())), 8),
        };
        var air = random.Next(4) == 0 ? null : new StatedAir(
            random.Next(4) == 0 ? null : Near(random, 100.5, 1.5), random.Next(2) == 0 ? Near(random, 18, 8) : null,
            random.Next(2) == 0 ? random.Next(20, 90) : null);
        var entry = new CheckEntry
        {
            Campaign = Heath.C,
            Station = station,
            At = Heath.At(at).ToString(),
            Moment = moment,
            Devices = devices,
            Calibrator = calibrator,
            Adapter = random.Next(2) == 0 ? "A1" : null,
            Air = air,
            EstimatePressure = air?.PressureKPa is null,
            PressureUncertaintyKPa = random.Next(2) == 0 ? 0.2 : null,
            Method = method,
            Readings = [.. Enumerable.Range(0, random.Next(1, 6)).Select(_ => Reading())],
            Resolution = random.Next(2) == 0 ? (method == CheckMethod.Indicated ? 0.1 : 1e-5) : null,
            MeterDb = random.Next(3) == 0 ? 0.02 : null,
            RangeV = random.Next(2) == 0 ? 3.16 : null,
        };
        // What the register refuses by now, as of a calibrator whose certificate was annulled, nobody recorded.
        var register = FactList.RegisterOf([.. facts.DistinctBy(f => f.Id)]);
        return CheckWork.Out(register, entry) is Result<ChainChecked>.Accepted { Value: var check }
            ? Heath.Said(at, 20, check, [Subject.Campaign(Heath.C), .. devices.Select(Subject.Device), Subject.Device(calibrator)])
            : null;
    }
}

using System.Globalization;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Registers of the heath that nobody wrote down one by one: each seed gives one of its own.</summary>
internal static class HeathTraffic
{
    /// <summary>
    /// The heath with a few days of traffic: few devices, so that they meet. No two facts of traffic fall on one minute: of two checks of a
    /// chain at one instant the one that came later is meant to be right, so that there the order of arrival does count.
    /// </summary>
    public static List<Fact> Sample(Random random)
    {
        var minutes = Enumerable.Range(0, 3 * 24 * 60).ToArray();
        random.Shuffle(minutes);
        var next = 0;
        string Time() => new DateTime(2026, 6, 2, 0, 0, 0, DateTimeKind.Utc).AddMinutes(minutes[next++]).ToString("MM-dd HH:mm", CultureInfo.InvariantCulture);
        string Station() => "S" + random.Next(1, 4);
        string[] Parts(string station) => [random.Next(4) == 0 ? "M" + random.Next(1, 4) : "M" + station[1..], "P" + station[1..], "R" + station[1..]];
        double Level() => Math.Round(-38.16 + (0.5 * (random.NextDouble() - 0.5)), 3);
        CheckMoment Moment() => (CheckMoment)random.Next(3);

        var traffic = new List<Fact> { Heath.Written((LimitKey.TemperatureMostC, 22)) };
        foreach (var station in new[] { "S1", "S2", "S3" }) traffic.Add(Heath.Placed(station, "06-01 20:0" + station[1..], counter: 10));
        for (var i = 1; i <= 3; i++)
        {
            var begin = new DateTime(2026, 6, 2, 0, 0, 0, DateTimeKind.Utc).AddMinutes(random.Next(3 * 24 * 60));
            traffic.Add(Heath.Event("E" + i, begin.ToString("MM-dd HH:mm", CultureInfo.InvariantCulture), begin.AddMinutes(random.Next(0, 90)).ToString("MM-dd HH:mm", CultureInfo.InvariantCulture)));
        }
        for (var i = 0; i < 45; i++)
        {
            var station = Station();
            traffic.Add(random.Next(17) switch
            {
                0 => Heath.Placed(station, Time(), Parts(station), rangeV: random.Next(3) == 0 ? 1 : null),
                1 => Heath.TakenIn(station, Time()),
                2 => Heath.Weather(Time(), random.Next(10, 30)),
                3 => Heath.Damaged(random.Next(2) == 0 ? "M1" : "K1", Time()),
                4 => Make.Certificate("M" + random.Next(1, 4), "2026-0" + random.Next(6, 9) + "-01", Math.Round(-38.06 + (1.2 * (random.NextDouble() - 0.5)), 3)),
                5 => Make.Of(Make.Issued(Math.Round(94 + (1.0 * (random.NextDouble() - 0.5)), 3), 0.1, "level", "dB"), "2026-0" + random.Next(6, 9) + "-02", "device:K" + random.Next(1, 3)),
                6 => Make.Annulling(random.Next(2) == 0 ? traffic[random.Next(traffic.Count)] : Heath.Base[random.Next(Heath.Base.Count)], "r" + random.Next(3)),
                7 when traffic.LastOrDefault(f => f.Body is DeviceServiced) is { } report => Settled(report, random),
                8 when random.Next(3) == 0 => Heath.Chosen((SensitivityRule)random.Next(3)),
                9 when random.Next(4) == 0 => Make.Of(new DevicesJoined("M3", "M9", "one label"), "2026-06-06", "device:M3", "device:M9"),
                // A phone's clock is put right: 7 ms keep its minutes apart from all others.
                10 when !traffic.Any(f => f.Body is ClientClockNoticed) => Make.Of(new ClientClockNoticed("phone-1.ABCD", random.Next(7), (random.Next(-40, 40) * 60_000L) + 7), "2026-06-06", Subject.TheRegister),
                11 => Make.Of(new DeviceDescribed(Make.Details(("temperature-db-per-k", random.Next(-3, 3) / 100.0)), []), "2026-05-02", i, "device:M" + random.Next(1, 4)),
                12 => Heath.Compared(Time(), random.Next(3) == 0 ? 0.4 : null, [.. new[] { "S1", "S2", "S3" }.Select(s => (s, Parts(s), 70 + Math.Round(random.NextDouble(), 2))), ("X4", ["M9"], 70.3), ("X5", ["P9"], 70.4)]),
                13 => Heath.Incidence(random.Next(90), random.Next(2) == 0 ? station : null, random.Next(2) == 0 ? "E" + random.Next(1, 4) : null, i),
                14 => Make.Of(Make.Issued(0, 0.1, "response", "dB") with { Curve = new string((char)('a' + random.Next(6)), 64), Field = random.Next(2) == 0 ? "free-field" : "pressure", AngleDeg = random.Next(3) * 30 }, "2026-0" + random.Next(4, 7) + "-03", "device:M" + random.Next(1, 4)),
                _ => Heath.Checked(station, Time(), Moment(), Level(), "K" + random.Next(1, 3), Parts(station)),
            });
        }
        // Chains are taken in and set up again, some files hold some events, and a newer phone speaks now and then.
        for (var i = 0; i < 3; i++)
        {
            var station = Station();
            traffic.Add(Heath.TakenIn(station, Time(), counter: 30 + i));
            traffic.Add(Heath.Placed(station, Time(), counter: 40 + i));
        }
        if (random.Next(3) == 0) traffic.Add(NewerFacts.Newer(random.Next(2) == 0 ? "chain-placed" : "chain-checked", Time(), Station()));
        if (random.Next(3) == 0) traffic.Add(Filed(Time(), random));
        if (random.Next(2) == 0)
        {
            // Two nights and a morning that were stated as sessions, some of them overlapping, by a profile that asks for each day's testing.
            traffic.Add(Heath.WrittenTestDay(random.Next(2) == 0 ? 12 : null));
            traffic.Add(Heath.Session("Night 1", "06-02 18:00", "06-03 03:00"));
            traffic.Add(Heath.Session("Night 2", "06-03 18:30", "06-04 02:00"));
            if (random.Next(3) == 0) traffic.Add(Heath.Session("Morning", "06-03 02:00", "06-03 09:00", counter: 9));
        }
        return [.. Heath.Base.Concat(traffic).DistinctBy(f => f.Id)];
    }

    // A minute with a file of a minute or less.
    private static Fact Filed(string at, Random random) => Heath.Said(
        at, 50,
        new EventHappened(
            "Flight E4", Heath.At(at).ToString(), Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(Heath.Ms(at) + 60_000)).ToString(),
            EventKind.FlyOver, null, [new("a.wav", 1, new string('a', 64), "REC-A", Heath.At(at).ToString()[..^1], random.Next(10, 61), [1])], null),
        [Subject.Event("E4"), Subject.Campaign(Heath.C)]);

    private static Fact Settled(Fact report, Random random) => Make.Of(
        new DoubtSettled($"Reported:{Subject.Id(report.Subjects[0])}:{report.Id}", random.Next(2) == 0, random.Next(2) == 0 ? [] : ["E1"], "r" + random.Next(9)), "2026-07-01", random.Next(50), report.Subjects[0]);
}

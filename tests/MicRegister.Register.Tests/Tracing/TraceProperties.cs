using System.Globalization;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>A trace depends on which facts there are, not on how they came. Each loop names its seed when it fails.</summary>
public sealed class TraceProperties
{
    private const int Rounds = 60;

    [Fact]
    public void Any_order_of_arrival_gives_the_same_traces() => ForAll((seed, facts) =>
    {
        var expected = TraceDump.Of(FactList.RegisterOf(facts));
        for (var i = 1; i <= 3; i++) Same(expected, TraceDump.Of(FactList.RegisterOf(Shuffled(facts, seed + i))), seed, $"order {i}");
    });

    [Fact]
    public void Folding_a_prefix_then_the_rest_equals_folding_all() => ForAll((seed, facts) =>
    {
        var (list, mixed) = (new FactList(), Shuffled(facts, seed));
        var register = Register.Empty(list);
        foreach (var chunk in mixed.Chunk(1 + (mixed.Count / 4)))
        {
            foreach (var fact in chunk) list.Add(fact);
            register = register.With(chunk);
            _ = TraceDump.Of(register); // remembers what the next facts must undo
        }
        Same(TraceDump.Of(FactList.RegisterOf(facts)), TraceDump.Of(register), seed, "in parts");
    });

    [Fact]
    public void The_union_of_two_overlapping_halves_equals_all() => ForAll((seed, facts) =>
    {
        var mixed = Shuffled(facts, seed);
        var (here, there) = (mixed.Take(mixed.Count * 2 / 3).ToList(), mixed.Skip(mixed.Count / 3).ToList());
        var expected = TraceDump.Of(FactList.RegisterOf(facts));
        Same(expected, TraceDump.Of(FactList.RegisterOf([.. here, .. there])), seed, "here, then there");
        Same(expected, TraceDump.Of(FactList.RegisterOf([.. there, .. here])), seed, "there, then here");
    });

    [Fact]
    public void What_is_annulled_and_said_again_gives_the_same_answer_but_for_ids() => ForAll((seed, facts) =>
    {
        var register = FactList.RegisterOf(facts);
        var random = new Random(seed);
        foreach (var target in facts.Where(f => f.Body is ChainPlaced or ChainChecked && register.Counts(register.Find(f.Id))).OrderBy(_ => random.Next()).Take(3))
        {
            var bytes = new byte[10];
            random.NextBytes(bytes);
            var again = FactText.Write(FactId.Create(target.Occurred.UnixMilliseconds, bytes), new(target.Occurred, target.Author, target.Client, target.Counter), target.Body, target.Subjects);
            var then = FactList.RegisterOf([.. facts, Make.Annulling(target, "said again"), again]);
            Same(TraceDump.WithoutIds(TraceDump.Of(register)), TraceDump.WithoutIds(TraceDump.Of(then)), seed, $"{target} said again");
        }
    });

    [Fact]
    public void Every_fact_that_a_trace_cites_is_there_and_counts()
    {
        var cited = 0;
        ForAll((seed, facts) =>
        {
            var register = FactList.RegisterOf(facts);
            // Only the certificate that was withdrawn may be named though it does not count.
            var withdrawn = DoubtBook.All(register).Where(d => d.Kind == DoubtKind.Withdrawn).Select(d => d.Fact.ToString()).ToHashSet(StringComparer.Ordinal);
            foreach (var s in EventBook.OfCampaign(register, Heath.C).SelectMany(e => Tracer.Of(register, e.Id)!.Stations))
            {
                var own = new[] { s.Placement?.Fact, s.Before?.Fact, s.After?.Fact }.Concat(s.InPlace.SelectMany(k => new[] { k.Fact, k.Since })).Concat(s.Curves.Select(k => (FactId?)k.Certificate.Fact)).Append(s.Incidence?.Fact).OfType<FactId>().Select(f => f.ToString());
                foreach (var id in own) Cited(id, mayBeWithdrawn: false);
                // What a figure was computed from is cited even where it was withdrawn since.
                foreach (var id in s.Links.Select(l => l.Certificate?.Fact.ToString()).OfType<string>()) Cited(id, mayBeWithdrawn: true);
                foreach (var id in (s.Applied?.Terms ?? []).SelectMany(t => TraceDump.Ids(t.Source))) Cited(id, mayBeWithdrawn: false);
                foreach (var id in s.Reasons.SelectMany(r => TraceDump.Ids(r.Source))) Cited(id, mayBeWithdrawn: true);
            }

            void Cited(string id, bool mayBeWithdrawn)
            {
                cited++;
                var sequence = register.Find(FactId.Parse(id));
                Assert.True(sequence > 0, $"Seed {seed}: {id} is cited and is not there.");
                Assert.True(register.Counts(sequence) || (mayBeWithdrawn && withdrawn.Contains(id)), $"Seed {seed}: {register.Source.Read(sequence)} is cited and does not count.");
            }
        });
        Assert.True(cited > 10 * Rounds, $"Only {cited} facts were cited.");
    }

    [Fact]
    public void A_report_and_the_traces_say_the_same_of_every_doubt()
    {
        var open = 0;
        ForAll((seed, facts) =>
        {
            var register = FactList.RegisterOf(facts);
            var traces = EventBook.OfCampaign(register, Heath.C).Select(e => Tracer.Of(register, e.Id)!).ToList();
            foreach (var doubt in DoubtBook.All(register))
            {
                var reported = DoubtReport.Of(register, doubt).Touched.Where(t => t.Settled is not { What.IsConfirmed: false }).SelectMany(t => t.Stations.Where(s => s.Rescue is null || t.Settled is not null).Select(s => $"{t.Event.Id} {s.Station}"));
                var traced = traces.SelectMany(t => t.Stations.Where(s => s.Reasons.Any(r => r.Weight > TraceVerdict.Valid && r.Source.StartsWith($"fact {doubt.Fact}", StringComparison.Ordinal) && r.Text.StartsWith(doubt.Text, StringComparison.Ordinal))).Select(s => $"{t.Event.Id} {s.Station}"));
                var (a, b) = (string.Join(", ", reported.Distinct().Order(StringComparer.Ordinal)), string.Join(", ", traced.Distinct().Order(StringComparer.Ordinal)));
                Assert.True(a == b, $"Seed {seed}, {doubt.Key}: the report holds back '{a}', the traces '{b}'.");
                if (a.Length > 0) open++;
            }
        });
        Assert.True(open > Rounds, $"Only {open} doubts were open.");
    }

    [Fact]
    public void All_reasons_come_from_the_table_of_questions_in_its_order_and_by_weight()
    {
        var answered = new HashSet<string>(StringComparer.Ordinal);
        ForAll((seed, facts) =>
        {
            var register = FactList.RegisterOf(facts);
            foreach (var e in EventBook.OfCampaign(register, Heath.C))
            {
                List<TracedChain> chains = [.. Tracer.Chains(Tracer.ContextOf(register, e.Id)!)];
                var traces = Tracer.Of(register, e.Id)!.Stations;
                Assert.Equal(chains.Select(c => (c.Station, c.FromMs, c.ToMs)), traces.Select(t => (t.Station, t.FromMs, t.ToMs)));
                foreach (var (chain, trace) in chains.Zip(traces))
                {
                    var own = TraceQuestions.All.Where(q => q.IsOfNothing == chain.Placement is null)
                        .SelectMany(q => q.Ask(chain).Select(r => (q.Key, Reason: r))).ToList();
                    answered.UnionWith(own.Select(r => r.Key));
                    var worst = own.Select(r => r.Reason.Weight).DefaultIfEmpty(TraceVerdict.Valid).Max();
                    Assert.True(
                        trace.Reasons.SequenceEqual(own.Select(r => r.Reason).OrderByDescending(r => r.Weight)) && trace.Verdict == worst,
                        $"Seed {seed}, {e.Id}, {chain.Station}: the trace says other reasons than the questions do.");
                }
            }
        });
        // The campaigns of this suite meet more than half of the questions; the others have a case of their own.
        Assert.True(answered.Count > TraceQuestions.All.Count / 2, $"Only {string.Join(", ", answered)} were answered.");
    }

    private static void ForAll(Action<int, IReadOnlyList<Fact>> holds)
    {
        for (var seed = 1; seed <= Rounds; seed++)
        {
            var facts = Sample(new Random(seed));
            try
            {
                holds(seed, facts);
            }
            catch (Exception e) when (e is not Xunit.Sdk.XunitException)
            {
                Assert.Fail($"Seed {seed}: {e}");
            }
        }
    }

    private static void Same(string expected, string actual, int seed, string what)
    {
        if (expected == actual) return;
        var (a, b) = (expected.Split('\n'), actual.Split('\n'));
        var at = Enumerable.Range(0, Math.Max(a.Length, b.Length)).First(i => i >= a.Length || i >= b.Length || a[i] != b[i]);
        Assert.Fail($"Seed {seed}, {what}, line {at + 1}:\n{(at < a.Length ? a[at] : "(nothing)")}\n{(at < b.Length ? b[at] : "(nothing)")}");
    }

    private static List<Fact> Shuffled(IReadOnlyList<Fact> facts, int seed)
    {
        var array = facts.ToArray();
        new Random(seed).Shuffle(array);
        return [.. array];
    }

    /// <summary>
    /// The heath with a few days of traffic: few devices, so that they meet. No two facts of traffic fall on one minute: of two checks of a
    /// chain at one instant the one that came later is meant to be right, so that there the order of arrival does count.
    /// </summary>
    private static List<Fact> Sample(Random random)
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
        if (random.Next(3) == 0) traffic.Add(UndecidedTests.Newer(random.Next(2) == 0 ? "chain-placed" : "chain-checked", Time(), Station()));
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

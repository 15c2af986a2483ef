using MicRegister.Register.Campaigns;
using MicRegister.Register.Comparison;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Comparison;

/// <summary>What a profile would change, before it is stored. Each loop names its seed when it fails.</summary>
public sealed class ProfileEffectTests
{
    private static readonly DateOnly Before = new(2026, 5, 20), Over = new(2026, 7, 1);

    private static readonly string[] Keys =
    [
        LimitKey.DriftDb, LimitKey.CheckDeviationDb, LimitKey.CheckDifferenceDb, LimitKey.CheckSpanHours, LimitKey.CalibratorStepDb,
        LimitKey.TemperatureMostC, LimitKey.GapMm, LimitKey.IntervalMonths + "microphone/sensitivity", LimitKey.InPlaceHours,
        LimitKey.InPlaceDb,
        LimitKey.ArrayProbability, LimitKey.DeviceProbability, LimitKey.SpareShare,
    ];

    // 0.06 dB lie between the check before, -38.11 dB, and the one after, -38.17 dB: within 0.3 dB, and beyond 0.05 dB.
    [Fact]
    public void A_stricter_limit_makes_an_event_doubtful_and_says_so_before_it_is_stored()
    {
        var register = Heath.With(Heath.Flight(afterDb: -38.17));
        var digest = register.Digest;

        var effect = Of(register, Heath.Rules, Changed(register, Heath.Rules, (LimitKey.CheckDifferenceDb, 0.05)));

        Assert.Equal((ClauseChange.Stricter, LimitKey.CheckDifferenceDb),
            (Assert.Single(effect.Clauses.Clauses).Change, effect.Clauses.Clauses[0].Key));
        var campaign = Assert.Single(effect.Campaigns);
        Assert.Equal(("Heath", Heath.Rules, 1, 0, true),
            (campaign.Name, campaign.Profile, campaign.Events, campaign.EventsLeft, campaign.IsChanged));
        var changed = Assert.Single(campaign.Changed);
        Assert.Equal(("E1", TraceVerdict.Valid), (changed.Id, Station(changed.Before)));
        Assert.NotEqual(TraceVerdict.Valid, Station(changed.After));
        Assert.Equal((2, 2, true), (effect.Done, effect.Pieces, effect.IsWhole));
        Assert.Equal(digest, register.Digest);
        Assert.Equal(0.3, register.Profile(Heath.Rules)!.Value(LimitKey.CheckDifferenceDb));
    }

    [Fact]
    public void A_profile_that_asks_the_same_changes_nothing()
    {
        var register = Heath.With(Heath.Flight());
        var effect = Of(register, Heath.Rules, register.Profile(Heath.Rules)!.Written with { Statement = "In other words." });

        Assert.Empty(effect.Clauses.Clauses);
        Assert.False(Assert.Single(effect.Campaigns).IsChanged);
    }

    // The microphone's newer certificate lies 0.2 dB from the one before: a doubt by 0.1 dB, none by 0.5 dB.
    [Fact]
    public void Doubts_that_would_arise_or_vanish_are_named()
    {
        var moved = Make.Certificate("M1", "2026-06-20", -38.26);
        var register = Heath.With([.. Heath.Flight(), moved]);
        ProfileWritten strict = Changed(register, Heath.Rules, (LimitKey.DriftDb, 0.1)),
            loose = Changed(register, Heath.Rules, (LimitKey.DriftDb, 0.5));

        var doubt = Assert.Single(Assert.Single(Of(register, Heath.Rules, strict).Campaigns).Arising);
        Assert.Equal(("M1", moved.Id), (doubt.Device, doubt.Fact));
        Assert.Contains("0.1 dB are allowed", doubt.Text, StringComparison.Ordinal);
        var now = FactList.RegisterOf([.. Heath.Base, .. Heath.Flight(), moved, .. Facts(register, Heath.Rules, strict)]);
        var back = Assert.Single(Of(now, Heath.Rules, loose, Over.AddDays(1)).Campaigns);
        Assert.Equal(moved.Id, Assert.Single(back.Vanishing).Fact);
        Assert.Empty(back.Arising);
    }

    // K1 was measured against K9, which no crew carries: 0.15 dB lie between its certificates, and 0.1 dB would be allowed.
    [Fact]
    public void A_doubt_of_what_was_measured_against_is_named_too()
    {
        var register = Heath.With([.. Heath.Flight(), Make.Registered("K9", "509", "sound-calibrator"),
            Make.Of(Make.Issued(94.00, 0.1, "level", "dB") with { ReferenceDevice = "K9" }, "2026-01-04", "device:K1"),
            Make.Certificate("K9", "2025-06-01", 94.00, 0.1, "level", "dB"),
            Make.Certificate("K9", "2026-06-20", 94.15, 0.1, "level", "dB")]);

        var effect = Of(register, Heath.Rules, Changed(register, Heath.Rules, (LimitKey.CalibratorStepDb, 0.1)));

        Assert.Equal("K9", Assert.Single(Assert.Single(effect.Campaigns).Arising).Device);
    }

    [Fact]
    public void Only_campaigns_that_are_judged_by_it_are_asked_and_usual_practice_stands_behind_all()
    {
        var register = Heath.With(Heath.Flight());

        Assert.Empty(Of(register, "another", register.Profile(Heath.Rules)!.Written).Campaigns);
        var usual = Of(register, BuiltInProfiles.Usual, Changed(register, BuiltInProfiles.Usual, (LimitKey.DriftDb, 0.25)));
        Assert.Equal((Heath.C, 1), (Assert.Single(usual.Campaigns).Campaign, usual.CampaignCount));
        // A campaign may name a profile before there is one.
        var unknown = Heath.With(Make.Of(((CampaignPlanned)Heath.Planned().Body) with { Profile = "to-come" }, "2026-05-03", 2,
            Subject.Campaign(Heath.C)));
        var coming = Of(unknown, "to-come", register.Profile(Heath.Rules)!.Written, Before);
        Assert.All(coming.Clauses.Clauses, c => Assert.Equal(ClauseChange.OnlyHere, c.Change));
        Assert.Single(coming.Campaigns);
    }

    [Fact]
    public void What_cannot_be_written_has_no_effect_and_says_why() => Assert.Contains(
        "allowed is a number from",
        Assert.IsType<Result<ProfileEffect>.Rejected>(ProfileEffect.Begin(
            Heath.With(), Said(Over), Heath.Rules, Changed(Heath.With(), Heath.Rules, (LimitKey.DriftDb, -1)), Over, _ => Over)).Why.Text,
        StringComparison.Ordinal);

    [Fact]
    public void It_is_worked_out_piece_by_piece_and_what_is_left_is_counted()
    {
        var register = Heath.With([.. Heath.Flight(), Heath.Event("E2", "06-02 11:00", "06-02 11:01")]);
        var effect = Begun(register, Heath.Rules, Changed(register, Heath.Rules, (LimitKey.DriftDb, 0.25)), Over);

        Assert.Equal((0, 3, 2, 2), (effect.Done, effect.Pieces, effect.Events, effect.EventsLeft));
        Assert.Empty(effect.Campaigns);
        Assert.True(effect.GoOn());
        Assert.Equal((2, 0), (effect.Campaigns[0].EventsLeft, Sum(effect.Campaigns[0].EventsBefore)));
        Assert.True(effect.GoOn());
        Assert.Equal((1, 1, false), (effect.Campaigns[0].EventsLeft, Sum(effect.Campaigns[0].EventsAfter), effect.IsWhole));
        Assert.True(effect.GoOn());
        Assert.False(effect.GoOn());
        Assert.Equal((0, 3, true), (effect.EventsLeft, effect.Done, effect.IsWhole));
        using var stopped = new CancellationTokenSource();
        stopped.Cancel();
        Assert.Throws<OperationCanceledException>(() =>
            Begun(register, Heath.Rules, register.Profile(Heath.Rules)!.Written, Over).ToTheEnd(stopped.Token));
    }

    [Fact]
    public void The_effect_is_what_storing_and_reading_again_gives()
    {
        int changed = 0, doubts = 0;
        for (var seed = 1; seed <= 40; seed++)
        {
            var random = new Random(seed);
            var facts = HeathTraffic.Sample(random);
            var register = FactList.RegisterOf(facts);
            foreach (var today in new[] { Before, Over })
            {
                foreach (var profile in new[] { Heath.Rules, BuiltInProfiles.Usual })
                {
                    var proposed = Perturbed(random, register, profile);
                    var effect = Begun(register, profile, proposed, today).ToTheEnd();
                    // Another register, read from all facts anew.
                    var stored = FactList.RegisterOf([.. facts, .. Facts(register, profile, proposed, today)]);
                    var told = string.Join("\n", effect.Campaigns.Select(Told));
                    var read = string.Join("\n", effect.Campaigns.Select(c => Read(register, stored, c.Campaign, today)));
                    Assert.True(told == read, $"Seed {seed}, {profile}, {today}:\n{told}\nbut\n{read}");
                    changed += effect.Campaigns.Count(c => c.IsChanged);
                    doubts += effect.Campaigns.Sum(c => c.Arising.Count + c.Vanishing.Count);
                }
            }
        }
        Assert.True(changed > 40 && doubts > 20, $"Only {changed} campaigns changed and {doubts} doubts came or went.");
    }

    // Written from what a reader does: ask both registers, and set one beside the other.
    private static string Read(Register before, Register after, string campaign, DateOnly today)
    {
        string Ready(Register r) => CampaignReadiness.Judge(r, campaign, today, today) is { } report
            ? $"{report.Verdict} "
                + string.Join(" ", report.Stations.Where(s => s.Verdict != ReadinessVerdict.Over)
                    .GroupBy(s => s.Verdict).OrderBy(g => g.Key).Select(g => $"{g.Key}={g.Count()}"))
                + " " + string.Join(" ", report.Findings.GroupBy(f => f.Gravity).OrderBy(g => g.Key).Select(g => $"{g.Key}={g.Count()}"))
            : "no plan";
        string Worth(Register r) => string.Join(" ", EventBook.OfCampaign(r, campaign)
            .Select(e => EventVerdict.Of(Tracer.Of(r, e.Id)!).Verdict).GroupBy(v => v)
            .OrderBy(g => g.Key).Select(g => $"{g.Key}={g.Count()}"));
        var other = EventBook.OfCampaign(before, campaign)
            .Where(e => EventVerdict.Of(Tracer.Of(before, e.Id)!).InWords != EventVerdict.Of(Tracer.Of(after, e.Id)!).InWords
                || !EventVerdict.Of(Tracer.Of(before, e.Id)!).Stations.SequenceEqual(EventVerdict.Of(Tracer.Of(after, e.Id)!).Stations))
            .Select(e => e.Id);
        // All devices of the heath belong to its one campaign, or to what they were measured against.
        HashSet<string> Raised(Register r) =>
        [
            .. r.DeviceIds
                .SelectMany(d => DoubtBook.OfDevice(r, d, r.Campaign(campaign)?.Plan is { } plan ? r.Profile(plan.Profile) : null))
                .Select(d => d.Key),
        ];
        HashSet<string> was = Raised(before), now = Raised(after);
        string Listed(IEnumerable<string> ids) => string.Join(" ", ids.Order(StringComparer.Ordinal));
        return $"{Ready(before)} / {Ready(after)} / {Worth(before)} / {Worth(after)} / {Listed(other)} / "
            + $"{Listed(now.Except(was))} / {Listed(was.Except(now))}";
    }

    private static string Told(CampaignEffect c)
    {
        string Ready(ReadinessCount? r) => r is null ? "no plan" : $"{r.Verdict} " + Counts(
            (ReadinessVerdict.Ready, r.Ready), (ReadinessVerdict.AtRisk, r.AtRisk), (ReadinessVerdict.NotReady, r.NotReady),
                (ReadinessVerdict.Undecided, r.Undecided))
            + " " + Counts((Gravity.Note, r.Notes), (Gravity.Risks, r.Risks), (Gravity.Stops, r.Stops));
        string Worth(EventCount e) => Counts(
            (TraceVerdict.Valid, e.Valid), (TraceVerdict.Doubtful, e.Doubtful), (TraceVerdict.Undecided, e.Undecided),
                (TraceVerdict.NotValid, e.NotValid));
        string Keys(IReadOnlyList<Doubt> doubts) => string.Join(" ", doubts.Select(d => d.Key).Order(StringComparer.Ordinal));
        return $"{Ready(c.Before)} / {Ready(c.After)} / {Worth(c.EventsBefore)} / {Worth(c.EventsAfter)} / "
            + $"{string.Join(" ", c.Changed.Select(e => e.Id).Order(StringComparer.Ordinal))} / {Keys(c.Arising)} / {Keys(c.Vanishing)}";
    }

    private static string Counts<T>(params (T Which, int Count)[] counts) =>
        string.Join(" ", counts.Where(c => c.Count > 0).Select(c => $"{c.Which}={c.Count}"));

    [Fact]
    public void Nothing_gets_better_by_a_stricter_number()
    {
        var worse = 0;
        for (var seed = 1; seed <= 60; seed++)
        {
            var random = new Random(seed);
            var register = FactList.RegisterOf(HeathTraffic.Sample(random));
            if (register.Profile(Heath.Rules) is not { } profile) continue;
            // Limits that were there: what a new one takes the place of is not in the profile. How far checks reach is left out: a shorter
            // reach leaves out what a check found, good or bad.
            foreach (var limit in profile.Written.Limits.Where(l => l.Value is not null && l.Key != LimitKey.CheckSpanHours
                && LimitStrictness.Find(l.Key) is Strictness.Less or Strictness.More))
            {
                var by = LimitStrictness.Find(limit.Key) == Strictness.Less ? 0.4 : 1.05;
                var proposed = Changed(register, Heath.Rules, (limit.Key, limit.Value!.Value * by));
                var effect = Begun(register, Heath.Rules, proposed, Over).ToTheEnd();
                Assert.Equal(ClauseChange.Stricter, Assert.Single(effect.Clauses.Clauses).Change);
                foreach (var e in effect.Campaigns.SelectMany(c => c.Changed))
                {
                    worse++;
                    Assert.True(
                        e.Before.Stations.Zip(e.After.Stations).All(s => s.First.Verdict <= s.Second.Verdict),
                        $"Seed {seed}, {limit.Key}: {e.Before.InWords} became {e.After.InWords}.");
                }
            }
        }
        Assert.True(worse > 20, $"Only {worse} events changed.");
    }

    private static TraceVerdict Station(EventVerdict verdict) => verdict.Stations.Single(s => s.Station == "S1").Verdict;

    private static int Sum(EventCount e) => e.Valid + e.Doubtful + e.Undecided + e.NotValid;

    private static ProfileWritten Perturbed(Random random, Register register, string profile)
    {
        var written = register.Profile(profile)?.Written ?? register.Profile(BuiltInProfiles.Usual)!.Written;
        List<ProfileLimit> limits = [.. written.Limits.Where(_ => random.Next(8) > 0)];
        for (var i = 0; i < 3; i++)
        {
            var key = Keys[random.Next(Keys.Length)];
            limits.RemoveAll(l => l.Key == key);
            var bounds = LimitKey.Find(key)!;
            limits.Add(new(key, Math.Clamp(Math.Round(random.NextDouble() * (bounds.Unit == "dB" ? 0.6 : bounds.Unit == "" ? 1 : 24), 3),
                bounds.Least, bounds.Greatest), null, "invented", "own"));
        }
        return written with { Limits = limits };
    }

    private static ProfileWritten Changed(Register register, string profile, params (string Key, double Value)[] to)
    {
        var written = register.Profile(profile)!.Written;
        return written with
        {
            Limits = [.. written.Limits.Where(l => to.All(t => t.Key != l.Key)),
                .. to.Select(t => new ProfileLimit(t.Key, t.Value, null, "invented", "own"))],
        };
    }

    private static Saying Said(DateOnly day) => new(new(Occurred.On(day), "P2", "desk", 999));

    private static IReadOnlyList<Fact> Facts(Register register, string profile, ProfileWritten proposed, DateOnly? day = null) =>
        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(CampaignDecisions.Write(register, Said(day ?? Over), profile, proposed)).Value;

    private static ProfileEffect Begun(Register register, string profile, ProfileWritten proposed, DateOnly day) =>
        Assert.IsType<Result<ProfileEffect>.Accepted>(ProfileEffect.Begin(register, Said(day), profile, proposed, day, _ => day)).Value;

    private static ProfileEffect Of(Register register, string profile, ProfileWritten proposed, DateOnly? day = null) =>
        Begun(register, profile, proposed, day ?? Over).ToTheEnd();
}

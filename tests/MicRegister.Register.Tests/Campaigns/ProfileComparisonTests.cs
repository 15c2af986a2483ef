using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>Two versions of requirements side by side. Each loop names its seed when it fails.</summary>
public sealed class ProfileComparisonTests
{
    private static readonly string[] Intervals =
        [
            LimitKey.IntervalMonths + "microphone/sensitivity", LimitKey.IntervalDays + "microphone/response",
            LimitKey.Change + "barometer/static-pressure",
            CertificateLimits.ChangeInBands + "windscreen/insertion-loss", CertificateLimits.GreatestError + "attenuator/attenuation",
            CertificateLimits.MakersData + "windscreen/insertion-loss",
        ];

    public static TheoryData<string, double, double> Numbers()
    {
        var data = new TheoryData<string, double, double>();
        // Which way each is stricter, written down once more from what the limit is for: the stricter number comes first.
        foreach (var key in (string[])
            [
                "drift-db", "calibrator-step-db", "check-difference-db", "check-deviation-db", "check-spread-db", "check-span-hours",
                "in-place-db",
                "in-place-hours", "mount-tolerance-db", "plate-inspection-months", "flush-step-mm", "gap-tolerance-mm", "flatness-mm",
                "band-to-hz",
                "wind-ms", "gust-ms", "crosswind-ms", "crosswind-gust-ms", "temperature-most-c", "humidity-most-percent", "weather-minutes",
                "interval-months/microphone/sensitivity", "interval-days/microphone/response", "change/barometer/static-pressure",
                "check-interval-minutes", "check-to-event-minutes", "check-variation-db", "capsule-tolerance-mm",
                "change-band/windscreen/insertion-loss", "error/attenuator/attenuation", "makers-data/windscreen/insertion-loss",
            ])
        {
            data.Add(key, 1, 2);
        }
        foreach (var key in (string[])
            [
                "device-probability", "device-probability-stop", "array-probability", "decision-probability", "plate-diameter-mm",
                "plate-thickness-mm", "level-margin-db", "noise-margin-db", "spare-share", "band-from-hz", "temperature-least-c",
                "humidity-least-percent",
            ])
        {
            data.Add(key, 2, 1);
        }
        return data;
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void A_number_is_stricter_or_looser_by_what_it_limits(string key, double strict, double loose)
    {
        Assert.Equal(ClauseChange.Stricter, One(Limit(key, loose), Limit(key, strict)).Change);
        Assert.Equal(ClauseChange.Looser, One(Limit(key, strict), Limit(key, loose)).Change);
    }

    [Fact]
    public void Every_limit_has_a_direction_of_strictness()
    {
        Assert.Equal([], LimitKey.All.Select(k => k.Key).Concat(Intervals).Where(k => LimitStrictness.Find(k) is null));
        Assert.Null(LimitStrictness.Find("no-such-limit"));
        // Of the others neither way is stricter, or words decide.
        Assert.Equal(
            [
                "calibrator-class-least", "calibrator-classes", "capsule-share", "check-air", "check-test-day", "decision-rule",
                "filter-class-least",
                "gap-mm", "meter-class-least", "mounts", "response-by-angle", "response-class", "response-types",
            ],
            LimitKey.All.Select(k => k.Key).Except(Numbers().Select(n => n.Data.Item1)).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("mounts", "pole, ground-stand", "pole", ClauseChange.Stricter)]
    [InlineData("mounts", "pole", "ground-stand,pole", ClauseChange.Looser)]
    [InlineData("mounts", "pole, flush-plate", "pole, ground-stand", ClauseChange.Other)]
    [InlineData("mounts", "pole, flush-plate", "flush-plate,pole", null)]
    [InlineData("check-air", "pressure", "pressure, temperature", ClauseChange.Stricter)]
    [InlineData("check-air", "pressure, temperature", "temperature", ClauseChange.Looser)]
    [InlineData("response-types", "pressure, free-field", "pressure", ClauseChange.Stricter)]
    [InlineData("calibrator-class-least", "IEC 60942:2003 2", "IEC 60942:2003 1", ClauseChange.Stricter)]
    [InlineData("calibrator-class-least", "IEC 60942:2003 1", "IEC 60942:2003 1 or later", ClauseChange.Looser)]
    [InlineData("calibrator-class-least", "IEC 60942:2003 1 or later", "IEC 60942:2003 1 as amended", null)]
    [InlineData("calibrator-class-least", "IEC 60942:2003 1", "IEC 60942:2017 1", ClauseChange.Other)]
    [InlineData("calibrator-class-least", "IEC 60942:2003 2", "IEC 60942:2003 1 or later", ClauseChange.Other)]
    [InlineData("calibrator-class-least", "IEC 60942:1997 1", "IEC 60942:1997 1L", ClauseChange.Other)]
    [InlineData("calibrator-class-least", "IEC 60942:2003 2/C", "IEC 60942:2003 1", ClauseChange.Other)]
    [InlineData("makers-data/windscreen/insertion-loss", "until damaged", "until damaged", null)]
    [InlineData("decision-rule", "simple", "guarded", ClauseChange.Stricter)]
    [InlineData("decision-rule", "probability", "simple", ClauseChange.Looser)]
    [InlineData("decision-rule", "probability", "guarded", ClauseChange.Other)]
    public void Words_are_compared_by_what_they_allow(string key, string there, string here, ClauseChange? expected)
    {
        var compared = ProfileComparison.Of(Of(new ProfileLimit(key, null, there, "s", "own")),
            Of(new ProfileLimit(key, null, here, "s", "own")));
        Assert.Equal(expected, compared.Clauses.SingleOrDefault()?.Change);
        Assert.Equal(expected is null ? 1 : 0, compared.Same);
    }

    [Fact]
    public void An_interval_to_the_first_day_is_looser_and_a_shorter_one_beside_it_neither()
    {
        ProfileLimit Interval(double months, string? text) => Limit(Intervals[0], months) with { Text = text };
        Assert.Equal(ClauseChange.Looser, One(Interval(6, null), Interval(6, LimitKey.ToFirstDay)).Change);
        Assert.Equal(ClauseChange.Stricter, One(Interval(6, LimitKey.ToFirstDay), Interval(5, null)).Change);
        Assert.Equal(ClauseChange.Other, One(Interval(6, null), Interval(5, LimitKey.ToFirstDay)).Change);
        // Both ways from the first day reaches further than to it.
        Assert.Equal(ClauseChange.Looser, One(Interval(6, LimitKey.ToFirstDay), Interval(6, LimitKey.AroundFirstDay)).Change);
        Assert.Equal(ClauseChange.Stricter, One(Interval(6, LimitKey.AroundFirstDay), Interval(6, null)).Change);
        // Words that are not known count no way that could be compared.
        Assert.Equal(ClauseChange.Other, One(Interval(6, "whenever"), Interval(6, null)).Change);
        Assert.Equal(ClauseChange.Other, One(Interval(6, LimitKey.ToFirstDay), Interval(6, "whenever")).Change);
        // Maker's data that hold until damage hold longer than any number of months.
        ProfileLimit months = Limit(Intervals[^1], 24), untilDamaged = months with { Value = null, Text = CertificateLimits.UntilDamaged };
        Assert.Equal(ClauseChange.Stricter, One(untilDamaged, months).Change);
        Assert.Equal(ClauseChange.Looser, One(months, untilDamaged).Change);
    }

    [Fact]
    public void A_gap_has_no_order_and_a_source_is_no_figure()
    {
        Assert.Equal(ClauseChange.Other, One(Limit(LimitKey.GapMm, 7), Limit(LimitKey.GapMm, 6)).Change);
        var drift = Limit(LimitKey.DriftDb, 0.3);
        Assert.Equal(ClauseChange.OtherSource, One(drift, drift with { Source = "a rule, clause 3" }).Change);
        Assert.Equal(ClauseChange.OtherSource, One(drift, drift with { Certainty = "seen" }).Change);
        Assert.Equal(ClauseChange.OtherSource, One(drift, drift with { Clause = "3.2" }).Change);
    }

    [Fact]
    public void What_stands_in_one_alone_is_named_with_where()
    {
        var compared = ProfileComparison.Of(
            new("A", "x", [Limit(LimitKey.DriftDb, 0.3), Limit(LimitKey.GapMm, 7)]),
                new("B", "y", [Limit(LimitKey.GapMm, 7), Limit(LimitKey.WindMs, 6)]));

        Assert.Equal([(LimitKey.DriftDb, ClauseChange.OnlyThere), (LimitKey.WindMs, ClauseChange.OnlyHere)],
            compared.Clauses.Select(c => (c.Key, c.Change)));
        Assert.Equal((1, true, true), (compared.Same, compared.IsNameOther, compared.IsStatementOther));
        Assert.Equal("1 only here, 1 only there, 1 the same", compared.InWords);
        Assert.Equal("0.3 dB", compared.Clauses[0].There!.InWords);
        Assert.Equal(("Greatest wind at an event, mean", "m/s"), (compared.Clauses[1].Label, compared.Clauses[1].Unit));
    }

    [Fact]
    public void Comparing_the_other_way_round_mirrors_and_comparing_with_itself_is_empty()
    {
        for (var seed = 1; seed <= 300; seed++)
        {
            var random = new Random(seed);
            ProfileWritten a = Random(random), b = Random(random);
            ProfileComparison there = ProfileComparison.Of(a, b), back = ProfileComparison.Of(b, a);
            Assert.True(ProfileComparison.Of(a, a).IsEmpty, $"seed {seed}");
            Assert.True(
                there.Clauses.Select(c => new ProfileClause(c.Key, c.Here, c.There, Mirrored(c.Change))).SequenceEqual(back.Clauses),
                    $"seed {seed}");
            Assert.Equal(there.Same, back.Same);
            // The order in which limits are written means nothing.
            Assert.True(there.Clauses.SequenceEqual(ProfileComparison.Of(a with { Limits = [.. a.Limits.Reverse()] }, b).Clauses),
                $"seed {seed}");
            // What differs between them is all that has to be taken over to make one of the other.
            var taken = a.Limits.Where(l => there.Clauses.All(c => c.Key != l.Key))
                .Concat(there.Clauses.Select(c => c.Here).OfType<ProfileLimit>());
            Assert.True(ProfileComparison.Of(b with { Limits = [.. taken] }, b).IsEmpty, $"seed {seed}");
        }
    }

    private static ClauseChange Mirrored(ClauseChange change) => change switch
    {
        ClauseChange.Stricter => ClauseChange.Looser,
        ClauseChange.Looser => ClauseChange.Stricter,
        ClauseChange.OnlyHere => ClauseChange.OnlyThere,
        ClauseChange.OnlyThere => ClauseChange.OnlyHere,
        _ => change,
    };

    private static ProfileWritten Random(Random random) => new("R", "Invented.", [.. LimitKey.All.Select(k => k.Key).Concat(Intervals)
        .Where(_ => random.Next(3) > 0).Select(k => LimitKey.Find(k)!.Unit.Length == 0 && LimitKey.IsList(k)
            ? new ProfileLimit(k, null,
                string.Join(", ", new[] { "simple", "pole", "guarded" }.Where(_ => random.Next(2) > 0).DefaultIfEmpty("simple")), "s",
                "own")
            : new ProfileLimit(k, random.Next(1, 4), random.Next(2) == 0 ? null : LimitKey.ToFirstDay, "s" + random.Next(2), "own"))]);

    private static ProfileLimit Limit(string key, double value) => new(key, value, null, "invented", "own");

    private static ProfileWritten Of(params ProfileLimit[] limits) => new("Own", "Invented.", limits);

    private static ProfileClause One(ProfileLimit there, ProfileLimit here) =>
        Assert.Single(ProfileComparison.Of(Of(there), Of(here)).Clauses);
}

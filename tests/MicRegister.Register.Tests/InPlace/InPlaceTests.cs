using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.InPlace;

/// <summary>An array that stands unattended for a week between its checks, and comparisons of its chains with each other in between.</summary>
public sealed class InPlaceTests
{
    private static readonly Fact[] Week =
    [
        Heath.Written((LimitKey.CheckSpanHours, 240), (LimitKey.InPlaceHours, 24), (LimitKey.InPlaceDb, 0.5)),
        Heath.Placed("S1", "06-01 06:00"), Heath.Checked("S1", "06-01 07:00", CheckMoment.Before, -38.15), Heath.Event("E1", "06-04 10:00", "06-04 10:01"), Heath.Checked("S1", "06-08 07:00", CheckMoment.After, -38.15),
    ];

    [Fact]
    public void Checks_on_other_days_without_a_comparison_in_place_are_doubtful_and_with_one_they_are_not()
    {
        var without = Heath.One(Heath.With(Week));
        Assert.Equal("Its checks lie on other days, and no comparison in place, within 24 h, shows that the chain stayed as it was.", Assert.Single(without.Reasons).Text);
        Assert.Equal($"profile {Heath.Rules}, in-place-hours", without.Reasons[0].Source);
        Assert.Equal(TraceVerdict.Doubtful, without.Verdict);

        var trace = Heath.One(Heath.With([.. Week, At("06-04 12:00", 0.3)]));
        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        var evidence = Assert.Single(trace.InPlace);
        Assert.Equal((5, null, ConformityVerdict.Conforms), (evidence.Chains, evidence.Since, evidence.Verdict));
        Assert.Equal(0.3, evidence.MovedDb, 1e-9); // from the median of the five
        Assert.Equal(0.4, evidence.ExpandedDb, 1e-9); // as stated
    }

    [Fact]
    public void A_move_is_counted_from_the_first_comparison_after_the_check_and_what_all_share_is_no_move()
    {
        Fact[] facts = [.. Week, At("06-01 08:00", -0.4), At("06-04 12:00", 0.3, common: 3)];
        var trace = Heath.One(Heath.With(facts));

        var evidence = Assert.Single(trace.InPlace);
        Assert.Equal(facts[^2].Id, evidence.Since);
        Assert.Equal(0.7, evidence.MovedDb, 1e-9); // 0.3 + 0.4
        Assert.Equal(0.565685, evidence.ExpandedDb, 1e-6); // √2 · 0.4
        Assert.Equal("Compared in place on 2026-06-04 12:00 UTC it lay +0.70 dB against the others since the comparison before (U = 0.57 dB), 0.5 dB allowed.", Assert.Single(trace.Reasons).Text);
        Assert.Equal($"facts {facts[^1].Id}, {facts[^2].Id}, profile {Heath.Rules}, in-place-db", trace.Reasons[0].Source);
        // Weaker evidence than a check: it is never more than doubtful.
        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
    }

    [Theory]
    [InlineData(0.5, ConformityVerdict.Conforms)] // the limit passes
    [InlineData(0.51, ConformityVerdict.DoesNotConform)]
    public void The_limit_itself_passes(double moved, ConformityVerdict verdict) => Assert.Equal(verdict, Assert.Single(Heath.One(Heath.With([.. Week, At("06-04 12:00", moved)])).InPlace).Verdict);

    [Fact]
    public void Without_a_stated_uncertainty_the_scatter_of_the_chains_is_taken()
    {
        var compared = Heath.Compared("06-04 12:00", null, ("S1", Heath.Chain("S1"), 70.1), ("X2", ["M2"], 70.0), ("X3", ["M3"], 69.9), ("X4", ["M9"], 70.3), ("X5", ["P9"], 69.7));

        // Own parts 0.1, 0, -0.1, 0.3, -0.3: the median of their magnitudes is 0.1, times 1.4826; U is twice that.
        Assert.Equal(0.29652, Assert.Single(Heath.One(Heath.With([.. Week, compared])).InPlace).ExpandedDb, 1e-9);
    }

    [Theory]
    [InlineData("06-05 10:00", true)] // 23 h 59 min after the event
    [InlineData("06-05 10:02", false)]
    [InlineData("06-03 09:59", false)]
    [InlineData("06-03 10:00", true)]
    public void A_comparison_counts_within_the_hours_of_the_profile(string at, bool counts) => Assert.Equal(counts ? 1 : 0, Heath.One(Heath.With([.. Week, At(at, 0)])).InPlace.Count);

    [Fact]
    public void The_nearest_on_each_side_counts_and_a_chain_that_moved_before_it_was_compared_again_is_told()
    {
        Fact[] facts = [.. Week, At("06-04 06:00", 0), At("06-04 09:00", 0.1), At("06-04 11:00", 0.9), At("06-04 13:00", 0)];
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal([facts[^3].Id, facts[^2].Id], trace.InPlace.Select(k => k.Fact));
        Assert.Contains("+0.90 dB", Assert.Single(trace.Reasons).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Other_parts_another_station_and_what_lies_before_the_check_say_nothing()
    {
        Assert.Empty(Heath.One(Heath.With([.. Week, Heath.Compared("06-04 12:00", 0.4, ("S1", ["M9", "P1", "R1"], 70), ("X2", ["M2"], 70), ("X3", ["M3"], 70), ("X4", ["P9"], 70), ("X5", ["R9"], 70))])).InPlace);
        Assert.Empty(Heath.One(Heath.With([.. Week, Heath.Compared("06-04 12:00", 0.4, ("S2", Heath.Chain("S1"), 70), ("X2", ["M2"], 70), ("X3", ["M3"], 70), ("X4", ["P9"], 70), ("X5", ["R9"], 70))])).InPlace);
        // Compared on the morning before the chain was checked anew.
        Fact[] anew = [.. Week, At("06-04 08:00", 0), Heath.Checked("S1", "06-04 09:00", CheckMoment.Before, -38.15)];
        Assert.Empty(Heath.One(Heath.With(anew)).InPlace);
    }

    [Fact]
    public void A_comparison_that_was_annulled_counts_no_more_and_four_chains_are_none()
    {
        var compared = At("06-04 12:00", 0);

        Assert.Empty(Heath.One(Heath.With([.. Week, compared, Make.Annulling(compared)])).InPlace);
        Assert.Empty(Heath.One(Heath.With([.. Week, Heath.Compared("06-04 12:00", 0.4, ("S1", Heath.Chain("S1"), 70), ("X2", ["M2"], 70), ("X3", ["M3"], 70), ("X4", ["M9"], 70))])).InPlace);
    }

    [Fact]
    public void A_move_is_told_where_it_was_not_asked_for_too()
    {
        var trace = Heath.One(Heath.With([.. Heath.Flight(), At("06-02 10:00", -0.8)]));

        // Limited as the difference of two checks where the profile says nothing of comparisons.
        Assert.Contains("−0.80 dB from the others (U = 0.40 dB), 0.3 dB allowed", Assert.Single(trace.Reasons).Text, StringComparison.Ordinal);
        Assert.EndsWith(", check-difference-db", trace.Reasons[0].Source, StringComparison.Ordinal);
    }

    [Fact]
    public void At_the_desk_the_chains_that_stood_there_are_taken()
    {
        var register = Heath.With([.. Week, .. new[] { "S2", "S3", "S4", "S5" }.Select((s, i) => Heath.Placed(s, "06-01 06:00", [i < 2 ? "M" + s[1..] : i == 2 ? "M9" : "P9"], counter: 20 + i))]);
        ChainsCompared Said(params (string Station, double Level)[] levels) => new("distant loudspeaker", 250, [.. levels.Select(l => new ComparedChain(l.Station, [], l.Level, 0))], 0.4, " ");
        var saying = new Saying(new(Heath.At("06-05 10:00"), "P1", "desk", 1));

        var accepted = Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(ComparisonBook.Compare(register, saying, Heath.C, "2026-06-04T12:00:00.000Z", Said(("S1", 70), ("S2", 70), ("S3", 70), ("S4", 70), ("S5", 70))));
        var fact = Assert.Single(accepted.Value);
        Assert.Equal(Heath.Chain("S1"), Assert.IsType<ChainsCompared>(fact.Body).Chains[0].Devices);
        Assert.Contains("device:M9", fact.Subjects);
        Assert.Equal("2026-06-04T12:00:00.000Z", fact.Occurred.ToString());
        Assert.Single(Heath.One(Heath.With([.. Week, fact])).InPlace);

        Refused("5 to 1000 are allowed, not 4", "2026-06-04T12:00:00.000Z", Said(("S1", 70), ("S2", 70), ("S3", 70), ("S4", 70)));
        Refused("Station S1 is named twice", "2026-06-04T12:00:00.000Z", Said(("S1", 70), ("S1", 70), ("S3", 70), ("S4", 70), ("S5", 70)));
        Refused("Station S2: level '900': allowed is a number from -50 to 200 dB", "2026-06-04T12:00:00.000Z", Said(("S1", 70), ("S2", 900), ("S3", 70), ("S4", 70), ("S5", 70)));
        Refused("Station 'S9': Heath has no such station, and nothing was placed there", "2026-06-04T12:00:00.000Z", Said(("S9", 70), ("S2", 70), ("S3", 70), ("S4", 70), ("S5", 70)));
        Refused("Time '2026-06-04'", "2026-06-04", Said(("S1", 70), ("S2", 70), ("S3", 70), ("S4", 70), ("S5", 70)));
        Refused("lies in the future", "2026-08-04T12:00:00.000Z", Said(("S1", 70), ("S2", 70), ("S3", 70), ("S4", 70), ("S5", 70)));

        void Refused(string says, string at, ChainsCompared said) => Assert.Contains(says, Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(ComparisonBook.Compare(register, saying, Heath.C, at, said)).Why.Text, StringComparison.Ordinal);
    }

    /// <summary>S1 lies so far from four others, which read alike.</summary>
    private static Fact At(string at, double ownDb, double common = 0) =>
        Heath.Compared(at, 0.4, ("S1", Heath.Chain("S1"), 70 + ownDb + common), ("X2", ["M2"], 70 + common), ("X3", ["M3"], 70 + common), ("X4", ["M9"], 70 + common), ("X5", ["P9"], 70 + common));
}

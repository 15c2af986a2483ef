using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>What makes a trace doubtful or not valid, and what does not.</summary>
public sealed class VerdictTests
{
    [Fact]
    public void A_swap_in_mid_event_parts_it_in_two()
    {
        var swap = Heath.Placed("S1", "06-02 10:01", ["M9", "P1", "R1"], swap: new PartSwap("M1", "M9", "no signal"));
        var facts = Heath.Flight();
        facts[2] = Heath.Event("E1", "06-02 10:00", "06-02 10:02");

        var parts = Tracer.Of(Heath.With([.. facts, swap]), "E1", "S1")!.Stations;

        Assert.Equal([(Heath.Ms("06-02 10:00"), Heath.Ms("06-02 10:01"), "M1"), (Heath.Ms("06-02 10:01"), Heath.Ms("06-02 10:02"), "M9")], parts.Select(p => (p.FromMs, p.ToMs, p.Chain[0].Id)));
        Assert.All(parts, p => Assert.Contains(p.Reasons, r => r.Text.StartsWith("It stood there during a part of the event only", StringComparison.Ordinal) && r.Source == $"fact {p.Placement!.Fact}"));
        // Checks with the first microphone say nothing of the second.
        Assert.Equal((facts[1].Id, false), (parts[0].Before!.Fact, parts[1].Before is not null || parts[1].After is not null));
    }

    [Fact]
    public void A_check_that_is_rejected_makes_it_not_valid()
    {
        var facts = Heath.Flight(-38.11, -38.47);
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal(TraceVerdict.NotValid, trace.Verdict);
        // -38.47 + 38.16 = -0.31 dB from the certificates, -0.36 dB since the check before; 0.3 dB are allowed of both.
        Assert.Equal(["The check after is rejected: −0.310 dB from its certificates, 0.3 dB allowed.", "The check after is rejected: −0.360 dB since the check before, 0.3 dB allowed."], trace.Reasons.Select(r => r.Text));
        Assert.Equal($"fact {facts[3].Id}, profile {Heath.Rules}, {LimitKey.CheckDeviationDb}", trace.Reasons[0].Source);
    }

    [Fact]
    public void A_check_at_the_limit_is_accepted()
    {
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With(Heath.Flight(-38.16, -38.46))).Verdict);
    }

    [Fact]
    public void A_check_of_another_range_is_doubtful()
    {
        var facts = Heath.Flight();
        facts[0] = Heath.Placed("S1", "06-02 06:00", rangeV: 1);
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
        Assert.Equal(["The check before was made at a range of 10 V, the chain was placed at 1 V.", "The check after was made at a range of 10 V, the chain was placed at 1 V."], trace.Reasons.Select(r => r.Text));
        facts[0] = Heath.Placed("S1", "06-02 06:00", rangeV: 10);
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With(facts)).Verdict);
    }

    [Theory]
    [InlineData("06-03 20:00", true)] // 22:00 on 3 June at the heath: valid through its day
    [InlineData("06-03 22:10", false)] // 00:10 on 4 June
    public void A_certificate_is_valid_through_its_due_day(string at, bool isValid)
    {
        // Twelve months from 3 June 2025; the one of March 2026 does not count.
        Fact[] certificates = [Make.Certificate("M3", "2025-06-03", -38.06), Make.Annulling(Make.Certificate("M3", "2026-03-01", -38.06))];
        var register = Heath.With(
        [
            .. certificates, Heath.Placed("S3", "06-03 06:00"), Heath.Checked("S3", "06-03 19:00", CheckMoment.Before, -38.16, on: Heath.With(certificates)),
            Heath.Event("E1", at, at), Heath.Checked("S3", "06-03 23:00", CheckMoment.After, -38.16, on: Heath.With(certificates)),
        ]);
        var trace = Heath.One(register, station: "S3");

        Assert.Equal(isValid ? TraceVerdict.Valid : TraceVerdict.NotValid, trace.Verdict);
        Assert.Equal(!isValid, trace.Reasons.Any(r => r.Text.Contains("is valid through 2026-06-03 (", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_chain_without_a_microphone_is_not_valid_and_one_without_a_channel_is_doubtful()
    {
        var facts = Heath.Flight();
        facts[0] = Heath.Placed("S1", "06-02 06:00", ["P1", "R1"]);
        var trace = Heath.One(Heath.With(facts));
        Assert.Equal(TraceVerdict.NotValid, trace.Verdict);
        Assert.Contains(trace.Reasons, r => r.Text == "No microphone was placed there.");
        Assert.Null(trace.Applied);

        string[] parts = ["M1", "P1"];
        var without = Heath.One(Heath.With(Heath.Placed("S1", "06-02 06:00", parts), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16, devices: parts), facts[2], Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.16, devices: parts)));
        Assert.Equal("No recorder channel was placed with it.", Assert.Single(without.Reasons).Text);
        Assert.Null(without.Applied!.FullScaleDb);
    }

    [Fact]
    public void Damage_between_the_checks_is_doubtful_and_damage_after_them_is_not()
    {
        var between = Heath.Damaged("M1", "06-02 12:00");
        var trace = Heath.One(Heath.With([.. Heath.Flight(), between]));

        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
        Assert.Contains(trace.Reasons, r => r.Text.StartsWith("Between the checks", StringComparison.Ordinal) && r.Text.Contains("water in the capsule", StringComparison.Ordinal) && r.Source == $"fact {between.Id}");
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. Heath.Flight(), Heath.Damaged("M1", "06-02 17:00")])).Verdict);
    }

    [Fact]
    public void A_device_at_two_stations_at_once_makes_both_doubtful()
    {
        var (first, second) = (Heath.Flight(), Heath.Placed("S2", "06-02 07:00", ["M1", "P2", "R2"]));
        var trace = Tracer.Of(Heath.With([.. first, second]), "E1")!;

        foreach (var station in trace.Stations.Where(s => s.Placement is not null))
            Assert.Contains(station.Reasons, r => r.Weight == TraceVerdict.Doubtful && r.Text.Contains("stood at S1 (P1, 2026-06-02 06:00 UTC) and at S2 (P1, 2026-06-02 07:00 UTC) at the same time.", StringComparison.Ordinal) && r.Source == $"facts {first[0].Id}, {second.Id}");
        Assert.Equal(2, trace.Stations.Count(s => s.Placement is not null));
        // Taken in before it went on, it stood at one place.
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. first, Heath.TakenIn("S1", "06-02 16:30"), Heath.Placed("S2", "06-02 17:00", ["M1", "P2", "R2"])])).Verdict);
    }

    [Fact]
    public void A_device_that_stands_in_another_campaign_at_that_time_makes_it_doubtful()
    {
        var planned = Make.Of(new CampaignPlanned("Moor", new(2026, 6, 1), new(2026, 6, 5), "UTC", [new("2020-01-01T00:00:00.000Z", 0)], "Moor", 10, SourceClass.Other, 20, 10_000, null, null, Heath.Rules, 0, 0), "2026-05-01", Subject.Campaign("MOOR-26"));
        Fact There(string day) => FactText.WriteDerived(new(Make.On(day + "T05:00:00.000Z"), "P1", "phone-9.ABCD", 1), new ChainPlaced("X1", ["M1"], [], null, null, null, null, null, [], null), [Subject.Campaign("MOOR-26"), "device:M1"]);

        Assert.Contains(Heath.One(Heath.With([.. Heath.Flight(), planned, There("2026-06-02")])).Reasons, r => r.Weight == TraceVerdict.Doubtful && r.Text.Contains("X1 of Moor", StringComparison.Ordinal));
        // The day after the event it says nothing of it.
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. Heath.Flight(), planned, There("2026-06-04")])).Verdict);
    }

    [Theory]
    [InlineData("06-01 23:00", null, true)] // 01:00 of the same local day, 21 h before
    [InlineData("06-01 21:30", null, false)] // 23:30 of the day before, 22.5 h before: another session
    [InlineData("06-01 23:00", 12, false)]
    [InlineData("06-01 21:30", 24, true)]
    [InlineData("06-01 20:00", 24, true)] // the limit passes
    [InlineData("06-01 19:59", 24, false)]
    public void A_check_counts_by_the_local_day_or_by_hours_where_the_profile_says_so(string before, int? hours, bool counts)
    {
        Fact[] facts =
        [
            Heath.Placed("S1", "06-01 06:00"), Heath.Checked("S1", before, CheckMoment.Before, -38.16), Heath.Event("E1", "06-02 20:00", "06-02 20:01"), Heath.Checked("S1", "06-02 21:00", CheckMoment.After, -38.16),
            .. hours is { } h ? new[] { Heath.Written((LimitKey.CheckSpanHours, h)) } : [],
        ];
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal(counts ? facts[1].Id : (FactId?)null, trace.Before?.Fact);
        if (counts) Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        else Assert.Contains(hours is null ? "on the same day or in the same session" : $"within {hours} h", Assert.Single(trace.Reasons).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_session_over_local_midnight_is_one()
    {
        // 23:00 at the heath, checked at 20:00 and at 01:00.
        Fact[] facts = [Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02 18:00", CheckMoment.Before, -38.11), Heath.Event("E1", "06-02 21:00", "06-02 21:01"), Heath.Checked("S1", "06-02 23:00", CheckMoment.After, -38.19)];
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal((facts[1].Id, facts[3].Id, TraceVerdict.Valid), (trace.Before!.Fact, trace.After!.Fact, trace.Verdict));
    }

    [Fact]
    public void A_check_of_a_bare_day_is_before_or_after_by_its_moment()
    {
        Fact[] facts = [Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02", CheckMoment.After, -38.19), Heath.Checked("S1", "06-02", CheckMoment.Before, -38.11), Heath.Event("E1", "06-02 10:00", "06-02 10:01")];
        var trace = Heath.One(Heath.With(facts));

        Assert.Equal((facts[2].Id, facts[1].Id, TraceVerdict.Valid), (trace.Before!.Fact, trace.After!.Fact, trace.Verdict));
    }

    [Fact]
    public void A_reference_standard_without_a_certificate_carries_nothing()
    {
        var trace = Heath.One(Heath.With([.. Heath.Flight(), Make.Annulling(Heath.ReferenceCertificate)]));

        Assert.Equal(TraceVerdict.NotValid, trace.Verdict);
        // The calibrator was measured against it on 5 January: that is the day it needs one for.
        Assert.Contains("had no certificate on 2026-01-05", trace.Reasons[0].Text, StringComparison.Ordinal);
        // The calibrator rests on what was withdrawn.
        Assert.EndsWith("The level certificate of 2026-01-05 of Sound calibrator Model 501 rests on it.", trace.Reasons[1].Text, StringComparison.Ordinal);
        Assert.Equal(2, trace.Reasons.Count);
    }

    [Fact]
    public void A_check_at_another_station_or_with_another_part_is_none_of_it()
    {
        Fact[] facts = [Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S2", "06-02 06:30", CheckMoment.Before, -38.11, devices: Heath.Chain("S1")), Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, devices: ["M1", "P2", "R1"])];
        var trace = Heath.One(Heath.With(facts));

        Assert.Null(trace.Before);
        Assert.Null(trace.After);
    }
}

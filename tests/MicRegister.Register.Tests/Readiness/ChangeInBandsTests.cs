using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using static MicRegister.Register.Campaigns.CertificateLimits;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// Change in each third-octave band since the certificate before. Figures of the limits: 14 CFR 36, A36.3.9.10 (0.4 dB, windscreens) and
/// A36.3.9.5 (0.2 dB, noise sources), seen, 2021 edition; "may not exceed", so that the limit itself passes.
/// </summary>
public sealed class ChangeInBandsTests
{
    private const string Rule = "change-in-bands";

    private static Screens Measured(params (double Hz, double Db)[] now) => new Screens().Limit(ChangeInBands, 0.4)
        .With("2025-12-01", Screens.Curve()).With("2026-05-01", Screens.Curve(others: now));

    // 0.2 dB before: 0.6 is a change of 0.4 exactly, 0.6001 of 0.4001, either way and at any one band of 24.
    [Theory]
    [InlineData(1000, 0.6, true)]
    [InlineData(1000, 0.6001, false)]
    [InlineData(1000, -0.2, true)]
    [InlineData(1000, -0.2001, false)]
    [InlineData(50, 0.6001, false)]
    [InlineData(250, 0.6001, false)]
    [InlineData(3150, 0.6001, false)]
    [InlineData(10_000, 0.6001, false)]
    [InlineData(10_000, 0.6, true)]
    public void Each_band_is_held_against_the_limit(double hz, double db, bool passes)
    {
        var screens = Measured((hz, db));

        if (passes) screens.Passes(Rule);
        else screens.Finds(Rule, Gravity.Stops, $" at {hz.ToString(System.Globalization.CultureInfo.InvariantCulture)} Hz", "1 of 24 exceed it", "0.4 dB");
    }

    [Fact]
    public void The_worst_band_is_named_and_all_that_exceed_it_counted() =>
        Measured((500, 0.7), (1000, -0.9), (2000, 0.65)).Finds(Rule, Gravity.Stops, "−1.100 dB at 1000 Hz from 2025-12-01 to 2026-05-01", "3 of 24");

    [Fact]
    public void Each_angle_is_held_against_the_same_angle()
    {
        IReadOnlyList<(double?, ResponseCurve)> Table(double at30) => [(0, Screens.Flat()), (30, Screens.Flat(others: (1000, at30)))];
        Screens With(double at30) => new Screens().Limit(ChangeInBands, 0.4).With("2025-12-01", Table(0.2)).With("2026-05-01", Table(at30));

        With(0.6).Passes(Rule);
        With(0.6001).Finds(Rule, Gravity.Stops, "at 1000 Hz and 30°", "1 of 48");
    }

    [Fact]
    public void An_angle_that_one_lacks_is_said() => new Screens().Limit(ChangeInBands, 0.4)
        .With("2025-12-01", [(0, Screens.Flat()), (30, Screens.Flat())]).With("2026-05-01", [(0, Screens.Flat())])
        .Finds(Rule, Gravity.Risks, "is not known at 30°");

    // The band of a point is that whose edges it lies between; nothing is worked out between points of a curve.
    [Fact]
    public void Bands_that_one_lacks_are_said_and_not_borrowed_from_their_neighbours()
    {
        ResponseCurve Without(params double[] hz) => new([.. Screens.Flat().Points.Where(p => !hz.Contains(p.Hz))]);

        new Screens().Limit(ChangeInBands, 0.4)
            .With("2025-12-01", [(null, Without(50, 63, 1000))]).With("2026-05-01", Screens.Curve(others: (50, 5)))
            .Finds(Rule, Gravity.Risks, "is not known at 50 to 63, 1000 Hz");
    }

    [Fact]
    public void A_band_that_is_not_used_is_not_missed_and_still_held_against_the_limit()
    {
        var high = new CurvePoint(12_500, 0.9, 0.1);
        Screens With(ResponseCurve now, ResponseCurve before) => new Screens().Limit(ChangeInBands, 0.4)
            .With("2025-12-01", [(null, before)]).With("2026-05-01", [(null, now)]);
        var flat = Screens.Flat();
        ResponseCurve Longer(double db) => new([.. flat.Points, high with { LevelDb = db }]);

        With(Longer(0.2), Longer(0.2)).Passes(Rule);
        With(Longer(0.9), Longer(0.2)).Finds(Rule, Gravity.Stops, "at 12500 Hz");
        With(Longer(0.9), flat).Finds(Rule, Gravity.Risks, "is not known at 12500 Hz");
    }

    [Fact]
    public void The_plan_widens_the_bands_that_are_asked() => Measured().Used(50, 20_000)
        .Finds(Rule, Gravity.Risks, "is not known at 12500 to 20000 Hz: not both curves have a value there");

    // A plan from elsewhere whose band cannot be is asked for the usual one, so that it does not ask for nothing.
    [Theory]
    [InlineData(2000, 1000)]
    [InlineData(0.5, 10_000)]
    [InlineData(50, 2e6)]
    public void A_plan_whose_band_cannot_be_is_asked_for_the_usual_one(double fromHz, double toHz)
    {
        ResponseCurve gap = new([.. Screens.Flat().Points.Where(p => p.Hz != 1000)]);

        new Screens().Limit(ChangeInBands, 0.4).Used(fromHz, toHz).With("2025-12-01", [(null, gap)]).With("2026-05-01", [(null, gap)])
            .Finds(Rule, Gravity.Risks, "is not known at 1000 Hz: not both");
    }

    // A certificate for each angle, all of one day: not only the one that was entered last.
    [Theory]
    [InlineData(0.7, 0.2)]
    [InlineData(0.2, 0.7)]
    public void Each_certificate_of_the_newest_day_is_held_against_the_one_before_of_its_angle(double aheadDb, double asideDb)
    {
        var screens = new Screens().Limit(ChangeInBands, 0.4);
        screens.Certified("2025-12-01", Screens.Curve(), angleDeg: 0);
        screens.Certified("2025-12-01", Screens.Curve(), angleDeg: 30);
        screens.Certified("2026-05-01", Screens.Curve(others: (1000, aheadDb)), angleDeg: 0);
        screens.Certified("2026-05-01", Screens.Curve(others: (1000, asideDb)), angleDeg: 30);

        screens.Finds(Rule, Gravity.Stops, "+0.500 dB at 1000 Hz");
    }

    // 0.6 dB from the good result, 0.3 dB from the bad one.
    [Fact]
    public void A_result_that_a_person_found_to_be_bad_is_none_to_be_held_against()
    {
        var screens = new Screens().Limit(ChangeInBands, 0.4).With("2024-12-01", Screens.Curve());
        var bad = screens.Certified("2025-12-01", Screens.Curve(0.5));
        screens.With("2026-05-01", Screens.Curve(0.8)).Passes(Rule);

        var review = new AlarmReviewed(bad.Id.ToString(), AlarmDecision.BadResult, "leak");
        screens.Add(Make.Of(review, "2025-12-03", Subject.Device(Screens.Screen)))
            .Finds(Rule, Gravity.Stops, "+0.600 dB", "from 2024-12-01 to 2026-05-01");
    }

    // A profile that uses 1 kHz to 2 kHz only asks for those bands.
    [Fact]
    public void The_profile_narrows_the_bands_that_are_asked()
    {
        ResponseCurve few = new([.. Screens.Flat().Points.Where(p => p.Hz is >= 1000 and <= 2000)]);

        new Screens().Limit(ChangeInBands, 0.4).Limit(LimitKey.BandFromHz, 1000).Limit(LimitKey.BandToHz, 2000)
            .With("2025-12-01", [(null, few)]).With("2026-05-01", [(null, few)]).Passes(Rule);
    }

    [Fact]
    public void The_first_certificate_has_nothing_to_be_held_against() =>
        new Screens().Limit(ChangeInBands, 0.4).With("2026-05-01", Screens.Curve()).Passes(Rule);

    [Fact]
    public void A_certificate_without_a_curve_is_said_to_hold_none() => new Screens().Limit(ChangeInBands, 0.4)
        .With("2025-12-01", Screens.Curve()).With("2026-05-01", null)
        .Finds(Rule, Gravity.Risks, "the certificate of 2026-05-01 holds no curve");

    [Fact]
    public void A_curve_that_is_not_here_is_said_to_be_unread() => new Screens().Limit(ChangeInBands, 0.4)
        .With("2025-12-01", Screens.Curve(), isHere: false).With("2026-05-01", Screens.Curve())
        .Finds(Rule, Gravity.Risks, "the curve of 2025-12-01 cannot be read here");

    [Fact]
    public void What_was_measured_in_another_way_is_not_compared_and_said() => new Screens().Limit(ChangeInBands, 0.4)
        .With("2025-12-01", Screens.Curve(), method: "in a duct").With("2026-05-01", Screens.Curve(5))
        .Finds(Rule, Gravity.Risks, "measured in another way");

    [Fact]
    public void Only_the_last_two_count() => new Screens().Limit(ChangeInBands, 0.4)
        .With("2024-12-01", Screens.Curve(3)).With("2025-12-01", Screens.Curve()).With("2026-05-01", Screens.Curve()).Passes(Rule);

    [Fact]
    public void Work_that_makes_another_device_of_it_parts_the_two() => new Screens().Limit(ChangeInBands, 0.4)
        .With("2025-12-01", Screens.Curve(3)).Serviced("2026-02-01", ServiceKind.Repair, beginsAnew: true).With("2026-05-01", Screens.Curve())
        .Passes(Rule);

    [Fact]
    public void Who_looked_at_it_clears_it()
    {
        var screens = Measured((1000, 0.7));
        var alarm = screens.Certified("2026-05-02", Screens.Curve(0.9));
        screens.Finds(Rule, Gravity.Stops);

        screens.Add(Make.Of(new AlarmReviewed(alarm.Id.ToString(), AlarmDecision.NoChange, "new foam of one batch"), "2026-05-03", Subject.Device(Screens.Screen)))
            .Passes(Rule);
    }

    // U of the change: sqrt(0.1² + 0.1²) = 0.1414 dB, by hand; guarded by it, 0.2586 is accepted, 0.2587 and 0.5414 are open, 0.5415 rejected.
    [Theory]
    [InlineData(0.2585, null)]
    [InlineData(0.2587, Gravity.Risks)]
    [InlineData(0.5414, Gravity.Risks)]
    [InlineData(0.5415, Gravity.Stops)]
    public void The_decision_rule_takes_the_uncertainty_of_both(double changeDb, Gravity? gravity)
    {
        var screens = Measured((1000, 0.2 + changeDb)).Limit(LimitKey.DecisionRule, null, "guarded");

        if (gravity is { } found) screens.Finds(Rule, found, "at 1000 Hz");
        else screens.Passes(Rule);
    }

    [Fact]
    public void Without_an_uncertainty_a_rule_that_asks_for_it_leaves_it_open() => new Screens().Limit(ChangeInBands, 0.4)
        .Limit(LimitKey.DecisionRule, null, "guarded").With("2025-12-01", Screens.Curve()).With("2026-05-01", Screens.Curve(expandedDb: null))
        .Finds(Rule, Gravity.Risks, "Without an uncertainty it cannot be decided", "24 of 24");

    [Theory]
    [InlineData(0.4, true)]
    [InlineData(0.4001, false)]
    public void A_noise_source_may_change_by_its_own_limit(double db, bool passes)
    {
        var screens = new Screens("noise-source").Limit(ChangeInBands, 0.2).With("2025-12-01", Screens.Curve()).With("2026-05-01", Screens.Curve(others: (4000, db)));

        if (passes) screens.Passes(Rule);
        else screens.Finds(Rule, Gravity.Stops, "noise-level changed by +0.200 dB at 4000 Hz", "0.2 dB");
    }

    [Fact]
    public void A_profile_that_asks_for_none_finds_none() =>
        new Screens().With("2025-12-01", Screens.Curve()).With("2026-05-01", Screens.Curve(5)).Passes(Rule);

    [Theory]
    [InlineData(0.6, false)]
    [InlineData(0.6001, true)]
    public void A_change_beyond_the_limit_puts_what_was_recorded_in_between_in_doubt(double db, bool isInDoubt)
    {
        var screens = new Screens().Limit(ChangeInBands, 0.4).With("2025-12-01", Screens.Curve()).With("2026-08-01", Screens.Curve(others: (1000, db)));
        var register = screens.Register();

        var doubts = DoubtBook.OfDevice(register, Screens.Screen);
        Assert.Equal(isInDoubt, doubts.Count == 1);
        Assert.Equal(isInDoubt, Heath.One(register).Reasons.Any(r => r.Text.Contains("in the third-octave band at 1000 Hz", StringComparison.Ordinal)));
        if (!isInDoubt) return;
        Assert.Equal((DoubtKind.OutOfTolerance, "dB"), (doubts[0].Kind, doubts[0].Unit));
        Assert.Equal(0.4001, doubts[0].GreatestDb!.Value, 1e-9);
        Assert.Equal(doubts[0], DoubtBook.Find(register, doubts[0].Key)! with { Settled = doubts[0].Settled });
        Assert.EndsWith("in the third-octave band at 1000 Hz on 2026-08-01; 0.4 dB are allowed in each.", doubts[0].Text, StringComparison.Ordinal);
        // By what is usual, no limit in bands is held against it.
        Assert.Empty(DoubtBook.OfDevice(register, Screens.Screen, null));
    }

    // A certificate of the day of the flight may have been measured after it.
    [Theory]
    [InlineData("2026-06-01", false)]
    [InlineData("2026-06-02", true)]
    public void The_day_of_the_later_certificate_is_in_doubt_too(string day, bool isInDoubt)
    {
        var register = new Screens().Limit(ChangeInBands, 0.4).With("2025-12-01", Screens.Curve())
            .With(day, Screens.Curve(others: (1000, 0.7))).Register();

        Assert.Single(DoubtBook.OfDevice(register, Screens.Screen));
        var reasons = Heath.One(register).Reasons.Where(r => r.Text.Contains("in the third-octave band at", StringComparison.Ordinal));
        Assert.Equal(isInDoubt, reasons.Any());
    }

    [Fact]
    public void An_earlier_state_reads_the_same_curves()
    {
        var register = Measured((1000, 0.7)).Register();

        var earlier = register.AsOfSequence(register.Count - 1);

        Assert.Contains(CampaignReadiness.Judge(earlier, Heath.C, Make.Day("2026-05-20"))!.Findings, f => f.Rule == Rule && f.Gravity == Gravity.Stops);
    }
}

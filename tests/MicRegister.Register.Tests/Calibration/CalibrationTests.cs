using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Calibration;

public sealed class CalibrationTests
{
    // Hand algebra: 50 mV/Pa is -26.0206 dB; 1 % at k = 2 is 0.0434 dB; 0.5 mV/Pa of 50 is 1 %.
    [Theory]
    [InlineData(50, "mV/Pa", 1, "%", -26.020599913, 0.043429448)]
    [InlineData(0.05, "V/Pa", 0.0005, "V/Pa", -26.020599913, 0.043429448)]
    [InlineData(50, "mV/Pa", 0.1, "dB", -26.020599913, 0.05)]
    [InlineData(-26.02, "dB re 1 V/Pa", 0.1, "dB", -26.02, 0.05)]
    [InlineData(94.02, "dB", 0.1, "dB", 94.02, 0.05)]
    public void Figures_become_levels(double value, string unit, double expanded, string uncertaintyUnit, double levelDb, double u)
    {
        var level = ResultLevel.Of(new(AdjustmentState.AsFoundAndLeft, value, unit, expanded, uncertaintyUnit, null))!.Value;

        Assert.Equal(levelDb, level.LevelDb, 8);
        Assert.Equal(u, level.StandardUncertaintyDb!.Value, 8);
        Assert.True(level.FactorWasAssumed);
    }

    [Fact]
    public void Figures_that_cannot_be_levels_are_none()
    {
        Assert.Null(ResultLevel.Of(new(AdjustmentState.AsFoundAndLeft, -50, "mV/Pa", 1, "%", 2)));
        Assert.Null(ResultLevel.Of(new(AdjustmentState.AsFoundAndLeft, 50, "furlong", 1, "%", 2)));
        Assert.Null(ResultLevel.Of(new(AdjustmentState.AsFoundAndLeft, 50, "mV/Pa", 0, "%", 2))!.Value.StandardUncertaintyDb);
        Assert.Null(ResultLevel.Of(new(AdjustmentState.AsFoundAndLeft, 50, "mV/Pa", null, null, 2))!.Value.StandardUncertaintyDb);
    }

    // Month ends: the clamp as written down at DueDay.
    [Theory]
    [InlineData("2026-08-31", 6, "2027-02-28")]
    [InlineData("2027-08-31", 6, "2028-02-29")]
    [InlineData("2024-02-29", 12, "2025-02-28")]
    [InlineData("2024-02-29", 48, "2028-02-29")]
    [InlineData("2026-01-31", 1, "2026-02-28")]
    [InlineData("2026-03-31", 1, "2026-04-30")]
    [InlineData("2026-05-15", 0, "2026-05-15")]
    public void Months_keep_the_day_or_take_the_months_last(string from, int months, string due) =>
        Assert.Equal(Make.Day(due), DueDay.AfterMonths(Make.Day(from), months));

    [Fact]
    public void Days_count_from_the_day_of_calibration() => Assert.Equal(Make.Day("2026-04-01"), DueDay.AfterDays(Make.Day("2026-01-01"), 90));

    [Fact]
    public void Results_of_another_frequency_are_another_series()
    {
        var other = Make.Of(Make.Issued(-30) with { FrequencyHz = 1000 }, "2021-01-01", "device:A1");
        var device = Device([Make.Certificate("A1", "2020-01-01", -26), other, Make.Certificate("A1", "2022-01-01", -26.02)]);

        Assert.Equal([-26, -26.02], CalibrationSeries.Of(device, "sensitivity")!.Current.Points.Select(p => p.LevelDb));
    }

    [Fact]
    public void A_repair_begins_a_new_life()
    {
        var repair = Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2021-06-01", "device:A1");
        var device = Device([Make.Certificate("A1", "2020-01-01", -26), Make.Certificate("A1", "2021-01-01", -26.1), repair, Make.Certificate("A1", "2022-01-01", -25)]);

        var series = CalibrationSeries.Of(device, "sensitivity")!;
        Assert.Equal(2, series.Lives.Count);
        Assert.Equal(-25, Assert.Single(series.Current.Points).LevelDb);
    }

    [Fact]
    public void A_confirmed_step_begins_anew_and_a_bad_result_is_left_out()
    {
        var (a, b, c) = (Make.Certificate("A1", "2020-01-01", -26), Make.Certificate("A1", "2021-01-01", -25), Make.Certificate("A1", "2022-01-01", -26.01));
        Fact Review(AlarmDecision decision) => Make.Of(new AlarmReviewed(b.Id.ToString(), decision, "looked"), "2022-02-01", "device:A1");

        CalibrationSeries Of(AlarmDecision decision) => CalibrationSeries.Of(Device([a, b, c, Review(decision)]), "sensitivity")!;
        Assert.Equal([[-26], [-25, -26.01]], Of(AlarmDecision.LastingStep).Levels.Select(l => l.Select(p => p.LevelDb)));
        Assert.Equal([1], Of(AlarmDecision.LastingStep).Current.History.Restarts);
        Assert.Equal([-26, -26.01], Of(AlarmDecision.BadResult).Current.Points.Select(p => p.LevelDb));
        Assert.Equal(-25, Assert.Single(Of(AlarmDecision.BadResult).LeftOut).LevelDb);
        Assert.Equal([1], Of(AlarmDecision.NoChange).Current.History.Reviewed);
        Assert.Empty(Of(AlarmDecision.NoChange).Current.History.Restarts);
    }

    [Fact]
    public void An_adjustment_ends_a_level_with_what_was_found()
    {
        var adjusted = Make.Of(Make.Issued(0) with
        {
            Results = [new(AdjustmentState.AsFound, -26.3, "dB re 1 V/Pa", 0.06, "dB", 2), new(AdjustmentState.AsLeft, -26, "dB re 1 V/Pa", 0.06, "dB", 2)],
        }, "2021-01-01", "device:A1");

        var series = CalibrationSeries.Of(Device([Make.Certificate("A1", "2020-01-01", -26), adjusted]), "sensitivity")!;

        Assert.Equal([[-26, -26.3], [-26]], series.Levels.Select(l => l.Select(p => p.LevelDb)));
        Assert.Equal([2], Assert.Single(series.Lives).History.Restarts);
    }

    // Hand algebra: -0.01 dB/kPa; measured at 96.325 kPa, 5 kPa under the reference, it reads 0.05 dB high.
    [Fact]
    public void A_result_is_brought_to_reference_conditions_by_the_devices_own_coefficients()
    {
        var certificate = Make.Of(Make.Issued(-25.95) with { Air = new(96.325, 23, 50) }, "2020-01-01", "device:A1");
        var device = Device([Make.Registered("A1", "1", details: ("pressure-db-per-kpa", -0.01)), certificate]);

        Assert.Equal(-26, CalibrationSeries.Of(device, "sensitivity")!.Current.Newest.LevelDb, 9);
    }

    [Fact]
    public void Results_stand_by_their_days_however_their_facts_are_ordered()
    {
        // At home, UTC+2, the bare day 4 May begins before the instant 3 May 23:30 UTC.
        var founded = Make.Of(new RegisterFounded("R", "House", "Zone/Home", [new("2020-01-01T00:00:00.000Z", 120)]), "2020-01-01", Subject.TheRegister);
        var instant = FactText.WriteDerived(new(Make.On("2024-05-03T23:30:00.000Z"), "P1", "bench", 0), Make.Issued(-26.02), ["device:A1"]);

        var series = CalibrationSeries.Of(Device([founded, Make.Certificate("A1", "2024-05-04", -26), instant]), "sensitivity")!;

        Assert.Equal([-26.02, -26], series.Current.Points.Select(p => p.LevelDb));
    }

    [Fact]
    public void The_certificate_in_use_counts_also_where_it_states_no_uncertainty()
    {
        var series = CalibrationSeries.Of(Device([Make.Certificate("A1", "2024-01-01", -38), Make.Certificate("A1", "2025-01-01", -40.5, null)]), "sensitivity")!;

        Assert.Equal((-40.5, Make.Day("2025-01-01")), (series.InUseDb, series.InUseDay));
        Assert.Equal(-38, series.Current.Newest.LevelDb);
    }

    [Fact]
    public void Results_without_uncertainty_make_no_series()
    {
        Assert.Null(CalibrationSeries.Of(Device([Make.Certificate("A1", "2020-01-01", -26, null)]), "sensitivity"));
        Assert.Null(CalibrationSeries.Of(Device([Make.Registered("A1", "1")]), "sensitivity"));
        Assert.Equal(1, CalibrationSeries.Of(Device([Make.Certificate("A1", "2020-01-01", -26, null), Make.Certificate("A1", "2021-01-01", -26)]), "sensitivity")!.WithoutUncertainty);
    }

    // By hand: of a certificate that is stated anew n times one counts, and without the last one the one before it.
    [Fact]
    public void Of_a_certificate_stated_anew_again_and_again_one_counts()
    {
        List<Fact> facts = [Make.Registered("A1", "1"), Make.Certificate("A1", "2026-06-24", -38)];
        for (var i = 1; i <= 6; i++)
        {
            var register = FactList.RegisterOf(facts);
            var saying = new Saying(new(Occurred.At(new(2026, 7, 1, 8, i, 0, TimeSpan.Zero)), "P1", "desk", i));
            var standing = Assert.Single(register.Device("A1")!.Certificates, c => !c.IsAnnulled).Fact;

            var said = CalibrationDecisions.Restate(
                register, saying, standing.ToString(), new(2026, 6, 24), new(2026, 7, 2), Make.Issued(-38 - (i / 10.0)));

            facts.AddRange(Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(said).Value);
            Assert.Equal(-38 - (i / 10.0), Counting(facts));
        }
        // Taken back, the last one gives way to the one before it.
        facts.Add(Make.Annulling(facts.Last(f => f.Body is CertificateIssued)));
        Assert.Equal(-38.5, Counting(facts));

        static double Counting(List<Fact> facts) =>
            Assert.Single(FactList.RegisterOf(facts).Device("A1")!.Certificates, c => !c.IsAnnulled).Issued.Results[0].Value;
    }

    private static DeviceState Device(IEnumerable<Fact> facts) => FactList.RegisterOf(facts).Device("A1")!;
}

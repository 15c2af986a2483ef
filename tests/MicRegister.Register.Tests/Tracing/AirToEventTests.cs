using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>
/// The air on the way from the checks, at 06:30 and 16:00, to the event at 10:00. The mean of the checks is -38.15 dB; without the air its
/// standard uncertainty is 0.0590198 dB. Figures by hand.
/// </summary>
public sealed class AirToEventTests
{
    private const double Mean = -38.15;
    private const double Alone = 0.0590198;
    private const double Db = 1e-6;

    // Rectangular, GUM 4.3.7: half-width over √3. Its level falls by 0.02 dB/K, and it may have been 20 K off.
    private static readonly double Unknown = 0.02 * 20 / Math.Sqrt(3);

    [Fact]
    public void What_checks_do_not_state_is_not_taken_from_reference_conditions()
    {
        var applied = Applied(Heath.With([Follows(), .. Heath.Flight(), Heath.Weather("06-02 10:00", 27)]));

        Assert.Equal(Mean, applied.VoltsDb, Db); // -0.02 dB/K · (27 - 23) K would make -38.23 of it
        Assert.Equal(Root(Alone, Unknown), applied.StandardDb, Db);
        var term = applied.Terms[^1];
        Assert.Equal((0, "none"), (term.ValueDb, term.Source));
        Assert.Equal(Unknown, term.StandardDb, Db);
        Assert.Equal(
            "no temperature was read or noted at the check before and the check after; nothing is added for that, and ± 20 K count in U",
            term.Remark);
        Starts("How temperature changed from the checks to the event is not known in full: ", applied.Caution);
    }

    [Fact]
    public void Weather_that_was_noted_at_the_checks_stands_in_for_what_they_do_not_state()
    {
        var (early, late) = (Heath.Weather("06-02 06:45", 20), Heath.Weather("06-02 15:00", 24));
        var applied = Applied(Heath.With([Follows(), .. Heath.Flight(), early, Heath.Weather("06-02 10:00", 27), late]));

        Assert.Equal(Mean - (0.02 * (27 - 22)), applied.VoltsDb, Db);
        Assert.Equal(Root(Alone, 0.02 * 1), applied.StandardDb, Db);
        Assert.Null(applied.Caution);
        Assert.Equal(
            $"temperature of the check before by the weather noted within three hours of it (fact {early.Id}, read 2026-06-02T06:45:00.000Z); "
                + $"temperature of the check after by the weather noted within three hours of it (fact {late.Id}, read 2026-06-02T15:00:00.000Z)",
            applied.Terms[^1].Remark);
    }

    [Fact]
    public void What_a_check_states_comes_before_what_was_noted_then()
    {
        Fact[] notes = [Heath.Weather("06-02 06:45", 35), Heath.Weather("06-02 10:00", 27), Heath.Weather("06-02 15:00", 35)];
        var flight = Heath.Flight(airBefore: new(null, 20, null), airAfter: new(null, 24, null));
        var applied = Applied(Heath.With([Follows(), .. flight, .. notes]));

        Assert.Equal(Mean - (0.02 * (27 - 22)), applied.VoltsDb, Db);
        Assert.Null(applied.Terms[^1].Remark);
    }

    [Fact]
    public void Of_two_checks_the_one_that_states_its_air_is_corrected_and_the_other_counts_in_the_uncertainty()
    {
        var flight = Heath.Flight(airBefore: new(null, 20, null));
        var noted = Heath.Weather("06-02 10:00", 27);
        var applied = Applied(Heath.With([Follows(), .. flight, noted]));

        Assert.Equal(Mean - (0.02 * (27 - 20) / 2), applied.VoltsDb, Db);
        Assert.Equal(Root(Alone, 0.02 * 1, Unknown / 2), applied.StandardDb, Db);
        Assert.Contains("at the check after;", applied.Terms[^1].Remark, StringComparison.Ordinal);
        Assert.Equal($"weather of E1: temperature by fact {noted.Id}, read 2026-06-02T10:00:00.000Z", applied.Terms[^1].Source);
    }

    [Theory]
    [InlineData("2026-06-02T09:30:00.000Z", true)] // three hours after the check
    [InlineData("2026-06-02T09:30:00.001Z", false)]
    public void Weather_counts_for_a_check_up_to_three_hours_away(string at, bool counts)
    {
        var note = FactText.WriteDerived(
            new(Make.On(at), "P1", "phone-1.ABCD", 5), new WeatherNoted(null, null, 20, null, null), [Subject.Campaign(Heath.C)]);
        var flight = Heath.Flight(airAfter: new(null, 20, null));
        var applied = Applied(Heath.With([Follows(), .. flight, note, Heath.Weather("06-02 10:00", 27)]));

        Assert.Equal(Mean - (0.02 * 7 * (counts ? 1 : 0.5)), applied.VoltsDb, Db);
    }

    [Fact]
    public void A_check_of_a_bare_day_has_no_instant_to_look_for_weather_at()
    {
        // The day begins at 22:00 UTC of the day before.
        Fact[] facts =
        [
            Follows(), Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02", CheckMoment.Before, -38.15),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Heath.Weather("06-01 22:00", 20), Heath.Weather("06-02 10:00", 27),
        ];

        var applied = Applied(Heath.With(facts));
        Assert.Equal(Mean, applied.VoltsDb, Db);
        Assert.NotNull(applied.Caution);
    }

    [Fact]
    public void Weather_that_was_noted_of_a_bare_day_is_of_no_instant()
    {
        // At home the day begins at 22:00 UTC of the day before: half an hour from the event.
        var note = FactText.WriteDerived(
            new(Make.On("2026-06-02"), "P1", "desk-1.ABCD", 5), new WeatherNoted(null, null, 27, null, null), [Subject.Campaign(Heath.C)]);
        Fact[] facts =
        [
            Follows(), Heath.Placed("S1", "06-01 20:00"),
            Heath.Checked("S1", "06-01 21:00", CheckMoment.Before, -38.15, air: new(null, 20, null)),
            Heath.Event("E1", "06-01 22:30", "06-01 22:31"), note,
        ];

        Assert.Equal(Mean, Applied(Heath.With(facts)).VoltsDb, Db);
    }

    [Fact]
    public void Each_quantity_is_taken_from_the_nearest_note_that_has_it()
    {
        var flight = Heath.Flight(airBefore: new(101, 22, null), airAfter: new(101, 22, null));
        Fact[] facts = [Follows(0.01), .. flight, Heath.Weather("06-02 09:55", 27), Heath.Weather("06-02 09:00", 15, 100)];

        Assert.Equal(Mean - (0.02 * (27 - 22)) + (0.01 * (100 - 101)), Applied(Heath.With(facts)).VoltsDb, Db);
    }

    [Fact]
    public void Where_no_weather_was_noted_at_the_event_the_air_counts_in_the_uncertainty()
    {
        var flight = Heath.Flight(airBefore: new(101, 22, 50), airAfter: new(101, 22, 50));
        var applied = Applied(Heath.With([Follows(0.01, 0.001), .. flight]));

        Assert.Equal(Mean, applied.VoltsDb, Db);
        Assert.Equal(Root(Alone, Unknown, 0.01 * 3 / Math.Sqrt(3), 0.001 * 40 / Math.Sqrt(3)), applied.StandardDb, Db);
        Starts(
            "no static pressure was noted within three hours; nothing is added, and ± 3 kPa count in U; no temperature",
            applied.Terms[^1].Remark);
        Starts("How static pressure and temperature and humidity changed from the checks", applied.Caution);
    }

    [Theory]
    [InlineData(20, 0.2400330)] // 101.325 · (1 - 0.0065 · 20 / 288.15)^5.25588 = 101.0849670 kPa, by hand
    [InlineData(3000, 31.2166)] // 70.1085 kPa in the tables of ISO 2533 (geopotential height)
    public void By_certificates_the_air_lies_between_reference_conditions_and_whatever_the_site_may_have(double altitudeM, double belowKPa)
    {
        var planned = (CampaignPlanned)Heath.Planned().Body;
        var plan = Make.Of(planned with { AltitudeM = altitudeM }, "2026-05-02", 2, Subject.Campaign(Heath.C));
        Fact[] facts = [Follows(0.01, 0.001), plan, Heath.Chosen(SensitivityRule.Certificate), .. Heath.Flight()];

        var (without, with) = (Applied(Heath.With(facts)), Applied(Heath.With([.. facts, Heath.Weather("06-02 10:00", 27, 100, 40)])));
        var certain = Root(0.03, 0.02, 0); // of the microphone 0.06 / 2, of the gain 0.04 / 2
        Assert.Equal(-38.16, without.VoltsDb, Db);
        Assert.Equal(
            Root(certain, 0.02 * 35 / Math.Sqrt(3), 0.01 * (belowKPa + 3) / Math.Sqrt(3), 0.001 * 50 / Math.Sqrt(3)), without.StandardDb,
            belowKPa > 1 ? 1e-5 : Db);
        Starts("How static pressure and temperature and humidity changed from reference conditions to", without.Caution);
        // A certificate holds for 23 °C, 101.325 kPa and 50 %.
        Assert.Equal(-38.16 - (0.02 * (27 - 23)) + (0.01 * (100 - 101.325)) + (0.001 * (40 - 50)), with.VoltsDb, Db);
        Assert.Equal(Root(certain, 0.02 * 1, 0.01 * 0.05), with.StandardDb, Db);
        Assert.Null(with.Caution);
    }

    [Fact]
    public void A_microphone_without_coefficients_has_nothing_to_say_of_the_air()
    {
        var applied = Applied(Heath.With(Heath.Flight()));

        Assert.Single(applied.Terms);
        Assert.Null(applied.Caution);
        Assert.Equal(Alone, applied.StandardDb, Db);
    }

    [Fact]
    public void Knowing_less_of_the_air_never_makes_an_uncertainty_smaller()
    {
        const int seed = 20261130;
        var random = new Random(seed);
        var (larger, equal) = (0, 0);
        for (var round = 0; round < 150; round++)
        {
            var told = new[]
            {
                Follows(Coefficient(0.02), Coefficient(0.002), Coefficient(0.03)),
                Heath.Chosen(random.Next(4) == 0 ? SensitivityRule.Certificate : SensitivityRule.MeanOfChecks),
            };
            double?[] known = [.. Enumerable.Range(0, 15).Select(i => random.Next(4) == 0 ? (double?)null : Value(i % 3))];
            double?[] less = [.. known.Select(v => random.Next(3) == 0 ? null : v)];

            var (with, without) = (Applied(Register(told, known)), Applied(Register(told, less)));
            var more = without.StandardDb - with.StandardDb;
            Assert.True(more >= -1e-12, $"seed {seed}, round {round}: {without.StandardDb} after {with.StandardDb}");
            Assert.True(more < 1e-12 || without.Caution is not null, $"seed {seed}, round {round}: without a word");
            if (more > 1e-9) larger++;
            else equal++;
        }
        Assert.True(larger > 50 && equal > 10, $"{larger} larger, {equal} equal");

        double Coefficient(double most) => random.Next(4) == 0 ? 0 : Math.Round(((2 * random.NextDouble()) - 1) * most, 4);
        double Value(int quantity) => quantity == 0 ? 98 + random.Next(5) : quantity == 1 ? random.Next(-10, 35) : random.Next(20, 95);
        StatedAir Air(double?[] of, int at) => new(of[at], of[at + 1], of[at + 2]);
        // Of both checks, then of what was noted at them and at the event.
        Register Register(Fact[] facts, double?[] of)
        {
            string[] times = ["06-02 06:40", "06-02 15:50", "06-02 10:05"];
            var notes = times.Select((t, i) => Heath.Weather(t, of[6 + (3 * i) + 1], of[6 + (3 * i)], of[6 + (3 * i) + 2]));
            return Heath.With([.. facts, .. Heath.Flight(airBefore: Air(of, 0), airAfter: Air(of, 3)), .. notes]);
        }
    }

    private static AppliedSensitivity Applied(Register register) => Heath.One(register).Applied!;

    private static void Starts(string begin, string? text) => Assert.StartsWith(begin, text, StringComparison.Ordinal);

    private static double Root(params double[] parts) => Math.Sqrt(parts.Sum(p => p * p));

    private static Fact Follows(double perKPa = 0, double perPercent = 0, double perK = -0.02) => Heath.Described(
        "M1", ("temperature-db-per-k", perK), ("pressure-db-per-kpa", perKPa), ("humidity-db-per-percent", perPercent));
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Drift;

/// <summary>A result that is being entered is held against something, whatever it leaves unsaid.</summary>
public sealed class EntryExpectationTests
{
    private static readonly DateOnly Day = new(2026, 5, 4);

    private static readonly Fact[] History =
    [
        Make.Registered("D", "1"),
        .. Enumerable.Range(0, 5).Select(i =>
            Make.Certificate("D", FormattableString.Invariant($"{2020 + i}-05-04"), -26 + (0.01 * (i % 2)), 0.08)),
    ];

    [Fact]
    public void Without_U_it_is_held_against_the_forecast_with_the_U_of_the_newest_result()
    {
        var with = Of(History, Make.Issued(-26.9, 0.08))!;
        var without = Of(History, Make.Issued(-26.9, null))!;

        Assert.Equal((ExpectationBasis.Forecast, null), (with.Basis, with.AssumedExpandedDb));
        Assert.Equal((ExpectationBasis.ForecastWithoutUncertainty, new DateOnly(2024, 5, 4)), (without.Basis, without.Day));
        Assert.Equal(0.08, without.AssumedExpandedDb!.Value, 12);
        // The same U once stated and once taken: the same question.
        Assert.Equal((with.ExpectedDb, with.LimitDb, with.Z), (without.ExpectedDb, without.LimitDb, without.Z));
        Assert.Equal(2.576 * without.StandardDeviationDb!.Value, without.LimitDb, 12);
        Assert.False(without.Fits);
        Assert.True(Of(History, Make.Issued(-26, null))!.Fits);
    }

    [Fact]
    public void Where_no_result_before_states_U_it_is_held_against_the_newest_certificate_within_a_decibel()
    {
        Fact[] facts =
        [
            Make.Registered("D", "1"), Make.Certificate("D", "2024-05-04", -26, null), Make.Certificate("D", "2020-05-04", -30, null),
        ];

        Assert.Equal((ExpectationBasis.Certificate, -26, 1), Told(Of(facts, Make.Issued(-25, null))!));
        Assert.True(Of(facts, Make.Issued(-25, null))!.Fits); // the limit itself
        Assert.False(Of(facts, Make.Issued(-24.99, null))!.Fits);
        Assert.False(Of(facts, Make.Issued(-27.01, 0.08))!.Fits);
        Assert.Null(Of(facts, Make.Issued(-27, null))!.Z); // no standard deviation is known, so none is told
    }

    [Fact]
    public void Of_another_series_it_is_held_against_the_certificate_before()
    {
        Assert.Equal((ExpectationBasis.Certificate, -26, 1), Told(Of(History, Make.Issued(-37, 0.08) with { Method = "other" })!));
        Assert.Equal((ExpectationBasis.Certificate, -26, 1), Told(Of(History, Make.Issued(-37, null) with { FrequencyHz = 1000 })!));
    }

    [Fact]
    public void Older_than_the_newest_it_is_held_against_the_last_one_before_it()
    {
        var told = Of(History, Make.Issued(-26, null), new DateOnly(2022, 1, 1))!;
        Assert.Equal((ExpectationBasis.Certificate, new DateOnly(2021, 5, 4)), (told.Basis, told.Day!.Value));
        Assert.Equal(-25.99, told.ExpectedDb, 9);
        Assert.Equal(new DateOnly(2020, 5, 4), Of(History, Make.Issued(-26, null), new DateOnly(2019, 1, 1))!.Day); // none before: the next
    }

    // 20 lg 0.05 = -26.0206; 20 lg (13.9 / 50) = -11.1191.
    [Fact]
    public void Without_any_certificate_the_nominal_sensitivity_is_expected_within_three_decibels()
    {
        Fact[] facts = [Make.Registered("D", "1", details: ("nominal-mv-per-pa", 50))];

        var told = Of(facts, Make.Issued(13.9, null, unit: "mV/Pa"))!;

        Assert.Equal((ExpectationBasis.Nominal, -26.0206, 3), (told.Basis, Math.Round(told.ExpectedDb, 4), told.LimitDb));
        Assert.Equal((-11.1191, false), (Math.Round(told.DeviationDb, 4), told.Fits));
        Assert.True(Of(facts, Make.Issued(45, null, unit: "mV/Pa"))!.Fits);
    }

    [Fact]
    public void Where_nothing_is_on_file_nothing_is_expected()
    {
        Assert.Null(Of([Make.Registered("D", "1")], Make.Issued(-26)));
        var certificate = Make.Certificate("D", "2024-05-04", -26);
        Assert.Null(Of([Make.Registered("D", "1"), certificate, Make.Annulling(certificate)], Make.Issued(-26)));
        var level = Make.Certificate("D", "2024-05-04", 94, quantity: "level", unit: "dB");
        Assert.Null(Of([Make.Registered("D", "1"), level], Make.Issued(-26)));
    }

    [Fact]
    public void A_calibrator_without_certificates_is_held_against_its_nominal_level()
    {
        Fact[] facts = [Make.Registered("D", "1", "calibrator", ("nominal-level-db", 94))];
        Assert.True(Of(facts, Make.Issued(94.9, null, "level", "dB"))!.Fits);
        Assert.False(Of(facts, Make.Issued(114, null, "level", "dB"))!.Fits);
    }

    // -0.01 dB/kPa, measured 10 kPa below 101.325: -26 - (-0.01)(-10) = -26.1, with and without U.
    [Theory]
    [InlineData(0.08)]
    [InlineData(null)]
    public void It_is_brought_to_reference_conditions_with_and_without_U(double? expanded)
    {
        Fact[] facts = [Make.Registered("D", "1", details: ("pressure-db-per-kpa", -0.01)), Make.Certificate("D", "2024-05-04", -26, 0.08)];
        Assert.Equal(-26.1, Of(facts, Make.Issued(-26, expanded) with { Air = new(91.325, null, null) })!.LevelDb, 9);
    }

    private static EntryExpectation? Of(IReadOnlyList<Fact> facts, CertificateIssued issued, DateOnly? day = null)
    {
        var register = FactList.RegisterOf(facts);
        return EntryExpectation.Of(register.Device("D")!, register.Drift(Day).Of("D"), issued, day ?? Day);
    }

    private static (ExpectationBasis, double, double) Told(EntryExpectation told) => (told.Basis, told.ExpectedDb, told.LimitDb);
}

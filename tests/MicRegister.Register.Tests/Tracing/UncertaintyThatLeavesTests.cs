using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>
/// Budgets by source and covariances by hand algebra from the invented certificates of <see cref="Heath"/>: both calibrators state
/// u = 0.05 dB and were measured against REF, whose certificate states u = 0.02 dB. Each chain is checked once, by one insertion of 0.03 dB.
/// </summary>
public sealed class UncertaintyThatLeavesTests
{
    private const double Db = 1e-9;

    [Fact]
    public void Each_line_names_its_source_unit_coefficient_and_standard_uncertainty()
    {
        var register = Heath.With([.. Heath.Flight(), Heath.Written((LimitKey.MountToleranceDb, 1))]);
        var facts = Heath.Flight();

        var lines = Heath.One(register).Applied!.Sources;

        Assert.Equal(
            [
                ("certificate", "certificate " + Heath.FirstCalibrator.Id, -1.0, Math.Round(Math.Sqrt(0.0021), 9)), // √(0.05² - 0.02²)
                ("reference standard Microphone Model 901", "certificate " + Heath.ReferenceCertificate.Id, -1.0, 0.02),
                ("one insertion, assumed", $"{facts[1].Id}: this check: insertions", 0.5, 0.03),
                ("one insertion, assumed", $"{facts[3].Id}: this check: insertions", 0.5, 0.03),
                ("change between the checks", $"change between facts {facts[1].Id} and {facts[3].Id}", 1.0, Math.Round(0.04 / Math.Sqrt(3), 6)),
                ("normalisation of the mount", "mount flush-plate", 1.0, Math.Round(1 / Math.Sqrt(3), 6)),
                // By voltages: nothing in V/Pa, see ChannelGainTests.
                ("channel's gain", "certificate " + CalibrationSeries.Newest(register.Device("R1")!, "gain")!.Fact, 0.0, 0.02),
            ],
            lines.Select(l => (l.Name, l.Source, l.Sensitivity, Math.Round(l.StandardUncertainty, l.Name == "certificate" ? 9 : 6))));
        Assert.All(lines, l => Assert.Equal(("dB", l.Sensitivity * l.StandardUncertainty), (l.Unit, l.ContributionDb)));
        Assert.Equal(UncertaintyPart.MountAndDirection, Assert.Single(lines, l => l.Part != UncertaintyPart.Sensitivity).Part);
    }

    [Fact]
    public void A_line_keeps_the_unit_of_its_quantity()
    {
        var adiabatic = Heath.With(Heath.Described("K1", ("pressure-law", "adiabatic")));
        var check = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.11, air: new(101.325, null, null), on: adiabatic);
        var register = Heath.With(
            Heath.Described("K1", ("pressure-law", "adiabatic")), Heath.Placed("S1", "06-02 06:00"), check,
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        var line = Assert.Single(Heath.One(register).Applied!.Sources, l => l.Name == "static pressure");

        // 20 lg(p) moves by 20 / ln 10 / 101.325 kPa; the calibrator's level is taken off the chain's.
        Assert.Equal(("kPa", "barometer of " + Heath.C), (line.Unit, line.Source));
        Assert.Equal(8.685889638 / 101.325, Math.Abs(line.Sensitivity), 1e-6);
    }

    [Fact]
    public void A_meter_that_nobody_named_is_taken_as_one_for_all_checks_and_the_budget_says_so()
    {
        Fact[] facts = [.. Heath.Flight(-38.11, -38.11)];
        (facts[1], facts[3]) = (ReadWith(facts[1], "06-02 06:30", null), ReadWith(facts[3], "06-02 16:00", null));
        var unnamed = Heath.One(Heath.With(facts)).Applied!;
        (facts[1], facts[3]) = (ReadWith(facts[1], "06-02 06:30", "V1"), ReadWith(facts[3], "06-02 16:00", "V2"));
        var named = Heath.One(Heath.With(facts)).Applied!;

        Assert.Single(unnamed.Sources, l => l.Name == "reading instrument that nobody named, taken as one for all checks");
        // 0.05² and 2 · (0.03 / 2)², and 0.04² whole where it is one meter, half of it where there are two.
        Assert.Equal(Math.Sqrt(0.0025 + 0.00045 + 0.0016), unnamed.StandardDb, Db);
        Assert.Equal(2, named.Sources.Count(l => l.Name == "reading instrument"));
        Assert.Equal(Math.Sqrt(0.0025 + 0.00045 + 0.0008), named.StandardDb, Db);
    }

    [Fact]
    public void Two_stations_that_one_calibrator_checked_share_its_certificate_whole()
    {
        var covariance = Of(Heath.With(Pair("K1", "K1")));

        Assert.Equal(["S1", "S2"], covariance.Names);
        Assert.Equal(0.0025, covariance.At(0, 1), Db); // 0.05²
        Assert.Equal(0.0034, covariance.At(0, 0), Db); // 0.05² + 0.03²
        Assert.Equal(covariance.At(0, 1), covariance.At(1, 0));
    }

    [Fact]
    public void Two_calibrators_share_what_the_reference_of_both_states()
    {
        var register = Heath.With(Pair("K1", "K2"));
        var covariance = Of(register);

        Assert.Equal(0.0004, covariance.At(0, 1), Db); // 0.02²
        Assert.Equal(0.0034, covariance.At(1, 1), Db); // K2 keeps its 0.05
        Assert.All([0, 1], i => Assert.Equal(Math.Pow(covariance.Stations[i].Applied!.StandardDb, 2), covariance.At(i, i), Db));
        Assert.DoesNotContain(covariance.Cautions, c => c.Contains("as a reference", StringComparison.Ordinal));
    }

    [Fact]
    public void A_reference_shares_no_more_than_a_certificate_states()
    {
        // Measured anew before the calibrators were: u = 0.40 / 2.
        var covariance = Of(Heath.With([.. Pair("K1", "K2"), Make.Of(Make.Issued(-38.30, 0.40), "2025-12-01", "device:REF")]));

        Assert.Equal(0.0025, covariance.At(0, 1), Db);
        Assert.Equal(0.0034, covariance.At(0, 0), Db);
    }

    [Fact]
    public void A_reference_counts_as_it_was_known_when_a_certificate_was_measured_against_it()
    {
        var covariance = Of(Heath.With([.. Pair("K1", "K2"), Make.Of(Make.Issued(-38.30, 0.40), "2026-01-06", "device:REF")]));

        Assert.Equal(0.0, covariance.At(0, 1), Db); // K1 of the 5th rests on the older certificate, K2 of the 6th on the newer one
        Assert.Equal(0.0034, covariance.At(0, 0), Db);
    }

    [Fact]
    public void What_references_were_measured_against_is_shared_too()
    {
        Fact[] two =
        [
            Make.Registered("TOP", "905"), Make.Of(Make.Issued(-38.20, 0.02), "2025-06-01", "device:TOP"),
            Make.Registered("OTHER", "906"),
            Make.Of(Make.Issued(-38.25, 0.06) with { ReferenceDevice = "TOP" }, "2025-12-10", "device:OTHER"),
            Make.Of(Make.Issued(-38.30, 0.04) with { ReferenceDevice = "TOP" }, "2025-12-11", "device:REF"),
            Make.Of(Make.Issued(94.10, 0.1, "level", "dB") with { ReferenceDevice = "OTHER" }, "2026-01-07", "device:K2"),
        ];
        var covariance = Of(Heath.With([.. two, .. Pair("K1", "K2", Heath.With(two))]));

        Assert.Equal(0.0001, covariance.At(0, 1), Db); // 0.01² of TOP
        Assert.Equal(0.0034, covariance.At(0, 0), Db);
        Assert.Equal(0.0034, covariance.At(1, 1), Db);
    }

    [Fact]
    public void References_that_go_in_a_circle_end()
    {
        Fact[] circle = [Make.Of(Make.Issued(-38.30, 0.04) with { ReferenceDevice = "REF" }, "2025-12-11", "device:REF")];

        Assert.Equal(0.0034, Of(Heath.With([.. circle, .. Pair("K1", "K2")])).At(0, 0), Db);
    }

    [Fact]
    public void A_reference_of_unknown_uncertainty_shares_nothing_and_is_said()
    {
        var silent = Make.Of(Make.Issued(-38.30, null), "2025-12-01", "device:REF");
        var covariance = Of(Heath.With([.. Pair("K1", "K2"), silent]));

        Assert.Equal(0.0, covariance.At(0, 1), Db);
        Assert.Contains(covariance.Cautions, c => c.StartsWith("The uncertainty of Microphone Model 901 as a reference is not known", StringComparison.Ordinal));
    }

    [Fact]
    public void Stations_of_one_sort_of_mount_share_its_limit_and_those_of_two_sorts_do_not()
    {
        var register = Heath.With([.. Pair("K1", "K1"), .. At("S3", "K1"), Heath.Written((LimitKey.MountToleranceDb, 1)),
            Make.Of(new StationPlanned("S3", 53, 1, Mount.FlushPlate, null), "2026-05-02", Subject.Campaign(Heath.C))]);
        var covariance = Of(register);

        Assert.Equal(["S1", "S2", "S3"], covariance.Names); // flush, on a stand, flush
        Assert.Equal((0.0025, 0.0), (Math.Round(covariance.At(0, 1), 9), covariance.At(0, 1, UncertaintyPart.MountAndDirection)));
        Assert.Equal(0.0025 + (1 / 3.0), covariance.At(0, 2), Db); // 1 dB over √3, squared
        Assert.Equal(0.0025, covariance.At(0, 2, UncertaintyPart.Sensitivity), Db);
        Assert.Equal(1 / 3.0, covariance.At(0, 2, UncertaintyPart.MountAndDirection), Db);
        Assert.Contains(covariance.Cautions, c => c.StartsWith("The deviation of a mount is taken as one", StringComparison.Ordinal));
    }

    [Fact]
    public void A_station_without_a_result_has_no_row_and_is_said()
    {
        var covariance = Of(Heath.With([.. Pair("K1", "K1")]));

        Assert.Equal(["S3"], covariance.WithoutResult.Select(s => s.Station));
        Assert.Contains("S3 has no row: no sensitivity is known.", covariance.Cautions);
    }

    [Fact]
    public void The_halves_of_a_swapped_station_have_names_of_their_own()
    {
        Fact[] facts =
        [
            .. At("S1", "K1"), Heath.TakenIn("S1", "06-02 10:00"),
            Heath.Placed("S1", "06-02 10:00", Heath.Chain("S9"), counter: 8),
            Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.1, devices: Heath.Chain("S9")),
            Heath.Event("E1", "06-02 09:59", "06-02 10:01"),
        ];

        Assert.Equal(["S1 from 2026-06-02T09:59:00.000Z", "S1 from 2026-06-02T10:00:00.000Z"], Of(Heath.With(facts)).Names);
    }

    [Fact]
    public void The_parts_of_the_uncertainty_are_told_apart_and_together()
    {
        var applied = Heath.One(Heath.With([.. Pair("K1", "K1"), Heath.Written((LimitKey.MountToleranceDb, 1))])).Applied!;

        Assert.Equal(Math.Sqrt(0.0034), applied.Part(UncertaintyPart.Sensitivity).StandardDb, Db);
        Assert.Equal(1 / Math.Sqrt(3), applied.Part(UncertaintyPart.MountAndDirection).StandardDb, Db);
        Assert.Equal(Math.Sqrt(0.0034 + (1 / 3.0)), applied.StandardDb, Db);
        Assert.Equal(2.0, applied.Part(UncertaintyPart.Sensitivity).CoverageFactor, 1e-4);
        // (1/3) / (0.0034 + 1/3) = 0.98990…
        Assert.Equal(
            "U is nearly all the assumed limit of the mount: 98.9 % of its square; the sensitivity alone is known better.",
            applied.UncertaintyNote);
    }

    [Theory]
    [InlineData(0.303, true)] // 0.0306030 of 0.0340030: 0.9000
    [InlineData(0.302, false)] // 0.0304013 of 0.0338013: 0.8994
    [InlineData(0, false)]
    public void The_mount_is_nearly_all_of_it_from_nine_tenths_of_the_square(double toleranceDb, bool isNearlyAll)
    {
        var limits = toleranceDb > 0 ? Heath.Written((LimitKey.MountToleranceDb, toleranceDb)) : Heath.Written();

        Assert.Equal(isNearlyAll, Heath.One(Heath.With([.. Pair("K1", "K1"), limits])).Applied!.UncertaintyNote is not null);
    }

    [Fact]
    public void Covariances_come_from_common_sources_with_both_signs()
    {
        // 2 · 0.1 of a, -1 · 0.3 of b: with a at 0.5 and b at 1 that is 0.2 · 0.05 - 0.3 · 0.3.
        UncertaintyComponent[] one = [new("x", "a", 0.1, 2), new("y", "b", 0.3, -1), new("z", "c", 5)];
        UncertaintyComponent[] other = [new("x", "a", 0.1, 0.5), new("y", "b", 0.2), new("y", "b", 0.1)];

        Assert.Equal(0.01 - 0.09, UncertaintyBudget.Covariance(one, other), Db);
    }

    private static EventCovariance Of(Register register) => EventCovariance.Of(Tracer.Of(register, "E1")!);

    // The same check read with a meter of u = 0.04 dB.
    private static Fact ReadWith(Fact check, string at, string? meter)
    {
        var body = (ChainChecked)check.Body;
        var source = meter is null ? "reading instrument" : "reading instrument " + meter;
        BudgetLine line = new("reading instrument", source, 0.04, "dB", 1, null, UncertaintyDistribution.Normal);
        return Heath.Said(
            at, 3, body with { Budget = [.. body.Budget.Where(l => l.Name != line.Name), line], Meter = meter }, check.Subjects);
    }

    private static Fact[] Pair(string first, string second, Register? on = null) =>
        [.. At("S1", first, on), .. At("S2", second, on), Heath.Event("E1", "06-02 10:00", "06-02 10:01")];

    private static Fact[] At(string station, string calibrator, Register? on = null) =>
        [Heath.Placed(station, "06-02 06:00"), Heath.Checked(station, "06-02 06:30", CheckMoment.Before, -38.11, calibrator, on: on)];
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>
/// How well the channel's gain is known counts where it converts between V/Pa and full scale/Pa, and nowhere else. By hand algebra
/// (JCGM 100:2008, 5.1.3 and 5.2.2) from the invented certificates of <see cref="Heath"/>: the calibrator states u = 0.05 dB, one insertion
/// is 0.03 dB, and the channel's gain 0.003 dB has u = 0.04 / 2 = 0.02 dB. Both checks tell one level, so that
/// nothing changed between them.
/// </summary>
public sealed class ChannelGainTests
{
    private const double Db = 1e-9;
    private const double Volts = -38.1;
    private const double FullScale = -58.1;

    // One check: 0.05² + 0.03². Two: the calibrator's certificate whole, two insertions of half of 0.03.
    private const double One = 0.0034;
    private const double Two = 0.0025 + 0.00045;
    private const double Gain = 0.02 * 0.02;

    [Fact]
    public void A_voltage_needs_no_gain_in_volts_and_needs_it_in_full_scale()
    {
        var applied = Applied(Voltage(CheckMoment.Before));

        Assert.Equal(Math.Sqrt(One), applied.InVolts.StandardDb, Db);
        Assert.Equal(Math.Sqrt(One + Gain), applied.InFullScale!.StandardDb, Db);
        Assert.Equal(Math.Sqrt(One + Gain), applied.InFullScale.Part(UncertaintyPart.Sensitivity).StandardDb, Db);
        Assert.Equal(2.0000 * Math.Sqrt(One + Gain), applied.InFullScale.ExpandedDb, 1e-5); // nothing has few degrees of freedom
        Assert.Equal((0.0, 1.0, 0.02), OfGain(applied));
    }

    [Fact]
    public void A_recorded_tone_needs_no_gain_in_full_scale_and_needs_it_in_volts()
    {
        var applied = Applied(Tone(CheckMoment.Before));

        Assert.Equal(Math.Sqrt(One + Gain), applied.InVolts.StandardDb, Db);
        Assert.Equal(Math.Sqrt(One), applied.InFullScale!.StandardDb, Db);
        Assert.Equal((-1.0, 0.0, -0.02), OfGain(applied));
        Assert.Equal(applied.InVolts.StandardDb, applied.StandardDb);
    }

    [Fact]
    public void A_certificate_tells_volts()
    {
        // 0.03² of the microphone's certificate and 0.02² of the preamplifier's.
        var applied = Applied();

        Assert.Equal(Math.Sqrt(0.0013), applied.InVolts.StandardDb, Db);
        Assert.Equal(Math.Sqrt(0.0013 + Gain), applied.InFullScale!.StandardDb, Db);
    }

    [Fact]
    public void Two_checks_on_one_channel_do_not_average_its_gain_out()
    {
        var tones = Applied(Tone(CheckMoment.Before), Tone(CheckMoment.After));
        Assert.Equal(Math.Sqrt(Two + Gain), tones.InVolts.StandardDb, Db); // not Gain / 2
        Assert.Equal(Math.Sqrt(Two), tones.InFullScale!.StandardDb, Db);

        var voltages = Applied(Voltage(CheckMoment.Before), Voltage(CheckMoment.After));
        Assert.Equal(Math.Sqrt(Two), voltages.InVolts.StandardDb, Db);
        Assert.Equal(Math.Sqrt(Two + Gain), voltages.InFullScale!.StandardDb, Db);
    }

    [Fact]
    public void Of_a_voltage_and_a_tone_half_of_the_gain_counts_in_either_unit()
    {
        // A tone that comes to the same volts: -38.1 + 0.003 - 20 lg 10.
        var applied = Applied(Voltage(CheckMoment.Before), Tone(CheckMoment.After, -58.097));

        Assert.Equal(Math.Sqrt(Two + (Gain / 4)), applied.InVolts.StandardDb, 1e-8); // levels are stored to 1e-6 dB
        Assert.Equal(Math.Sqrt(Two + (Gain / 4)), applied.InFullScale!.StandardDb, 1e-8);
        Assert.Equal((-0.5, 0.5, -0.01), OfGain(applied));
    }

    [Fact]
    public void The_line_of_the_budget_has_the_identity_of_the_certificate()
    {
        var register = Register(Tone(CheckMoment.Before));
        var certificate = CalibrationSeries.Newest(register.Device("R1")!, "gain")!.Fact;
        var applied = Heath.One(register).Applied!;

        var line = Assert.Single(applied.Sources, l => l.Name == "channel's gain");
        Assert.Equal(("certificate " + certificate, 0.02), (line.Source, Math.Round(line.StandardUncertainty, 12)));
        // The term that the gain converted cites it, as does what leads to full scale.
        Assert.Contains("certificate " + certificate, applied.Terms[0].Source, StringComparison.Ordinal);
        Assert.Equal(["channel's gain", "channel's range"], applied.FullScaleTerms.Select(t => t.Name));
        Assert.Equal("certificate " + certificate, applied.FullScaleTerms[0].Source);
        Assert.Equal(applied.FullScaleDb!.Value, applied.VoltsDb + applied.FullScaleTerms.Sum(t => t.ValueDb), Db);
        Assert.DoesNotContain("certificate", Applied(Voltage(CheckMoment.Before)).Terms[0].Source, StringComparison.Ordinal);
    }

    [Fact]
    public void Stations_that_share_the_certificate_of_their_channels_are_correlated_by_it_where_it_converts()
    {
        // One certificate for the channels of both stations; the calibrator's 0.05 is common in any unit.
        var both = Make.Of(Make.Issued(0.003, 0.04, "gain", "dB"), "2026-03-02", "device:R1", "device:R2");
        var trace = Tracer.Of(
            Heath.With(
                both, Heath.Placed("S1", "06-02 06:00"), Voltage(CheckMoment.Before), Heath.Placed("S2", "06-02 06:00"),
                Heath.Checked("S2", "06-02 06:30", CheckMoment.Before, FullScale, method: CheckMethod.Recording),
                Heath.Event("E1", "06-02 10:00", "06-02 10:01")),
            "E1")!;
        var (volts, full) = (EventCovariance.Of(trace), EventCovariance.Of(trace, SensitivityUnit.FullScale));

        // S1 by a voltage: 0 and +1; S2 by a tone: -1 and 0.
        Assert.Equal(0.0025, volts.At(0, 1), Db);
        Assert.Equal(0.0025, full.At(0, 1), Db);
        Assert.Equal((One, One + Gain), (Math.Round(volts.At(0, 0), 9), Math.Round(volts.At(1, 1), 9)));
        Assert.Equal((One + Gain, One), (Math.Round(full.At(0, 0), 9), Math.Round(full.At(1, 1), 9)));

        var tones = Tracer.Of(
            Heath.With(
                both, Heath.Placed("S1", "06-02 06:00"), Tone(CheckMoment.Before), Heath.Placed("S2", "06-02 06:00"),
                Heath.Checked("S2", "06-02 06:30", CheckMoment.Before, FullScale, method: CheckMethod.Recording),
                Heath.Event("E1", "06-02 10:00", "06-02 10:01")),
            "E1")!;
        Assert.Equal(0.0025 + Gain, EventCovariance.Of(tones).At(0, 1), Db);
        Assert.Equal(0.0025, EventCovariance.Of(tones, SensitivityUnit.FullScale).At(0, 1), Db);
    }

    [Fact]
    public void What_the_reference_of_the_gains_certificate_states_is_parted_as_elsewhere()
    {
        // REF states u = 0.02 dB, all of what the gain's certificate does; it is in the calibrator's certificate too, with the other sign.
        var register = Heath.With(
            Make.Of(Make.Issued(0.003, 0.06, "gain", "dB") with { ReferenceDevice = "REF" }, "2026-03-02", "device:R1"),
            Heath.Placed("S1", "06-02 06:00"), Voltage(CheckMoment.Before), Heath.Event("E1", "06-02 10:00", "06-02 10:01"));
        var applied = Heath.One(register).Applied!;

        Assert.Equal(Math.Sqrt(One), applied.InVolts.StandardDb, Db);
        // In full scale REF's deviation counts as -1 by the calibrator and +1 by the gain; the rest of the gain's is 0.03² - 0.02².
        Assert.Equal(Math.Sqrt(0.0021 + 0.0009 + 0.0005), applied.InFullScale!.StandardDb, Db);
        var reference = Assert.Single(applied.Sources, l => l.Source == "certificate " + Heath.ReferenceCertificate.Id);
        Assert.Equal((-1.0, 0.0), (reference.Sensitivity, reference.FullScaleSensitivity));
    }

    [Theory]
    [InlineData(false, "FS/Pa")]
    [InlineData(true, "V/Pa")]
    public void A_gain_without_an_uncertainty_is_said_where_it_converts(bool isTone, string unit)
    {
        var silent = Make.Of(Make.Issued(0.003, null, "gain", "dB"), "2026-03-02", "device:R1");
        var applied = Applied(silent, isTone ? Tone(CheckMoment.Before) : Voltage(CheckMoment.Before));

        Assert.Equal(Math.Sqrt(One), applied.InVolts.StandardDb, Db);
        Assert.Equal(Math.Sqrt(One), applied.InFullScale!.StandardDb, Db);
        Assert.Contains(
            "The certificate of the gain of Recorder channel Model 301 states no uncertainty: "
                + $"nothing in U stands for it in {unit}, where U is too small.",
            applied.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gain_without_a_certificate_is_said_in_caution_and_covariances()
    {
        string[] chain = ["M1", "P1", "RX"];
        Fact[] facts =
        [
            Make.Registered("RX", "399", "recorder-channel", ("range-v", 10), ("gain-db", 0.5)), Heath.Placed("S1", "06-02 06:00", chain),
            Heath.Checked(
                "S1", "06-02 06:30", CheckMoment.Before, Volts, devices: chain,
                on: Heath.With(Make.Registered("RX", "399", "recorder-channel", ("range-v", 10), ("gain-db", 0.5)))),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
        ];
        var trace = Tracer.Of(Heath.With(facts), "E1")!;
        var applied = trace.Stations.Single(s => s.Station == "S1").Applied!;
        var says = "Recorder channel Model 399 has no certificate of its gain; its entry's is taken: "
            + "nothing in U stands for it in FS/Pa, where U is too small.";

        Assert.Equal(Volts + 0.5 - 20, applied.FullScaleDb!.Value, 1e-6);
        Assert.Contains(says, applied.Caution, StringComparison.Ordinal);
        Assert.Contains($"S1: {says}", EventCovariance.Of(trace, SensitivityUnit.FullScale).Cautions);
        Assert.DoesNotContain($"S1: {says}", EventCovariance.Of(trace).Cautions);
    }

    [Fact]
    public void Where_no_channel_was_placed_that_is_said_and_without_a_range_nothing_is()
    {
        string[] chain = ["M1", "P1"];
        AppliedSensitivity Of(double? rangeV) => Heath.One(Heath.With(
            Heath.Placed("S1", "06-02 06:00", chain, rangeV: rangeV),
            Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, Volts, devices: chain),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"))).Applied!;

        Assert.Contains(
            "No recorder channel is known, and 0 dB is taken for its gain: nothing in U stands for it in FS/Pa, where U is too small.",
            Of(10).Caution, StringComparison.Ordinal);
        Assert.Null(Of(null).Caution);
        Assert.Null(Of(null).InFullScale);
    }

    [Fact]
    public void A_station_whose_range_is_not_known_has_no_row_in_full_scale()
    {
        string[] chain = ["M1", "P1"];
        var trace = Tracer.Of(
            Heath.With(
                Heath.Placed("S1", "06-02 06:00", chain), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, Volts, devices: chain),
                Heath.Event("E1", "06-02 10:00", "06-02 10:01")),
            "E1")!;
        var full = EventCovariance.Of(trace, SensitivityUnit.FullScale);

        Assert.Empty(full.Stations);
        Assert.Contains("S1 has no row: the range of its channel is not known.", full.Cautions);
        Assert.Equal(["S1"], EventCovariance.Of(trace).Names);
        Assert.All(EventCovariance.Of(trace).Stations[0].Applied!.Sources, l => Assert.Null(l.FullScaleContributionDb));
    }

    [Fact]
    public void Bands_are_known_as_well_in_either_unit_as_the_sensitivity_is()
    {
        var register = Register(Voltage(CheckMoment.Before));
        var band = BandCorrections.Of(Heath.One(register), register.Campaign(Heath.C)!.Plan, _ => null)!.Bands[0];

        Assert.Equal(Math.Sqrt(One), band.StandardDb!.Value, Db);
        Assert.Equal(Math.Sqrt(One + Gain), band.InFullScale!.StandardDb, Db);
    }

    // The coefficients of the gain in both units, and its contribution in the one where it is greater.
    private static (double Volts, double? FullScale, double Contribution) OfGain(AppliedSensitivity applied)
    {
        var line = Assert.Single(applied.Sources, l => l.Name == "channel's gain");
        double[] contributions = [line.ContributionDb, line.FullScaleContributionDb!.Value];
        return (line.Sensitivity, line.FullScaleSensitivity, Math.Round(contributions.MaxBy(Math.Abs), 12));
    }

    private static AppliedSensitivity Applied(params Fact[] facts) => Heath.One(Register(facts)).Applied!;

    private static Register Register(params Fact[] facts) =>
        Heath.With([Heath.Placed("S1", "06-02 06:00"), Heath.Event("E1", "06-02 10:00", "06-02 10:01"), .. facts]);

    private static Fact Voltage(CheckMoment moment, double db = Volts) => Heath.Checked("S1", At(moment), moment, db);

    private static Fact Tone(CheckMoment moment, double db = FullScale) =>
        Heath.Checked("S1", At(moment), moment, db, method: CheckMethod.Recording);

    private static string At(CheckMoment moment) => moment == CheckMoment.Before ? "06-02 06:30" : "06-02 16:00";
}

using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Calibration;

/// <summary>A calibrator's certificate beside the limits of its class; limits of IEC 60942:2017, tables 2, 4, 7, A.1 and A.3.</summary>
public sealed class CalibratorLimitSheetTests
{
    private static readonly StatedTone Tone = new(251.75, 0.2, 2.5, 0.5, 0.07);

    // Class 1 at 250 Hz: 0.25 dB with U of 0.15 dB; 0.7 % (1.75 Hz) with 0.2 %; 2.5 % with 0.5 %; 0.07 dB.
    [Fact]
    public void A_certificate_at_every_limit_keeps_the_class() =>
        Assert.Equal("Conforms Conforms Conforms Conforms", Verdicts(Level(114.25, 0.15, Tone)));

    [Theory]
    [InlineData(114.26, 0.15, "level Exceeds")]
    [InlineData(113.74, 0.15, "level Exceeds")]
    [InlineData(114.25, 0.16, "level NotShown")]
    public void Just_beyond_a_limit_of_the_level_it_does_not(double levelDb, double u, string says) =>
        Assert.Equal(says, Others(Level(levelDb, u, Tone)));

    [Theory]
    [InlineData(251.76, 0.2, 2.5, 0.5, 0.07, "frequency Exceeds")]
    [InlineData(248.24, 0.2, 2.5, 0.5, 0.07, "frequency Exceeds")]
    [InlineData(251.75, 0.21, 2.5, 0.5, 0.07, "frequency NotShown")]
    [InlineData(251.75, 0.2, 2.51, 0.5, 0.07, "distortion Exceeds")]
    [InlineData(251.75, 0.2, 2.5, 0.51, 0.07, "distortion NotShown")]
    [InlineData(251.75, 0.2, 2.5, 0.5, 0.071, "fluctuation Exceeds")]
    public void Just_beyond_a_limit_of_the_tone_it_does_not(
        double hz, double uHz, double distortion, double uDistortion, double db, string says) =>
        Assert.Equal(says, Others(Level(114, 0.1, new(hz, uHz, distortion, uDistortion, db))));

    [Fact]
    public void What_the_certificate_does_not_state_is_open()
    {
        var lines = Of(Level(114, 0.1, null));

        Assert.Equal("Conforms NotJudged NotJudged NotJudged", string.Join(' ', lines.Select(l => l.Verdict)));
        Assert.Contains("states no measured frequency", lines[1].Text, StringComparison.Ordinal);
        Assert.Contains("states no distortion", lines[2].Text, StringComparison.Ordinal);
        Assert.All(lines.Skip(1), l => Assert.Null(l.Deviation));
    }

    [Fact]
    public void The_frequency_that_it_is_stated_for_is_held_against_the_nominal_one_without_an_uncertainty()
    {
        var lines = Of(Level(114, 0.1, null) with { FrequencyHz = 251.2 });

        Assert.Equal(ClassLimitVerdict.NotShown, lines[1].Verdict);
        Assert.Equal(0.48, lines[1].Deviation!.Value, 1e-9); // 1.2 of 250
        Assert.False(lines[1].IsTooUncertain);
        Assert.Equal(ClassLimitVerdict.Exceeds, Of(Level(114, 0.1, null) with { FrequencyHz = 252 })[1].Verdict);
    }

    // As left counts, since that is the level in force.
    [Fact]
    public void The_level_in_force_counts()
    {
        var adjusted = Level(114, 0.1, null) with
        {
            Results = [new(AdjustmentState.AsFound, 114.4, "dB", 0.1, "dB", 2), new(AdjustmentState.AsLeft, 114.02, "dB", 0.1, "dB", 2)],
        };

        Assert.Equal(0.02, Of(adjusted)[0].Deviation!.Value, 1e-9);
    }

    // U = 0.3 dB at k = 4 are 0.15 dB at k = 2.
    [Fact]
    public void Uncertainties_are_compared_at_two_standard_deviations() => Assert.Equal(
        ClassLimitVerdict.Conforms,
        Of(Level(114.25, 0.1, null) with { Results = [new(AdjustmentState.AsFoundAndLeft, 114.25, "dB", 0.3, "dB", 4)] })[0].Verdict);

    [Theory]
    [InlineData("1", null, "class 1, edition not stated: limits differ from edition to edition")]
    [InlineData("1", "1997", "the limits of IEC 60942:1997 are not known here")]
    [InlineData("0", null, "the limits of IEC 942:1988 are not known here")]
    [InlineData("odd", null, "its class is not one that is known")]
    public void Where_the_edition_has_no_limits_here_it_says_so(string name, string? edition, string says)
    {
        var line = Assert.Single(Of(Level(114, 0.1, Tone), name, edition));

        Assert.Equal(("class", ClassLimitVerdict.NotJudged), (line.Quantity, line.Verdict));
        Assert.Contains(says, line.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Limits_of_2003_are_from_memory_and_hold_the_uncertainty()
    {
        Assert.Equal(ClassLimitVerdict.Conforms, Of(Level(114.25, 0.15, null), "1/C", null)[0].Verdict);
        var line = Of(Level(114.25, 0.16, null), "1/C", null)[0];
        Assert.Equal(ClassLimitVerdict.NotShown, line.Verdict);
        const string says = "class 1/C of IEC 60942:2003 allows 0.40 dB, U included: U is too large for it to be shown";
        Assert.Contains(says, line.Text, StringComparison.Ordinal);
        Assert.Contains("(limits from memory, unchecked)", line.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_frequency_without_limits_is_said()
    {
        var line = Of(Level(114, 0.1, null) with { FrequencyHz = 25 }, hz: 25)[0];

        Assert.Equal(ClassLimitVerdict.NotJudged, line.Verdict);
        Assert.Contains("no limit of class 1 of IEC 60942:2017 for its level at 25 Hz is known here", line.Text, StringComparison.Ordinal);
    }

    // 94 dB at 1 kHz of a calibrator that also gives 250 Hz: limits are those of 1 kHz, and another level is no deviation.
    [Fact]
    public void Another_setting_is_no_deviation()
    {
        var lines = Of(Level(94, 0.1, null) with { FrequencyHz = 4000 });

        Assert.Contains("another setting than its nominal level", lines[0].Text, StringComparison.Ordinal);
        Assert.Equal(0.35, Of(Level(114, 0.1, null) with { FrequencyHz = 4000 })[0].Limit!.Limit);
    }

    [Fact]
    public void A_level_for_another_pressure_is_not_judged_unless_it_does_not_follow_it()
    {
        var there = Level(114, 0.1, null) with { StatedForKPa = 100 };

        Assert.Contains("stated for 100 kPa, and limits hold for 101.325 kPa", Of(there)[0].Text, StringComparison.Ordinal);
        Assert.Equal(ClassLimitVerdict.Conforms, Of(there, law: "none")[0].Verdict);
        Assert.Equal(ClassLimitVerdict.Conforms, Of(there with { StatedForKPa = 101.3 })[0].Verdict);
    }

    [Fact]
    public void Without_nominal_values_or_a_certificate_nothing_is_judged()
    {
        var bare = Device("1", "2017", null, null, null);

        Assert.Empty(CalibratorLimitSheet.Of(bare));
        var unknown = Of(Level(114, 0.1, null) with { FrequencyHz = null }, hz: null)[0].Text;
        Assert.Contains("its nominal frequency is not known", unknown, StringComparison.Ordinal);
        Assert.Contains("its nominal level is not known", Of(Level(114, 0.1, null), nominalDb: null)[0].Text, StringComparison.Ordinal);
        Assert.Empty(CalibratorLimitSheet.Of(FactList.RegisterOf([Make.Registered("M1", "1")]).Device("M1")!));
    }

    [Theory]
    [InlineData(-1.0, null, null, null, null, "Measured frequency '-1': allowed is a number above 0 up to 20000 Hz.")]
    [InlineData(250.0, -0.1, null, null, null, "Its uncertainty '-0.1': allowed is a number from 0 up to 100 %.")]
    [InlineData(null, null, 101.0, null, null, "Distortion '101': allowed is a number from 0 up to 100 %.")]
    [InlineData(null, null, null, null, 11.0, "Fluctuation '11': allowed is a number from 0 up to 10 dB.")]
    public void A_tone_that_cannot_be_is_refused(
        double? hz, double? uHz, double? distortion, double? uDistortion, double? db, string says) =>
        Assert.Equal(says, CalibrationDecisions.Wrong(Level(114, 0.1, new(hz, uHz, distortion, uDistortion, db)))!.Text);

    [Fact]
    public void Only_a_level_has_a_tone()
    {
        var wrong = CalibrationDecisions.Wrong(Make.Issued(-38) with { Tone = Tone })!.Text;
        Assert.Contains("only certificates of a level", wrong, StringComparison.Ordinal);
        Assert.Null(CalibrationDecisions.Wrong(Level(114, 0.1, Tone)));
    }

    // A certificate of an earlier release has no tone; one without is written as it was then, byte for byte.
    [Fact]
    public void A_tone_is_stored_and_read_again_and_nothing_of_it_where_none_is_stated()
    {
        var with = Make.Of(Level(114, 0.1, new(250.1, null, 0.4, null, null)), "2026-05-01", "device:K1");
        var text = System.Text.Encoding.UTF8.GetString(with.Bytes.Span);

        Assert.Contains("""
            "tone":{"distortionPercent":0.4,"frequencyHz":250.1}
            """, text, StringComparison.Ordinal);
        var again = Assert.IsType<CertificateIssued>(FactText.ReadCanonical(with.Bytes).Body);
        Assert.Equal(new StatedTone(250.1, null, 0.4, null, null), again.Tone);
        var without = System.Text.Encoding.UTF8.GetString(Make.Of(Level(114, 0.1, null), "2026-05-01", "device:K1").Bytes.Span);
        Assert.DoesNotContain("tone", without, StringComparison.Ordinal);
    }

    private static CertificateIssued Level(double levelDb, double? u, StatedTone? tone) =>
        Make.Issued(levelDb, u, "level", "dB") with { Tone = tone };

    private static string Verdicts(CertificateIssued issued) => string.Join(' ', Of(issued).Select(l => l.Verdict));

    private static string Others(CertificateIssued issued) =>
        string.Join(", ", Of(issued).Where(l => l.Verdict != ClassLimitVerdict.Conforms).Select(l => $"{l.Quantity} {l.Verdict}"));

    private static IReadOnlyList<ClassLimitLine> Of(
        CertificateIssued issued, string name = "1", string? edition = "2017", double? hz = 250, double? nominalDb = 114,
        string? law = null) =>
        CalibratorLimitSheet.Of(Device(name, name == "1" ? edition : null, hz, nominalDb, law, issued));

    private static DeviceState Device(
        string name, string? edition, double? hz, double? nominalDb, string? law, CertificateIssued? issued = null)
    {
        List<(string, object)> details = [("calibrator-class", name)];
        if (edition is not null) details.Add(("calibrator-edition", edition));
        if (hz is { } f) details.Add(("frequency-hz", f));
        if (nominalDb is { } db) details.Add(("nominal-level-db", db));
        if (law is not null) details.Add(("pressure-law", law));
        List<Fact> facts = [Make.Registered("K1", "51", "sound-calibrator", [.. details])];
        if (issued is not null) facts.Add(Make.Of(issued, "2026-05-01", "device:K1"));
        return FactList.RegisterOf(facts).Device("K1")!;
    }
}

using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Calibration;

public sealed class ResponseConformityTests
{
    [Fact]
    public void A_flat_response_is_met_in_every_printed_band_and_says_what_the_limits_are_of()
    {
        var judged = Of("pressure", ResponseTable.Class1Of2013, Curved.Certified("M1", Curved.Flat));

        Assert.Equal(34, judged.Bands.Count);
        Assert.All(judged.Bands, b => Assert.Equal(BandVerdict.Met, b.Verdict));
        Assert.Equal(("IEC 61672-1:2013, table 3", 250.0), (judged.Source, judged.ReferenceHz));
        Assert.Contains("whole sound level meter", judged.About, StringComparison.Ordinal);
        Assert.Empty(judged.Remarks);
        Assert.Null(judged.Open);
    }

    [Fact]
    public void Of_another_field_nothing_is_decided_and_the_generic_table_is_no_replacement()
    {
        var judged = Of("free-field", ResponseTable.Class1Of2013, Curved.Certified("M1", Curved.High));

        Assert.DoesNotContain(judged.Bands, b => b.Verdict is BandVerdict.Met or BandVerdict.Exceeded);
        // Free field less pressure by IEC 61183:1994, table B.1: 1.10 dB at 4 kHz, 5.20 dB at 10 kHz, 8.90 dB at 20 kHz.
        Assert.Contains("+5.20 dB", judged.Bands.Single(b => b.Band.Index == 10).Why, StringComparison.Ordinal);
        var remark = Assert.Single(judged.Remarks);
        Assert.Contains("+1.10 dB at 4 kHz, +5.20 dB at 10 kHz, +8.90 dB at 20 kHz", remark, StringComparison.Ordinal);
        Assert.Contains("never stands in for the one of the microphone's own type", remark, StringComparison.Ordinal);
    }

    // Class 1 allows -0.7 to +0.7 dB at 1 kHz (IEC 61672-1:2013, table 3): 30 dB down is 29.3 dB beyond, and 17.3 dB where 12 dB may be the
    // field; 12.7 dB up is 12 dB beyond, which the field may be.
    [Fact]
    public void What_no_difference_of_fields_can_explain_is_beyond_the_limit()
    {
        var dead = Of("pressure", ResponseTable.Class1Of2013, Curved.Certified("M1", Curved.Dead, "free-field"));
        var band = dead.Bands.Single(b => b.Band.Index == 0);

        Assert.Equal(BandVerdict.Exceeded, band.Verdict);
        Assert.Equal(17.3, band.ByDb!.Value, 1e-9);
        Assert.Contains("measured as free-field, wanted as pressure", band.Why, StringComparison.Ordinal);
        Assert.Contains("never differ by more than 12 dB (own practice)", band.Why, StringComparison.Ordinal);
        Assert.All(dead.Bands.Where(b => b.Band.Index != 0), b => Assert.Equal(BandVerdict.Undecided, b.Verdict));
        var lifted = Of("pressure", ResponseTable.Class1Of2013, Curved.Certified("M1", Curved.Lifted, "free-field"));
        Assert.All(lifted.Bands, b => Assert.Equal((BandVerdict.Undecided, null), (b.Verdict, b.ByDb)));
    }

    [Theory]
    [InlineData("sound-calibrator", "devices of the kind 'Sound calibrator'")]
    [InlineData("preamplifier", "devices of the kind 'Preamplifier'")]
    [InlineData("general", "no response curve is stored")]
    [InlineData("reference-microphone", "no response curve is stored")]
    public void Limits_of_microphones_say_nothing_of_other_kinds(string kind, string says)
    {
        Fact[] curve = kind == "sound-calibrator" ? [Curved.Certified("M1", Curved.Flat)] : [];
        Fact[] facts = [Make.Registered("M1", "1", kind, []), .. curve];
        var device = FactList.RegisterOf(facts).Device("M1")!;
        var judged = ResponseConformity.OverFrequency(device, Curved.Read, ResponseTable.Class1Of2013);

        Assert.Contains(says, judged.Open, StringComparison.Ordinal);
        Assert.Empty(judged.Bands);
        var byAngle = ResponseConformity.OverAngle(device, Curved.Read, AngleTable.Of1995);
        Assert.Equal(ResponseConformity.IsCovered(device) ? "no curves by angle are stored" : judged.Open, byAngle.Open);
    }

    [Theory]
    [InlineData("pressure", null, "it is taken for pressure")]
    [InlineData(null, "pressure", "The response type of")]
    public void What_is_not_known_of_the_field_is_said(string? type, string? field, string says)
    {
        var judged = Of(type, ResponseTable.Class1Of2013, Curved.Certified("M1", Curved.Flat, field));

        Assert.Contains(says, Assert.Single(judged.Remarks), StringComparison.Ordinal);
        Assert.All(judged.Bands, b => Assert.Equal(BandVerdict.Met, b.Verdict));
    }

    [Fact]
    public void The_newest_curve_that_suits_counts_and_a_withdrawn_one_does_not()
    {
        var bad = Curved.Certified("M1", Curved.High, day: "2026-04-01");
        var other = Curved.Certified("M1", Curved.Flat, "free-field", "2026-05-01");
        var old = Curved.Certified("M1", Curved.Flat, day: "2025-04-01");

        Assert.Equal(bad.Id, Of("pressure", ResponseTable.Class1Of2013, old, bad, other).Certificates.Single().Fact);
        var left = Of("pressure", ResponseTable.Class1Of2013, old, bad, other, Make.Annulling(bad));
        Assert.Equal(old.Id, left.Certificates.Single().Fact);
        Assert.DoesNotContain(left.Bands, b => b.Verdict != BandVerdict.Met);
    }

    [Fact]
    public void What_cannot_be_judged_says_why()
    {
        Assert.Equal("no response curve is stored", Of("pressure", ResponseTable.Class1Of2013).Open);
        Assert.StartsWith("its response curve is not here yet", Open(Curved.Certified("M1", new('9', 64))), StringComparison.Ordinal);
        Assert.StartsWith("its curves are not of 0°", Open(Curved.Certified("M1", Curved.Aside)), StringComparison.Ordinal);
        Assert.StartsWith("its curves are not of 0°", Open(Curved.Certified("M1", Curved.Flat, angleDeg: 90)), StringComparison.Ordinal);
        // A pressure type in the open stands at grazing incidence.
        var grazing = Of("pressure", ResponseTable.Part36, Curved.Certified("M1", Curved.Flat, "free-field", angleDeg: 90));
        Assert.All(grazing.Bands.Where(b => b.Step is not null), b => Assert.Equal(BandVerdict.Met, b.Verdict));

        static string? Open(Fact certificate) => Of("pressure", ResponseTable.Class1Of2013, certificate).Open;
    }

    [Fact]
    public void Aircraft_certification_has_no_limit_beyond_10_kHz_and_says_so()
    {
        var judged = Of("free-field", ResponseTable.Part36, Curved.Certified("M1", Curved.Flat, "free-field"));

        Assert.Equal(
            [.. ThirdOctave.Between(10, 40), .. ThirdOctave.Between(12_500, 20_000)],
            judged.Bands.Where(b => b.Verdict == BandVerdict.NotCovered).Select(b => b.Band));
        Assert.Equal(24, judged.Bands.Count(b => b.Verdict == BandVerdict.Met));
    }

    [Fact]
    public void Curves_by_angle_from_several_certificates_are_held_together_and_said()
    {
        var ahead = Curved.Certified("M1", Curved.Flat, "free-field", angleDeg: 0);
        var aside = Curved.Certified("M1", Curved.High, "free-field", "2026-03-21", 45);
        var judged = Angles(ahead, aside, Curved.Certified("M1", Curved.Flat, "free-field", "2025-01-01", 45));

        var worst = Assert.Single(judged.Bands, b => b.Verdict == BandVerdict.Exceeded);
        // 45° takes the limit of 60°, 0.5 dB at 1 kHz (IEC 61265:1995, table 1 and 4.4.2).
        Assert.Equal((45, 0.75), (worst.AngleDeg, Math.Round(worst.ByDb!.Value, 9)));
        Assert.Contains("several certificates", Assert.Single(judged.Remarks), StringComparison.Ordinal);
        Assert.Equal("no curves by angle are stored", Angles(ahead).Open);
        Assert.Equal("no curves by angle are stored", Angles(Curved.Certified("M1", Curved.Uneven)).Open); // pressure has no angle
    }

    [Theory]
    [InlineData("microphone", null, true)]
    [InlineData("general", "IEC 61672-1:2013 class 2", true)]
    [InlineData("general", null, false)]
    [InlineData("windscreen", null, false)]
    public void Microphones_are_judged_and_other_devices_that_state_a_class(string kind, string? stated, bool isJudged)
    {
        (string, object)[] details = stated is null ? [] : [("response-class", stated)];
        var device = FactList.RegisterOf([Make.Registered("M1", "1", kind, details)]).Device("M1")!;

        Assert.Equal(isJudged, ResponseConformity.IsJudged(device));
        Assert.Equal(stated, ResponseConformity.StatedTable(device)?.Key);
    }

    private static ResponseConformity Of(string? type, ResponseTable table, params Fact[] certificates) =>
        ResponseConformity.OverFrequency(Device(type, certificates), Curved.Read, table);

    private static ResponseConformity Angles(params Fact[] certificates) =>
        ResponseConformity.OverAngle(Device("free-field", certificates), Curved.Read, AngleTable.Of1995);

    private static DeviceState Device(string? type, Fact[] certificates)
    {
        (string, object)[] details = type is null ? [] : [("response-type", type)];
        return FactList.RegisterOf([Make.Registered("M1", "1", "microphone", details), .. certificates]).Device("M1")!;
    }
}

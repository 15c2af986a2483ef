using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Checks;

/// <summary>
/// The microphones of the heath are certified at 250 Hz; its calibrators' certificates say 250 Hz too, unless a case says otherwise.
/// </summary>
public sealed class CheckFrequencyTests
{
    [Theory]
    [InlineData(250, null)]
    [InlineData(314, null)] // 250 · 2^(1/3) = 314.98
    [InlineData(316, 316)]
    [InlineData(199, null)] // 250 / 2^(1/3) = 198.43
    [InlineData(198, 198)]
    [InlineData(1000, 1000)]
    public void More_than_a_third_of_an_octave_from_the_certificate_is_said_at_check_and_trace(double certifiedHz, int? said)
    {
        var certificate = Make.Of(Make.Issued(94, 0.1, "level", "dB") with { FrequencyHz = certifiedHz }, "2026-02-05", "device:K1");
        var withdrawn = Make.Annulling(Heath.FirstCalibrator);
        var register = Heath.With(certificate, withdrawn);
        var check = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.15, on: register);
        var flight = Heath.With([certificate, withdrawn, .. Heath.Flight()[..1], check, .. Heath.Flight()[2..3]]);

        var remark = CheckFrequency.Remark((ChainChecked)check.Body, id => flight.Device(id));
        var trace = Heath.One(flight);

        if (said is null)
        {
            Assert.Null(remark);
            Assert.DoesNotContain("The tone is at", trace.Applied!.Caution ?? "", StringComparison.Ordinal);
            return;
        }
        var text = $"The tone is at {said} Hz, the microphone's certificate holds at 250 Hz: "
            + "its sensitivity is taken to be the same at both, and nothing is added to the uncertainty for that.";
        Assert.Equal(text, remark);
        // The calibrator's first certificate was withdrawn, which is a caution of its own.
        Assert.EndsWith(text, trace.Applied!.Caution, StringComparison.Ordinal);
        Assert.Equal(certifiedHz, trace.Applied.ReferenceHz);
    }

    [Fact]
    public void A_frequency_that_nobody_states_is_taken_from_the_calibrators_entry_and_then_from_the_tone()
    {
        var certificate = Make.Of(Make.Issued(94, 0.1, "level", "dB") with { FrequencyHz = null }, "2026-02-05", "device:K1");
        var register = Heath.With(certificate);
        var check = (ChainChecked)Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.15, on: register).Body;
        DeviceState? Device(Register r, string id) => r.Device(id);

        Assert.Null(CheckFrequency.OfTone(check, id => Device(register, id)));
        Assert.Null(CheckFrequency.Remark(check, id => Device(register, id)));
        var heard = check with { Tone = new("a.wav", 1, new string('a', 64), 1, 999.5, 0, 0, 60, 0, 20, null) };
        Assert.Equal(999.5, CheckFrequency.OfTone(heard, id => Device(register, id)));
        Assert.StartsWith("The tone is at 999.5 Hz", CheckFrequency.Remark(heard, id => Device(register, id)), StringComparison.Ordinal);
        var entered = Heath.With(certificate, Heath.Described("K1", ("frequency-hz", 1000)));
        Assert.Equal(1000, CheckFrequency.OfTone(heard, id => Device(entered, id)));
    }

    [Fact]
    public void Held_against_no_certificate_nothing_is_assumed()
    {
        var register = Heath.With(Make.Annulling(Heath.FirstMicrophone));
        var check = (ChainChecked)Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.15, on: register).Body;

        Assert.Empty(check.ExpectedTerms);
        Assert.Null(CheckFrequency.Remark(check, id => register.Device(id)));
    }

    [Fact]
    public void A_check_with_nothing_but_its_outcome_is_among_those_that_cannot_be_worked_with()
    {
        var brief = Heath.Said("06-02 06:30", 3, new ChainCheckedBriefly("S1", "K1", 0.02), [Subject.Campaign(Heath.C), "device:M1"]);
        var register = Heath.With([.. Heath.Flight(), brief]);

        Assert.Equal([(brief.Id, "S1")], CheckBook.Unsound(register, Heath.C).Select(u => (u.Fact, u.Station ?? "")));
    }
}

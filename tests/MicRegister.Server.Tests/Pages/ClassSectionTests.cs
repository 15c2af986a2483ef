using Bunit;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Devices;

namespace MicRegister.Server.Tests.Pages;

/// <summary>The part of a device's page that tells its class, and the fields of a certificate that it is judged by.</summary>
public sealed class ClassSectionTests : PageContext
{
    [Theory]
    [InlineData("1L", "adiabatic", "● meets IEC 60942:1997 1L or later", "at least that class of that edition")]
    [InlineData("1", "none", "▲ undecided for IEC 60942:1997 1L or later", "its edition is not stated, and it depends on it")]
    [InlineData("2", "none", "■ misses IEC 60942:1997 1L or later", "of each it can be of it misses it")]
    [InlineData("0", "none", "● meets IEC 60942:1997 1L or later", "No standard says so: own reading of this program.")]
    public async Task It_says_class_answer_and_why(string name, string law, string answer, string why)
    {
        await Live.Submit([Entered(("calibrator-class", name), ("pressure-law", law))], "test");

        var section = Render<ClassSection>(p => p.Add(s => s.Device, Live.Now.Device("K1")!).Add(s => s.Profile, "transport-1200mm"));

        var text = string.Join(' ', section.Nodes.Select(n => n.TextContent)).ReplaceLineEndings(" ");
        Assert.Contains(answer, text, StringComparison.Ordinal);
        Assert.Contains(why, text, StringComparison.Ordinal);
        Assert.Contains("A36.3.8.1", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_shows_the_certificate_beside_the_limits_and_nothing_of_a_microphone()
    {
        var level = new CertificateIssued(
            "level", null, null, null, null, null, null, 1000, [new(AdjustmentState.AsFoundAndLeft, 114.26, "dB", 0.1, "dB", 2)], null,
            null, null, null, null, null, null);
        await Live.Submit(
        [
            Entered(("calibrator-class", "1"), ("calibrator-edition", "2017")),
            FactText.WriteDerived(FactStamp.Imported(Occurred.On(new(2026, 5, 1)), 2), level, ["device:K1"]),
            FactText.WriteDerived(
                FactStamp.Imported(Occurred.Unknown, 3), new DeviceRegistered("microphone", null, null, "1", []), ["device:M1"]),
        ], "test");

        var rows = Render<ClassSection>(p => p.Add(s => s.Device, Live.Now.Device("K1")!)).FindAll("tbody tr");

        Assert.Equal(["level", "frequency", "distortion", "fluctuation"], rows.Select(r => r.QuerySelector("th")!.TextContent));
        Assert.Contains("▲ does not keep its class", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("not compared with the printed standard", rows[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("○ not judged", rows[1].TextContent, StringComparison.Ordinal);
        Assert.Empty(Render<ClassSection>(p => p.Add(s => s.Device, Live.Now.Device("M1")!)).FindAll("*"));
    }

    [Fact]
    public void A_certificates_tone_is_typed_and_read_and_shown_again()
    {
        var draft = new CertificateDraft
        { Quantity = "level", Value = "114,02", ToneHz = "999,8", ToneHzExpanded = "0.05", Distortion = "0,4" };

        var issued = Assert.IsType<Register.Result<CertificateIssued>.Accepted>(draft.Read()).Value;

        Assert.Equal(new StatedTone(999.8, 0.05, 0.4, null, null), issued.Tone);
        var again = CertificateDraft.Of(new(default, new(2026, 5, 1), issued, ["K1"], false));
        Assert.Equal(("999.8", "0.05", "0.4"), (again.ToneHz, again.ToneHzExpanded, again.Distortion));
        Assert.Equal((null, null), (again.DistortionExpanded, again.Fluctuation));
        Assert.True(again.IsUnchanged(new(2026, 5, 1)));
        Assert.Null(Assert.IsType<Register.Result<CertificateIssued>.Accepted>(new CertificateDraft { Value = "1" }.Read()).Value.Tone);
        draft.Fluctuation = "much";
        var wrong = Assert.IsType<Register.Result<CertificateIssued>.Rejected>(draft.Read()).Why.Text;
        Assert.Contains("Fluctuation 'much': it is no number", wrong, StringComparison.Ordinal);
    }

    private static Fact Entered(params (string Key, string Text)[] details)
    {
        SortedDictionary<string, FieldValue> all = new(details.ToDictionary(d => d.Key, d => FieldValue.Of(d.Text)), StringComparer.Ordinal)
        {
            ["nominal-level-db"] = FieldValue.Of(114),
            ["frequency-hz"] = FieldValue.Of(1000),
        };
        return FactText.WriteDerived(
            FactStamp.Imported(Occurred.Unknown, 1), new DeviceRegistered("sound-calibrator", null, null, "1", all), ["device:K1"]);
    }
}

using Bunit;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Devices;
using MudBlazor;

namespace MicRegister.Server.Tests.Pages;

/// <summary>What the device page says of a response and its limits.</summary>
public sealed class ResponseSectionTests : PageContext
{
    [Fact]
    public async Task Each_band_is_met_exceeded_undecided_or_not_covered_and_says_so()
    {
        // 1 dB up at 1 kHz, where class 1 allows 0.7 dB; U of 0.8 dB at 2 kHz, where 0.6 dB are permitted (IEC 61672-1:2013, table 3).
        await Entered("Hz;dB;U\n250;0;0,1\n1000;1;0,1\n2000;0;0,8\n25000;0;0,1\n", ("response-type", "pressure"));

        var page = Section();

        Assert.Contains("met in 1 band, exceeded in 1 band, undecided in 1 band, not covered in 32 bands", page.Markup, StringComparison.Ordinal);
        Assert.Contains("exceeded by 0.30 dB at 1 kHz", page.Markup, StringComparison.Ordinal);
        Assert.Contains("undecided: U is greater than the 0.60 dB that are permitted", page.Markup, StringComparison.Ordinal);
        Assert.Contains("not covered: the table has no limit here", page.Markup, StringComparison.Ordinal);
        Assert.Contains("not covered: the curve has no point in this band", page.Markup, StringComparison.Ordinal);
        Assert.Contains("states no class and edition", page.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("By angle", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Other_limits_can_be_chosen_and_the_devices_own_come_first()
    {
        await Entered("Hz;dB;U\n250;0;0,1\n1000;1;0,1\n", ("response-type", "pressure"), ("response-class", "IEC 61672-1:2013 class 2"));

        var page = Section();
        Assert.DoesNotContain("exceeded", page.Markup, StringComparison.Ordinal); // class 2 allows 1.0 dB
        Assert.DoesNotContain("states no class and edition", page.Markup, StringComparison.Ordinal);

        await page.InvokeAsync(() => page.FindComponent<MudSelect<string>>().Instance.ValueChanged.InvokeAsync("IEC 61672-1:2013 class 1"));
        Assert.Contains("exceeded by 0.30 dB at 1 kHz", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Curves_by_angle_stand_under_limits_by_angle()
    {
        // 0.6 dB down at 30°, where 0.5 dB are allowed at 1 kHz (IEC 61265:1995, table 1).
        await Entered("Hz;0°;30°;U\n250;0;0;0\n1000;0;-0,6;0\n", ("response-type", "free-field"));

        var page = Section();
        Assert.Contains("exceeded by 0.10 dB at 1 kHz", page.Markup, StringComparison.Ordinal);
        Assert.Contains("By angle of incidence", page.Markup, StringComparison.Ordinal);
    }

    private IRenderedComponent<ResponseSection> Section()
    {
        Render<MudPopoverProvider>();
        return Render<ResponseSection>(p => p.Add(s => s.Device, Live.Now.Device("A1")!));
    }

    private async Task Entered(string curve, params (string Key, string Text)[] details)
    {
        var sha = Live.Log.KeepAttachment(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(curve)));
        var all = new SortedDictionary<string, FieldValue>(details.ToDictionary(d => d.Key, d => FieldValue.Of(d.Text)), StringComparer.Ordinal);
        var issued = new CertificateIssued(
            "response", null, null, null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, 0, "dB", null, null, null)], null, null, null,
            null, sha, null, null);
        var said = new FactStamp(Occurred.On(new(2026, 5, 1)), "P1", "test", 1);
        await Meanwhile(
            FactText.WriteDerived(said, new DeviceRegistered("microphone", "Maker", "Model", "1", all), [Subject.Device("A1")]),
            FactText.WriteDerived(said with { Counter = 2 }, issued, [Subject.Device("A1")]));
    }
}

using System.Text;
using MicRegister.Register.Calibration;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>What a curve file leaves open is asked on the page, and nothing is kept before it is answered.</summary>
public sealed class CurveFileTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync()
    {
        _desk = await DeskUnderTest.Open();
        await _desk.HoldDemo();
    }

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task A_correction_is_asked_before_it_is_kept_with_its_sign_turned()
    {
        var device = _desk.Device("41001");
        var page = await _desk.Page($"/devices/{device.Id}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter a certificate" }).ClickAsync();
        var form = page.GetByRole(AriaRole.Dialog, new() { Name = "Enter a certificate" });
        await form.GetByLabel("Response curve").SetInputFilesAsync(File("c.csv", "Hz;Correction to be added\n100;0.1\n250;0\n1000;-0.2\n"));

        await Expect(form.GetByText("speaks of a correction, whose sign is that of a response turned round")).ToBeVisibleAsync();
        await Expect(form.GetByRole(AriaRole.Button, new() { Name = "Leave the curve out" })).ToHaveCountAsync(0);
        await Choose(page, "Column 2 is", "correction to be added");
        await form.GetByRole(AriaRole.Button, new() { Name = "Read it so" }).ClickAsync();

        await Expect(form.GetByText("are taken as a response with the sign turned")).ToBeVisibleAsync();
        await form.GetByLabel("Result", new() { Exact = true }).FillAsync("12.655");
        await form.GetByRole(AriaRole.Button, new() { Name = "Enter it" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "curve", Exact = true })).ToBeVisibleAsync();
        var sha = _desk.Device("41001").Certificates[^1].Issued.Curve!;
        using var kept = new StreamReader(_desk.Live.Log.OpenAttachment(sha)!);
        Assert.EndsWith(
            "frequency [Hz];level [dB]\n100;-0.1\n250;0\n1000;0.2\n", await kept.ReadToEndAsync(TestContext.Current.CancellationToken),
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_of_several_devices_is_asked_once_and_stores_a_curve_for_each()
    {
        var page = await _desk.Page("/bench");
        await page.GetByLabel("Curves of several devices").SetInputFilesAsync(
            File("two.csv", "Hz;41001;41002;99999\n100;0.1;0.2;0.3\n250;0;0;0\n1000;-0.1;0.4;1\n"));

        await Expect(page.GetByText("What are columns 2, 3, 4?")).ToBeVisibleAsync();
        await page.GetByLabel("Or in words of the command line").FillAsync("2-4=level");
        await page.GetByRole(AriaRole.Button, new() { Name = "Read it so" }).ClickAsync();
        await Expect(page.GetByText("99999: not known, not stored")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 2 curves" }).ClickAsync();

        await Expect(page.GetByText("2 curves are stored.")).ToBeVisibleAsync();
        Assert.Equal("response", _desk.Device("41002").Certificates[^1].Issued.Quantity);
    }

    private static async Task Choose(IPage page, string label, string choice)
    {
        await page.Locator(".mud-select").Filter(new() { HasText = label }).First.ClickAsync();
        await page.Locator(".mud-popover-open .mud-list-item").Filter(new() { HasText = choice }).First.ClickAsync();
        // The list lies over the page until it is gone, and takes the next click for itself.
        await Expect(page.Locator(".mud-popover-open")).ToHaveCountAsync(0);
        await Expect(page.Locator(".mud-overlay:not(.mud-overlay-dialog)")).ToHaveCountAsync(0);
    }

    private static FilePayload File(string name, string text) =>
        new() { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) };
}

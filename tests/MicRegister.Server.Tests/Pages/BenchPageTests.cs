using Bunit;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Bench;

namespace MicRegister.Server.Tests.Pages;

public sealed class BenchPageTests : PageContext
{
    [Fact]
    public async Task Each_key_works_out_one_line_and_what_all_share_works_out_all()
    {
        await Live.Submit(
            [.. Enumerable.Range(1, 9).Select(n => FactText.WriteDerived(
                FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("microphone", null, null, $"{n}", []),
                [Subject.Device("D" + n)]))],
            "test");
        var page = Render<BenchPage>();
        var sheet = page.Instance.Sheet;
        for (var n = 0; n < 5; n++) page.FindAll("input[aria-label^='Serial number']")[n].Input($"{n + 1}");
        Assert.Equal(["D1", "D2", "D3", "D4", "D5"], sheet.Lines.Where(l => !l.IsEmpty).Select(l => l.Device!.Id));
        var before = sheet.Worked;

        page.FindAll("input[aria-label^='Serial number']")[1].Input("9");
        page.FindAll("input[aria-label^='Result']")[1].Input("-38");
        page.FindAll("input[aria-label^='Uncertainty']")[1].Input("0.1");
        page.FindAll("input[aria-label^='Certificate number']")[1].Input("C 1");
        page.FindAll("select[aria-label^='Unit,']")[1].Change("dB re 1 V/Pa");
        page.FindAll("select[aria-label^='Unit of uncertainty']")[1].Change("%");

        Assert.Equal(6, sheet.Worked - before);
        Assert.Equal("D9", sheet.Lines[1].Device!.Id);
        before = sheet.Worked;
        var day = page.FindComponents<MicRegister.Server.Pages.Parts.DayField>()[0].Instance;
        await page.InvokeAsync(() => day.ValueChanged.InvokeAsync(new DateOnly(2026, 8, 1)));
        Assert.Equal(6, sheet.Worked - before); // five lines and the empty one, once
        before = sheet.Worked;
        await page.InvokeAsync(() => day.ValueChanged.InvokeAsync(new DateOnly(2026, 8, 1)));
        page.FindAll("input").First(i => i.GetAttribute("value") == "2026-08-01").Change("2026-08-02");
        Assert.Equal(6, sheet.Worked - before); // the day that stood there is no news; the typed one is, once
    }
}

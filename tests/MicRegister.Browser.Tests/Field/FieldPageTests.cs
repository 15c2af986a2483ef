using Microsoft.Playwright;
using SkiaSharp;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests.Field;

/// <summary>The field pages as they are: readable in the sun, and with a camera that is one to the browser.</summary>
public sealed class FieldPageTests
{
    private const int Width = 640, Height = 480;
    private static readonly string[] Highest = ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

    [Fact]
    public async Task No_field_page_has_an_accessibility_finding_at_the_highest_level()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(4));
        var phone = await FieldPhone.Open(desk);
        await phone.Installed();
        await phone.LayOut("S01", HeathCampaign.Chain(1));
        await phone.AllSent();
        var found = new List<string>();
        foreach (var route in new[] { "", "lay-out", "lay-out/S01", "lay-out/S02", "check", "check/day", "check/S01", "swap", "swap/S01", "take-in", "take-in/S01", "report", "report/MIC1", "find", "find/MIC2", "find/2AYS641TS", "said", "set-up" })
        {
            await phone.Go(route);
            found.AddRange(await Accessibility.Findings(phone.Page, route, Highest));
            // What a finger in a glove hits: 48 px and more.
            var small = await phone.Page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('button, a, input:not([type=checkbox]):not([type=radio]):not([type=file]), select, summary')].filter(e => { const r = e.getBoundingClientRect(); return r.width > 0 && !e.classList.contains('skip') && getComputedStyle(e).display !== 'inline' && r.height < 47.5; }).map(e => `${e.outerHTML.slice(0, 80)} ${e.getBoundingClientRect().height}`)");
            found.AddRange(small.Select(s => $"{route}: {s}"));
        }
        Assert.True(found.Count == 0, string.Join("\n", found));
    }

    [Fact]
    public async Task A_label_before_a_real_camera_device_is_found()
    {
        var video = Path.Combine(Directory.CreateTempSubdirectory("camera-").FullName, "label.y4m");
        await using (var stream = File.Create(video)) Film(stream);
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(2), args: ["--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", "--use-file-for-fake-video-capture=" + video]);
        var context = await desk.NewContext(new() { ViewportSize = new() { Width = 390, Height = 844 }, Permissions = ["camera"] });
        var page = await context.NewPageAsync();
        var asked = new List<string>();
        page.Request += (_, r) => asked.Add(r.Url);
        await page.GotoAsync("/field/#/find");
        await page.GetByRole(AriaRole.Button, new() { Name = "Camera", Exact = true }).ClickAsync();

        await Expect(page.GetByText("52002").First).ToBeVisibleAsync();

        Assert.All(asked, url => Assert.StartsWith(desk.Address, url, StringComparison.Ordinal)); // nothing from anywhere else
        Directory.Delete(Path.GetDirectoryName(video)!, recursive: true);
    }

    // Three seconds of a label that moves and turns, blurred at first, noisy throughout, in the plainest of film formats.
    private static void Film(Stream to)
    {
        using var label = SKBitmap.Decode(FieldPhone.PictureOf(HeathCampaign.Label("PRE2")));
        using var bitmap = new SKBitmap(new SKImageInfo(Width, Height, SKColorType.Gray8, SKAlphaType.Opaque));
        var random = new Random(3);
        to.Write(System.Text.Encoding.ASCII.GetBytes($"YUV4MPEG2 W{Width} H{Height} F10:1 Ip A1:1 C420mpeg2\n"));
        var grey = new byte[Width * Height];
        var colour = Enumerable.Repeat((byte)128, Width * Height / 2).ToArray();
        for (var frame = 0; frame < 30; frame++)
        {
            using (var canvas = new SKCanvas(bitmap))
            {
                canvas.Clear(new SKColor(130, 130, 130));
                canvas.Translate((Width / 2f) + (60 * MathF.Sin(frame * 0.17f)), (Height / 2f) + (20 * MathF.Cos(frame * 0.23f)));
                canvas.RotateDegrees(20 * MathF.Sin(frame * 0.2f));
                using var blur = SKImageFilter.CreateBlur(frame < 8 ? 5 : 0.8f, frame < 8 ? 5 : 0.8f);
                using var paint = new SKPaint { ImageFilter = blur };
                canvas.DrawBitmap(label, -label.Width / 2f, -label.Height / 2f, SKSamplingOptions.Default, paint);
            }
            for (var y = 0; y < Height; y++) bitmap.GetPixelSpan().Slice(y * bitmap.RowBytes, Width).CopyTo(grey.AsSpan(y * Width));
            for (var i = 0; i < grey.Length; i++) grey[i] = (byte)Math.Clamp(grey[i] + random.Next(-14, 15), 16, 235);
            to.Write("FRAME\n"u8);
            to.Write(grey);
            to.Write(colour);
        }
    }
}

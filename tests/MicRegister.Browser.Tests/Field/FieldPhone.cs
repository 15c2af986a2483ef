using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register.Labels;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests.Field;

/// <summary>A phone with the field pages: a browser context with a storage of its own.</summary>
internal sealed class FieldPhone
{
    public const string Address = "HTTPS://REGISTER.LAN/L/";

    // A picture that moves, turns, is blurred at first and noisy throughout, shown as the camera's stream.
    private const string Camera = """
        (() => {
          const canvas = Object.assign(document.createElement('canvas'), { width: 1280, height: 720 });
          const c = canvas.getContext('2d');
          const grain = Object.assign(document.createElement('canvas'), { width: 1280, height: 720 });
          const g = grain.getContext('2d'), pixels = g.createImageData(1280, 720);
          let seed = 1, image, t = 0;
          for (let i = 0; i < pixels.data.length; i += 4) { seed = (seed * 1103515245 + 12345) & 0x7fffffff; pixels.data[i] = pixels.data[i + 1] = pixels.data[i + 2] = seed >> 23; pixels.data[i + 3] = 60; }
          g.putImageData(pixels, 0, 0);
          window.showLabel = url => new Promise((done, fail) => { const i = new Image(); i.onload = () => { image = i; t = 0; done(); }; i.onerror = fail; i.src = url; });
          window.hideLabel = () => { image = undefined; };
          const draw = () => {
            t += 1 / 15;
            c.filter = 'none'; c.fillStyle = '#8d8676'; c.fillRect(0, 0, 1280, 720);
            if (image) {
              c.save(); c.translate(640 + 160 * Math.sin(1.7 * t), 360 + 50 * Math.cos(2.3 * t)); c.rotate(0.6 * Math.sin(2 * t)); c.filter = t < 0.5 ? 'blur(8px)' : 'blur(1px)';
              c.drawImage(image, -image.width / 2, -image.height / 2); c.restore();
            }
            c.filter = 'none'; c.drawImage(grain, (t * 977) % 64 - 64, (t * 613) % 64 - 64, 1408, 848);
          };
          // Fifteen pictures a second, or as many as leave the page two thirds of the time: a slow machine must not drown in its camera.
          const film = () => { const began = performance.now(); draw(); setTimeout(film, Math.max(66, 3 * (performance.now() - began))); };
          film();
          if (navigator.mediaDevices) navigator.mediaDevices.getUserMedia = async () => canvas.captureStream(15);
        })();
        """;

    private FieldPhone(IBrowserContext context) => Context = context;

    public IBrowserContext Context { get; }

    public IPage Page { get; private set; } = default!;

    public ILocator Unsent => Page.Locator("#unsent");

    /// <summary>A phone before this server, until the test ends.</summary>
    /// <param name="desk">The server.</param>
    /// <param name="path">What it opens first.</param>
    /// <param name="address">Under which name it knows the server; null takes the usual one.</param>
    public static async Task<FieldPhone> Open(DeskUnderTest desk, string path = "/field/", string? address = null)
    {
        var context = await desk.NewContext(new()
        {
            BaseURL = address,
            ViewportSize = new() { Width = 390, Height = 844 },
            HasTouch = true,
            IsMobile = true,
            Locale = "en-GB",
            Permissions = ["camera", "geolocation"],
            Geolocation = new() { Latitude = 53.501f, Longitude = 1.2f, Accuracy = 4 },
            AcceptDownloads = true,
        });
        await context.AddInitScriptAsync(Camera);
        var phone = new FieldPhone(context);
        await phone.Reopen(path);
        return phone;
    }

    /// <summary>A tab anew, as after the phone died.</summary>
    public async Task Reopen(string path = "/field/")
    {
        Page = await Context.NewPageAsync();
        await Page.GotoAsync(path);
    }

    /// <summary>
    /// Goes to another screen and waits until it is drawn: then its own heading has the focus, not the one that was left.
    /// </summary>
    public async Task Go(string route)
    {
        await Page.EvaluateAsync("() => document.querySelectorAll('h1').forEach(h => { h.dataset.left = ''; })");
        await Page.GotoAsync("/field/#/" + route);
        await Expect(Page.Locator("h1:not([data-left])")).ToBeFocusedAsync();
    }

    /// <summary>Waits until the page works without a network: the kit is kept and so are all files.</summary>
    public async Task Installed()
    {
        await Expect(Page.GetByRole(AriaRole.Link, new() { Name = "Lay out" })).ToBeVisibleAsync();
        await Page.WaitForFunctionAsync("async () => (await navigator.serviceWorker.ready).active?.state === 'activated' && Boolean(await caches.match('/field/vendor/zxing_reader.wasm'))");
    }

    /// <summary>Holds a label before the camera.</summary>
    public Task Show(LabelCode code) => Page.EvaluateAsync("url => window.showLabel(url)", Picture(code));

    /// <summary>Lowers the phone: no label is before the camera.</summary>
    public Task Lower() => Page.EvaluateAsync("() => window.hideLabel()");

    /// <summary>Types a code and sends it.</summary>
    public async Task Type(string text)
    {
        await Page.GetByLabel("Type or scan a code").FillAsync(text);
        await Page.GetByLabel("Type or scan a code").PressAsync("Enter");
    }

    public Task Press(string button) => Page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();

    /// <summary>Lays a station out by typed codes.</summary>
    public async Task LayOut(string station, params string[] devices)
    {
        await Page.GotoAsync("/field/#/lay-out/" + station);
        await Expect(Page.Locator("h1")).ToContainTextAsync(station);
        foreach (var device in devices)
        {
            await Type(HeathCampaign.Label(device).Text);
            await Expect(Page.GetByRole(AriaRole.List, new() { Name = "Parts of this chain" }).GetByRole(AriaRole.Button, new() { NameRegex = new("^Take off") })).ToHaveCountAsync(Array.IndexOf(devices, device) + 1);
        }
        await Page.GetByRole(AriaRole.Radio, new() { Name = "Yes" }).CheckAsync();
        await Press("Placed");
        await Expect(Page.GetByText($"{station} is placed")).ToBeVisibleAsync();
    }

    /// <summary>Waits until everything was sent.</summary>
    public Task AllSent() => Expect(Unsent).ToHaveAttributeAsync("data-unsent", "0", new() { Timeout = Patience.SendingMs });

    private static string Picture(LabelCode code) => "data:image/png;base64," + Convert.ToBase64String(PictureOf(code));

    /// <summary>A picture of a label, as a camera sees it from near.</summary>
    public static byte[] PictureOf(LabelCode code)
    {
        var layout = LabelLayout.Read(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "labels", "sheet-3x8.layout")), "sheet-3x8");
        using var content = new MemoryStream();
        // The label alone on its sheet: 70 × 37 mm at 200 dots per inch, a code of 22 mm.
        PngPainter.Paint(LabelSheet.Pages(layout with { PageWidthMm = 70, PageHeightMm = 38, Columns = 1, Rows = 1 }, [new(code, new Dictionary<string, string> { ["kind"] = "Part" })], Address)[0], 200, content);
        return content.ToArray();
    }
}

using System.Globalization;
using System.Text;
using MicRegister.Register.Calibration;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>A day's work at the bench: many results with their files on one sheet, which nothing takes away before it is stored.</summary>
public sealed class BenchDayTests : IAsyncLifetime
{
    private const int Most = 60;

    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync()
    {
        _desk = await DeskUnderTest.Open();
        await _desk.HoldDemo();
    }

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Twenty_results_with_their_certificates_are_entered_in_few_acts_and_taken_back_in_one()
    {
        var serials = Enumerable.Range(41001, 20).Select(n => n.ToString(CultureInfo.InvariantCulture)).ToList();
        var before = serials.ToDictionary(s => s, s => CalibrationSeries.Newest(_desk.Device(s), "sensitivity")!.InForce!.Value);
        var page = await _desk.Page("/bench");
        var acts = new Acts(page);

        await acts.Fill(page.GetByLabel("Laboratory", new() { Exact = true }), "House of measurement");
        await acts.Fill(page.GetByLabel("U of all lines"), "0.06");
        await acts.Fill(page.GetByLabel("Static pressure, kPa", new() { Exact = true }), "1008 hPa");
        await acts.Fill(page.GetByLabel("Temperature, °C", new() { Exact = true }), "23,1");
        await acts.Fill(page.GetByLabel("Humidity, %", new() { Exact = true }), "45");
        await acts.Drop(Sheet(page), [.. serials.Select(s => Pdf($"certificate {s}.pdf"))]);
        await acts.Click(page.GetByRole(AriaRole.Button, new() { Name = "Open 20 lines" }));
        for (var n = 1; n <= 20; n++)
        {
            var result = before[serials[n - 1]].ToString("R", CultureInfo.InvariantCulture);
            await acts.Fill(Cell(page, "Result", n), result);
            await acts.Fill(Cell(page, "Certificate number", n), $"C-{n}");
        }
        await DeskUnderTest.Answered(page);
        var doubts = page.GetByLabel("it is right all the same");
        for (var left = await doubts.CountAsync(); left > 0; left--) await acts.Click(doubts.Nth(left - 1));
        await acts.Click(page.GetByRole(AriaRole.Button, new() { Name = "Store 20 results" }));
        await Expect(page.GetByText("20 results are stored, 20 with their certificate.")).ToBeVisibleAsync();

        Assert.True(acts.Count <= Most, $"{acts.Count} acts");
        for (var n = 1; n <= 20; n++)
        {
            var certificate = _desk.Device(serials[n - 1]).Certificates.Single(c => c.Issued.Number == $"C-{n}");
            Assert.Equal((before[serials[n - 1]], 0.06), (certificate.InForce!.Value, certificate.InForce.ExpandedUncertainty));
            Assert.Equal(
                (new DateOnly(2026, 8, 3), "House of measurement", new StatedAir(100.8, 23.1, 45)),
                (certificate.Day, certificate.Issued.Laboratory, certificate.Issued.Air));
            using var kept = new StreamReader(_desk.Live.Log.OpenAttachment(certificate.Issued.Attachment!)!);
            Assert.Equal($"%PDF-1.7 certificate {serials[n - 1]}.pdf", await kept.ReadToEndAsync(TestContext.Current.CancellationToken));
        }

        var count = _desk.Live.Now.Count;
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Undo") }).ClickAsync();
        await Expect(page.GetByText("20 results are taken back; their lines are here again.")).ToBeVisibleAsync();
        Assert.Equal(count + 20, _desk.Live.Now.Count);
        for (var n = 1; n <= 20; n++)
            Assert.True(_desk.Device(serials[n - 1]).Certificates.Single(c => c.Issued.Number == $"C-{n}").IsAnnulled);
        await Expect(Cell(page, "Certificate number", 20)).ToHaveValueAsync("C-20");
    }

    [Fact]
    public async Task What_is_not_stored_is_asked_about_and_survives_leaving_a_reload_and_a_lost_connection()
    {
        var page = await _desk.Page("/bench");
        await page.GetByLabel("Serial number, line 1").FillAsync("41001");
        await page.GetByLabel("Result, line 1").FillAsync("13.9 mV/Pa");
        await page.GetByLabel("Temperature, °C, line 1").FillAsync("24.5");
        await Sheet(page).SetInputFilesAsync([Pdf("41001.pdf"), Pdf("nobody.pdf")]);
        await Expect(page.GetByText("certificate 41001.pdf")).ToBeVisibleAsync();
        await page.GetByLabel("it is right all the same").CheckAsync();

        // Within the desk: asked; it stays, or goes and is there again.
        await page.GetByRole(AriaRole.Link, new() { Name = "Fleet", Exact = true }).First.ClickAsync();
        await Expect(page.GetByText("One line and 2 files are not stored.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Stay", Exact = true }).ClickAsync();
        await Expect(page.GetByLabel("Result, line 1")).ToHaveValueAsync("13.9 mV/Pa");
        await page.GetByRole(AriaRole.Link, new() { Name = "Fleet", Exact = true }).First.ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Leave", Exact = true }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Fleet");
        await page.GetByRole(AriaRole.Link, new() { Name = "Bench", Exact = true }).First.ClickAsync();
        await IsThere(page);

        var asked = new List<string>();
        page.Dialog += async (_, dialog) =>
        {
            asked.Add(dialog.Type);
            await dialog.AcceptAsync();
        };
        await page.ReloadAsync();
        await DeskUnderTest.Heard(page);
        await IsThere(page);
        Assert.Equal(["beforeunload"], asked);

        await page.EvaluateAsync("Blazor._internal.forceCloseConnection()");
        await page.GetByLabel("Certificate number, line 1").FillAsync("C-1");
        await IsThere(page);
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Store this result" })).ToBeEnabledAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store this result" }).ClickAsync();
        await Expect(page.GetByText("One result is stored, with its certificate.")).ToBeVisibleAsync();
        var stored = _desk.Device("41001").Certificates[^1];
        Assert.Equal((13.9, 24.5), (stored.InForce!.Value, stored.Issued.Air!.TemperatureC));
        Assert.NotNull(stored.Issued.Attachment);

        // The file that nobody placed still waits; without it nothing is asked.
        await page.GetByRole(AriaRole.Button, new() { Name = "Leave out nobody.pdf" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Fleet", Exact = true }).First.ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Fleet");

        static async Task IsThere(IPage page)
        {
            await Expect(page.GetByLabel("Result, line 1")).ToHaveValueAsync("13.9 mV/Pa");
            await Expect(page.GetByLabel("Temperature, °C, line 1")).ToHaveValueAsync("24.5");
            await Expect(page.GetByText("certificate 41001.pdf")).ToBeVisibleAsync();
            await Expect(page.GetByLabel("it is right all the same")).ToBeCheckedAsync();
            await Expect(page.Locator(".files-asked")).ToContainTextAsync("nobody.pdf");
        }
    }

    [Fact]
    public async Task Files_can_be_dropped_on_a_line_on_the_sheet_and_beside_it()
    {
        var page = await _desk.Page("/bench");
        await page.GetByLabel("Serial number, line 1").FillAsync("41001");
        await page.GetByLabel("Serial number, line 2").FillAsync("41002");
        await Expect(page.GetByLabel("Serial number, line 3")).ToBeVisibleAsync();

        await DropOn(page, "tbody.bench-line:nth-of-type(1) td:nth-child(2)", "scan.pdf");
        await Expect(Files(page, 1)).ToContainTextAsync("certificate scan.pdf");
        await DropOn(page, "section[data-drops] thead", "41002.pdf");
        await Expect(Files(page, 2)).ToContainTextAsync("certificate 41002.pdf");
        await DropOn(page, "h1", "41003.pdf"); // beside it: never opened in the place of the page
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Open a line" })).ToBeVisibleAsync();
        Assert.Equal(0, await page.Locator(".dropping").CountAsync());
    }

    [Fact]
    public async Task It_is_typed_like_a_sheet()
    {
        var page = await _desk.Page("/bench");
        await page.GetByLabel("Serial number, line 1").FocusAsync();
        foreach (var (serial, result) in new[] { ("41001", "-37.9"), ("41002", "-38.3"), ("41003", "-38.2") })
        {
            await page.Keyboard.TypeAsync(serial);
            await page.Keyboard.PressAsync("Enter");
            await page.Keyboard.TypeAsync(result);
            await page.Keyboard.PressAsync("Enter");
        }
        await Expect(page.GetByLabel("Serial number, line 4")).ToBeFocusedAsync();
        await Expect(page.GetByLabel("Result, line 2")).ToHaveValueAsync("-38.3");

        await page.Keyboard.PressAsync("ArrowUp");
        await Expect(page.GetByLabel("Serial number, line 3")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        await Expect(page.GetByLabel("Result, line 3")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("ArrowUp");
        await page.Keyboard.PressAsync("ArrowUp");
        // A result that is typed over, then down the column, as where the serial numbers stand already.
        await page.Keyboard.TypeAsync("-37.95");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Result, line 2")).ToBeFocusedAsync();
        await Expect(page.GetByLabel("Result, line 1")).ToHaveValueAsync("-37.95");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByLabel("Uncertainty, line 2", new() { Exact = true })).ToBeFocusedAsync();
        // Within a text the arrows move in the text.
        await page.GetByLabel("Result, line 3").FocusAsync();
        await page.Keyboard.PressAsync("End");
        await page.Keyboard.PressAsync("ArrowLeft");
        await page.Keyboard.TypeAsync("1");
        await Expect(page.GetByLabel("Result, line 3")).ToHaveValueAsync("-38.12");
    }

    [Fact]
    public async Task A_full_sheet_has_no_accessibility_finding_and_fits_a_phone()
    {
        var page = await _desk.Page("/bench");
        await Fill(page);
        var found = new List<string>(await Accessibility.Findings(page, "bench light"));
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        found.AddRange(await Accessibility.Findings(page, "bench dark"));
        await page.SetViewportSizeAsync(390, 844);
        found.AddRange(await Accessibility.Findings(page, "bench narrow"));
        Assert.Empty(found);
        Assert.Equal(0, await DeskUnderTest.WiderThanPhone(page));
        var cells = page.Locator(".bench-sheet .cell");
        Assert.True(await cells.EvaluateAllAsync<bool>("all => all.every(c => c.getBoundingClientRect().right <= 390)"));
    }

    /// <summary>A sheet with everything on it: what fits, what is asked, what is wrong, and files that wait.</summary>
    internal static async Task Fill(IPage page)
    {
        await page.GetByText("Paste a block from a spreadsheet").ClickAsync();
        await page.GetByLabel("Rows of serial number").FillAsync(string.Concat(Enumerable.Range(41001, 18).Select(n =>
            $"{n}\t{(n == 41005 ? "13.9 mV/Pa" : n == 41009 ? "twelve" : "-38.2")}\t{(n % 3 == 0 ? "" : "0.06")}\n")) + "99999\t1\t\n");
        await page.GetByLabel("Rows of serial number").BlurAsync();
        await page.GetByLabel("Temperature, °C", new() { Exact = true }).FillAsync("23");
        await page.GetByLabel("Static pressure, kPa", new() { Exact = true }).FillAsync("1008 hPa");
        await page.GetByLabel("Humidity, %, line 3").FillAsync("120");
        await Sheet(page).SetInputFilesAsync(
        [
            .. Enumerable.Range(41001, 12).Select(n => Pdf($"certificate {n}.pdf")),
            Pdf("nobody.pdf"), Pdf("41001 and 41002.pdf"), Pdf("41030.pdf"),
            Named("41002-curve.csv", "frequency [Hz];level [dB]\n100;0.1\n250;0\n1000;-0.1\n"),
            Named("41004.csv", "Hz;Correction to be added\n100;0.1\n250;0\n1000;-0.2\n"),
        ]);
        await page.GetByText("No device has the serial number").WaitForAsync();
        await page.GetByText("curve 41002-curve.csv").WaitForAsync();
        await page.GetByText("Nothing is kept until it is clear.").WaitForAsync();
    }

    private static ILocator Sheet(IPage page) => page.Locator("section[data-drops] > .file-drop input[type=file]");

    private static ILocator Files(IPage page, int line) => page.Locator("tbody.bench-line").Nth(line - 1).Locator("td[data-head=Files]");

    // A drop as the browser tells it, with a file of the machine.
    private static async Task DropOn(IPage page, string where, string name) => await page.EvaluateAsync("""
        ([where, name]) => {
          const data = new DataTransfer();
          data.items.add(new File(['%PDF-1.7 ' + name], name, { type: 'application/pdf' }));
          const target = document.querySelector(where);
          for (const type of ['dragover', 'drop']) {
            const e = new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true });
            target.dispatchEvent(e);
            if (!e.defaultPrevented) throw new Error(`${type} was left to the browser, which opens the file`);
          }
        }
        """, new[] { where, name });

    private static ILocator Cell(IPage page, string what, int line) => page.GetByLabel($"{what}, line {line}", new() { Exact = true });

    private static FilePayload Pdf(string name) => Named(name, "%PDF-1.7 " + name);

    private static FilePayload Named(string name, string text) =>
        new() { Name = name, MimeType = "application/octet-stream", Buffer = Encoding.UTF8.GetBytes(text) };
}

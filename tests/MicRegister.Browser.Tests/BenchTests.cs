using MicRegister.Documents.Recordings;
using MicRegister.Documents.Tests.Recordings;
using MicRegister.Register.Calibration;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The technician's work at the bench and in the field, in a browser.</summary>
public sealed class BenchTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync()
    {
        _desk = await DeskUnderTest.Open();
        await _desk.HoldDemo();
    }

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Recorded_tones_before_and_after_become_checked_chains()
    {
        var page = await _desk.Page("/checks/QUILLMERE-26");
        await page.GetByLabel("Static pressure, kPa").FillAsync("99,8");
        await Expect(page.GetByText("Level at the microphone: 123.878 dB")).ToBeVisibleAsync(); // 124.01 + 20 lg(99.8 / 101.325)
        await page.GetByLabel("Range of the channels, V peak").FillAsync("10");
        await page.Locator("input[type=file]").SetInputFilesAsync([Recording("C01-before.wav", 0), Recording("notes.wav", 0, 1)]);
        await Expect(page.GetByText("8 of 9 channels are usable and stand for a station.")).ToBeVisibleAsync();
        // The ninth says nothing of itself; a person knows.
        await page.GetByLabel("Station of channel 1 of notes.wav").SelectOptionAsync("S20");
        await Expect(page.GetByText("9 of 9 channels")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 9 checks" }).ClickAsync();
        await Expect(page.GetByText("9 checks are stored.")).ToBeVisibleAsync();

        // After the recordings: the third chain lost half a decibel.
        await page.GotoAsync("/checks/QUILLMERE-26");
        await DeskUnderTest.Heard(page);
        await page.GetByLabel(new System.Text.RegularExpressions.Regex("^When")).SelectOptionAsync("After");
        await page.GetByLabel("Static pressure, kPa").FillAsync("99.8");
        await page.GetByLabel("Range of the channels, V peak").FillAsync("10");
        await page.Locator("input[type=file]").SetInputFilesAsync([Recording("C01-after.wav", -0.5)]);
        var row = page.Locator("tr").Filter(new() { Has = page.GetByText("S03", new() { Exact = true }) }).First;
        await Expect(row).ToContainTextAsync("−0.500");
        await Expect(row).ToContainTextAsync("reject");
        await row.GetByRole(AriaRole.Button, new() { Name = "Why" }).ClickAsync();
        await Expect(page.GetByText("Uncertainty budget")).ToBeVisibleAsync();
        await Expect(page.GetByText("since the check before").First).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 8 checks" }).ClickAsync();
        await Expect(page.GetByText("8 checks are stored.")).ToBeVisibleAsync();

        // What was stored stands in readiness, and can be taken back.
        await page.GotoAsync("/campaigns/QUILLMERE-26");
        await Expect(page.Locator("li").Filter(new() { HasText = "S03: The check after" }))
            .ToContainTextAsync("−0.500 dB since the check before (limit 0.3 dB)");
    }

    [Fact]
    public async Task Results_are_typed_by_keyboard_and_a_doubtful_one_waits()
    {
        var page = await _desk.Page("/bench");
        await page.GetByLabel("Serial number, line 1").FillAsync("41001");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Result, line 1")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("-37,946");
        await page.GetByLabel("Uncertainty, line 1", new() { Exact = true }).FillAsync("0.06");
        await page.GetByLabel("Result, line 1").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Serial number, line 2")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("41002");
        await page.GetByLabel("Result, line 2").FillAsync("-36.9");
        await page.GetByLabel("Uncertainty, line 2", new() { Exact = true }).FillAsync("0.06");

        await Expect(page.GetByText("sigma from what was expected: check the coupler, the pressure, the unit.")).ToBeVisibleAsync();
        await Expect(page.GetByText("One that does not fit is left")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store this result" }).ClickAsync();
        await Expect(page.GetByText("One result is stored.")).ToBeVisibleAsync();
        await page.GetByLabel("it is right all the same").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store this result" }).ClickAsync();
        await Expect(page.GetByLabel("Result, line 1")).ToHaveValueAsync(""); // it left the sheet: it is stored
        Assert.Equal(-36.9, _desk.Device("41002").Certificates[^1].InForce!.Value);

        var device = _desk.Device("41001");
        Assert.Equal(-37.946, device.Certificates[^1].InForce!.Value);
        Assert.Equal(new DateOnly(2026, 8, 3), device.Certificates[^1].Day);
    }

    [Fact]
    public async Task A_block_from_a_spreadsheet_is_pasted()
    {
        var page = await _desk.Page("/bench");
        await page.GetByText("Paste a block from a spreadsheet").ClickAsync();
        await page.GetByLabel("Rows of serial number").FillAsync("Serial\tSensitivity\tU\n41003\t-38.21 dB re 1 V/Pa\t0.06 dB\n41004\t12,6 mV/Pa\t0,7 %\n99999\t1\t\n");
        await page.GetByLabel("Rows of serial number").BlurAsync();

        await Expect(page.GetByLabel("Result, line 1")).ToHaveValueAsync("-38.21");
        await Expect(page.GetByText("No device has the serial number '99999'.")).ToBeVisibleAsync();
        // 20 lg 0.0126 = -37.993 dB.
        await Expect(page.Locator("tbody tr").Nth(1)).ToContainTextAsync("−37.993 dB");
    }

    [Fact]
    public async Task A_data_sheet_memory_leads_to_its_device()
    {
        var page = await _desk.Page("/bench");
        await page.GetByLabel("The memory, hexadecimal").FillAsync(Convert.ToHexString(BitConverter.GetBytes(17UL | (12UL << 14) | (1UL << 29) | (1UL << 34) | (41001UL << 40))));
        await page.GetByLabel("The memory, hexadecimal").BlurAsync();

        await page.GetByRole(AriaRole.Link, new() { NameRegex = new("41001") }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("41001");
    }

    /// <summary>Eight channels at 250 Hz near what the demo's chains give at 124 dB and 10 V; the third is off by so many decibels.</summary>
    internal static FilePayload Recording(string name, double thirdDb, int channels = 8) => new()
    {
        Name = name,
        MimeType = "audio/wav",
        Buffer = MadeRecording.Of([.. Enumerable.Range(1, channels).Select(i => MadeRecording.Tone(6, 8000, 0.0396 * Math.Pow(10, ((0.004 * i) + (i == 3 ? thirdDb : 0)) / 20), 250, noise: 1e-5, seed: i))], 8000, SampleFormat.Float32),
    };
}

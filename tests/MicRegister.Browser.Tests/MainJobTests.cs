using MicRegister.Documents.Recordings;
using MicRegister.Documents.Tests.Recordings;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The main job as a planner does it, in a browser.</summary>
public sealed class MainJobTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Drop_the_files_read_the_verdict_follow_a_finding_correct_it_and_undo_it()
    {
        var page = await _desk.Page("/import");
        await DeskUnderTest.TakeOverDemo(page);
        var held = Enumerable.Range(1, _desk.Live.Now.Count).Select(_desk.Live.Now.Source.Read);
        Assert.Equal((await DeskUnderTest.Demo()).Where(IsTakenOver).Select(f => f.Id), held.Where(IsTakenOver).Select(f => f.Id));

        await page.GetByRole(AriaRole.Link, new() { Name = "Campaigns", Exact = true }).First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Quillmere 26" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("not ready");
        var due = page.Locator("li").Filter(new() { HasText = "S22:" });
        await Expect(due).ToContainTextAsync("valid through 2026-09-06");

        // To the device: its certificate of 6 September 2024 was in truth of 2025.
        await due.GetByRole(AriaRole.Link, new() { Name = "device" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("41022");
        var row = page.Locator("tr").Filter(new() { HasText = "2024-09-06" });
        await row.GetByRole(AriaRole.Button, new() { Name = "Correct" }).ClickAsync();
        var form = page.GetByRole(AriaRole.Dialog, new() { Name = "Correct this certificate" });
        await form.GetByLabel("Day", new() { Exact = true }).FillAsync("2025-09-06");
        await form.GetByRole(AriaRole.Button, new() { Name = "Say it right" }).ClickAsync();
        await Expect(page.GetByText("Stored: sensitivity certificate of 2025-09-06, corrected.")).ToBeVisibleAsync();
        await Expect(page.Locator("tr").Filter(new() { HasTextRegex = new("2025-09-06\\s*sensitivity") }).First).ToContainTextAsync("in use");

        await page.GetByRole(AriaRole.Link, new() { Name = "Quillmere 26" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("not ready");
        await Expect(page.Locator("li").Filter(new() { HasText = "S22:" })).ToHaveCountAsync(0);

        // Undo: annul the correction in the device's journal; the first statement counts again.
        await page.GoBackAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("41022");
        await page.Locator("tr").Filter(new() { HasText = "2024-09-06" }).GetByRole(AriaRole.Button, new() { Name = "Take the annulment back" }).ClickAsync();
        await Expect(page.Locator("tr").Filter(new() { HasTextRegex = new("2024-09-06\\s*sensitivity") }).First).ToContainTextAsync("in use");
        await page.GetByRole(AriaRole.Link, new() { Name = "Quillmere 26" }).ClickAsync();
        await Expect(page.Locator("li").Filter(new() { HasText = "S22:" })).ToContainTextAsync("valid through 2026-09-06");
    }

    private static bool IsTakenOver(Fact fact) => fact.Author == FactStamp.Import;

    [Fact]
    public async Task A_spare_is_tried_without_storing_and_the_day_slider_shows_what_bites()
    {
        await _desk.HoldDemo();
        var before = _desk.Live.Now.Count;
        var page = await _desk.Page("/campaigns/QUILLMERE-26?station=S31");

        await page.GetByLabel("Try a spare here").SelectOptionAsync(new SelectOptionValue { Label = "Microphone A-12P 41073" });
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Tried, not stored");
        await Expect(page.Locator("g.mark[aria-label='Station S31: ready']")).ToHaveCountAsync(1);
        Assert.Equal(before, _desk.Live.Now.Count);

        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.GetByText("Tried, not stored")).ToHaveCountAsync(0);
        Assert.True(_desk.Live.Now.Count > before);

        await page.GetByRole(AriaRole.Button, new() { Name = "All stations" }).ClickAsync();
        var slider = page.Locator("input[type=range]");
        await slider.FocusAsync();
        await page.Keyboard.PressAsync("Home");
        await Expect(page.Locator("g.mark[aria-label='Station S22: ready']")).ToHaveCountAsync(1); // due only on the seventh
        await page.Keyboard.PressAsync("End");
        await Expect(page.Locator("g.mark[aria-label='Station S22: not ready']")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task The_fleet_is_filtered_by_typing_and_follows_new_facts_by_itself()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/fleet");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("318 of 318");

        await page.GetByLabel("Any field").FillAsync("gp05 plywood");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("0 of 318");
        await page.GetByLabel("Any field").FillAsync("gp plywood");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("1 of 318");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "GP060" })).ToBeVisibleAsync();

        // Another person enters a device meanwhile.
        var other = await _desk.Page("/fleet");
        await other.GetByRole(AriaRole.Button, new() { Name = "Enter a device" }).ClickAsync();
        await other.GetByLabel("Serial number").FillAsync("NEW-1");
        await other.GetByRole(AriaRole.Button, new() { Name = "Enter", Exact = true }).ClickAsync();
        await Expect(other.Locator("h1")).ToContainTextAsync("NEW-1");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("1 of 319");
    }

    [Fact]
    public async Task Rows_that_were_put_aside_are_mended_on_the_page()
    {
        var page = await _desk.Page("/import");
        await page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "two.csv", MimeType = "text/csv", Buffer = "kind,serial,size (mm)\nmicrophone,A1,12.7\nteapot,A2,12.7\n"u8.ToArray() });
        await Expect(page.GetByText("1 new, 1 questioned")).ToBeVisibleAsync();
        await page.GetByText("Mend these rows here").ClickAsync();
        var box = page.GetByLabel("One row a line, as in the file");
        await box.FillAsync((await box.InputValueAsync()).Replace("teapot", "microphone", StringComparison.Ordinal));
        await page.GetByRole(AriaRole.Button, new() { Name = "Read the mended rows" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "two.csv.mend-1.csv" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("Store") }).ClickAsync();
        await Expect(page.GetByText("facts stored")).ToBeVisibleAsync();
        Assert.Equal(["A1", "A2"], _desk.Live.Now.DeviceIds.Select(d => _desk.Live.Now.Device(d)!.Serial).Order());
    }

    // Dropped, answered once, stored, and its campaign judged: five acts.
    [Fact]
    public async Task A_list_that_leaves_its_unit_open_is_asked_once_and_stored()
    {
        var page = await _desk.Page("/import");
        await page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload
        {
            Name = "liste.csv",
            MimeType = "text/csv",
            Buffer = "Gerät;Typ;Ser.-Nr.;Letzte Kal.;Empfindlichkeit\nMessmikrofon;M1;7;3.2.2025;49,7\nMessmikrofon;M1;8;4.2.2025;50,1\n"u8.ToArray(),
        });
        var question = page.GetByRole(AriaRole.Group, new() { NameRegex = new("In which unit") });
        await Expect(question).ToContainTextAsync("2 rows wait for it");
        await question.GetByRole(AriaRole.Button, new() { Name = "mV/Pa", Exact = true }).ClickAsync();
        await Expect(page.GetByText("2 rows: 2 new")).ToBeVisibleAsync();
        await Expect(question).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("Store") }).ClickAsync();
        await Expect(page.GetByText("facts stored")).ToBeVisibleAsync();
        Assert.Equal([49.7, 50.1], _desk.Live.Now.DeviceIds.Select(d => _desk.Live.Now.Device(d)!.Certificates[0].InForce!.Value).Order());
    }

    [Fact]
    public async Task Headers_that_are_not_understood_are_explained_on_the_page()
    {
        var page = await _desk.Page("/import");
        await page.Locator("input[type=file]").SetInputFilesAsync(
        [
            new FilePayload { Name = "own.csv", MimeType = "text/csv", Buffer = "Gattung,Nr\nmicrophone,A1\n"u8.ToArray() },
            new FilePayload { Name = "own.csv.mapping", MimeType = "text/plain", Buffer = "Gattung = kind\nNr = serial\n"u8.ToArray() },
        ]);
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("Store") }).ClickAsync();
        await Expect(page.GetByText("facts stored")).ToBeVisibleAsync();
        Assert.Equal("A1", _desk.Live.Now.Device(_desk.Live.Now.DeviceIds.Single())!.Serial);
    }

    [Fact]
    public async Task Two_who_type_about_one_device_see_each_other()
    {
        await _desk.HoldDemo();
        var id = _desk.Device("41015").Id;
        var page = await _desk.Page("/devices/" + id);
        var other = await _desk.Page("/devices/" + id);

        foreach (var desk in new[] { page, other })
            await desk.GetByRole(AriaRole.Button, new() { Name = "Say where it is", Exact = true }).ClickAsync();
        var form = page.GetByRole(AriaRole.Dialog, new() { Name = "Where it is and how" });
        await form.GetByLabel("Place").FillAsync("van 2");
        await DeskUnderTest.Answered(page); // the register knows what this person has before the eyes
        var theirs = other.GetByRole(AriaRole.Dialog, new() { Name = "Where it is and how" });
        await theirs.GetByLabel("Place").FillAsync("cupboard 9");
        await theirs.GetByRole(AriaRole.Button, new() { Name = "Say so" }).ClickAsync();
        await Expect(other.Locator("h1 + p")).ToContainTextAsync("cupboard 9");
        await Expect(page.Locator("h1 + p")).ToContainTextAsync("cupboard 9"); // the page has followed, under what is being typed
        await Expect(form.GetByLabel("Place")).ToHaveValueAsync("van 2");

        await form.GetByRole(AriaRole.Button, new() { Name = "Say so" }).ClickAsync();
        await Expect(form.GetByRole(AriaRole.Alert)).ToContainTextAsync("device moved: cupboard 9");
        await Expect(form.GetByLabel("Place")).ToHaveValueAsync("van 2"); // nothing typed is lost
        Assert.Equal("cupboard 9", _desk.Live.Now.Device(id)!.Place);

        await form.GetByRole(AriaRole.Button, new() { Name = "Say so" }).ClickAsync();
        await Expect(page.Locator("h1 + p")).ToContainTextAsync("van 2");
    }

    [Fact]
    public async Task A_campaign_is_planned_by_hand_and_judged()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/campaigns");
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan a campaign" }).ClickAsync();
        var plan = page.GetByRole(AriaRole.Form, new() { Name = "Plan of the campaign" });
        await plan.GetByLabel("Id:").FillAsync("HAYLOFT-26");
        await plan.GetByLabel("Name", new() { Exact = true }).FillAsync("Hayloft 26");
        await plan.GetByLabel("Zone").FillAsync("Europe/Nowhere");
        await plan.GetByLabel("Altitude").FillAsync("120");
        await plan.GetByRole(AriaRole.Button, new() { Name = "Plan it" }).ClickAsync();
        await Expect(page.GetByText("this machine does not know it")).ToBeVisibleAsync();
        await plan.GetByLabel("Zone").FillAsync("Europe/Lisbon");
        await plan.GetByRole(AriaRole.Button, new() { Name = "Plan it" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Plan of Hayloft 26");

        // Typed and scanned: a scanner ends each code with Enter, and Enter once more goes to the next line.
        await page.GetByLabel("Station, line 1").ClickAsync();
        foreach (var text in new[] { "H1", "38,71", "-9.14", "flush plate", "" })
        {
            await page.Keyboard.TypeAsync(text);
            await page.Keyboard.PressAsync("ArrowRight");
        }
        await Expect(page.GetByLabel("Chain, station H1")).ToBeFocusedAsync();
        foreach (var serial in new[] { "41073", "GP073" })
        {
            await page.Keyboard.TypeAsync(serial);
            await page.Keyboard.PressAsync("Enter");
        }
        await Expect(page.GetByLabel("Chain, station H1")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Chain, line 2")).ToBeFocusedAsync();
        await Expect(page.GetByLabel("Chain, station H1")).ToHaveValueAsync("41073 + GP073");
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 1 station" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Stations (1)" })).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Latitude, °, station H1")).ToHaveValueAsync("38.71");
        var kit = page.GetByRole(AriaRole.Form, new() { Name = "Spares" });
        await kit.GetByLabel("Take along").Last.FillAsync("41074");
        await page.Locator(".mud-popover-open .mud-list-item").Filter(new() { HasText = "41074" }).ClickAsync();
        await Expect(kit.GetByRole(AriaRole.Button, new() { Name = "Keep the list" })).ToBeEnabledAsync();
        await kit.GetByRole(AriaRole.Button, new() { Name = "Keep the list" }).ClickAsync();
        // It is kept: nothing is left to keep.
        await Expect(kit.GetByRole(AriaRole.Button, new() { Name = "Keep the list" })).ToBeDisabledAsync();

        await page.GetByRole(AriaRole.Link, new() { Name = "Ready", Exact = true }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("Hayloft 26 is");
        var made = _desk.Live.Now.Campaign("HAYLOFT-26")!;
        Assert.Equal((38.71, 2, 1), (made.Stations["H1"].LatitudeDeg, made.Chains["H1"].Length, made.KitOf(KitPurpose.Spare).Length));
    }

    private static CertificateIssued Newer { get; } = new(
        "sensitivity", null, "House", null, null, null, null, 250,
        [new(AdjustmentState.AsFoundAndLeft, -38, "dB re 1 V/Pa", 0.06, "dB", 2)], null, null, null, null, null, null, null);

    [Fact]
    public async Task What_is_being_typed_stays_while_others_speak()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/plan/QUILLMERE-26");
        var height = page.GetByLabel("Height, m, station S02");
        await height.ClickAsync();
        await page.Keyboard.TypeAsync("1,5");
        await page.Keyboard.PressAsync("Tab");
        var added = page.GetByLabel("Station, line 73");
        await added.ClickAsync();
        await page.Keyboard.TypeAsync("T9");
        var journal = await _desk.Page("/journal");
        await journal.Locator("tbody tr").First.GetByRole(AriaRole.Button, new() { Name = "Annul" }).ClickAsync();
        var reason = journal.GetByRole(AriaRole.Form, new() { Name = "Annul a fact" }).GetByLabel("Why does it not count?");
        await reason.FillAsync("typed, not yet left");

        var id = _desk.Device("41015").Id;
        var device = await _desk.Page("/devices/" + id);
        await device.GetByRole(AriaRole.Button, new() { Name = "Judge", Exact = true }).Nth(1).ClickAsync();
        var why = device.GetByRole(AriaRole.Dialog).GetByLabel("Why");
        await why.FillAsync("not yet left either");

        // A colleague plans a station that stands above the open one in its table, and enters a newer certificate.
        var saying = new Saying(new(Occurred.On(new(2026, 8, 3)), "P2", "desk", 1));
        var above = new StationPlanned("A1", 53.5, 1.2, Mount.FlushPlate, null);
        await _desk.Live.Submit(r => CampaignDecisions.PlanStation(r, saying, "QUILLMERE-26", above), "test");
        await _desk.Live.Submit(
            [FactText.WriteDerived(new(Occurred.On(new(2026, 8, 2)), "P2", "desk", 2), Newer, [Subject.Device(id)])], "test");
        _desk.Tell();

        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Stations (73)" })).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Station, line 74")).ToHaveValueAsync("T9"); // still being typed, a line further down
        await Expect(height).ToHaveValueAsync("1,5");
        await Expect(device.GetByRole(AriaRole.Row, new() { NameRegex = new("^2026-08-02 sensitivity.*Judge$"), IncludeHidden = true })).ToBeVisibleAsync();
        await Expect(why).ToHaveValueAsync("not yet left either");
        await Expect(why).ToBeFocusedAsync();
        await Expect(journal.Locator("tbody tr").First).ToContainTextAsync("certificate issued");
        await Expect(reason).ToHaveValueAsync("typed, not yet left");
        await Expect(reason).ToBeFocusedAsync();
    }

    [Fact]
    public async Task The_fleet_is_judged_for_a_day_sorted_and_compared()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/fleet?kind=microphone&on=2027-06-01");
        await page.GetByLabel("Verdict", new() { Exact = true }).SelectOptionAsync(new SelectOptionValue { Value = "NotReady" });
        await Expect(page.Locator("tbody td .verdict").First).ToContainTextAsync("not ready");
        await page.GotoAsync("/fleet?kind=microphone");
        await DeskUnderTest.Heard(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Serial" }).ClickAsync();
        await Expect(page.Locator("th[aria-sort=ascending]")).ToContainTextAsync("Serial");
        await page.GetByRole(AriaRole.Button, new() { Name = "Serial" }).ClickAsync();
        await Expect(page.Locator("th[aria-sort=descending]")).ToContainTextAsync("Serial");
        var marks = page.GetByRole(AriaRole.Checkbox, new() { NameRegex = new("^Mark \\d") });
        await marks.Nth(0).ClickAsync();
        await marks.Nth(1).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Compare the 2 marked" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("2 devices beside each other");
        await Expect(page.Locator("figure.drawing svg")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task The_drift_page_leads_to_who_stands_out_and_the_forecast_follows_a_chosen_day()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Drift", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { NameRegex = new("5 of 76 stand out") })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { NameRegex = new("41007") }).ClickAsync();
        await Expect(page.GetByText("A steady drift of +0.108 dB a year").First).ToBeVisibleAsync();
        await page.GetByLabel("Forecast through").FillAsync("2027-06-01");
        await page.GetByLabel("Forecast through").BlurAsync();
        await Expect(page.GetByText("On 2027-06-01 it is expected")).ToBeVisibleAsync();
        await page.GetByText("The plot as a table").ClickAsync();
        await Expect(page.Locator("details.twin tbody tr")).ToHaveCountAsync(5);

        // A person says that it was no step: the alarm is gone everywhere.
        var row = page.Locator("tr").Filter(new() { HasText = "2023-11-07" }).Filter(new() { Has = page.GetByRole(AriaRole.Button, new() { Name = "Correct" }) });
        await row.GetByRole(AriaRole.Button, new() { Name = "Judge" }).ClickAsync();
        var form = page.GetByRole(AriaRole.Dialog, new() { Name = "What the certificate of 2023-11-07 is worth" });
        await form.GetByLabel("It", new() { Exact = true })
            .SelectOptionAsync(new SelectOptionValue { Label = "was looked at: scatter, no change" });
        await form.GetByRole(AriaRole.Button, new() { Name = "Say so" }).ClickAsync();
        await Expect(page.GetByText("2023-11-07 by House laboratory (+")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Recorded_tones_are_dropped_and_measured()
    {
        var page = await _desk.Page("/tones");
        await page.GetByLabel("The calibrator's frequency").FillAsync("250");
        await page.Locator("input[type=file]").SetInputFilesAsync([Tone("a.wav", 250, 4), Tone("b.wav", 1000, 4), new FilePayload { Name = "c.wav", MimeType = "audio/wav", Buffer = "no recording"u8.ToArray() }]);
        await Expect(page.GetByText("1 of 2 channels are usable.")).ToBeVisibleAsync();
        await Expect(page.Locator("tbody tr").Nth(0)).ToContainTextAsync("250.000");
        await Expect(page.Locator("tbody tr").Nth(1)).ToContainTextAsync("wrong frequency");
        await Expect(page.GetByText("c.wav: it is no WAV")).ToBeVisibleAsync();
    }

    internal static FilePayload Tone(string name, double hertz, int seconds) => new()
    {
        Name = name,
        MimeType = "audio/wav",
        Buffer = MadeRecording.Of([MadeRecording.Tone(seconds, 8000, 0.1, hertz)], 8000, SampleFormat.Pcm16),
    };
}

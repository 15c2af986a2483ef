using System.Text.Json.Nodes;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests.Field;

/// <summary>Crews with phones: no network, a torn answer, contradictions, a phone that is revoked.</summary>
public sealed class FieldTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Six_stations_are_laid_out_offline_by_camera_and_arrive_once_though_the_first_answer_is_lost()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(8));
        var phone = await FieldPhone.Open(desk);
        await phone.Installed();
        await phone.Context.SetOfflineAsync(true);
        await phone.Page.ReloadAsync();
        await phone.Page.GetByRole(AriaRole.Link, new() { Name = "Lay out" }).ClickAsync();
        await phone.Press("Camera");
        for (var station = 1; station <= 6; station++)
        {
            if (station == 4)
            {
                // The phone dies between two stations.
                await phone.Page.CloseAsync();
                await phone.Reopen("/field/#/lay-out");
                await Expect(phone.Unsent).ToHaveAttributeAsync("data-unsent", "3");
                await phone.Press("Camera");
            }
            await phone.Show(HeathCampaign.Label(HeathCampaign.Station(station)));
            await Expect(phone.Page.Locator("h1")).ToHaveTextAsync($"{HeathCampaign.Station(station)}: flush in a ground plate");
            foreach (var device in HeathCampaign.Chain(station))
            {
                await phone.Show(HeathCampaign.Label(device));
                await Expect(phone.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Take off") })).ToHaveCountAsync(Array.IndexOf(HeathCampaign.Chain(station), device) + 1);
            }
            await phone.Page.GetByRole(AriaRole.Radio, new() { Name = "Yes" }).CheckAsync();
            await phone.Lower(); // a part that is still in view would be read again on the next screen, which leads back to its station
            await phone.Press("Placed");
            await Expect(phone.Page.GetByText($"{HeathCampaign.Station(station)} is placed")).ToBeVisibleAsync();
        }
        await Expect(phone.Unsent).ToHaveAttributeAsync("data-unsent", "6");
        Assert.Empty(ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).Placements);
        await phone.Page.CloseAsync();

        var sendings = 0;
        await phone.Context.RouteAsync("**/api/field/facts", async route =>
        {
            // The register stores what the first sending holds; its answer never arrives.
            if (Interlocked.Increment(ref sendings) > 1)
            {
                await route.ContinueAsync();
                return;
            }
            await route.FetchAsync();
            await route.AbortAsync();
        });
        await phone.Context.SetOfflineAsync(false);
        await phone.Reopen();
        await phone.AllSent();

        Assert.True(sendings >= 2);
        var placements = ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).Placements;
        Assert.Equal(Enumerable.Range(1, 6).Select(HeathCampaign.Station), placements.Select(p => p.Station));
        Assert.All(placements, (p, i) => Assert.Equal(HeathCampaign.Chain(i + 1).Order(), p.Devices.Order()));
        Assert.All(placements, p => Assert.True(p.Said is { IsFlush: true, RangeV: 10, Position.AccuracyM: 4 }));
        Assert.Equal(6, desk.Live.Now.Facts(Subject.Campaign(HeathCampaign.Id)).Count(s => desk.Live.Now.IsOfKind(s, "chain-placed")));
    }

    [Fact]
    public async Task Two_phones_that_contradict_each_other_are_both_heard_and_the_desk_settles_it()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(4), withPeople: true);
        var (north, south) = (await Joined(desk, "Crew north"), await Joined(desk, "Crew south"));
        foreach (var phone in new[] { north, south }) await phone.Context.SetOfflineAsync(true);
        await north.LayOut("S01", HeathCampaign.Chain(1));
        await south.LayOut("S02", "PLATE2", "MIC1", "PRE2", "CHAN2"); // the microphone of S01
        foreach (var phone in new[] { north, south })
        {
            await phone.Context.SetOfflineAsync(false);
            await phone.AllSent();
        }

        var board = await SignedIn(desk, $"/board/{HeathCampaign.Id}");
        await Expect(board.Locator("details.settle summary")).ToContainTextAsync("at the same time");
        await Expect(board.Locator(".board tbody tr").Filter(new() { HasText = "S01" }).First).ToContainTextAsync("failing");
        await Expect(board.Locator(".board tbody tr").Filter(new() { HasText = "S02" }).First).ToContainTextAsync("failing");
        await Expect(board.GetByText("Crew north").First).ToBeVisibleAsync();
        await Expect(board.GetByText("Crew south").First).ToBeVisibleAsync();

        // The person at the desk asks the crews: the south read the wrong label.
        await board.Locator("details.settle summary").ClickAsync();
        await board.Locator("details.settle tbody tr").Filter(new() { HasText = "Crew south" }).GetByRole(AriaRole.Button, new() { Name = "Annul" }).ClickAsync();
        await board.GetByLabel("Why does it not count?").FillAsync("wrong label read");
        await board.GetByRole(AriaRole.Button, new() { Name = "Annul it" }).ClickAsync();
        await Expect(board.Locator("details.settle")).ToHaveCountAsync(0);
        await Expect(board.Locator(".board tbody tr").Filter(new() { HasText = "S01" }).First).ToContainTextAsync("placed");
        Assert.Equal(["S01"], ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).Placements.Select(p => p.Station));
    }

    [Fact]
    public async Task A_check_outdoors_gives_at_once_what_the_desk_works_out_later()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(2));
        var phone = await FieldPhone.Open(desk);
        await phone.Installed();
        await phone.Context.SetOfflineAsync(true);
        await phone.LayOut("S01", HeathCampaign.Chain(1));
        await phone.Page.GotoAsync("/field/#/check/day");
        await phone.Page.GetByRole(AriaRole.Radio, new() { Name = "Before" }).CheckAsync();
        await phone.Type(HeathCampaign.Label("CAL1").Spoken);
        await phone.Page.GetByRole(AriaRole.Radio, new() { Name = "Voltage" }).CheckAsync();
        await phone.Page.GetByLabel("Pressure in kPa or hPa").FillAsync("1001");
        await phone.Page.GetByLabel("Temperature in °C").FillAsync("18");
        await phone.Press("Start checking");
        await Expect(phone.Page.GetByRole(AriaRole.Button, new() { Name = "Start checking" })).ToHaveCountAsync(0);
        await phone.Type(HeathCampaign.Label("MIC1").Text);
        await phone.Page.GetByLabel("Reading in mV").FillAsync("395,2");
        await Expect(phone.Page.GetByText("accept", new() { Exact = false }).First).ToBeVisibleAsync();
        await phone.Press("Store");
        await Expect(phone.Unsent).ToHaveAttributeAsync("data-unsent", new System.Text.RegularExpressions.Regex("^[2-9]$"));
        await phone.Context.SetOfflineAsync(false);
        await phone.AllSent();

        var check = Assert.Single(CheckBook.OfCampaign(desk.Live.Now, HeathCampaign.Id)).Check;
        // 124 + 20 lg(100.1 / 101.325) = 123.894349 dB; 20 lg(0.3952 / 20e-6) - 123.894349 = -37.978610 dB re 1 V/Pa against -37.99 - 0.1 (recomputed with python 3.11).
        Assert.Equal(123.894349, check.CalibratorDb, 2e-6);
        Assert.Equal(-37.978610, check.SensitivityDb!.Value, 2e-6);
        Assert.Equal(0.111390, check.DeviationDb!.Value, 2e-6);
        // The desk works the same entry out to the same figures.
        var worked = Assert.IsType<MicRegister.Register.Result<ChainChecked>.Accepted>(CheckWork.Out(desk.Live.Now, new() { Campaign = HeathCampaign.Id, Station = "S01", Calibrator = "CAL1", At = "2026-08-03", Moment = CheckMoment.Before, Devices = check.Devices, Readings = check.Readings, Resolution = check.Resolution, Air = check.Air, RangeV = check.RangeV })).Value;
        Assert.Equal(worked.DeviationDb, check.DeviationDb);
        Assert.Equal(worked.ExpandedDb, check.ExpandedDb, 1e-8);
    }

    [Fact]
    public async Task A_part_is_swapped_reported_and_taken_in_and_what_was_said_can_be_taken_back()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(3));
        var phone = await FieldPhone.Open(desk);
        await phone.Installed();
        await phone.LayOut("S01", HeathCampaign.Chain(1));
        await phone.Page.GotoAsync("/field/#/swap/S01");
        await phone.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("41001") }).ClickAsync();
        await phone.Type(HeathCampaign.Label("MIC3").Text);
        await phone.Page.GetByLabel("Reason").FillAsync("no signal");
        await phone.Press("Swapped");
        await Expect(phone.Page.GetByText("is out,")).ToBeVisibleAsync();
        await phone.AllSent();
        var swapped = ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).At("S01")!;
        Assert.Contains("MIC3", swapped.Devices);
        Assert.Equal(new PartSwap("MIC1", "MIC3", "no signal"), swapped.Said.Swap);
        Assert.Equal("S01: no signal", desk.Live.Now.Device("MIC1")!.Services[^1].What.Text);

        await phone.Page.GotoAsync("/field/#/take-in/S01");
        await phone.Press("All are here");
        await phone.Press("Taken in");
        await Expect(phone.Page.GetByText("S01 is taken in.")).ToBeVisibleAsync();
        await phone.AllSent();
        Assert.Null(ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).At("S01"));

        await phone.Page.GotoAsync("/field/#/said");
        await phone.Page.GetByRole(AriaRole.Button, new() { NameRegex = new("^Undo: S01 taken in") }).ClickAsync();
        await Expect(phone.Page.GetByText("Taken back: S01 taken in")).ToBeVisibleAsync();
        await phone.AllSent();
        Assert.NotNull(ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).At("S01"));
    }

    [Fact]
    public async Task A_device_that_nobody_planned_is_named_placed_and_reported_and_its_certificates_stay_at_the_desk()
    {
        await using var desk = await DeskUnderTest.Open(
            [.. HeathCampaign.Facts(2), .. HeathCampaign.Stranger("STRANGER")], withPeople: true);
        var phone = await Joined(desk, "Crew north");
        await phone.Context.SetOfflineAsync(true);
        await phone.Page.GotoAsync("/field/#/report/STRANGER");
        await Expect(phone.Page.GetByText("is not of this campaign and was not placed here")).ToBeVisibleAsync();

        await phone.LayOut("S01", "PLATE1", "STRANGER", "PRE1", "CHAN1");
        await phone.LayOut("S02", HeathCampaign.Chain(2));
        await phone.Page.GotoAsync("/field/#/report/STRANGER");
        await phone.Page.GetByRole(AriaRole.Radio, new() { Name = "Damage" }).CheckAsync();
        await phone.Page.GetByLabel("In a few words").FillAsync("cracked grid");
        await phone.Press("Report it");
        await Expect(phone.Page.GetByText("Reported:")).ToBeVisibleAsync();

        // The day's checks begin all the same; at its station the phone says what it does not know.
        await phone.Page.GotoAsync("/field/#/check/day");
        await phone.Page.GetByRole(AriaRole.Radio, new() { Name = "Before" }).CheckAsync();
        await phone.Type(HeathCampaign.Label("CAL1").Spoken);
        await phone.Page.GetByRole(AriaRole.Radio, new() { Name = "Voltage" }).CheckAsync();
        await phone.Page.GetByLabel("Pressure in kPa or hPa").FillAsync("1001");
        await phone.Press("Start checking");
        await Expect(phone.Page.GetByRole(AriaRole.Button, new() { Name = "Start checking" })).ToHaveCountAsync(0);
        await phone.Type(HeathCampaign.Label("STRANGER").Text);
        await phone.Page.GetByLabel("Reading in mV").FillAsync("395");
        await Expect(phone.Page.GetByText("its certificates are not on this phone")).ToBeVisibleAsync();
        await Expect(phone.Page.GetByRole(AriaRole.Button, new() { Name = "Store" })).ToHaveAttributeAsync("aria-disabled", "true");

        await phone.Context.SetOfflineAsync(false);
        await phone.AllSent();
        var placed = ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).At("S01")!;
        Assert.Contains("STRANGER", placed.Devices);
        Assert.Contains(placed.Said.Concerns, c => c.Contains("whether it fits is not known on this phone", StringComparison.Ordinal));
        Assert.Equal("S01: Damage, cracked grid", desk.Live.Now.Device("STRANGER")!.Services[^1].What.Text);
        Assert.Empty(CheckBook.OfCampaign(desk.Live.Now, HeathCampaign.Id));
    }

    [Fact]
    public async Task A_revoked_phone_keeps_what_it_holds_and_hands_it_over_as_a_file()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(2), withPeople: true);
        var phone = await Joined(desk, "Crew east");
        await phone.Context.SetOfflineAsync(true);
        await phone.LayOut("S01", HeathCampaign.Chain(1));
        desk.Book!.RevokePhone(Assert.Single(desk.Book.Phones).Id);
        await phone.Context.SetOfflineAsync(false);
        await phone.Page.GotoAsync("/field/#/said");
        await phone.Press("Send now");
        await Expect(phone.Page.GetByText("not signed in", new() { Exact = false }).First).ToBeVisibleAsync();
        await Expect(phone.Unsent).ToHaveAttributeAsync("data-unsent", "1");

        var download = await phone.Page.RunAndWaitForDownloadAsync(() => phone.Press("Hand over"));
        var file = Path.Combine(Directory.CreateTempSubdirectory("hand-over-").FullName, download.SuggestedFilename);
        await download.SaveAsAsync(file);
        Assert.Empty(ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).Placements);

        var page = await SignedIn(desk, "/hand-over");
        await page.GetByLabel("Whose phone was it?").FillAsync("Crew east");
        await page.GetByLabel("File of facts").SetInputFilesAsync(file);
        await Expect(page.GetByText("1 stored")).ToBeVisibleAsync();
        var sequence = desk.Live.Now.Find(Assert.Single(ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).Placements).Fact);
        Assert.Contains("handed over from Crew east", desk.Live.Log.ReadFrom(sequence).First().Door, StringComparison.Ordinal);
        // Once more does no harm.
        await page.GetByLabel("File of facts").SetInputFilesAsync(file);
        await Expect(page.GetByText("1 there already")).ToBeVisibleAsync();
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
    }

    [Fact]
    public async Task Over_plain_HTTP_a_phone_places_by_the_address_of_a_label_and_by_a_photo()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(2), withPeople: true, args: ["--host-resolver-rules=MAP heath.test 127.0.0.1"]);
        var plain = desk.Address.Replace("127.0.0.1", "heath.test", StringComparison.Ordinal);
        var phone = await FieldPhone.Open(desk, Invitation(desk), plain);
        await phone.Page.GetByLabel("Who carries this phone").FillAsync("Crew plain");
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Join" }).ClickAsync();
        await Expect(phone.Page.GetByText("This page came over plain HTTP")).ToBeVisibleAsync();
        Assert.False(await phone.Page.EvaluateAsync<bool>("() => isSecureContext"));

        // The phone's own camera app opens the address that the label holds.
        await phone.Page.GotoAsync($"{plain}/L/{HeathCampaign.Label("MIC1")}");
        await Expect(phone.Page.GetByText("41001").First).ToBeVisibleAsync();
        await phone.LayOut("S01", "PLATE1", "MIC1", "PRE1");
        await phone.AllSent();
        Assert.Equal(["PLATE1", "MIC1", "PRE1"], ArrayDeployment.Of(desk.Live.Now, HeathCampaign.Id).At("S01")!.Devices);

        // A photo of a label is decoded, here by the register: the page's own decoder is kept from loading.
        await phone.Context.RouteAsync("**/*.wasm", r => r.AbortAsync());
        await phone.Page.GotoAsync("/field/#/find");
        await phone.Page.ReloadAsync();
        var photo = phone.Page.WaitForResponseAsync(r => r.Url.EndsWith("/api/labels/photo", StringComparison.Ordinal));
        await phone.Page.Locator("input[type=file]").First.SetInputFilesAsync(new FilePayload { Name = "label.png", MimeType = "image/png", Buffer = FieldPhone.PictureOf(HeathCampaign.Label("PRE2")) });
        Assert.Equal(200, (await photo).Status);
        await Expect(phone.Page.GetByText("52002").First).ToBeVisibleAsync();
    }

    // The vector's checks before and after lie on two days around midnight at the site, 2 h 40 min apart.
    [Fact]
    public async Task The_phone_pairs_checks_by_the_test_that_its_kit_tells()
    {
        await using var desk = await DeskUnderTest.Open();
        var page = await (await desk.NewContext()).NewPageAsync();
        await page.GotoAsync("/field/");
        var vectors = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "Field", "vectors.json"), Cancel);

        var paired = await page.EvaluateAsync<bool[]>("""
            async text => {
              const { workOut, judge } = await import('/field/check.js');
              const { kit, entry, fact } = JSON.parse(text).checks.find(c => c.name === 'a session over local midnight is one pair');
              const { check } = workOut(kit, entry);
              const night = { fact: 'N', fromMs: Date.parse('2026-05-04T20:30:00Z'), toMs: Date.parse('2026-05-04T23:10:00Z') };
              const over = { fact: 'O', fromMs: Date.parse('2026-05-04T20:31:00Z'), toMs: Date.parse('2026-05-05T01:00:00Z') };
              const isPaired = tests => judge({ ...kit, tests }, check, { fact, at: entry.at }).comparisons.some(c => c.what === 'since the check before');
              return [
                undefined, { mostMs: 18 * 3600000, sessions: [] }, { areApart: true, mostMs: -1, sessions: [] },
                { areApart: true, mostMs: -1, sessions: [night] }, { areApart: true, mostMs: -1, sessions: [over] },
                { mostMs: 3600000, sessions: [] }, { mostMs: 3600000, sessions: [night] },
              ].map(isPaired);
            }
            """, vectors);

        Assert.Equal([true, true, false, true, false, false, true], paired);
    }

    [Fact]
    public async Task The_phone_works_out_what_the_vectors_say()
    {
        await using var desk = await DeskUnderTest.Open();
        var page = await (await desk.NewContext()).NewPageAsync();
        await page.GotoAsync("/field/");
        var vectors = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "Field", "vectors.json"), Cancel);

        var wrong = await page.EvaluateAsync<string[]>("""
            async text => {
              const vectors = JSON.parse(text);
              const { workOut, judge } = await import('/field/check.js');
              const { readLabel } = await import('/field/labels.js');
              const { canonical } = await import('/field/canonical.js');
              const wrong = [];
              let compared = 0;
              const same = (where, want, is, tolerance = 1e-9) => {
                compared++;
                const ok = typeof want === 'number' ? typeof is === 'number' && Math.abs(want - is) <= tolerance * Math.max(1, Math.abs(want)) : (want ?? null) === (is ?? null);
                if (!ok) wrong.push(`${where}: ${is}, expected ${want}`);
              };
              for (const { name, kit, entry, expected, fact } of vectors.checks) {
                const { check, why } = workOut(kit, entry);
                if (expected.isRefused) { if (!why?.includes(expected.says)) wrong.push(`${name}: ${why}`); compared++; continue; }
                if (!check) { wrong.push(`${name}: ${why}`); continue; }
                for (const key of ['calibratorCertificate', 'pressureIsEstimated', 'rangeV', 'calibratorDb', 'sensitivityDb', 'sensitivityUnit', 'indicatedDb', 'deviationDb', 'standardDb', 'coverageFactor', 'expandedDb']) same(`${name} ${key}`, expected[key], check[key]);
                for (const [key, list] of [['terms', check.calibratorTerms], ['expectedTerms', check.expectedTerms]]) {
                  same(`${name} ${key}`, expected[key].length, list.length);
                  expected[key].forEach((t, i) => { for (const k of ['name', 'valueDb', 'standardDb', 'source', 'remark']) same(`${name} ${key} ${i} ${k}`, t[k], list[i]?.[k]); });
                }
                const judged = judge(kit, check, { fact, at: entry.at });
                same(`${name} word`, expected.word, judged.word);
                same(`${name} verdict`, expected.verdict, judged.verdict);
                same(`${name} spread`, expected.spreadDb, judged.spreadDb);
                expected.comparisons.forEach((c, i) => { for (const k of ['what', 'differenceDb', 'standardDb', 'expandedDb', 'probability', 'verdict']) same(`${name} comparison ${i} ${k}`, c[k], judged.comparisons[i]?.[k]); });
              }
              for (const l of vectors.labels) { const r = readLabel(l.text); same(`label ${l.text}`, l.code, r.code); same(`label ${l.text} spoken`, l.spoken, r.spoken); same(`label ${l.text} bad`, Boolean(l.isBad), Boolean(r.why)); }
              for (const f of vectors.facts) same('fact', f.canonical, canonical(f.fact));
              if (compared < 1500) wrong.push(`only ${compared} compared`);
              return wrong;
            }
            """, vectors);

        Assert.True(wrong.Length == 0, string.Join("\n", wrong.Take(20)));
    }

    [Fact]
    public async Task Facts_of_the_phone_are_canonical_to_the_register()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(2));
        var phone = await FieldPhone.Open(desk);
        await phone.Installed();
        await phone.Context.SetOfflineAsync(true);
        await phone.LayOut("S01", HeathCampaign.Chain(1));
        var line = await phone.Page.EvaluateAsync<string>("async () => (await (await import('/field/store.js')).all('outbox'))[0].line");

        var fact = FactText.ReadCanonical(System.Text.Encoding.UTF8.GetBytes(line));
        Assert.Equal(HeathCampaign.Chain(1), Assert.IsType<ChainPlaced>(fact.Body).Devices);
        Assert.Equal("S01", (string)JsonNode.Parse(line)!["body"]!["station"]!);
    }

    private static string Invitation(DeskUnderTest desk) =>
        "/join?key=" + desk.Book!.MakeLink(LinkPurpose.Phone, HeathCampaign.Id, TimeSpan.FromHours(1));

    private static async Task<FieldPhone> Joined(DeskUnderTest desk, string crew)
    {
        var phone = await FieldPhone.Open(desk, Invitation(desk), desk.Address.Replace("127.0.0.1", "localhost", StringComparison.Ordinal));
        await phone.Page.GetByLabel("Who carries this phone").FillAsync(crew);
        await phone.Page.GetByRole(AriaRole.Button, new() { Name = "Join" }).ClickAsync();
        await phone.Installed();
        return phone;
    }

    private static async Task<IPage> SignedIn(DeskUnderTest desk, string path)
    {
        const string Password = "seven quiet lapwings";
        var account = ((MicRegister.Register.Result<Account>.Accepted)desk.Book!.Make("Person own", Duties.Own)).Value;
        desk.Book.SetPassword(account.Id, Password);
        var page = await (await desk.NewContext(new() { ViewportSize = new() { Width = 1400, Height = 900 } })).NewPageAsync();
        await page.GotoAsync(path);
        await page.GetByLabel("Name").FillAsync("Person own");
        await page.GetByLabel("Password").FillAsync(Password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await DeskUnderTest.Heard(page);
        return page;
    }
}

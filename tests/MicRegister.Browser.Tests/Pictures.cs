using MicRegister.Browser.Tests.Field;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using MicRegister.Register.People;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>Pictures of every page with the demo fleet: wide and narrow, light and dark.</summary>
internal static class Pictures
{
    public static async Task<int> Take(string folder)
    {
        Directory.CreateDirectory(folder);
        await using var desk = await DeskUnderTest.Open();
        var import = await desk.Page("/import");
        await import.Locator("input[type=file]").SetInputFilesAsync(DeskUnderTest.DemoFiles);
        await import.GetByRole(AriaRole.Button, new() { NameRegex = new("Store the good rows") }).WaitForAsync(new() { Timeout = 60_000 });
        await import.ScreenshotAsync(new() { Path = Path.Combine(folder, "import-rows.png"), FullPage = true });
        await import.GetByRole(AriaRole.Button, new() { NameRegex = new("Store the good rows") }).ClickAsync();
        await import.GetByText("facts stored").WaitForAsync(new() { Timeout = 60_000 });
        foreach (var (width, size) in new[] { (1300, "wide"), (390, "narrow") })
        {
            var tones = await desk.Page("/tones", width);
            await tones.GetByLabel("The calibrator's frequency").FillAsync("250");
            await tones.Locator("input[type=file]").SetInputFilesAsync([.. Enumerable.Range(1, 6).Select(i => MainJobTests.Tone($"station-{i:00}.wav", i == 4 ? 1000 : 250, i == 5 ? 2 : 8))]);
            await tones.GetByText("of 6 channels are usable.").WaitForAsync();
            await tones.ScreenshotAsync(new() { Path = Path.Combine(folder, $"tones-{size}-light.png"), FullPage = true });
            await tones.Context.CloseAsync();
            var checks = await desk.Page("/checks/QUILLMERE-26", width);
            await checks.GetByLabel("Static pressure, kPa").FillAsync("99.8");
            await checks.GetByLabel("Range of the channels, V peak").FillAsync("10");
            await checks.GetByLabel("The calibrator's frequency").FillAsync("250");
            await checks.Locator("input[type=file]").SetInputFilesAsync([BenchTests.Recording("C01-morning.wav", -0.5), BenchTests.Recording("unnamed.wav", 0, 1), MainJobTests.Tone("S10.wav", 1000, 5)]);
            await checks.GetByText("8 of 10 channels").WaitForAsync();
            await checks.GetByRole(AriaRole.Button, new() { Name = "Why" }).Nth(2).ClickAsync();
            await checks.GetByText("Uncertainty budget").WaitForAsync();
            await checks.ScreenshotAsync(new() { Path = Path.Combine(folder, $"checks-{size}-light.png"), FullPage = true });
            await checks.Context.CloseAsync();
            var bench = await desk.Page("/bench", width);
            await bench.GetByText("Paste a block from a spreadsheet").ClickAsync();
            await bench.GetByLabel("Rows of serial number").FillAsync("41003\t-38.21\t0.06\n41004\t12,6 mV/Pa\t0,7 %\n41005\t-36.9\t0.06\n99999\t1\t\n");
            await bench.GetByLabel("Rows of serial number").BlurAsync();
            await bench.GetByText("No device has the serial number").WaitForAsync();
            await bench.ScreenshotAsync(new() { Path = Path.Combine(folder, $"bench-{size}-light.png"), FullPage = true });
            await bench.Context.CloseAsync();
        }
        await People(folder);
        var flown = Flown.Of(desk.Live.Now, "QUILLMERE-26", "2026-09-02");
        await desk.Live.Submit([.. Work(flown)], "test");
        await Bands(desk, flown);
        string Of(string serial) => desk.Live.Now.DeviceIds.First(id => desk.Live.Now.Device(id)!.Serial == serial);
        var drifter = Of("41007");
        (string Name, string Path)[] pages =
        [
            ("start", "/"), ("fleet", "/fleet?for=QUILLMERE-26"), ("fleet-filtered", "/fleet?q=gp0&kind=ground-plate"),
            ("device", "/devices/" + drifter), ("campaigns", "/campaigns"),
            ("campaign", "/campaigns/QUILLMERE-26"), ("campaign-station", "/campaigns/QUILLMERE-26?station=S31"),
            ("profiles", "/profiles"), ("profile", "/profiles/transport-1200mm"),
            ("profile-compare", "/profiles/small-unmanned-flush/compare?with=array-left-out"), ("import", "/import"), ("journal", "/journal"),
            ("plan", "/plan/QUILLMERE-26"), ("drift", "/drift?limit=0.2"), ("device-step", "/devices/" + Of("41015")), ("plan-new", "/plan"),
            ("fleet-day", "/fleet?on=2027-03-01&kind=microphone"), ("compare", $"/compare?d={drifter}&d={Of("41015")}&d={Of("41022")}"),
            ("device-where", $"/devices/{Of("41015")}/where-it-was"), ("device-depends", $"/devices/{Of("K504")}/depends-on"),
            ("device-whole", $"/devices/{Of("41015")}/whole"), ("device-certificate", $"/devices/{Of("41015")}?enter=certificate"),
            ("missing", "/devices/NOWHERE"), ("calibrator", "/devices/" + Of("K501")),
            ("checks-empty", "/checks/QUILLMERE-26"), ("checks-bench", "/checks"), ("bench-empty", "/bench"),
            ("label-blank", "/l/2AYS641TS"), ("label-wrong", "/l/2AYS641TX"), ("labels", "/labels"),
            ("board", "/board/QUILLMERE-26"), ("board-station", "/board/QUILLMERE-26?station=S09"),
            ("event", "/events/QUILLMERE-26/RUN-2"), ("bands", "/events/QUILLMERE-26/RUN-2?station=S12"),
            ("in-place", "/in-place/QUILLMERE-26"),
            ("doubt", "/doubts/" + Uri.EscapeDataString(DoubtBook.OfDevice(desk.Live.Now, flown.Stations[12].Chain[1])[0].Key)),
            ("graph", "/rests-on/device/" + flown.Stations[12].Chain[1]), ("graph-person", "/rests-on/person/CREW1"),
            ("graph-event", "/rests-on/event/QUILLMERE-26.RUN-2"),
            ("set-ups", "/set-ups?a=QUILLMERE-26&b=QUILLMERE-26"), ("mounts", "/mounts"),
            ("mounts-campaign", "/mounts?campaign=QUILLMERE-26"), ("mounts-wrong", "/mounts?mount=pole&height=0&elevation=91"), ("events", "/events/QUILLMERE-26"), ("doubts", "/doubts"),
            ("evidence", "/evidence/QUILLMERE-26"),
        ];
        foreach (var (width, size) in new[] { (1300, "wide"), (390, "narrow") })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                foreach (var (name, path) in pages)
                {
                    var page = await desk.Page(path, width, width > 1000 ? 900 : 800, scheme);
                    await Settled(page, name);
                    await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-{size}-{scheme.ToString().ToLowerInvariant()}.png"), FullPage = name is not "journal" });
                    await page.Context.CloseAsync();
                }
            }
        }
        return 0;
    }

    /// <summary>The array in the field: board and labels at the desk, and what a phone shows.</summary>
    public static async Task<int> Field(string folder)
    {
        Directory.CreateDirectory(folder);
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(48));
        var flown = Flown.Of(desk.Live.Now, HeathCampaign.Id, "2026-08-03");
        await desk.Live.Submit([.. Work(flown)], "test");
        await Bands(desk, flown);
        (string Name, string Path)[] pages =
        [
            ("board", $"/board/{HeathCampaign.Id}"), ("board-station", $"/board/{HeathCampaign.Id}?station=S09"),
            ("labels", "/labels"), ("hand-over", "/hand-over"), ("set-ups", $"/set-ups?a={HeathCampaign.Id}&b={HeathCampaign.Id}"),
            ("doubt", "/doubts/" + Uri.EscapeDataString(DoubtBook.OfDevice(desk.Live.Now, "MIC13")[0].Key)),
            ("events", $"/events/{HeathCampaign.Id}"), ("event", $"/events/{HeathCampaign.Id}/RUN-2?station=S13"),
            ("bands", $"/events/{HeathCampaign.Id}/RUN-2?station=S12"), ("in-place", $"/in-place/{HeathCampaign.Id}"),
            ("doubts", "/doubts"), ("graph", "/rests-on/device/MIC13"),
            ("graph-event", $"/rests-on/event/{HeathCampaign.Id}.RUN-2"), ("evidence", $"/evidence/{HeathCampaign.Id}"),
        ];
        foreach (var (width, size) in new[] { (1500, "wide"), (390, "narrow") })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                foreach (var (name, path) in pages)
                {
                    var page = await desk.Page(path, width, 900, scheme);
                    await Settled(page, name);
                    await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-{size}-{scheme.ToString().ToLowerInvariant()}.png"), FullPage = name != "labels" });
                    await page.Context.CloseAsync();
                }
            }
        }
        var phone = await FieldPhone.Open(desk);
        await phone.Installed();
        foreach (var route in new[] { "", "lay-out", "lay-out/S30", "check/day", "check/S05", "swap/S05", "take-in/S05", "report/MIC5", "find/MIC7", "said", "set-up" })
        {
            await phone.Page.GotoAsync("/field/#/" + route);
            await phone.Page.WaitForTimeoutAsync(400);
            if (route == "lay-out/S30") await phone.Type(HeathCampaign.Label("MIC31").Text);
            await phone.Page.WaitForTimeoutAsync(200);
            await phone.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"field-{(route.Length == 0 ? "start" : route.Replace('/', '-'))}.png") });
        }
        return 0;
    }

    private static readonly string[] Order = ["ground-plate", "microphone", "preamplifier", "recorder-channel"];

    /// <summary>A campaign on a day: plate, microphone, preamplifier and channel of each station.</summary>
    private sealed record Flown(
        string Campaign, string Day, IReadOnlyList<(string Station, string[] Chain, PhonePosition Position)> Stations)
    {
        public static Flown Of(MicRegister.Register.Register register, string campaign, string day)
        {
            var plan = register.Campaign(campaign)!;
            return new(campaign, day, [.. plan.Stations.Values.Select(s => (
                s.Station,
                plan.Chains[s.Station].OrderBy(d => Array.IndexOf(Order, register.Device(d)!.Kind)).ToArray(),
                new PhonePosition(s.LatitudeDeg, s.LongitudeDeg + 0.00003, 4)))]);
        }

        public Occurred At(string time) =>
            Occurred.TryParse($"{Day}T{time}:00.000Z", out var at) ? at : throw new ArgumentException(time, nameof(time));
    }

    // What is folded on a page is opened for its picture.
    private static async Task Settled(IPage page, string name)
    {
        await page.WaitForTimeoutAsync(250);
        if (name is not ("bands" or "in-place")) return;
        await page.EvaluateAsync("document.querySelectorAll('main details').forEach(d => d.open = true)");
        if (name == "bands") return;
        await page.GetByLabel("A row a station").FillAsync("S01; 71,2\nS02; 71,1\nS03; 71,0\nS04; 71,3\nS05; 73,2\nS06; 71,2");
        await page.GetByText("6 stations; they have").WaitForAsync();
    }

    // A response by angle, a direction, and four comparisons in place of which one chain moved.
    private static async Task Bands(DeskUnderTest desk, Flown flown)
    {
        using var table = new MemoryStream("Hz;0°;30°;60°;90°;U\n20;0;0;0;0;0,1\n250;0;0;0;0;0,1\n1000;0,1;0,1;0;-0,1;0,1\n4000;0,4;0,3;-0,4;-1,1;0,2\n10000;1,1;0,8;-1,9;-4,2;0,3\n16000;1,5;0,9;-3,2;-6,9;0,5\n"u8.ToArray());
        var sha = desk.Live.Log.KeepAttachment(table);
        var response = new MicRegister.Register.Calibration.CertificateIssued(
            "response", "R 12", "House", null, "pressure", null, null, 250,
            [new(MicRegister.Register.Calibration.AdjustmentState.AsFoundAndLeft, 0, "dB", 0.1, "dB", 2)],
            null, null, null, null, sha, null, null);
        List<Fact> facts =
        [
            FactText.WriteDerived(
                new(Occurred.On(new(2026, 7, 2)), "CREW1", "desk", 700), response, [Subject.Device(flown.Stations[11].Chain[1])]),
            FactText.WriteDerived(
                new(flown.At("13:00"), "CREW1", "desk", 701), new IncidenceStated(null, 25, 10, "from the flight track"),
                [Subject.Campaign(flown.Campaign)]),
        ];
        var random = new Random(7);
        for (var i = 0; i < 4; i++)
        {
            ComparedChain[] chains = [.. flown.Stations.Take(28).Where((_, n) => n != 8).Select(s => new ComparedChain(
                s.Station, s.Chain,
                Math.Round(68 + i + (0.3 * random.NextDouble()) + (s.Station == flown.Stations[11].Station && i > 1 ? 1.4 : 0), 2),
                0))];
            facts.Add(FactText.WriteDerived(
                new(flown.At($"{8 + i:00}:40"), "CREW1", "desk", 710 + i),
                new ChainsCompared(i % 2 == 0 ? "distant loudspeaker" : "fly-over", 250, chains, 0.4, null),
                [Subject.Campaign(flown.Campaign), .. chains.SelectMany(c => c.Devices).Select(Subject.Device)]));
        }
        await desk.Live.Submit(facts, "test");
    }

    private static IEnumerable<Fact> Work(Flown flown)
    {
        var counter = 1;
        Fact Said(FactBody body, string time, string client, params string[] subjects) => FactText.WriteDerived(
            new(flown.At(time), "CREW" + client[^1], client, counter++), body, [Subject.Campaign(flown.Campaign), .. subjects]);
        foreach (var (crew, name) in new[] { ("CREW1", "Crew north"), ("CREW2", "Crew south") })
            yield return FactText.WriteDerived(new(Occurred.Unknown, crew, "desk", 0), new PersonNamed(name), [Subject.Person(crew)]);
        for (var i = 1; i <= 29; i++)
        {
            var (station, chain, position) = flown.Stations[i - 1];
            if (i == 9) chain = [chain[0], flown.Stations[7].Chain[1], chain[2], chain[3]]; // the microphone of another station
            var client = i % 2 == 0 ? "phone-a.2" : "phone-b.1";
            var placed = new ChainPlaced(station, chain, [], null, true, position, 10, null, [], null);
            yield return Said(placed, $"07:{i:00}", client, [.. chain.Select(Subject.Device)]);
        }
        var (swapped, before, _) = flown.Stations[4];
        string[] parted = [before[0], flown.Stations[^1].Chain[1], before[2], before[3]];
        var swap = new PartSwap(before[1], parted[1], "it crackled");
        yield return Said(new ChainPlaced(swapped, parted, [], null, true, null, 10, swap, [], null), "11:00", "phone-b.1", [.. parted.Select(Subject.Device)]);
        var (last, taken, _) = flown.Stations[28];
        yield return Said(new ChainTakenIn(last, taken, [], null), "09:00", "phone-b.1", [.. taken.Select(Subject.Device)]);
        yield return Said(new WeatherNoted(240, 3.4, 18, 61, 100.1), "08:00", "phone-b.1");
        foreach (var (run, hour) in new[] { ("RUN-1", "08"), ("RUN-2", "10"), ("RUN-3", "12") })
        {
            var happened = new EventHappened(
                run.Replace('-', ' '), $"{flown.Day}T{hour}:00:00.000Z", $"{flown.Day}T{hour}:01:20.000Z", EventKind.FlyOver, "propeller",
                [], null);
            yield return FactText.WriteDerived(
                new(flown.At(hour + ":00"), "CREW1", "desk", counter++), happened,
                [Subject.Event($"{flown.Campaign}.{run}"), Subject.Campaign(flown.Campaign)]);
        }
        yield return FactText.WriteDerived(
            new(flown.At("08:30"), "CREW1", "phone-b.1", counter++),
            new DeviceServiced(ServiceKind.Damage, "water in the capsule", false), [Subject.Device(flown.Stations[12].Chain[1])]);
    }

    // The pages of people, by an owner who signed in.
    private static async Task People(string folder)
    {
        await using var desk = await DeskUnderTest.Open(withPeople: true);
        var made = desk.Book!.Make("Olive Owner", Duties.Own);
        var owner = ((MicRegister.Register.Result<MicRegister.Server.Accounts.Account>.Accepted)made).Value;
        desk.Book.SetPassword(owner.Id, "seven quiet lapwings");
        desk.Book.Make("Tom Technician", Duties.Bench | Duties.Field);
        desk.Book.MakeToken(owner.Id, "nightly export", Duties.Look, TimeSpan.FromDays(90));
        foreach (var (width, size) in new[] { (1300, "wide"), (390, "narrow") })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                var context = await desk.NewContext(new() { ViewportSize = new() { Width = width, Height = 800 }, ColorScheme = scheme });
                var page = await context.NewPageAsync();
                await page.GotoAsync("/people");
                await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"sign-in-{size}-{scheme.ToString().ToLowerInvariant()}.png"), FullPage = true });
                await page.GetByLabel("Name").FillAsync("Olive Owner");
                await page.GetByLabel("Password").FillAsync("seven quiet lapwings");
                await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
                foreach (var (name, path) in new[] { ("people", "/people"), ("me", "/me"), ("trust", "/trust") })
                {
                    await page.GotoAsync(path);
                    await page.WaitForTimeoutAsync(600);
                    if (name == "people") await page.GetByRole(AriaRole.Button, new() { Name = "Password link" }).Last.ClickAsync();
                    await page.WaitForTimeoutAsync(300);
                    await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-{size}-{scheme.ToString().ToLowerInvariant()}.png"), FullPage = true });
                }
                await context.CloseAsync();
            }
        }
    }
}

using System.Text;
using System.Text.RegularExpressions;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>
/// From lists that the register never saw to a verdict, without an edit of a file; what a person has to do for it is counted.
/// </summary>
public sealed class UnknownListTests : IAsyncLifetime
{
    // Invented, as a field group might keep them: titles, a day of the list, a running number, words of their own, a sum at the end.
    private const string Fleet = """
        Bestand Messtechnik Feldgruppe;;;;;;;;;;
        Stand: 12.06.2026;;;;;;;;;;

        Lfd. Nr.;Gerät;Typ;Fabrik-Nr.;Standort;Zustand;Kalibriert am;Kal.-Labor;Übertragungsmaß;U (k=2);Wickelkennung
        1;Messmikrofon 1/2";Q-12;7101;Schrank 2;einsatzbereit;03.02.2026;Haus;-38,06 dB re 1 V/Pa;0,08 dB;w1
        2;Messmikrofon 1/2";Q-12;7102;Schrank 2;einsatzbereit;03.02.2026;Haus;-38,11 dB re 1 V/Pa;0,08 dB;w2
        3;Messmikrofon 1/2";Q-12;7103;Schrank 2;eingemottet;14.11.2023;Haus;-38,40 dB re 1 V/Pa;0,08 dB;w1
        4;Bodenplatte;B-40;P01;Halle 3;einsatzbereit;;;;;
        5;Bodenplatte;B-40;P02;Halle 3;einsatzbereit;;;;;
        6;Bodenplatte;B-40;P03;Halle 3;einsatzbereit;;;;;
        7;Schallkalibrator;K-94;C9;Schrank 1;einsatzbereit;01.03.2026;Haus;94,02 dB;0,10 dB;w1

        Summe: 7 Geräte;;;;;;;;;;
        """;

    private const string Campaign = """
        Messkampagne;Beginn;Ende;Platz;Zeitzone;Höhe über NN [m];Quelle;Band von [Hz];Band bis [Hz];Anforderungsprofil
        Moorfeld 26;01.09.2026;03.09.2026;Moorfeld;Europe/Berlin;12;small multirotor;50;10000;small-unmanned-flush
        """;

    private const string Stations = """
        Messkampagne;Messpunkt;Breitengrad;Längengrad;Aufstellung;Mikrofon;Bodenplatte
        Moorfeld 26;M1;53,1000;8,2000;flush;7101;P01
        Moorfeld 26;M2;53,1000;8,2010;flush;7102;P02
        Moorfeld 26;M3;53,1000;8,2020;flush;7103;P03
        """;

    // What the person who keeps the list knows, by what is asked.
    private static readonly (string Asked, string Answer)[] Known =
    [
        ("Wickelkennung", "Kept as a note"), ("eingemottet", "out of service"), ("day-first|day first|03.02", "day first"),
    ];

    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Lists_that_nobody_saw_before_come_to_a_verdict_in_few_acts()
    {
        var page = await _desk.Page("/");
        var acts = new Acts(page);

        await acts.Click(page.GetByRole(AriaRole.Link, new() { Name = "Take over the fleet" }));
        await acts.Drop(page.Locator("input[type=file]"), File("Bestand Messtechnik.csv", Fleet), File("Kampagne.csv", Campaign),
            File("Messpunkte.csv", Stations));
        await Expect(page.Locator(".store-bar")).ToBeVisibleAsync();
        var questions = page.Locator(".question");
        for (var left = await questions.CountAsync(); left > 0; left = await questions.CountAsync())
        {
            var question = questions.First;
            var asked = await question.GetAttributeAsync("aria-label") ?? "";
            var (_, answer) = Known.FirstOrDefault(k => Regex.IsMatch(asked, k.Asked));
            Assert.True(answer is not null, $"Nobody expected to be asked '{asked}'.");
            await acts.Click(question.GetByRole(AriaRole.Button, new() { NameRegex = new(answer!, RegexOptions.IgnoreCase) }).First);
            await Expect(page.GetByRole(AriaRole.Group, new() { Name = asked, Exact = true })).ToHaveCountAsync(0);
            await Expect(page.Locator(".store-bar")).ToBeVisibleAsync(); // worked out anew
        }
        await acts.Click(page.Locator(".store-bar").GetByRole(AriaRole.Button, new() { NameRegex = new("^Store") }));
        await page.GetByText("facts stored").WaitForAsync();

        await acts.Press("Control+k");
        await acts.Type("moorfeld");
        await acts.Press("Enter");
        await Expect(page.Locator("h1")).ToContainTextAsync("Moorfeld 26 is");
        await Expect(page.Locator("h1 .verdict")).ToContainTextAsync("not ready");

        Assert.True(acts.Count <= 25, $"{acts.Count} acts");
        Assert.Equal(7, _desk.Live.Now.DeviceIds.Count());
        var campaign = Assert.Single(_desk.Live.Now.CampaignIds);
        Assert.Equal(3, _desk.Live.Now.Campaign(campaign)!.Stations.Count);
        // 7103 was put away, and its result is older than the two years that the usual interval allows.
        Assert.Contains(CampaignReadiness.Judge(_desk.Live.Now, campaign, new(2026, 8, 3), null)!.Findings,
            f => f.Station == "M3" && f.Gravity == Gravity.Stops);
        Assert.Contains(_desk.Device("7103").Notes, n => n.What.Text.Contains("w1", StringComparison.Ordinal));
    }

    private static FilePayload File(string name, string text) =>
        new() { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) };
}

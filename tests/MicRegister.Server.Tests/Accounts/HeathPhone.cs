using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>
/// A phone that joined an invented campaign: PLANNED stands in its plan, SPARE in its kit, all others of the fleet are strangers.
/// </summary>
internal sealed class HeathPhone : IAsyncDisposable
{
    public const string Campaign = "HEATH";
    public const string Crew = "Crew west";
    public const string Label = "2AYS641TS";
    private static readonly Occurred Then = Occurred.At(new(2026, 8, 3, 7, 0, 0, TimeSpan.Zero));
    private int _counter;

    private HeathPhone(ServerUnderTest server, HttpClient browser, string client) => (Server, Browser, Client) = (server, browser, client);

    public ServerUnderTest Server { get; }

    public HttpClient Browser { get; }

    public string Client { get; }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<HeathPhone> Open(params string[] strangers)
    {
        var server = await ServerUnderTest.OpenWithPeople();
        var key = server.Book!.MakeLink(LinkPurpose.Phone, Campaign, TimeSpan.FromHours(1));
        var browser = server.Browser();
        using var joined = await ServerUnderTest.Fill(browser, "/join?key=" + key, "/account/join", ("crew", Crew), ("key", key));
        Assert.Equal("/field/", joined.Headers.Location!.OriginalString);
        var phone = new HeathPhone(server, browser, $"phone-{server.Book.Phones.Single().Id}.4K2M");
        foreach (var id in new[] { Campaign, "ELSEWHERE" })
            await phone.Desk(Plan(id), Subject.Campaign(id));
        await phone.Register(["PLANNED", "SPARE", .. strangers]);
        await phone.Desk(new ChainPlanned("S1", ["PLANNED"]), Subject.Campaign(Campaign), Subject.Device("PLANNED"));
        await phone.Desk(new KitPlanned(KitPurpose.Spare, ["SPARE"]), Subject.Campaign(Campaign), Subject.Device("SPARE"));
        return phone;
    }

    public async Task Register(params string[] devices)
    {
        foreach (var device in devices)
        {
            var details = new SortedDictionary<string, FieldValue>(StringComparer.Ordinal) { ["owner"] = FieldValue.Of("Owner " + device) };
            await Desk(new DeviceRegistered("microphone", "House", "Model M", "S-" + device, details), Subject.Device(device));
            await Desk(new DeviceMoved("Shelf of " + device), Subject.Device(device));
        }
    }

    /// <summary>What an owner states at the desk.</summary>
    public async Task<Fact> Desk(FactBody body, params string[] subjects)
    {
        var fact = FactText.WriteDerived(new(Then, "P1", "desk", _counter++), body, subjects);
        await Server.Live.Submit(_ => new Result<IReadOnlyList<Fact>>.Accepted([fact]), "desk", Cancel);
        return fact;
    }

    /// <summary>What this phone states.</summary>
    public Fact Say(FactBody body, params string[] subjects) => Say(body, subjects, null, null);

    public Fact Say(FactBody body, string[] subjects, FactId? replaces, string? author) =>
        FactText.WriteDerived(new(Then, author ?? PersonState.IdOf(Crew), Client, _counter++), body, subjects, replaces);

    public Fact Placed(string device, string campaign = Campaign) =>
        Say(
            new ChainPlaced("S1", [device], [], null, null, null, null, null, [], null),
            Subject.Campaign(campaign), Subject.Device(device));

    public Fact Annulling(Fact target, params string[] also) =>
        Say(new FactAnnulled(target.Id.ToString(), "undone"), [.. target.Subjects, .. also]);

    /// <summary>Sends facts and gives what became of each: stored, refused.</summary>
    public async Task<string[]> Send(params Fact[] facts)
    {
        var lines = string.Join('\n', facts.Select(f => Encoding.UTF8.GetString(f.Bytes.Span)));
        using var content = new StringContent(lines, Encoding.UTF8, "application/x-ndjson");
        using var response = await Browser.PostAsync("/api/field/facts", content, Cancel);
        response.EnsureSuccessStatusCode();
        var answer = JsonNode.Parse(await response.Content.ReadAsStringAsync(Cancel))!;
        return [.. answer["results"]!.AsArray().Select(r => (string)r!["result"]!)];
    }

    private static CampaignPlanned Plan(string id) => new(
        id, new(2026, 8, 1), new(2026, 8, 9), "UTC", [new("2026-01-01T00:00:00.000Z", 0)], "Heath", 100, SourceClass.Propeller, 50, 10_000,
        null, null, "heath", 0, 0);

    public async ValueTask DisposeAsync()
    {
        Browser.Dispose();
        await Server.DisposeAsync();
    }
}

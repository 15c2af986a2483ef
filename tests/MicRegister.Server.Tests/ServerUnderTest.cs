using System.Net.Http.Json;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Builder;

namespace MicRegister.Server.Tests;

/// <summary>A server on a port of its own, with an empty register or the demo's.</summary>
internal sealed class ServerUnderTest : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();
    private WebApplication _app = null!;

    public LiveRegister Live { get; private set; } = null!;

    public HttpClient Client { get; private set; } = null!;

    /// <param name="withDemo">Whether it holds the demo's register, or an empty one.</param>
    /// <param name="time">Its clock; null for the system's.</param>
    public static async Task<ServerUnderTest> Open(bool withDemo = false, TimeProvider? time = null)
    {
        var server = new ServerUnderTest();
        if (withDemo) await DemoFolder.CopyTo(server._folder.Path);
        server.Live = new(JournalStore.Open(new DiskFiles(server._folder.Path), TimeProvider.System));
        server._app = RegisterServer.Build(server.Live, time ?? TimeProvider.System, new DateOnly(2026, 8, 3), 0);
        await server._app.StartAsync();
        server.Client = new() { BaseAddress = new(server._app.Urls.Single()) };
        return server;
    }

    /// <summary>
    /// A server shared by tests that only read, or are refused whatever they say: each sees to it that nothing was stored.
    /// </summary>
    /// <param name="withDemo">Whether it holds the demo's register, or an empty one.</param>
    public static Task<ServerUnderTest> Reading(bool withDemo = false) => (withDemo ? ReadDemo : ReadEmpty).Value;

    private static readonly Lazy<Task<ServerUnderTest>> ReadEmpty = new(() => OpenToRead(withDemo: false));
    private static readonly Lazy<Task<ServerUnderTest>> ReadDemo = new(() => OpenToRead(withDemo: true));

    // What a server that only gives answers holds; null for one that is a test's own.
    private Register.Facts.LogHead? _kept;

    private static async Task<ServerUnderTest> OpenToRead(bool withDemo)
    {
        var server = await Open(withDemo);
        server._kept = server.Live.Log.Head;
        return server;
    }

    /// <summary>Ends the servers that were shared.</summary>
    public static async ValueTask EndReading()
    {
        foreach (var server in new[] { ReadEmpty, ReadDemo }.Where(s => s.IsValueCreated))
        {
            (await server.Value)._kept = null;
            await (await server.Value).DisposeAsync();
        }
    }

    public async Task<JsonNode> Get(string path) => (await Client.GetFromJsonAsync<JsonNode>(path))!;

    /// <summary>A server that asks who is there, with an account for each duty; passwords are <see cref="Password"/>.</summary>
    public static async Task<ServerUnderTest> OpenWithPeople(TimeProvider? time = null, Func<ServerOptions, ServerOptions>? more = null, bool withDemo = false)
    {
        var server = new ServerUnderTest();
        if (withDemo) await DemoFolder.CopyTo(server._folder.Path);
        server.Live = new(JournalStore.Open(new DiskFiles(server._folder.Path), TimeProvider.System));
        server.Book = AccountBook.Open(new DiskFiles(server._folder.Path), time ?? TimeProvider.System);
        foreach (var duty in DutyWords.Single)
        {
            var account = ((Result<Account>.Accepted)server.Book.Make(DutyWords.Of(duty), duty)).Value;
            server.Tokens[duty] = ((Result<string>.Accepted)server.Book.MakeToken(account.Id, "test", duty, TimeSpan.FromDays(30))).Value;
        }
        var options = new ServerOptions { Port = 0, Access = new(server.Book) };
        server._app = RegisterServer.Build(server.Live, time ?? TimeProvider.System, new DateOnly(2026, 8, 3), more?.Invoke(options) ?? options);
        await server._app.StartAsync();
        server.Client = new(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = new(server._app.Urls.First()) };
        return server;
    }

    public const string Password = "seven quiet lapwings";

    public AccountBook? Book { get; private set; }

    /// <summary>A script token for each duty.</summary>
    public Dictionary<Duties, string> Tokens { get; } = [];

    public IServiceProvider Services => _app.Services;

    public string Folder => _folder.Path;

    public IReadOnlyList<string> Addresses => [.. _app.Urls];

    /// <summary>A browser without scripts: cookies, and forms with what stands in them.</summary>
    public HttpClient Browser() => new(new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new() }) { BaseAddress = Client.BaseAddress };

    /// <summary>Loads a page and sends its form with these values beside what stands in it.</summary>
    public static async Task<HttpResponseMessage> Fill(HttpClient browser, string page, string action, params (string Name, string Value)[] values)
    {
        var text = await browser.GetStringAsync(page);
        var fields = System.Text.RegularExpressions.Regex.Matches(text, "<input type=\"hidden\" name=\"([^\"]+)\" value=\"([^\"]*)\"").Select(m => (Name: m.Groups[1].Value, Value: System.Net.WebUtility.HtmlDecode(m.Groups[2].Value))).DistinctBy(f => f.Name)
            .Where(f => values.All(v => v.Name != f.Name)).Concat(values).Select(f => new KeyValuePair<string, string>(f.Name, f.Value));
        return await browser.PostAsync(action, new FormUrlEncodedContent(fields));
    }

    /// <summary>Sends JSON and reads the answer.</summary>
    public async Task<(int Status, JsonNode? Body, HttpResponseMessage Response)> Send(HttpMethod method, string path, object body, string? ifMatch = null)
    {
        using var request = new HttpRequestMessage(method, path) { Content = JsonContent.Create(body) };
        if (ifMatch is not null) request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        var response = await Client.SendAsync(request);
        var text = await response.Content.ReadAsStringAsync();
        return ((int)response.StatusCode, text.Length > 0 ? JsonNode.Parse(text) : null, response);
    }

    public async ValueTask DisposeAsync()
    {
        if (_kept is { } kept)
        {
            Assert.Equal(kept, Live.Log.Head);
            return;
        }
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        await Live.DisposeAsync();
        Book?.Dispose();
        _folder.Dispose();
    }
}

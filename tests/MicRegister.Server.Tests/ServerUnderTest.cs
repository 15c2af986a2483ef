using System.Net.Http.Json;
using System.Text.Json.Nodes;
using MicRegister.Register;
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

    public static async Task<ServerUnderTest> Open(bool withDemo = false)
    {
        var server = new ServerUnderTest();
        if (withDemo) await CommandLine.Run("demo", "--once", "--data", server._folder.Path);
        server.Live = new(JournalStore.Open(new DiskFiles(server._folder.Path), TimeProvider.System));
        server._app = RegisterServer.Build(server.Live, TimeProvider.System, new DateOnly(2026, 8, 3), 0);
        await server._app.StartAsync();
        server.Client = new() { BaseAddress = new(server._app.Urls.Single()) };
        return server;
    }

    public async Task<JsonNode> Get(string path) => (await Client.GetFromJsonAsync<JsonNode>(path))!;

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
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        await Live.DisposeAsync();
        _folder.Dispose();
    }
}

using System.Net;
using System.Net.Security;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Server.Accounts;
using MicRegister.Server.Api;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Remote;

/// <summary>Speaks to a running server for a command, and says in words what went wrong.</summary>
internal sealed class RegisterConnection : IDisposable
{
    private readonly ServerAddress _to;
    private readonly HttpClient _client;
    private SslPolicyErrors _untrusted;

    private RegisterConnection(ServerAddress to)
    {
        _to = to;
        var handler = new SocketsHttpHandler
        {
            AllowAutoRedirect = false, // a token goes nowhere else
            UseProxy = !to.IsHere,
            UseCookies = false,
            ConnectTimeout = TimeSpan.FromSeconds(15),
            RequestHeaderEncodingSelector = (_, _) => Encoding.UTF8,
        };
        handler.SslOptions.RemoteCertificateValidationCallback = (_, _, _, errors) =>
        {
            _untrusted = errors;
            return errors == SslPolicyErrors.None;
        };
        if (to.Authority is { } authority)
        {
            handler.SslOptions.CertificateChainPolicy = new()
            {
                TrustMode = X509ChainTrustMode.CustomRootTrust,
                CustomTrustStore = { authority },
                RevocationMode = X509RevocationMode.NoCheck,
            };
        }
        // The server gives up by itself; this is for one that does not answer at all.
        _client = new(handler) { BaseAddress = to.Address, Timeout = Hardening.LongestRequest + TimeSpan.FromMinutes(1) };
        if (to.Token is { } token) _client.DefaultRequestHeaders.Authorization = new("Bearer", token);
        else _client.DefaultRequestHeaders.TryAddWithoutValidation(Speaker.PersonHeader, to.Person);
    }

    /// <summary>Greets a server.</summary>
    /// <exception cref="BadUseException">It cannot be reached, lets nobody in, or is another program or version.</exception>
    public static async Task<RegisterConnection> Open(ServerAddress to, CancellationToken cancel)
    {
        var connection = new RegisterConnection(to);
        try
        {
            await connection.Greet(cancel);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Asks for something that stores nothing.</summary>
    public Task<T> Ask<T>(string path, HttpContent content, CancellationToken cancel) => Post<T>(path, content, stores: false, cancel);

    /// <summary>Asks to store something.</summary>
    /// <exception cref="AnswerLostException">It is not known whether it was stored.</exception>
    public Task<T> Store<T>(string path, HttpContent content, CancellationToken cancel) => Post<T>(path, content, stores: true, cancel);

    /// <summary>A body as the API takes it.</summary>
    public static HttpContent Body<T>(T body) => new StringContent(ApiJson.Text(body), Encoding.UTF8, "application/json");

    public void Dispose()
    {
        _client.Dispose();
        _to.Authority?.Dispose();
    }

    private async Task Greet(CancellationToken cancel)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/me");
        var me = Me(await Send(request, stores: false, cancel));
        if ((string?)me?["kind"] is not { } kind || me["person"] is null) throw Foreign();
        var version = me["version"]?.ToString();
        if (version != Provenance.Software)
        {
            throw new BadUseException(
                $"{_to.InWords} is version {version ?? "without a number"} of the program, this is {Provenance.Software}: "
                + "use the same version on both sides. Nothing was stored.");
        }
        if (kind == Speaker.Open && _to.Token is not null)
        {
            throw new BadUseException(
                $"{_to.InWords} asks for no sign-in, so that the token says nobody: leave it out and give --by. Nothing was stored.");
        }
    }

    private static JsonObject? Me(string text)
    {
        try
        {
            return JsonNode.Parse(text) as JsonObject;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private async Task<T> Post<T>(string path, HttpContent content, bool stores, CancellationToken cancel)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = content };
        var text = await Send(request, stores, cancel);
        try
        {
            return ApiJson.Read<T>(text) ?? throw new JsonException();
        }
        catch (JsonException e)
        {
            throw stores ? new AnswerLostException(_to.InWords, "it cannot be read", e)
                : new BadUseException($"{_to.InWords} answers what this program cannot read. Nothing was stored.");
        }
    }

    private async Task<string> Send(HttpRequestMessage request, bool stores, CancellationToken cancel)
    {
        try
        {
            using var response = await _client.SendAsync(request, cancel);
            var text = await response.Content.ReadAsStringAsync(cancel);
            return response.IsSuccessStatusCode ? text : throw Refusal(response, text, stores);
        }
        catch (HttpRequestException e) when (e.HttpRequestError is HttpRequestError.SecureConnectionError)
        {
            throw new BadUseException(Untrusted(e));
        }
        catch (HttpRequestException e)
            when (!stores || e.HttpRequestError is HttpRequestError.ConnectionError or HttpRequestError.NameResolutionError)
        {
            throw new BadUseException($"{_to.InWords} cannot be reached: {e.Message.TrimEnd('.')}. Nothing was stored.");
        }
        catch (Exception e) when (stores && e is HttpRequestException or IOException or OperationCanceledException)
        {
            throw new AnswerLostException(_to.InWords, e is OperationCanceledException ? "stopped while waiting" : e.Message, e);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            throw new BadUseException($"{_to.InWords} does not answer. Nothing was stored.");
        }
    }

    private Exception Refusal(HttpResponseMessage response, string text, bool stores)
    {
        var (status, why) = (response.StatusCode, Detail(response, text));
        if ((int)status >= 500)
        {
            var said = $"{(int)status}: {why ?? response.ReasonPhrase}";
            return stores ? new AnswerLostException(_to.InWords, said) : new BadUseException($"{_to.InWords} failed, {said}");
        }
        if (response.Headers.Location is { } elsewhere && (int)status is >= 300 and < 400)
            return new BadUseException($"{_to.InWords} leads to {elsewhere}: give that server's address. Nothing was stored.");
        if (why is null) return Foreign();
        return new BadUseException(status switch
        {
            HttpStatusCode.Unauthorized when _to.Token is null =>
                $"{_to.InWords} asks who speaks: give --token-file FILE or {ServerAddress.TokenVariable}, "
                + "with a token made under My account. Nothing was stored.",
            HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden or HttpStatusCode.TooManyRequests =>
                $"{_to.InWords}: {why} Nothing was stored.",
            _ => why, // what is wrong with what was asked for is said as on the folder
        });
    }

    private BadUseException Foreign() => new($"{_to.InWords} answers, but not as a register of this program. Nothing was stored.");

    // All refusals of the register are problem documents.
    private static string? Detail(HttpResponseMessage response, string text)
    {
        if (response.Content.Headers.ContentType is not { MediaType: "application/problem+json" }) return null;
        var problem = Me(text);
        return problem?["detail"]?.ToString() ?? problem?["title"]?.ToString();
    }

    private string Untrusted(HttpRequestException why)
    {
        if (_untrusted == SslPolicyErrors.None)
            return $"{_to.InWords} does not speak HTTPS as it should: {why.Message.TrimEnd('.')}. Nothing was stored.";
        var reason = _untrusted.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch) ? "it is of another name"
            : "its authority is not trusted here, or it is over";
        return $"The certificate of {_to.InWords} is not trusted: {reason}. "
            + "Where the house has an authority of its own, give its file with --authority FILE. Nothing was stored.";
    }
}

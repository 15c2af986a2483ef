using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace MicRegister.Server.Tests.Remote;

/// <summary>A network between a command and its server that can lose what passes, or a program that is no server of ours.</summary>
internal sealed class Between : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly HttpClient _on = new();

    private Between(Func<Between, HttpContext, Task> answer)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        _app = builder.Build();
        _app.Run(context => answer(this, context));
    }

    public string Address => _app.Urls.Single();

    /// <summary>How many bodies passed.</summary>
    public int Posted { get; private set; }

    public static async Task<Between> Open(Func<Between, HttpContext, Task> answer)
    {
        var between = new Between(answer);
        await between._app.StartAsync();
        return between;
    }

    /// <summary>A program that answers each request alike.</summary>
    public static Task<Between> Saying(int status, string type, string text, string? location = null) => Open((_, c) =>
    {
        (c.Response.StatusCode, c.Response.ContentType) = (status, type);
        if (location is not null) c.Response.Headers.Location = location;
        return c.Response.WriteAsync(text);
    });

    /// <summary>Hands all on to a server.</summary>
    /// <param name="to">Its address.</param>
    /// <param name="lost">Number of the body whose answer is lost.</param>
    /// <param name="before">Done before that body is handed on; true has it lost itself.</param>
    public static Task<Between> HandingOn(string to, int lost, Func<Task<bool>>? before = null, bool losesAnswer = true) =>
        Open(async (between, c) =>
        {
            var isLost = HttpMethods.IsPost(c.Request.Method) && ++between.Posted == lost;
            if (isLost && before is not null && await before())
            {
                c.Abort();
                return;
            }
            using var request = new HttpRequestMessage(new(c.Request.Method), to + c.Request.Path);
            if (HttpMethods.IsPost(c.Request.Method))
            {
                using var body = new MemoryStream();
                await c.Request.Body.CopyToAsync(body);
                request.Content = new ByteArrayContent(body.ToArray());
                request.Content.Headers.TryAddWithoutValidation("Content-Type", c.Request.ContentType);
            }
            request.Headers.TryAddWithoutValidation("Authorization", c.Request.Headers.Authorization.ToString());
            using var answer = await between._on.SendAsync(request);
            var bytes = await answer.Content.ReadAsByteArrayAsync();
            if (isLost && losesAnswer)
            {
                c.Abort();
                return;
            }
            (c.Response.StatusCode, c.Response.ContentType) = ((int)answer.StatusCode, answer.Content.Headers.ContentType?.ToString());
            await c.Response.Body.WriteAsync(bytes);
        });

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _on.Dispose();
    }
}

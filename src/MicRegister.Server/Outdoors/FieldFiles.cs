using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using MicRegister.Server.Accounts;
using Microsoft.Extensions.FileProviders;

namespace MicRegister.Server.Outdoors;

/// <summary>
/// The offline client's page and its service worker, which is told all files of this version by the server that has them.
/// </summary>
internal static class FieldFiles
{
    private const string Folder = "field";
    private const string Worker = "sw-body.js";

    public static void Map(WebApplication app)
    {
        var files = new Lazy<(string Version, string Script)>(() => Read(app.Environment.WebRootFileProvider));
        // One route for both: the worker's scope is the folder, so a page without the slash is led into it.
        app.MapGet("/field", (HttpContext context) => context.Request.Path.Value!.EndsWith('/')
            ? Page(context, app.Environment.WebRootFileProvider)
            : Results.LocalRedirect($"{context.Request.PathBase}/field/{context.Request.QueryString}")).ExcludeFromDescription();
        app.MapGet("/field/sw.js", (HttpContext context) =>
        {
            context.Response.Headers.CacheControl = "no-cache";
            return Results.Text(files.Value.Script, "text/javascript", Encoding.UTF8);
        }).ExcludeFromDescription();
    }

    /// <summary>Leads a phone that opens a label's address, or the server's own, to the field page.</summary>
    public static Task LeadPhones(HttpContext context, RequestDelegate next)
    {
        if (context.Request.Path == "/" && HttpMethods.IsGet(context.Request.Method) && Speaker.Of(context.User) is { Kind: Speaker.Phone })
        {
            context.Response.Redirect($"{context.Request.PathBase}/field/");
            return Task.CompletedTask;
        }
        if (context.Request.Path.StartsWithSegments("/l", StringComparison.OrdinalIgnoreCase, out var code) && code.HasValue
            && Speaker.Of(context.User) is { Kind: Speaker.Phone })
        {
            context.Response.Redirect($"{context.Request.PathBase}/field/#{Uri.EscapeDataString(code.Value!.Trim('/'))}");
            return Task.CompletedTask;
        }
        return next(context);
    }

    private static IResult Page(HttpContext context, IFileProvider provider)
    {
        context.Response.Headers.CacheControl = "no-cache";
        return provider.GetFileInfo($"{Folder}/index.html") is { Exists: true } page
            ? Results.Stream(page.CreateReadStream(), "text/html; charset=utf-8")
            : Results.NotFound();
    }

    /// <summary>The worker with the names of all files and a version that changes with any of them.</summary>
    internal static (string Version, string Script) Read(IFileProvider provider)
    {
        var names = new List<string>();
        Collect(provider, Folder, names);
        names.Sort(StringComparer.Ordinal);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        string? body = null;
        foreach (var name in names)
        {
            using var content = new MemoryStream();
            using (var stream = provider.GetFileInfo(name).CreateReadStream()) stream.CopyTo(content);
            hash.AppendData(Encoding.UTF8.GetBytes(name + "\n"));
            hash.AppendData(content.GetBuffer(), 0, (int)content.Length);
            if (name == $"{Folder}/{Worker}") body = Encoding.UTF8.GetString(content.GetBuffer(), 0, (int)content.Length);
        }
        var version = Convert.ToHexStringLower(hash.GetHashAndReset())[..16];
        string[] files = [$"/{Folder}/", .. names.Where(IsServed).Select(n => "/" + n)];
        return (version, $"const VERSION = \"{version}\";\nconst FILES = {JsonSerializer.Serialize(files)};\n{body}");
    }

    private static bool IsServed(string name) =>
        name is not ($"{Folder}/{Worker}" or $"{Folder}/index.html")
        && Path.GetExtension(name) is not (".md" or ".br" or ".gz" or "")
        && !name.EndsWith("LICENSE", StringComparison.Ordinal);

    private static void Collect(IFileProvider provider, string folder, List<string> names)
    {
        foreach (var file in provider.GetDirectoryContents(folder))
        {
            if (file.IsDirectory) Collect(provider, $"{folder}/{file.Name}", names);
            else names.Add($"{folder}/{file.Name}");
        }
    }
}

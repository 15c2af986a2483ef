using System.Collections.Concurrent;
using MicRegister.Server.Commands;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace MicRegister.Server.Tests;

/// <summary>A server looks through its register before it says where it is; nothing rests on that look.</summary>
public sealed class FirstLookTests
{
    [Fact]
    public async Task The_first_pages_are_drawn_once()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var asked = new ConcurrentQueue<string>();
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        await using var pages = builder.Build();
        pages.Run(context =>
        {
            asked.Enqueue(context.Request.Path);
            return context.Response.WriteAsync("a page");
        });
        await pages.StartAsync(TestContext.Current.CancellationToken);

        await FirstLook.Take(server.Services, pages.Urls.Single());

        Assert.Equal(["/", "/fleet", "/drift"], asked);
    }

    [Fact]
    public async Task Where_pages_are_drawn_for_nobody_or_nobody_answers_it_ends_all_the_same()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        await FirstLook.Take(server.Services, pages: null);
        await FirstLook.Take(server.Services, "http://127.0.0.1:1");

        Assert.True((await server.Client.GetAsync("/fleet", TestContext.Current.CancellationToken)).IsSuccessStatusCode);
    }
}

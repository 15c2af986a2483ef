using System.Net;
using MicRegister.Register;
using MicRegister.Server.Pages;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests;

public sealed class VerdictPageTests
{
    [Fact]
    public async Task The_page_shows_the_verdict_with_its_findings_on_loopback_only()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("demo", "--once", "--data", folder.Path);
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder.Path), TimeProvider.System));
        await using var app = VerdictServer.Build(live, new(2026, 8, 3), 0);
        await app.StartAsync(TestContext.Current.CancellationToken);
        using var client = new HttpClient { BaseAddress = new(app.Urls.Single()) };

        Assert.True(IPAddress.IsLoopback(IPAddress.Parse(client.BaseAddress.Host)));
        var page = await client.GetStringAsync("/", TestContext.Current.CancellationToken);
        Assert.Contains("not ready", page, StringComparison.Ordinal);
        Assert.Contains("S07", page, StringComparison.Ordinal);
        Assert.Contains("Start by 2026-08-04", page, StringComparison.Ordinal);
        Assert.Matches("The log is (whole|being verified)", page);
        Assert.Single(page.Split("<h1").Skip(1));
        Assert.InRange(page.Length, 1000, 100_000);

        using var missing = await client.GetAsync("/nowhere", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
        Assert.Equal("application/problem+json", missing.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public void An_empty_register_leads_on() =>
        Assert.Contains("Import a campaign", VerdictPage.Render([], Register.Facts.LogHead.Start, "The log is whole."), StringComparison.Ordinal);
}

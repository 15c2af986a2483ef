using System.Net;
using MicRegister.Register;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Pages;

/// <summary>A server for this machine alone, with one page that shows the verdict.</summary>
internal static class VerdictServer
{
    public static WebApplication Build(LiveRegister live, DateOnly today, int port)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, port);
            kestrel.AddServerHeader = false;
        });
        builder.Services.AddProblemDetails();
        var app = builder.Build();
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.Use((context, next) =>
        {
            context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; base-uri 'none'";
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers["Referrer-Policy"] = "no-referrer";
            return next(context);
        });
        var health = LogHealth.Check(live.Log, app.Lifetime.ApplicationStopping);
        app.MapGet("/", () => Results.Content(VerdictPage.Render(Reports(live.Now, today), live.Log.Head, health.Words), "text/html; charset=utf-8"));
        return app;
    }

    private static List<ReadinessReport> Reports(Register.Register register, DateOnly today) =>
        [.. register.CampaignIds.Select(id => CampaignReadiness.Judge(register, id, today)).OfType<ReadinessReport>().Where(r => r.LastDay >= today)];
}

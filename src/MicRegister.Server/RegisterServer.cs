using System.Net;
using System.Text.Json;
using System.Text.Json.Serialization;
using MicRegister.Register;
using MicRegister.Server.Api;
using MicRegister.Server.Pages;
using MudBlazor.Services;

namespace MicRegister.Server;

/// <summary>Wires the server: API, live pages, and what both share.</summary>
public static class RegisterServer
{
    /// <summary>Builds a server on this machine alone: there is no sign-in yet, so it never listens elsewhere.</summary>
    /// <param name="live">The register.</param>
    /// <param name="time">Its clock.</param>
    /// <param name="today">Day as of which is judged; null takes the clock's.</param>
    /// <param name="port">Port on the loopback address; 0 takes any.</param>
    public static WebApplication Build(LiveRegister live, TimeProvider time, DateOnly? today, int port)
    {
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ApplicationName = typeof(RegisterServer).Assembly.GetName().Name, ContentRootPath = AppContext.BaseDirectory });
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, port);
            kestrel.AddServerHeader = false;
        });
        builder.Services.AddSingleton(time);
        builder.Services.AddSingleton(new Desk(live, time, today));
        builder.Services.AddSingleton<FleetView>();
        builder.Services.AddSingleton<Pages.Start.StartView>();
        builder.Services.AddSingleton(services => LogHealth.Check(live.Log, services.GetRequiredService<IHostApplicationLifetime>().ApplicationStopping));
        builder.Services.AddProblemDetails();
        builder.Services.AddOpenApi();
        builder.Services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
            json.SerializerOptions.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
        });
        builder.Services.AddRazorComponents().AddInteractiveServerComponents();
        builder.Services.AddMudServices();

        var app = builder.Build();
        app.UseExceptionHandler();
        // Programs get a problem document, people a page.
        app.UseWhen(IsApi, api => api.UseStatusCodePages());
        app.UseWhen(context => !IsApi(context), pages => pages.UseStatusCodePagesWithReExecute("/missing"));
        app.UseRouting();
        app.Use((context, next) =>
        {
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers["Referrer-Policy"] = "no-referrer";
            context.Response.Headers.XFrameOptions = "DENY";
            return next(context);
        });
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapOpenApi("/api/openapi.json");
        DevicesApi.Map(app);
        CertificatesApi.Map(app);
        CampaignsApi.Map(app);
        ReadinessApi.Map(app);
        ProfilesApi.Map(app);
        FactsApi.Map(app);
        ImportsApi.Map(app);
        AttachmentsApi.Map(app);
        DrawingsApi.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }

    private static bool IsApi(HttpContext context) => context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal);
}

using System.Net;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using MicRegister.Register;
using MicRegister.Register.Facts;
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
        var desk = new Desk(live, time, today);
        desk.BeHasty();
        builder.Services.AddSingleton(desk);
        builder.Services.AddSingleton<FleetView>();
        builder.Services.AddSingleton<Pages.Start.StartView>();
        builder.Services.AddSingleton(services => LogHealth.Check(live.Log, services.GetRequiredService<IHostApplicationLifetime>().ApplicationStopping));
        builder.Services.AddProblemDetails(problems => problems.CustomizeProblemDetails = p =>
        {
            if (p.Exception is BadHttpRequestException bad) p.ProblemDetails.Detail = bad.InnerException?.Message ?? bad.Message;
        });
        builder.Services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        builder.Services.AddOpenApi();
        builder.Services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.TypeInfoResolver = new DefaultJsonTypeInfoResolver { Modifiers = { FactText.RequireWhatCannotBeAbsent } };
            json.SerializerOptions.RespectNullableAnnotations = true;
            json.SerializerOptions.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
            json.SerializerOptions.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
        });
        builder.Services.AddRazorComponents().AddInteractiveServerComponents().AddHubOptions(hub => hub.MaximumReceiveMessageSize = 4 << 20); // a table to mend is typed text
        builder.Services.AddScoped<Pages.Shell.Screen>();
        builder.Services.AddHttpContextAccessor();
        builder.Services.AddMudServices();

        var app = builder.Build();
        app.Use(Guard);
        app.UseExceptionHandler(new ExceptionHandlerOptions { StatusCodeSelector = e => e is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError, SuppressDiagnosticsCallback = c => c.Exception is BadHttpRequestException });
        // Programs get a problem document, people a page.
        app.UseWhen(IsApi, api => api.UseStatusCodePages());
        app.UseWhen(context => !IsApi(context), pages => pages.UseStatusCodePagesWithReExecute("/missing"));
        app.UseRouting();
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
        DriftApi.Map(app);
        TonesApi.Map(app);
        ChecksApi.Map(app);
        CurvesApi.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        return app;
    }

    // There is no sign-in yet, so no page of another site may speak to the register through the browser of whoever sits here.
    private static Task Guard(HttpContext context, RequestDelegate next)
    {
        context.Response.OnStarting(() =>
        {
            context.Response.Headers.XContentTypeOptions = "nosniff";
            context.Response.Headers["Referrer-Policy"] = "no-referrer";
            context.Response.Headers.XFrameOptions = "DENY";
            return Task.CompletedTask;
        });
        var host = context.Request.Host.Host;
        var isHere = host is "localhost" or "127.0.0.1" or "[::1]";
        var origin = context.Request.Headers.Origin.ToString();
        var isForeign = origin.Length > 0 && !(Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority == context.Request.Host.Value);
        var reads = (HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method)) && !context.WebSockets.IsWebSocketRequest;
        return isHere && (!isForeign || reads)
            ? next(context)
            : Results.Problem("The register answers this machine's own pages and programs only.", statusCode: StatusCodes.Status403Forbidden).ExecuteAsync(context);
    }

    private static bool IsApi(HttpContext context) => context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal);
}

using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Server.Api;
using MicRegister.Server.Pages;
using MicRegister.Server.Pages.Shell;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.DataProtection;
using MudBlazor.Services;

namespace MicRegister.Server;

/// <summary>Wires the server: who is let in, API, live pages, and what all share.</summary>
public static class RegisterServer
{
    /// <summary>Builds a server on this machine alone, without a sign-in.</summary>
    /// <param name="live">The register.</param>
    /// <param name="time">Its clock.</param>
    /// <param name="today">Day as of which is judged; null takes the clock's.</param>
    /// <param name="port">Port on the loopback address; 0 takes any.</param>
    public static WebApplication Build(LiveRegister live, TimeProvider time, DateOnly? today, int port) =>
        Build(live, time, today, new ServerOptions { Port = port });

    /// <summary>Builds a server.</summary>
    /// <param name="live">The register.</param>
    /// <param name="time">Its clock.</param>
    /// <param name="today">Day as of which is judged; null takes the clock's.</param>
    /// <param name="options">Where it listens and who is let in.</param>
    /// <exception cref="ArgumentException">It would listen beyond this machine without a sign-in.</exception>
    public static WebApplication Build(LiveRegister live, TimeProvider time, DateOnly? today, ServerOptions options)
    {
        if (options.Access.IsOpen && !System.Net.IPAddress.IsLoopback(options.Address))
            throw new ArgumentException("Without a sign-in a server listens on the loopback address only.", nameof(options));
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            ApplicationName = typeof(RegisterServer).Assembly.GetName().Name,
            ContentRootPath = AppContext.BaseDirectory,
        });
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // Keys lie beside the accounts in a folder of their own; who has the disk has all. That is said in the threat notes, not in each
        // log.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel => Doors.Open(kestrel, options));
        builder.Services.AddSingleton(time);
        builder.Services.AddSingleton(options);
        builder.Services.AddSingleton(options.Access);
        var desk = new Desk(live, time, today, options.Access);
        desk.BeHasty();
        builder.Services.AddSingleton(desk);
        builder.Services.AddSingleton(new PastRegisters(() => live.Now, time));
        builder.Services.AddSingleton<FleetView>();
        builder.Services.AddSingleton<Pages.Start.StartView>();
        builder.Services.AddSingleton(services =>
            LogHealth.Check(live.Log, services.GetRequiredService<IHostApplicationLifetime>().ApplicationStopping));
        builder.Services.AddProblemDetails(problems => problems.CustomizeProblemDetails = p =>
        {
            if (p.Exception is BadHttpRequestException bad) p.ProblemDetails.Detail = Unreadable.Words(bad);
        });
        builder.Services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        builder.Services.AddOpenApi(api => api.AddOperationTransformer(SayDuties)
            .AddOperationTransformer(WordsOfParameters.Say).AddOperationTransformer(EarlierStates.Say)
            .AddSchemaTransformer(BoundsOfBodies.Say));
        builder.Services.AddRequestTimeouts(timeouts => timeouts.DefaultPolicy = new()
        {
            Timeout = Hardening.LongestRequest,
            TimeoutStatusCode = StatusCodes.Status504GatewayTimeout,
        });
        builder.Services.ConfigureHttpJsonOptions(json => ApiJson.Set(json.SerializerOptions));
        AddPeople(builder.Services, options, time);
        // The framework ends a page whose upload stands still for longer than this: outdoors a network comes and goes.
        builder.Services.AddRazorComponents()
            .AddInteractiveServerComponents(circuit => circuit.JSInteropDefaultCallTimeout = TimeSpan.FromMinutes(5))
            .AddHubOptions(hub => hub.MaximumReceiveMessageSize = 4 << 20); // a table to mend is typed text
        builder.Services.AddScoped<Pages.Shell.Screen>();
        builder.Services.AddScoped<Pages.Parts.FigureDesk>();
        builder.Services.AddHttpContextAccessor();
        builder.Services.AddMudServices();

        var app = builder.Build();
        app.Use(Hardening.Guard(options));
        app.Use(Doors.LeadToHttps(options));
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            StatusCodeSelector = e => e is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError,
            SuppressDiagnosticsCallback = c => c.Exception is BadHttpRequestException,
        });
        // Programs get a problem document, people a page.
        app.UseWhen(IsApi, api => api.UseStatusCodePages().UseRequestTimeouts());
        app.UseWhen(context => !IsApi(context), pages => pages.UseStatusCodePagesWithReExecute("/missing"));
        app.UseRouting();
        app.UseAuthentication();
        app.Use(Doors.LetPhonesAlone(options));
        app.Use(Outdoors.FieldFiles.LeadPhones);
        app.UseRateLimiter();
        app.UseAuthorization();
        app.UseAntiforgery();
        app.Use(EarlierStates.Lead);
        app.MapStaticAssets();
        app.MapOpenApi("/api/openapi.json").AsOfNowAlone("This document is of the program, not of the register.");
        Pages.Shell.LookSheet.Map(app);
        AccountApi.Map(app, options);
        var api = app.MapGroup("").AddEndpointFilter(NoNullItems.Filter).AddEndpointFilter(BoundsOfBodies.Filter)
            .AddEndpointFilterFactory(DecimalQuery.Filter);
        DevicesApi.Map(api);
        FleetApi.Map(api);
        ClassesApi.Map(api);
        CertificatesApi.Map(api);
        CampaignsApi.Map(api);
        ReadinessApi.Map(api);
        ProfilesApi.Map(api);
        FactsApi.Map(api);
        ImportsApi.Map(api);
        AttachmentsApi.Map(api);
        DrawingsApi.Map(api);
        DriftApi.Map(api);
        TonesApi.Map(api);
        ChecksApi.Map(api);
        ToneChecksApi.Map(api);
        CurvesApi.Map(api);
        CurveFilesApi.Map(api);
        LabelsApi.Map(api);
        FieldApi.Map(api);
        DeploymentApi.Map(api);
        EventsApi.Map(api);
        SiteApi.Map(api);
        MountsApi.Map(api);
        ReportsApi.Map(api);
        CalendarApi.Map(app);
        Outdoors.FieldFiles.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode();
        ReadAhead.Start(app, desk);
        return app;
    }

    private static void AddPeople(IServiceCollection services, ServerOptions options, TimeProvider time)
    {
        services.AddSingleton(new GuessGuard(time));
        services.AddRateLimiter(limiter => Hardening.Limit(limiter, options));
        var protection = services.AddDataProtection().SetApplicationName("MicRegister");
        if (options.KeyFolder is { } folder) protection.PersistKeysToFileSystem(Directory.CreateDirectory(folder));
        var authentication = services.AddAuthentication(options.Access.IsOpen ? OpenScheme.Name : SessionScheme.Either);
        if (options.Access.IsOpen)
        {
            authentication.AddScheme<AuthenticationSchemeOptions, OpenScheme>(OpenScheme.Name, null);
        }
        else
        {
            authentication.AddPolicyScheme(SessionScheme.Either, null, either => either.ForwardDefaultSelector = c =>
                c.Request.Headers.Authorization.Count > 0 ? TokenScheme.Name : SessionScheme.Name)
                .AddScheme<AuthenticationSchemeOptions, TokenScheme>(TokenScheme.Name, null)
                .AddCookie(SessionScheme.Name, cookie =>
                {
                    cookie.Cookie.Name = options.IsSecure ? "__Host-register" : "register";
                    if (options is { IsSecure: true, PlainServesField: true }) cookie.CookieManager = new PlainDoorCookies();
                    cookie.Cookie.HttpOnly = true;
                    cookie.Cookie.SameSite = SameSiteMode.Lax; // a scanned link leads here from outside
                    cookie.Cookie.SecurePolicy = options.IsSecure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
                    cookie.ExpireTimeSpan = TimeSpan.FromHours(12);
                    cookie.SlidingExpiration = true;
                    cookie.Events.OnValidatePrincipal = context =>
                    {
                        if (SessionScheme.Renewed(options.Access, context.Principal) is { } renewed) context.ReplacePrincipal(renewed);
                        else context.RejectPrincipal();
                        return Task.CompletedTask;
                    };
                });
            if (options.Outside is { } outside) OutsideSignIn.Add(authentication, outside, options.Access);
        }
        services.AddAuthorizationBuilder()
            .SetFallbackPolicy(new AuthorizationPolicyBuilder().AddRequirements(new DutyRequirement()).Build());
        services.AddSingleton<IAuthorizationHandler, DutyCheck>();
        services.AddSingleton<IAuthorizationMiddlewareResultHandler, DutyAnswers>();
        services.AddCascadingAuthenticationState();
        services.AddScoped<AuthenticationStateProvider, SessionWatch>();
        services.AddScoped<Speaking>();
        services.AddAntiforgery(forgery => forgery.Cookie.SecurePolicy = options is { IsSecure: true, PlainServesField: false }
            ? CookieSecurePolicy.Always
            : CookieSecurePolicy.SameAsRequest);
    }

    // The document of the API says of each operation which duties allow it, from the same table that decides.
    private static Task SayDuties(
        Microsoft.OpenApi.OpenApiOperation operation, Microsoft.AspNetCore.OpenApi.OpenApiOperationTransformerContext context,
        CancellationToken cancel)
    {
        var row = $"{context.Description.HttpMethod} /{context.Description.RelativePath?.Trim('/')}";
        if (!DutyTable.Endpoints.TryGetValue(row, out var duties)) return Task.CompletedTask;
        var phones = PhoneTable.Endpoints.Contains(row) ? " Open to phones of a campaign." : "";
        var words = duties == Duties.Any ? "any" : DutyWords.Of(duties | Duties.Own);
        operation.Description = $"{operation.Description} Duties: {words}.{phones}".Trim();
        return Task.CompletedTask;
    }

    private static bool IsApi(HttpContext context) => context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal);
}

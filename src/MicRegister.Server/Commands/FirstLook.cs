using MicRegister.Register.Drift;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Start;
using MicRegister.Server.Work;

namespace MicRegister.Server.Commands;

/// <summary>
/// Works out, once a server has opened, what its first pages ask for: whoever opens the first page finds it as quick as everybody after.
/// </summary>
internal static class FirstLook
{
    // The pages that people open first, and the day's work begins with.
    private static readonly string[] Pages = ["/", "/fleet", "/drift"];

    /// <summary>The longest that the address is held back for it; after that it goes on beside what people ask for.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromSeconds(15);

    /// <summary>Starts it.</summary>
    /// <param name="services">Those of the server.</param>
    /// <param name="pages">Address whose pages are drawn once as well; null where they are only drawn for whoever has signed in.</param>
    /// <returns>Ends when all is worked out; it never fails, since nothing rests on it.</returns>
    public static Task Take(IServiceProvider services, string? pages) => Task.Run(async () =>
    {
        try
        {
            var desk = services.GetRequiredService<Desk>();
            var (register, today) = (desk.Now, desk.Today);
            services.GetRequiredService<FleetView>().Rows(register);
            services.GetRequiredService<StartView>().Of(register, today, id => desk.SiteDay(register, id));
            ModelView.All(register.Drift(today), today, DriftApi.Usual(desk));
            if (pages is null) return;
            using var client = new HttpClient { BaseAddress = new(pages) };
            foreach (var page in Pages) await client.GetStringAsync(page);
        }
        catch (Exception e) when (e is HttpRequestException or InvalidOperationException or OperationCanceledException)
        {
            // The server was stopped meanwhile, or a page says itself what is wrong with it.
        }
    });
}

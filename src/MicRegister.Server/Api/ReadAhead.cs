using MicRegister.Register.Campaigns;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>
/// Reads what stands and what was checked in the campaigns around today before anybody asks, so that the first who asks does not wait for
/// it.
/// </summary>
internal static class ReadAhead
{
    private const int NearDays = 60;

    /// <summary>Begins once the server listens; what cannot be read fails where it is asked for.</summary>
    public static void Start(WebApplication app, Desk desk) => app.Lifetime.ApplicationStarted.Register(() =>
        _ = Task.Run(() => Read(desk, app.Lifetime.ApplicationStopping), app.Lifetime.ApplicationStopping));

    /// <summary>Traces the newest event of each campaign around today.</summary>
    /// <returns>How many there were.</returns>
    public static int Read(Desk desk, CancellationToken stopping)
    {
        var (register, today, count) = (desk.Now, desk.Today, 0);
        foreach (var id in register.CampaignIds)
        {
            stopping.ThrowIfCancellationRequested();
            if (register.Campaign(id)?.Plan is not { } plan
                || plan.FirstDay > today.AddDays(NearDays) || plan.LastDay < today.AddDays(-NearDays))
            {
                continue;
            }
            if (EventBook.OfCampaign(register, id) is [.., var newest] && Tracer.Of(register, newest.Id) is not null) count++;
        }
        return count;
    }
}

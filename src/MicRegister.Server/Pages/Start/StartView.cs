using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;

namespace MicRegister.Server.Pages.Start;

/// <summary>What wants doing, worked out once a state and day for all pages that show it.</summary>
public sealed class StartView
{
    private readonly Lock _work = new();
    private volatile Snapshot? _snapshot;

    public (IReadOnlyList<Sentence> Sentences, IReadOnlyList<(DateOnly Due, DeviceState Device)> Due) Of(
        Register.Register register, DateOnly today, Func<string, DateOnly>? siteDay = null)
    {
        // Whoever asks while it is being worked out waits for that.
        lock (_work) return Known(register, today, siteDay);
    }

    private (IReadOnlyList<Sentence> Sentences, IReadOnlyList<(DateOnly Due, DeviceState Device)> Due) Known(
        Register.Register register, DateOnly today, Func<string, DateOnly>? siteDay)
    {
        // A campaign is over by its site's clock, which turns at another hour than the day that is judged.
        var sites = siteDay is null ? 0 : register.CampaignIds.Sum(id => siteDay(id).DayNumber - today.DayNumber);
        if (_snapshot is { } known && known.Count == register.Count && known.Drift == register.DriftMemory.Version
            && known.Today == today && known.Sites == sites)
            return (known.Sentences, known.Due);
        var fresh = new Snapshot(
            register.Count, register.DriftMemory.Version, today, sites,
            Sentence.Of(register, today, siteDay), Sentence.Due(register, today, today.AddDays(83)));
        _snapshot = fresh;
        return (fresh.Sentences, fresh.Due);
    }

    private sealed record Snapshot(
        int Count, int Drift, DateOnly Today, int Sites, IReadOnlyList<Sentence> Sentences,
        IReadOnlyList<(DateOnly Due, DeviceState Device)> Due);
}

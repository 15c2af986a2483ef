using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Comparison;

/// <summary>
/// What would change if a profile were written: each campaign that is judged by it, over or not, by the register as it is and as it would
/// be. Nothing is stored. It is worked out piece by piece, so that whoever shows it can say how far it is, and stop.
/// </summary>
/// <remarks>Where nothing else is said meanwhile, it is what storing the profile and reading again gives.</remarks>
public sealed class ProfileEffect
{
    private readonly Register _before;
    private readonly Register _after;
    private readonly DateOnly _today;
    private readonly Func<string, DateOnly> _siteDay;
    private readonly List<CampaignWork> _campaigns;
    private int _next;

    private ProfileEffect(
        Register before, Register after, string profile, ProfileWritten proposed, DateOnly today, Func<string, DateOnly> siteDay)
    {
        (_before, _after, _today, _siteDay) = (before, after, today, siteDay);
        Clauses = ProfileComparison.Of(before.Profile(profile)?.Written ?? new("", "", []), proposed);
        _campaigns = [.. before.CampaignIds.Where(c => IsJudgedBy(before, c, profile)).Select(c => new CampaignWork(before, c))];
    }

    /// <summary>What the proposed profile asks beside the one that counts; all only here where there is none.</summary>
    public ProfileComparison Clauses { get; }

    /// <summary>How many events the campaigns have.</summary>
    public int Events => _campaigns.Sum(c => c.Events.Count);

    /// <summary>How many of them are not worked out.</summary>
    public int EventsLeft => _campaigns.Sum(c => c.Left);

    /// <summary>How many pieces there are: each campaign and each event.</summary>
    public int Pieces => _campaigns.Count + Events;

    /// <summary>How many of them are worked out.</summary>
    public int Done => _next + Events - EventsLeft;

    /// <summary>Whether all is worked out.</summary>
    public bool IsWhole => Done == Pieces;

    /// <summary>The campaigns in order of their ids, as far as they are worked out.</summary>
    public IReadOnlyList<CampaignEffect> Campaigns => [.. _campaigns.Where(c => c.IsBegun).Select(c => c.SoFar())];

    /// <summary>How many campaigns are judged by the profile.</summary>
    public int CampaignCount => _campaigns.Count;

    /// <summary>Looks for what a profile would change, or says why it cannot be written.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="saying">Who would write it, and when.</param>
    /// <param name="profile">Its id; a new one too.</param>
    /// <param name="proposed">What it would ask.</param>
    /// <param name="today">Day as of which campaigns are judged.</param>
    /// <param name="siteDay">Day at the site of a campaign, by which it is over or not.</param>
    public static Result<ProfileEffect> Begin(
        Register register, Saying saying, string profile, ProfileWritten proposed, DateOnly today, Func<string, DateOnly> siteDay) =>
        CampaignDecisions.Write(register, saying, profile, proposed).Match<Result<ProfileEffect>>(
            facts => new Result<ProfileEffect>.Accepted(new(register, register.WhatIf(facts), profile, proposed, today, siteDay)),
            why => why);

    /// <summary>The whole effect at once.</summary>
    /// <param name="cancel">Gives up between two pieces.</param>
    public ProfileEffect ToTheEnd(CancellationToken cancel = default)
    {
        while (GoOn()) cancel.ThrowIfCancellationRequested();
        return this;
    }

    /// <summary>Works out one piece more: the campaigns first, then their events, one of each in turn and the latest first.</summary>
    /// <returns>False where nothing is left.</returns>
    public bool GoOn()
    {
        if (_next < _campaigns.Count)
        {
            _campaigns[_next].Begin(_before, _after, _today, _siteDay);
            _next++;
            return true;
        }
        if (_campaigns.MaxBy(c => c.Left) is not { Left: > 0 } most) return false;
        most.GoOn(_before, _after);
        return true;
    }

    // Usual practice stands in where the profile of a campaign says nothing.
    private static bool IsJudgedBy(Register register, string campaign, string profile) =>
        profile == BuiltInProfiles.Usual || register.Campaign(campaign)?.Plan?.Profile == profile;

    /// <summary>One campaign while it is worked out.</summary>
    private sealed class CampaignWork(Register register, string id)
    {
        private readonly CampaignState? _state = register.Campaign(id);
        private readonly List<ChangedEvent> _changed = [];
        private (ReadinessCount? Before, ReadinessCount? After) _readiness;
        private IReadOnlyList<Doubt> _arising = [], _vanishing = [];
        private EventCount _was = new(0, 0, 0, 0), _is = new(0, 0, 0, 0);
        private int _events;

        public IReadOnlyList<RecordedEvent> Events { get; } =
            [.. EventBook.OfCampaign(register, id).OrderByDescending(e => e.StartMs).ThenBy(e => e.Id, StringComparer.Ordinal)];

        public int Left => Events.Count - _events;

        public bool IsBegun { get; private set; }

        public void Begin(Register before, Register after, DateOnly today, Func<string, DateOnly> siteDay)
        {
            var day = siteDay(id);
            ReadinessCount? Ready(Register judged) => ReadinessCount.Of(CampaignReadiness.Judge(judged, id, today, day));
            _readiness = (Ready(before), Ready(after));
            IReadOnlyList<Doubt> was = DoubtsIn(before), now = DoubtsIn(after);
            _arising = [.. now.ExceptBy(was.Select(d => d.Key), d => d.Key)];
            _vanishing = [.. was.ExceptBy(now.Select(d => d.Key), d => d.Key)];
            IsBegun = true;
        }

        public void GoOn(Register before, Register after)
        {
            var e = Events[_events++];
            EventVerdict was = EventVerdict.Of(before, e.Id) ?? new([]), now = EventVerdict.Of(after, e.Id) ?? new([]);
            (_was, _is) = (_was.With(was.Verdict), _is.With(now.Verdict));
            if (!was.Stations.SequenceEqual(now.Stations)) _changed.Add(new(e.Id, e.Name, e.StartMs, was, now));
        }

        public CampaignEffect SoFar() => new(
            id, _state?.Name ?? id, _state?.Plan?.Profile, _readiness.Before, _readiness.After, Events.Count, Left, _was, _is,
            [.. _changed.OrderBy(e => e.StartMs).ThenBy(e => e.Id, StringComparer.Ordinal)], _arising, _vanishing);

        private IReadOnlyList<Doubt> DoubtsIn(Register judged)
        {
            var profile = _state?.Plan is { } plan ? judged.Profile(plan.Profile) : null;
            return [.. Devices(judged).SelectMany(d => DoubtBook.OfDevice(judged, d, profile)).DistinctBy(d => d.Key)
                .OrderBy(d => d.FromMs).ThenBy(d => d.Key, StringComparer.Ordinal)];
        }

        // Planned or placed, what checks were made with, and what all that was measured against.
        private List<string> Devices(Register judged)
        {
            var open = new Queue<string>((_state?.Devices ?? [])
                .Concat(ArrayDeployment.Of(judged, id).Placements.SelectMany(p => p.Devices))
                .Concat(Checks.CheckBook.OfCampaign(judged, id).SelectMany(k => k.Check.Devices.Concat(k.Kit))));
            var found = new HashSet<string>(StringComparer.Ordinal);
            while (open.TryDequeue(out var device))
            {
                var kept = judged.EntriesOf(device)[0];
                if (!found.Add(kept)) continue;
                foreach (var reference in judged.Device(kept)?.Certificates.Select(c => c.Issued.ReferenceDevice).OfType<string>() ?? [])
                    open.Enqueue(reference);
            }
            return [.. found.Order(StringComparer.Ordinal)];
        }
    }
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>The direction that sound came from, as it was stated.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Said">What it says.</param>
/// <param name="IsOfEvent">Whether it speaks of one event, rather than of the whole campaign.</param>
public sealed record StatedIncidence(FactId Fact, IncidenceStated Said, bool IsOfEvent);

/// <summary>What was said of directions.</summary>
public static class IncidenceBook
{
    /// <summary>What holds for a station during an event; null where nothing was said.</summary>
    public static StatedIncidence? Of(Register register, RecordedEvent what, string station)
    {
        StatedIncidence? best = null;
        var rank = -1;
        foreach (var fact in EventLog.Of(register, what.Campaign).IncidencesOf(what.Id))
        {
            if (fact.Body is not IncidenceStated said || !IsSound(said) || (said.Station is not null && said.Station != station)) continue;
            var about = fact.Subjects.FirstOrDefault(Subject.IsEvent);
            var own = (about is null ? 0 : 2) + (said.Station is null ? 0 : 1);
            if (own >= rank) (best, rank) = (new(fact.Id, said, about is not null), own);
        }
        return best;
    }

    /// <summary>States a direction.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="event">Id of the event; null for all of the campaign.</param>
    /// <param name="stated">What is said.</param>
    public static Result<IReadOnlyList<Fact>> State(Register register, Saying saying, string campaign, string? @event, IncidenceStated stated)
    {
        if (register.Campaign(campaign) is not { } state) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (@event is not null && EventBook.Find(register, @event)?.Campaign != campaign)
            return new Rejection(RejectionSort.NotFound, $"There is no event {@event} in {campaign}.");
        if (stated.Station is { } station && !state.Stations.ContainsKey(station)
            && Deployment.ArrayDeployment.Of(register, campaign).Placements.All(p => p.Station != station))
        {
            return Saying.Invalid($"Station '{station}': {state.Name} has no such station.");
        }
        if (!(stated.AngleDeg is >= 0 and <= 180))
        {
            return Saying.Invalid(FormattableString.Invariant($"Angle of incidence '{stated.AngleDeg}': ")
                + "allowed is a number from 0 to 180 ° (0 along the microphone's axis, 90 grazing).");
        }
        if (stated.HalfWidthDeg is { } half && !(half is >= 0 and <= 90))
            return Saying.Invalid(FormattableString.Invariant($"Half-width '{half}': allowed is a number from 0 to 90 °."));
        if (DeviceDecisions.Text(stated.Reason, "How that is known") is { } wrong) return wrong;
        return saying.Of(
            register, stated with { Reason = stated.Reason.Trim() },
            [.. @event is null ? Array.Empty<string>() : [Subject.Event(@event)], Subject.Campaign(campaign)]);
    }

    // A fact from elsewhere may state what nobody here could.
    private static bool IsSound(IncidenceStated s) => s.AngleDeg is >= 0 and <= 180 && s.HalfWidthDeg is null or (>= 0 and <= 180);
}

namespace MicRegister.Register.Tracing;

/// <summary>Whether all that was said can be used here: what cannot leaves a result undecided, as it does a plan.</summary>
internal static class UnreadQuestions
{
    public static IEnumerable<TraceReason> NewerFacts(TracedChain c)
    {
        foreach (var device in c.Chain.Concat(c.CheckKit.Select(c.Shared.Device).OfType<Devices.DeviceState>()))
        {
            if (device.WrittenByNewer.IsEmpty) continue;
            yield return new(
                TraceVerdict.Undecided, $"Facts about {device.Name} cannot be used here (newer version, or beyond bounds).",
                "facts " + string.Join(", ", device.WrittenByNewer));
        }
        if (!c.Campaign.WrittenByNewer.IsEmpty)
        {
            yield return new(
                TraceVerdict.Undecided, "Facts about the campaign cannot be used here (newer version, or beyond bounds).",
                "facts " + string.Join(", ", c.Campaign.WrittenByNewer));
        }
        if (c.Profile is { WrittenByNewer: true } profile)
        {
            yield return new(
                TraceVerdict.Undecided, "Facts about its profile cannot be used here (newer version, or beyond bounds).",
                $"profile {profile.Id}");
        }
    }

    /// <summary>Placements, takings in, checks and statements of the event that cannot be used.</summary>
    public static IEnumerable<TraceReason> UnreadSteps(TracedChain c) => c.Shared.Unread.Where(u => Touches(u, c)).Select(u => new TraceReason(
        TraceVerdict.Undecided,
        $"A {u.Kind.Replace('-', ' ')} of {Tracer.Time(u.Instant)} cannot be used here, so that it is not known what it says: {u.Why}.",
        $"fact {u.Fact}"));

    public static IEnumerable<TraceReason> OtherMicrophone(TracedChain c)
    {
        if (c.Shared.OtherMicrophones.Count == 0) yield break;
        HashSet<Facts.FactId> used = [c.Stood.Fact, .. c.Checks.Select(k => k.Fact)];
        if (c.Stood.EndFact is { } end) used.Add(end);
        foreach (var other in c.Shared.OtherMicrophones.Where(o => used.Contains(o.InEffect)))
        {
            var text = other.Text(c.Register);
            yield return new(
                TraceVerdict.Undecided, char.ToUpperInvariant(text[0]) + text[1..], $"facts {other.Replacement}, {other.Target}");
        }
    }

    private static bool Touches(UnreadSaid u, TracedChain c)
    {
        if (u.IsOfPlace) return u.Instant < c.ToMs && u.Instant >= LastWord(c) && u.MayBeOf(c.Station, Parts(c));
        if (u.IsOfCheck)
        {
            return c.Placement is not null && (u.Station is null || u.Station == c.Station) && u.MayBeOf(c.Station, Parts(c))
                && u.Instant >= (c.Before?.Instant ?? (c.FromMs - c.Shared.Span.Ms))
                && u.Instant <= (c.After?.Instant ?? (c.ToMs + c.Shared.Span.Ms));
        }
        return u.Events.Count == 0 || u.Events.Contains(Facts.Subject.Event(c.Shared.Event.Id));
    }

    // What could be read and was said later than it says what stands there.
    private static long LastWord(TracedChain c)
    {
        if (c.Placement is { } placement) return placement.From;
        var placed = c.Shared.Deployment.Placements.Where(p => p.Station == c.Station && p.From < c.ToMs)
            .Select(p => p.Until is { } until && until <= c.FromMs ? until : p.From);
        var taken = c.Shared.Deployment.TakenIn.Where(t => t.Said.Station == c.Station)
            .Select(t => c.Register.Instant(t.Fact)).Where(at => at <= c.FromMs);
        return placed.Concat(taken).DefaultIfEmpty(long.MinValue).Max();
    }

    private static IReadOnlyCollection<string> Parts(TracedChain c) => c.Placement is { } placement
        ? placement.Devices
        : [.. c.Campaign.Chains.GetValueOrDefault(c.Station, []).Select(d => c.Register.EntriesOf(d)[0])];
}

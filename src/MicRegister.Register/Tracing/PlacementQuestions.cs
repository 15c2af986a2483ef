using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>Whether the right parts stood there as they should.</summary>
internal static class PlacementQuestions
{
    public static IEnumerable<TraceReason> NothingPlaced(TracedChain c)
    {
        if (c.Placement is not null) yield break;
        var isNothingKnown = true;
        foreach (var unread in UnreadQuestions.UnreadSteps(c))
        {
            isNothingKnown = false;
            yield return unread;
        }
        if (isNothingKnown) yield return new(TraceVerdict.NotValid, "Nothing stood there.", "no placement");
    }

    public static IEnumerable<TraceReason> PartOfEvent(TracedChain c)
    {
        if (c.Stood.From > c.Shared.Event.StartMs || c.Stood.Until < c.Shared.Event.StopMs)
        {
            var span = $"{Tracer.Time(c.FromMs)} to {Tracer.Time(c.ToMs)}";
            yield return new(TraceVerdict.Doubtful, $"It stood there during a part of the event only, {span}.", c.PlacedBy);
        }
    }

    public static IEnumerable<TraceReason> UnknownLabel(TracedChain c) => c.Stood.UnknownLabels
        .Select(l => new TraceReason(TraceVerdict.NotValid, $"A part carries the label {l}, and nobody knows what it is on.", c.PlacedBy));

    public static IEnumerable<TraceReason> NotRegistered(TracedChain c) => c.Chain.Where(d => d.Kind is null)
        .Select(d => new TraceReason(TraceVerdict.NotValid, $"{d.Id} is not in the register.", c.PlacedBy));

    public static IEnumerable<TraceReason> NoMicrophone(TracedChain c)
    {
        // What an unknown label is on may be the microphone.
        if (c.First(DeviceKind.Microphone) is null && c.Stood.UnknownLabels.Count == 0)
            yield return new(TraceVerdict.NotValid, "No microphone was placed there.", c.PlacedBy);
    }

    public static IEnumerable<TraceReason> NoChannel(TracedChain c)
    {
        if (c.First(DeviceKind.RecorderChannel) is null)
            yield return new(TraceVerdict.Doubtful, "No recorder channel was placed with it.", c.PlacedBy);
    }

    /// <summary>
    /// A part that nobody scanned may have stood there all the same. Where no chains were planned nobody says what belongs to one.
    /// </summary>
    public static IEnumerable<TraceReason> MissingPart(TracedChain c)
    {
        if (c.Campaign.Chains.IsEmpty || c.Stood.UnknownLabels.Count > 0) yield break;
        if (c.First(DeviceKind.Preamplifier) is null)
            yield return new(TraceVerdict.Doubtful, "No preamplifier was placed with it.", c.PlacedBy);
        if (c.Plan?.Mount is Campaigns.Mount.FlushPlate or Campaigns.Mount.InvertedPlate && c.First(DeviceKind.GroundPlate) is null)
        {
            yield return new(
                TraceVerdict.Doubtful, "No ground plate was placed with it, and its level is normalised as on one.", c.PlacedBy);
        }
    }

    public static IEnumerable<TraceReason> Contradiction(TracedChain c)
    {
        if (c.Shared.Contradictions.Count == 0) return [];
        var placed = c.Stood.Fact.ToString();
        return c.Shared.Contradictions.Where(f => f.Facts.Contains(placed))
            .Select(f => new TraceReason(TraceVerdict.Doubtful, f.Text, "facts " + string.Join(", ", f.Facts)));
    }

    public static IEnumerable<TraceReason> NotFlush(TracedChain c)
    {
        if (c.Stood.Said.IsFlush == false)
            yield return new(TraceVerdict.Doubtful, "The microphone was not flush with its plate.", c.PlacedBy);
    }
}

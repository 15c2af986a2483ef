using System.Collections.Frozen;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Tracing;

/// <summary>Something that was said of a campaign's chains or events and that this register cannot use.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Instant">When it holds from, in milliseconds since 1970.</param>
/// <param name="Station">The station, as far as that much can be read; null where it cannot.</param>
/// <param name="Devices">Ids of the devices that it is about; joined ones under the entry that was kept.</param>
/// <param name="Events">Events that it is about, as subjects.</param>
/// <param name="Why">Why it cannot be used.</param>
internal sealed record UnreadSaid(
    FactId Fact, string Kind, long Instant, string? Station, IReadOnlyList<string> Devices, IReadOnlyList<string> Events, string Why)
{
    private static readonly FrozenSet<string> OfStays = FactKinds.NamesOf<IStay>();
    private static readonly FrozenSet<string> OfEvents = FactKinds.NamesOf<IEventFact>();
    private static readonly FrozenSet<string> OfSteps = FactKinds.NamesOf<IOutdoorStep>();

    /// <summary>Whether it says of a chain where it stood.</summary>
    public bool IsOfPlace => OfStays.Contains(Kind) && OfSteps.Contains(Kind);

    /// <summary>Whether it says that a chain was checked.</summary>
    public bool IsOfCheck => OfStays.Contains(Kind) && !OfSteps.Contains(Kind);

    /// <summary>What cannot be used of a campaign, folded once a state.</summary>
    public static IReadOnlyList<UnreadSaid> Of(Register register, string campaign) => register.Memory.Of<Shelf<IReadOnlyList<UnreadSaid>>>()
        .Of(campaign, register.Version(Subject.Campaign(campaign)), id => Fold(register, Subject.Campaign(id)));

    /// <summary>Whether it may be about a chain at a station: by the station's name, or by a device of the chain.</summary>
    public bool MayBeOf(string station, IReadOnlyCollection<string> devices) =>
        Station == station || Devices.Any(devices.Contains) || (Station is null && Devices.Count == 0);

    private static List<UnreadSaid> Fold(Register register, string campaign)
    {
        var unread = new List<UnreadSaid>();
        foreach (var sequence in register.UnreadFacts)
        {
            if (!register.Counts(sequence) || register.Source.Read(sequence) is not { Body: UnreadBody body } fact) continue;
            if (!fact.Subjects.Contains(campaign) || !(OfStays.Contains(fact.Kind) || OfEvents.Contains(fact.Kind))) continue;
            unread.Add(new(
                fact.Id, fact.Kind, register.Instant(fact), FactText.BodyText(fact, "station"),
                [.. fact.Subjects.Where(Subject.IsDevice).Select(s => register.EntriesOf(Subject.Id(s))[0])],
                [.. fact.Subjects.Where(Subject.IsEvent)], body.Why.TrimEnd('.')));
        }
        return unread;
    }
}

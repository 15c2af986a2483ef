using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using MicRegister.Register.Labels;
using MicRegister.Register.People;

namespace MicRegister.Server.Accounts;

/// <summary>Looks once more, at the register's own door, whether a speaker may state what was decided.</summary>
internal static class Doorkeeper
{
    private static readonly string[] OwnClients = ["desk", "api", "command", "server", FactStamp.Import];

    /// <summary>Why a speaker may not state these facts now; null where they may.</summary>
    /// <param name="access">Who may do what.</param>
    /// <param name="register">The newest state.</param>
    /// <param name="speaker">Who speaks.</param>
    /// <param name="facts">What is stated.</param>
    /// <param name="isFromOutside">Whether the facts were made elsewhere, so that author, client and time are what a sender wrote.</param>
    public static Rejection? Refusal(Access access, Register.Register register, Speaker speaker, IReadOnlyList<Fact> facts, bool isFromOutside = false)
    {
        var held = access.Now(speaker);
        if (held == Duties.None) return Forbidden(speaker.Kind == Speaker.Phone ? "This phone may not speak any more. What it holds can be handed over at the desk; nothing of it is lost." : "Your sign-in is over. What you typed is still here: sign in again in another window, then say it again.");
        return facts.Count == 0 ? null : Refusals(access, register, speaker, facts, isFromOutside).FirstOrDefault(r => r is not null);
    }

    /// <summary>Why a speaker may not state each of these facts now; null for those that they may.</summary>
    public static IEnumerable<Rejection?> Refusals(Access access, Register.Register register, Speaker speaker, IReadOnlyList<Fact> facts, bool isFromOutside)
    {
        var held = access.Now(speaker);
        var batch = facts.DistinctBy(f => f.Id).ToDictionary(f => f.Id);
        return facts.Select(fact => Refusal(register, speaker, held, batch, fact, isFromOutside));
    }

    private static Rejection? Refusal(Register.Register register, Speaker speaker, Duties held, Dictionary<FactId, Fact> batch, Fact fact, bool isFromOutside)
    {
        var meant = Meant(register, batch, fact);
        // What nobody here has seen yet is for an owner to annul.
        var asked = meant is null ? Duties.Own : DutyTable.OfKind(meant.Kind);
        if (!held.Meets(asked)) return Forbidden($"To state '{fact.Kind.Replace('-', ' ')}' needs one of the duties {DutyWords.Of(asked)}; you hold {DutyWords.Of(held)}.");
        if (fact.Body is PersonNamed && !held.Meets(Duties.Own) && fact.Subjects.Any(s => s != Subject.Person(PersonState.IdOf(speaker.Person)))) return Forbidden("A person is named by themselves, or by an owner.");
        if (isFromOutside && !held.Meets(Duties.Own) && Foreign(speaker, fact) is { } foreign) return foreign;
        return speaker.Campaign is { } campaign && !IsOf(register, batch, meant!, campaign) ? Forbidden($"This phone speaks of the campaign {campaign} only.") : null;
    }

    // Facts of others come by an owner's hand: by an exchange, or handed over.
    private static Rejection? Foreign(Speaker speaker, Fact fact) =>
        fact.Author != PersonState.IdOf(speaker.Person) ? Forbidden($"Fact {fact.Id} is by another person ({fact.Author}); yours is {PersonState.IdOf(speaker.Person)}. Facts of others are sent in by an owner.")
        : OwnClients.Contains(fact.Client) ? Forbidden($"The client '{fact.Client}' is this server's own name; take another, such as {speaker.Client}.")
        : null;

    // An annulment is of the first fact down its targets that is none itself; null where that is not here.
    private static Fact? Meant(Register.Register register, Dictionary<FactId, Fact> batch, Fact fact)
    {
        for (var steps = 0; fact.Body is FactAnnulled annulled && steps < 1000; steps++)
        {
            if (!FactId.TryParse(annulled.Target, out var id)) return null;
            if (batch.TryGetValue(id, out var near)) fact = near;
            else if (register.Find(id) is var at and > 0) fact = register.Source.Read(at);
            else return null;
        }
        return fact.Body is FactAnnulled ? null : fact;
    }

    // A phone speaks of its campaign and of the devices in it: those that are planned, and those that were placed or checked there.
    private static bool IsOf(Register.Register register, Dictionary<FactId, Fact> batch, Fact fact, string campaign)
    {
        if (fact.Subjects.Any(s => Subject.IsCampaign(s) && Subject.Id(s) != campaign)) return false;
        if (fact.Subjects.Any(s => Subject.IsEvent(s) && s.Contains('.', StringComparison.Ordinal) && !Subject.Id(s).StartsWith(campaign + ".", StringComparison.Ordinal))) return false;
        if (fact.Body is PersonNamed) return true;
        // What is stated of the campaign itself may bring in a device that nobody planned: that is flagged, never refused.
        if (fact.Body is ChainPlaced or ChainPlacedBriefly or ChainTakenIn or ChainChecked or ChainCheckedBriefly or ToneNoted or PhotoTaken or WeatherNoted or EventRecorded or EventHappened or ChainsCompared or IncidenceStated or RecorderClockSet or RecorderTimeChecked or HourChosen) return fact.Subjects.Contains(Subject.Campaign(campaign));
        if (fact.Body is LabelBound { Station: not null }) return !fact.Subjects.Any(Subject.IsDevice) && fact.Subjects.Contains(Subject.Campaign(campaign));
        var devices = fact.Subjects.Where(Subject.IsDevice).ToList();
        if (devices.Count == 0) return false;
        var planned = register.Campaign(campaign)?.Devices.ToHashSet(StringComparer.Ordinal) ?? [];
        return devices.All(d => register.EntriesOf(Subject.Id(d)).Any(planned.Contains) || batch.Values.Any(f => f.Body is ChainPlaced or ChainTakenIn or ChainChecked && f.Subjects.Contains(d)) || WasThere(register, Subject.Id(d), campaign));
    }

    private static bool WasThere(Register.Register register, string device, string campaign) => register.EntriesOf(device).SelectMany(e => register.Facts(Subject.Device(e)))
        .Any(s => (register.IsOfKind(s, "chain-placed") || register.IsOfKind(s, "chain-checked")) && register.Source.Read(s).Subjects.Contains(Subject.Campaign(campaign)));

    private static Rejection Forbidden(string text) => new(RejectionSort.Forbidden, text);
}

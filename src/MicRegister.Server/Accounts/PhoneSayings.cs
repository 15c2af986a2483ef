using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;

namespace MicRegister.Server.Accounts;

/// <summary>
/// What a phone may state, beside what the duties say: it speaks of its campaign, of the devices that are planned in it, and of those
/// that nobody planned a short list.
/// </summary>
/// <param name="register">The newest state.</param>
/// <param name="batch">What is stated together.</param>
/// <param name="campaign">The phone's campaign.</param>
internal sealed class PhoneSayings(Register.Register register, IReadOnlyDictionary<FactId, Fact> batch, string campaign)
{
    private readonly string _campaign = Subject.Campaign(campaign);
    private HashSet<string>? _planned;

    /// <summary>Why a phone may not state a fact; null where it may.</summary>
    /// <param name="fact">What it states.</param>
    /// <param name="meant">The same, or what an annulment is of in the end; never an annulment.</param>
    public Rejection? Refusal(Fact fact, Fact meant)
    {
        if (Refusal(meant) is { } refusal) return refusal;
        // An annulment that named other things than its target would stand among what is said of those.
        if (fact.Body is FactAnnulled && fact.Subjects.Any(s => !meant.Subjects.Contains(s)))
            return Forbidden("An annulment is of what its target is of.");
        // What is replaced does not count any more: that asks for the same as annulling it.
        if (meant.Replaces is not { } replaced) return null;
        return Find(replaced) is { } target ? Refusal(target) : Forbidden("What this phone replaces is not here yet.");
    }

    private Rejection? Refusal(Fact fact)
    {
        var other = Forbidden($"This phone speaks of the campaign {campaign} only.");
        if (!IsOfNoOther(fact)) return other;
        var reach = ReachOf(fact.Body);
        if (reach == PhoneReach.Nothing) return Forbidden($"A phone does not state '{fact.Kind.Replace('-', ' ')}': that is for the desk.");
        if (reach == PhoneReach.OwnPerson) return null;
        // What is stated of the campaign itself may bring in a device that nobody planned: that is flagged, never refused.
        if (reach == PhoneReach.Campaign) return fact.Subjects.Contains(_campaign) ? null : other;
        var devices = fact.Subjects.Where(Subject.IsDevice).Select(Subject.Id).ToList();
        if (devices.Count == 0) return other;
        var strangers = devices.Where(d => !IsPlanned(d)).ToList();
        if (strangers.FirstOrDefault(d => !WasThere(d, fact.Author)) is { } foreign)
            return Forbidden($"{Name(foreign)} is not planned in {campaign} and never was there: this phone may not speak of it.");
        if (strangers.Count == 0 || reach == PhoneReach.DevicesThere) return null;
        return Forbidden(
            $"{Name(strangers[0])} is not planned in {campaign}. Of such a device a phone states that it was placed, checked "
            + "or taken in, that it is damaged, does not work, is lost or out of service, notes and photos; "
            + "all else is stated at the desk.");
    }

    // What nobody here can read is held to what holds for most: it may be of planned devices.
    private static PhoneReach ReachOf(FactBody body) => body is UnreadBody ? PhoneReach.PlannedDevices : FactKinds.Of(body).Phone(body);

    // A label at a station is of no device, and an event of a campaign has its name before the dot.
    private bool IsOfNoOther(Fact fact) =>
        fact.Subjects.All(s => !Subject.IsCampaign(s) || s == _campaign)
        && fact.Subjects.Where(Subject.IsEvent)
            .All(s => !s.Contains('.') || Subject.Id(s).StartsWith(campaign + ".", StringComparison.Ordinal))
        && (fact.Body is not LabelBound { Station: not null } || !fact.Subjects.Any(Subject.IsDevice));

    private bool IsPlanned(string device) =>
        register.EntriesOf(device).Any((_planned ??= [.. register.Campaign(campaign)?.Devices ?? []]).Contains);

    // By what is here already, or by what the same crew states together with it.
    private bool WasThere(string device, string author) => register.EntriesOf(device).Any(e =>
        batch.Values.Any(f => f.Author == author && IsStay(f, Subject.Device(e)))
        || register.Facts(Subject.Device(e)).Any(s => IsStayKind(s) && IsStay(register.Source.Read(s), Subject.Device(e))));

    private bool IsStayKind(int sequence) =>
        register.IsOfKind(sequence, "chain-placed")
        || register.IsOfKind(sequence, "chain-checked")
        || register.IsOfKind(sequence, "chain-taken-in");

    private bool IsStay(Fact fact, string device) =>
        fact.Body is ChainPlaced or ChainPlacedBriefly or ChainTakenIn or ChainChecked or ChainCheckedBriefly
        && fact.Subjects.Contains(device) && fact.Subjects.Contains(_campaign) && IsOfNoOther(fact);

    private Fact? Find(FactId id) =>
        batch.TryGetValue(id, out var near) ? near : register.Find(id) is var at and > 0 ? register.Source.Read(at) : null;

    private string Name(string device) => register.Device(device)?.Name ?? device;

    private static Rejection Forbidden(string text) => new(RejectionSort.Forbidden, text);
}

using MicRegister.Register;
using MicRegister.Register.Campaigns;
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
/// <param name="passed">Those of the batch that nothing else speaks against.</param>
/// <param name="campaign">The phone's campaign.</param>
internal sealed class PhoneSayings(
    Register.Register register, IReadOnlyDictionary<FactId, Fact> batch, IReadOnlyList<Fact> passed, string campaign)
{
    private static readonly IReadOnlySet<string> StayKinds = FactKinds.NamesOf<IStay>();

    private readonly string _campaign = Subject.Campaign(campaign);
    private HashSet<string>? _planned;
    private IReadOnlyList<Fact>? _stays;

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
        return Doorkeeper.Find(register, batch, replaced) is { } target
            ? Refusal(target)
            : Forbidden("What this phone replaces is not here yet.");
    }

    private Rejection? Refusal(Fact fact)
    {
        var other = Forbidden($"This phone speaks of the campaign {campaign} only.");
        if (!IsOfNoOther(fact)) return other;
        var reach = ReachOf(fact);
        if (reach == PhoneReach.Nothing) return Forbidden($"A phone does not state '{fact.Kind.Replace('-', ' ')}': that is for the desk.");
        if (reach == PhoneReach.OwnPerson) return null;
        // What is stated of the campaign itself may bring in a device that nobody planned: that is flagged, never refused.
        if (reach == PhoneReach.Campaign) return fact.Subjects.Contains(_campaign) ? null : other;
        var devices = fact.Subjects.Where(Subject.IsDevice).Select(Subject.Id).ToList();
        if (devices.Count == 0) return other;
        var strangers = devices.Where(d => !IsPlanned(d)).ToList();
        if (strangers.FirstOrDefault(d => !WasThere(d)) is { } foreign)
            return Forbidden($"{Name(foreign)} is not planned in {campaign} and never was there: this phone may not speak of it.");
        if (strangers.Count == 0 || reach == PhoneReach.DevicesThere) return null;
        return Forbidden(
            $"{Name(strangers[0])} is not planned in {campaign}. Of such a device a phone states that it was placed, checked "
            + "or taken in, that it is damaged, does not work, is lost or out of service, notes and photos; "
            + "all else is stated at the desk.");
    }

    // What nobody here can read is held to what its kind is mostly of, and to planned devices where that asks what the body says.
    private static PhoneReach ReachOf(Fact fact) =>
        fact.Body is not UnreadBody ? FactKinds.Of(fact.Body).Phone(fact.Body)
        : FactKinds.Find(fact.Kind) is { } kind && kind.Phone(kind.Example) is var reach and not PhoneReach.DevicesThere ? reach
        : PhoneReach.PlannedDevices;

    // A label at a station is of no device, and an event of a campaign has its name before the dot.
    private bool IsOfNoOther(Fact fact) =>
        fact.Subjects.All(s => !Subject.IsCampaign(s) || s == _campaign)
        && fact.Subjects.Where(Subject.IsEvent)
            .All(s => !s.Contains('.') || Subject.Id(s).StartsWith(campaign + ".", StringComparison.Ordinal))
        && (fact.Body is not LabelBound { Station: not null } || !fact.Subjects.Any(Subject.IsDevice));

    private bool IsPlanned(string device) =>
        register.EntriesOf(device).Any((_planned ??= [.. register.Campaign(campaign)?.Devices ?? []]).Contains);

    // By what is here already, or by what the same crew states together with it.
    private bool WasThere(string device) => register.EntriesOf(device).Select(Subject.Device).Any(e =>
        Stays().Any(f => IsStay(f, e))
        || register.Facts(e).Any(s => StayKinds.Any(k => register.IsOfKind(s, k)) && IsStay(register.Source.Read(s), e)));

    // A stay is of the campaign, so that none is asked for while they are gathered, but for what one replaces.
    private IReadOnlyList<Fact> Stays()
    {
        if (_stays is not null) return _stays;
        _stays = [];
        return _stays = [.. passed.Where(f => f.Body is IStay && Refusal(f, f) is null)];
    }

    private bool IsStay(Fact fact, string device) =>
        fact.Body is IStay && fact.Subjects.Contains(device) && fact.Subjects.Contains(_campaign) && IsOfNoOther(fact);

    private string Name(string device) => register.Device(device)?.Name ?? device;

    private static Rejection Forbidden(string text) => new(RejectionSort.Forbidden, text);
}

using System.Collections.Frozen;
using MicRegister.Register;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.People;

namespace MicRegister.Server.Accounts;

/// <summary>Looks once more, at the register's own door, whether a speaker may state what was decided.</summary>
internal static class Doorkeeper
{
    private static readonly FrozenSet<string> NameKinds = FactKinds.NamesOf<PersonNamed>();
    private static readonly string[] OwnClients = ["desk", "api", "command", "server", FactStamp.Import];

    /// <summary>Why a speaker may not state these facts now; null where they may.</summary>
    /// <param name="access">Who may do what.</param>
    /// <param name="register">The newest state.</param>
    /// <param name="speaker">Who speaks.</param>
    /// <param name="facts">What is stated.</param>
    /// <param name="isFromOutside">Whether the facts were made elsewhere, so that author, client and time are what a sender wrote.</param>
    public static Rejection? Refusal(
        Access access, Register.Register register, Speaker speaker, IReadOnlyList<Fact> facts, bool isFromOutside = false)
    {
        var held = access.Now(speaker);
        if (held == Duties.None)
            return Forbidden(speaker.Kind == Speaker.Phone
                ? "This phone may not speak any more. "
                    + "What it holds can be handed over at the desk; nothing of it is lost."
                : "Your sign-in is over. What you typed is still here: sign in again in another window, then say it again.");
        return facts.Count == 0 ? null : Refusals(access, register, speaker, facts, isFromOutside).FirstOrDefault(r => r is not null);
    }

    /// <summary>Why a speaker may not state each of these facts now; null for those that they may.</summary>
    public static IEnumerable<Rejection?> Refusals(
        Access access, Register.Register register, Speaker speaker, IReadOnlyList<Fact> facts, bool isFromOutside)
    {
        var held = access.Now(speaker);
        var batch = facts.DistinctBy(f => f.Id).ToDictionary(f => f.Id);
        var others = facts.Select(f => Refusal(register, speaker, held, batch, f, isFromOutside)).ToList();
        if (speaker.Campaign is not { } campaign) return others;
        // What is refused anyway is no witness of where a device was.
        var phone = new PhoneSayings(register, batch, [.. facts.Where((_, i) => others[i] is null)], campaign);
        return facts.Select((fact, i) => others[i] ?? phone.Refusal(fact, Meant(register, batch, fact)!));
    }

    private static Rejection? Refusal(
        Register.Register register, Speaker speaker, Duties held, Dictionary<FactId, Fact> batch, Fact fact, bool isFromOutside)
    {
        var meant = Meant(register, batch, fact);
        // What nobody here has seen yet is for an owner to annul.
        var asked = meant is null ? Duties.Own : DutyTable.OfKind(meant.Kind);
        if (!held.Meets(asked))
            return Forbidden($"To state '{fact.Kind.Replace('-', ' ')}' needs one of the duties {DutyWords.Of(asked)}; "
                + $"you hold {DutyWords.Of(held)}.");
        if (OtherMicrophone(register, speaker, batch, fact) is { } other) return other;
        if (held.Meets(Duties.Own)) return null;
        // By its kind: what a newer version wrote of a name is one too.
        Fact?[] touched = [fact, meant, Replaced(register, batch, meant!)];
        if (touched.Any(f => f is not null && NameKinds.Contains(f.Kind) && !IsOf(f, speaker)))
            return Forbidden("A person is named by themselves, or by an owner.");
        return isFromOutside ? Foreign(speaker, fact) : null;
    }

    // What a phone holds is never refused for it, nor what others said and an owner sends in: that becomes a finding.
    private static Rejection? OtherMicrophone(Register.Register register, Speaker speaker, Dictionary<FactId, Fact> batch, Fact fact) =>
        speaker.Kind != Speaker.Phone && fact.Author == PersonState.IdOf(speaker.Person) && Replaced(register, batch, fact) is { } target
            ? OtherMicrophones.Refusal(register, target, fact)
            : null;

    private static bool IsOf(Fact named, Speaker speaker) =>
        named.Subjects.All(s => s == Subject.Person(PersonState.IdOf(speaker.Person)));

    private static Fact? Replaced(Register.Register register, Dictionary<FactId, Fact> batch, Fact fact) =>
        fact.Replaces is { } id ? Find(register, batch, id) : null;

    // Facts of others come by an owner's hand: by an exchange, or handed over.
    private static Rejection? Foreign(Speaker speaker, Fact fact) =>
        fact.Author != PersonState.IdOf(speaker.Person)
            ? Forbidden($"Fact {fact.Id} is by another person ({fact.Author}); yours is {PersonState.IdOf(speaker.Person)}. "
                + "Facts of others are sent in by an owner.")
        : OwnClients.Contains(fact.Client)
            ? Forbidden($"The client '{fact.Client}' is this server's own name; take another, such as {speaker.Client}.")
        : null;

    // An annulment is of the first fact down its targets that is none itself; null where that is not here.
    private static Fact? Meant(Register.Register register, Dictionary<FactId, Fact> batch, Fact fact)
    {
        for (var steps = 0; fact.Body is FactAnnulled annulled && steps < 1000; steps++)
        {
            if (!FactId.TryParse(annulled.Target, out var id) || Find(register, batch, id) is not { } target) return null;
            fact = target;
        }
        return fact.Body is FactAnnulled ? null : fact;
    }

    /// <summary>A fact that is stated together with others, or here already.</summary>
    internal static Fact? Find(Register.Register register, IReadOnlyDictionary<FactId, Fact> batch, FactId id) =>
        batch.TryGetValue(id, out var near) ? near : register.Find(id) is var at and > 0 ? register.Source.Read(at) : null;

    private static Rejection Forbidden(string text) => new(RejectionSort.Forbidden, text);
}

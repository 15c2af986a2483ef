using MicRegister.Register;
using MicRegister.Register.Facts;
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
        return facts.Select(fact => Refusal(register, speaker, held, batch, fact, isFromOutside));
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
        if (fact.Body is PersonNamed && !held.Meets(Duties.Own)
            && fact.Subjects.Any(s => s != Subject.Person(PersonState.IdOf(speaker.Person))))
            return Forbidden("A person is named by themselves, or by an owner.");
        if (isFromOutside && !held.Meets(Duties.Own) && Foreign(speaker, fact) is { } foreign) return foreign;
        return speaker.Campaign is { } campaign ? new PhoneSayings(register, batch, campaign).Refusal(fact, meant!) : null;
    }

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
            if (!FactId.TryParse(annulled.Target, out var id)) return null;
            if (batch.TryGetValue(id, out var near)) fact = near;
            else if (register.Find(id) is var at and > 0) fact = register.Source.Read(at);
            else return null;
        }
        return fact.Body is FactAnnulled ? null : fact;
    }

    private static Rejection Forbidden(string text) => new(RejectionSort.Forbidden, text);
}

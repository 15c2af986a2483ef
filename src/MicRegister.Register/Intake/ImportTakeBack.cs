using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>What becomes of an import that is taken back.</summary>
/// <param name="Import">The file that was taken over.</param>
/// <param name="IsTakenBack">Whether it was taken back already; what stayed then can go later.</param>
/// <param name="Why">Why nothing of it can be taken back; null where something can.</param>
/// <param name="Goes">Facts that nobody built upon: they will not count any more.</param>
/// <param name="Stays">Facts that somebody built upon.</param>
/// <param name="Gone">How many of its facts do not count already.</param>
public sealed record TakeBackPlan(
    TakenImport Import, bool IsTakenBack, string? Why, IReadOnlyList<Fact> Goes, IReadOnlyList<StayingFact> Stays, int Gone);

/// <summary>A fact that stays, since somebody built upon it.</summary>
/// <param name="Fact">The fact.</param>
/// <param name="About">The subject that was built upon.</param>
/// <param name="On">The first facts from elsewhere that stand on it, oldest first; at most <see cref="MostShown"/>.</param>
/// <param name="Count">How many there are.</param>
public sealed record StayingFact(Fact Fact, string About, IReadOnlyList<Fact> On, int Count)
{
    /// <summary>How many of those that stand on a fact are named.</summary>
    public const int MostShown = 3;
}

/// <summary>Takes back what a file brought, as one act: what nobody built upon is annulled, the rest is named.</summary>
/// <remarks>
/// A fact is a statement about its first subject and names the others. Whoever said something of a subject after the import, or names
/// it, built upon all that the import said of it; and what stays keeps what it names. What was done or seen in a campaign is built upon by
/// what was said later of its devices there. Annulments of the import's own facts, and of what
/// was said later, build upon nothing.
/// </remarks>
public static class ImportTakeBack
{
    private const int MostReason = 2000;

    /// <summary>What would become of an import; null where there is none of that id.</summary>
    /// <param name="register">What is known.</param>
    /// <param name="import">Id of the fact that a person took the file over.</param>
    public static TakeBackPlan? Plan(Register register, string import)
    {
        if (Find(register, import) is not { } taken) return null;
        var isTakenBack = !register.Counts(taken.Sequence);
        if (!taken.Agrees(register))
        {
            return new(taken, isTakenBack,
                "The facts before it in this log are not those that were counted when the file was taken over, so that it cannot be told "
                    + "which ones it brought. Annul what is wrong one by one.", [], [], 0);
        }
        List<int> counting = [.. Enumerable.Range(taken.First, taken.Accepted.Facts).Where(register.Counts)];
        var facts = counting.ConvertAll(register.Source.Read);
        var builders = BuildersOf(register, taken, facts);
        var goes = new List<Fact>();
        var stays = new List<StayingFact>();
        foreach (var fact in facts)
        {
            if (builders.GetValueOrDefault(fact.Subjects[0]) is not { } on) goes.Add(fact);
            else if (fact.Body is IObservation && Subject.IsCampaign(fact.Subjects[0]))
            {
                if (on.Where(s => SpeaksOfDevicesOf(register.Source.Read(s), fact))
                    .ToList() is { Count: > 0 } there) stays.Add(Staying(fact, there));
                else goes.Add(fact);
            }
            else if (fact.Subjects[0] != Subject.TheRegister) stays.Add(Staying(fact, on));
            else if (on.Where(s => register.IsOfKind(s, fact.Kind)).ToList() is { Count: > 0 } same) stays.Add(Staying(fact, same));
            else goes.Add(fact);
        }
        return new(taken, isTakenBack, goes.Count > 0 ? null : facts.Count == 0
                ? "None of its facts counts any more."
                : "Somebody built upon all that it brought.",
            goes, stays, taken.Accepted.Facts - facts.Count);

        StayingFact Staying(Fact fact, IReadOnlyCollection<int> on) => new(
            fact, fact.Subjects[0], [.. on.Order().Take(StayingFact.MostShown).Select(register.Source.Read)], on.Count);
    }

    /// <summary>Annuls what nobody built upon, and that the file was taken over.</summary>
    /// <param name="register">What is known.</param>
    /// <param name="saying">Who says so.</param>
    /// <param name="import">Id of the fact that a person took the file over.</param>
    /// <param name="reason">Why; null says only that the import was taken back.</param>
    public static Result<IReadOnlyList<Fact>> TakeBack(Register register, Saying saying, string import, string? reason)
    {
        if (Plan(register, import) is not { } plan) return Missing(import);
        if (plan.Why is { } not) return new Rejection(RejectionSort.Conflict, not);
        if (reason?.Length > MostReason)
            return Saying.Invalid($"Reason has {reason.Length} characters; at most {MostReason} are allowed.");
        if (saying.Changed(register, Subject.TheRegister) is { } changed) return changed;
        var why = string.IsNullOrWhiteSpace(reason) ? "" : ": " + reason.Trim();
        var words = $"the import of {plan.Import.Accepted.File} was taken back{why}";
        // Said once more where it was taken back before: all that one act annuls is known by it.
        return new Result<IReadOnlyList<Fact>>.Accepted(
            [.. plan.Goes.Append(plan.Import.Fact).Select(f => Annulment(saying.Stamp, f, words))]);
    }

    /// <summary>Takes the newest taking back of an import back: all that it annulled counts again.</summary>
    /// <param name="register">What is known.</param>
    /// <param name="saying">Who says so.</param>
    /// <param name="import">Id of the fact that a person took the file over.</param>
    public static Result<IReadOnlyList<Fact>> Undo(Register register, Saying saying, string import)
    {
        if (Find(register, import) is not { } taken) return Missing(import);
        if (register.TakenOutBy(taken.Fact.Id) is not { } by || Read(register, by) is not { Body: FactAnnulled } act)
            return new Rejection(RejectionSort.Conflict, "That import was not taken back.");
        if (!taken.Agrees(register)) return new Rejection(RejectionSort.Conflict, "It cannot be told which facts that import brought.");
        if (saying.Changed(register, Subject.TheRegister) is { } changed) return changed;
        var undone = Enumerable.Range(taken.First, taken.Accepted.Facts).Append(taken.Sequence)
            .SelectMany(sequence => AnnulmentsOf(register, register.Source.Read(sequence).Id))
            .Where(annulment => IsOfAct(annulment, act));
        return new Result<IReadOnlyList<Fact>>.Accepted(
            [.. undone.Select(a => Annulment(saying.Stamp, a, $"{taken.Accepted.File} counts as taken over again"))]);
    }

    /// <summary>Annulments that count and point at a fact.</summary>
    internal static IEnumerable<Fact> AnnulmentsOf(Register register, FactId fact)
    {
        for (var link = register.Corrections.PointersAt.GetValueOrDefault(fact); link is not null; link = link.Next)
        {
            if (register.Counts(link.Sequence) && register.Source.Read(link.Sequence) is { Body: FactAnnulled } annulment)
                yield return annulment;
        }
    }

    /// <summary>Whether two annulments were said in one act.</summary>
    internal static bool IsOfAct(Fact annulment, Fact other) =>
        (annulment.Occurred, annulment.Author, annulment.Client, annulment.Counter)
            == (other.Occurred, other.Author, other.Client, other.Counter);

    private static Fact Annulment(FactStamp stamp, Fact fact, string reason) =>
        FactText.WriteDerived(stamp, new FactAnnulled(fact.Id.ToString(), reason), fact.Subjects);

    private static bool SpeaksOfDevicesOf(Fact later, Fact fact) =>
        later.Subjects.Contains(fact.Subjects[0]) && later.Subjects.Any(s => Subject.IsDevice(s) && fact.Subjects.Contains(s));

    // By subject, the facts from elsewhere that stand on what the import said of it.
    private static Dictionary<string, SortedSet<int>> BuildersOf(Register register, TakenImport taken, IReadOnlyList<Fact> own)
    {
        var builders = new Dictionary<string, SortedSet<int>>(StringComparer.Ordinal);
        var subjects = own.SelectMany(f => f.Subjects).ToHashSet(StringComparer.Ordinal);
        foreach (var subject in subjects)
        {
            Add(subject, register.Facts(subject).Where(s => s > taken.Last && s != taken.Sequence && Builds(register, taken, s)));
        }
        var names = new NamedSubjects(subjects, own);
        for (var sequence = taken.Last + 1; sequence <= register.Count; sequence++)
        {
            // What comes by the hundred thousand names all that it speaks of as subjects.
            if (FactKinds.IsTrafficKind(register.Catalog.Kind(sequence)) || !Builds(register, taken, sequence)) continue;
            foreach (var subject in names.In(register.Source.Read(sequence))) Add(subject, [sequence]);
        }
        // What stays keeps what it names: a chain its devices, a campaign its profile.
        var open = new Queue<string>(builders.Keys);
        var about = own.ToLookup(f => f.Subjects[0], StringComparer.Ordinal);
        var kept = new HashSet<string>(StringComparer.Ordinal);
        while (open.TryDequeue(out var subject))
        {
            if (!kept.Add(subject) || subject == Subject.TheRegister) continue;
            foreach (var named in about[subject].SelectMany(f => f.Subjects.Concat(names.In(f))).Distinct())
            {
                if (kept.Contains(named) || named == Subject.TheRegister) continue;
                Add(named, builders[subject]);
                open.Enqueue(named);
            }
        }
        return builders;

        void Add(string subject, IEnumerable<int> by)
        {
            SortedSet<int> added = [.. by];
            if (added.Count == 0) return;
            if (builders.TryGetValue(subject, out var all)) all.UnionWith(added);
            else builders[subject] = added;
        }
    }

    // Whether a fact from elsewhere builds upon something. Annulments say only that another fact does not count: one of the import's
    // own facts or of a later one takes nothing for granted; one of an earlier fact may have been said because of the import.
    private static bool Builds(Register register, TakenImport taken, int sequence)
    {
        if (!register.Counts(sequence)) return false;
        if (!register.IsOfKind(sequence, FactKinds.Annulled)) return true;
        var fact = register.Source.Read(sequence);
        var at = sequence;
        for (var steps = 0; fact.Body is FactAnnulled annulled; steps++)
        {
            at = FactId.TryParse(annulled.Target, out var id) && steps < 1000 ? register.Find(id) : 0;
            if (at == 0) return false;
            fact = register.Source.Read(at);
        }
        return at < taken.First;
    }

    private static TakenImport? Find(Register register, string import) =>
        FactId.TryParse(import, out var id) ? register.TakenImports().FirstOrDefault(i => i.Fact.Id == id) : null;

    private static Fact? Read(Register register, FactId id) =>
        register.Find(id) is var sequence and > 0 ? register.Source.Read(sequence) : null;

    private static Rejection Missing(string import) => new(RejectionSort.NotFound, $"There is no import {import}.");
}

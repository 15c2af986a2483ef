using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Register.People;

namespace MicRegister.Server.Api;

/// <summary>A file that was taken over, in a list.</summary>
/// <param name="Id">Id of the fact that it was taken over.</param>
/// <param name="File">Its name.</param>
/// <param name="Sha256">Of its bytes.</param>
/// <param name="At">When it was taken over.</param>
/// <param name="Person">Who answers for it.</param>
/// <param name="Rows">Its rows.</param>
/// <param name="Facts">How many facts it brought.</param>
/// <param name="AsOf">Day as of which it speaks; null where nobody knows.</param>
/// <param name="TakenBack">Whether and when, by whom and why it was taken back; null where it was not.</param>
public sealed record ImportRow(
    string Id, string File, string Sha256, string At, string Person, int Rows, int Facts, DateOnly? AsOf, TakenBackRow? TakenBack)
{
    /// <summary>Name of the answers that are kept with it; null where none are.</summary>
    public string? Legend { get; private init; }

    /// <summary>All files that a register took over, the newest first.</summary>
    public static IReadOnlyList<ImportRow> All(Register.Register register) =>
        [.. register.TakenImports().Reverse().Select(i => Of(register, i))];

    /// <summary>One of them.</summary>
    public static ImportRow Of(Register.Register register, TakenImport import)
    {
        var (fact, accepted) = (import.Fact, import.Accepted);
        return new(
            fact.Id.ToString(), accepted.File, accepted.Sha256, fact.Occurred.ToString(), NameOf(register, fact), accepted.Rows,
            accepted.Facts, accepted.AsOf,
            register.TakenOutBy(fact.Id) is { } by && register.Find(by) is var at and > 0 && register.Source.Read(at) is var taken
                ? new(taken.Occurred.ToString(), NameOf(register, taken), (taken.Body as FactAnnulled)?.Reason)
                : null)
        { Legend = accepted.Legend?.Name };
    }

    private static string NameOf(Register.Register register, Fact fact) => register.Person(fact.Author)?.Name ?? fact.Author;
}

/// <param name="At">When.</param>
/// <param name="Person">By whom.</param>
/// <param name="Reason">Why.</param>
public sealed record TakenBackRow(string At, string Person, string? Reason);

/// <summary>What would become of an import that is taken back.</summary>
/// <param name="Import">The import.</param>
/// <param name="Why">Why nothing can be taken back; null where something can.</param>
/// <param name="Annuls">How many facts would not count any more.</param>
/// <param name="Facts">The first of them.</param>
/// <param name="Gone">How many of its facts do not count already.</param>
/// <param name="Stay">How many facts stay, since somebody built upon them.</param>
/// <param name="Stays">The first of them, with what stands on each.</param>
public sealed record TakeBackView(
    ImportRow Import, string? Why, int Annuls, IReadOnlyList<FactRow> Facts, int Gone, int Stay, IReadOnlyList<StayingRow> Stays)
{
    /// <summary>How many facts are named of each sort.</summary>
    public const int MostNamed = 1000;

    /// <summary>All of it in a sentence.</summary>
    public string Summary { get; private init; } = "";

    public static TakeBackView Of(Register.Register register, TakeBackPlan plan)
    {
        return new(
            ImportRow.Of(register, plan.Import), plan.Why, plan.Goes.Count, [.. plan.Goes.Take(MostNamed).Select(Row)], plan.Gone,
            plan.Stays.Count,
            [.. plan.Stays.Take(MostNamed).Select(s => new StayingRow(Row(s.Fact), s.About, s.Count, [.. s.On.Select(Row)]))])
        {
            Summary = InWords(plan),
        };

        FactRow Row(Fact fact) => FactRow.Of(register, register.Find(fact.Id));
    }

    private static string InWords(TakeBackPlan plan) => plan.Why
        ?? $"{Counted(plan.Goes.Count, "fact")} would not count any more, {plan.Stays.Count} would stay"
            + (plan.Gone > 0 ? $", {plan.Gone} do not count already." : ".");

    private static string Counted(int n, string what) => n == 1 ? $"1 {what}" : $"{n} {what}s";
}

/// <summary>A fact that stays.</summary>
/// <param name="Fact">The fact.</param>
/// <param name="About">Subject that was built upon.</param>
/// <param name="Count">How many facts stand on it.</param>
/// <param name="On">The first of them.</param>
public sealed record StayingRow(FactRow Fact, string About, int Count, IReadOnlyList<FactRow> On);

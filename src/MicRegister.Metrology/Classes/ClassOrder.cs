namespace MicRegister.Metrology.Classes;

/// <summary>The one order of classes: whether a class suffices where a least one is asked.</summary>
public static class ClassOrder
{
    /// <summary>Holds a class against the least one.</summary>
    /// <param name="has">The class as it was stated.</param>
    /// <param name="least">What is asked; of the same sort of instrument.</param>
    /// <param name="isCorrectionStated">
    /// Whether the maker's correction for static pressure is stated, which classes with a letter need.
    /// </param>
    /// <returns>
    /// Of a class whose edition was not stated, what holds for every edition that it can be of; where that differs, undecided. Between
    /// editions of one line a wider class never suffices and a tighter one does (own reading); an equal one does where it is of a later
    /// edition and the rule takes those. Standards of another line are not compared. A limited class (letter L) does not stand for one
    /// without a letter.
    /// </returns>
    /// <exception cref="ArgumentException">Both are of different sorts of instruments.</exception>
    public static ClassVerdict Judge(StatedClass has, LeastClass least, bool isCorrectionStated)
    {
        if (has.Sort != least.Stated.Sort)
            throw new ArgumentException($"A {has.Sort.Words} is not a {least.Stated.Sort.Words}.", nameof(has));
        List<ClassVerdict> all = [.. has.Editions.Select(e => OfEdition(has, e, least))];
        var first = all[0];
        if (all.Exists(v => v.Answer != first.Answer))
        {
            return new(ClassAnswer.Undecided, "its edition is not stated, and it depends on it: "
                + string.Join("; ", has.Editions.Zip(all, (e, v) => $"of {e.Text} it {Word(v.Answer)}")));
        }
        var verdict = all.Count == 1 ? first
            : new(
                first.Answer, $"its edition is not stated, and of each it can be of it {Word(first.Answer)}",
                all.Exists(v => v.IsOwnReading));
        return verdict.Answer == ClassAnswer.Meets && has.Letter is { } letter && !isCorrectionStated
            ? new(ClassAnswer.Undecided, $"the letter {letter} asks for the maker's correction for static pressure, and none is stated")
            : verdict;
    }

    private static ClassVerdict OfEdition(StatedClass has, ClassEdition edition, LeastClass least)
    {
        var (asked, isSame) = (least.Edition, edition == least.Edition);
        if (edition.Line != asked.Line)
            return new(ClassAnswer.Undecided, $"{edition.Text} and {asked.Text} are different standards, which are not compared here");
        if (has.Rank > least.Stated.Rank)
            return new(ClassAnswer.Misses, $"{edition.Word} {has.Name} is wider than {asked.Word} {least.Stated.Name}", !isSame);
        if (has.Letter == 'L' && least.Stated.Letter is null)
            return new(ClassAnswer.Undecided, "the letter L limits what it holds for, and a class without a letter is asked");
        if (isSame) return new(ClassAnswer.Meets, "it is at least that class of that edition");
        if (least.OrLater && edition.Year > asked.Year)
            return new(ClassAnswer.Meets, $"{edition.Text} is a later edition, which the rule takes as well");
        return has.Rank < least.Stated.Rank
            ? new(
                ClassAnswer.Meets, $"it is a tighter class, of {edition.Text}: own reading, since no standard compares both editions", true)
            : new(ClassAnswer.Undecided, $"it is of {(edition.Year > asked.Year ? "a later" : "an earlier")} edition, {edition.Text}, "
                + "and nothing says that both are equal");
    }

    private static string Word(ClassAnswer answer) => answer switch
    {
        ClassAnswer.Meets => "meets it",
        ClassAnswer.Misses => "misses it",
        _ => "is undecided",
    };
}

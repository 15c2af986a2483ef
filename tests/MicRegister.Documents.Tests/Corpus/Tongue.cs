using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>The language of a list.</summary>
internal enum Tongue
{
    English,
    German,
    French,
    Spanish,
    Italian,
    Dutch,
}

/// <summary>
/// How the laboratories of a language head, name and mark things. Written down from practice, apart from what the reader knows: neither may
/// borrow from the other, or the corpus would prove nothing.
/// </summary>
internal sealed class Vocabulary
{
    private static readonly Dictionary<Tongue, Vocabulary> All = Made(_ => "");

    private static readonly Dictionary<Tongue, Vocabulary> OfFormerlyLast = Made(FormerlyLastWords.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfFurther = Made(FurtherWords.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfFormerlyLast2 = Made(FormerlyLastWords2.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfFormerlyLast3 = Made(FormerlyLastWords3.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfFormerlyLast4 = Made(FormerlyLastWords4.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfFormerlyLast5 = Made(FormerlyLastWords5.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfFormerlyLast6 = Made(FormerlyLastWords6.Of);

    private static readonly Dictionary<Tongue, Vocabulary> OfLast = Made(LastWords.Of);

    private readonly Dictionary<string, string[]> _words;

    private Vocabulary(Tongue tongue, string text)
    {
        Tongue = tongue;
        // A key that stands twice has the words that stand last.
        _words = text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split(':', 2)).GroupBy(p => p[0])
            .ToDictionary(p => p.Key, p => p.Last()[1].Trim().Split('|'));
    }

    public Tongue Tongue { get; }

    public bool HasDecimalComma => Tongue != Tongue.English;

    public IReadOnlyList<string> Months => _words["Months"];

    public string Inch => _words["Inch"][0];

    public static Vocabulary Of(Tongue tongue) => All[tongue];

    /// <summary>Words of the shapes that once were the last.</summary>
    public static Vocabulary FormerlyLast(Tongue tongue) => OfFormerlyLast[tongue];

    /// <summary>Words of the further shapes.</summary>
    public static Vocabulary Further(Tongue tongue) => OfFurther[tongue];

    /// <summary>Words of the second shapes that once were the last.</summary>
    public static Vocabulary FormerlyLast2(Tongue tongue) => OfFormerlyLast2[tongue];

    /// <summary>Words of the third shapes that once were the last.</summary>
    public static Vocabulary FormerlyLast3(Tongue tongue) => OfFormerlyLast3[tongue];

    /// <summary>Words of the fourth shapes that once were the last.</summary>
    public static Vocabulary FormerlyLast4(Tongue tongue) => OfFormerlyLast4[tongue];

    /// <summary>Words of the fifth shapes that once were the last.</summary>
    public static Vocabulary FormerlyLast5(Tongue tongue) => OfFormerlyLast5[tongue];

    /// <summary>Words of the sixth shapes that once were the last.</summary>
    public static Vocabulary FormerlyLast6(Tongue tongue) => OfFormerlyLast6[tongue];

    /// <summary>Words that the shapes by which a reader may learn do not use.</summary>
    public static Vocabulary Last(Tongue tongue) => OfLast[tongue];

    public IReadOnlyList<string> Headers(Said what) => _words[what.ToString()];

    public IReadOnlyList<string> Statuses(DeviceStatus status) => _words[status.ToString()];

    public IReadOnlyList<string> Singular(Sort sort) => _words["One" + sort];

    public IReadOnlyList<string> Plural(Sort sort) => _words["Many" + sort];

    /// <summary>A word of the text around tables, such as Total or Page.</summary>
    public string Word(string key) => _words[key][0];

    private static Dictionary<Tongue, Vocabulary> Made(Func<Tongue, string> others) => Enum.GetValues<Tongue>()
        .ToDictionary(t => t, t => new Vocabulary(t, $"{Written.Of(t)}\n{WrittenMore.Of(t)}\n{others(t)}"));
}

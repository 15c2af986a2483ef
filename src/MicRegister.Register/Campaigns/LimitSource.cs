namespace MicRegister.Register.Campaigns;

/// <summary>Limits with where they come from: a document, its edition, the clause and how sure the figure is.</summary>
internal static class LimitSource
{
    /// <summary>Mark and source of what no document asks.</summary>
    public const string Practice = "common practice, no source";

    /// <summary>Mark of a figure that was read in the text of 14 CFR part 36 as of August 2021; later amendments were not seen.</summary>
    public const string Seen = "seen, 2021 edition";

    /// <summary>Mark of a figure that nobody looked up.</summary>
    public const string Memory = "from memory, unchecked";

    private const string Part36 = "14 CFR 36";
    private const string Iso3744 = "ISO 3744";

    /// <summary>A figure of 14 CFR part 36.</summary>
    /// <param name="key">The limit.</param>
    /// <param name="value">The number.</param>
    /// <param name="clause">The clause that asks it.</param>
    /// <param name="text">The text beside the number.</param>
    /// <param name="by">The clause that leads to it; null where none has to.</param>
    /// <param name="more">What the clause says, in words.</param>
    public static ProfileLimit Cfr(string key, double? value, string clause, string? text = null, string? by = null, string? more = null) =>
        new(key, value, text, $"{Part36}, {clause}{(by is null ? "" : ", by " + by)}{(more is null ? "" : ": " + more)}", Seen)
        {
            Document = Part36,
            Edition = "2021",
            Clause = clause,
        };

    /// <summary>A figure of ISO 3744:2010, 5.2, as it is commonly applied.</summary>
    public static ProfileLimit Iso(string key, double? value, string? text = null, string? more = null) =>
        new(key, value, text, $"{Iso3744}:2010, 5.2{(more is null ? "" : ": " + more)}", Memory)
        {
            Document = Iso3744,
            Edition = "2010",
            Clause = "5.2",
        };

    /// <summary>A figure that is the program's own.</summary>
    public static ProfileLimit Own(string key, double? value, string? text = null, string? more = null) =>
        new(key, value, text, more is null ? Practice : $"{Practice}; {more}", Practice);
}

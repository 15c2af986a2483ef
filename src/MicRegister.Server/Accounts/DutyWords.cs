namespace MicRegister.Server.Accounts;

/// <summary>Duties as people write them.</summary>
public static class DutyWords
{
    /// <summary>Each duty once.</summary>
    public static IReadOnlyList<Duties> Single { get; } = [Duties.Look, Duties.Field, Duties.Bench, Duties.Plan, Duties.Own];

    public static string Of(Duties duties) => duties == Duties.None
        ? "none"
        : string.Join(", ", Single.Where(d => duties.HasFlag(d)).Select(d => d.ToString().ToLowerInvariant()));

    /// <summary>What a duty allows, in a sentence.</summary>
    public static string Meaning(Duties duty) => duty switch
    {
        Duties.Look => "sees everything",
        Duties.Field => "lays out, checks, swaps, takes in",
        Duties.Bench => "states calibrations and checks",
        Duties.Plan => "enters devices, plans campaigns, takes over files",
        Duties.Own => "all of it, and who may do what",
        _ => "",
    };

    /// <summary>Reads "bench, plan".</summary>
    /// <returns>False where a word is no duty, or none is there.</returns>
    public static bool TryRead(string? text, out Duties duties)
    {
        duties = Duties.None;
        foreach (var word in (text ?? "").Split([',', ' '], StringSplitOptions.RemoveEmptyEntries))
        {
            if (Single.FirstOrDefault(d => d.ToString().Equals(word, StringComparison.OrdinalIgnoreCase))
                is not (not Duties.None and var duty))
            {
                return false;
            }
            duties |= duty;
        }
        return duties != Duties.None;
    }

    /// <summary>Whether some of what is asked for is held; an owner holds all.</summary>
    public static bool Meets(this Duties held, Duties asked) => (held & (asked | Duties.Own)) != Duties.None;
}

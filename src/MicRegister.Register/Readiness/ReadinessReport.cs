namespace MicRegister.Register.Readiness;

/// <summary>The answer to "is this campaign ready, through its last day?"</summary>
/// <param name="Campaign">Id of the campaign.</param>
/// <param name="Name">Its name.</param>
/// <param name="Today">Day as of which it was judged.</param>
/// <param name="Verdict">The answer.</param>
/// <param name="Stations">Stations in order of their names.</param>
/// <param name="Findings">Gravest first, then by day, rule, station and device.</param>
/// <param name="ArrayProbability">Probability that every station holds through the last day, stations taken as independent.</param>
/// <param name="WithLossesProbability">The same with the losses that the plan permits.</param>
/// <param name="WithSparesProbability">
/// The same with those losses and with the spares that are fit, each for its own kind and with its own probability.
/// </param>
/// <param name="UsableSpares">How many spare microphones are fit and like one of a station.</param>
/// <param name="Common">The array again, with a shift common to microphones of one laboratory and day.</param>
public sealed record ReadinessReport(
    string Campaign, string Name, DateOnly Today, DateOnly FirstDay, DateOnly LastDay, string Profile, ReadinessVerdict Verdict,
    IReadOnlyList<StationReadiness> Stations, IReadOnlyList<Finding> Findings,
    double ArrayProbability, double WithLossesProbability, double WithSparesProbability, int UsableSpares, ArrayOutlook Common)
{
    /// <summary>
    /// Whether its last day is past at the site. Then its findings are what is open in its evidence alone, nothing is forecast, and no
    /// probability is stated: all are 0.
    /// </summary>
    public bool IsOver => Verdict == ReadinessVerdict.Over;

    /// <summary>Whether a person compared the profile, as it stands, with the text of its source.</summary>
    public bool IsProfileConfirmed { get; init; }

    /// <summary>Who compared it with which text and when, or that nobody did; it stands within a sentence.</summary>
    public string ProfileChecked { get; init; } = Campaigns.ProfileState.Unchecked;

    /// <summary>What goes along as a spare and stands at no station, whether it counts or not.</summary>
    public IReadOnlyList<SpareReadiness> Spares { get; init; } = [];

    /// <summary>
    /// Whether what the spares are worth is a lower bound only: with spares of many kinds and many stations it is counted without those kinds
    /// that are lost least.
    /// </summary>
    public bool IsWithSparesAtLeast { get; init; }
}

/// <summary>A device that only stands by.</summary>
/// <param name="Device">Its id.</param>
/// <param name="Name">Words that people know it by.</param>
/// <param name="Kind">Its kind; null where nobody registered it.</param>
/// <param name="Probability">Probability that it holds through the last day; 0 where it does not count.</param>
/// <param name="Stations">How many stations have a part that it could stand in for.</param>
/// <param name="Why">Why it does not count, in words after its name; null where it does.</param>
public sealed record SpareReadiness(string Device, string Name, string? Kind, double Probability, int Stations, string? Why);

/// <summary>One station's part in the answer.</summary>
/// <param name="Probability">Probability that its chain stays within the limit through the last day; 0 where something stops it.</param>
public sealed record StationReadiness(string Station, ReadinessVerdict Verdict, double Probability, IReadOnlyList<string> Devices);

/// <summary>The answer for a campaign, a station or a device.</summary>
public enum ReadinessVerdict
{
    /// <summary>Nothing stands against it.</summary>
    Ready,

    /// <summary>It can be done, and something may be lost.</summary>
    AtRisk,

    /// <summary>It must not be done like this.</summary>
    NotReady,

    /// <summary>Facts that this version cannot read make it undecided.</summary>
    Undecided,

    /// <summary>Its last day is past: nothing can be made ready any more, and what counts is its evidence.</summary>
    Over,
}

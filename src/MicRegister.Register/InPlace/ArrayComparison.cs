using MicRegister.Metrology.Checks;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.InPlace;

/// <summary>A comparison of chains in place, with what is each chain's own parted from what all have in common.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Instant">When, in milliseconds since 1970.</param>
/// <param name="Author">Who said so.</param>
/// <param name="Said">What was said, joined devices under the entry that was kept.</param>
/// <param name="Shift">The common part and each chain's own.</param>
/// <param name="StandardDb">Standard uncertainty of one chain's own part, in dB: half of what was stated,
/// otherwise the robust scatter of the chains.</param>
public sealed record ArrayComparison(FactId Fact, long Instant, string Author, ChainsCompared Said, DayShift Shift, double StandardDb)
{
    private readonly Lazy<Dictionary<string, int>> _stations = new(() =>
        Said.Chains.Select((c, i) => (c.Station, i))
            .DistinctBy(c => c.Station, StringComparer.Ordinal)
            .ToDictionary(c => c.Station, c => c.i, StringComparer.Ordinal));

    /// <summary>Number of the chain at a station; -1 where it was not compared.</summary>
    public int IndexOf(string station) => _stations.Value.GetValueOrDefault(station, -1);

    /// <summary>How far a chain lies from the others, in dB.</summary>
    public double OwnDb(int chain) => Shift.OwnDb[chain];

    /// <summary>A comparison that is not stored yet, as it would stand; null where there are too few chains.</summary>
    public static ArrayComparison? Worked(ChainsCompared said) => Of(default, 0, "", said);

    /// <summary>Works a comparison out.</summary>
    /// <returns>Null where there are fewer than <see cref="DayShift.LeastChannels"/> chains, or a level is no number.</returns>
    internal static ArrayComparison? Of(FactId fact, long instant, string author, ChainsCompared said)
    {
        if (said.Chains.Any(c => !(Math.Abs(c.LevelDb) <= 300) || !(Math.Abs(c.ExpectedDb) <= 300))
            || said.ExpandedDb is not (null or (> 0 and <= 60)))
            return null;
        return DayShift.Of([.. said.Chains.Select(c => c.LevelDb - c.ExpectedDb)]) is { } shift
            ? new(fact, instant, author, said, shift, said.ExpandedDb is { } stated ? stated / 2 : shift.ScatterDb)
            : null;
    }
}

/// <summary>The comparisons that count, in the order of time.</summary>
public static class ComparisonBook
{
    private const int MostChains = 1000;

    /// <summary>Comparisons of a campaign.</summary>
    public static IReadOnlyList<ArrayComparison> OfCampaign(Register register, string campaign) =>
        register.Memory.Of<Shelf<IReadOnlyList<ArrayComparison>>>()
        .Of(campaign, register.Version(Subject.Campaign(campaign)), id => [.. ComparisonLog.Of(register, id).Said
            .Select(s => ArrayComparison.Of(s.Fact.Id, s.Instant, s.Fact.Author, Kept(register, s.What))).OfType<ArrayComparison>()]);

    // Joined devices under the entry that was kept.
    private static ChainsCompared Kept(Register register, ChainsCompared said) =>
        said with { Chains = [.. said.Chains.Select(c => c with { Devices = [.. c.Devices.Select(d => register.EntriesOf(d)[0])] })] };

    /// <summary>States a comparison; chains whose devices are left out are those that stood there then.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="campaign">Id of the campaign.</param>
    /// <param name="at">When it sounded, an instant.</param>
    /// <param name="compared">At least <see cref="DayShift.LeastChannels"/> stations.</param>
    public static Result<IReadOnlyList<Fact>> Compare(Register register, Saying saying, string campaign, string at, ChainsCompared compared)
    {
        if (register.Campaign(campaign) is not { } state) return new Rejection(RejectionSort.NotFound, $"There is no campaign {campaign}.");
        if (!Occurred.TryParse(at, out var when) || !when.IsInstant)
            return Saying.Invalid($"Time '{at}': allowed is an instant in UTC such as 2026-05-04T10:11:12.000Z.");
        if (when.UnixMilliseconds > saying.Stamp.Occurred.UnixMilliseconds + (26L * 3_600_000) || when.Day.Year < 1950)
            return Saying.Invalid($"Time '{at}': it lies in the future, or before 1950.");
        if (Devices.DeviceDecisions.Text(compared.Source, "Source") is { } wrong) return wrong;
        if (compared.FrequencyHz is { } hz && !(hz is > 0 and <= 1e6))
            return Saying.Invalid($"Frequency '{hz}': allowed is a number above 0 up to 1000000 Hz.");
        if (compared.ExpandedDb is { } u && !(u is > 0 and <= 60))
            return Saying.Invalid(
                $"Uncertainty '{u}': allowed is a number above 0 up to 60 dB; leave it out to take the scatter of the chains.");
        if (compared.Chains.Count is < DayShift.LeastChannels or > MostChains)
            return Saying.Invalid($"Stations: {DayShift.LeastChannels} to {MostChains} are allowed, not {compared.Chains.Count}. "
                + "Of fewer nobody can tell which of them moved.");
        if (compared.Chains.GroupBy(c => c.Station, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
            return Saying.Invalid($"Station {twice.Key} is named twice.");
        if (!string.IsNullOrWhiteSpace(compared.Remark) && Devices.DeviceDecisions.Text(compared.Remark, "Remark") is { } wrongRemark)
            return wrongRemark;
        var deployment = Deployment.ArrayDeployment.Of(register, campaign);
        var chains = new List<ComparedChain>();
        foreach (var chain in compared.Chains)
        {
            if (!(chain.LevelDb is >= -50 and <= 200))
                return Saying.Invalid(FormattableString.Invariant(
                    $"Station {chain.Station}: level '{chain.LevelDb}': allowed is a number from -50 to 200 dB."));
            if (!(Math.Abs(chain.ExpectedDb) <= 100))
                return Saying.Invalid(FormattableString.Invariant(
                    $"Station {chain.Station}: expected '{chain.ExpectedDb}': allowed is a number from -100 to 100 dB."));
            if (!state.Stations.ContainsKey(chain.Station) && deployment.Placements.All(p => p.Station != chain.Station))
                return Saying.Invalid($"Station '{chain.Station}': {state.Name} has no such station, and nothing was placed there.");
            var devices = chain.Devices.Count > 0 ? chain.Devices : deployment.At(chain.Station, when.UnixMilliseconds)?.Devices ?? [];
            if (devices.Count == 0) return Saying.Invalid($"Station '{chain.Station}': nothing stood there at {at}.");
            if (devices.FirstOrDefault(d => register.Device(d) is null) is { } missing) return Devices.DeviceDecisions.Missing(missing);
            if (devices.FirstOrDefault(d => chains.Any(c => c.Devices.Contains(d))) is { } twiceThere)
                return Saying.Invalid($"Station {chain.Station}: {register.Device(twiceThere)!.Name} "
                    + "stands in another chain of this comparison too.");
            chains.Add(chain with { Devices = [.. devices] });
        }
        var stamped = saying with { Stamp = saying.Stamp with { Occurred = when } };
        return stamped.Of(register,
            compared with
            {
                Source = compared.Source.Trim(),
                Chains = chains,
                Remark = string.IsNullOrWhiteSpace(compared.Remark) ? null : compared.Remark.Trim(),
            },
            [Subject.Campaign(campaign), .. chains.SelectMany(c => c.Devices).Distinct(StringComparer.Ordinal).Select(Subject.Device)]);
    }
}

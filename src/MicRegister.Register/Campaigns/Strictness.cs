using MicRegister.Metrology.Classes;

namespace MicRegister.Register.Campaigns;

/// <summary>Which way a limit grows stricter, so that more devices, checks or events fall outside it.</summary>
public enum Strictness
{
    /// <summary>Neither way: another value asks for something else.</summary>
    NoOrder,

    /// <summary>A smaller number is stricter.</summary>
    Less,

    /// <summary>A greater number is stricter.</summary>
    More,

    /// <summary>A list of what is allowed is stricter where words are missing from it.</summary>
    FewerWords,

    /// <summary>A list of what is asked for is stricter where it has more words.</summary>
    MoreWords,

    /// <summary>
    /// A tighter class of the same edition is stricter, and the same class without later editions; between editions there is no order.
    /// </summary>
    Class,

    /// <summary>
    /// Simple acceptance is the loosest rule: who is accepted by the guarded rule, or with a probability from 0.5 on, lies within the
    /// limits (JCGM 106:2012, 8.2 and 8.3.2). Between the other two there is no order.
    /// </summary>
    Rule,
}

/// <summary>The one table of which way each limit grows stricter.</summary>
/// <remarks>
/// By a stricter number no event gets better, but for those that say how far a check or a reading reaches: what is out of reach cannot
/// speak for an event any more, and not against it either.
/// </remarks>
public static class LimitStrictness
{
    private static readonly Dictionary<string, Strictness> ByKey = new(StringComparer.Ordinal)
    {
        [LimitKey.DriftDb] = Strictness.Less,
        [LimitKey.DeviceProbability] = Strictness.More,
        [LimitKey.DeviceProbabilityStop] = Strictness.More,
        [LimitKey.ArrayProbability] = Strictness.More,
        [LimitKey.CalibratorStepDb] = Strictness.Less,
        [LimitKey.CheckDifferenceDb] = Strictness.Less,
        [LimitKey.CheckDeviationDb] = Strictness.Less,
        [LimitKey.CheckSpreadDb] = Strictness.Less,
        [LimitKey.CheckSpanHours] = Strictness.Less,
        [LimitKey.CheckTestDay] = Strictness.NoOrder, // one word only: it stands there or not
        [LimitKey.CheckIntervalMinutes] = Strictness.Less,
        [LimitKey.CheckToEventMinutes] = Strictness.Less,
        [LimitKey.CheckVariationDb] = Strictness.Less,
        [LimitKey.CheckAir] = Strictness.MoreWords,
        [LimitKey.InPlaceDb] = Strictness.Less,
        [LimitKey.InPlaceHours] = Strictness.Less,
        [LimitKey.DecisionRule] = Strictness.Rule,
        [LimitKey.DecisionProbability] = Strictness.More,
        [LimitKey.CalibratorClasses] = Strictness.FewerWords,
        [LimitKey.CalibratorClassLeast] = Strictness.Class,
        [LimitKey.FilterClassLeast] = Strictness.Class,
        [LimitKey.MeterClassLeast] = Strictness.Class,
        [LimitKey.ResponseTypes] = Strictness.FewerWords,
        [LimitKey.ResponseClass] = Strictness.MoreWords, // all tables that it names are held against a response
        [LimitKey.ResponseByAngle] = Strictness.MoreWords,
        [LimitKey.Mounts] = Strictness.FewerWords,
        [LimitKey.MountToleranceDb] = Strictness.Less,
        [LimitKey.PlateInspectionMonths] = Strictness.Less,
        [LimitKey.FlushStepMm] = Strictness.Less,
        [LimitKey.GapMm] = Strictness.NoOrder, // a gap to be kept: both sides of it are wrong
        [LimitKey.GapToleranceMm] = Strictness.Less,
        [LimitKey.FlatnessMm] = Strictness.Less,
        [LimitKey.PlateDiameterMm] = Strictness.More,
        [LimitKey.PlateThicknessMm] = Strictness.More,
        [LimitKey.CapsuleShare] = Strictness.NoOrder, // a place to be kept
        [LimitKey.CapsuleToleranceMm] = Strictness.Less,
        [LimitKey.LevelMarginDb] = Strictness.More,
        [LimitKey.NoiseMarginDb] = Strictness.More,
        [LimitKey.SpareShare] = Strictness.More,
        [LimitKey.BandFromHz] = Strictness.More, // results are used in a narrower band
        [LimitKey.BandToHz] = Strictness.Less,
        [LimitKey.WindMs] = Strictness.Less,
        [LimitKey.GustMs] = Strictness.Less,
        [LimitKey.CrosswindMs] = Strictness.Less,
        [LimitKey.CrosswindGustMs] = Strictness.Less,
        [LimitKey.TemperatureLeastC] = Strictness.More,
        [LimitKey.TemperatureMostC] = Strictness.Less,
        [LimitKey.HumidityLeastPercent] = Strictness.More,
        [LimitKey.HumidityMostPercent] = Strictness.Less,
        [LimitKey.WeatherMinutes] = Strictness.Less,
    };

    private static readonly (string Begin, Strictness Strictness)[] ByBegin =
    [
        (LimitKey.IntervalMonths, Strictness.Less), (LimitKey.IntervalDays, Strictness.Less), (LimitKey.Change, Strictness.Less),
        (CertificateLimits.ChangeInBands, Strictness.Less), (CertificateLimits.GreatestError, Strictness.Less),
        (CertificateLimits.MakersData, Strictness.Less),
    ];

    /// <summary>Which way a limit grows stricter; null for a key that stands in no row.</summary>
    /// <param name="key">Its key.</param>
    public static Strictness? Find(string key)
    {
        if (ByKey.TryGetValue(key, out var known)) return known;
        foreach (var (begin, strictness) in ByBegin)
        {
            if (key.StartsWith(begin, StringComparison.Ordinal)) return strictness;
        }
        return null;
    }

    /// <summary>How one limit stands to another of the same key, by value and words alone.</summary>
    /// <param name="there">The one that is compared with.</param>
    /// <param name="here">The one that is looked at.</param>
    /// <returns>Null where both ask the same.</returns>
    public static ClauseChange? Change(ProfileLimit there, ProfileLimit here)
    {
        var strictness = Find(here.Key) ?? Strictness.NoOrder;
        double? was = Number(there), now = Number(here);
        List<ClauseChange> changes = [];
        if (was != now) changes.Add(OfNumbers(strictness, was, now));
        if (OfWords(strictness, there, here) is { } words) changes.Add(words);
        return changes switch
        {
            [] => null,
            [var only] => only,
            [var first, var second] when first == second => first,
            _ => ClauseChange.Other,
        };
    }

    // Maker's data that hold until damage are looser than any number of months.
    private static double? Number(ProfileLimit limit) => IsUntilDamaged(limit) ? double.PositiveInfinity : limit.Value;

    private static bool IsUntilDamaged(ProfileLimit limit) => limit.Value is null && limit.Text?.Trim() == CertificateLimits.UntilDamaged
        && limit.Key.StartsWith(CertificateLimits.MakersData, StringComparison.Ordinal);

    private static ClauseChange OfNumbers(Strictness strictness, double? there, double? here) => (strictness, there, here) switch
    {
        (Strictness.Less, { } a, { } b) => b < a ? ClauseChange.Stricter : ClauseChange.Looser,
        (Strictness.More, { } a, { } b) => b > a ? ClauseChange.Stricter : ClauseChange.Looser,
        _ => ClauseChange.Other,
    };

    private static ClauseChange? OfWords(Strictness strictness, ProfileLimit there, ProfileLimit here)
    {
        if (strictness is Strictness.FewerWords or Strictness.MoreWords)
        {
            HashSet<string> a = [.. ProfileState.WordsOf(there)], b = [.. ProfileState.WordsOf(here)];
            if (a.SetEquals(b)) return null;
            var isFewer = b.IsSubsetOf(a);
            if (!isFewer && !a.IsSubsetOf(b)) return ClauseChange.Other;
            return isFewer == (strictness == Strictness.FewerWords) ? ClauseChange.Stricter : ClauseChange.Looser;
        }
        if (IsUntilDamaged(there) || IsUntilDamaged(here)) return null;
        string first = there.Text?.Trim() ?? "", second = here.Text?.Trim() ?? "";
        if (string.Equals(first, second, StringComparison.Ordinal)) return null;
        if (there.Value is not null && here.Value is not null && IsInterval(here.Key))
            return Looser(Array.IndexOf(Counted, first), Array.IndexOf(Counted, second));
        return strictness switch
        {
            Strictness.Rule => first == Simple ? ClauseChange.Stricter : second == Simple ? ClauseChange.Looser : ClauseChange.Other,
            Strictness.Class => OfClasses(here.Key, first, second),
            _ => ClauseChange.Other,
        };
    }

    private const string Simple = "simple";

    // Through the last day, to the first day, or both ways from it: each reaches further than the one before.
    private static readonly string[] Counted = ["", LimitKey.ToFirstDay, LimitKey.AroundFirstDay];

    private static ClauseChange Looser(int there, int here) =>
        there < 0 || here < 0 ? ClauseChange.Other : here > there ? ClauseChange.Looser : ClauseChange.Stricter;

    private static ClauseChange? OfClasses(string key, string there, string here)
    {
        if (LimitKey.SortOf(key) is not { } sort) return ClauseChange.Other;
        if (LeastClass.Read(sort, there, out _) is not { } a || LeastClass.Read(sort, here, out _) is not { } b) return ClauseChange.Other;
        if (a.Edition != b.Edition || a.Stated.Letter != b.Stated.Letter) return ClauseChange.Other;
        if (a.OrLater == b.OrLater) return a.Stated.Rank == b.Stated.Rank ? null : Looser(a.Stated.Rank, b.Stated.Rank);
        return a.Stated.Rank != b.Stated.Rank ? ClauseChange.Other : b.OrLater ? ClauseChange.Looser : ClauseChange.Stricter;
    }

    private static bool IsInterval(string key) =>
        key.StartsWith(LimitKey.IntervalMonths, StringComparison.Ordinal)
        || key.StartsWith(LimitKey.IntervalDays, StringComparison.Ordinal);
}

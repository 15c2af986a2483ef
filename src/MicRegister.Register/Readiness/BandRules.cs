using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Doubts;

namespace MicRegister.Register.Readiness;

/// <summary>Whether the curves of the last two certificates differ, in each third-octave band, by no more than the profile allows.</summary>
internal static class BandRules
{
    // What a profile for certification asks of windscreens and of the electrical response: 14 CFR 36, A36.3.4.1 and A36.3.9.5.
    private static readonly (double FromHz, double ToHz) Usual = (50, 10_000);

    public static IEnumerable<Fault> ChangeInBands(StandingDevice s)
    {
        foreach (var (quantity, limit) in CertificateLimits.Of(s.Profile, CertificateLimits.ChangeInBands, s.Device.Kind))
        {
            if (limit.Value is null || CalibrationSeries.Newest(s.Device, quantity) is not { } newest) continue;
            if (s.Device.Reviews.ContainsKey(newest.Fact.ToString()) || MakersDataRules.Of(s, quantity).Holds) continue;
            if (CurvePair.IsAlone(s.Device, quantity))
            {
                yield return Unknown(
                    s, quantity, newest,
                    "its certificates before it were measured in another way", limit);
            }
            foreach (var pair in CurvePair.Last(s.Device, quantity))
            {
                foreach (var fault in Of(s, quantity, pair, limit)) yield return fault;
            }
        }
    }

    private static IEnumerable<Fault> Of(StandingDevice s, string quantity, CurvePair pair, ProfileLimit limit)
    {
        var curves = s.Curves ?? CurveShelf.None;
        if (pair.Change(curves) is not { } angles)
        {
            yield return Unknown(s, quantity, pair.Now, pair.Unread(curves) ?? "its curves cannot be read here", limit);
            yield break;
        }
        var most = ChangeLimit.Of(s.Profile, s.Usual, new(s.Device.Kind, quantity, IsInBands: true));
        var rule = DecisionRule.Of(s.Profile!.Limit(LimitKey.DecisionRule)?.Text, s.Profile.Value(LimitKey.DecisionProbability));
        var all = GreatestChange.All(angles).Select(g => (Greatest: g, Verdict: Decide(rule, g.Change, most))).ToList();
        var from = $"from {pair.Before.Day:yyyy-MM-dd} to {pair.Now.Day:yyyy-MM-dd}";
        foreach (var verdict in new[] { ConformityVerdict.DoesNotConform, ConformityVerdict.Undecided })
        {
            var such = all.Where(a => a.Verdict == verdict).Select(a => a.Greatest).ToList();
            if (such.Count == 0) continue;
            var worst = such.MaxBy(g => Math.Abs(g.Change.Db));
            var isOver = verdict == ConformityVerdict.DoesNotConform;
            var unsure = isOver ? ""
                : worst.Change.StandardDb is { } u ? $" With U = {QuantityText.Expanded(2 * u, "dB")} it cannot be decided."
                : " Without an uncertainty it cannot be decided.";
            yield return new(
                isOver ? Gravity.Stops : Gravity.Risks, s.Device, isOver ? Clearing.Decide : Clearing.Calibrate,
                $"{s.Device.Name}: its {quantity} changed by {QuantityText.Change(worst.Change.Db, "dB", 3)} {worst.Where} {from}; "
                    + FormattableString.Invariant($"at most {most} dB are allowed in each third-octave band ({such.Count} of {all.Count} ")
                    + $"{(isOver ? "exceed it" : "are not clear")}).{unsure}{MakersDataRules.Of(s, quantity).Why}",
                new Figure("change", worst.Change.Db, "dB"), new Figure("limit", most, "dB"))
            {
                Basis = $"facts {pair.Before.Fact}, {pair.Now.Fact}",
            };
        }
        if (Missing(s, angles) is { Length: > 0 } missing)
        {
            yield return new(
                Gravity.Risks, s.Device, Clearing.Calibrate,
                $"{s.Device.Name}: whether its {quantity} changed {from} is not known {missing}: not both curves have a value there.")
            {
                Basis = $"facts {pair.Before.Fact}, {pair.Now.Fact}",
            };
        }
    }

    private static ConformityVerdict Decide(DecisionRule rule, BandChange change, double most)
    {
        var tolerance = Tolerance.Around(0, most);
        if (rule.Kind == DecisionRuleKind.Simple) return tolerance.Simple(change.Db);
        // What is not known makes no change smaller: beyond the limit it is not accepted, and within it nothing can be said.
        return change.StandardDb is { } u ? rule.Decide(tolerance, change.Db, u, 2 * u) : ConformityVerdict.Undecided;
    }

    // Bands that results are used at and that one of the curves lacks, and angles that one of them lacks.
    private static string Missing(StandingDevice s, IReadOnlyList<AngleChange> angles)
    {
        var asked = Asked(s);
        var parts = new List<string>();
        foreach (var angle in angles)
        {
            var at = angle.AngleDeg is { } deg ? FormattableString.Invariant($"{deg:0.###}°") : null;
            if (angle.Change is not { } change)
            {
                parts.Add(at is null ? "where one table names angles and the other does not" : $"at {at}");
                continue;
            }
            var known = change.Bands.Select(b => b.Band).ToHashSet();
            var gone = asked.Where(b => !known.Contains(b)).Concat(change.InOneOnly.Where(b => !asked.Contains(b))).OrderBy(b => b.Index).ToList();
            if (gone.Count > 0) parts.Add($"at {InWords(gone)} Hz{(at is null ? "" : " and " + at)}");
        }
        return string.Join("; ", parts);
    }

    private static IReadOnlyList<ThirdOctave> Asked(StandingDevice s)
    {
        // A plan from elsewhere may state a band that cannot be.
        var (from, to) = s.Band is { FromHz: >= 1, ToHz: <= 1e6 } stated && stated.FromHz <= stated.ToHz ? stated : Usual;
        from = Math.Max(from, s.Profile?.Value(LimitKey.BandFromHz) ?? from);
        to = Math.Min(to, s.Profile?.Value(LimitKey.BandToHz) ?? to);
        return from <= to ? ThirdOctave.Between(from, to) : [];
    }

    // Neighbours as one span.
    private static string InWords(List<ThirdOctave> bands)
    {
        var spans = new List<string>();
        for (var i = 0; i < bands.Count; i++)
        {
            var first = i;
            while (i + 1 < bands.Count && bands[i + 1].Index == bands[i].Index + 1) i++;
            spans.Add(first == i
                ? FormattableString.Invariant($"{bands[i].NominalHz:0.###}")
                : FormattableString.Invariant($"{bands[first].NominalHz:0.###} to {bands[i].NominalHz:0.###}"));
        }
        return string.Join(", ", spans);
    }

    private static Fault Unknown(StandingDevice s, string quantity, DeviceCertificate now, string why, ProfileLimit limit) => new(
        Gravity.Risks, s.Device, Clearing.Enter,
        $"{s.Device.Name}: whether its {quantity} changed in any third-octave band up to {now.Day:yyyy-MM-dd} is not known; {why} "
            + $"({limit.Source}).{MakersDataRules.Of(s, quantity).Why}")
    {
        Basis = $"fact {now.Fact}",
    };
}

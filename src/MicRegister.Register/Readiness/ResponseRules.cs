using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether a microphone's stored response keeps within the limits that the profile names.</summary>
internal static class ResponseRules
{
    public static IEnumerable<Fault> WithinLimits(StandingChain s) => Asked(s, LimitKey.ResponseClass, (microphone, key, limit) =>
        ResponseTable.Find(key) is { } table
            ? Faults(s, microphone, ResponseConformity.OverFrequency(microphone, s.Read, table), limit, Gravity.Risks)
            : null);

    /// <summary>Limits by angle bind only where curves by angle are stored; otherwise a note says so.</summary>
    public static IEnumerable<Fault> WithinLimitsByAngle(StandingChain s) => Asked(s, LimitKey.ResponseByAngle, (microphone, key, limit) =>
        AngleTable.Find(key) is { } table
            ? Faults(s, microphone, ResponseConformity.OverAngle(microphone, s.Read, table), limit, Gravity.Note)
            : null);

    private static IEnumerable<Fault> Asked(
        StandingChain s, string limitKey, Func<DeviceState, string, ProfileLimit, IEnumerable<Fault>?> judge)
    {
        if (s.Parts.Microphone is not { } microphone || s.Profile.Limit(limitKey) is not { } limit) return [];
        return s.Profile.Words(limitKey).SelectMany(key => judge(microphone, key, limit) ??
        [
            new(Gravity.Risks, microphone, Clearing.Decide,
                $"The profile asks for limits of '{key}' on responses, of which this version has no table; "
                    + $"{microphone.Name} is not judged by them."),
        ]);
    }

    private static IEnumerable<Fault> Faults(
        StandingChain s, DeviceState microphone, ResponseConformity judged, ProfileLimit limit, Gravity whereNone)
    {
        var isNamed = limit.Source.Replace(",", "", StringComparison.Ordinal) == judged.Table;
        var by = isNamed ? judged.Table : $"{judged.Table} ({limit.Source})";
        if (judged.Open is { } open)
        {
            yield return new(
                judged.Certificates.Count > 0 ? Gravity.Risks : whereNone, microphone, Clearing.Enter,
                $"{microphone.Name}: {open}, so that it cannot be held against {by}.");
            yield break;
        }
        var certificate = judged.Certificates[0];
        var wanted = OfInterest(s);
        var own = judged.Bands.Where(b => wanted.Contains(b.Band)).ToList();
        var basis = string.Join(", ", judged.Certificates.Select(c => "fact " + c.Fact)) + ", " + judged.Source;
        var exceeded = own.Where(b => b.Verdict == BandVerdict.Exceeded).OrderByDescending(b => b.ByDb).ToList();
        if (exceeded.Count > 0)
        {
            var worst = exceeded[0];
            yield return new(Gravity.Stops, microphone, Clearing.Swap,
                $"{microphone.Name}: its response of {certificate.Day:yyyy-MM-dd} leaves the limits of {by} "
                    + $"by {QuantityText.Of(worst.ByDb, "dB", 2)} {At(worst)}{Others(exceeded.Count - 1)}"
                    + (worst.Why.Length > 0 ? $": {worst.Why}." : "."),
                new Figure("beyond the limit", worst.ByDb!.Value, "dB"), new Figure("frequency", worst.Point!.Value.Hz, "Hz"))
            {
                Basis = basis,
            };
        }
        var undecided = own.Where(b => b.Step is not null && b.Verdict is (BandVerdict.Undecided or BandVerdict.NotCovered)).ToList();
        if (undecided.Count > 0)
        {
            var first = undecided[0];
            yield return new(Gravity.Risks, microphone, Clearing.Enter,
                $"{microphone.Name}: its response of {certificate.Day:yyyy-MM-dd} does not decide about {by} {At(first)}: "
                    + $"{first.Why}{Others(undecided.Count - 1)}.",
                new Figure("open bands", undecided.Count, ""))
            {
                Basis = basis,
            };
        }
        var without = own.Where(b => b.Step is null).Select(b => b.Band).Union(wanted.Except(judged.Bands.Select(b => b.Band))).ToList();
        if (without.Count > 0)
        {
            yield return new(Gravity.Note, microphone, Clearing.Decide,
                $"{judged.Table} has no limit {string.Join(", ", without.OrderBy(b => b.Index).Select(b => Hz(b)))} "
                    + $"for {microphone.Name}; nothing is said there.");
        }
        foreach (var remark in judged.Remarks) yield return new(Gravity.Note, microphone, Clearing.Decide, $"{microphone.Name}: {remark}");
    }

    // A plan from elsewhere may state a band that cannot be.
    private static HashSet<ThirdOctave> OfInterest(StandingChain s) =>
        s.Campaign is { LowestHz: >= 1, HighestHz: <= 1e6 } plan && plan.LowestHz <= plan.HighestHz
            ? [.. ThirdOctave.Between(plan.LowestHz, plan.HighestHz)]
            : [.. ThirdOctave.Between(50, 10_000)];

    private static string At(BandJudgement b) => "at " + Hz(b.Band)
        + (b.AngleDeg is { } angle ? FormattableString.Invariant($" and {angle:0.##}°") : "");

    private static string Hz(ThirdOctave band) => band.NominalHz >= 1000
        ? QuantityText.UpTo(band.NominalHz / 1000, 2) + " kHz"
        : QuantityText.UpTo(band.NominalHz, 1) + " Hz";

    private static string Others(int count) => count switch
    {
        0 => "",
        1 => " (and in one more band)",
        _ => $" (and in {count} more bands)",
    };
}

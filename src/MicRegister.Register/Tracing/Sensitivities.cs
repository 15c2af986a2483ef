using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Mounting;

namespace MicRegister.Register.Tracing;

/// <summary>Which sensitivity applies to a recording, and how well it is known.</summary>
internal static class Sensitivities
{
    /// <summary>What applies to a chain by the rule of its campaign; null where neither a check nor a certificate tells it.</summary>
    public static AppliedSensitivity? Apply(TracedChain c)
    {
        if (c.First(DeviceKind.Microphone) is not { } microphone) return null;
        var gain = ChannelGain.Of(c);
        if (Level(c, microphone, gain.Term) is not { } level) return null;
        var air = AirToEvent.Of(c, microphone, level.Checks);
        var mount = Bounded(c, Mount(c), microphone);
        List<CheckTerm> terms = [.. level.Terms, .. air.Term is { } term ? new[] { term } : []];
        var volts = terms.Sum(x => x.ValueDb);
        var range = Range(c);
        var known = new UnitBudget(
            c.Shared.References.Parted([.. level.Components, .. air.Components, .. mount.Components]),
            c.Shared.References.Parted(gain.Components), level.RecordedShare, range is not null);
        var ofGain = gain.Caution(level.RecordedShare, range is not null);
        return new(
            level.Rule, terms, volts, range is { } r ? volts + gain.Db + r.ValueDb : null, mount.Db, mount.FromHz, mount.ToHz,
            Joined([mount.Caution, level.Caution, air.Caution, ofGain, .. OfTones(c)]), known)
        {
            FullScaleTerms = range is null ? [] : gain.Term is { } g ? [g, range] : [range],
            GainCaution = ofGain,
            ReferenceHz = level.Rule == SensitivityRule.MeanOfChecks
                ? (c.Before ?? c.After) is { } check ? CheckFrequency.OfTone(check.Check, c.Shared.Device) : null
                : CalibrationSeries.Newest(microphone.CertifiedBy(c.Day), "sensitivity")?.Issued.FrequencyHz,
        };
    }

    // Full scale as it was set when the chain was placed, else at a check, else as the channel's entry says; null where nothing does.
    private static CheckTerm? Range(TracedChain c)
    {
        (double? Volts, string Source)[] said =
        [
            (c.Stood.Said.RangeV, c.PlacedBy), (c.Before?.Check.RangeV, $"fact {c.Before?.Fact}"),
            (c.After?.Check.RangeV, $"fact {c.After?.Fact}"),
            (c.First(DeviceKind.RecorderChannel) is { } channel ? channel.Number(DeviceField.ChannelRangeV) : null, "none"),
        ];
        return said.FirstOrDefault(s => s.Volts is not null) is ({ } range, var source)
            ? new("channel's range", -20 * Math.Log10(range), 0, source, FormattableString.Invariant($"full scale is {range} V peak"))
            : null;
    }

    // A check at another frequency than the certificate's says something of both only if the microphone is the same at both.
    private static IEnumerable<string?> OfTones(TracedChain c) =>
        c.Checks.Select(k => CheckFrequency.Remark(k.Check, c.Shared.Device)).Distinct();

    private static ToldLevel? Level(TracedChain c, DeviceState microphone, CheckTerm? gain) =>
        c.Campaign.Rule != SensitivityRule.MeanOfChecks
            ? OfCertificates(c, microphone, c.FromMs, c.ToMs)
            : OfChecks(c, gain) ?? OfCertificates(c, microphone, c.Shared.Event.StartMs, c.Shared.Event.StopMs);

    private static ToldLevel? OfChecks(TracedChain c, CheckTerm? gain)
    {
        List<CheckRecord> known = [.. c.Checks.Where(k => Volts(k, gain) is not null).DistinctBy(k => k.Fact)];
        if (known.Count == 0) return null;
        // A half that was made in doubt leaves the mean where the other is sound; where none is, its decibels are part of the uncertainty.
        var sound = known.Where(k => !c.Shared.Kit.Behind(k, c.Shared.Event.Id).Any()).ToList();
        var left = sound.Count > 0 ? known.Except(sound).ToList() : [];
        var used = sound.Count > 0 ? sound : known;
        double[] levels = [.. known.Select(k => Volts(k, gain)!.Value)];
        var mean = UncertaintyBudget.OfSum([.. used.Select(k => (k.Budget, 1.0 / used.Count))]);
        List<UncertaintyComponent> components = [.. mean.Components];
        var cautions = left.Select(k => $"The check {(ReferenceEquals(k, c.Before) ? "before" : "after")} is left out of the mean: "
            + $"{string.Join(", ", NamesInDoubt(c, k))} is in doubt.").ToList();
        List<InDoubt> doubts = sound.Count == 0 ? [.. OfDoubts(c, used, cautions)] : [];
        components.AddRange(doubts.Select(d => d.Component));
        // How far it went between the checks may have happened at any time; what one of them left open does not make that less.
        if (levels.Length == 2)
        {
            components.Add(UncertaintyComponent.FromHalfWidth(
                "change between the checks", $"change between facts {known[0].Fact} and {known[1].Fact}", Math.Abs(levels[1] - levels[0]) / 2,
                UncertaintyDistribution.Rectangular));
        }
        var name = used.Count == 2 ? "mean of the checks before and after"
            : ReferenceEquals(used[0], c.Before) ? "check before"
            : "check after";
        var recorded = used.Count(IsRecorded);
        // What converted a recorded tone to volts is cited with the checks.
        var source = string.Join(
            ", ", used.Select(k => "fact " + k.Fact).Concat(recorded > 0 && gain is { Source: not "none" } ? [gain.Source] : []));
        var caution = cautions.Count == 0 ? null : string.Join(" ", cautions);
        return new(
            SensitivityRule.MeanOfChecks, [new(name, used.Average(k => Volts(k, gain)!.Value), 0, source, caution), .. Terms(doubts)],
            components)
        {
            Caution = caution,
            Checks = used,
            RecordedShare = recorded / (double)used.Count,
        };
    }

    private static IEnumerable<string> NamesInDoubt(TracedChain c, CheckRecord check) =>
        c.Shared.Kit.Behind(check, c.Shared.Event.Id).Select(r => c.Shared.Device(r.Doubt.Device)?.Name ?? r.Doubt.Device)
            .Distinct(StringComparer.Ordinal);

    // One doubt behind both checks moves both alike.
    private static IEnumerable<InDoubt> OfDoubts(TracedChain c, List<CheckRecord> checks, List<string> cautions)
    {
        foreach (var check in checks)
        {
            foreach (var doubt in c.Shared.Kit.Behind(check, c.Shared.Event.Id).Select(r => r.Doubt).DistinctBy(d => d.Key))
            {
                if (SizeDb(doubt, check) is { } db)
                {
                    yield return new(doubt, check, UncertaintyComponent.FromHalfWidth(
                        "what is in doubt", "doubt " + doubt.Key, db, UncertaintyDistribution.Rectangular, 1.0 / checks.Count));
                    continue;
                }
                var unknown = $"By how much {c.Shared.Device(doubt.Device)?.Name ?? doubt.Device} is wrong nobody knows: "
                    + "no part of the uncertainty stands for it.";
                if (!cautions.Contains(unknown)) cautions.Add(unknown);
            }
        }
    }

    // Nothing is added for a doubt; what it is counted from and which checks it stands behind is cited beside what it makes of U.
    private static IEnumerable<CheckTerm> Terms(List<InDoubt> doubts) => doubts.GroupBy(d => d.Doubt.Key, StringComparer.Ordinal)
        .Select(g => new CheckTerm(
            g.First().Component.Name, 0, Math.Abs(g.Sum(d => d.Component.Contribution)),
            $"fact {g.First().Doubt.Fact} against fact {g.First().Doubt.Against}, "
                + $"behind {string.Join(", ", g.Select(d => "fact " + d.Check.Fact))}",
            null));

    // What a pressure in doubt makes of a level, by the check's own budget.
    private static double? SizeDb(Doubt doubt, CheckRecord check) => doubt.Unit == "kPa"
        ? doubt.GreatestDb * Math.Abs(check.Check.Budget.Where(l => l.Unit == "kPa").Sum(l => l.Sensitivity))
        : doubt.GreatestDb;

    private static string? Joined(params string?[] cautions) =>
        cautions.OfType<string>().ToList() is { Count: > 0 } said ? string.Join(" ", said) : null;

    // A recorded tone tells full scale, a voltage tells volts: the channel stands between.
    private static double? Volts(CheckRecord k, CheckTerm? gain)
    {
        if (k.Check.SensitivityDb is not { } db || !IsRecorded(k)) return k.Check.SensitivityDb;
        return k.Check.RangeV is { } range ? db - (gain?.ValueDb ?? 0) + (20 * Math.Log10(range)) : null;
    }

    private static bool IsRecorded(CheckRecord k) => k.Check.SensitivityUnit == "FS/Pa";

    private static ToldLevel? OfCertificates(TracedChain c, DeviceState microphone, long from, long to)
    {
        var own = CalibrationSeries.Newest(microphone.CertifiedBy(c.Day), "sensitivity");
        if (own?.InForce is not { } force || ResultLevel.Of(force) is not { } level) return null;
        var told = (c.Campaign.Rule == SensitivityRule.LinearBetween ? Between(c, microphone, own, level, from, to) : null)
            ?? OfCertificate(microphone, own, level);
        if (own.Issued.Loading == "loaded" || c.First(DeviceKind.Preamplifier) is not { } preamplifier) return told;
        var gain = CheckWork.Gain("preamplifier's gain", preamplifier.CertifiedBy(c.Day));
        return told with { Terms = [.. told.Terms, gain], Components = [.. told.Components, new(gain.Name, gain.Source, gain.StandardDb)] };
    }

    private static ToldLevel OfCertificate(DeviceState microphone, DeviceCertificate own, ResultLevel level)
    {
        var source = "certificate " + own.Fact;
        var standard = level.StandardUncertaintyDb ?? 0;
        var remark = level.StandardUncertaintyDb is null ? "it states no uncertainty" : null;
        var at = CalibrationSeries.AtReference(microphone, own, level.LevelDb);
        return new(
            SensitivityRule.Certificate, [new("microphone's certificate", at, standard, source, remark)],
            [new("microphone's certificate", source, standard)])
        {
            Caution = remark is null ? null : "The microphone's certificate states no uncertainty: U is too small.",
        };
    }

    // On a straight line to the next certificate; null where there is none yet.
    private static ToldLevel? Between(TracedChain c, DeviceState microphone, DeviceCertificate own, ResultLevel level, long from, long to)
    {
        if (Next(microphone, own) is not { Found: { } found } next || ResultLevel.Of(found) is not { } later) return null;
        var begin = CalibrationSeries.AtReference(microphone, own, level.LevelDb);
        var end = CalibrationSeries.AtReference(microphone, next, later.LevelDb);
        var middle = c.Shared.DayOf((from + to) / 2);
        var share = (middle.DayNumber - own.Day.DayNumber) / (double)(next.Day.DayNumber - own.Day.DayNumber);
        var remark = FormattableString.Invariant($"{share:0.000} of the way from {own.Day:yyyy-MM-dd} to {next.Day:yyyy-MM-dd}");
        return new(
            SensitivityRule.LinearBetween,
            [
                new("microphone, between its certificates", begin + (share * (end - begin)), level.StandardUncertaintyDb ?? 0,
                    $"certificates {own.Fact}, {next.Fact}", remark),
            ],
            [
                new("certificate before", "certificate " + own.Fact, level.StandardUncertaintyDb ?? 0, 1 - share),
                new("certificate after", "certificate " + next.Fact, later.StandardUncertaintyDb ?? 0, share),
            ]);
    }

    private static DeviceCertificate? Next(DeviceState microphone, DeviceCertificate own)
    {
        var series = SeriesKey.Of(own.Issued);
        return microphone.Certificates
            .Where(k => k.Day > own.Day && SeriesKey.Of(k.Issued) == series && k.Found is not null && microphone.ReliesOn(k))
            .OrderBy(k => k.Day).ThenByDescending(microphone.RankOf).ThenByDescending(k => k.Fact).FirstOrDefault();
    }

    // Flush and 7 mm over a plate +6 dB re free field, 1.2 m over ground +3 dB as an average over bands, pole 0 dB
    // (common practice, no source); the band by the image source.
    private static MountEffect Mount(TracedChain c)
    {
        if (c.Place?.AsBuilt is not { } plan)
        {
            return new(
                0, 0, double.PositiveInfinity, "The station was not planned: its mount is not known, and nothing is normalised.", []);
        }
        var asMeasured = MountUse.AsMeasured(plan, c.Stood.Said.GapMm);
        double? tolerance = c.Profile?.Value(LimitKey.MountToleranceDb) is { } t and > 0 ? t : null;
        var (low, high) = MountUse.Band(plan.Mount, asMeasured.HeightM ?? plan.Mount.UsualHeightM, tolerance ?? MountUse.UsualToleranceDb);
        IReadOnlyList<UncertaintyComponent> components = tolerance is { } half
            ? [
                UncertaintyComponent.FromHalfWidth(
                    "normalisation of the mount", UncertaintySources.Mount(plan.Mount), half, UncertaintyDistribution.Rectangular),
            ]
            : [];
        return plan.Mount switch
        {
            Campaigns.Mount.FlushPlate or Campaigns.Mount.InvertedPlate => new(0 - plan.Mount.RaisesDb, low, high, null, components),
            Campaigns.Mount.GroundStand => new(
                0 - plan.Mount.RaisesDb, low, high,
                "Direct and reflected sound interfere: -3 dB holds as an average over bands alone, never for a tone.", components),
            _ => new(0, low, high, null, []),
        };
    }

    // Capsule, windscreen and profile bound the band too; what is not known of them is said.
    private static MountEffect Bounded(TracedChain c, MountEffect mount, DeviceState microphone)
    {
        var cautions = new List<string>();
        if (microphone.Number(DeviceField.HighestHz) is null)
            cautions.Add("How high the microphone reaches is not known: the band's upper end is not bounded by it.");
        double from = Math.Max(mount.FromHz, c.Profile?.Value(LimitKey.BandFromHz) ?? 0);
        double to = Math.Min(mount.ToHz, c.Profile?.Value(LimitKey.BandToHz) ?? double.PositiveInfinity);
        foreach (var device in c.Chain.Where(d => d.Id == microphone.Id || d.Kind == DeviceKind.Windscreen.Key))
        {
            from = Math.Max(from, device.Number(DeviceField.LowestHz) ?? 0);
            to = Math.Min(to, device.Number(DeviceField.HighestHz) ?? double.PositiveInfinity);
            if (device.Kind == DeviceKind.Windscreen.Key && device.Number(DeviceField.HighestHz) is null)
                cautions.Add($"Up to where {device.Name} may be used is not known: the band is not bounded by it.");
        }
        return mount with { FromHz = from, ToHz = to, Caution = Joined([mount.Caution, .. cautions]) };
    }

    /// <summary>The level of a chain, and where its uncertainty comes from.</summary>
    private sealed record ToldLevel(SensitivityRule Rule, IReadOnlyList<CheckTerm> Terms, IReadOnlyList<UncertaintyComponent> Components)
    {
        /// <summary>What must be known of it; null where nothing.</summary>
        public string? Caution { get; init; }

        /// <summary>The checks that tell it, each as much as the others; empty where certificates do.</summary>
        public IReadOnlyList<CheckRecord> Checks { get; init; } = [];

        /// <summary>Which share of it recorded tones told, 0 to 1; the rest was told in V/Pa.</summary>
        public double RecordedShare { get; init; }
    }

    /// <summary>What a doubt behind a check may make of a level.</summary>
    private sealed record InDoubt(Doubt Doubt, CheckRecord Check, UncertaintyComponent Component);

    /// <summary>What the mount makes of a level, and where that holds.</summary>
    private sealed record MountEffect(
        double Db, double FromHz, double ToHz, string? Caution, IReadOnlyList<UncertaintyComponent> Components);
}

using MicRegister.Metrology.Sensitivities;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tracing;

/// <summary>Which sensitivity applies to a recording, and how well it is known.</summary>
internal static class Sensitivities
{
    private const double FlushDb = -6.020599913279624; // 20 lg 2
    private const double StandDb = -3.010299956639812; // 10 lg 2

    public static AppliedSensitivity? Apply(TraceContext c, Placement placement, List<DeviceState> chain, CheckRecord? before, CheckRecord? after, long from, long to, List<TraceReason> reasons)
    {
        if (chain.FirstOrDefault(d => d.Kind == DeviceKind.Microphone.Key) is not { } microphone) return null;
        var channel = chain.FirstOrDefault(d => d.Kind == DeviceKind.RecorderChannel.Key);
        var gain = channel is null ? null : CheckWork.Gain("channel's gain", channel.CertifiedBy(c.Day));
        var range = placement.Said.RangeV ?? before?.Check.RangeV ?? after?.Check.RangeV ?? channel?.Number(DeviceField.ChannelRangeV);
        var components = new List<UncertaintyComponent>();
        var (rule, terms) = c.Campaign.Rule == SensitivityRule.MeanOfChecks
            ? OfChecks(c, before, after, gain, microphone, chain, components, reasons)
            : OfCertificates(c, microphone, chain, from, to, components, reasons);
        if (terms is null) return null;
        AddEnvironment(c, microphone, rule, before, after, from, terms, components);
        var (mountDb, low, high, caution) = Mount(c, placement);
        if (mountDb != 0 && c.Profile?.Value(LimitKey.MountToleranceDb) is { } t and > 0) components.Add(UncertaintyComponent.FromHalfWidth("normalisation of the mount", "mount", t, UncertaintyDistribution.Rectangular));
        var volts = terms.Sum(x => x.ValueDb);
        var budget = new UncertaintyBudget(components);
        return new(rule, terms, volts, range is { } v ? volts + (gain?.ValueDb ?? 0) - (20 * Math.Log10(v)) : null, mountDb, low, high, caution, budget.Standard, budget.CoverageFactor(), components)
        {
            ReferenceHz = rule == SensitivityRule.MeanOfChecks ? OfCalibrator(c, before ?? after) : CalibrationSeries.Newest(microphone.CertifiedBy(c.Day), "sensitivity")?.Issued.FrequencyHz,
        };
    }

    private static double? OfCalibrator(TraceContext c, CheckRecord? check) => check is null || c.Device(check.Check.Calibrator) is not { } calibrator ? null
        : calibrator.Certificates.FirstOrDefault(k => k.Fact.ToString() == check.Check.CalibratorCertificate)?.Issued.FrequencyHz ?? calibrator.Number(DeviceField.FrequencyHz) ?? check.Check.Tone?.FrequencyHz;

    private static (SensitivityRule Rule, List<CheckTerm>? Terms) OfChecks(TraceContext c, CheckRecord? before, CheckRecord? after, CheckTerm? gain, DeviceState microphone, List<DeviceState> chain, List<UncertaintyComponent> components, List<TraceReason> reasons)
    {
        var known = new[] { before, after }.OfType<CheckRecord>().Where(k => Volts(k, gain) is not null).DistinctBy(k => k.Fact).ToList();
        if (known.Count == 0)
        {
            var (_, terms) = OfCertificates(c, microphone, chain, c.Event.StartMs, c.Event.StopMs, components, reasons);
            if (terms is not null) reasons.Add(new(TraceVerdict.Doubtful, "Its certificates are applied, since no check tells its sensitivity.", "campaign's rule: mean of the checks"));
            return (SensitivityRule.Certificate, terms);
        }
        double[] levels = [.. known.Select(k => Volts(k, gain)!.Value)];
        components.AddRange(UncertaintyBudget.OfSum([.. known.Select(k => (k.Budget, 1.0 / known.Count))]).Components);
        // How far it went between the checks may have happened at any time.
        if (levels.Length == 2) components.Add(UncertaintyComponent.FromHalfWidth("change between the checks", "this event: change between the checks", Math.Abs(levels[1] - levels[0]) / 2, UncertaintyDistribution.Rectangular));
        return (SensitivityRule.MeanOfChecks, [new(levels.Length == 2 ? "mean of the checks before and after" : before is null ? "check after" : "check before", levels.Average(), 0, string.Join(", ", known.Select(k => "fact " + k.Fact)), null)]);
    }

    // A recorded tone tells full scale, a voltage tells volts: the channel stands between.
    private static double? Volts(CheckRecord k, CheckTerm? gain) => k.Check.SensitivityDb is not { } db ? null
        : k.Check.SensitivityUnit == "FS/Pa" ? k.Check.RangeV is { } range ? db - (gain?.ValueDb ?? 0) + (20 * Math.Log10(range)) : null
        : db;

    private static (SensitivityRule Rule, List<CheckTerm>? Terms) OfCertificates(TraceContext c, DeviceState microphone, List<DeviceState> chain, long from, long to, List<UncertaintyComponent> components, List<TraceReason> reasons)
    {
        var own = CalibrationSeries.Newest(microphone.CertifiedBy(c.Day), "sensitivity");
        if (own?.InForce is not { } force || ResultLevel.Of(force) is not { } level) return (c.Campaign.Rule, null);
        var at = CalibrationSeries.AtReference(microphone, own, level.LevelDb);
        var terms = new List<CheckTerm>();
        var rule = SensitivityRule.Certificate;
        if (c.Campaign.Rule == SensitivityRule.LinearBetween && Next(microphone, own) is { } next && ResultLevel.Of(next.Found!.Value.Result) is { } later)
        {
            rule = SensitivityRule.LinearBetween;
            var (end, middle) = (CalibrationSeries.AtReference(microphone, next.Certificate, later.LevelDb), c.DayOf((from + to) / 2));
            var share = (middle.DayNumber - own.Day.DayNumber) / (double)(next.Certificate.Day.DayNumber - own.Day.DayNumber);
            terms.Add(new("microphone, between its certificates", at + (share * (end - at)), level.StandardUncertaintyDb ?? 0, $"certificates {own.Fact}, {next.Certificate.Fact}", FormattableString.Invariant($"{share:0.000} of the way from {own.Day:yyyy-MM-dd} to {next.Certificate.Day:yyyy-MM-dd}")));
            components.Add(new("certificate before", "certificate " + own.Fact, level.StandardUncertaintyDb ?? 0, 1 - share));
            components.Add(new("certificate after", "certificate " + next.Certificate.Fact, later.StandardUncertaintyDb ?? 0, share));
        }
        else
        {
            if (c.Campaign.Rule == SensitivityRule.LinearBetween) reasons.Add(new(TraceVerdict.Doubtful, "There is no certificate after it yet, so the one before is applied.", "campaign's rule: linear between certificates"));
            terms.Add(new("microphone's certificate", at, level.StandardUncertaintyDb ?? 0, "certificate " + own.Fact, level.StandardUncertaintyDb is null ? "it states no uncertainty" : null));
            components.Add(new("microphone's certificate", "certificate " + own.Fact, level.StandardUncertaintyDb ?? 0));
        }
        if (own.Issued.Loading != "loaded" && chain.FirstOrDefault(d => d.Kind == DeviceKind.Preamplifier.Key) is { } preamplifier)
        {
            var gain = CheckWork.Gain("preamplifier's gain", preamplifier.CertifiedBy(c.Day));
            terms.Add(gain);
            components.Add(new(gain.Name, gain.Source, gain.StandardDb));
        }
        return (rule, terms);
    }

    private static (DeviceCertificate Certificate, (CalibrationResult Result, bool _)? Found)? Next(DeviceState microphone, DeviceCertificate own)
    {
        var next = microphone.Certificates.Where(k => k.Day > own.Day && SeriesKey.Of(k.Issued) == SeriesKey.Of(own.Issued) && k.Found is not null && microphone.ReliesOn(k)).OrderBy(k => k.Day).ThenBy(k => k.Fact).FirstOrDefault();
        return next is null ? null : (next, (next.Found!, true));
    }

    // From the air of the checks, or reference conditions, to the air of the event, by the microphone's own coefficients.
    private static void AddEnvironment(TraceContext c, DeviceState microphone, SensitivityRule rule, CheckRecord? before, CheckRecord? after, long from, List<CheckTerm> terms, List<UncertaintyComponent> components)
    {
        var own = new EnvironmentCoefficients(microphone.Number(DeviceField.PressureCoefficient) ?? 0, microphone.Number(DeviceField.TemperatureCoefficient) ?? 0, microphone.Number(DeviceField.HumidityCoefficient) ?? 0);
        if (own == default) return;
        var reference = AirConditions.Reference;
        var airs = rule == SensitivityRule.MeanOfChecks ? new[] { before, after }.OfType<CheckRecord>().Select(k => k.Check.Air).OfType<StatedAir>().ToList() : [];
        AirConditions Mean() => new(airs.Average(a => a.PressureKPa) ?? reference.PressureKPa, airs.Average(a => a.TemperatureC) ?? reference.TemperatureC, airs.Average(a => a.HumidityPercent) ?? reference.HumidityPercent);
        var known = airs.Count > 0 ? Mean() : reference;
        if (c.WeatherAt(from) is not { } weather)
        {
            terms.Add(new("microphone, to the air of the event", 0, 0, "none", "no weather was noted within three hours; nothing is added"));
            return;
        }
        // What was not noted is taken as it was during the checks.
        var change = own.Between(known, new(weather.PressureKPa ?? known.PressureKPa, weather.TemperatureC ?? known.TemperatureC, weather.HumidityPercent ?? known.HumidityPercent)).Decibels;
        // As well as the air is read at a check; the coefficients are taken as exact.
        var source = $"weather of {c.Event.Id}";
        var standard = Math.Sqrt(Math.Pow(own.TemperatureDbPerK * CheckWork.ThermometerK, 2) + Math.Pow(own.PressureDbPerKPa * CheckWork.BarometerKPa, 2));
        components.Add(new("air of the event", source, standard));
        terms.Add(new("microphone, to the air of the event", change, standard, source, null));
    }

    /// <summary>What the mount makes of a level, and where that holds.</summary>
    /// <remarks>Flush and 7 mm over a plate +6 dB re free field, 1.2 m over ground +3 dB as an average over bands, pole 0 dB (common practice, no source); the band by the image source.</remarks>
    private static (double Db, double FromHz, double ToHz, string? Caution) Mount(TraceContext c, Placement placement)
    {
        if (c.Campaign.Stations.GetValueOrDefault(placement.Station) is not { } plan) return (0, 0, double.PositiveInfinity, "The station was not planned: its mount is not known, and nothing is normalised.");
        var chain = new PlannedChain(placement.Station, placement.Said.GapMm is { } gap && plan.Mount == Campaigns.Mount.InvertedPlate ? plan with { HeightM = gap / 1000 } : plan, []);
        var (low, high) = ChainRules.UsableBand(chain, c.Profile?.Value(LimitKey.MountToleranceDb) is { } t and > 0 ? t : 1);
        return plan.Mount switch
        {
            Campaigns.Mount.FlushPlate or Campaigns.Mount.InvertedPlate => (FlushDb, low, high, null),
            Campaigns.Mount.GroundStand => (StandDb, low, high, "Direct and reflected sound interfere: -3 dB holds as an average over bands alone, never for a tone."),
            _ => (0, low, high, null),
        };
    }
}

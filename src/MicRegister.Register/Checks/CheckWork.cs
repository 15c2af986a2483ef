using MicRegister.Metrology.Calibrators;
using MicRegister.Metrology.Checks;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>Works out a check: the calibrator's level at the place, the chain's sensitivity, what its certificates let expect, and the uncertainty.</summary>
public static class CheckWork
{
    /// <summary>Standard uncertainty of a barometer's reading where none is stated, in kPa (common practice, no source).</summary>
    public const double BarometerKPa = 0.05;

    /// <summary>Standard uncertainty of the air's temperature, in K (common practice, no source).</summary>
    public const double ThermometerK = 1;

    /// <summary>Standard uncertainty of one insertion alone, in dB (common practice, no source).</summary>
    public const double OneInsertionDb = 0.03;

    /// <summary>Most insertions of one check.</summary>
    public const int MostReadings = 20;

    private const double ReferenceC = 23;
    internal const string ReadingInstrument = "reading instrument";
    internal const string TemperatureTerm = "temperature";
    internal const string AtThePlace = "microphone, to the air at the place";
    private const double SameLevelDb = 5;
    private const double SameFrequencyShare = 0.05;

    /// <summary>Works a check out.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="entry">What was read.</param>
    /// <returns>The body of its fact, or which value is wrong and what is allowed.</returns>
    public static Result<ChainChecked> Out(Register register, CheckEntry entry)
    {
        CampaignState? campaign = null;
        if (entry.Campaign is { } id && (campaign = register.Campaign(id)) is null) return new Rejection(RejectionSort.NotFound, $"There is no campaign {id}.");
        if (campaign is not null && (entry.Station is null || !campaign.Stations.ContainsKey(entry.Station))) return Saying.Invalid($"Station '{entry.Station}': {campaign.Name} has no such station.");
        var chainIds = entry.Devices ?? (campaign is null ? [] : campaign.Chains.GetValueOrDefault(entry.Station!, []));
        if (chainIds.Count == 0) return Saying.Invalid(campaign is null ? "Devices are missing: a check is of at least a microphone." : $"No devices are planned for station {entry.Station}; name them.");
        if (chainIds.FirstOrDefault(d => register.Device(d) is null) is { } missing) return DeviceDecisions.Missing(missing);
        if (register.Device(entry.Calibrator) is not { } calibrator) return DeviceDecisions.Missing(entry.Calibrator);
        if (calibrator.Kind != DeviceKind.Calibrator.Key) return Saying.Invalid($"{calibrator.Name} is no sound calibrator.");
        if (entry.Adapter is { } adapterId && register.Device(adapterId)?.Kind != DeviceKind.Adapter.Key) return Saying.Invalid($"Adapter '{adapterId}' is no calibration adapter of this register.");
        if (chainIds.Select(d => register.Device(d)!.Id).GroupBy(d => d, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
            return Saying.Invalid($"Devices: {twice.Key} is named twice.");
        if (chainIds.Any(d => register.Device(d)!.Id == calibrator.Id))
            return Saying.Invalid($"{calibrator.Name} cannot be a part of the chain that it checks.");
        if (entry.At is { } said && !Occurred.TryParse(said, out _))
        {
            return Saying.Invalid(
                $"Time '{said}': allowed is a day such as 2026-05-04 or an instant such as 2026-05-04T10:11:12.000Z.");
        }
        if (entry.FrequencyHz is { } hz && !(hz is > 0 and <= 1e6))
            return Saying.Invalid($"Frequency '{hz}': allowed is a number above 0 up to 1000000 Hz.");
        if (entry.NominalDb is { } nominal && !(nominal is >= 40 and <= 160))
            return Saying.Invalid($"Nominal level '{nominal}': allowed is a number from 40 to 160 dB.");
        if (entry.Barometer is { } barometer && register.Device(barometer)?.Kind != DeviceKind.Barometer.Key)
            return Saying.Invalid($"Barometer '{barometer}' is no barometer of this register.");
        if (entry.Meter is { } meterId && (register.Device(meterId) is not { } meterDevice || chainIds.Any(d => register.Device(d)!.Id == meterDevice.Id)))
            return Saying.Invalid($"Meter '{meterId}' is no device of this register beside the chain.");
        if (WrongReading(entry) is { } wrongReading) return wrongReading;
        if (WrongAir(entry) is { } wrongAir) return wrongAir;

        // As certificates stood on the day of the check: what came later says nothing of it.
        var day = entry.At is { } text && Occurred.TryParse(text, out var at) ? CheckBook.Day(register, campaign?.Id, at, at.UnixMilliseconds) : DateOnly.MaxValue;
        List<DeviceState> chain = [.. chainIds.Select(d => register.Device(d)!.CertifiedBy(day))];
        calibrator = calibrator.CertifiedBy(day);
        var microphone = chain.FirstOrDefault(d => d.Kind == DeviceKind.Microphone.Key);
        var candidates = Levels(calibrator, entry);
        if (candidates.Count == 0) return Saying.Invalid($"{calibrator.Name} has no certificate of its level{(day == DateOnly.MaxValue ? "" : $" from {day:yyyy-MM-dd} or before")}.");
        if (candidates.Count > 1)
        {
            var several = candidates.Select(l => QuantityText.UpTo(l.Level.LevelDb, 1) + " dB"
                + (l.Certificate.Issued.FrequencyHz is { } f ? FormattableString.Invariant($" at {f} Hz") : ""));
            return Saying.Invalid(
                $"{calibrator.Name} has certificates of {string.Join(" and ", several)}: state which (nominal level).");
        }
        var (certificate, certified) = candidates[0];
        var pressure = PressureOf(entry, campaign?.Plan);
        var law = calibrator.Text(DeviceField.PressureLaw);
        if (law is "adiabatic" or "coefficient" && pressure is null)
            return Saying.Invalid($"Static pressure is missing: the level of {calibrator.Name} follows it. Read it at the place, or ask for an estimate from the altitude.");
        if (campaign?.Plan is { } plan && pressure is { IsEstimated: false } read && read.Doubt(plan.AltitudeM) is { } doubt) return Saying.Invalid($"Static pressure: {doubt}.");

        var terms = CalibratorTerms(calibrator, certificate, certified, entry, pressure, campaign?.Id, day, microphone);
        var calibratorDb = terms.Sum(t => t.Term.ValueDb);
        var expected = Expected(chain, microphone, entry, pressure);
        var lines = terms.SelectMany(t => t.Lines.Select(l => l with { Sensitivity = -l.Sensitivity })).ToList();

        double[] levels = [.. entry.Readings.Select(r => entry.Method == CheckMethod.Indicated ? ChainSensitivity.DeviationDb(r, calibratorDb) : ChainSensitivity.LevelDb(r, calibratorDb))];
        var level = levels.Average();
        lines.Add(levels.Length > 1
            ? Line(UncertaintyComponent.FromReadings("insertions", BudgetLine.Own + "insertions", levels), "dB")
            : new("one insertion, assumed", BudgetLine.Own + "insertions", OneInsertionDb, "dB", 1, null, UncertaintyDistribution.Normal));
        if (entry.Resolution is { } step and > 0)
        {
            var perUnit = entry.Method == CheckMethod.Indicated ? 1 : Metrology.Sensitivities.LevelChange.DecibelsPerRelative / entry.Readings.Average();
            lines.Add(Line(UncertaintyComponent.FromHalfWidth("resolution of the reading", BudgetLine.Own + "resolution", step / 2, UncertaintyDistribution.Rectangular, perUnit), Unit(entry.Method)));
        }
        if (entry.MeterDb is { } meter and > 0)
        {
            var by = entry.Meter is { } named ? $"{ReadingInstrument} {register.Device(named)!.Id}" : ReadingInstrument;
            lines.Add(new(ReadingInstrument, by, meter, "dB", 1, null, UncertaintyDistribution.Normal));
        }
        var budget = BudgetOf(lines);

        double? expectedDb = expected.Count == 0 ? null : expected.Sum(t => t.ValueDb), sensitivity = level, indicated = null;
        if (entry.Method == CheckMethod.Indicated) (indicated, sensitivity) = (level, (entry.SetToDb ?? expectedDb - expected.Where(t => t.Name == AtThePlace).Sum(t => t.ValueDb)) + level); // an instrument is set to its certificate, whatever the air
        return new Result<ChainChecked>.Accepted(new(
            entry.Station, entry.Moment, [.. chain.Select(d => d.Id)], calibrator.Id, certificate.Fact.ToString(), entry.Adapter, entry.Air, pressure?.IsEstimated == true,
            entry.Method, entry.Readings, entry.Resolution, RangeOf(chain, entry), Rounded(calibratorDb), [.. terms.Select(t => t.Term)],
            sensitivity is { } s ? Rounded(s) : null, sensitivity is null ? null : entry.Method == CheckMethod.Recording ? "FS/Pa" : "V/Pa", indicated is { } i ? Rounded(i) : null,
            expected, sensitivity - expectedDb is { } deviation ? Rounded(deviation) : null,
            lines, budget.Standard, budget.CoverageFactor(), budget.Expanded(), entry.Tone, string.IsNullOrWhiteSpace(entry.Remark) ? null : entry.Remark.Trim())
        {
            Barometer = entry.Barometer is { } b ? register.Device(b)!.Id : null,
            Meter = entry.Meter is { } m ? register.Device(m)!.Id : null,
        });
    }

    /// <summary>The budget of stored lines.</summary>
    public static UncertaintyBudget BudgetOf(IReadOnlyList<BudgetLine> lines) => new([.. lines.Select(l =>
        new UncertaintyComponent(
            l.Name, l.Source, l.StandardUncertainty, l.Sensitivity, l.DegreesOfFreedom ?? double.PositiveInfinity, l.Distribution)
        { Unit = l.Unit })]);

    /// <summary>Peak voltage of full scale of a chain's channel, where it is known.</summary>
    private static double? RangeOf(List<DeviceState> chain, CheckEntry entry) =>
        entry.RangeV ?? chain.FirstOrDefault(d => d.Kind == DeviceKind.RecorderChannel.Key)?.Number(DeviceField.ChannelRangeV);

    // The newest certificate of each level and frequency that a calibrator gives, narrowed by what is known of the one that was heard.
    private static List<(DeviceCertificate Certificate, ResultLevel Level)> Levels(DeviceState calibrator, CheckEntry entry)
    {
        var newest = NewestLevels(calibrator);
        if (newest.Count > 1 && (entry.Tone?.FrequencyHz ?? entry.FrequencyHz) is { } hz)
        {
            var heard = newest.Where(n => n.Certificate.Issued.FrequencyHz is { } f && IsSameFrequency(f, hz)).ToList();
            if (heard.Count > 0) newest = heard;
        }
        var about = entry.NominalDb ?? (entry.Method == CheckMethod.Indicated ? entry.Readings.Average() : null);
        if (newest.Count > 1 && about is { } db)
        {
            var near = newest.Where(n => IsSameLevel(n.Level.LevelDb, db)).ToList();
            if (near.Count > 0) newest = near;
        }
        return newest;
    }

    /// <summary>The newest certificate of each level and frequency that a calibrator gives.</summary>
    internal static List<(DeviceCertificate Certificate, ResultLevel Level)> NewestLevels(DeviceState calibrator)
    {
        var newest = new List<(DeviceCertificate Certificate, ResultLevel Level)>();
        var levels = calibrator.Certificates.Where(c => c.Issued.Quantity == "level" && calibrator.ReliesOn(c));
        foreach (var c in levels.OrderByDescending(c => c.Day).ThenByDescending(calibrator.RankOf).ThenByDescending(c => c.Fact))
        {
            if (c.InForce is not { } force || ResultLevel.Of(force) is not { } level) continue;
            var isKnown = newest.Any(n => IsSameLevel(n.Level.LevelDb, level.LevelDb)
                && IsSameFrequency(n.Certificate.Issued.FrequencyHz, c.Issued.FrequencyHz));
            if (!isKnown) newest.Add((c, level));
        }
        return newest;
    }

    /// <summary>Whether two levels are one of those that a calibrator gives.</summary>
    internal static bool IsSameLevel(double aDb, double bDb) => Math.Abs(aDb - bDb) < SameLevelDb;

    /// <summary>Whether two frequencies are one of those that a calibrator gives; one that nobody stated may be any.</summary>
    internal static bool IsSameFrequency(double? a, double? b) =>
        a is null || b is null || Math.Abs(a.Value - b.Value) <= SameFrequencyShare * b.Value;

    private static Rejection? WrongReading(CheckEntry entry)
    {
        if (entry.Readings.Count is 0 or > MostReadings) return Saying.Invalid($"Readings: 1 to {MostReadings} are allowed, not {entry.Readings.Count}.");
        var (least, greatest) = entry.Method switch
        {
            CheckMethod.Voltage => (1e-6, 100.0),
            CheckMethod.Indicated => (40.0, 160.0),
            _ => (1e-6, 1.0),
        };
        foreach (var r in entry.Readings)
        {
            if (!(r >= least && r <= greatest)) return Saying.Invalid(FormattableString.Invariant($"Reading '{r}': allowed is a number from {least} to {greatest} {Unit(entry.Method)}."));
        }
        if (entry.Resolution is { } step && !(step >= 0 && step <= greatest)) return Saying.Invalid(FormattableString.Invariant($"Resolution '{step}': allowed is a number from 0 to {greatest} {Unit(entry.Method)}."));
        if (entry.MeterDb is { } meter && !(meter is >= 0 and <= 5)) return Saying.Invalid($"Uncertainty of the reading instrument '{meter}': allowed is a number from 0 to 5 dB.");
        if (entry.RangeV is { } range && !(range is >= 0.001 and <= 1000)) return Saying.Invalid($"Range '{range}': allowed is a number from 0.001 to 1000 V peak.");
        return entry.SetToDb is { } set && !(set is >= -120 and <= 20) ? Saying.Invalid($"Sensitivity that the chain was set to '{set}': allowed is a number from -120 to 20 dB re 1 V/Pa.") : null;
    }

    private static Rejection? WrongAir(CheckEntry entry)
    {
        if (entry.Air?.PressureKPa is { } p && !(p is >= 30 and <= 120)) return Saying.Invalid($"Static pressure '{p}': allowed is a number from 30 to 120 kPa (1013 hPa are 101.3 kPa).");
        if (entry.Air?.TemperatureC is { } t && !(t is >= -50 and <= 70)) return Saying.Invalid($"Temperature '{t}': allowed is a number from -50 to 70 °C.");
        if (entry.Air?.HumidityPercent is { } h && !(h is >= 0 and <= 100)) return Saying.Invalid($"Humidity '{h}': allowed is a number from 0 to 100 %.");
        return entry.PressureUncertaintyKPa is { } u && !(u is > 0 and <= 10) ? Saying.Invalid($"Uncertainty of the static pressure '{u}': allowed is a number above 0 up to 10 kPa.") : null;
    }

    private static StationPressure? PressureOf(CheckEntry entry, CampaignPlanned? plan) =>
        entry.Air?.PressureKPa is { } kPa ? new(kPa, entry.PressureUncertaintyKPa ?? BarometerKPa)
        : entry.EstimatePressure == true && plan is not null ? StationPressure.FromAltitude(plan.AltitudeM)
        : null;

    private static List<(CheckTerm Term, BudgetLine[] Lines)> CalibratorTerms(
        DeviceState calibrator, DeviceCertificate certificate, ResultLevel certified, CheckEntry entry, StationPressure? pressure, string? campaign, DateOnly day, DeviceState? microphone)
    {
        var coupling = Coupling.Of(calibrator, entry.Adapter, microphone?.Model);
        var law = calibrator.Text(DeviceField.PressureLaw) switch { "adiabatic" => PressureLaw.Adiabatic, "coefficient" => PressureLaw.Coefficient, _ => PressureLaw.None };
        var stated = new List<StatedCorrection>();
        // A correction of exactly nought was not looked at, or is known to be none: its uncertainty counts either way.
        if (coupling is { } c)
        {
            stated.Add(new("load volume", c.LoadVolumeDb, (c.LoadVolumeExpandedDb ?? 0) / 2));
            // Only where the chain is held against a sensitivity of the free field.
            if (microphone is null || CalibrationSeries.Newest(microphone, "sensitivity")?.Issued.Field is not "pressure") stated.Add(new("pressure to free field", c.FieldDb, (c.FieldExpandedDb ?? 0) / 2));
        }
        var level = CalibratorLevel.Of(certified.LevelDb, certified.StandardUncertaintyDb ?? 0, certificate.Fact.ToString(), certificate.Issued.StatedForKPa, law, calibrator.Number(DeviceField.PressureCoefficient) ?? 0, pressure, stated);
        var terms = new List<(CheckTerm, BudgetLine[])>();
        for (var i = 0; i < level.Terms.Count; i++)
        {
            var (term, component) = (level.Terms[i], level.Budget.Components[i]);
            var (source, remark) = term.Name switch
            {
                "certificate" => ("certificate " + certificate.Fact, certified.StandardUncertaintyDb is null ? "it states no uncertainty; none is taken" : certified.FactorWasAssumed ? "k was not stated; 2 is taken" : null),
                "static pressure" => (pressure is { IsEstimated: true } ? $"weather at {campaign} on {(day == DateOnly.MaxValue ? "the day" : day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture))}" : entry.Barometer is { } read ? $"barometer {read}" : $"barometer of {campaign ?? "the bench"}", Blank(term.Remark)),
                _ => ($"coupling of {calibrator.Id}, {coupling?.Adapter}, {DeviceIdentity.Normal(coupling?.MicrophoneModel)}: {term.Name}", coupling?.Source),
            };
            terms.Add((new(term.Name, Rounded(term.ValueDb), term.StandardUncertaintyDb, source, remark),
                [new(term.Name, source, component.StandardUncertainty, term.Name == "static pressure" ? "kPa" : "dB", component.Sensitivity, null, UncertaintyDistribution.Normal)]));
        }
        if (law == PressureLaw.None && calibrator.Text(DeviceField.PressureLaw) is null)
            terms.Add((new("static pressure", 0, 0, "none", "how its level follows static pressure is not stated; nothing is added"), []));
        if (coupling is null && microphone is not null)
            terms.Add((new("load volume and field", 0, 0, "none", $"nothing is stated of this calibrator on {microphone.Model ?? "these microphones"}; nothing is added"), []));
        if (calibrator.Number(DeviceField.TemperatureCoefficient) is { } perK && entry.Air?.TemperatureC is { } celsius)
        {
            var reference = certificate.Issued.Air?.TemperatureC;
            terms.Add((new(TemperatureTerm, Rounded(perK * (celsius - (reference ?? ReferenceC))), Math.Abs(perK) * ThermometerK, "thermometer", reference is null ? "its certificate states no temperature; 23 °C are taken" : null),
                [new(TemperatureTerm, "thermometer", ThermometerK, "K", perK, null, UncertaintyDistribution.Normal)]));
        }
        return terms;
    }

    // What the certificates of the parts let expect; empty where a part says too little.
    private static List<CheckTerm> Expected(List<DeviceState> chain, DeviceState? microphone, CheckEntry entry, StationPressure? pressure)
    {
        if (microphone is null || CalibrationSeries.Newest(microphone, "sensitivity") is not { } own || own.InForce is not { } inForce || ResultLevel.Of(inForce) is not { } certified) return [];
        var terms = new List<CheckTerm> { new("microphone's certificate", Rounded(CalibrationSeries.AtReference(microphone, own, certified.LevelDb)), certified.StandardUncertaintyDb ?? 0, "certificate " + own.Fact, certified.StandardUncertaintyDb is null ? "it states no uncertainty" : null) };
        if (ToPlace(microphone, new(pressure?.KPa ?? entry.Air?.PressureKPa, entry.Air?.TemperatureC, entry.Air?.HumidityPercent)) is var change and not 0) terms.Add(new(AtThePlace, Rounded(change), 0, "thermometer", null));
        if (own.Issued.Loading != "loaded") AddGain(terms, "preamplifier's gain", chain.FirstOrDefault(d => d.Kind == DeviceKind.Preamplifier.Key));
        if (entry.Method != CheckMethod.Recording) return terms;
        AddGain(terms, "channel's gain", chain.FirstOrDefault(d => d.Kind == DeviceKind.RecorderChannel.Key));
        if (RangeOf(chain, entry) is not { } range) return [];
        terms.Add(new("channel's range", Rounded(-20 * Math.Log10(range)), 0, "none", FormattableString.Invariant($"full scale is {range} V peak")));
        return terms;
    }

    private static void AddGain(List<CheckTerm> terms, string name, DeviceState? device)
    {
        if (device is not null) terms.Add(Gain(name, device));
    }

    /// <summary>What a preamplifier or channel adds, by its certificate or its entry.</summary>
    internal static CheckTerm Gain(string name, DeviceState device) =>
        CalibrationSeries.Newest(device, "gain") is { InForce: { } inForce } certificate && ResultLevel.Of(inForce) is { } gain
            ? new(name, Rounded(gain.LevelDb), gain.StandardUncertaintyDb ?? 0, "certificate " + certificate.Fact, null)
            : new(name, device.Number(DeviceField.GainDb) ?? 0, 0, "none", device.Number(DeviceField.GainDb) is null ? "no certificate of its gain; 0 dB is taken" : "no certificate of its gain; its entry's is taken");

    private static double ToPlace(DeviceState microphone, StatedAir air)
    {
        var own = new Metrology.Sensitivities.EnvironmentCoefficients(
            microphone.Number(DeviceField.PressureCoefficient) ?? 0, microphone.Number(DeviceField.TemperatureCoefficient) ?? 0, microphone.Number(DeviceField.HumidityCoefficient) ?? 0);
        var reference = Metrology.Sensitivities.AirConditions.Reference;
        return own.Between(reference, new(air.PressureKPa ?? reference.PressureKPa, air.TemperatureC ?? reference.TemperatureC, air.HumidityPercent ?? reference.HumidityPercent)).Decibels;
    }

    /// <summary>Unit of a reading.</summary>
    public static string Unit(CheckMethod method) => method switch { CheckMethod.Voltage => "V", CheckMethod.Indicated => "dB", _ => "of full scale" };

    private static BudgetLine Line(UncertaintyComponent c, string unit) => new(c.Name, c.Source, c.StandardUncertainty, unit, c.Sensitivity, double.IsFinite(c.DegreesOfFreedom) ? c.DegreesOfFreedom : null, c.Distribution);

    // What decides must be the same on every machine, whatever the last bits of a logarithm are.
    private static double Rounded(double db) => Math.Round(db, 6, MidpointRounding.AwayFromZero);

    private static string? Blank(string text) => text.Length == 0 ? null : text;
}

using MicRegister.Metrology.Responses;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>What is to be added to the level of each third-octave band that a chain recorded, for the free field without a windscreen.</summary>
/// <param name="AngleDeg">Angle of incidence in °; null where nobody stated one, so that all that the curves hold is taken as alike.</param>
/// <param name="HalfWidthDeg">How far it may lie from there, in °.</param>
/// <param name="AngleSource">Where the angle comes from.</param>
/// <param name="ReferenceHz">Frequency that responses are relative to, in Hz: that of the sensitivity.</param>
/// <param name="Bands">From the lowest to the highest of the campaign's band of interest.</param>
/// <param name="Cautions">What must be known of them; empty where nothing.</param>
public sealed record BandCorrections(double? AngleDeg, double HalfWidthDeg, string AngleSource, double ReferenceHz, IReadOnlyList<BandCorrection> Bands, IReadOnlyList<string> Cautions)
{
    /// <summary>Reference frequency where nothing states one: 250 Hz (common practice, no source).</summary>
    public const double UsualHz = 250;

    /// <summary>Works the corrections of a station out.</summary>
    /// <param name="station">What applies to it.</param>
    /// <param name="plan">States the band of interest; null takes 50 Hz to 10 kHz.</param>
    /// <param name="read">Gives the curves of an attachment by angle, by its SHA-256; null where it is not here or holds no figures.</param>
    /// <param name="angleDeg">An angle to work with in place of the stated one, in °, 0 to 180; null takes the stated one.</param>
    /// <returns>Null where no sensitivity is known.</returns>
    public static BandCorrections? Of(StationTrace station, CampaignPlanned? plan, Func<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>?> read, double? angleDeg = null)
    {
        if (station.Applied is not { } applied) return null;
        List<string> cautions = [.. applied.Caution is { } caution ? new[] { caution } : []];
        var reference = applied.ReferenceHz ?? UsualHz;
        if (applied.ReferenceHz is null && station.Curves.Any(c => c.Acts == CurveActs.Response)) cautions.Add(FormattableString.Invariant($"Nothing states the frequency of the sensitivity; responses are taken relative to {UsualHz} Hz."));
        var responses = Responses(station, read, reference, cautions);
        Missing(station, cautions);
        var (angle, half, source) = angleDeg is { } asked ? (asked, 0, "asked for") : station.Incidence is { } stated ? (stated.Said.AngleDeg, stated.Said.HalfWidthDeg ?? 0, $"fact {stated.Fact}") : ((double?)null, 0.0, "not stated");
        if (angle is null && responses.Any(r => r.Response?.Angles.Count > 1)) cautions.Add("No angle of incidence is stated: the middle of all curves is taken, and what lies between them is part of the uncertainty.");
        foreach (var r in responses.Where(r => angle is null && r.Response?.Angles.Count == 1)) cautions.Add(FormattableString.Invariant($"No angle of incidence is stated: the curve of {r.Device.Name} holds for {r.Response!.Angles[0]:0.#}°, and what another direction makes of it is not part of the uncertainty."));
        // A plan from elsewhere may state a band that cannot be.
        var (low, high) = plan is { LowestHz: >= 1, HighestHz: <= 1e6 } p && p.LowestHz <= p.HighestHz ? (p.LowestHz, p.HighestHz) : (50, 10_000);
        List<BandCorrection> bands = [.. ThirdOctave.Between(low, high).Select(b => Band(b, applied, station, responses, angle, half))];
        foreach (var name in bands.SelectMany(b => b.Terms).Where(t => t.Remark is not null).Select(t => t.Name).Distinct(StringComparer.Ordinal)) cautions.Add($"The {name} is stated without an uncertainty, at least in some bands: there it counts as exact.");
        if (bands.Any(b => b.TotalDb is null) && responses.All(r => r.Response is not null)) cautions.Add("Bands without a sum lie outside of what the curves hold, in frequency or by more than 30° from all of their angles.");
        if (bands.Any(b => !b.IsWithinMount)) cautions.Add("In bands that are marked the mount does not keep its normalisation.");
        return new(angle, half, source, reference, bands, cautions);
    }

    // Each device's curves as one response; null where one of them cannot be read, so that bands stay open.
    private static List<Acting> Responses(StationTrace station, Func<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>?> read, double reference, List<string> cautions)
    {
        var responses = new List<Acting>();
        foreach (var group in station.Curves.GroupBy(c => (c.Device.Id, c.Acts)))
        {
            var device = group.First().Device;
            var curves = new List<DirectionalCurve>();
            var isReadable = true;
            foreach (var acting in group)
            {
                if (curves.Exists(c => c.AngleDeg is null)) break;
                if (read(acting.Sha256) is not { } table)
                {
                    cautions.Add($"The curve of {device.Name} of {acting.Certificate.Day:yyyy-MM-dd} is not here or holds no figures: its bands stay open.");
                    isReadable = false;
                    break;
                }
                foreach (var (own, curve) in table)
                {
                    var at = own ?? acting.AngleDeg;
                    // The newest of each angle counts, and one for every direction only where it is the newest of all.
                    if (at is null ? curves.Count > 0 : curves.Exists(c => c.AngleDeg == at)) continue;
                    curves.Add(new(at, curve, "curve of certificate " + acting.Certificate.Fact));
                }
            }
            // What all of them are relative to is the level of the lowest angle, where the sensitivity holds.
            if (isReadable && curves.Count > 0 && group.Key.Acts == CurveActs.Response)
            {
                if (curves.MinBy(c => c.AngleDeg ?? 0)!.Curve.AtBand(reference) is var (zero, _)) curves = [.. curves.Select(c => c with { Curve = c.Curve.Less(zero) })];
                else cautions.Add(FormattableString.Invariant($"The curve of {device.Name} does not reach {reference:0.##} Hz, where its sensitivity holds: it is taken as it stands."));
            }
            responses.Add(new(device, group.Key.Acts, isReadable && curves.Count > 0 ? new(curves) : null));
        }
        return responses;
    }

    private static void Missing(StationTrace station, List<string> cautions)
    {
        foreach (var device in station.Chain.Where(d => d.Kind == DeviceKind.Microphone.Key && station.Curves.All(c => c.Device.Id != d.Id && !c.Certificate.Set.Contains(d.Id))))
        {
            if (device.Certificates.Any(c => !c.IsAnnulled && c.Day <= station.Day && c.Issued.Curve is not null && c.Set.Count > 1 && ActingCurve.Fits(c.Issued.Field, station.Plan?.Mount)))
            {
                cautions.Add($"The response of {device.Name} was measured in a set that did not stand together: it is taken as flat.");
                continue;
            }
            var others = device.Certificates.Where(c => !c.IsAnnulled && c.Day <= station.Day && c.Issued.Curve is not null && !ActingCurve.Fits(c.Issued.Field, station.Plan?.Mount)).Select(c => c.Issued.Field).Distinct(StringComparer.Ordinal).ToList();
            cautions.Add(others.Count > 0 ? $"{device.Name} has a response in {string.Join(" and ", others)} alone, which is not how it stood: it is taken as flat." : $"No response of {device.Name} is on record: it is taken as flat.");
        }
        foreach (var screen in station.Chain.Where(d => d.Kind == DeviceKind.Windscreen.Key && station.Curves.All(c => c.Device.Id != d.Id)))
        {
            cautions.Add(GreatestLoss(screen, station.Day) is var (db, _) ? FormattableString.Invariant($"Of {screen.Name} no curve is on record: nothing is corrected, and its greatest insertion loss of {db:0.00} dB is part of the uncertainty.") : $"No insertion loss of {screen.Name} is on record: nothing is corrected.");
        }
    }

    // One figure for all bands and angles, in dB and without its sign.
    private static (double Db, string Source)? GreatestLoss(DeviceState screen, DateOnly day)
    {
        var certificate = CalibrationSeries.Newest(screen.CertifiedBy(day), "insertion-loss");
        return certificate?.InForce is { } result && ResultLevel.Of(result) is { } level ? (Math.Abs(level.LevelDb), "certificate " + certificate.Fact)
            : screen.Number(DeviceField.InsertionLossDb) is { } field ? (Math.Abs(field), "details of " + screen.Id) : null;
    }

    private static BandCorrection Band(ThirdOctave band, AppliedSensitivity applied, StationTrace station, List<Acting> responses, double? angle, double half)
    {
        var terms = new List<BandTerm>();
        List<UncertaintyComponent> components = [.. applied.Budget];
        var isOpen = false;
        foreach (var r in responses)
        {
            var level = angle is { } a ? r.Response?.At(band.MiddleHz, a, half) : r.Response?.Anywhere(band.MiddleHz);
            if (level is not { } known)
            {
                isOpen = true;
                continue;
            }
            var sign = r.Acts == CurveActs.Response ? -1 : 1;
            var name = $"{(r.Acts == CurveActs.Response ? "response" : "insertion loss")} of {r.Device.Name}";
            List<UncertaintyComponent> own = [.. known.Parts.Select(p => new UncertaintyComponent(name, p.Source, p.StandardDb, sign))];
            // The direction moves all curves at once; which way is not known, so they are taken to add up.
            if (known.HalfWidthDb > 0) own.Add(UncertaintyComponent.FromHalfWidth(name + " over angle", "angle of incidence", known.HalfWidthDb, UncertaintyDistribution.Rectangular));
            components.AddRange(own);
            terms.Add(new(r.Acts, name, sign * known.LevelDb, new UncertaintyBudget(own).Standard, string.Join(", ", known.Parts.Select(p => p.Source)), known.StatesUncertainty ? null : "it states no uncertainty"));
        }
        foreach (var screen in station.Chain.Where(d => d.Kind == DeviceKind.Windscreen.Key && station.Curves.All(c => c.Device.Id != d.Id)))
        {
            if (GreatestLoss(screen, station.Day) is var (db, source)) components.Add(UncertaintyComponent.FromHalfWidth("insertion loss of " + screen.Name, source, db, UncertaintyDistribution.Rectangular));
        }
        var budget = new UncertaintyBudget(components);
        var isWithin = band.MiddleHz >= applied.UsableFromHz && band.MiddleHz <= applied.UsableToHz;
        var k = budget.CoverageFactor();
        return new(band, terms, applied.NormalisationDb, isOpen ? null : terms.Sum(t => t.ValueDb) + applied.NormalisationDb, isOpen ? null : budget.Standard, k, isWithin);
    }

    private sealed record Acting(DeviceState Device, CurveActs Acts, DirectionalResponse? Response);
}

/// <summary>The correction of one band.</summary>
/// <param name="Band">The band.</param>
/// <param name="Terms">What the devices' curves come to, each with its sign, to be added to a measured level, in dB.</param>
/// <param name="NormalisationDb">What the mount comes to, to be added, in dB.</param>
/// <param name="TotalDb">All of it; null where a curve does not reach the band.</param>
/// <param name="StandardDb">Combined standard uncertainty of a level with sensitivity and correction applied, in dB; null with the total.</param>
/// <param name="CoverageFactor">k.</param>
/// <param name="IsWithinMount">Whether the mount keeps its normalisation there.</param>
public sealed record BandCorrection(ThirdOctave Band, IReadOnlyList<BandTerm> Terms, double NormalisationDb, double? TotalDb, double? StandardDb, double CoverageFactor, bool IsWithinMount)
{
    /// <summary>Expanded uncertainty in dB; null with the total.</summary>
    public double? ExpandedDb => CoverageFactor * StandardDb;
}

/// <summary>What one device's curves come to in a band.</summary>
/// <param name="Acts">What the device does to a level.</param>
/// <param name="Name">What it is.</param>
/// <param name="ValueDb">To be added to a measured level, in dB.</param>
/// <param name="StandardDb">Its standard uncertainty in dB, the direction included.</param>
/// <param name="Source">The certificates.</param>
/// <param name="Remark">What was assumed; null where nothing was.</param>
public sealed record BandTerm(CurveActs Acts, string Name, double ValueDb, double StandardDb, string Source, string? Remark);

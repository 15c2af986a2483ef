using MicRegister.Metrology.Responses;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>What is to be added to the level of each third-octave band that a chain recorded, for the free field without a windscreen.</summary>
/// <param name="AngleDeg">Angle of incidence in °; null where nobody stated one, so that all that the curves hold is taken as alike.</param>
/// <param name="HalfWidthDeg">How far it may lie from there, in °.</param>
/// <param name="AngleSource">Where the angle comes from.</param>
/// <param name="ReferenceHz">Frequency that responses are relative to, in Hz: that of the sensitivity.</param>
/// <param name="Bands">From the lowest to the highest of the campaign's band of interest.</param>
/// <param name="Cautions">What must be known of them; empty where nothing.</param>
public sealed record BandCorrections(
    double? AngleDeg, double HalfWidthDeg, string AngleSource, double ReferenceHz, IReadOnlyList<BandCorrection> Bands,
    IReadOnlyList<string> Cautions)
{
    /// <summary>Reference frequency where nothing states one: 250 Hz (common practice, no source).</summary>
    public const double UsualHz = 250;

    /// <summary>Works the corrections of a station out.</summary>
    /// <param name="station">What applies to it.</param>
    /// <param name="plan">States the band of interest; null takes 50 Hz to 10 kHz.</param>
    /// <param name="read">Gives the curves of an attachment by angle, by its SHA-256; null where it is not here or holds no figures.</param>
    /// <param name="angleDeg">An angle to work with in place of the stated one, in °, 0 to 180; null takes the stated one.</param>
    /// <returns>Null where no sensitivity is known.</returns>
    public static BandCorrections? Of(
        StationTrace station, CampaignPlanned? plan, Func<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>?> read,
        double? angleDeg = null)
    {
        if (ContextOf(station, plan, read.Invoke, angleDeg) is not { } c) return null;
        var source = angleDeg is not null ? "asked for" : station.Incidence is { } stated ? $"fact {stated.Fact}" : "not stated";
        return new(c.AngleDeg, c.HalfWidthDeg, source, c.ReferenceHz, c.Bands, BandCautions.Ask(c));
    }

    /// <summary>All that the cautions look at, the corrections among it; null where no sensitivity is known.</summary>
    internal static BandContext? ContextOf(StationTrace station, CampaignPlanned? plan, CurveReader read, double? angleDeg = null)
    {
        if (station.Applied is not { } applied) return null;
        var reference = applied.ReferenceHz ?? UsualHz;
        var said = station.Incidence?.Said;
        var half = angleDeg is null ? said?.HalfWidthDeg ?? 0 : 0;
        var acting = ActingResponse.Of(station, read, reference);
        var context = new BandContext(station, applied, reference, acting, angleDeg ?? said?.AngleDeg, half);
        return context with { Bands = [.. BandsOf(plan).Select(b => Band(context, b))] };
    }

    private static IEnumerable<ThirdOctave> BandsOf(CampaignPlanned? plan)
    {
        // A plan from elsewhere may state a band that cannot be.
        var isPossible = plan is { LowestHz: >= 1, HighestHz: <= 1e6 } && plan.LowestHz <= plan.HighestHz;
        return isPossible ? ThirdOctave.Between(plan!.LowestHz, plan.HighestHz) : ThirdOctave.Between(50, 10_000);
    }

    private static BandCorrection Band(BandContext c, ThirdOctave band)
    {
        var terms = new List<BandTerm>();
        var components = new List<UncertaintyComponent>();
        var isOpen = false;
        foreach (var r in c.Responses)
        {
            var level = c.AngleDeg is { } angle
                ? r.Response?.At(band.MiddleHz, angle, c.HalfWidthDeg)
                : r.Response?.Anywhere(band.MiddleHz);
            if (level is not { } known)
            {
                isOpen = true;
                continue;
            }
            var (sign, what) = r.Acts == CurveActs.Response ? (-1, "response") : (1, "insertion loss");
            var name = $"{what} of {r.Device.Name}";
            List<UncertaintyComponent> own = [.. known.Parts.Select(p => new UncertaintyComponent(name, p.Source, p.StandardDb, sign))];
            // The direction moves all curves at once; which way is not known, so they are taken to add up.
            if (known.HalfWidthDb > 0)
            {
                own.Add(UncertaintyComponent.FromHalfWidth(
                    name + " over angle", UncertaintySources.Angle, known.HalfWidthDb, UncertaintyDistribution.Rectangular));
            }
            components.AddRange(own);
            terms.Add(new(
                r.Acts, name, sign * known.LevelDb, new UncertaintyBudget(own).Standard,
                string.Join(", ", known.Parts.Select(p => p.Source)),
                known.StatesUncertainty ? null : "it states no uncertainty"));
        }
        foreach (var screen in c.ScreensWithoutCurve)
        {
            if (c.GreatestLoss(screen) is not var (db, source)) continue;
            var name = "insertion loss of " + screen.Name;
            components.Add(UncertaintyComponent.FromHalfWidth(name, source, db, UncertaintyDistribution.Rectangular));
        }
        var isWithin = band.MiddleHz >= c.Applied.UsableFromHz && band.MiddleHz <= c.Applied.UsableToHz;
        double? total = isOpen ? null : terms.Sum(t => t.ValueDb) + c.Applied.NormalisationDb;
        var all = c.Applied.Known.With(components);
        var volts = new UnitUncertainty(all.In(SensitivityUnit.Volts));
        return new(band, terms, c.Applied.NormalisationDb, total, isOpen ? null : volts.StandardDb, volts.CoverageFactor, isWithin)
        {
            Sensitivity = isOpen ? null : volts.Part(UncertaintyPart.Sensitivity),
            MountAndDirection = isOpen ? null : volts.Part(UncertaintyPart.MountAndDirection),
            InFullScale = isOpen || !all.HasFullScale ? null : new(all.In(SensitivityUnit.FullScale)),
        };
    }
}

/// <summary>The correction of one band.</summary>
/// <param name="Band">The band.</param>
/// <param name="Terms">What the devices' curves come to, each with its sign, to be added to a measured level, in dB.</param>
/// <param name="NormalisationDb">What the mount comes to, to be added, in dB.</param>
/// <param name="TotalDb">All of it; null where a curve does not reach the band.</param>
/// <param name="StandardDb">
/// Combined standard uncertainty of a level with the sensitivity in V/Pa and the correction applied, in dB; null with the total.
/// </param>
/// <param name="CoverageFactor">k.</param>
/// <param name="IsWithinMount">Whether the mount keeps its normalisation there.</param>
public sealed record BandCorrection(
    ThirdOctave Band, IReadOnlyList<BandTerm> Terms, double NormalisationDb, double? TotalDb, double? StandardDb, double CoverageFactor,
    bool IsWithinMount)
{
    /// <summary>The same with the sensitivity in full scale/Pa applied; null with the total, and where the range is not known.</summary>
    public UnitUncertainty? InFullScale { get; init; }

    /// <summary>Expanded uncertainty in dB, with the sensitivity in V/Pa; null with the total.</summary>
    public double? ExpandedDb => CoverageFactor * StandardDb;

    /// <summary>Uncertainty of sensitivity in V/Pa and responses alone; null with the total.</summary>
    public PartUncertainty? Sensitivity { get; init; }

    /// <summary>Uncertainty of mount and direction alone; null with the total.</summary>
    public PartUncertainty? MountAndDirection { get; init; }
}

/// <summary>What one device's curves come to in a band.</summary>
/// <param name="Acts">What the device does to a level.</param>
/// <param name="Name">What it is.</param>
/// <param name="ValueDb">To be added to a measured level, in dB.</param>
/// <param name="StandardDb">Its standard uncertainty in dB, the direction included.</param>
/// <param name="Source">The certificates.</param>
/// <param name="Remark">What was assumed; null where nothing was.</param>
public sealed record BandTerm(CurveActs Acts, string Name, double ValueDb, double StandardDb, string Source, string? Remark);

using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;

namespace MicRegister.Register.Tracing;

/// <summary>
/// Covariances between what applies to the stations of an event: sensitivity level and normalisation of the mount together.
/// </summary>
/// <remarks>GUM (JCGM 100:2008) 5.2.2 and F.1.2.3. A mean of stations is less certain than if they were independent, a difference more.</remarks>
/// <param name="Stations">Stations, or parts of a station, for which something is known.</param>
/// <param name="WithoutResult">Stations, or parts of one, for which none is known in that unit: they have no row.</param>
/// <param name="Unit">The unit of all of the levels: what converts to it is part of it.</param>
public sealed record EventCovariance(
    IReadOnlyList<StationTrace> Stations, IReadOnlyList<StationTrace> WithoutResult, SensitivityUnit Unit)
{
    private const string OfMounts =
        "The deviation of a mount is taken as one for all stations of its sort: where each has its own, differences of stations are less "
        + "certain than these covariances say; with those of the sensitivity alone the mount's part can be added for each station.";

    private const string OfWords =
        "Certificates have in common what they were measured against where that is a device of this register; what a laboratory's "
        + "certificates have in common beyond that is not known and not counted.";

    private readonly List<IReadOnlyList<UncertaintyComponent>> _budgets = [.. Stations.Select(s => s.Applied!.Known.In(Unit))];

    /// <summary>Makes it of what applies to an event.</summary>
    /// <param name="trace">The event.</param>
    /// <param name="unit">Unit of the levels.</param>
    public static EventCovariance Of(EventTrace trace, SensitivityUnit unit = SensitivityUnit.Volts)
    {
        bool IsKnown(StationTrace s) => s.Applied?.In(unit) is not null;
        return new([.. trace.Stations.Where(IsKnown)], [.. trace.Stations.Where(s => !IsKnown(s))], unit);
    }

    /// <summary>Names of the rows and columns: the station, with the begin where it has several parts. Each is there once.</summary>
    public IReadOnlyList<string> Names => [.. Stations.Select(Name)];

    /// <summary>Covariance of two results in dB²; of one with itself it is the square of its standard uncertainty.</summary>
    /// <param name="row">Index of the one.</param>
    /// <param name="column">Index of the other.</param>
    /// <param name="part">One part of the uncertainty alone; null for all of it.</param>
    public double At(int row, int column, UncertaintyPart? part = null) =>
        UncertaintyBudget.Covariance(_budgets[row].Where(IsOf(part)), _budgets[column].Where(IsOf(part)));

    /// <summary>What must be known of the figures.</summary>
    public IReadOnlyList<string> Cautions => 
        [OfWords, .. Stations.Any(HasMount) ? new[] { OfMounts } : [], .. Unknown, .. OfGains, .. Missing];

    private IEnumerable<string> Unknown => Stations.SelectMany(s => s.Links)
        .Where(l => l.Depth > 0 && (l.Certificate?.InForce is not { } force || ResultLevel.Of(force)?.StandardUncertaintyDb is null))
        .Select(l => $"The uncertainty of {l.Device.Name} as a reference is not known: what was measured against it has more in common "
            + "than is counted here.")
        .Distinct(StringComparer.Ordinal);

    private IEnumerable<string> OfGains => Stations.Where(s => s.Applied!.Known.OfGain(Unit) != 0 && s.Applied.GainCaution is not null)
        .Select(s => $"{Name(s)}: {s.Applied!.GainCaution}");

    private IEnumerable<string> Missing => WithoutResult.Select(s => $"{Name(s)} has no row: "
        + (s.Applied is null ? "no sensitivity is known." : "the range of its channel is not known."));

    private static bool HasMount(StationTrace s) => s.Applied!.Part(UncertaintyPart.MountAndDirection).StandardDb > 0;

    /// <summary>A station's name among those of an event.</summary>
    public string Name(StationTrace station) => Stations.Concat(WithoutResult).Count(s => s.Station == station.Station) == 1
        ? station.Station
        : $"{station.Station} from {Events.EventBook.Text(station.FromMs)}";

    private static Func<UncertaintyComponent, bool> IsOf(UncertaintyPart? part) =>
        c => part is null || UncertaintySources.PartOf(c) == part;
}

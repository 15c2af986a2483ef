using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Labels;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Api;

/// <summary>What applies to an event.</summary>
/// <param name="Event">The event.</param>
/// <param name="Rule">Which sensitivity its campaign applies.</param>
/// <param name="Verdict">Valid where all its stations are, not valid where none can be used, doubtful in between.</param>
/// <param name="Stations">In order of stations, then of time.</param>
/// <param name="Recorded">What is known of its recording, in a sentence.</param>
public sealed record TraceView(
    RecordedEvent Event, SensitivityRule Rule, TraceVerdict Verdict, IReadOnlyList<TraceView.StationView> Stations, string Recorded)
{
    public static TraceView Of(EventTrace trace) =>
        new(trace.Event, trace.Rule, trace.Verdict, [.. trace.Stations.Select(StationView.Of)], trace.Recorded);

    /// <summary>One station, or one part of it.</summary>
    public sealed record StationView(
        string Station, DateTimeOffset From, DateTimeOffset To, TraceVerdict Verdict, IReadOnlyList<TraceReason> Reasons,
        IReadOnlyList<DeviceView> Devices, string? Placement, string? CheckBefore, string? CheckAfter, IReadOnlyList<LinkView> Links,
        AppliedView? Applied, IReadOnlyList<InPlaceEvidence> InPlace, IReadOnlyList<CurveOf> Curves, IncidenceView? Incidence)
    {
        public static StationView Of(StationTrace s) => new(
            s.Station, At(s.FromMs), At(s.ToMs), s.Verdict, s.Reasons,
            [.. s.Chain.Select(d => new DeviceView(d.Id, d.Kind, d.Name, d.Label))], s.Placement?.Fact.ToString(),
            s.Before?.Fact.ToString(), s.After?.Fact.ToString(),
            [.. s.Links.Select(l => new LinkView(
                l.Depth, l.Device.Id, l.Device.Name, l.Certificate?.Fact.ToString(), l.Certificate?.Day, l.RestsOn,
                l.InForce?.Fact.ToString(), l.DifferenceDb))],
            s.Applied is { } a ? AppliedView.Of(a) : null, s.InPlace,
            [.. s.Curves.Select(c => new CurveOf(
                c.Device.Id, c.Acts, c.Certificate.Fact.ToString(), c.Certificate.Day, c.AngleDeg))],
            s.Incidence is { } i
                ? new(i.Fact.ToString(), i.Said.AngleDeg, i.Said.HalfWidthDeg ?? 0, i.Said.Reason, i.IsOfEvent)
                : null);

        private static DateTimeOffset At(long ms) => DateTimeOffset.FromUnixTimeMilliseconds(ms);
    }

    /// <summary>A device of a chain.</summary>
    public sealed record DeviceView(string Id, string? Kind, string Name, string? Label);

    /// <summary>A certificate on the way down.</summary>
    public sealed record LinkView(int Depth, string Device, string Name, string? Certificate, DateOnly? Day, string? RestsOn,
        string? InForce, double? DifferenceDb);

    /// <summary>A curve that acts on what the chain recorded.</summary>
    public sealed record CurveOf(string Device, CurveActs Acts, string Certificate, DateOnly Day, double? AngleDeg);

    /// <summary>The direction that the sound came from.</summary>
    public sealed record IncidenceView(string Fact, double AngleDeg, double HalfWidthDeg, string Reason, bool IsOfEvent);

    /// <summary>What to apply.</summary>
    /// <param name="FullScaleTerms">What leads from V/Pa to full scale/Pa, term by term; empty where the range is not known.</param>
    /// <param name="StandardDb">Combined standard uncertainty in dB, in V/Pa; so are k, U and its parts.</param>
    /// <param name="InFullScale">
    /// The same in full scale/Pa, where the channel's gain counts otherwise; null where the range is not known.
    /// </param>
    public sealed record AppliedView(
        SensitivityRule Rule, double VoltsPerPascal, double VoltsDb, double? FullScalePerPascal, double? FullScaleDb,
        IReadOnlyList<CheckTerm> Terms, IReadOnlyList<CheckTerm> FullScaleTerms, double NormalisationDb, double UsableFromHz,
        double? UsableToHz, string? Caution, double StandardDb, double CoverageFactor, double ExpandedDb, PartUncertainty Sensitivity,
        PartUncertainty MountAndDirection, UnitView? InFullScale, string? UncertaintyNote, IReadOnlyList<BudgetOfSource> Budget,
        double? ReferenceHz)
    {
        public static AppliedView Of(AppliedSensitivity a) => new(
            a.Rule, a.VoltsPerPascal, a.VoltsDb, a.FullScalePerPascal, a.FullScaleDb, a.Terms, a.FullScaleTerms, a.NormalisationDb,
            a.UsableFromHz, double.IsFinite(a.UsableToHz) ? a.UsableToHz : null, a.Caution, a.StandardDb, a.CoverageFactor, a.ExpandedDb,
            a.Part(UncertaintyPart.Sensitivity), a.Part(UncertaintyPart.MountAndDirection), UnitView.Of(a.InFullScale), a.UncertaintyNote,
            a.Sources, a.ReferenceHz);
    }

    /// <summary>How well a level is known in one unit.</summary>
    /// <param name="StandardDb">Combined standard uncertainty in dB.</param>
    /// <param name="CoverageFactor">k.</param>
    /// <param name="ExpandedDb">Expanded uncertainty in dB.</param>
    /// <param name="Sensitivity">
    /// That of sensitivity and responses alone; what mount and direction make of it is the same in all units.
    /// </param>
    public sealed record UnitView(double StandardDb, double CoverageFactor, double ExpandedDb, PartUncertainty Sensitivity)
    {
        public static UnitView? Of(UnitUncertainty? known) => known is null
            ? null
            : new(known.StandardDb, known.CoverageFactor, known.ExpandedDb, known.Part(UncertaintyPart.Sensitivity));
    }
}

/// <summary>A doubt.</summary>
public sealed record DoubtView(
    string Key, DoubtKind Kind, string Device, string Fact, DateTimeOffset? From, DateTimeOffset? To, double? GreatestDb,
    string Unit, string Text, bool IsOfChecks)
{
    public static DoubtView Of(Doubt d) => new(
        d.Key, d.Kind, d.Device, d.Fact.ToString(), At(d.FromMs), At(d.ToMs), d.GreatestDb, d.Unit, d.Text, d.IsOfChecks);

    // An open end is no instant.
    private static DateTimeOffset? At(long ms) => ms is long.MinValue or long.MaxValue ? null : DateTimeOffset.FromUnixTimeMilliseconds(ms);
}

/// <summary>What a doubt touches.</summary>
public sealed record DoubtReportView(DoubtView Doubt, IReadOnlyList<DoubtReportView.Touch> Touched, int Checks, IReadOnlyList<string> ToDo)
{
    public static DoubtReportView Of(DoubtReport r) => new(
        DoubtView.Of(r.Doubt),
        [.. r.Touched.Select(t => new Touch(
            t.Event.Id, t.Event.Name, t.Event.Campaign, DateTimeOffset.FromUnixTimeMilliseconds(t.Event.StartMs), t.Stations,
            t.IsRescued, t.Settled?.What.IsConfirmed, t.Settled?.What.Reason))],
        r.Checks, r.ToDo);

    /// <summary>An event that it touches.</summary>
    public sealed record Touch(
        string Event, string Name, string Campaign, DateTimeOffset Start, IReadOnlyList<TouchedStation> Stations, bool IsRescued,
        bool? IsConfirmed, string? Reason);
}

using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>All that corrections by band are worked out from, and all that their cautions look at.</summary>
/// <param name="Station">What applies to the station.</param>
/// <param name="Applied">Its sensitivity.</param>
/// <param name="ReferenceHz">Frequency that responses are relative to, in Hz.</param>
/// <param name="Responses">What its devices' curves come to.</param>
/// <param name="AngleDeg">Angle of incidence in °; null where nobody stated one.</param>
/// <param name="HalfWidthDeg">How far it may lie from there, in °.</param>
internal sealed record BandContext(
    StationTrace Station, AppliedSensitivity Applied, double ReferenceHz, IReadOnlyList<ActingResponse> Responses, double? AngleDeg,
    double HalfWidthDeg)
{
    /// <summary>The corrections, once they are worked out.</summary>
    public IReadOnlyList<BandCorrection> Bands { get; init; } = [];

    /// <summary>Windscreens without a curve, whose greatest insertion loss counts as uncertainty.</summary>
    public IEnumerable<DeviceState> ScreensWithoutCurve =>
        Station.Chain.Where(d => d.Kind == DeviceKind.Windscreen.Key && Station.Curves.All(c => c.Device.Id != d.Id));

    /// <summary>Microphones without a response of their own or of a set that they stand in.</summary>
    public IEnumerable<DeviceState> MicrophonesWithoutCurve => Station.Chain.Where(d =>
        d.Kind == DeviceKind.Microphone.Key && Station.Curves.All(c => c.Device.Id != d.Id && !c.Certificate.Set.Contains(d.Id)));

    /// <summary>The greatest insertion loss of a windscreen: one figure for all bands and angles, in dB and without its sign.</summary>
    public (double Db, string Source)? GreatestLoss(DeviceState screen)
    {
        var certificate = CalibrationSeries.Newest(screen.CertifiedBy(Station.Day), "insertion-loss");
        if (certificate?.InForce is { } result && ResultLevel.Of(result) is { } level)
            return (Math.Abs(level.LevelDb), "certificate " + certificate.Fact);
        return screen.Number(DeviceField.InsertionLossDb) is { } field ? (Math.Abs(field), "details of " + screen.Id) : null;
    }
}

/// <summary>A device's curves as one response.</summary>
/// <param name="Device">The device.</param>
/// <param name="Acts">What it does to a level.</param>
/// <param name="Response">The response; null where a curve cannot be read, so that bands stay open.</param>
/// <param name="Unread">The curve that cannot be read; null where all can.</param>
/// <param name="MissesReference">Whether it does not reach the frequency of the sensitivity, so that it is taken as it stands.</param>
internal sealed record ActingResponse(
    DeviceState Device, CurveActs Acts, DirectionalResponse? Response, ActingCurve? Unread = null, bool MissesReference = false)
{
    /// <summary>The responses of a station, a device and what it does at a time.</summary>
    public static IReadOnlyList<ActingResponse> Of(StationTrace station, CurveReader read, double referenceHz) =>
        [.. station.Curves.GroupBy(c => (c.Device.Id, c.Acts)).Select(g => Of([.. g], read, referenceHz))];

    // The curves of one device, the newest first.
    private static ActingResponse Of(IReadOnlyList<ActingCurve> acting, CurveReader read, double referenceHz)
    {
        var (device, acts) = (acting[0].Device, acting[0].Acts);
        var curves = new List<DirectionalCurve>();
        foreach (var one in acting)
        {
            if (curves.Exists(c => c.AngleDeg is null)) break;
            if (read(one.Sha256) is not { } table) return new(device, acts, null, Unread: one);
            foreach (var (own, curve) in table)
            {
                var at = own ?? one.AngleDeg;
                // The newest of each angle counts, and one for every direction only where it is the newest of all.
                if (at is null ? curves.Count > 0 : curves.Exists(c => c.AngleDeg == at)) continue;
                curves.Add(new(at, curve, "curve of certificate " + one.Certificate.Fact));
            }
        }
        if (curves.Count == 0) return new(device, acts, null);
        if (acts != CurveActs.Response) return new(device, acts, new(curves));
        // What all of them are relative to is the level of the lowest angle, where the sensitivity holds.
        return curves.MinBy(c => c.AngleDeg ?? 0)!.Curve.AtBand(referenceHz) is var (zero, _)
            ? new(device, acts, new([.. curves.Select(c => c with { Curve = c.Curve.Less(zero) })]))
            : new(device, acts, new(curves), MissesReference: true);
    }
}

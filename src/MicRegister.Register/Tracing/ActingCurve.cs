using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>A curve that acts on what a chain records, as it was in force that day.</summary>
/// <param name="Device">The device.</param>
/// <param name="Acts">What it does to a level.</param>
/// <param name="Certificate">The certificate that states it.</param>
/// <param name="Sha256">SHA-256 of the attachment with the figures.</param>
/// <param name="AngleDeg">Angle of incidence that it was measured at; null where it holds for every direction, or its table names angles.</param>
public sealed record ActingCurve(DeviceState Device, CurveActs Acts, DeviceCertificate Certificate, string Sha256, double? AngleDeg)
{
    /// <summary>Curves of a chain, the newest of each device first.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="chain">Its devices.</param>
    /// <param name="day">What was certified later says nothing of that day.</param>
    /// <param name="mount">How the microphone stands: in a plate its response to pressure acts, otherwise that in the free field.</param>
    internal static IReadOnlyList<ActingCurve> Of(Register register, IReadOnlyList<DeviceState> chain, DateOnly day, Mount? mount)
    {
        var curves = new List<ActingCurve>();
        foreach (var device in chain)
        {
            var counting = device.Certificates.Where(c => c.Day <= day && c.Issued.Curve is not null && device.ReliesOn(c));
            foreach (var c in counting.OrderByDescending(c => c.Day).ThenByDescending(device.RankOf).ThenByDescending(c => c.Fact))
            {
                if (ActsAs(c.Issued.Quantity) is not { } acts
                    || (acts == CurveActs.Response && IsOfMicrophone(chain, device, c) && !Fits(c.Issued.Field, mount))
                    || c.Issued.AngleDeg is not (null or (>= 0 and <= 180)))
                {
                    continue;
                }
                // A set that was calibrated together has one curve, and none once it is parted.
                if (curves.Exists(k => k.Certificate.Fact == c.Fact) || !c.Set.All(id => chain.Any(d => register.EntriesOf(id)[0] == d.Id))) continue;
                var usualDeg = acts == CurveActs.Response && c.Issued.Field == "free-field" ? 0 : (double?)null;
                curves.Add(new(device, acts, c, c.Issued.Curve!, c.Issued.AngleDeg ?? usualDeg));
            }
        }
        return curves;
    }

    // The sound field matters where a microphone was measured, alone or in a set.
    private static bool IsOfMicrophone(IReadOnlyList<DeviceState> chain, DeviceState device, DeviceCertificate certificate) =>
        device.Kind == DeviceKind.Microphone.Key
            || (certificate.Set.Count > 1
                && chain.Any(d => d.Kind == DeviceKind.Microphone.Key && d.Certificates.Any(c => c.Fact == certificate.Fact)));

    private static CurveActs? ActsAs(string quantity) => quantity switch
    {
        "response" or "sensitivity" or "gain" => CurveActs.Response,
        "insertion-loss" => CurveActs.InsertionLoss,
        _ => null,
    };

    /// <summary>
    /// Whether a response in a sound field tells what a microphone does in its mount; one that does not name its field is taken to.
    /// </summary>
    internal static bool Fits(string? field, Mount? mount) =>
        field is null || field == (mount is Mount.FlushPlate or Mount.InvertedPlate ? "pressure" : "free-field");
}

/// <summary>What a curve does to a level.</summary>
public enum CurveActs
{
    /// <summary>It raises what is recorded, relative to its reference frequency: to be taken off.</summary>
    Response,

    /// <summary>It lowers what reaches the microphone: to be added.</summary>
    InsertionLoss,
}

using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Calibration;

/// <summary>Whether a maker's data stand in for a calibration, where a profile lets them.</summary>
public static class MakersData
{
    /// <summary>
    /// Whether they do: they are stored, the newest inspection found the device undamaged and clean, and no damage or malfunction was told
    /// since.
    /// </summary>
    /// <param name="device">The device, as it was known on the day.</param>
    /// <param name="limit">The limit on the age of its calibration.</param>
    /// <remarks>14 CFR 36, A36.3.9.10 (seen, 2021 edition). That an inspection tells it: common practice, no source.</remarks>
    public static bool Serve(DeviceState device, ProfileLimit? limit) =>
        limit?.Text == LimitKey.ToFirstDayOrIntact
        && device.Number(DeviceField.InsertionLossDb) is not null
        && device.Inspections.LastOrDefault() is { What.Passed: true } seen
        && !device.Services.Any(s => s.What.What is ServiceKind.Damage or ServiceKind.Malfunction && s.Day >= seen.Day);
}

using MicRegister.Register.Facts;

namespace MicRegister.Register.Devices;

/// <summary>
/// A body of another folder that says something of a device; that folder keeps what it says as a part of the device's state.
/// </summary>
internal interface IDeviceFact
{
    /// <summary>The device's state after the fact.</summary>
    /// <param name="device">The state before it.</param>
    /// <param name="fact">The fact that says so.</param>
    /// <param name="counts">Whether it counts; what was annulled may still be shown.</param>
    DeviceState ApplyTo(DeviceState device, Fact fact, bool counts);
}

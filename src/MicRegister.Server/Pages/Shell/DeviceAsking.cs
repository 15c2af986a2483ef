using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using Microsoft.AspNetCore.Components;

namespace MicRegister.Server.Pages.Shell;

/// <summary>What a dialog asks about one device.</summary>
public abstract class DeviceAsking : AskingPage
{
    [Parameter, EditorRequired] public DeviceState Device { get; set; } = default!;

    /// <summary>The device as a subject of facts.</summary>
    protected string About => Subject.Device(Device.Id);
}

namespace MicRegister.Register.Devices;

/// <summary>Words for states of use.</summary>
public static class DeviceStatusWords
{
    extension(DeviceStatus status)
    {
        /// <summary>The state as people say it.</summary>
        public string InWords => status switch
        {
            DeviceStatus.InService => "in service",
            DeviceStatus.Away => "away",
            DeviceStatus.OutOfService => "out of service",
            DeviceStatus.Lost => "lost",
            _ => "retired",
        };
    }
}

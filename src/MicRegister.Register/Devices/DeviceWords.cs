namespace MicRegister.Register.Devices;

/// <summary>
/// Words for what is said of devices, in one place for all who read them; written so that they can stand within a sentence.
/// </summary>
public static class DeviceWords
{
    extension(DeviceStatus status)
    {
        /// <summary>State of use: "it is out of service".</summary>
        public string InWords => status switch
        {
            DeviceStatus.InService => "in service",
            DeviceStatus.Away => "away",
            DeviceStatus.OutOfService => "out of service",
            DeviceStatus.Lost => "lost",
            DeviceStatus.Retired => "retired",
            _ => throw new ArgumentOutOfRangeException(nameof(status), status, null),
        };
    }

    extension(ServiceKind kind)
    {
        /// <summary>What was done to a device.</summary>
        public string InWords => kind switch
        {
            ServiceKind.Maintenance => "maintenance",
            ServiceKind.Repair => "repair",
            ServiceKind.Modification => "modification",
            ServiceKind.Damage => "damage",
            ServiceKind.Malfunction => "malfunction",
            ServiceKind.Verification => "verification",
            ServiceKind.Planned => "planned",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };
    }
}

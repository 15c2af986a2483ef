using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Devices;

/// <summary>A device entered the register. Subject: the device. Registrations of one id agree, or a finding shows how they differ.</summary>
/// <param name="Kind">Key of a <see cref="DeviceKind"/>.</param>
/// <param name="Maker">Maker, in the user's words.</param>
/// <param name="Model">Model, in the user's words.</param>
/// <param name="Serial">Serial number, exactly as it stands on the device.</param>
/// <param name="Details">Further details by the key of their <see cref="DeviceField"/>.</param>
public sealed record DeviceRegistered(string Kind, string? Maker, string? Model, string? Serial, SortedDictionary<string, FieldValue> Details) : FactBody;

/// <summary>Details of a device were added or corrected. Subject: the device.</summary>
/// <param name="Set">New values by key; kind, maker, model and serial can be corrected too. The id stays.</param>
/// <param name="Clear">Keys whose values were wrong and are not known.</param>
public sealed record DeviceDescribed(SortedDictionary<string, FieldValue> Set, IReadOnlyList<string> Clear) : FactBody;

/// <summary>A device went to another place. Subject: the device.</summary>
/// <param name="Place">The place in the user's words.</param>
public sealed record DeviceMoved(string Place) : FactBody;

/// <summary>A device became fit or unfit for use. Subject: the device.</summary>
public sealed record DeviceStatusChanged(DeviceStatus Status, string? Reason) : FactBody;

/// <summary>Something worth knowing about a device. Subject: the device.</summary>
public sealed record DeviceNoted(string Text) : FactBody;

/// <summary>Work was done on a device, or damage found: ISO/IEC 17025:2017, 6.4.13 g and h. Subject: the device.</summary>
/// <param name="What">Sort of work or damage.</param>
/// <param name="Text">What was done or found.</param>
/// <param name="BeginsAnew">Whether results before and after are no one series, as after a new diaphragm.</param>
public sealed record DeviceServiced(ServiceKind What, string Text, bool BeginsAnew) : FactBody;

/// <summary>A device, mostly a plate or a windscreen, was looked at and measured. Subject: the device.</summary>
/// <param name="Passed">Whether it was found fit.</param>
/// <param name="FlushStepMm">How far the capsule stands above (positive) or below the plate, in mm.</param>
/// <param name="GapMm">Gap of an inverted capsule over the plate, in mm.</param>
/// <param name="FlatnessMm">Greatest deviation from flat, in mm.</param>
/// <param name="Text">Remarks.</param>
public sealed record DeviceInspected(bool Passed, double? FlushStepMm, double? GapMm, double? FlatnessMm, string? Text) : FactBody
{
    /// <summary>Whether it was found undamaged; null where nobody said.</summary>
    public bool? Undamaged { get; init; }

    /// <summary>Whether it was found uncontaminated, by dirt, oil or water; null where nobody said.</summary>
    public bool? Uncontaminated { get; init; }

    /// <summary>The maker's data that are kept for it, in words: document, edition, where it lies; null where nobody said.</summary>
    public string? MakersData { get; init; }

    /// <summary>SHA-256 of the attachment with the maker's data; null where none is attached.</summary>
    public string? Attachment { get; init; }
}

/// <summary>Two entries were found to be one device. Subjects: both devices, the one to keep first.</summary>
public sealed record DevicesJoined(string Keep, string Other, string Reason) : FactBody, IJoinsEntries
{
    bool IJoinsEntries.IsParting => false;
}

/// <summary>Two joined entries were found to be two devices after all. Subjects: both devices.</summary>
public sealed record DevicesParted(string Keep, string Other, string Reason) : FactBody, IJoinsEntries
{
    bool IJoinsEntries.IsParting => true;
}

/// <summary>Whether a device can be used.</summary>
public enum DeviceStatus
{
    /// <summary>In the house and fit for use.</summary>
    InService,

    /// <summary>Elsewhere: at a laboratory, lent, on the way.</summary>
    Away,

    /// <summary>Not fit for use: damaged, suspect, isolated (ISO/IEC 17025:2017, 6.4.9).</summary>
    OutOfService,

    /// <summary>Nobody knows where it is.</summary>
    Lost,

    /// <summary>Given up for good.</summary>
    Retired,
}

/// <summary>Sort of work on a device.</summary>
public enum ServiceKind
{
    Maintenance,
    Repair,
    Modification,
    Damage,
    Malfunction,
    Verification,
    Planned,
}

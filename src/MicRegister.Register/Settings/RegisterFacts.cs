using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>The register got its name and its home. Of several, the last stated counts. Subject: the register.</summary>
/// <param name="RegisterId">A ULID's text that tells this register from others.</param>
/// <param name="Name">Name for headings and prints.</param>
/// <param name="HomeZone">IANA name of the zone in which bare dates begin.</param>
/// <param name="Offsets">The zone's offsets from UTC, oldest first, so that no machine's zone data is asked.</param>
public sealed record RegisterFounded(string RegisterId, string Name, string HomeZone, IReadOnlyList<ZoneOffset> Offsets) : FactBody;

/// <summary>From an instant on, local time runs ahead of UTC by some minutes.</summary>
/// <param name="FromUtc">Start, as text of an instant; the first one of a list holds for all times before as well.</param>
/// <param name="Minutes">Minutes ahead of UTC, negative behind.</param>
public sealed record ZoneOffset(string FromUtc, int Minutes);

/// <summary>How long things take in this house. Subject: the register.</summary>
/// <param name="LaboratoryDays">Days that a laboratory keeps a device.</param>
/// <param name="ShippingDays">Days on the way, each way.</param>
/// <param name="SwapDays">Days to swap, replan or fetch a device.</param>
/// <param name="InspectionDays">Days to inspect a plate or to look into an alarm.</param>
public sealed record SettingsChosen(int LaboratoryDays, int ShippingDays, int SwapDays, int InspectionDays) : FactBody
{
    /// <summary>What holds until somebody chooses: 20 + 2 · 4 days for a calibration, 2 to swap, 1 to inspect (common practice, no source).</summary>
    public static SettingsChosen Default { get; } = new(20, 4, 2, 1);
}

/// <summary>A client's clock was found wrong. Subject: the register.</summary>
/// <param name="Client">The client.</param>
/// <param name="FromCounter">First counter of that client that this offset applies to; the next notice takes over.</param>
/// <param name="OffsetMs">Milliseconds to add to the client's times.</param>
public sealed record ClientClockNoticed(string Client, long FromCounter, long OffsetMs) : FactBody;

/// <summary>A person took the rows of a file into the register. Subject: the register.</summary>
/// <param name="File">Name of the file, without its folder.</param>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal.</param>
/// <param name="Rows">Rows of the file that stood for something.</param>
/// <param name="Facts">How many facts were new.</param>
/// <param name="Digest">Set digest of those new facts.</param>
public sealed record ImportAccepted(string File, string Sha256, int Rows, int Facts, string Digest) : FactBody;
